//! The charts of a report, one file a chart. Each says one thing, and its title says it in words.

use crate::ReportError;
use calefact_analysis::result::Analysis;

/// A drawn chart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Chart {
    /// File name.
    pub(crate) file: String,
    /// The SVG document.
    pub(crate) svg: String,
}

/// Draws every chart the analysis has data for.
pub(crate) fn draw_all(_analysis: &Analysis) -> Result<Vec<Chart>, ReportError> {
    Ok(Vec::new())
}
