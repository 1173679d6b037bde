//! The HTML report.

use crate::ReportError;
use crate::charts::Chart;
use crate::manifest::{Hashed, ToolInfo};
use calefact_analysis::result::Analysis;

/// Renders the page.
pub(crate) fn page(_: &Analysis, _: &[Chart], _: &[Hashed], _: &ToolInfo) -> Result<String, ReportError> {
    Ok(String::new())
}
