//! Names of apparatus, levels and columns as people read them.

use super::text::single_line;
use super::{Measure, Typography, Wording};
use calefact_analysis::result::BudgetOwner;
use calefact_data::ApparatusKind;

/// Significant digits of a level.
const DIGITS: i32 = 4;

impl Wording<'_> {
    /// The name of an apparatus entry: "Rocket stove".
    pub fn apparatus(&self, kind: ApparatusKind, id: &str) -> String {
        self.unlike_a_number(self.names.get(kind, id))
    }

    /// A level of a factor: the name of the apparatus entry, the number in the reader's unit, or the level as the register has
    /// it.
    pub fn level(&self, factor: &str, level: &str) -> String {
        match ApparatusKind::from_column(factor) {
            Some(kind) => self.apparatus(kind, level),
            None => self.numeric_level(factor, level).unwrap_or_else(|| self.unlike_a_number(level)),
        }
    }

    /// A name; quoted where it would look like a number that could not be computed, such as `NaN`.
    fn unlike_a_number(&self, name: &str) -> String {
        if name.parse::<f64>().is_ok_and(|number| !number.is_finite()) {
            self.quoted(name)
        } else {
            single_line(name.to_owned())
        }
    }

    /// A level of a numeric register column, which is a number and its metric unit, in the reader's unit.
    fn numeric_level(&self, factor: &str, level: &str) -> Option<String> {
        let (number, unit) = level.rsplit_once(' ')?;
        let (measure, scale) = match (factor, unit) {
            ("water", "L") => (Measure::Volume, 1e-3),
            ("water" | "fuel_mass" | "kindling_mass", "kg") => (Measure::Mass, 1.0),
            ("ambient", "degC") => (Measure::Temperature, 1.0),
            ("altitude", "m") => (Measure::LongLength, 1.0),
            _ => return None,
        };
        let shown = self.unit(measure);
        let value = shown.value(scale * number.parse::<f64>().ok()?);
        Some(self.typography.join(&self.typography.significant(value, DIGITS), &shown.symbol))
    }

    /// A level that says of what it is a level: "Rocket stove", "split fine".
    pub fn level_of_factor(&self, factor: &str, level: &str) -> String {
        match ApparatusKind::from_column(factor) {
            Some(kind) => self.apparatus(kind, level),
            None => format!("{} {}", factor.replace('_', " "), self.level(factor, level)),
        }
    }

    /// The name of a group: its levels, joined.
    pub fn group(&self, levels: &[(String, String)]) -> String {
        levels.iter().map(|(factor, level)| self.level(factor, level)).collect::<Vec<_>>().join(" · ")
    }

    /// The name of what a budget belongs to.
    pub(crate) fn budget_owner(&self, owner: &BudgetOwner) -> String {
        match owner {
            BudgetOwner::Trial(trial) => trial.to_string(),
            BudgetOwner::Difference { factor, a, b, .. } => {
                format!("{} against {}", self.level(factor, a), self.level(factor, b))
            }
            BudgetOwner::Group { levels, .. } => self.group(levels),
        }
    }

    /// A column or key: quoted as it is typed in plain text, in words on a page.
    pub fn column(&self, name: &str) -> String {
        match self.typography {
            Typography::Plain => format!("`{name}`"),
            Typography::Page => name.replace('_', " "),
        }
    }

    /// A column without quotes, in words on a page.
    pub(super) fn bare_column(&self, name: &str) -> String {
        match self.typography {
            Typography::Plain => name.to_owned(),
            Typography::Page => name.replace('_', " "),
        }
    }

    /// A text quoted as the file has it.
    pub fn quoted(&self, text: &str) -> String {
        match self.typography {
            Typography::Plain => single_line(format!("`{text}`")),
            Typography::Page => single_line(format!("“{text}”")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Units;
    use calefact_data::ApparatusNames;

    #[test]
    fn people_read_names() {
        let (id, name) = ("rocket".to_owned(), "Rocket stove".to_owned());
        let names = ApparatusNames::none().with(ApparatusKind::Stove, [(&id, &name)].into_iter());
        let plain = Wording { names: &names, ..Wording::plain() };
        let page = Wording { typography: Typography::Page, ..plain };
        assert_eq!(plain.level("stove", "rocket"), "Rocket stove");
        assert_eq!(plain.level("stove", "box"), "box");
        assert_eq!((plain.level("stove", "NaN"), page.level("wood", "inf")), ("`NaN`".into(), "“inf”".into()));
        assert_eq!(plain.level_of_factor("wood_split", "fine"), "wood split fine");
        assert_eq!((plain.column("fuel_mass"), page.column("fuel_mass")), ("`fuel_mass`".into(), "fuel mass".into()));
        assert_eq!((plain.quoted("x_1"), page.quoted("x_1")), ("`x_1`".into(), "“x_1”".into()));
    }
    #[test]
    fn levels_of_numeric_columns_are_in_the_units_of_the_reader() {
        let metric = Wording::plain();
        let us = Wording { units: Units::Us, ..metric };
        let table = [
            ("ambient", "9 degC", "9 degC", "48.2 degF"),
            ("water", "120 L", "120 L", "31.7 US gal"),
            ("fuel_mass", "5.6 kg", "5.6 kg", "12.35 lb"),
            ("altitude", "640 m", "640 m", "2100 ft"),
            ("heater_power", "50 W", "50 W", "50 W"),
            ("ambient", "cold", "cold", "cold"),
            ("remark", "9 degC", "9 degC", "9 degC"),
        ];
        for (factor, level, in_metric, in_us) in table {
            assert_eq!((metric.level(factor, level), us.level(factor, level)), (in_metric.into(), in_us.into()));
        }
        assert_eq!(us.level_of_factor("water", "120 L"), "water 31.7 US gal");
    }
}
