//! The text of `dataset.toml` of a dataset that is begun. Lines that only the person can fill stand behind `#`, as examples.

use super::request::StarterRequest;
use super::{example, wood};
use crate::words::{Units, proposal};
use calefact_data::toml_source::spelling::{key, text as quoted};
use calefact_data::{Channel, ColumnProposal, Proposal, Role};
use calefact_units::Kind;
use std::fmt::Write as _;

/// The text of the file.
pub(super) fn text(request: &StarterRequest<'_>) -> String {
    let mut toml = String::from("#:schema schemas/dataset.schema.json\n");
    toml.push_str(
        "# What was tested, and with what. Lines behind a # are examples: take the # away where they hold.\n\n",
    );
    let _ = writeln!(toml, "title = {}", quoted(&request.title));
    if request.found.is_none() {
        let _ = writeln!(
            toml,
            "invented = true   # labels every output; delete this line with {} in trials.csv and its log",
            example::TRIAL
        );
    }
    for doubt in request.found.iter().filter_map(|(proposal, _)| proposal::date_doubt(proposal)) {
        let _ = writeln!(toml, "\n# CHECK {}", comment(&doubt));
    }
    toml.push_str("\n[site]\n# name = \"Yard\"\n# altitude = \"400 m\"\n");
    defaults(request, &mut toml);
    apparatus(request, &mut toml);
    instruments(request, &mut toml);
    if let Some((proposal, _)) = &request.found {
        columns(proposal, &mut toml);
        logs(proposal, &mut toml);
    }
    toml
}

/// Values that hold for all trials.
fn defaults(request: &StarterRequest<'_>, toml: &mut String) {
    toml.push_str("\n# What trials.csv need not repeat: the value of every blank cell. A dash in a cell says that a trial has none.\n");
    toml.push_str("[defaults]\n");
    if request.found.is_none() {
        toml.push_str("kind = \"burn\"   # or \"standing-loss\": no fire, the vessel cools\n");
    }
    for column in ["vessel", "stove", "fuel"] {
        if let Some(entry) = request.only(column) {
            let _ = writeln!(toml, "{column} = {}", quoted(&entry.id));
        }
    }
    match &request.water {
        Some(water) => drop(writeln!(toml, "water = {}", quoted(water))),
        None => toml.push_str("# water = \"120 L\"\n"),
    }
    if request.in_table("moisture_basis").is_empty() {
        let mark = if request.found.is_none() { "" } else { "# " };
        let _ = writeln!(toml, "{mark}moisture_basis = \"dry\"   # pin meters show dry basis");
    }
    toml.push_str("# kindling_mass = \"300 g\"\n");
}

fn apparatus(request: &StarterRequest<'_>, toml: &mut String) {
    for (table, column) in [("stoves", "stove"), ("fuels", "fuel"), ("exchangers", "exchanger"), ("vessels", "vessel")]
    {
        let entries = request.entries(column);
        toml.push('\n');
        if entries.is_empty() {
            let _ = writeln!(toml, "# [{table}.{}]\n# name = {}", example_of(column).0, quoted(example_of(column).1));
        }
        for entry in &entries {
            let _ = writeln!(toml, "[{table}.{}]\nname = {}", key(&entry.id), quoted(&entry.name));
            match (column, wood::class(&entry.name)) {
                ("fuel", Some(class)) => {
                    let _ = writeln!(toml, "class = {}   # by its name; coniferous or broadleaf", quoted(class));
                }
                ("fuel", None) => toml.push_str("# class = \"coniferous\"   # or \"broadleaf\"\n"),
                ("vessel", _) => toml.push_str(
                    "# volume = \"200 L\"\n# mass = \"19 kg\"        # empty, with its material\n# material = \"steel\"    # stainless, \
                     copper, aluminium\n# loss_coefficient = \"4 W/K\"   # or log it cooling once, kind standing-loss\n",
                ),
                _ => {}
            }
        }
    }
}

/// Id and name of an entry as an example.
fn example_of(column: &str) -> (&'static str, &'static str) {
    match column {
        "stove" => ("box-stove", "Box stove"),
        "fuel" => ("spruce", "Spruce, split"),
        "exchanger" => ("coil", "Copper coil"),
        _ => ("drum", "Steel drum"),
    }
}

/// The thermometer, the scale and the moisture meter; without a tolerance a range stands for it.
fn instruments(request: &StarterRequest<'_>, toml: &mut String) {
    let temperatures = logged(request).into_iter().filter(|c| c.kind() == Kind::Temperature);
    let temperatures =
        temperatures.filter(|c| !matches!(c, Channel::FlueBefore | Channel::FlueAfter | Channel::Casing));
    let temperatures: Vec<String> = temperatures.map(|c| quoted(c.name())).collect();
    let weighed = ["fuel_mass", "kindling_mass", "leftover_fuel", "leftover_char"].map(quoted).join(", ");
    toml.push_str("\n# Tolerances as the sheet of each instrument gives them. Without one a range stands for it.\n");
    let us = request.units == Units::Us;
    let mut entry = |id: &str, name: &str, reads: &str, tolerance: Option<&String>, example: &str| {
        let mark = if tolerance.is_some() { "" } else { "# " };
        let tolerance = tolerance.map_or(example, String::as_str);
        let _ = writeln!(
            toml,
            "{mark}[instruments.{id}]\n{mark}name = {}\n{mark}reads = [{reads}]\n{mark}tolerance = {}",
            quoted(name),
            quoted(tolerance)
        );
    };
    let [degrees, weight] = if us { ["1 degF", "2 oz_av"] } else { ["0.5 degC", "50 g"] };
    entry("thermometer", "Thermometer", &temperatures.join(", "), request.thermometer.as_ref(), degrees);
    entry("scale", "Scale", &weighed, request.scale.as_ref(), weight);
    entry("meter", "Moisture meter", "\"fuel_moisture\"", None, "2 %");
}

/// Channels of the logs; of the example, the tank.
fn logged(request: &StarterRequest<'_>) -> Vec<Channel> {
    let Some((proposal, _)) = &request.found else { return vec![Channel::Tank] };
    let channel = |role: Role| if let Role::Channel(channel) = role { Some(channel) } else { None };
    let mut channels: Vec<Channel> = Vec::new();
    for channel in proposal.columns.iter().filter_map(|c| channel(c.role)) {
        if !channels.contains(&channel) {
            channels.push(channel);
        }
    }
    channels
}

/// The headers of the logs that are not the names of their columns, each with its reason.
fn columns(found: &Proposal, toml: &mut String) {
    let mapped: Vec<_> = found.columns.iter().filter(|c| c.mapped && c.role != Role::Trial).collect();
    if mapped.is_empty() {
        return;
    }
    toml.push_str("\n# Which header of the logs is which column, with the reason. Correct what is wrong.\n[columns]\n");
    let mut names: Vec<&str> = Vec::new();
    for name in mapped.iter().filter_map(|c| c.role.column()) {
        if names.contains(&name) {
            continue;
        }
        names.push(name);
        let headers: Vec<_> = mapped.iter().filter(|c| c.role.column() == Some(name)).collect();
        let line = |c: &ColumnProposal| (header(c), comment(&proposal::reason(c)));
        if let [only] = headers[..] {
            let (header, reason) = line(only);
            let _ = writeln!(toml, "{name} = {header}   # {reason}");
            continue;
        }
        let _ = writeln!(toml, "{name} = [");
        for (header, reason) in headers.into_iter().map(|c| line(c)) {
            let _ = writeln!(toml, "    {header},   # {reason}");
        }
        toml.push_str("]\n");
    }
    for column in found.columns.iter().filter(|c| c.role == Role::Unused) {
        let _ = writeln!(toml, "# not used: {}", quoted(&column.header));
    }
}

fn header(column: &ColumnProposal) -> String {
    let unit = column.unit.map(|unit| format!(", unit = {}", quoted(unit))).unwrap_or_default();
    format!("{{ header = {}{unit} }}", quoted(&column.header))
}

fn comment(text: &str) -> String {
    text.replace(['\n', '\r'], " ")
}

fn logs(found: &Proposal, toml: &mut String) {
    let format = found.clock_format.as_ref().map(|format| {
        let check = proposal::clock_doubt(format).map(|doubt| format!("   # CHECK {}", comment(&doubt)));
        format!("clock_format = {}{}\n", quoted(&format.pattern), check.unwrap_or_default())
    });
    let trial = match found.trial_columns()[..] {
        [] => None,
        [header] => Some(format!("trial_column = {}\n", quoted(header))),
        ref headers => {
            let headers: Vec<String> = headers.iter().map(|header| quoted(header)).collect();
            Some(format!("trial_column = [{}]\n", headers.join(", ")))
        }
    };
    if format.is_some() || trial.is_some() {
        let _ = write!(toml, "\n[logs]\n{}{}", format.unwrap_or_default(), trial.unwrap_or_default());
    }
}
