//! A drawn chart and its place in the report.

use calefact_analysis::Quantity;

/// Where in the report a chart belongs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Home {
    /// Wood and time of jobs.
    Jobs,
    /// Temperature curves.
    Curves,
    /// A quantity of the comparison of this number.
    Comparison(usize, Quantity),
    /// Energy balance.
    Balance,
    /// Exchanger.
    Exchanger,
    /// Exchangers that have not been built.
    Builds,
    /// Uncertainty budget.
    Doubt,
}

/// A drawn chart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Chart {
    /// File name.
    pub(crate) file: String,
    /// Its place in the report.
    pub(crate) home: Home,
    /// The SVG document.
    pub(crate) svg: String,
    /// What the marks mean and what was left out, for the text below.
    pub(crate) caption: String,
}
