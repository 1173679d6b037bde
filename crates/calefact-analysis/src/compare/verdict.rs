//! What can be said of a contrast, in one plain sentence.

use super::groups::Cell;
use crate::Quantity;
use crate::quantity::Better;
use crate::result::{Contrast, ContrastKind, VerdictKind};
use crate::settings::ComparisonRequest;
use crate::words::{self, plural};
use calefact_stats::Traced;
use calefact_stats::contrast::Contrast as Test;
use calefact_stats::power::{Arm, Further, Goal, further_trials};

/// Chance of settling a real difference of the size seen that a number of further trials must give.
pub const POWER: f64 = 0.8;
/// Beyond this many further trials a group, none is advised.
const MOST_MORE: usize = 60;

/// Sets verdict and sentence of a contrast from its adjusted p-value and interval.
pub fn judge(contrast: &mut Contrast, request: &ComparisonRequest, means: (&Traced, &Traced)) {
    let alpha = 1.0 - contrast.estimate.interval.level;
    contrast.verdict = if contrast.p_adjusted < alpha {
        let none = if contrast.kind == ContrastKind::Ratio { 1.0 } else { 0.0 };
        if contrast.estimate.value > none { VerdictKind::Above } else { VerdictKind::Below }
    } else if equivalent(contrast, request.equivalence_margin, means) {
        VerdictKind::Equivalent
    } else {
        VerdictKind::NoConclusion
    };
    if matches!(contrast.verdict, VerdictKind::Above | VerdictKind::Below | VerdictKind::Equivalent) {
        contrast.more_trials = None;
    }
    contrast.sentence = sentence(contrast, request, means);
}

/// Two one-sided tests: the interval of level 1 - 2 alpha lies within the margin (Schuirmann 1987). The margin is a share
/// of the larger mean.
fn equivalent(contrast: &Contrast, margin: Option<f64>, means: (&Traced, &Traced)) -> bool {
    let Some(margin) = margin else { return false };
    let e = &contrast.estimate;
    let level = 1.0 - 2.0 * (1.0 - e.interval.level);
    let half = calefact_stats::dist::t_quantile(0.5 + 0.5 * level, e.dof) * e.std_uncertainty;
    let (low, high) = match contrast.kind {
        ContrastKind::Difference => {
            let m = margin * means.0.value.abs().max(means.1.value.abs());
            (-m, m)
        }
        ContrastKind::Ratio => (1.0 - margin, 1.0 / (1.0 - margin)),
    };
    e.value - half > low && e.value + half < high
}

/// Further trials per group that would show a difference of the size seen with the chance [`POWER`], given the scatter
/// seen and the error both do not share. `None` where the contrast is settled or no advisable number will do.
pub fn more_trials(a: &Cell, b: &Cell, test: &Test, kind: ContrastKind, alpha: f64) -> Option<u32> {
    if kind != ContrastKind::Difference || test.p_value < alpha {
        return None;
    }
    let arm = |cell: &Cell| cell.mean.summary.scatter.map(|s| Arm { n: cell.n(), sd: s.sd });
    let (first, second) = (arm(a)?, arm(b)?);
    let scatter = |arm: Arm| arm.sd * arm.sd / arm.n as f64;
    let lasting = (test.effect_uncertainty.powi(2) - scatter(first) - scatter(second)).max(0.0).sqrt();
    let goal = Goal::Power { difference: test.effect.abs(), power: POWER, alpha };
    match further_trials(first, second, lasting, goal) {
        Further::Each(more) if (1..=MOST_MORE).contains(&more) => u32::try_from(more).ok(),
        _ => None,
    }
}

fn sentence(contrast: &Contrast, request: &ComparisonRequest, means: (&Traced, &Traced)) -> String {
    let q = contrast.quantity;
    let name = |level: &str| format!("{} {level}", request.factor);
    let (a, b) = (name(&contrast.a), name(&contrast.b));
    let trials = format!("{} and {}", plural(contrast.n.0, "trial"), contrast.n.1);
    let gap = gap(contrast);
    match contrast.verdict {
        VerdictKind::Above | VerdictKind::Below => {
            let above = contrast.verdict == VerdictKind::Above;
            let (first, second) = if above { (&a, &b) } else { (&b, &a) };
            let (hi, lo) = if above { (means.0.value, means.1.value) } else { (means.1.value, means.0.value) };
            format!(
                "{first} has the higher {}: {} against {} for {second}{}; {gap} (adjusted p {}), from {trials}",
                q.label(),
                words::number(q, hi),
                words::number(q, lo),
                judgement(q, first, second),
                words::p_value(contrast.p_adjusted),
            )
        }
        VerdictKind::Equivalent => {
            let margin = 100.0 * request.equivalence_margin.unwrap_or(0.0);
            format!("{a} and {b} have the same {} within {margin:.0} %; {gap}, from {trials}", q.label())
        }
        VerdictKind::NoConclusion => {
            format!("no conclusion on {} of {a} and {b} from {trials}: {gap}{}", q.label(), outlook(contrast))
        }
    }
}

fn judgement(q: Quantity, higher: &str, lower: &str) -> String {
    match q.better() {
        Better::Higher => format!(" ({higher} is better)"),
        Better::Lower => format!(" ({lower} is better)"),
        Better::Neither => String::new(),
    }
}

/// The difference or ratio with its interval, in words, seen from the higher of the two where a verdict is given.
fn gap(contrast: &Contrast) -> String {
    let e = &contrast.estimate;
    let level = 100.0 * e.interval.level;
    let turned = contrast.verdict == VerdictKind::Below;
    match contrast.kind {
        ContrastKind::Difference => {
            let sign = if turned { -1.0 } else { 1.0 };
            let (low, high) = in_order(sign * e.interval.lower, sign * e.interval.upper);
            let f = |x: f64| words::difference(contrast.quantity, x, e.std_uncertainty);
            let unit = words::difference_unit(contrast.quantity);
            format!("the difference is {}{unit}, {level:.0} % interval {} to {}", f(sign * e.value), f(low), f(high))
        }
        ContrastKind::Ratio => {
            let turn = |x: f64| if turned { 1.0 / x } else { x };
            let (low, high) = in_order(turn(e.interval.lower), turn(e.interval.upper));
            format!("the ratio is {:.2}, {level:.0} % interval {low:.2} to {high:.2}", turn(e.value))
        }
    }
}

fn in_order(a: f64, b: f64) -> (f64, f64) {
    (a.min(b), a.max(b))
}

fn outlook(contrast: &Contrast) -> String {
    match contrast.more_trials {
        Some(more) => {
            let times = if more == 1 { "trial" } else { "trials" };
            format!("; if the difference is real, about {more} more {times} of each would probably show it")
        }
        None => String::new(),
    }
}
