//! Values with their units: bare values of each measure, and quantities to the digits their uncertainty deserves.

use super::number::{places, places_for_digits};
use super::unit::{DisplayUnit, Measure};
use super::{Typography, Wording};
use calefact_analysis::Quantity;
use calefact_analysis::result::{Contrast, ContrastKind};
use calefact_stats::{Estimate, Interval};

/// Significant digits of a value whose uncertainty is not known.
const DIGITS: i32 = 3;
/// Times below this are shown in seconds, s.
const SHORT_S: f64 = 120.0;
/// Times from this on are shown in hours, s.
const LONG_S: f64 = 5.0 * 3600.0;

/// An estimate in words, all numbers to the same place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EstimateWords {
    /// Value without unit.
    pub value: String,
    /// Interval without unit, "22.3 to 25.9".
    pub interval: String,
    /// The interval behind a value: "± 1.8", or its ends in brackets where the value does not lie in its middle.
    pub spread: String,
    /// Unit symbol; empty for a pure number.
    pub unit: String,
    typography: Typography,
}

impl EstimateWords {
    /// Value with unit.
    pub fn with_unit(&self) -> String {
        self.typography.join(&self.value, &self.unit)
    }
}

impl Typography {
    /// A share of a whole as a whole percentage.
    pub(crate) fn percent(self, fraction: f64) -> String {
        self.join(&self.fixed(100.0 * fraction, 0), "%")
    }
}

impl Wording<'_> {
    /// The unit a measure is shown in.
    pub fn unit(&self, measure: Measure) -> DisplayUnit {
        DisplayUnit::new(measure, self.units, self.typography)
    }

    /// A value of a measure, to three significant digits at most.
    pub fn measure(&self, measure: Measure, value: f64) -> String {
        let unit = self.unit(measure);
        self.typography.join(&self.typography.significant(unit.value(value), DIGITS), &unit.symbol)
    }

    /// A temperature to so many decimal places.
    pub fn temperature(&self, degc: f64, places: i32) -> String {
        let unit = self.unit(Measure::Temperature);
        self.typography.join(&self.typography.fixed(unit.value(degc), places), &unit.symbol)
    }

    /// A temperature difference to so many decimal places.
    pub fn temperature_difference(&self, k: f64, places: i32) -> String {
        let unit = self.unit(Measure::TemperatureDifference);
        self.typography.join(&self.typography.fixed(unit.value(k), places), &unit.symbol)
    }

    /// A mass, from kg.
    pub fn mass(&self, kg: f64) -> String {
        self.measure(Measure::Mass, kg)
    }

    /// A volume, from m3.
    pub fn volume(&self, m3: f64) -> String {
        self.measure(Measure::Volume, m3)
    }

    /// A time, from s: in seconds, minutes or hours by its size.
    pub fn time(&self, s: f64) -> String {
        let measure = match s.abs() {
            x if x < SHORT_S => Measure::Seconds,
            x if x < LONG_S => Measure::Minutes,
            _ => Measure::Hours,
        };
        self.measure(measure, s)
    }

    /// A heat flow, from W.
    pub fn power(&self, w: f64) -> String {
        self.measure(Measure::HeatFlow, w)
    }

    /// An energy, from MJ.
    pub fn energy(&self, mj: f64) -> String {
        self.measure(Measure::Energy, mj)
    }

    /// A mass flow of water, from kg/s.
    pub fn flow(&self, kg_s: f64) -> String {
        self.measure(Measure::WaterFlow, kg_s)
    }

    /// A share of a whole in per cent, to two significant digits, none dropped left of the point.
    pub fn share(&self, fraction: f64) -> String {
        self.typography.join(&self.typography.significant(100.0 * fraction, 2), "%")
    }

    /// A share of a whole as a whole percentage.
    pub fn percent(&self, fraction: f64) -> String {
        self.typography.percent(fraction)
    }

    /// The confidence of an interval: "95 %", "99.9 %".
    pub fn confidence(&self, probability: f64) -> String {
        self.typography.join(&self.typography.significant(100.0 * probability, 4), "%")
    }

    /// A p-value for a table: two digits, and nothing smaller than a thousandth.
    pub fn p_value(&self, p: f64) -> String {
        if p < 0.001 { "< 0.001".to_owned() } else { self.typography.fixed(p, if p < 0.1 { 3 } else { 2 }) }
    }

    /// A p-value for a sentence: "p = 0.03", "p < 0.001".
    pub fn p_equals(&self, p: f64) -> String {
        if p < 0.001 { "p < 0.001".to_owned() } else { format!("p = {}", self.p_value(p)) }
    }

    /// The unit a quantity is shown in. A cost has the reader's currency.
    pub fn unit_of_quantity(&self, quantity: Quantity) -> DisplayUnit {
        let unit = self.unit(quantity.into());
        match (quantity, self.currency) {
            (Quantity::CostPerHeat, Some(currency)) => unit.named(format!("{currency}/kWh")),
            (Quantity::CostPerHeat, None) => unit.named("per kWh"),
            _ => unit,
        }
    }

    /// The unit an estimate is shown in: a cost of a trial keeps the currency of its own fuel.
    pub(crate) fn unit_of_estimate(&self, quantity: Quantity, estimate: &Estimate) -> DisplayUnit {
        let unit = self.unit_of_quantity(quantity);
        let has_currency = quantity == Quantity::CostPerHeat && estimate.unit != quantity.unit();
        if has_currency { unit.named(estimate.unit.as_ref()) } else { unit }
    }

    /// The unit a difference of a quantity is shown in: percentage points for shares.
    pub fn unit_of_difference(&self, quantity: Quantity) -> DisplayUnit {
        let unit = self.unit_of_quantity(quantity);
        if Measure::from(quantity) == Measure::Share { unit.named("percentage points") } else { unit }
    }

    /// A value of a quantity with its unit, to the digits its standard uncertainty deserves.
    pub fn quantity(&self, quantity: Quantity, value: f64, std_uncertainty: f64) -> String {
        let unit = self.unit_of_quantity(quantity);
        let value = unit.value(value);
        let places = places(unit.width(std_uncertainty)).unwrap_or_else(|| places_for_digits(value, DIGITS));
        self.typography.join(&self.typography.fixed(value, places), &unit.symbol)
    }

    /// An estimate of a quantity.
    pub fn estimate(&self, quantity: Quantity, estimate: &Estimate) -> EstimateWords {
        self.estimate_in(&self.unit_of_estimate(quantity, estimate), estimate)
    }

    /// A difference or a ratio of two levels.
    pub fn contrast(&self, contrast: &Contrast) -> EstimateWords {
        let unit = match contrast.kind {
            ContrastKind::Ratio => self.unit(Measure::Ratio).named("times"),
            ContrastKind::Difference => self.unit_of_difference(contrast.quantity),
        };
        self.estimate_in(&unit, &contrast.estimate)
    }

    /// An estimate in a unit of display.
    pub(crate) fn estimate_in(&self, unit: &DisplayUnit, estimate: &Estimate) -> EstimateWords {
        let places = interval_places(unit, estimate);
        let fixed = |x: f64| self.typography.fixed(x, places);
        let interval = self.interval_in(unit, &estimate.interval, estimate);
        let half = estimate.interval.half_width();
        let is_even = (estimate.interval.lower + half - estimate.value).abs() <= 1e-6 * half;
        EstimateWords {
            value: fixed(unit.value(estimate.value)),
            spread: if is_even { format!("± {}", fixed(unit.width(half))) } else { format!("({interval})") },
            interval,
            unit: unit.symbol.clone(),
            typography: self.typography,
        }
    }

    /// Another interval of the same estimate, to the same place.
    pub(crate) fn interval_in(&self, unit: &DisplayUnit, interval: &Interval, estimate: &Estimate) -> String {
        let places = interval_places(unit, estimate);
        let end = |x: f64| self.typography.fixed(unit.value(x), places);
        format!("{} to {}", end(interval.lower), end(interval.upper))
    }
}

/// Decimal places for two significant digits of the half width of the interval, or of the standard uncertainty where the
/// interval has no width.
fn interval_places(unit: &DisplayUnit, estimate: &Estimate) -> i32 {
    let half = places(unit.width(estimate.interval.half_width()));
    let standard = || places(unit.width(estimate.std_uncertainty));
    half.or_else(standard).unwrap_or_else(|| places_for_digits(unit.value(estimate.value), 4))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Units;

    fn estimate(value: f64, u: f64) -> Estimate {
        Estimate::student(value, "x", u, f64::INFINITY, 0.95)
    }

    #[test]
    fn estimates_are_in_the_units_of_the_reader() {
        let page = Wording { typography: Typography::Page, ..Wording::plain() };
        let time = page.estimate(Quantity::ReferenceTime, &estimate(5400.0, 120.0));
        assert_eq!((time.with_unit().as_str(), time.interval.as_str()), ("90.0\u{a0}min", "86.1 to 93.9"));
        let us = Wording { units: Units::Us, ..Wording::plain() };
        let fuel = us.estimate(Quantity::ReferenceFuel, &estimate(4.536, 0.2));
        assert_eq!((fuel.with_unit().as_str(), fuel.interval.as_str()), ("10.00 lb", "9.14 to 10.86"));
        assert_eq!(page.estimate(Quantity::FuelEnergy, &estimate(96.123_4, 0.0)).value, "96.12");
    }

    #[test]
    fn an_interval_that_a_bound_cuts_is_shown_by_its_ends() {
        let wood = |u| estimate(0.04, u).within(calefact_stats::Bounds::SHARE);
        let shown = |u| Wording::plain().estimate(Quantity::FlueLoss, &wood(u)).spread;
        assert_eq!([shown(0.01), shown(0.09)], ["± 2.0", "(0 to 22)"]);
    }

    #[test]
    fn bare_values_have_no_idle_digits() {
        let plain = Wording::plain();
        let us = Wording { units: Units::Us, ..plain };
        assert_eq!(
            [plain.mass(5.6), plain.volume(0.12), plain.time(90.0), plain.time(3600.0), plain.time(30.0 * 3600.0)],
            ["5.6 kg", "120 L", "90 s", "60 min", "30 h"]
        );
        assert_eq!([us.mass(5.6), us.volume(0.12), us.power(4000.0)], ["12.3 lb", "31.7 US gal", "13649 Btu/h"]);
        assert_eq!([us.temperature(37.777_78, 1), plain.temperature(37.777_78, 1)], ["100.0 degF", "37.8 degC"]);
        assert_eq!(us.temperature_difference(10.0, 0), "18 degF");
        assert_eq!([plain.share(0.2371), plain.share(0.0054), plain.confidence(0.999)], ["24 %", "0.54 %", "99.9 %"]);
    }

    #[test]
    fn quantities_follow_their_uncertainty() {
        let plain = Wording { currency: Some("EUR"), ..Wording::plain() };
        let us = Wording { units: Units::Us, ..plain };
        assert_eq!(plain.quantity(Quantity::ThermalEfficiency, 0.2371, 0.012), "23.7 %");
        assert_eq!(us.quantity(Quantity::HeatingRate, 0.5, 0.02), "0.900 degF/min");
        assert_eq!(plain.quantity(Quantity::CostPerHeat, 0.1312, 0.012), "0.131 EUR/kWh");
        assert_eq!((plain.p_equals(1e-9), plain.p_equals(0.034)), ("p < 0.001".into(), "p = 0.034".into()));
    }
}
