//! A case, how it is run, and what holds of every case.

use calefact_tests::{TinyDataset, Workspace};
use std::collections::BTreeMap;
use std::process::Command;

/// First line of the file outside the dataset: it must appear nowhere.
pub(crate) const SECRET: &str = "root:x:0:0:secret";

/// A small dataset with one thing wrong.
pub(crate) struct Case {
    /// Name.
    pub(crate) name: &'static str,
    /// Expected exit code.
    pub(crate) code: i32,
    /// Code of the expected finding, or words that are said; nothing where the run is sound.
    pub(crate) finding: &'static str,
    data: TinyDataset,
    disk: fn(&Workspace),
    args: Vec<&'static str>,
    environment: Option<(&'static str, &'static str)>,
}

impl Case {
    /// A dataset whose run ends with a code and says a finding.
    pub(crate) fn new(name: &'static str, data: TinyDataset, code: i32, finding: &'static str) -> Self {
        let args = vec!["run", "pipeline.toml", "--out", "out"];
        Self { name, code, finding, data, disk: |_| (), args, environment: None }
    }

    /// The same after something was done to the files.
    pub(crate) fn on_disk(self, disk: fn(&Workspace)) -> Self {
        Self { disk, ..self }
    }

    /// The same with other arguments.
    pub(crate) fn args(self, args: &[&'static str]) -> Self {
        Self { args: args.to_vec(), ..self }
    }

    /// The same with a variable of the environment.
    pub(crate) fn environment(self, name: &'static str, value: &'static str) -> Self {
        Self { environment: Some((name, value)), ..self }
    }

    /// Runs the case in a folder of its own, beside a file that it must not read.
    pub(crate) fn run(&self) -> Ended {
        let folder = Workspace::new();
        folder.write("secret.csv", format!("{SECRET}\n1,2\n"));
        self.data.write(&folder);
        (self.disk)(&folder);
        let mut command = Command::new(env!("CARGO_BIN_EXE_calefact-under-test"));
        let output = command.current_dir(folder.path()).args(&self.args).envs(self.environment).output();
        let output = output.expect("the command starts");
        let said = [output.stderr, output.stdout].map(|bytes| String::from_utf8(bytes).expect("UTF-8")).concat();
        let files = if folder.join("out").is_dir() { folder.files("out") } else { BTreeMap::new() };
        Ended { code: output.status.code(), said, files }
    }
}

/// Outcome of a case.
pub(crate) struct Ended {
    /// Exit code; none where a signal ended the command.
    pub(crate) code: Option<i32>,
    /// Both outputs.
    pub(crate) said: String,
    files: BTreeMap<String, Vec<u8>>,
}

impl Ended {
    /// The finding that a case is about, and a line of the others.
    pub(crate) fn about(&self, finding: &str) -> String {
        let is_meant = |part: &&str| !finding.is_empty() && part.contains(finding);
        self.said.split("\n\n").find(is_meant).unwrap_or_default().trim_end().to_owned()
    }

    /// Things that the command must not do, whatever the input.
    pub(crate) fn harm(&self) -> Option<String> {
        obeyed("the terminal", &self.said)
            .or_else(|| self.long())
            .or_else(|| self.files.iter().find_map(|(file, bytes)| written(file, bytes)))
    }
}

/// Characters of a line on the terminal that a person may still read.
const LINE: usize = 6100;

/// Bytes on the terminal that a person may still read.
const SAID: usize = 100_000;

impl Ended {
    /// Harm of a message that nobody can read.
    fn long(&self) -> Option<String> {
        let longest = self.said.lines().map(|line| line.chars().count()).max().unwrap_or(0);
        let is_long = longest > LINE || self.said.len() > SAID;
        is_long.then(|| format!("the terminal has {} bytes, {longest} characters on a line", self.said.len()))
    }
}

/// Harm in a file of the report.
fn written(file: &str, bytes: &[u8]) -> Option<String> {
    let Ok(text) = std::str::from_utf8(bytes) else { return Some(format!("{file} is not UTF-8")) };
    match file.rsplit_once('.').map(|(_, ending)| ending) {
        Some("svg" | "html") => obeyed(file, text),
        Some("csv") => formula(file, text),
        _ => None,
    }
    .or_else(|| text.contains(SECRET).then(|| format!("{file} quotes a file outside")))
}

/// Harm in a text that is shown.
fn obeyed(place: &str, text: &str) -> Option<String> {
    let is_obeyed = |c: char| {
        (c.is_control() && !matches!(c, '\n' | '\t'))
            || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{fffe}' | '\u{ffff}')
    };
    let found = text.find(is_obeyed).or_else(|| text.find("<script>alert").filter(|_| place != "the terminal"));
    let found = found.or_else(|| text.find(SECRET));
    found.map(|at| format!("{place} holds {:?}", text[at..].chars().take(40).collect::<String>()))
}

/// A cell that begins as a formula does, unless it is a number.
fn formula(file: &str, text: &str) -> Option<String> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(text.as_bytes());
    let rows: Result<Vec<csv::StringRecord>, _> = reader.records().collect();
    let Ok(rows) = rows else { return Some(format!("{file} is not CSV")) };
    let is_number = |cell: &str| cell.split(' ').next().is_some_and(|word| word.parse::<f64>().is_ok());
    let is_run = |cell: &&str| cell.starts_with(['=', '+', '-', '@', '\t', '\r']) && !is_number(cell);
    rows.iter().flat_map(csv::StringRecord::iter).find(is_run).map(|cell| format!("{file} has the cell {cell:?}"))
}
