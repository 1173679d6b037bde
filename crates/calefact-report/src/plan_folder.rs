//! The folder of a plan: `plan.csv`, `plan.html` with the burn sheets, and the manifest, swapped in as a whole.

use crate::columns::Table;
use crate::html::filters;
use crate::manifest::ToolInfo;
use crate::sheet::{Form, Sheet, SheetRequest};
use crate::staging::Staging;
use crate::table_files::TableFolder;
use crate::words::burn_order;
use crate::words::planning::TargetWords;
use crate::words::{Wording, printable};
use crate::{Formats, ReportError};
use askama::Template;
use calefact_analysis::result::{Analysis, BurnOrder, CampaignPlan, PlannedBurn};
use calefact_data::InputFile;
use std::fs;
use std::path::{Path, PathBuf};

/// Content of the folder of a plan.
#[derive(Debug, Clone)]
pub struct PlanFolder<'a> {
    /// Analysis of the burns so far.
    pub analysis: &'a Analysis,
    /// The plan.
    pub plan: &'a CampaignPlan,
    /// Its words.
    pub targets: Vec<TargetWords>,
    /// Content of the sheets.
    pub sheets: SheetRequest<'a>,
}

#[derive(Template)]
#[template(path = "plan.html")]
struct Page {
    form: Form,
    invented: bool,
    targets: Vec<TargetWords>,
    order: Vec<String>,
    places: Vec<String>,
    days: Vec<Day>,
    sheets: Vec<Sheet>,
}

/// A day of the calendar.
struct Day {
    number: usize,
    date: String,
    block: String,
    burns: Vec<String>,
}

impl PlanFolder<'_> {
    /// Writes the folder; `inputs` are listed in the manifest, relative to the path beside them. Gives the page.
    ///
    /// # Errors
    /// If the folder cannot be written; it is then as it was.
    pub fn write(
        self,
        w: &Wording<'_>,
        staging: Staging,
        inputs: (&[InputFile], &Path),
        tool: &ToolInfo,
    ) -> Result<PathBuf, ReportError> {
        let dir = staging.dir();
        if let Some(order) = &self.plan.order {
            TableFolder::new(&dir, Formats::default()).write(&table(order))?;
        }
        let name = &self.analysis.name;
        let path = dir.join("plan.html");
        fs::write(&path, self.page(w)?).map_err(ReportError::io("write", &path))?;
        Ok(staging.close(("plan", name), tool, inputs)?.join("plan.html"))
    }

    fn page(self, w: &Wording<'_>) -> Result<String, ReportError> {
        let burns = self.plan.order.as_ref().map(|o| &o.burns[..]).unwrap_or_default();
        let places = burns.iter().map(|b| b.position).max().unwrap_or(0);
        let page = Page {
            form: Form::new(w, &self.sheets),
            invented: self.analysis.invented,
            order: burn_order::order(w, self.plan),
            places: (1..=places).map(|p| format!("burn {p}")).collect(),
            days: days(w, self.plan, burns, places),
            sheets: burns.iter().map(|b| Sheet::planned(w, &self.sheets, b)).collect(),
            targets: self.targets,
        };
        page.render()
            .map(printable)
            .map_err(|e| ReportError::Draw { what: "plan.html".to_owned(), message: e.to_string() })
    }
}

fn days(w: &Wording<'_>, plan: &CampaignPlan, burns: &[PlannedBurn], places: usize) -> Vec<Day> {
    let is_varied = |column: &str| plan.vary.iter().any(|(c, _)| c == column);
    let cell = |b: &PlannedBurn| {
        let levels = b.levels.iter().filter(|(c, _)| is_varied(c)).map(|(c, l)| burn_order::level(w, c, l));
        format!("{}: {}", b.trial, levels.collect::<Vec<_>>().join(", "))
    };
    let day = |chunk: &[PlannedBurn]| {
        let mut burns: Vec<String> = chunk.iter().map(cell).collect();
        burns.resize(places, String::new());
        let first = &chunk[0];
        Day { number: first.day, date: first.date.clone().unwrap_or_default(), block: first.block.clone(), burns }
    };
    burns.chunk_by(|a, b| a.day == b.day).map(day).collect()
}

/// The order as a table, with the levels as the register wants them.
fn table(order: &BurnOrder) -> Table<'_> {
    let burns = || order.burns.iter();
    let table = Table::new("plan")
        .count("day", "day of the plan, from 1", burns().map(|b| Some(b.day as u64)))
        .maybe("date", "its date", burns().map(|b| b.date.as_deref()))
        .count("position", "place in the day, from 1", burns().map(|b| Some(b.position as u64)))
        .text("block", "proposed block", burns().map(|b| b.block.as_str()))
        .text("trial", "proposed id", burns().map(|b| b.trial.as_str()));
    let columns = order.burns.first().map(|b| &b.levels[..]).unwrap_or_default();
    columns.iter().enumerate().fold(table, |table, (i, (column, _))| {
        table.maybe(column.as_str(), "level of the column", burns().map(move |b| Some(b.levels[i].1.as_str())))
    })
}
