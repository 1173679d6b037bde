//! The job that trials are normalised to.

use calefact_analysis::settings::ReferenceJob;
use calefact_data::toml_source::Table;
use calefact_units::Kind;

/// Reads `[reference_job]`; `None` if there is none.
pub(super) fn read(root: &Table<'_>) -> Option<ReferenceJob> {
    let table = root.table("reference_job")?;
    let quantity = |key, kind| table.required(key).and_then(|item| item.quantity(kind));
    let water_m3 = quantity("water", Kind::Volume);
    let from = quantity("from", Kind::Temperature);
    let to = quantity("to", Kind::Temperature);
    let ambient = quantity("ambient", Kind::Temperature);
    let fuel_moisture = table.quantity("fuel_moisture", Kind::Fraction);
    table.finish();
    let job = ReferenceJob { water_m3: water_m3?, from: from?, to: to?, ambient: ambient?, fuel_moisture };
    if job.to <= job.from || job.water_m3 <= 0.0 {
        table.error(
            "bad-value",
            "the reference job does not heat any water",
            "`to` must be above `from`, `water` above 0",
        );
    }
    if fuel_moisture.is_some_and(|m| !(0.0..1.0).contains(&m)) {
        table.error(
            "bad-value",
            "`fuel_moisture` is not a wet-basis moisture",
            "give it from 0 % to under 100 %, water over total mass",
        );
    }
    Some(job)
}
