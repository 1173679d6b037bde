//! From an instrument's sheet to sources of error.
//!
//! A limit of error becomes a standard uncertainty by GUM 4.3 (rectangular unless the sheet says otherwise). How a
//! thermometer's error runs along its scale is told in [`crate::thermometer`]; other instruments have an offset and a gain.
//! Every source here is shared by all trials that used the instrument; display steps belong to the trial and are made in
//! `reduce`.

use crate::assumed::tolerance::{self, Assumed};
use crate::fact::{AssumedInput, ErrorSource, InstrumentError};
use crate::thermometer::{self, Thermometer, shape};
use calefact_data::apparatus::{Apparatus, Instrument, Tolerance};
use calefact_stats::{ErrorSources, Shape, Source, SourceInfo, UncertainValue};
use std::collections::BTreeMap;

/// The shared error of one column: a thermometer's, or offset and gain of another instrument.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct ColumnError {
    /// Id of the instrument.
    pub(crate) instrument: String,
    /// The thermometer that reads the column.
    pub(crate) thermometer: Option<Thermometer>,
    /// Offset sources of other instruments, with standard uncertainty.
    pub(crate) offset: Vec<(Source, f64)>,
    /// Gain sources of other instruments, as fractions of the reading.
    pub(crate) gain: Vec<(Source, f64)>,
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
    /// Reads the instruments of an apparatus, and takes assumed tolerances for columns that none states one for.
    pub(crate) fn new(apparatus: &Apparatus) -> Self {
        let mut model = Self::default();
        for (id, instrument) in &apparatus.instruments {
            for column in &instrument.reads {
                let error = model.column_error(&Reader::described(id, instrument, column, apparatus), column);
                model.columns.insert(column.clone(), error);
            }
        }
        // Of several datasets one may lack an instrument that another has: the book knows the assumed errors of every column.
        for assumed in tolerance::COLUMNS.iter().filter(|_| !apparatus.assumes_nothing) {
            let error = model.column_error(&Reader::assumed(assumed, assumed.instrument, None), assumed.column);
            model.columns.entry(assumed.column.to_owned()).or_insert(error);
        }
        model
    }

    /// The error of a column, if an instrument is stated for it.
    pub(crate) fn column(&self, name: &str) -> Option<&ColumnError> {
        self.columns.get(name)
    }

    fn column_error(&mut self, reader: &Reader<'_>, column: &str) -> ColumnError {
        let mut error = ColumnError {
            instrument: reader.id.to_owned(),
            step: reader.resolution.map_or(0.0, |d| d / 12.0_f64.sqrt()),
            ..Default::default()
        };
        if let Some(node) = thermometer::node(column) {
            error.thermometer = self.thermometer(reader, node);
            return error;
        }
        let mut limits: BTreeMap<InstrumentError, (f64, Shape)> = BTreeMap::new();
        for tolerance in reader.limits {
            for (part, u, shape) in parts(*tolerance) {
                let slot = limits.entry(part).or_insert((0.0, shape));
                *slot = (libm::hypot(slot.0, u), if slot.0 > 0.0 { Shape::Normal } else { shape });
            }
        }
        for (part, (u, shape)) in limits {
            let source = self.source(reader, part, shape);
            let list = if part == InstrumentError::Gain { &mut error.gain } else { &mut error.offset };
            list.push((source, u));
        }
        error
    }

    /// A thermometer with the sources of its errors; `None` where no limit is stated.
    fn thermometer(&mut self, reader: &Reader<'_>, node: f64) -> Option<Thermometer> {
        let shape = match *reader.limits {
            [] => return None,
            [limit] => shape(limit).0,
            _ => Shape::Normal,
        };
        let errors = [InstrumentError::Common, InstrumentError::Low, InstrumentError::High];
        let sources = errors.map(|error| self.source(reader, error, shape));
        Some(Thermometer { limits: reader.limits.to_vec(), node, sources })
    }

    /// Enters a source of an instrument into the book.
    fn source(&mut self, reader: &Reader<'_>, error: InstrumentError, shape: Shape) -> Source {
        let source = reader.source(error).key();
        self.book.insert(source.clone(), SourceInfo { shared: true, dof: f64::INFINITY, shape });
        source
    }
}

/// The instrument that reads a column, described or not.
struct Reader<'a> {
    id: &'a str,
    limits: &'a [Tolerance],
    resolution: Option<f64>,
    /// Which tolerance was assumed, where none is stated.
    assumed: Option<AssumedInput>,
}

impl<'a> Reader<'a> {
    fn described(id: &'a str, instrument: &'a Instrument, column: &str, apparatus: &Apparatus) -> Self {
        let resolution = instrument.resolution;
        let silent = instrument.tolerance.is_empty() && !apparatus.assumes_nothing;
        match tolerance::of_column(column).filter(|_| silent) {
            Some(assumed) => Self::assumed(assumed, id, resolution),
            None => Self { id, limits: &instrument.tolerance, resolution, assumed: None },
        }
    }

    fn assumed(assumed: &Assumed, id: &'a str, resolution: Option<f64>) -> Self {
        Self { id, limits: assumed.limits, resolution, assumed: Some(assumed.input) }
    }

    fn source(&self, error: InstrumentError) -> ErrorSource {
        let id = self.id.to_owned();
        match self.assumed {
            Some(input) => ErrorSource::AssumedTolerance { input, instrument: id, error },
            None => ErrorSource::Instrument { id, error },
        }
    }
}

impl ColumnError {
    /// Parts of the error of a reading by source.
    pub(crate) fn parts(&self, value: f64) -> Vec<(Source, f64)> {
        let offset = self.offset.iter().cloned();
        let gain = self.gain.iter().map(|(source, u)| (source.clone(), u * value));
        let thermometer = self.thermometer.iter().flat_map(|t| t.parts(value));
        offset.chain(gain).chain(thermometer).collect()
    }
}

/// A value with the error of the instrument that reads its column.
pub(crate) fn with_instrument(errors: &ErrorModel, column: &str, value: f64) -> UncertainValue {
    let parts = errors.column(column).map_or_else(Vec::new, |error| error.parts(value));
    parts.into_iter().fold(UncertainValue::exact(value), |traced, (source, part)| traced.with(source, part))
}

/// Standard uncertainties of a tolerance of an instrument other than a thermometer, by part.
fn parts(tolerance: Tolerance) -> Vec<(InstrumentError, f64, Shape)> {
    let (shape, scale) = shape(tolerance);
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
    use std::collections::BTreeSet;

    /// Two limits of one kind act together as their root sum of squares; GUM 4.3.7 for each, its sources by part.
    #[test]
    fn limits_of_an_instrument_act_together() {
        let instrument = Instrument {
            reads: vec!["fuel_mass".into(), "coil_in".into()],
            tolerance: vec![Tolerance::Absolute(0.03), Tolerance::SumOf(0.04, 0.01)],
            ..Instrument::default()
        };
        let apparatus = Apparatus { instruments: [("x".to_owned(), instrument)].into(), ..Apparatus::default() };
        let model = ErrorModel::new(&apparatus);
        let weight = with_instrument(&model, "fuel_mass", 5.0);
        let parts: BTreeSet<&str> = weight.parts.iter().map(|(source, _)| &**source).collect();
        assert_eq!(parts, BTreeSet::from(["instrument:x:gain", "instrument:x:offset"]));
        assert!((weight.std_uncertainty() - ((0.0025 + 0.0025) / 3.0_f64).sqrt()).abs() < 1e-12);
        // At 10 degC the second limit is 0.04 + 0.1 K.
        let water = with_instrument(&model, "coil_in", 10.0);
        assert!((water.std_uncertainty() - ((0.0009 + 0.0196) / 3.0_f64).sqrt()).abs() < 1e-12);
        assert_eq!(water.parts.len(), 3);
    }
}
