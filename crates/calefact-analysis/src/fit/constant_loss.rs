//! Does one constant-loss model explain reference-heater trials at different powers?
//!
//! P = C dT/dt + UA T - UA Ta is fitted over all trials of a vessel by ordinary least squares on slopes over equal steps of
//! the tank temperature. Where loss does not grow in proportion to the excess (evaporation, a heater that stores heat)
//! the fitted capacity and air temperature are not those of the vessel, and the result says so.

use calefact_stats::linear;
use nalgebra::DMatrix;

/// Tank step between crossings, K.
pub(crate) const STEP: f64 = 5.0;

/// The pooled fit.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct ConstantLoss {
    /// Fitted heat capacity C, J/K.
    pub(crate) capacity: f64,
    /// Standard uncertainty of C from the scatter, J/K.
    pub(crate) capacity_u: f64,
    /// Fitted loss coefficient UA, W/K.
    pub(crate) loss_coefficient: f64,
    /// Implied air temperature, degC.
    pub(crate) air: f64,
    /// Residual standard deviation, W.
    pub(crate) residual_sd: f64,
}

/// Fits the model to trials given as electric power (W) and times (s) at which the tank rose through multiples of [`STEP`]
/// (degC, s), in rising order. The first and last step of a trial are left out: there the heater and the probe still settle.
pub(crate) fn fit<'t>(trials: impl IntoIterator<Item = (f64, &'t [(f64, f64)])>) -> Option<ConstantLoss> {
    let (mut rows, mut power) = (Vec::new(), Vec::new());
    for (watts, crossings) in trials {
        let inner = crossings.get(1..crossings.len().saturating_sub(1)).unwrap_or_default();
        for pair in inner.windows(2).filter(|p| (p[1].0 - p[0].0 - STEP).abs() < 1e-9) {
            rows.extend([1.0, STEP / (pair[1].1 - pair[0].1), pair[0].0 + 0.5 * STEP]);
            power.push(watts);
        }
    }
    let fit = linear::least_squares(&DMatrix::from_row_slice(power.len(), 3, &rows), &power).ok()?;
    let [constant, capacity, loss_coefficient] = fit.coefficients[..] else { return None };
    Some(ConstantLoss {
        capacity,
        capacity_u: fit.std_uncertainties[1],
        loss_coefficient,
        air: -constant / loss_coefficient,
        residual_sd: fit.residual_sd,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_constant_loss_is_recovered() {
        // C dT/dt = P - UA (T - Ta) with C = 4000 J/K, UA = 2 W/K, Ta = 20 degC, taken at the middle of each step.
        let run = |watts: f64| -> Vec<(f64, f64)> {
            let mut t = 0.0;
            (6..=18)
                .map(|i| 5.0 * f64::from(i))
                .map(|level| {
                    let at = (level, t);
                    t += STEP * 4000.0 / (watts - 2.0 * (level + 2.5 - 20.0));
                    at
                })
                .collect()
        };
        let (a, b) = (run(300.0), run(500.0));
        let fit = fit([(300.0, &a[..]), (500.0, &b[..])]).expect("fits");
        assert!((fit.capacity - 4000.0).abs() < 1e-6 && (fit.air - 20.0).abs() < 1e-6);
    }
}
