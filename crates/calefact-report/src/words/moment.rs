//! When and where: times of a log, the steady part of a burn, the altitude of a site.

use super::unit::Measure;
use super::{Units, Wording};
use calefact_analysis::phases::SteadyPart;
use calefact_units::{Kind, Unit};

impl Wording<'_> {
    /// A time of a log in whole minutes.
    pub(super) fn minutes(&self, s: f64) -> String {
        let unit = self.unit(Measure::Minutes);
        self.typography.join(&self.typography.fixed(unit.value(s), 0), &unit.symbol)
    }

    /// "6 to 103 min".
    pub(super) fn minutes_range(&self, start_s: f64, end_s: f64) -> String {
        let start = self.typography.fixed(self.unit(Measure::Minutes).value(start_s), 0);
        format!("{start} to {}", self.minutes(end_s))
    }

    /// The steady part a number is drawn from.
    pub(super) fn steady_part(&self, part: Option<SteadyPart>) -> String {
        match part {
            None => "no steady part found".to_owned(),
            Some(SteadyPart { start_s, end_s, certain }) => {
                let range = self.minutes_range(start_s, end_s);
                let doubt = if certain { "" } else { " (too few readings to tell it from the rest)" };
                format!("steady part{doubt}, {range}")
            }
        }
    }

    /// Where water boils as it does: "at 640 m".
    pub(super) fn altitude(&self, altitude_m: Option<f64>) -> String {
        let Some(m) = altitude_m else { return "at sea level (no altitude stated)".to_owned() };
        let (value, symbol) = match (self.units, Unit::parse("ft", Kind::Length)) {
            (Units::Us, Ok(foot)) => (foot.from_si(m), "ft"),
            _ => (m, "m"),
        };
        format!("at {}", self.typography.join(&self.typography.fixed(value, 0), symbol))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_and_places() {
        let plain = Wording::plain();
        let us = Wording { units: Units::Us, ..plain };
        let part = |certain| Some(SteadyPart { start_s: 370.0, end_s: 6180.0, certain });
        assert_eq!(plain.steady_part(part(true)), "steady part, 6 to 103 min");
        assert_eq!(
            plain.steady_part(part(false)),
            "steady part (too few readings to tell it from the rest), 6 to 103 min"
        );
        assert_eq!(plain.steady_part(None), "no steady part found");
        assert_eq!([plain.altitude(Some(640.0)), us.altitude(Some(640.0))], ["at 640 m", "at 2100 ft"]);
        assert_eq!(plain.altitude(None), "at sea level (no altitude stated)");
    }
}
