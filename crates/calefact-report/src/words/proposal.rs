//! Words for a proposal: the reason of each column, what each log shows, and what only the person can say.

mod left_out;

pub use left_out::left_out;

use super::text::{printable, single_line};
use super::{Wording, list, plural};
use calefact_data::toml_source::spelling::text;
use calefact_data::{
    ClockFormat, ColumnProposal, Proposal, Reason, Role, TableColumn, TableProposal, TrialKind, TrialProposal,
    UnitReason,
};
use std::path::Path;

/// Why a column has its role and its unit: "the header says `barrel`; degF: the header states it".
pub(crate) fn reason(column: &ColumnProposal) -> String {
    let w = Wording::plain();
    let degrees = |t: f64| w.temperature(t, 1);
    let role = match column.reason {
        Reason::Name => "the header is its name".to_owned(),
        Reason::Word(word) => format!("the header says `{word}`"),
        Reason::Times => "its cells are times".to_owned(),
        Reason::OnlyTemperature => "the only temperature left; correct it if that is wrong".to_owned(),
        Reason::Rises(from, to) => format!("it rises steadily from {} to {}", degrees(from), degrees(to)),
        Reason::Nothing => "nothing tells what it is".to_owned(),
    };
    match unit_reason(column.unit, column.unit_reason) {
        Some(unit) => format!("{role}; {unit}"),
        None => role,
    }
}

fn unit_reason(unit: Option<&str>, reason: UnitReason) -> Option<String> {
    let unit = unit?;
    Some(match reason {
        UnitReason::Stated => format!("{unit}, as the file states"),
        UnitReason::Values => format!("{unit}, since water is not that hot in degC; correct it if that is wrong"),
        UnitReason::Preference => format!("{unit}, as chosen with the units; correct it if that is wrong"),
        UnitReason::Steps => format!("{unit}, by its steps; correct it if that is wrong"),
        UnitReason::Nothing => format!("{unit} is assumed, since the file states none; correct it if that is wrong"),
        UnitReason::NotNeeded => return None,
    })
}

/// What was understood, one line a column, a log and a table.
pub fn understood(w: &Wording<'_>, proposal: &Proposal) -> Vec<String> {
    let mut lines = Vec::new();
    for column in &proposal.columns {
        let header = w.quoted(&column.header);
        lines.push(match column.role {
            Role::Unused => format!("{header}: not used, {}", reason(column)),
            Role::Date => format!("{header}: the day of a trial"),
            role => format!("{header}: {}; {}", w.column(role.column().unwrap_or_default()), reason(column)),
        });
    }
    lines.extend(proposal.clock_format.iter().map(|format| {
        format!(
            "times are read by the pattern {}; correct `clock_format` under [logs] if that is wrong",
            w.quoted(&format.pattern)
        )
    }));
    lines.extend(proposal.table.iter().flat_map(|table| table_lines(w, table)));
    for log in &proposal.logs {
        lines.extend(log.trials.iter().map(|trial| trial_line(w, &log.path, trial)));
    }
    lines.into_iter().map(|line| single_line(printable(line))).collect()
}

fn table_lines(w: &Wording<'_>, table: &TableProposal) -> Vec<String> {
    let file = table.path.display();
    let mut lines = vec![format!("{file}: a table of {}", plural(table.rows.len(), "trial"))];
    for column in &table.columns {
        let unit = unit_reason(column.unit, column.unit_reason).map(|unit| format!("; {unit}")).unwrap_or_default();
        let first = table.rows.first().and_then(|row| row.get("date")).filter(|_| column.column == "date");
        let day = first.map(|day| format!("; the first is {day}")).unwrap_or_default();
        lines.push(format!("{}: {}{unit}{day}", w.quoted(&column.header), w.column(column.column)));
    }
    lines.extend(table.further.iter().map(|header| format!("{}: kept as a further column", w.quoted(header))));
    lines
}

/// "logs/b1.csv: trial b1, a burn of 2026-03-04, 5 readings in 48 min, tank from 11 to 41 degC".
fn trial_line(w: &Wording<'_>, log: &Path, trial: &TrialProposal) -> String {
    let kind = match trial.kind {
        TrialKind::Burn => "a burn",
        TrialKind::StandingLoss => "a standing loss, since the tank only cools",
        TrialKind::ReferenceHeater => "a reference heater, since it has power and no fire",
    };
    let date = trial.date.as_ref().map(|date| format!(" of {date}")).unwrap_or_default();
    let [from, to] = [trial.tank.0, trial.tank.1].map(|t| w.temperature(t, 1));
    format!(
        "{}: trial {}, {kind}{date}, {} in {}, tank from {from} to {to}",
        log.display(),
        w.quoted(&trial.trial),
        plural(trial.readings, "reading"),
        w.minutes(trial.length_s),
    )
}

/// The two readings of the clocks, and the line that changes them.
pub(crate) fn clock_doubt(format: &ClockFormat) -> Option<String> {
    let doubt = format.doubt.as_ref()?;
    Some(format!(
        "the order of day and month: `{}` is read as {}; if {} is meant, write `clock_format = {}` under [logs] of dataset.toml and \
         correct the dates in trials.csv",
        doubt.cell,
        doubt.taken,
        doubt.other,
        text(&format.other())
    ))
}

/// The two readings of days that are written into trials.csv, for the first of the files.
pub(crate) fn date_doubt(proposal: &Proposal) -> Option<String> {
    let (path, doubt) = proposal.date_doubts.first()?;
    let more = proposal.date_doubts.len() - 1;
    let more = if more > 0 { format!(" (and so in {})", plural(more, "more file")) } else { String::new() };
    Some(format!(
        "the order of day and month: `{}` in {}{more} is read as {}; if {} is meant, correct the column `date` of trials.csv",
        doubt.cell,
        path.display(),
        doubt.taken,
        doubt.other
    ))
}

/// Datasets that a question is asked of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Of {
    /// All.
    All,
    /// Those with burns, or with no log yet.
    Burns,
    /// Those with logs of burns.
    Logs,
}

/// What only the person can say, by the column that answers it, and where to write it.
const QUESTIONS: [(&str, Of, &str); 8] = [
    (
        "water",
        Of::All,
        "the water: `water = \"120 L\"` under [defaults] of dataset.toml, or the column `water` of trials.csv; no trial is read without it",
    ),
    (
        "vessel",
        Of::All,
        "the vessel: name, volume, mass and material under [vessels.vessel] of dataset.toml; without them ranges stand for them",
    ),
    (
        "stove",
        Of::Burns,
        "the stoves: a table [stoves.ID] each in dataset.toml, and the id in the column `stove` of trials.csv; without it stoves are not compared",
    ),
    (
        "fuel",
        Of::Burns,
        "the fuels: a table [fuels.ID] each in dataset.toml, and the id in the column `fuel` of trials.csv",
    ),
    ("fuel_mass", Of::Logs, "the wood: `fuel_mass` in trials.csv; without it there is no efficiency"),
    (
        "fuel_moisture",
        Of::Logs,
        "its moisture: `fuel_moisture` in trials.csv, with the basis in `moisture_basis`; without it a range stands for it",
    ),
    (
        "leftover_fuel",
        Of::Logs,
        "what was left: `leftover_fuel` and `leftover_char` in trials.csv, 0 where nothing was left; blank is a range",
    ),
    (
        "tolerance",
        Of::All,
        "the tolerances of the instruments: under [instruments] of dataset.toml; without them ranges stand for them",
    ),
];

/// For a moisture whose basis no header states.
const BASIS: &str = "the basis of the moisture: `moisture_basis = \"dry\"` under [defaults] of dataset.toml if a pin meter read it, else \"wet\"";

/// What only the person can say, days with two readings first. `said` are the columns, and `tolerance`, that options answer; what a table of trials tells is
/// not asked.
pub fn open(w: &Wording<'_>, proposal: Option<&Proposal>, said: &[&str]) -> Vec<String> {
    let table = proposal.and_then(|p| p.table.as_ref());
    let in_table = |column: &str| table.is_some_and(|t| t.columns.iter().any(|c| c.column == column));
    let is_burn = |p: &Proposal| p.logs.iter().flat_map(|l| &l.trials).any(|t| t.kind == TrialKind::Burn);
    let is_asked = |of: Of| match (of, proposal) {
        (Of::All, _) | (Of::Burns, None) => true,
        (Of::Logs, None) => false,
        (Of::Burns | Of::Logs, Some(proposal)) => is_burn(proposal),
    };
    let open = QUESTIONS.iter().filter(|(column, of, _)| is_asked(*of) && !said.contains(column) && !in_table(column));
    let clock = proposal.and_then(|p| clock_doubt(p.clock_format.as_ref()?));
    let doubts = clock.into_iter().chain(proposal.and_then(date_doubt));
    let mut lines: Vec<String> = doubts.map(|line| single_line(printable(line))).collect();
    lines.extend(open.map(|(_, _, line)| (*line).to_owned()));
    let unitless = |c: &&TableColumn| c.unit.is_none() && c.unit_reason == UnitReason::Nothing;
    let without_unit = table.iter().flat_map(|t| t.columns.iter().filter(unitless));
    lines.extend(without_unit.map(|column| unit_line(w, column)));
    let has_basis = |t: &TableProposal| t.rows.iter().any(|row| row.contains_key("moisture_basis"));
    if in_table("fuel_moisture") && !table.is_some_and(has_basis) {
        lines.push(BASIS.to_owned());
    }
    lines.extend(proposal.and_then(|p| without_log(w, p)));
    lines
}

/// A unit that neither the table of trials nor a choice of units states.
fn unit_line(w: &Wording<'_>, TableColumn { column, header, .. }: &TableColumn) -> String {
    let example = match *column {
        "water" if header.to_lowercase().contains("gal") => "gal_us]` or `water [gal_imp",
        "water" => "L",
        _ => super::instrument::unit_to_note(w, column).unwrap_or("unit"),
    };
    let (name, header) = (w.column(column), w.quoted(header));
    let line =
        format!("the unit of {name}, which the table calls {header}: write it into the header of trials.csv, such as");
    format!("{line} `{column} [{example}]` if that is what the numbers are")
}

/// Rows of the table of trials that no log goes with.
fn without_log(w: &Wording<'_>, proposal: &Proposal) -> Option<String> {
    let table = proposal.table.as_ref()?;
    let used: Vec<usize> = proposal.logs.iter().flat_map(|l| &l.trials).filter_map(|t| t.row).collect();
    let rows = table.rows.iter().enumerate().filter(|(index, _)| !used.contains(index));
    let name = |(index, row): (usize, &std::collections::BTreeMap<String, String>)| {
        row.get("trial").map_or_else(|| format!("row {}", index + 1), |id| w.quoted(id))
    };
    let names: Vec<String> = rows.map(name).collect();
    (!names.is_empty()).then(|| {
        format!("the logs of {}: no file goes with them by its name, so they are not in trials.csv", list(&names))
    })
}

/// The cautions that hold for any fire, as sentences.
pub fn cautions(w: &Wording<'_>) -> Vec<String> {
    let all = calefact_analysis::fact::CautionFact::GENERAL.iter();
    all.map(|fact| super::sentence(&super::caution::message(w, fact).text)).collect()
}

/// A path as it is typed on a command line.
pub fn typed(path: &Path) -> String {
    super::pipeline::typed(path)
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_data::DateDoubt;

    fn column(column: &'static str, unit: Option<&'static str>, unit_reason: UnitReason) -> TableColumn {
        TableColumn { header: column.to_uppercase(), column, word: "", unit, unit_reason }
    }

    #[test]
    fn days_with_two_readings_come_first() {
        let doubt = DateDoubt { cell: "3/4/2026".into(), taken: "2026-03-04".into(), other: "2026-04-03".into() };
        let pattern = "%m/%d/%Y %H:%M".to_owned();
        let proposal = Proposal {
            clock_format: Some(ClockFormat { pattern, doubt: Some(doubt.clone()) }),
            date_doubts: vec![("burns.csv".into(), doubt.clone()), ("b.csv".into(), doubt)],
            ..Proposal::default()
        };
        let start = "the order of day and month: `3/4/2026`";
        let asked = open(&Wording::plain(), Some(&proposal), &["water", "vessel", "stove", "fuel", "tolerance"]);
        assert_eq!(
            asked,
            [
                format!(
                    "{start} is read as 2026-03-04; if 2026-04-03 is meant, write `clock_format = \"%d/%m/%Y %H:%M\"` under [logs] of \
                     dataset.toml and correct the dates in trials.csv"
                ),
                format!(
                    "{start} in burns.csv (and so in 1 more file) is read as 2026-03-04; if 2026-04-03 is meant, correct the column \
                     `date` of trials.csv"
                )
            ]
        );
    }

    #[test]
    fn only_what_is_open_is_asked() {
        let w = Wording::plain();
        let all = open(&w, None, &[]);
        assert_eq!(all.len(), 5, "{all:?}");
        assert!(open(&w, None, &["water", "vessel", "stove", "fuel", "tolerance"]).is_empty());
        let columns = vec![
            column("trial", None, UnitReason::NotNeeded),
            column("water", None, UnitReason::Nothing),
            column("fuel_mass", Some("lb"), UnitReason::Stated),
            column("fuel_moisture", Some("%"), UnitReason::Stated),
        ];
        let rows = vec![[("trial".to_owned(), "b1".to_owned())].into()];
        let table = TableProposal { columns, rows, ..TableProposal::default() };
        let proposal = Proposal { table: Some(table), ..Proposal::default() };
        let asked = open(&w, Some(&proposal), &["vessel", "tolerance"]);
        let unit = "the unit of `water`, which the table calls `WATER`: write it into the header of trials.csv, such as \
            `water [L]` if that is what the numbers are";
        let log = "the logs of `b1`: no file goes with them by its name, so they are not in trials.csv";
        assert_eq!(asked, [unit, BASIS, log]);
    }
}
