//! The inputs of a bundle: what is personal in them, and their packed copies.

use super::Job;
use crate::driver::Inputs;
use calefact_bundle::{Layout, PackedFile, Publication, names, rewrite};
use calefact_data::personal::{LeftOut, PersonalWords, mail_addresses, mentions};
use calefact_data::{Dataset, InputFile};
use calefact_report::ReportError;
use calefact_report::words::{Wording, seal as words};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// Why nothing is sealed.
#[derive(Debug)]
pub(super) enum SealError {
    /// The data does not allow it; the words say why.
    Data(String),
    /// A file could not be written.
    Write(ReportError),
}

impl From<ReportError> for SealError {
    fn from(error: ReportError) -> Self {
        Self::Write(error)
    }
}

/// The inputs on their way into a bundle.
pub(super) struct Packing<'a> {
    job: &'a Job,
    sets: &'a [Dataset],
    layout: &'a Layout,
    left_out: LeftOut,
    found: Found,
}

/// What is personal in the inputs.
#[derive(Debug, Default)]
struct Found {
    operators: BTreeSet<String>,
    /// In registers, logs and descriptions.
    notes: [usize; 3],
    further: BTreeMap<String, BTreeSet<String>>,
    addresses: Vec<(String, Vec<String>)>,
    unsearched: Vec<String>,
}

/// Kinds of input.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Input {
    Register = 0,
    Log = 1,
    Description = 2,
}

impl<'a> Packing<'a> {
    /// Inputs of which nothing is left out.
    pub(super) fn new(job: &'a Job, inputs: &'a Inputs, layout: &'a Layout) -> Self {
        Self { job, sets: &inputs.sets, layout, left_out: LeftOut::default(), found: Found::default() }
    }

    /// Looks for what is personal, and settles what is left out.
    pub(super) fn choose(&mut self, notes: bool, operators: bool) -> Result<(), SealError> {
        let mut found = Found::default();
        for file in &self.layout.files {
            let bytes = read(file)?;
            match self.personal_words(file, &bytes) {
                Some(words) => found.add(self.kind(file), words),
                None => found.unsearched.push(file.name.clone()),
            }
            found.add_addresses(&file.name, &bytes);
        }
        found.add_addresses(names::PIPELINE, self.pipeline_text()?.as_bytes());
        let width = found.operators.len().to_string().len();
        let replaced = found.operators.iter().zip(1..).map(|(name, n)| (name.clone(), format!("operator-{n:0width$}")));
        self.left_out = LeftOut { notes, operators: if operators { replaced.collect() } else { BTreeMap::new() } };
        self.found = found;
        Ok(())
    }

    /// The words of people in a file; none where its columns cannot be told.
    fn personal_words(&self, file: &PackedFile, bytes: &[u8]) -> Option<PersonalWords> {
        match self.kind(file) {
            Input::Description => rewrite::personal_words(&text(bytes)).ok(),
            _ => self.sets[file.dataset].personal_words(&file.source.path, bytes),
        }
    }

    /// What is personal, for a list.
    pub(super) fn summary(&self, publication: &Publication) -> words::PersonalSummary {
        let list = |texts: &BTreeSet<String>| texts.iter().cloned().collect::<Vec<_>>();
        let sites = self.sets.iter().map(|set| set.apparatus.site.name.clone()).filter(|name| !name.is_empty());
        words::PersonalSummary {
            authors: publication.authors.iter().map(calefact_bundle::Author::full_name).collect(),
            sites: sites.collect(),
            operators: list(&self.found.operators),
            operators_replaced: !self.left_out.operators.is_empty(),
            notes: self.found.notes,
            notes_left_out: self.left_out.notes,
            further: self.found.further.iter().map(|(header, cells)| (header.clone(), list(cells))).collect(),
            addresses: self.found.addresses.clone(),
            unsearched: self.found.unsearched.clone(),
        }
    }

    /// Writes the pipeline and the inputs into the folder of the bundle.
    pub(super) fn write(&self, root: &Path) -> Result<(), SealError> {
        for file in &self.layout.files {
            write(&root.join(&file.name), &self.packed(file)?)?;
        }
        let text = rewrite::pipeline(&self.pipeline_text()?, &self.layout.datasets, &self.left_out);
        let text = text.map_err(|e| SealError::Data(format!("error: the pipeline file cannot be read again: {e}")))?;
        write(&root.join(names::PIPELINE), text.as_bytes())
    }

    /// The bytes of a file in the bundle: its own, unless something is left out of it.
    fn packed(&self, file: &PackedFile) -> Result<Vec<u8>, SealError> {
        let bytes = read(file)?;
        let is_whole = !self.left_out.notes && self.left_out.operators.is_empty();
        if is_whole {
            return Ok(bytes);
        }
        let refused =
            || SealError::Data(words::cannot_leave_out(&Wording::plain(), &file.source.path.display().to_string()));
        if self.kind(file) == Input::Description {
            return rewrite::dataset(&text(&bytes), &self.left_out).map(String::into_bytes).map_err(|_| refused());
        }
        let found = self.personal_words(file, &bytes).ok_or_else(refused)?;
        if found.operators.is_empty() && found.notes == 0 {
            return Ok(bytes);
        }
        self.sets[file.dataset].without(&file.source.path, &bytes, &self.left_out).ok_or_else(refused)
    }

    /// A warning for each replaced name that the packed inputs hold elsewhere.
    pub(super) fn still_named(&self, root: &Path) -> Result<Vec<String>, SealError> {
        let mut places: BTreeMap<&str, Vec<String>> = BTreeMap::new();
        let packed = self.layout.files.iter().map(|file| file.name.as_str()).chain([names::PIPELINE]);
        for name in packed.filter(|_| !self.left_out.operators.is_empty()) {
            let path = root.join(name);
            let bytes = std::fs::read(&path).map_err(ReportError::io("read", &path))?;
            for operator in self.left_out.operators.keys().filter(|operator| mentions(&bytes, operator)) {
                places.entry(operator).or_default().push(name.to_owned());
            }
        }
        Ok(places.iter().map(|(name, files)| words::still_named(&Wording::plain(), name, files)).collect())
    }

    fn kind(&self, file: &PackedFile) -> Input {
        let set = &self.sets[file.dataset];
        let is = |path: &Path| calefact_data::normalize_path(path) == calefact_data::normalize_path(&file.source.path);
        match () {
            () if is(&set.folder.join("dataset.toml")) => Input::Description,
            () if is(set.register()) => Input::Register,
            () => Input::Log,
        }
    }

    /// The pipeline file as it was read.
    fn pipeline_text(&self) -> Result<String, SealError> {
        let path = &self.job.path;
        let bytes = std::fs::read(path).map_err(ReportError::io("read", path))?;
        let is_same =
            self.job.pipeline.file.as_ref().is_none_or(|file| file.sha256 == InputFile::new(path, &bytes).sha256);
        if is_same { Ok(text(&bytes)) } else { Err(changed(path)) }
    }
}

impl Found {
    fn add(&mut self, kind: Input, words: PersonalWords) {
        self.operators.extend(words.operators);
        self.notes[kind as usize] += words.notes;
        for (header, cells) in words.further {
            self.further.entry(header).or_default().extend(cells);
        }
    }

    fn add_addresses(&mut self, name: &str, bytes: &[u8]) {
        let found = mail_addresses(bytes);
        if !found.is_empty() {
            self.addresses.push((name.to_owned(), found.into_iter().collect()));
        }
    }
}

/// The bytes of a file, which must be those that were analysed.
fn read(file: &PackedFile) -> Result<Vec<u8>, SealError> {
    let path = &file.source.path;
    let bytes = std::fs::read(path).map_err(ReportError::io("read", path))?;
    if InputFile::new(path, &bytes).sha256 == file.source.sha256 { Ok(bytes) } else { Err(changed(path)) }
}

fn changed(path: &Path) -> SealError {
    SealError::Data(words::layout_error(&Wording::plain(), &calefact_bundle::LayoutError::Changed(path.into())))
}

/// The text of a TOML file, which may begin with a byte order mark.
fn text(bytes: &[u8]) -> String {
    let text = String::from_utf8_lossy(bytes);
    text.strip_prefix('\u{feff}').unwrap_or(&text).to_owned()
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), SealError> {
    let written = path.parent().map_or(Ok(()), std::fs::create_dir_all).and_then(|()| std::fs::write(path, bytes));
    Ok(written.map_err(ReportError::io("write", path))?)
}
