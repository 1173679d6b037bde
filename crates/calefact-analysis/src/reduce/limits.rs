//! Limits of the results of a burn in common practice, and the slips of unit or decimal mark that make results pass them.
//!
//! The limits are common practice, no source. They are wide: a result beyond one deserves a look, but it is not impossible.

use crate::Quantity;
use crate::fact::implausible::{ImplausibleResult, Slip};

/// Limits of a quantity, in its unit.
struct Limits {
    quantities: &'static [Quantity],
    /// Beyond these a result is hardly right.
    hardly: (f64, f64),
    /// Most burns lie well within these: a slip must lead back here to explain a result.
    usual: (f64, f64),
}

/// The one table. The first quantity of a row that a burn has is judged.
static LIMITS: [Limits; 3] = [
    // A pan over an open fire takes up several per cent; only a condensing boiler comes to 95 % on the net basis.
    Limits {
        quantities: &[Quantity::ThermalEfficiency, Quantity::StoredFraction, Quantity::ThermalEfficiencyUncredited],
        hardly: (0.01, 0.95),
        usual: (0.03, 0.90),
    },
    // A candle gives about 80 W; a boiler of 100 kW heats a school.
    Limits { quantities: &[Quantity::HeatInput], hardly: (50.0, 100e3), usual: (200.0, 60e3) },
    // 30 kg/h of wood is a fire of 120 kW, fed every few minutes; 0.02 kg/h of wood is a fire of 80 W, which goes out.
    Limits { quantities: &[Quantity::BurnRate], hardly: (0.02, 30.0), usual: (0.1, 20.0) },
];

/// Char worth more than this share of the energy of the wood burnt is hardly right: a bed of char left by a batch is a
/// few per cent of the wood's mass.
pub(crate) const CHAR_HARDLY: f64 = 0.4;
/// Char worth more than this share is impossible: kilns made for charcoal keep about half of the wood's energy in it.
pub(crate) const CHAR_IMPOSSIBLE: f64 = 0.6;

/// Slips that happen, the likely ones first.
const SLIPS: [Slip; 11] = [
    // Kilograms under a header of tonnes, or a decimal comma read as a mark of thousands.
    slip("fuel_mass", 1e-3),
    // Minutes under a header of seconds, and the other way round.
    slip("elapsed", 60.0),
    slip("elapsed", 1.0 / 60.0),
    // Kilograms under a header of grams, or a mark of thousands read as a decimal mark.
    slip("fuel_mass", 1e3),
    // Litres under a header of millilitres, and the other way round.
    slip("water", 1e3),
    slip("water", 1e-3),
    // Kilograms under a header of pounds, and the other way round.
    slip("fuel_mass", 1.0 / 0.453_592_37),
    slip("fuel_mass", 0.453_592_37),
    // US gallons under a header of litres, and the other way round.
    slip("water", 3.785_411_784),
    slip("water", 1.0 / 3.785_411_784),
    // Hours under a header of seconds.
    slip("elapsed", 3600.0),
];

const fn slip(column: &'static str, factor: f64) -> Slip {
    Slip { column, factor }
}

/// A result with its limits.
struct Known {
    limits: &'static Limits,
    quantity: Quantity,
    value: f64,
}

/// A burn's results, as far as they are judged.
pub(crate) struct Judged {
    known: Vec<Known>,
    /// Share of the water in the heat capacity of water and vessel.
    water_share: f64,
}

impl Judged {
    /// The results that `value` knows.
    pub(crate) fn new(value: impl Fn(Quantity) -> Option<f64>, water_share: f64) -> Self {
        let known = |limits: &'static Limits| {
            let (quantity, value) = limits.quantities.iter().find_map(|q| Some((*q, value(*q)?)))?;
            Some(Known { limits, quantity, value })
        };
        Self { known: LIMITS.iter().filter_map(known).collect(), water_share }
    }

    /// Results beyond their limits.
    pub(crate) fn implausible(&self) -> Vec<ImplausibleResult> {
        let beyond = |&Known { limits, quantity, value }: &Known| {
            let (low, high) = limits.hardly;
            let limit = if value > high { high } else { low };
            (value > high || value < low).then_some(ImplausibleResult { quantity, value, limit })
        };
        self.known.iter().filter_map(beyond).collect()
    }

    /// The slips that would explain results beyond their limits: each makes all results usual.
    pub(crate) fn slips(&self) -> Vec<Slip> {
        let explained = !self.implausible().is_empty();
        SLIPS.into_iter().filter(|slip| explained && self.explains(slip)).collect()
    }

    fn explains(&self, slip: &Slip) -> bool {
        let usual = |known: &Known| {
            let (low, high) = known.limits.usual;
            (low..=high).contains(&(known.value * self.factor(slip, known.quantity)))
        };
        self.known.iter().all(usual)
    }

    /// By what a result changes without the slip. Standing loss and kindling, which do not go with the column, are left
    /// out: a slip is a matter of whole factors.
    fn factor(&self, slip: &Slip, quantity: Quantity) -> f64 {
        let (heat, fuel, time) = match slip.column {
            "fuel_mass" => (1.0, slip.factor, 1.0),
            "elapsed" => (1.0, 1.0, slip.factor),
            _ => (slip.factor * self.water_share + 1.0 - self.water_share, 1.0, 1.0),
        };
        match quantity {
            Quantity::HeatInput => heat / time,
            Quantity::BurnRate => fuel / time,
            _ => heat / fuel,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A burn of 5.6 kg in 48 min that warms 120 kg of water in a drum of 11 kg steel by 30 K, or what a slip makes of it.
    fn judged(efficiency: f64, heat_input: f64, burn_rate: f64, water_share: f64) -> Judged {
        let value = |q| match q {
            Quantity::ThermalEfficiency => Some(efficiency),
            Quantity::HeatInput => Some(heat_input),
            Quantity::BurnRate => Some(burn_rate),
            _ => None,
        };
        Judged::new(value, water_share)
    }

    #[test]
    fn a_usual_burn_is_plausible() {
        assert_eq!(judged(0.17, 5300.0, 7.4, 0.99).implausible(), []);
        assert_eq!(Judged::new(|_| None, 1.0).implausible(), []);
    }

    #[test]
    fn results_beyond_their_limits_are_named_with_the_limit() {
        let found = judged(0.000_17, 317e3, 7.4, 0.99).implausible();
        let beyond: Vec<(Quantity, f64, bool)> = found.iter().map(|r| (r.quantity, r.limit, r.is_above())).collect();
        assert_eq!(beyond, [(Quantity::ThermalEfficiency, 0.01, false), (Quantity::HeatInput, 100e3, true)]);
    }

    #[test]
    fn slips_made_in_a_usual_burn_are_found() {
        let cases = [
            (slip("fuel_mass", 1e-3), judged(0.17e-3, 5300.0, 7400.0, 0.99)),
            (slip("fuel_mass", 1e3), judged(170.0, 5300.0, 0.0074, 0.99)),
            (slip("elapsed", 60.0), judged(0.17, 318e3, 444.0, 0.99)),
            (slip("elapsed", 1.0 / 60.0), judged(0.17, 40.0, 0.06, 0.99)),
            (slip("water", 1e3), judged(0.001_87, 58.0, 7.4, 0.09)),
            (slip("water", 1e-3), judged(168.0, 5.25e6, 7.4, 0.999_99)),
        ];
        for (slip, judged) in cases {
            assert_eq!(judged.slips(), [slip]);
        }
    }

    /// An efficiency alone, a little beyond its limit, has several explanations.
    #[test]
    fn a_result_just_beyond_a_limit_has_several_explanations() {
        let found = judged(0.97, 9000.0, 2.5, 0.99).slips();
        assert!(["fuel_mass", "water"].iter().all(|c| found.iter().any(|s| s.column == *c)), "{found:?}");
    }
}
