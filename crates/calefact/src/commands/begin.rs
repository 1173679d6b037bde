//! `new`: the files of a dataset, empty with an example, or for logs that are there.

mod files;
mod questions;

use crate::args::NewArgs;
use crate::{Exit, messages};
use calefact_analysis::finding::Finding;
use calefact_data::{Apparatus, DESCRIPTION, Proposal, Severity, dataset_file, propose};
use calefact_report::words::proposal as words;
use calefact_report::words::{Typography, Units, Wording};
use calefact_report::{SheetRequest, StarterFile, StarterRequest, starter_files, write_blank_sheets};
use files::Place;
use std::path::{Path, PathBuf};

/// Time between two ruled rows of the sheet, s.
const EVERY_S: f64 = 300.0;

/// Runs `new`.
pub(super) fn begin(mut args: NewArgs) -> Exit {
    let from = match files::expand(&args.from) {
        Ok(from) => from,
        Err(line) => return refuse(&line),
    };
    questions::ask(&mut args);
    let units = args.units.map_or(Units::Metric, Into::into);
    let proposal = (!args.from.is_empty()).then(|| propose(&from, units == Units::Us));
    let w = Wording { units, ..Wording::plain() };
    if let Some(proposal) = &proposal {
        let left_out = words::left_out(&w, proposal).into_iter().map(|line| format!("left out: {line}"));
        say_all(words::understood(&w, proposal).into_iter().chain(left_out));
        if proposal.logs.is_empty() {
            return refuse("no log could be understood, so nothing was written");
        }
    }
    let places = files::places(&args.dir, proposal.iter().flat_map(|p| &p.logs).map(|log| log.path.as_path()));
    let request = request(&args, units, proposal.as_ref().map(|p| (p, places.iter().map(Place::name).collect())));
    write(&args, &request, &places, proposal.as_ref())
}

fn say_all(lines: impl Iterator<Item = String>) {
    for line in lines {
        messages::say(&line);
    }
}

fn refuse(line: &str) -> Exit {
    messages::say(&format!("error: {line}"));
    Exit::Usage
}

fn request<'a>(args: &NewArgs, units: Units, found: Option<(&'a Proposal, Vec<String>)>) -> StarterRequest<'a> {
    let name = crate::pipeline_file::folder_name(&args.dir);
    StarterRequest {
        title: args.title.clone().unwrap_or_else(|| name.clone()),
        name,
        units,
        stoves: args.stove.clone(),
        fuels: args.fuel.clone(),
        vessel: args.vessel.clone(),
        water: args.water.clone(),
        thermometer: args.thermometer.clone(),
        scale: args.scale.clone(),
        found,
    }
}

fn write(args: &NewArgs, request: &StarterRequest<'_>, places: &[Place], proposal: Option<&Proposal>) -> Exit {
    let texts = starter_files(request);
    let Some(apparatus) = described(&args.dir, &texts) else { return Exit::Usage };
    let sheet = args.dir.join("burn-sheet.html");
    let written = files::write(&args.dir, &texts, places, &sheet).and_then(|mut written| {
        let names = calefact_data::ApparatusNames::from(&apparatus);
        let w = Wording { units: request.units, typography: Typography::Page, names: &names, currency: None };
        let of_sheet = SheetRequest {
            title: &request.title,
            apparatus: &apparatus,
            further: Vec::new(),
            cautions: Vec::new(),
            every_s: EVERY_S,
            paper: args.paper.into(),
        };
        write_blank_sheets(&w, &of_sheet, 1, &sheet).map_err(|error| error.to_string())?;
        written.push(sheet.clone());
        Ok(written)
    });
    match written {
        Ok(written) => tell(args, request, &written, proposal),
        Err(line) => {
            messages::say(&format!("error: {line}"));
            Exit::WriteFailed
        }
    }
}

/// The apparatus as `dataset.toml` will describe it; none, with what is wrong, where an option does not fit.
fn described(dir: &Path, texts: &[StarterFile]) -> Option<Apparatus> {
    let text = texts.iter().find(|file| file.path == DESCRIPTION).map(|file| file.text.as_str())?;
    let (file, findings) = dataset_file::read_text(&dir.join(DESCRIPTION), text);
    let findings: Vec<Finding> = findings.into_iter().map(calefact_data::Finding::widen).collect();
    if findings.iter().any(|f| f.severity == Severity::Error) {
        messages::list_refusal(&findings.iter().collect());
        messages::say("nothing was written: an option does not fit");
        return None;
    }
    file.map(|file| file.apparatus)
}

/// What was written, what is open, the cautions, and how to go on.
fn tell(args: &NewArgs, request: &StarterRequest<'_>, written: &[PathBuf], proposal: Option<&Proposal>) -> Exit {
    let w = Wording { units: request.units, ..Wording::plain() };
    let names: Vec<String> = written.iter().map(|path| path.display().to_string()).collect();
    messages::say(&format!("written: {}", names.join(", ")));
    let is_said = [
        ("stove", !request.stoves.is_empty()),
        ("fuel", !request.fuels.is_empty()),
        ("vessel", request.vessel.is_some()),
        ("water", request.water.is_some()),
        ("tolerance", request.thermometer.is_some() && request.scale.is_some()),
    ];
    let said: Vec<&str> = is_said.into_iter().filter(|(_, said)| *said).map(|(column, _)| column).collect();
    let open = words::open(&w, proposal, &said);
    if !open.is_empty() {
        messages::say("only you can say:");
        say_all(open.iter().map(|line| format!("  {line}")));
    }
    messages::say("before you light a fire:");
    say_all(words::cautions(&w).iter().map(|line| format!("  {line}")));
    let dir = words::typed(&args.dir);
    messages::say(&format!("next: calefact check {dir}, then calefact run {dir}"));
    Exit::Done
}
