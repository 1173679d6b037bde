//! Jobs that are forecast.

use calefact_analysis::settings::{DescribedVessel, Job, JobVessel, ReferenceJob, Wall};
use calefact_data::apparatus::{Stated, Vessel};
use calefact_data::dataset_file::{MATERIALS, TOPS};
use calefact_data::toml_source::{Item, Table};

/// Reads every `[[job]]`.
pub(super) fn read(root: &Table<'_>) -> Vec<Job> {
    root.items("job").iter().filter_map(|item| job(&item.table()?)).collect()
}

fn job(table: &Table<'_>) -> Option<Job> {
    let task = ReferenceJob {
        water_m3: table.number("water")?,
        from: table.number("from")?,
        to: table.number("to")?,
        ambient: table.number("ambient")?,
        fuel_moisture: table.number("fuel_moisture"),
    };
    Some(Job {
        name: table.string("name"),
        task,
        standing_s: table.number("standing"),
        repeats: table.number("repeats"),
        deadline_s: table.number("deadline"),
        vessel: table.item("vessel").and_then(|item| vessel(&item)).unwrap_or(JobVessel::Usual),
    })
}

fn vessel(item: &Item<'_>) -> Option<JobVessel> {
    let Some(table) = item.table() else { return item.text().map(|id| JobVessel::Named(id.to_owned())) };
    let material = table.word("material", &MATERIALS);
    let exact = |value: f64| Stated { value, std_uncertainty: None };
    let capacity = material.zip(table.number("mass")).map(|(m, kg)| exact(kg * m.specific_heat()));
    let vessel = Vessel {
        name: String::new(),
        heat_capacity: capacity,
        volume: table.number("volume").map(exact),
        loss_coefficient: table.item("loss_coefficient").and_then(|item| item.stated()),
        material,
        top: table.word("top", &TOPS),
    };
    let wall = Wall {
        insulation_m: table.number("insulation"),
        conductivity: table.number("conductivity"),
        transfer: table.number("heat_transfer"),
        area_m2: table.number("area"),
    };
    Some(JobVessel::Described(Box::new(DescribedVessel { vessel, wall })))
}
