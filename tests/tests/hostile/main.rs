//! Hostile input: every case ends with its exit code and its finding, says nothing that a terminal obeys, writes nothing that a
//! spreadsheet runs or an XML parser refuses, and quotes no file outside the dataset.
//!
//! The cases are tables in the modules beside this file; a case is a small sound dataset with one thing wrong. `replay` runs the kept
//! inputs of the fuzzer.

mod case;
mod injection;
mod numbers;
#[cfg(unix)]
mod outside;
mod replay;
mod settings;
mod sizes;
mod text;
mod toml;

use case::{Case, Ended};
use std::collections::BTreeSet;

/// Runs the cases of a family; gives what each said, for the snapshot.
fn outcomes(cases: &[Case]) -> String {
    let names: BTreeSet<&str> = cases.iter().map(|case| case.name).collect();
    assert_eq!(names.len(), cases.len(), "two cases of one name");
    let ended: Vec<(&Case, Ended)> = cases.iter().map(|case| (case, case.run())).collect();
    let faults: Vec<String> = ended.iter().filter_map(|(case, ended)| fault(case, ended)).collect();
    assert!(faults.is_empty(), "{} faults\n{}", faults.len(), faults.join("\n\n"));
    let outcome = |(case, ended): &(&Case, Ended)| {
        format!("{}: exit {}\n{}", case.name, case.code, ended.about(case.finding)).trim_end().to_owned()
    };
    ended.iter().map(outcome).collect::<Vec<_>>().join("\n\n")
}

/// Complaints about the end of a case.
fn fault(case: &Case, ended: &Ended) -> Option<String> {
    let Ended { code, said, .. } = ended;
    let fault = match *code {
        _ if said.contains("panicked") => "panicked".to_owned(),
        other if other != Some(case.code) => format!("exit {other:?}, not {}", case.code),
        _ if !said.contains(case.finding) => format!("does not say {}", case.finding),
        _ => ended.harm()?,
    };
    Some(format!("{}: {fault}\n{said}", case.name))
}

#[cfg(unix)]
#[test]
fn files_outside_the_dataset_are_not_read() {
    insta::assert_snapshot!(outcomes(&outside::cases()));
}

#[cfg(unix)]
#[test]
fn a_log_without_permission_costs_its_trial() {
    let case = outside::locked();
    assert_eq!(fault(&case, &case.run()), None);
}

#[test]
fn names_are_neither_obeyed_nor_run() {
    insta::assert_snapshot!(outcomes(&injection::cases()));
}

#[test]
fn numbers_beyond_all_reason_stop_no_run() {
    insta::assert_snapshot!(outcomes(&numbers::cases()));
}

#[test]
fn settings_beyond_all_reason_stop_no_run() {
    insta::assert_snapshot!(outcomes(&settings::cases()));
}

#[test]
fn tables_that_are_hardly_tables_are_read_or_refused() {
    insta::assert_snapshot!(outcomes(&text::cases()));
}

#[test]
fn descriptions_and_cells_beyond_all_reason_are_told() {
    insta::assert_snapshot!(outcomes(&toml::cases()));
}

#[test]
fn sizes_beyond_all_measure_are_bounded() {
    insta::assert_snapshot!(outcomes(&sizes::cases()));
}
