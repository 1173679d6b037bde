//! Tests and intervals of fixed effects by Kenward & Roger 1997 (Biometrics 53:983), which allows for estimated variances:
//! the covariance is adjusted for small samples and the degrees of freedom come from the expected information.

use super::error::MixedError;
use super::fit::MixedFit;
use crate::contrast::{Contrast, ContrastKind};
use crate::ftest::FTest;
use nalgebra::{DMatrix, DVector};

impl MixedFit {
    /// The contrast l' beta; `kind` says whether the response is a logarithm (ratio) or not (difference), `confidence` is
    /// the probability of the interval.
    ///
    /// # Errors
    /// [`MixedError::Sizes`] when `l` has the wrong length.
    pub fn contrast(&self, l: &[f64], kind: ContrastKind, confidence: f64) -> Result<Contrast, MixedError> {
        if l.len() != self.beta.len() {
            return Err(MixedError::Sizes);
        }
        let l = DVector::from_column_slice(l);
        let effect = l.dot(&DVector::from_column_slice(&self.beta));
        let u = quadratic(&l, &self.adjusted_covariance).sqrt();
        Ok(Contrast::new(kind, effect, u, self.contrast_dof(&l), confidence))
    }

    /// F test of all rows of `l` at once: L beta = 0.
    ///
    /// # Errors
    /// [`MixedError::Sizes`] for a wrong width, [`MixedError::RankDeficient`] when rows depend on each other.
    pub fn f_test(&self, l: &DMatrix<f64>) -> Result<FTest, MixedError> {
        if l.ncols() != self.beta.len() {
            return Err(MixedError::Sizes);
        }
        let wald = l * DVector::from_column_slice(&self.beta);
        let inverse = invert(l * &self.adjusted_covariance * l.transpose())?;
        let q = l.nrows() as f64;
        let f = wald.dot(&(inverse * &wald)) / q;
        let theta = l.transpose() * invert(l * &self.covariance * l.transpose())? * l;
        let (a1, a2) = self.kenward_roger_sums(&theta);
        let (scale, dof) = kenward_roger_scale(q, a1, a2);
        Ok(FTest::new(scale * f, q, dof))
    }

    /// nu = 2 c^2 / (g' W g) with c = l' Phi l, g_i = l' Phi X' V^-1 G_i V^-1 X Phi l (Giesbrecht & Burns 1985, Biometrics
    /// 41:477), which is also the Kenward-Roger denominator of a single contrast.
    fn contrast_dof(&self, l: &DVector<f64>) -> f64 {
        let pl = &self.covariance * l;
        let gradient = DVector::from_iterator(self.xgx.len(), self.xgx.iter().map(|m| quadratic(&pl, m)));
        let c = quadratic(l, &self.covariance);
        2.0 * c * c / quadratic(&gradient, &self.variance_covariance)
    }

    /// A1 = sum W_ij tr(Theta Phi P_i Phi) tr(Theta Phi P_j Phi), A2 = sum W_ij tr(Theta Phi P_i Phi Theta Phi P_j Phi).
    fn kenward_roger_sums(&self, theta: &DMatrix<f64>) -> (f64, f64) {
        let phi = &self.covariance;
        let products: Vec<DMatrix<f64>> = self.xgx.iter().map(|m| theta * phi * m * phi).collect();
        let (mut a1, mut a2) = (0.0, 0.0);
        for (i, a) in products.iter().enumerate() {
            for (j, b) in products.iter().enumerate() {
                let w = self.variance_covariance[(i, j)];
                a1 += w * a.trace() * b.trace();
                a2 += w * (a * b).trace();
            }
        }
        (a1, a2)
    }
}

/// Factor on F and denominator degrees of freedom for q rows (Kenward & Roger 1997, section 3).
fn kenward_roger_scale(q: f64, a1: f64, a2: f64) -> (f64, f64) {
    if q < 1.5 {
        return (1.0, 2.0 / a2);
    }
    let b = (a1 + 6.0 * a2) / (2.0 * q);
    let g = ((q + 1.0) * a1 - (q + 4.0) * a2) / ((q + 2.0) * a2);
    let common = 3.0 * q + 2.0 * (1.0 - g);
    let (c1, c2, c3) = (g / common, (q - g) / common, (q + 2.0 - g) / common);
    let expectation = 1.0 / (1.0 - a2 / q);
    let narrowed = 1.0 - c2 * b;
    let variance = (2.0 / q) * (1.0 + c1 * b) / (narrowed * narrowed * (1.0 - c3 * b));
    let rho = variance / (2.0 * expectation * expectation);
    let dof = 4.0 + (q + 2.0) / (q * rho - 1.0);
    (dof / (expectation * (dof - 2.0)), dof)
}

fn quadratic(v: &DVector<f64>, m: &DMatrix<f64>) -> f64 {
    v.dot(&(m * v))
}

fn invert(m: DMatrix<f64>) -> Result<DMatrix<f64>, MixedError> {
    m.cholesky().map(|c| c.inverse()).ok_or(MixedError::RankDeficient)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two cases that Kenward & Roger's scale is built to meet exactly (their section 3). Least squares with nu degrees of
    /// freedom: A1 = 2 q^2 / nu, A2 = 2 q / nu give factor 1 and nu. Hotelling's T^2 of a q-variate mean of n:
    /// A1 = 2 q / (n - 1), A2 = q (q + 1) / (n - 1) give factor (n - q) / (n - 1) and n - q.
    #[test]
    fn scale_is_exact_for_least_squares_and_for_hotelling() {
        let close = |got: (f64, f64), want: (f64, f64)| {
            assert!((got.0 - want.0).abs() < 1e-9 && (got.1 - want.1).abs() < 1e-7, "{got:?} {want:?}");
        };
        for q in [2.0, 3.0, 4.0] {
            close(kenward_roger_scale(q, 2.0 * q * q / 10.0, 2.0 * q / 10.0), (1.0, 10.0));
            let n: f64 = 12.0;
            let hotelling = kenward_roger_scale(q, 2.0 * q / (n - 1.0), q * (q + 1.0) / (n - 1.0));
            close(hotelling, ((n - q) / (n - 1.0), n - q));
        }
        close(kenward_roger_scale(1.0, 0.2, 0.2), (1.0, 10.0));
    }
}
