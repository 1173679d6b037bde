//! A table as named, documented columns. How it is written is not here.

use calefact_stats::Estimate;
use std::borrow::Cow;

/// Values of a column; a missing value is `None` or not finite.
pub(crate) enum Values<'a> {
    /// Words.
    Text(Vec<Option<Cow<'a, str>>>),
    /// Measured numbers.
    Number(Cow<'a, [f64]>),
    /// Counts.
    Count(Vec<Option<u64>>),
    /// Yes or no.
    Flag(Vec<bool>),
    /// So many missing numbers.
    Missing(usize),
    /// So many missing words.
    MissingText(usize),
}

/// A column and what it means.
pub(crate) struct Column<'a> {
    /// Header.
    pub(crate) name: String,
    /// Unit symbol, or words such as "as `unit`"; empty for words and counts.
    pub(crate) unit: &'static str,
    /// Its meaning, for `columns.csv`.
    pub(crate) meaning: &'static str,
    /// Values.
    pub(crate) values: Values<'a>,
}

/// A tidy table.
pub(crate) struct Table<'a> {
    /// File name without ending.
    pub(crate) name: &'static str,
    /// Columns in order; all of one length.
    pub(crate) columns: Vec<Column<'a>>,
}

impl<'a> Table<'a> {
    /// An empty table.
    pub(crate) fn new(name: &'static str) -> Self {
        Self { name, columns: Vec::new() }
    }

    fn add(mut self, name: impl Into<String>, unit: &'static str, meaning: &'static str, values: Values<'a>) -> Self {
        self.columns.push(Column { name: name.into(), unit, meaning, values });
        self
    }

    /// Adds a column of words, none of them missing.
    pub(crate) fn text<S: Into<Cow<'a, str>>>(
        self,
        name: impl Into<String>,
        meaning: &'static str,
        values: impl Iterator<Item = S>,
    ) -> Self {
        self.maybe(name, meaning, values.map(Some))
    }

    /// Adds a column of words that may be missing.
    pub(crate) fn maybe<S: Into<Cow<'a, str>>>(
        self,
        name: impl Into<String>,
        meaning: &'static str,
        values: impl Iterator<Item = Option<S>>,
    ) -> Self {
        let values = values.map(|v| v.map(Into::into).filter(|s: &Cow<'_, str>| !s.is_empty())).collect();
        self.add(name, "", meaning, Values::Text(values))
    }

    /// Adds a column of numbers; what is not finite is missing.
    pub(crate) fn number(
        self,
        name: &'static str,
        unit: &'static str,
        meaning: &'static str,
        values: impl Iterator<Item = f64>,
    ) -> Self {
        self.add(name, unit, meaning, Values::Number(values.collect()))
    }

    /// Adds a column of numbers that are held elsewhere; what is not finite is missing.
    pub(crate) fn numbers(
        self,
        name: &'static str,
        unit: &'static str,
        meaning: &'static str,
        values: &'a [f64],
    ) -> Self {
        self.add(name, unit, meaning, Values::Number(values.into()))
    }

    /// Adds a column of numbers that are all missing.
    pub(crate) fn missing(self, name: &'static str, unit: &'static str, meaning: &'static str, rows: usize) -> Self {
        self.add(name, unit, meaning, Values::Missing(rows))
    }

    /// Adds a column of words that are all missing.
    pub(crate) fn missing_text(self, name: &'static str, meaning: &'static str, rows: usize) -> Self {
        self.add(name, "", meaning, Values::MissingText(rows))
    }

    /// Adds a column of counts.
    pub(crate) fn count(
        self,
        name: &'static str,
        meaning: &'static str,
        values: impl Iterator<Item = Option<u64>>,
    ) -> Self {
        self.add(name, "", meaning, Values::Count(values.collect()))
    }

    /// Adds a yes-or-no column.
    pub(crate) fn flag(self, name: &'static str, meaning: &'static str, values: impl Iterator<Item = bool>) -> Self {
        self.add(name, "", meaning, Values::Flag(values.collect()))
    }

    /// Adds the columns every estimate brings: value, unit, uncertainty, interval, level.
    pub(crate) fn estimates(self, e: impl Iterator<Item = &'a Estimate> + Clone) -> Self {
        self.means(e.map(|e| (e, true)))
    }

    /// The same of means: where a mean is that of one trial its uncertainty is not known and is left out.
    pub(crate) fn means(self, e: impl Iterator<Item = (&'a Estimate, bool)> + Clone) -> Self {
        let units = e.clone().map(|(e, _)| e.unit.as_ref());
        self.means_in(e, units)
    }

    /// The same with units of their own.
    pub(crate) fn estimates_in<S: Into<Cow<'a, str>>>(
        self,
        e: impl Iterator<Item = &'a Estimate> + Clone,
        units: impl Iterator<Item = S>,
    ) -> Self {
        self.means_in(e.map(|e| (e, true)), units)
    }

    fn means_in<S: Into<Cow<'a, str>>>(
        self,
        e: impl Iterator<Item = (&'a Estimate, bool)> + Clone,
        units: impl Iterator<Item = S>,
    ) -> Self {
        let known = |get: fn(&Estimate) -> f64| e.clone().map(move |(e, known)| if known { get(e) } else { f64::NAN });
        self.number("value", "as `unit`", "best estimate", e.clone().map(|(e, _)| e.value))
            .text("unit", "unit symbol of the row; 1 for a pure number", units)
            .number("std_uncertainty", "as `unit`", "standard uncertainty", known(|e| e.std_uncertainty))
            .number("lower", "as `unit`", "lower end of the interval", known(|e| e.interval.lower))
            .number("upper", "as `unit`", "upper end of the interval", known(|e| e.interval.upper))
            .number(
                "level",
                "1",
                "coverage probability the interval is meant to have",
                e.map(|(e, known)| if known { e.interval.confidence } else { f64::NAN }),
            )
    }

    /// Number of rows.
    pub(crate) fn rows(&self) -> usize {
        self.columns.first().map_or(0, |c| c.values.len())
    }
}

impl Values<'_> {
    /// The type of the values, as the Data Package standard names it.
    pub(crate) fn kind(&self) -> &'static str {
        match self {
            Self::Text(_) | Self::MissingText(_) => "string",
            Self::Number(_) | Self::Missing(_) => "number",
            Self::Count(_) => "integer",
            Self::Flag(_) => "boolean",
        }
    }

    fn len(&self) -> usize {
        match self {
            Self::Text(v) => v.len(),
            Self::Number(v) => v.len(),
            Self::Count(v) => v.len(),
            Self::Flag(v) => v.len(),
            Self::Missing(rows) | Self::MissingText(rows) => *rows,
        }
    }
}
