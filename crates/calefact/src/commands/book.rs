//! `book`: read, reduce, and write what heat and jobs take, together with the tables of other books. Nothing is compared.

use super::keeping::analysed;
use super::{Job, book_table};
use crate::args::BookArgs;
use crate::driver::Inputs;
use crate::{Exit, messages};
use calefact_analysis::book::{Foreign, assemble};
use calefact_analysis::fact::BookFact;
use calefact_analysis::finding::{Finding, FindingSummary};
use calefact_analysis::result::{Analysis, Book, BookEntry, BookMeasure};
use calefact_data::{InputFile, Severity};
use calefact_report::words::{Typography, Wording, book as words, terminal};
use calefact_report::{ReportError, Staging, write_book};
use std::path::{Path, PathBuf};

/// Runs `book`.
pub(super) fn book(args: BookArgs) -> Exit {
    let Some(job) = Job::settle(args.pipeline.as_deref(), None, &args.working) else { return Exit::Usage };
    let mut job = job.in_units(args.units.map(Into::into));
    let is_default = args.out.is_none();
    job.out = args.out.unwrap_or_else(|| job.beside("-book"));
    if is_default && !job.may_write(&job.out) {
        return Exit::Usage;
    }
    let Some(inputs) = job.open() else { return Exit::Usage };
    let job = job.without_comparisons();
    // Begun before the long work, so that a folder that cannot be written is told at once.
    let staging = match Staging::begin(&job.out) {
        Ok(staging) => staging,
        Err(error) => return messages::not_written(&error),
    };
    let analysis = analysed(&job, &inputs);
    let (others, mut findings) = foreign(&args.with);
    let (others, read): (Vec<Foreign>, Vec<InputFile>) = others.into_iter().unzip();
    let (book, of_rigs) = assemble(analysis.book.clone(), others, analysis.level);
    findings.extend(of_rigs);
    findings.extend(own(&analysis.book));
    let noticed: FindingSummary = findings.iter().collect();
    let any_error = noticed.any_error() || analysis.noticed.any_error();
    let wording = Wording::of_analysis(&analysis, job.formats.units, Typography::Plain);
    messages::list_findings(&wording, &analysis.noticed, Severity::Error);
    list(&wording, &findings, job.shown());
    if book.entries.is_empty() {
        messages::say("no book was written: no burn gives a figure");
        return Exit::DataErrors;
    }
    match write(&job, &inputs, staging, (&analysis, &book), &read) {
        Ok(page) => tell(&job, &book, &page, any_error),
        Err(error) => messages::not_written(&error),
    }
}

/// Each finding that concerns a table or the book as a whole; of rows the first ones, and how many more there are.
fn list(wording: &Wording<'_>, findings: &[Finding], least: Severity) {
    let (rows, others): (Vec<&Finding>, Vec<&Finding>) = findings.iter().partition(|f| f.line.is_some());
    for finding in others.iter().filter(|f| f.severity >= least) {
        messages::say(&format!("{}\n", terminal(wording, finding)));
    }
    messages::list_findings(wording, &rows.into_iter().collect(), least);
}

/// The tables of other books, with what is wrong with them.
fn foreign(folders: &[PathBuf]) -> (Vec<(Foreign, InputFile)>, Vec<Finding>) {
    let (mut tables, mut findings) = (Vec::new(), Vec::new());
    for folder in folders {
        let (table, found) = book_table::read(folder);
        tables.extend(table);
        findings.extend(found);
    }
    (tables, findings)
}

/// Findings on what the own entries lack.
fn own(entries: &[BookEntry]) -> Vec<Finding> {
    if entries.is_empty() {
        return vec![Finding::error(BookFact::NoBurns)];
    }
    let burns: usize = entries.iter().map(|e| e.burns.len()).sum();
    let undated: usize = entries.iter().map(|e| e.period.undated).sum();
    let priced = entries.iter().flat_map(|e| &e.lines).any(|line| line.measure == BookMeasure::Cost);
    let undated = (undated > 0).then(|| Finding::warning(BookFact::Undated { undated, burns }));
    undated.into_iter().chain((!priced).then(|| Finding::warning(BookFact::NoPrice))).collect()
}

fn write(
    job: &Job,
    inputs: &Inputs,
    staging: Staging,
    (analysis, book): (&Analysis, &Book),
    others: &[InputFile],
) -> Result<PathBuf, ReportError> {
    let mut read = job.files(inputs);
    read.extend_from_slice(others);
    let tool = job.tool("book", if others.is_empty() { "" } else { " --with ..." });
    write_book(book, analysis, (staging, job.formats), (&read, job.base()), &tool)
}

fn tell(job: &Job, book: &Book, page: &Path, any_error: bool) -> Exit {
    if !job.quiet {
        messages::say(&words::summary(&book.entries));
        messages::say(&format!("book: {}", page.display()));
    }
    if any_error { Exit::DataErrors } else { Exit::Done }
}
