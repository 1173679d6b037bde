//! Scatter by level beside a model that has one scatter for all.
//!
//! Where a level of few trials scatters more than a level of many, the common scatter is that of the many, and what rests on the
//! few would seem too sure. Each level's scatter is then taken from its own residuals, and the wider of both answers counts.
//! Two levels of equal size keep the common scatter: there their difference is as sure as it says. So do other levels whose scatters
//! show no sign of differing, unless one of unequal levels has too few trials to show any.

use calefact_stats::contrast::effective_dof;
use calefact_stats::dist::{f_sf, t_quantile};

/// Least degrees of freedom of a level's own scatter; with fewer it takes the common one.
const LEAST_DOF: f64 = 0.5;

/// Trials of a level that cannot show its scatter.
const FEW: usize = 4;
/// p of an F test of a level's scatter against that of the others below which they may differ.
const MAY_DIFFER: f64 = 0.05;

/// A standard uncertainty with its degrees of freedom.
pub(super) type Uncertain = (f64, f64);

/// The scatter of the levels, each with degrees of freedom.
#[derive(Debug)]
pub(super) struct LevelScatter {
    /// Level of each trial.
    level_of: Vec<usize>,
    /// Variance of a single trial by level, and its degrees of freedom.
    variances: Vec<(f64, f64)>,
}

impl LevelScatter {
    /// From the residuals of a model without a variance between blocks: the sum of their squares over the degrees of freedom
    /// that they have left, 1 - h each (h the leverage). `common` is the variance of a single trial by the model, `level_of` gives
    /// the level of each trial. `None` where the common scatter is enough.
    pub(super) fn new(residuals: &[f64], leverage: &[f64], common: (f64, f64), level_of: Vec<usize>) -> Option<Self> {
        let levels = level_of.iter().max()? + 1;
        let mut trials = vec![0; levels];
        let mut sums = vec![(0.0, 0.0); levels];
        for ((residual, leverage), level) in residuals.iter().zip(leverage).zip(&level_of) {
            let (squares, dof) = &mut sums[*level];
            *squares += residual * residual;
            *dof += 1.0 - leverage;
            trials[*level] += 1;
        }
        let is_even = trials.iter().all(|n| *n == trials[0]);
        let has_few = trials.iter().any(|n| *n <= FEW);
        let is_needed = if is_even { levels > 2 && differ(&sums) } else { has_few || differ(&sums) };
        let variance = |(squares, dof): (f64, f64)| if dof < LEAST_DOF { common } else { (squares / dof, dof) };
        is_needed.then(|| Self { level_of, variances: sums.into_iter().map(variance).collect() })
    }

    /// The wider of an uncertainty by the common scatter and that of the same weighted sum of trials by the levels' own
    /// (Welch-Satterthwaite).
    pub(super) fn wider(&self, common: Uncertain, weights: &[f64]) -> Uncertain {
        let mut squares = vec![0.0; self.variances.len()];
        weights.iter().zip(&self.level_of).for_each(|(w, level)| squares[*level] += w * w);
        let parts = || squares.iter().zip(&self.variances).map(|(w2, (variance, dof))| ((w2 * variance).sqrt(), *dof));
        let own = (parts().map(|(u, _)| u * u).sum::<f64>().sqrt(), effective_dof(parts()).max(1.0));
        wider(common, own)
    }

    /// The wider of the common scatter of single trials and that of a level, as standard deviation.
    pub(super) fn wider_of_level(&self, common: Uncertain, level: usize) -> Uncertain {
        let own = self.variances.get(level).map(|(variance, dof)| (variance.sqrt(), dof.max(1.0)));
        own.map_or(common, |own| wider(common, own))
    }
}

/// Whether the scatter of a level may differ from that of the others: squares and degrees of freedom by level.
fn differ(levels: &[(f64, f64)]) -> bool {
    let (squares, dof) = levels.iter().fold((0.0, 0.0), |(s, d), level| (s + level.0, d + level.1));
    levels.iter().any(|&(own, own_dof)| {
        let (others, others_dof) = (squares - own, dof - own_dof);
        let above = f_sf(own / own_dof / (others / others_dof), own_dof, others_dof);
        2.0 * above.min(1.0 - above) < MAY_DIFFER
    })
}

/// The one whose 95 % interval is wider.
fn wider(a: Uncertain, b: Uncertain) -> Uncertain {
    let half = |(u, dof): Uncertain| t_quantile(0.975, dof) * u;
    if half(b) > half(a) { b } else { a }
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_stats::design::Basis;
    use calefact_stats::mixed::MixedFit;
    use nalgebra::{DMatrix, DVector};

    fn scatter(y: &[f64], design: &DMatrix<f64>, fit: &MixedFit, level_of: &[usize]) -> Option<LevelScatter> {
        let basis = Basis::new(design);
        let residuals = basis.residuals(&DVector::from_column_slice(y));
        LevelScatter::new(residuals.as_slice(), &basis.leverage(), fit.total_variance(), level_of.to_vec())
    }

    /// By hand: levels of 2 and 4 trials with residuals -/+2 and -/+0.5. The common variance is (8 + 1) / 4, the levels' own are
    /// 8 / 1 and 1 / 3; their difference has 8 / 2 + (1 / 3) / 4 with 1.04 degrees of freedom.
    #[test]
    fn a_noisy_level_of_few_trials_keeps_its_own_scatter() {
        let y = [8.0, 12.0, 4.5, 5.5, 4.5, 5.5];
        let level_of = vec![0, 0, 1, 1, 1, 1];
        let design = DMatrix::from_fn(6, 2, |row, column| f64::from(u8::from(level_of[row] == column)));
        let fit = MixedFit::new(&y, &design, None).expect("a fit");
        let scatter = scatter(&y, &design, &fit, &level_of).expect("uneven levels");
        let weights = fit.weights(&[1.0, -1.0]);
        let (u, dof) = scatter.wider((1.3, 4.0), &weights);
        let square = 4.0 + 1.0 / 12.0;
        assert!((u * u - square).abs() < 1e-9, "{u}");
        assert!((dof - square * square / (16.0 + 1.0 / 144.0 / 3.0)).abs() < 1e-9, "{dof}");
        assert_eq!(scatter.wider((90.0, 4.0), &weights), (90.0, 4.0));
        let (sd, _) = scatter.wider_of_level((1.5, 4.0), 0);
        assert!((sd - 8.0_f64.sqrt()).abs() < 1e-9, "{sd}");
        assert_eq!(scatter.wider_of_level((1.5, 4.0), 1), (1.5, 4.0));
        let even = [y[0], y[1], y[2], y[3]];
        let design = design.rows(0, 4).into_owned();
        let fit = MixedFit::new(&even, &design, None).expect("a fit");
        assert!(self::scatter(&even, &design, &fit, &[0, 0, 1, 1]).is_none());
    }
}
