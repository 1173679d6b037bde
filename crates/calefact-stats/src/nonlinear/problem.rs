//! A curve and its observations in the form the Levenberg-Marquardt crate asks for.

use super::CurveModel;
use levenberg_marquardt::LeastSquaresProblem;
use nalgebra::storage::Owned;
use nalgebra::{DMatrix, DVector, Dyn};

/// Stands for a residual that is not a finite number, so that the search steps back instead of ending.
const BEYOND: f64 = 1e140;

/// Residuals y_i(p) - y_i and their Jacobian at the current parameters.
pub(super) struct Problem<'a, M> {
    pub model: &'a M,
    pub y: &'a [f64],
    pub p: DVector<f64>,
}

/// Jacobian of the model as a matrix, observations by parameters.
pub(super) fn jacobian_matrix<M: CurveModel>(model: &M, p: &[f64], observations: usize) -> DMatrix<f64> {
    let mut rows = vec![0.0; observations * model.parameters()];
    model.jacobian(p, &mut rows);
    DMatrix::from_row_slice(observations, model.parameters(), &rows)
}

impl<M: CurveModel> LeastSquaresProblem<f64, Dyn, Dyn> for Problem<'_, M> {
    type ResidualStorage = Owned<f64, Dyn>;
    type JacobianStorage = Owned<f64, Dyn, Dyn>;
    type ParameterStorage = Owned<f64, Dyn>;

    fn set_params(&mut self, p: &DVector<f64>) {
        self.p.copy_from(p);
    }

    fn params(&self) -> DVector<f64> {
        self.p.clone()
    }

    fn residuals(&self) -> Option<DVector<f64>> {
        let mut out = DVector::zeros(self.y.len());
        self.model.predict(self.p.as_slice(), out.as_mut_slice());
        for (f, y) in out.iter_mut().zip(self.y) {
            *f = if f.is_finite() { *f - y } else { BEYOND };
        }
        Some(out)
    }

    fn jacobian(&self) -> Option<DMatrix<f64>> {
        let j = jacobian_matrix(self.model, self.p.as_slice(), self.y.len());
        j.iter().all(|v| v.is_finite()).then_some(j)
    }
}
