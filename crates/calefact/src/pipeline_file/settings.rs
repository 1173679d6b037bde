//! `[settings]`: how trials are reduced and compared.

use super::keys::{COMBINES, ENDS, PROPAGATIONS, RIG_CHECKS, WINDOWS};
use super::values::rising;
use super::{comparison, job, reference_job};
use calefact_analysis::Settings;
use calefact_analysis::settings::{End, Propagation, Window};
use calefact_data::toml_source::{Item, Table};

/// Seed of the Monte Carlo draws unless the pipeline names one.
const SEED: u64 = 20_240_601;
/// Digits that Monte Carlo makes stable unless the pipeline names them.
const DIGITS: u8 = 1;

/// Reads `[settings]`, `[reference_job]`, the jobs and the comparisons.
pub(super) fn read(root: &Table<'_>) -> Settings {
    let mut settings = Settings {
        reference_job: reference_job::read(root),
        jobs: job::read(root),
        comparisons: comparison::read(root),
        ..Settings::default()
    };
    if let Some(table) = root.table("settings") {
        apply(&table, &mut settings);
    }
    settings
}

fn apply(table: &Table<'_>, settings: &mut Settings) {
    settings.level = table.number("level").unwrap_or(settings.level);
    settings.window = table.item("window").and_then(|i| window(&i)).unwrap_or(settings.window);
    settings.end = table.item("end").and_then(|i| end(&i)).unwrap_or(settings.end);
    settings.heating_rate_at = table.number("heating_rate_at").unwrap_or(settings.heating_rate_at);
    settings.propagation = propagation(table);
    settings.rig_check = table.word("rig_check", &RIG_CHECKS).unwrap_or_default();
    settings.combine = table.word("combine", &COMBINES).unwrap_or_default();
}

fn window(item: &Item<'_>) -> Option<Window> {
    let Some(table) = item.table() else { return item.word(&WINDOWS) };
    rising(&table, "from", "to").map(|(from, to)| Window::Between { from, to })
}

fn end(item: &Item<'_>) -> Option<End> {
    let Some(table) = item.table() else { return item.word(&ENDS) };
    table.number("target").map(End::Target)
}

fn propagation(table: &Table<'_>) -> Propagation {
    if !table.word("propagation", &PROPAGATIONS).unwrap_or(false) {
        return Propagation::FirstOrder;
    }
    let seed = table.integer("seed").and_then(|n| n.try_into().ok());
    let digits = table.integer("digits").and_then(|n| n.try_into().ok());
    Propagation::MonteCarlo { seed: seed.unwrap_or(SEED), digits: digits.unwrap_or(DIGITS) }
}
