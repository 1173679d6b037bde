//! From an instrument's sheet to sources of error.
//!
//! A limit of error becomes a standard uncertainty by GUM 4.3 (rectangular unless the sheet says otherwise). A
//! thermometer's error is taken to run in a straight line between two independent errors, one at 0 degC and one at an
//! upper node (100 degC for water and air, 600 degC for flue gas): part of it cancels in a temperature rise and part does
//! not, as with real probes. Every source here is shared by all trials that used the instrument; display steps belong to
//! the trial and are made in `reduce`.

use calefact_data::apparatus::{Apparatus, Instrument, Tolerance};
use calefact_stats::{ErrorSources, Shape, Source, SourceInfo};
use std::collections::BTreeMap;

/// Upper node of the error line of a water or air thermometer, degC.
pub const WATER_NODE: f64 = 100.0;
/// Upper node of the error line of a flue thermometer, degC.
pub const GAS_NODE: f64 = 600.0;

/// The shared error of one column: what its instrument adds at each node, or as offset and gain.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ColumnError {
    /// Id of the instrument.
    pub instrument: String,
    /// Sources at the lower node (thermometers) or offset sources (all else), with standard uncertainty.
    pub low: Vec<(Source, f64)>,
    /// Sources at the upper node (thermometers) or gain sources as fractions of the reading (all else).
    pub high: Vec<(Source, f64)>,
    /// Standard uncertainty of one reading from the display step, own to each reading.
    pub step: f64,
}

/// The errors of all columns that have an instrument, and the book of their sources.
#[derive(Debug, Clone, Default)]
pub struct ErrorModel {
    columns: BTreeMap<String, ColumnError>,
    /// Shared sources of the instruments.
    pub book: ErrorSources,
}

impl ErrorModel {
    /// Reads the instruments of an apparatus.
    pub fn new(apparatus: &Apparatus) -> Self {
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
    pub fn column(&self, name: &str) -> Option<&ColumnError> {
        self.columns.get(name)
    }

    fn column_error(&mut self, id: &str, instrument: &Instrument, column: &str) -> ColumnError {
        let node = thermometer_node(column);
        let mut error = ColumnError {
            instrument: id.to_owned(),
            step: instrument.resolution.map_or(0.0, |d| d / 12.0_f64.sqrt()),
            ..Default::default()
        };
        let mut limits: BTreeMap<&str, (f64, Shape)> = BTreeMap::new();
        for tolerance in &instrument.tolerance {
            for (part, u, shape) in parts_of(*tolerance, node) {
                let slot = limits.entry(part).or_insert((0.0, shape));
                *slot = (libm::hypot(slot.0, u), if slot.0 > 0.0 { Shape::Normal } else { shape });
            }
        }
        for (part, (u, shape)) in limits {
            let source = self.register(id, instrument, part, shape);
            let list = if matches!(part, "gain" | "high") { &mut error.high } else { &mut error.low };
            list.push((source, u));
        }
        error
    }

    fn register(&mut self, id: &str, instrument: &Instrument, part: &str, shape: Shape) -> Source {
        let source: Source = format!("instrument:{id}:{part}").into();
        let name = if instrument.name.is_empty() { id } else { &instrument.name };
        let what = match part {
            "low" => "error near 0 degC",
            "high" => "error at the upper end",
            "gain" => "gain",
            _ => "offset",
        };
        let label = format!("{name}: {what}");
        self.book.insert(source.clone(), SourceInfo { label, shared: true, dof: f64::INFINITY, shape });
        source
    }
}

/// Upper node of a thermometer column; `None` for any other column.
pub(crate) fn thermometer_node(column: &str) -> Option<f64> {
    match column {
        "tank" | "coil_in" | "coil_out" | "ambient" => Some(WATER_NODE),
        "flue_before" | "flue_after" | "casing" => Some(GAS_NODE),
        _ => None,
    }
}

/// Standard uncertainties of a tolerance by part: `low`/`high` for thermometers, `offset`/`gain` otherwise.
fn parts_of(tolerance: Tolerance, node: Option<f64>) -> Vec<(&'static str, f64, Shape)> {
    let root3 = 3.0_f64.sqrt();
    let (shape, scale) = match tolerance {
        Tolerance::Standard(_) => (Shape::Normal, 1.0),
        _ => (Shape::Rectangular, 1.0 / root3),
    };
    if let Some(node) = node {
        let limit = |t: f64| match tolerance {
            Tolerance::Absolute(a) | Tolerance::Standard(a) => a,
            Tolerance::OfReading(f) => f * t,
            Tolerance::GreaterOf(a, f) => a.max(f * t),
            Tolerance::SumOf(a, f) => a + f * t,
        };
        return vec![("low", limit(0.0) * scale, shape), ("high", limit(node) * scale, shape)];
    }
    match tolerance {
        Tolerance::Absolute(a) | Tolerance::Standard(a) => vec![("offset", a * scale, shape)],
        Tolerance::OfReading(f) => vec![("gain", f * scale, shape)],
        Tolerance::GreaterOf(a, f) | Tolerance::SumOf(a, f) => {
            vec![("offset", a * scale, shape), ("gain", f * scale, shape)]
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn class_b_probe_at_its_nodes() {
        // IEC 60751 class B: 0.30 + 0.005 t; GUM 4.3.7 rectangular.
        let parts = parts_of(Tolerance::SumOf(0.3, 0.005), Some(WATER_NODE));
        assert!((parts[0].1 - 0.3 / 3.0_f64.sqrt()).abs() < 1e-12);
        assert!((parts[1].1 - 0.8 / 3.0_f64.sqrt()).abs() < 1e-12);
    }
}
