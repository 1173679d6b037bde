//! The files that describe a bundle: licence, citation, tables, provenance, and a page that says how to check it. All follow open
//! standards; the page is for people who have none of the programs.

use crate::about::{CITATION, CRATE, DATA_PACKAGE, Descriptors, LICENCE, README, Software};
use crate::names::{CHECKSUMS, PIPELINE};
use crate::{Publication, citation, crate_metadata, data_package};
use std::io;

/// Writes all descriptors.
///
/// # Errors
/// If a table that they describe cannot be read, or a descriptor cannot be written.
pub fn write(about: &Descriptors<'_>) -> io::Result<()> {
    let write = |name: &str, text: String| std::fs::write(about.root.join(name), text);
    write(LICENCE, about.publication.licence_text().unwrap_or_default())?;
    write(CITATION, citation::text(about.publication))?;
    write(DATA_PACKAGE, pretty(&data_package::document(about)?)?)?;
    write(README, readme(about))?;
    // The last one, since it tells the sizes of the others.
    write(CRATE, pretty(&crate_metadata::document(about)?)?)
}

fn readme(about: &Descriptors<'_>) -> String {
    let Publication { title, licence, date, .. } = about.publication;
    let Software { name, version } = about.software;
    let invented = about.invented().map_or_else(String::new, |sentence| format!("\n{sentence}\n"));
    let licence = licence.map_or("", |l| l.id);
    let (holders, description) = (about.publication.holders(), about.description());
    format!(
        "# {title}\n\n{holders}, {date}. Licence: {licence} (LICENSE.txt). How to cite it: CITATION.cff.\n\n{description}\n{invented}\n\
         | file | content |\n|---|---|\n\
         | `results/report.html` | the report; open it in a browser |\n\
         | `results/tables` | the results as tables; `datapackage.json` explains every column |\n\
         | `datasets` | apparatus, trials and logs that were read |\n\
         | `{PIPELINE}` | the settings |\n\
         | `ro-crate-metadata.json` | who, with what, from what |\n\
         | `{CHECKSUMS}` | SHA-256 of every other file |\n\n\
         To check that no file has changed:\n\n    sha256sum --check {CHECKSUMS}\n\n\
         To check that, and that the results follow from the inputs ({name} {version}):\n\n    {name} verify .\n"
    )
}

fn pretty(document: &serde_json::Value) -> io::Result<String> {
    Ok(serde_json::to_string_pretty(document)? + "\n")
}
