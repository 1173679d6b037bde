//! The job that trials are normalised to.

use super::values::rising;
use calefact_analysis::settings::ReferenceJob;
use calefact_data::toml_source::Table;

/// Reads `[reference_job]`; `None` if there is none.
pub(super) fn read(root: &Table<'_>) -> Option<ReferenceJob> {
    let table = root.table("reference_job")?;
    let (from, to) = rising(&table, "from", "to")?;
    Some(ReferenceJob {
        water_m3: table.number("water")?,
        from,
        to,
        ambient: table.number("ambient")?,
        fuel_moisture: table.number("fuel_moisture"),
    })
}
