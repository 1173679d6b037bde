//! The source of error that stands for the scatter between the trials of a level.

use crate::Quantity;
use crate::settings::ComparisonRequest;
use calefact_stats::Source;

/// Name of the source of a contrast or a slope, which all levels have a part in.
pub(crate) const SCATTER: &str = "scatter:difference";

/// Name of the source: one for each comparison, level and quantity.
pub(crate) fn scatter_source(request: &ComparisonRequest, quantity: Quantity, level: &str) -> Source {
    let only = request.only.iter().map(|(column, level)| format!(", {column} {level} only"));
    let comparison = format!("{}{}", request.factor, only.collect::<String>());
    format!("scatter:{comparison}:{level}:{}", quantity.name()).into()
}
