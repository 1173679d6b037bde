//! From the cells of a row to a [`RegisterRow`], and the [`Register`] that they make up.

use super::cells::Cells;
use super::header::Header;
use super::rows::Row;
use super::{amounts, ids};
use crate::fact::RegisterFact;
use crate::register_columns;
use crate::text::date::WrittenDate;
use crate::{Apparatus, Finding, RegisterRow, Severity, TrialKind};
use calefact_units::Kind;
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;

/// A register as read.
#[derive(Debug, Clone, Default)]
pub struct Register {
    /// Rows without errors, in the order of the file.
    pub rows: Vec<RegisterRow>,
    /// All columns, canonical where they are known.
    pub columns: Vec<String>,
    /// Logs named by rows that were left out: they are registered all the same.
    pub logs_left_out: Vec<PathBuf>,
}

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
    pub(super) fn row(&mut self, row: &Row) {
        let line = row.line;
        let mut cells =
            Cells { header: self.header, row: &row.cells, line, kind: None, findings: Vec::new(), refused: false };
        // Cells that have shifted would give findings that lead astray.
        let shifted = cells.is_open(row) || cells.is_surplus();
        let built = if shifted { None } else { checked(&mut cells, self.apparatus) };
        ids::check_duplicate(&mut cells, &self.ids);
        let trial = cells.text("trial").filter(|_| !cells.is_long("trial", row));
        let log = log(&cells);
        let bad = cells.refused || cells.findings.iter().any(|f| f.severity == Severity::Error);
        self.findings.extend(cells.findings.into_iter().map(|mut f| {
            f.trial.clone_from(&trial);
            f
        }));
        self.ids.extend(trial.filter(|t| !self.ids.contains_key(t)).map(|t| (t, line)));
        match built {
            Some(row) if !bad => self.register.rows.push(row),
            _ => self.register.logs_left_out.extend(log),
        }
    }
}

fn checked(cells: &mut Cells<'_>, apparatus: &Apparatus) -> Option<RegisterRow> {
    let row = build(cells, apparatus);
    let vessel = row.as_ref().and_then(|row| apparatus.vessels.get(&row.vessel)?.volume);
    if let (Some(row), Some(volume)) = (&row, vessel) {
        amounts::check_vessel(cells, row.water, volume.value);
    }
    row
}

fn build(cells: &mut Cells<'_>, apparatus: &Apparatus) -> Option<RegisterRow> {
    let (trial, kind) = (cells.required("trial"), kind(cells));
    cells.kind = kind;
    cells.check_defaults();
    let (vessel, water) = (cells.required("vessel"), amounts::water(cells));
    let (fuel_moisture, moisture_basis) = amounts::moisture(cells);
    let [stove, fuel, exchanger, vessel_id] =
        ["stove", "fuel", "exchanger", "vessel"].map(|column| ids::id(cells, column, apparatus));
    let mut mass = |name| cells.measured(name, Kind::Mass);
    let (fuel_mass, kindling_mass) = (mass("fuel_mass"), mass("kindling_mass"));
    let (leftover_fuel, leftover_char) = (mass("leftover_fuel"), mass("leftover_char"));
    amounts::check_leftover(cells, fuel_mass, kindling_mass, leftover_fuel);
    Some(RegisterRow {
        fuel_mass,
        fuel_moisture,
        moisture_basis,
        kindling_mass,
        leftover_fuel,
        leftover_char,
        heater_power: amounts::heater_power(cells, kind),
        ambient: cells.within("ambient", Kind::Temperature),
        altitude: cells.within("altitude", Kind::Length),
        extra: further(cells),
        line: cells.line,
        origin: Arc::default(),
        date: date(cells),
        stove,
        fuel,
        exchanger,
        block: cells.text("block"),
        operator: cells.text("operator"),
        exclude: exclude(cells),
        note: cells.text("note"),
        trial: trial?,
        kind: kind?,
        log: log(cells)?,
        vessel: vessel.and(vessel_id)?,
        water: water?,
    })
}

/// The file of the log: by default the trial's id with `.csv`, or the sheet with that name beside a register that is a sheet.
fn log(cells: &Cells<'_>) -> Option<PathBuf> {
    let by_id =
        || cells.text("trial").map(|id| if cells.header.is_sheet { format!("#{id}") } else { format!("{id}.csv") });
    cells.text("log").or_else(by_id).map(PathBuf::from)
}

/// The day in the form of ISO 8601, where it has one meaning; else as written.
fn date(cells: &mut Cells<'_>) -> Option<String> {
    let cell = cells.text("date")?;
    let Some((written, year)) = WrittenDate::new(&cell).and_then(|written| Some((written, written.year?))) else {
        return Some(cell);
    };
    if let Some(date) = written.date(year, cells.header.day_order) {
        return Some(date.to_string());
    }
    if let Some(dates) = written.both(year) {
        let fact = RegisterFact::DateTwoReadings { cell: cell.clone(), dates: dates.map(|d| d.to_string()) };
        let finding = cells.at("date", Finding::warning(fact));
        cells.findings.push(finding);
    }
    Some(cell)
}

fn kind(cells: &mut Cells<'_>) -> Option<TrialKind> {
    let text = cells.required("kind")?;
    let found = register_columns::kind(&text);
    if found.is_none() {
        cells.error("kind", RegisterFact::TrialKind { cell: text });
    }
    found
}

/// Words under `exclude` that keep a trial.
const KEPT: [&str; 5] = ["0", "no", "n", "false", "none"];

fn exclude(cells: &mut Cells<'_>) -> Option<String> {
    let cell = cells.text("exclude")?;
    if KEPT.contains(&cell.to_lowercase().as_str()) {
        let finding = cells.at("exclude", Finding::note(RegisterFact::NotExcluded { cell }));
        cells.findings.push(finding);
        return None;
    }
    Some(cell)
}

fn further(cells: &mut Cells<'_>) -> BTreeMap<String, String> {
    let (columns, row) = (&cells.header.columns, cells.row);
    let further = || (1..).zip(columns.iter().zip(row)).filter(|(_, (c, _))| !c.known && !c.name.is_empty());
    let open = further().filter_map(|(at, (c, cell))| Some((at, cells.open_number(&c.name, cell)?)));
    let open: Vec<Finding> = open.map(|(at, fact)| Finding::warning(fact).at("", Some(cells.line), Some(at))).collect();
    cells.findings.extend(open);
    // Of columns with one name the first is read.
    let cells = further().map(|(_, (c, cell))| (c.name.clone(), cells.ungrouped(cell)));
    cells.collect::<Vec<_>>().into_iter().rev().collect()
}
