//! Instruments in words: their limits of error and their steps, and the units in which a column is written down.

use super::{Measure, Units, Wording, list};
use calefact_data::apparatus::{Instrument, Tolerance};
use calefact_data::{Channel, register_columns};
use calefact_units::Kind;

/// The kind of what a column of a log or of the register holds.
fn kind(column: &str) -> Option<Kind> {
    let register = || register_columns::column(column).and_then(register_columns::RegisterColumn::kind);
    Channel::from_name(column).map(Channel::kind).or_else(register)
}

/// The unit in which a column is noted, as its header may carry it; none for words.
pub(crate) fn unit_to_note(w: &Wording<'_>, column: &str) -> Option<&'static str> {
    let us = w.units == Units::Us;
    Some(match kind(column)? {
        Kind::Temperature => {
            if us {
                "degF"
            } else {
                "degC"
            }
        }
        Kind::Mass => {
            if us {
                "lb"
            } else {
                "kg"
            }
        }
        Kind::Volume => {
            if us {
                "US gal"
            } else {
                "L"
            }
        }
        Kind::MassFlow => {
            if us {
                "lb/min"
            } else {
                "L/min"
            }
        }
        Kind::Length => {
            if us {
                "ft"
            } else {
                "m"
            }
        }
        Kind::Fraction => "%",
        Kind::Power => "W",
        _ => return None,
    })
}

/// "0.02 kg and 0.2 % of the reading"; none where the instrument states no tolerance.
pub(crate) fn tolerance(w: &Wording<'_>, instrument: &Instrument) -> Option<String> {
    let column = instrument.reads.first()?;
    let limits: Vec<String> = instrument.tolerance.iter().map(|t| limit(w, column, *t)).collect();
    (!limits.is_empty()).then(|| list(&limits))
}

/// "step 0.01 kg"; none where the instrument states no step.
pub(crate) fn step(w: &Wording<'_>, instrument: &Instrument) -> Option<String> {
    let column = instrument.reads.first()?;
    Some(format!("step {}", amount(w, column, instrument.resolution?)))
}

fn limit(w: &Wording<'_>, column: &str, tolerance: Tolerance) -> String {
    let of_reading = |share: f64| format!("{} of the reading", w.share(share));
    match tolerance {
        Tolerance::Absolute(size) => amount(w, column, size),
        Tolerance::OfReading(share) => of_reading(share),
        Tolerance::GreaterOf(size, share) => format!("{} or {}", amount(w, column, size), of_reading(share)),
        Tolerance::SumOf(size, share) => format!("{} and {}", amount(w, column, size), of_reading(share)),
        Tolerance::Standard(size) => format!("{} (standard uncertainty)", amount(w, column, size)),
    }
}

/// A width in the unit of a column, SI.
fn amount(w: &Wording<'_>, column: &str, size: f64) -> String {
    let points = || w.typography.join(&w.typography.significant(100.0 * size, 2), "percentage points");
    match kind(column) {
        Some(Kind::Temperature) => w.measure(Measure::TemperatureDifference, size),
        Some(Kind::Mass) => w.mass(size),
        Some(Kind::Volume) => w.volume(size),
        Some(Kind::MassFlow) => w.flow(size),
        Some(Kind::Power) => w.typography.join(&w.typography.significant(size, 2), "W"),
        Some(Kind::Length) => w.measure(Measure::LongLength, size),
        Some(Kind::Fraction) => points(),
        _ => w.typography.significant(size, 3),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_units::Unit;

    #[test]
    fn every_unit_on_a_sheet_is_one_that_a_header_may_carry() {
        for units in [Units::Metric, Units::Us] {
            let w = Wording { units, ..Wording::plain() };
            let columns = Channel::ALL.map(Channel::name).into_iter().chain(register_columns::names());
            for (column, unit) in columns.filter_map(|c| Some((c, unit_to_note(&w, c)?))) {
                let flow = || Unit::parse(unit, Kind::VolumeFlow).is_ok();
                let known = kind(column).is_some_and(|k| Unit::parse(unit, k).is_ok());
                assert!(known || flow(), "{column} [{unit}]");
            }
        }
    }

    #[test]
    fn limits_and_steps_are_in_the_units_of_the_reader() {
        let scale = Instrument {
            reads: vec!["fuel_mass".into()],
            tolerance: vec![Tolerance::Absolute(0.02), Tolerance::OfReading(0.002)],
            resolution: Some(0.01),
            ..Instrument::default()
        };
        let w = Wording::plain();
        assert_eq!(tolerance(&w, &scale).as_deref(), Some("0.02 kg and 0.2 % of the reading"));
        assert_eq!(step(&w, &scale).as_deref(), Some("step 0.01 kg"));
        let probe = Instrument { reads: vec!["tank".into()], resolution: Some(0.1), ..Instrument::default() };
        assert_eq!((tolerance(&w, &probe), step(&w, &probe).as_deref()), (None, Some("step 0.1 K")));
        let us = Wording { units: Units::Us, ..w };
        assert_eq!(step(&us, &probe).as_deref(), Some("step 0.18 degF"));
    }
}
