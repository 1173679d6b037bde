//! The files of a dataset that is begun: `dataset.toml`, the register, a pipeline file, and an example where there are no logs
//! yet. Texts only; who writes them where, and that nothing is overwritten, is the command's business.

mod dataset_toml;
mod example;
mod register;
mod request;
mod wood;

pub use request::StarterRequest;

use crate::words::Units;
use calefact_data::toml_source::spelling::text;

/// A file to write, by its path in the folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StarterFile {
    /// Path in the folder.
    pub path: &'static str,
    /// Text.
    pub text: String,
}

/// The files of a dataset.
pub fn starter_files(request: &StarterRequest<'_>) -> Vec<StarterFile> {
    let file = |path, text| StarterFile { path, text };
    let mut files = vec![
        file("dataset.toml", dataset_toml::text(request)),
        file("trials.csv", register::text(request)),
        file("pipeline.toml", pipeline(request)),
    ];
    if request.found.is_none() {
        files.push(file("example-1.csv", example::log(request.units)));
    }
    files
}

fn pipeline(request: &StarterRequest<'_>) -> String {
    let units = if request.units == Units::Us { "\n[outputs]\nunits = \"us\"\n" } else { "" };
    format!(
        "#:schema schemas/pipeline.schema.json\n\
         # What is compared, and where the results go: stoves, fuels and exchangers, in reports/{name}, unless more is said here.\n\
         name = {}\ntitle = {}\ndatasets = [\".\"]\n{units}",
        text(&request.name),
        text(&request.title),
        name = request.name,
    )
}
