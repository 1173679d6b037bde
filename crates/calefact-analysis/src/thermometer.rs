//! The error of a thermometer along its scale.
//!
//! The limits on a sheet hold at every temperature (IEC 60751, IEC 60584-1), so the standard uncertainty u(T) is that of
//! the limit there (rectangular, GUM 4.3.7). No sheet says how the errors at two temperatures hang together (GUM 5.2): with
//! one draw for the whole scale a rise would have no error, with independent draws too much. Here
//!
//! `e(T) = u(T) [sqrt(rho) C + sqrt(1 - rho) (cos a L + sin a H)]`, `a = (pi / 2) T / node`,
//!
//! with independent C, L and H of unit variance. As cos^2 + sin^2 = 1 the variance is u(T)^2 at every temperature, and the
//! correlation of two temperatures is rho + (1 - rho) cos(a1 - a2): 1 for neighbours, rho for the freezing point and the
//! upper node. rho is [`COMMON`].

use calefact_data::apparatus::Tolerance;
use calefact_stats::{Shape, Source};

/// Upper node of a water or air thermometer, degC.
const WATER_NODE: f64 = 100.0;
/// Upper node of a flue thermometer, degC.
const GAS_NODE: f64 = 600.0;
/// Share of the variance that is common to all temperatures. Reference junction, leads and display shift the whole scale,
/// the curve of the sensor does not; half of the variance each, midway between one draw for the scale and independent
/// draws at its ends (own choice, no source).
const COMMON: f64 = 0.5;
/// Span over which the slope of the error is taken, K.
const SPAN: f64 = 10.0;

/// A thermometer: its limits of error and the names of its three independent errors.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Thermometer {
    /// Limits of error; all of them act together.
    pub(crate) limits: Vec<Tolerance>,
    /// Upper node, degC.
    pub(crate) node: f64,
    /// Sources of the error common to all temperatures, of that at 0 degC and of that at the upper node.
    pub(crate) sources: [Source; 3],
}

/// Upper node of a thermometer column; `None` for any other column.
pub(crate) fn node(column: &str) -> Option<f64> {
    match column {
        "tank" | "coil_in" | "coil_out" | "ambient" => Some(WATER_NODE),
        "flue_before" | "flue_after" | "casing" => Some(GAS_NODE),
        _ => None,
    }
}

/// Shape of the error within a limit, and its standard deviation as a share of the limit.
pub(crate) fn shape(limit: Tolerance) -> (Shape, f64) {
    match limit {
        Tolerance::Standard(_) => (Shape::Normal, 1.0),
        _ => (Shape::Rectangular, 1.0 / 3.0_f64.sqrt()),
    }
}

impl Thermometer {
    /// Standard deviations of the three errors that [`Self::error`] takes.
    pub(crate) fn deviations() -> [f64; 3] {
        let own = (1.0 - COMMON).sqrt();
        [COMMON.sqrt(), own, own]
    }

    /// Standard uncertainty at a temperature, K.
    pub(crate) fn std_uncertainty(&self, at: f64) -> f64 {
        let squares = self.limits.iter().map(|limit| (shape(*limit).1 * limit_at(*limit, at)).powi(2));
        squares.sum::<f64>().sqrt()
    }

    /// The error at a temperature.
    fn at(&self, at: f64) -> ErrorAt {
        let angle = std::f64::consts::FRAC_PI_2 * at / self.node;
        ErrorAt { std_uncertainty: self.std_uncertainty(at), low: libm::cos(angle), high: libm::sin(angle) }
    }

    /// The error at a temperature and close by.
    pub(crate) fn near(&self, at: f64) -> ErrorNear {
        ErrorNear { at: self.at(at), below: self.at(at - 0.5 * SPAN), above: self.at(at + 0.5 * SPAN) }
    }

    /// Parts of the standard uncertainty at a temperature by source.
    pub(crate) fn parts(&self, at: f64) -> [(Source, f64); 3] {
        std::array::from_fn(|i| {
            let mut draws = [0.0; 3];
            draws[i] = Self::deviations()[i];
            (self.sources[i].clone(), self.at(at).of(draws))
        })
    }
}

/// The error of a thermometer at one temperature.
#[derive(Debug, Clone, Copy)]
struct ErrorAt {
    std_uncertainty: f64,
    low: f64,
    high: f64,
}

impl ErrorAt {
    fn of(self, [common, low, high]: [f64; 3]) -> f64 {
        self.std_uncertainty * (common + self.low * low + self.high * high)
    }
}

/// The error of a thermometer at one temperature and close by.
#[derive(Debug, Clone, Copy)]
pub(crate) struct ErrorNear {
    at: ErrorAt,
    below: ErrorAt,
    above: ErrorAt,
}

impl ErrorNear {
    /// Error, K, for draws of the three errors, which have the standard deviations [`Thermometer::deviations`].
    pub(crate) fn error(&self, draws: [f64; 3]) -> f64 {
        self.at.of(draws)
    }

    /// Slope of the error along the scale, K/K.
    pub(crate) fn slope(&self, draws: [f64; 3]) -> f64 {
        (self.above.of(draws) - self.below.of(draws)) / SPAN
    }
}

/// Limit of error at a temperature, K.
fn limit_at(limit: Tolerance, at: f64) -> f64 {
    let at = at.abs();
    match limit {
        Tolerance::Absolute(a) | Tolerance::Standard(a) => a,
        Tolerance::OfReading(f) => f * at,
        Tolerance::GreaterOf(a, f) => a.max(f * at),
        Tolerance::SumOf(a, f) => a + f * at,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn thermometer(limit: Tolerance, node: f64) -> Thermometer {
        Thermometer { limits: vec![limit], node, sources: ["common", "low", "high"].map(Into::into) }
    }

    /// Covariance of the errors at two temperatures.
    fn covariance(probe: &Thermometer, a: f64, b: f64) -> f64 {
        probe.parts(a).iter().zip(probe.parts(b)).map(|((_, x), (_, y))| x * y).sum()
    }

    /// IEC 60751 class B, 0.30 + 0.005 t, and IEC 60584-1 class 2 type K, 2.5 K or 0.75 % (both from memory); GUM 4.3.7.
    #[test]
    fn the_limit_of_a_class_holds_at_every_temperature() {
        let class_b = thermometer(Tolerance::SumOf(0.3, 0.005), WATER_NODE);
        for (at, limit) in [(-10.0, 0.35), (0.0, 0.3), (40.0, 0.5), (60.0, 0.6), (100.0, 0.8)] {
            assert!((covariance(&class_b, at, at) - limit * limit / 3.0).abs() < 1e-12, "{at}");
        }
        let type_k = thermometer(Tolerance::GreaterOf(2.5, 0.0075), GAS_NODE);
        for (at, limit) in [(20.0, 2.5), (330.0, 2.5), (400.0, 3.0), (900.0, 6.75)] {
            assert!((covariance(&type_k, at, at) - limit * limit / 3.0).abs() < 1e-12, "{at}");
        }
    }

    /// Var(e1 - e2) = 2 u^2 (1 - rho) (1 - cos(a1 - a2)): between the nodes 2 u^2 (1 - rho), as of two draws that
    /// correlate by rho; over a tenth of the scale 0.0123 of u^2.
    #[test]
    fn most_of_the_error_cancels_in_a_small_rise() {
        let probe = thermometer(Tolerance::Absolute(0.5), WATER_NODE);
        let rise =
            |a: f64, b: f64| covariance(&probe, a, a) + covariance(&probe, b, b) - 2.0 * covariance(&probe, a, b);
        let square = 0.25 / 3.0;
        assert!((rise(0.0, 100.0) / square - 1.0).abs() < 1e-12);
        assert!((rise(40.0, 50.0) / square - (1.0 - libm::cos(std::f64::consts::PI / 20.0))).abs() < 1e-12);
        let slope: f64 = (0..3)
            .map(|i| {
                let mut draws = [0.0; 3];
                draws[i] = Thermometer::deviations()[i];
                probe.near(45.0).slope(draws).powi(2)
            })
            .sum();
        assert!((slope.sqrt() - rise(40.0, 50.0).sqrt() / 10.0).abs() < 1e-12);
    }
}
