//! `[settings]`: how trials are reduced and compared.

use super::{comparison, reference_job};
use calefact_analysis::Settings;
use calefact_analysis::settings::{Combine, End, Propagation, RigCheck, Window};
use calefact_data::toml_source::{Item, Table};
use calefact_units::Kind;

/// Seed of the Monte Carlo draws unless the pipeline names one.
const SEED: u64 = 20_240_601;

/// Reads `[settings]`, `[reference_job]` and the comparisons.
pub(super) fn read(root: &Table<'_>) -> Settings {
    let mut settings = Settings {
        reference_job: reference_job::read(root),
        comparisons: comparison::read(root),
        ..Settings::default()
    };
    if let Some(table) = root.table("settings") {
        apply(&table, &mut settings);
        table.finish();
    }
    settings
}

fn apply(table: &Table<'_>, settings: &mut Settings) {
    settings.level = table.optional("level").and_then(|i| level(&i)).unwrap_or(settings.level);
    settings.window = table.optional("window").and_then(|i| window(&i)).unwrap_or(settings.window);
    settings.end = table.optional("end").and_then(|i| end(&i)).unwrap_or(settings.end);
    let rate_at = table.quantity("heating_rate_at", Kind::Temperature);
    settings.heating_rate_at = rate_at.unwrap_or(settings.heating_rate_at);
    settings.propagation = propagation(table);
    let uses = [("report", RigCheck::Report), ("bound", RigCheck::Bound), ("correct", RigCheck::Correct)];
    settings.rig_check = table.optional("rig_check").and_then(|i| i.word(&uses)).unwrap_or_default();
    let ways = [("mean", Combine::Mean), ("REML", Combine::Reml), ("Paule-Mandel", Combine::PauleMandel)];
    settings.combine = table.optional("combine").and_then(|i| i.word(&ways)).unwrap_or_default();
}

fn level(item: &Item<'_>) -> Option<f64> {
    let level = if item.as_str().is_some() { item.quantity(Kind::Fraction) } else { item.number() }?;
    let sound = (0.5..1.0).contains(&level);
    if !sound {
        item.error("bad-value", "`settings.level` is out of range", "a level lies between 0.5 and 1, such as 0.95");
    }
    sound.then_some(level)
}

fn window(item: &Item<'_>) -> Option<Window> {
    if !item.is_table() {
        return item.word(&[("whole log", Window::WholeLog)]);
    }
    let table = item.table()?;
    let from = table.required("from").and_then(|i| i.quantity(Kind::Temperature));
    let to = table.required("to").and_then(|i| i.quantity(Kind::Temperature));
    table.finish();
    let (from, to) = (from?, to?);
    if to <= from {
        item.error("bad-value", "the window ends where it begins, or below", "`to` must be above `from`");
    }
    Some(Window::Between { from, to })
}

fn end(item: &Item<'_>) -> Option<End> {
    if !item.is_table() {
        return item.word(&[("last reading", End::LastReading), ("fire out", End::FireOut), ("peak", End::Peak)]);
    }
    let table = item.table()?;
    let target = table.required("target").and_then(|i| i.quantity(Kind::Temperature));
    table.finish();
    target.map(End::Target)
}

fn propagation(table: &Table<'_>) -> Propagation {
    let seed = table.optional("seed").and_then(|i| whole(&i, 0)).unwrap_or(SEED);
    let digits = table.optional("digits").and_then(|i| whole(&i, 1)).unwrap_or(2);
    let monte_carlo = Propagation::MonteCarlo { seed, digits: digits.min(6) as u8 };
    let words = [("first order", Propagation::FirstOrder), ("monte carlo", monte_carlo)];
    table.optional("propagation").and_then(|i| i.word(&words)).unwrap_or(Propagation::FirstOrder)
}

fn whole(item: &Item<'_>, least: i64) -> Option<u64> {
    let value = item.integer()?;
    if value < least {
        item.error("bad-value", &format!("`{}` is too small", item.path()), &format!("the least is {least}"));
    }
    u64::try_from(value).ok()
}
