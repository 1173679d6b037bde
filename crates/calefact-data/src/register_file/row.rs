//! From the cells of a row to a [`RegisterRow`].

use super::cells::Cells;
use super::header::Header;
use super::{Register, ids};
use crate::nearest;
use crate::text::header::canonical;
use crate::{Apparatus, Finding, MoistureBasis, RegisterRow, Severity, TrialKind, Water};
use calefact_units::Kind;
use std::collections::BTreeMap;
use std::path::PathBuf;

const KINDS: [TrialKind; 3] = [TrialKind::Burn, TrialKind::StandingLoss, TrialKind::ReferenceHeater];

/// A register being read.
pub(super) struct Reading<'a> {
    pub(super) header: &'a Header,
    pub(super) apparatus: &'a Apparatus,
    pub(super) findings: &'a mut Vec<Finding>,
    pub(super) register: Register,
    /// Line of each trial id so far.
    pub(super) ids: BTreeMap<String, u64>,
}

impl Reading<'_> {
    /// Reads one row: kept if it has no error.
    pub(super) fn row(&mut self, line: u64, cells: &[String]) {
        let mut cells = Cells { header: self.header, row: cells, line, findings: Vec::new() };
        // Cells that have shifted would give findings that lead astray.
        let row = if cells.is_surplus() { None } else { checked(&mut cells, self.apparatus) };
        ids::check_duplicate(&mut cells, &self.ids);
        let trial = cells.text("trial");
        let log = cells.text("log").map(PathBuf::from);
        let bad = cells.findings.iter().any(|f| f.severity == Severity::Error);
        self.findings.extend(cells.findings.into_iter().map(|mut f| {
            f.trial.clone_from(&trial);
            f
        }));
        self.ids.extend(trial.filter(|t| !self.ids.contains_key(t)).map(|t| (t, line)));
        match row {
            Some(row) if !bad => self.register.rows.push(row),
            _ => self.register.logs_left_out.extend(log),
        }
    }
}

fn checked(cells: &mut Cells<'_>, apparatus: &Apparatus) -> Option<RegisterRow> {
    let row = build(cells);
    ids::check(cells, apparatus);
    row
}

fn build(cells: &mut Cells<'_>) -> Option<RegisterRow> {
    let (trial, kind, log) = (cells.required("trial"), kind(cells), cells.required("log"));
    let (vessel, water) = (cells.required("vessel"), water(cells));
    let fuel_moisture = moisture(cells);
    let mut mass = |name| cells.amount(name, Kind::Mass);
    let (fuel_mass, kindling_mass) = (mass("fuel_mass"), mass("kindling_mass"));
    let (leftover_fuel, leftover_char) = (mass("leftover_fuel"), mass("leftover_char"));
    Some(RegisterRow {
        fuel_mass,
        fuel_moisture,
        moisture_basis: basis(cells, fuel_moisture.is_some()),
        kindling_mass,
        leftover_fuel,
        leftover_char,
        heater_power: cells.amount("heater_power", Kind::Power),
        ambient: cells.number("ambient", Kind::Temperature),
        altitude: cells.number("altitude", Kind::Length),
        extra: further(cells),
        line: cells.line,
        date: cells.text("date"),
        stove: cells.text("stove"),
        fuel: cells.text("fuel"),
        exchanger: cells.text("exchanger"),
        block: cells.text("block"),
        operator: cells.text("operator"),
        exclude: cells.text("exclude"),
        note: cells.text("note"),
        trial: trial?,
        kind: kind?,
        log: PathBuf::from(log?),
        vessel: vessel?,
        water: water?,
    })
}

fn kind(cells: &mut Cells<'_>) -> Option<TrialKind> {
    let text = cells.required("kind")?;
    let found = KINDS.into_iter().find(|k| k.name() == canonical(&text).replace('_', "-"));
    if found.is_none() {
        let hint = nearest::hint(&text, KINDS.iter().map(|k| k.name()));
        cells.error("kind", "unknown-kind", format!("unknown kind of trial `{text}`"), &hint);
    }
    found
}

fn water(cells: &mut Cells<'_>) -> Option<Water> {
    let text = cells.required("water")?;
    if cells.is_spoilt("water") {
        return None;
    }
    let unit = cells.unit("water");
    let bare = text.bytes().all(|b| b.is_ascii_digit() || matches!(b, b'.' | b',' | b'-' | b' '));
    if unit.is_none() && bare {
        cells.error(
            "water",
            "missing-unit",
            format!("`water` has no unit: {text}"),
            "write `water [L]` or `water [kg]` in the header",
        );
        return None;
    }
    let by_mass =
        unit.map_or_else(|| calefact_units::parse_quantity(&text, Kind::Mass).is_ok(), |u| u.kind == Kind::Mass);
    let kind = if by_mass { Kind::Mass } else { Kind::Volume };
    let value = cells.value("water", &text, kind, unit)?;
    if value <= 0.0 {
        cells.error(
            "water",
            "not-positive",
            format!("`water` must be more than nothing, not {text}"),
            "correct the cell",
        );
        return None;
    }
    Some(if by_mass { Water::Mass(value) } else { Water::Volume(value) })
}

fn moisture(cells: &mut Cells<'_>) -> Option<f64> {
    let value = cells.amount("fuel_moisture", Kind::Fraction)?;
    if value > 1.0 && cells.unit("fuel_moisture").is_none() {
        let message = format!("`fuel_moisture` is a fraction where no unit is given, but is {value}");
        cells.error("fuel_moisture", "moisture-above-one", message, "write `fuel_moisture [%]` in the header");
        return None;
    }
    Some(value)
}

fn basis(cells: &mut Cells<'_>, needed: bool) -> Option<MoistureBasis> {
    let Some(text) = cells.text("moisture_basis") else {
        if needed {
            let message = "`fuel_moisture` is given without its basis";
            let hint = "write `wet` (water over total mass) or `dry` (over dry mass; what pin meters show) in `moisture_basis`";
            let finding = Finding::warning("moisture-basis-missing", message).hint(hint);
            let finding = cells.at("fuel_moisture", finding).action("fuel energy of this trial left empty");
            cells.findings.push(finding);
        }
        return None;
    };
    match text.to_lowercase().as_str() {
        "wet" => Some(MoistureBasis::Wet),
        "dry" => Some(MoistureBasis::Dry),
        _ => {
            cells.error(
                "moisture_basis",
                "unknown-word",
                format!("unknown moisture basis `{text}`"),
                "write `wet` or `dry`",
            );
            None
        }
    }
}

fn further(cells: &Cells<'_>) -> BTreeMap<String, String> {
    let columns = cells.header.columns.iter().zip(cells.row);
    columns.filter(|(c, _)| !c.known && !c.name.is_empty()).map(|(c, v)| (c.name.clone(), v.clone())).collect()
}
