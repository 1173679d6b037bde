//! From an instrument's sheet to sources of error.
//!
//! A limit of error becomes a standard uncertainty by GUM 4.3 (rectangular unless the sheet says otherwise). A
//! thermometer's error is taken to run in a straight line between two independent errors, one at 0 degC and one at an
//! upper node (100 degC for water and air, 600 degC for flue gas): part of it cancels in a temperature rise and part does
//! not, as with real probes. Every source here is shared by all trials that used the instrument; display steps belong to
//! the trial and are made in `reduce`.

use crate::fact::{ErrorSource, InstrumentError};
use calefact_data::apparatus::{Apparatus, Instrument, Tolerance};
use calefact_stats::{ErrorSources, Shape, Source, SourceInfo, UncertainValue};
use std::collections::BTreeMap;

/// Upper node of the error line of a water or air thermometer, degC.
pub(crate) const WATER_NODE: f64 = 100.0;
/// Upper node of the error line of a flue thermometer, degC.
pub(crate) const GAS_NODE: f64 = 600.0;

/// The shared error of one column: what its instrument adds at each node, or as offset and gain.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct ColumnError {
    /// Id of the instrument.
    pub(crate) instrument: String,
    /// Sources at the lower node (thermometers) or offset sources (all else), with standard uncertainty.
    pub(crate) low: Vec<(Source, f64)>,
    /// Sources at the upper node (thermometers) or gain sources as fractions of the reading (all else).
    pub(crate) high: Vec<(Source, f64)>,
    /// Standard uncertainty of one reading from the display step, own to each reading.
    pub(crate) step: f64,
}

/// The errors of all columns that have an instrument, and the book of their sources.
#[derive(Debug, Clone, Default)]
pub(crate) struct ErrorModel {
    columns: BTreeMap<String, ColumnError>,
    /// Shared sources of the instruments.
    pub(crate) book: ErrorSources,
}

impl ErrorModel {
    /// Reads the instruments of an apparatus.
    pub(crate) fn new(apparatus: &Apparatus) -> Self {
        let mut model = Self::default();
        for (id, instrument) in &apparatus.instruments {
            for column in &instrument.reads {
                let error = model.column_error(id, instrument, column);
                model.columns.insert(column.clone(), error);
            }
        }
        model
    }

    /// The error of a column, if an instrument is stated for it.
    pub(crate) fn column(&self, name: &str) -> Option<&ColumnError> {
        self.columns.get(name)
    }

    fn column_error(&mut self, id: &str, instrument: &Instrument, column: &str) -> ColumnError {
        let node = thermometer_node(column);
        let mut error = ColumnError {
            instrument: id.to_owned(),
            step: instrument.resolution.map_or(0.0, |d| d / 12.0_f64.sqrt()),
            ..Default::default()
        };
        let mut limits: BTreeMap<InstrumentError, (f64, Shape)> = BTreeMap::new();
        for tolerance in &instrument.tolerance {
            for (part, u, shape) in parts(*tolerance, node) {
                let slot = limits.entry(part).or_insert((0.0, shape));
                *slot = (libm::hypot(slot.0, u), if slot.0 > 0.0 { Shape::Normal } else { shape });
            }
        }
        for (part, (u, shape)) in limits {
            let source = ErrorSource::Instrument { id: id.to_owned(), error: part }.key();
            self.book.insert(source.clone(), SourceInfo { shared: true, dof: f64::INFINITY, shape });
            let upper = matches!(part, InstrumentError::Gain | InstrumentError::High);
            let list = if upper { &mut error.high } else { &mut error.low };
            list.push((source, u));
        }
        error
    }
}

/// Upper node of a thermometer column; `None` for any other column.
fn thermometer_node(column: &str) -> Option<f64> {
    match column {
        "tank" | "coil_in" | "coil_out" | "ambient" => Some(WATER_NODE),
        "flue_before" | "flue_after" | "casing" => Some(GAS_NODE),
        _ => None,
    }
}

/// A value with the error of the instrument that reads its column: a thermometer's error line at that temperature, or
/// offset and gain.
pub(crate) fn with_instrument(errors: &ErrorModel, column: &str, value: f64) -> UncertainValue {
    let traced = UncertainValue::exact(value);
    let Some(error) = errors.column(column) else { return traced };
    let (low, high) = thermometer_node(column).map_or((1.0, value), |node| (1.0 - value / node, value / node));
    let traced = error.low.iter().fold(traced, |t, (s, u)| t.with(s.clone(), low * u));
    error.high.iter().fold(traced, |t, (s, u)| t.with(s.clone(), high * u))
}

/// Standard uncertainties of a tolerance by part: lower and upper node for thermometers, offset and gain otherwise.
fn parts(tolerance: Tolerance, node: Option<f64>) -> Vec<(InstrumentError, f64, Shape)> {
    let (shape, scale) = match tolerance {
        Tolerance::Standard(_) => (Shape::Normal, 1.0),
        _ => (Shape::Rectangular, 1.0 / 3.0_f64.sqrt()),
    };
    if let Some(node) = node {
        let limit = |t: f64| match tolerance {
            Tolerance::Absolute(a) | Tolerance::Standard(a) => a,
            Tolerance::OfReading(f) => f * t,
            Tolerance::GreaterOf(a, f) => a.max(f * t),
            Tolerance::SumOf(a, f) => a + f * t,
        };
        return vec![
            (InstrumentError::Low, limit(0.0) * scale, shape),
            (InstrumentError::High, limit(node) * scale, shape),
        ];
    }
    let offset = |a: f64| (InstrumentError::Offset, a * scale, shape);
    let gain = |f: f64| (InstrumentError::Gain, f * scale, shape);
    match tolerance {
        Tolerance::Absolute(a) | Tolerance::Standard(a) => vec![offset(a)],
        Tolerance::OfReading(f) => vec![gain(f)],
        Tolerance::GreaterOf(a, f) | Tolerance::SumOf(a, f) => vec![offset(a), gain(f)],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn class_b_probe_at_its_nodes() {
        // IEC 60751 class B: 0.30 + 0.005 t; GUM 4.3.7 rectangular.
        let parts = parts(Tolerance::SumOf(0.3, 0.005), Some(WATER_NODE));
        assert!((parts[0].1 - 0.3 / 3.0_f64.sqrt()).abs() < 1e-12);
        assert!((parts[1].1 - 0.8 / 3.0_f64.sqrt()).abs() < 1e-12);
    }
}
