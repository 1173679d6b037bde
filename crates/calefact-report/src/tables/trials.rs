//! `trials`: the register as it was understood, with whether each trial takes part in comparisons.

use crate::columns::Table;
use crate::words::{self, Wording};
use calefact_analysis::result::TrialResult;
use calefact_data::Water;

/// The rows of some trials.
pub(super) fn table(trials: &[TrialResult]) -> Table<'_> {
    let rows = || trials.iter();
    let optional = |f: fn(&TrialResult) -> Option<&String>| rows().map(move |t| f(t).map(String::as_str));
    let number = |f: fn(&TrialResult) -> Option<f64>| rows().map(move |t| f(t).unwrap_or(f64::NAN));
    Table::new("trials")
        .text("trial", "trial id", rows().map(|t| t.row.trial.as_str()))
        .text("kind", "kind of trial", rows().map(|t| t.row.kind.name()))
        .maybe(
            "date",
            "day of the trial, as 2026-03-28 where the register's date has one meaning",
            optional(|t| t.row.date.as_ref()),
        )
        .maybe("stove", "stove id", optional(|t| t.row.stove.as_ref()))
        .maybe("fuel", "fuel id", optional(|t| t.row.fuel.as_ref()))
        .maybe("exchanger", "exchanger id", optional(|t| t.row.exchanger.as_ref()))
        .text("vessel", "vessel id", rows().map(|t| t.row.vessel.as_str()))
        .number(
            "water_volume",
            "m3",
            "water in the vessel, where it was given as a volume",
            rows().map(|t| volume(t.row.water)),
        )
        .number(
            "water_mass",
            "kg",
            "water in the vessel, where it was given as a mass",
            rows().map(|t| mass(t.row.water)),
        )
        .number("fuel_mass", "kg", "fuel put on the fire, as fired", number(|t| t.row.fuel_mass))
        .number(
            "fuel_moisture",
            "1",
            "moisture content on the basis of the next column",
            number(|t| t.row.fuel_moisture),
        )
        .maybe(
            "moisture_basis",
            "wet (of total mass) or dry (of dry mass)",
            rows().map(|t| t.row.moisture_basis.map(basis)),
        )
        .count("readings", "number of readings in the log", rows().map(|t| Some(t.readings as u64)))
        .flag("used", "whether the trial takes part in comparisons", rows().map(TrialResult::usable))
        .maybe("exclude", "reason given for leaving it out of comparisons", optional(|t| t.row.exclude.as_ref()))
        .maybe(
            "fit",
            "how well the heat-balance model fits the log",
            rows().map(|t| t.fit.as_ref().map(|f| words::trial::fit(&Wording::plain(), f))),
        )
}

fn volume(water: Water) -> f64 {
    match water {
        Water::Volume(v) => v,
        Water::Mass(_) => f64::NAN,
    }
}

fn mass(water: Water) -> f64 {
    match water {
        Water::Volume(_) => f64::NAN,
        Water::Mass(m) => m,
    }
}

fn basis(basis: calefact_data::MoistureBasis) -> &'static str {
    match basis {
        calefact_data::MoistureBasis::Wet => "wet",
        calefact_data::MoistureBasis::Dry => "dry",
    }
}
