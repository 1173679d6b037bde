//! Sealing a bundle in words: what is personal in it, and why something cannot be sealed.

use super::bundle::name_fault;
use super::{Wording, list, plural};
use calefact_bundle::LayoutError;
use calefact_bundle::compare::Differences;

/// A table that says who publishes what, to be corrected and pasted.
pub const EXAMPLE: &str = "[publish]\nauthors = [{ given_names = \"Ida\", family_names = \"Example\" }]\nlicence = \"CC-BY-4.0\"\ndate = \"2026-05-04\"\n";

/// What is said of a pipeline without that table.
pub fn no_publication() -> String {
    format!(
        "error: the pipeline file has no table [publish], so nobody would know whose data these are\n  hint: add these lines and correct them\n\n{EXAMPLE}"
    )
}

/// What is personal in a bundle.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct PersonalSummary {
    /// Authors of the publication.
    pub authors: Vec<String>,
    /// Names of sites.
    pub sites: Vec<String>,
    /// Names under `operator`.
    pub operators: Vec<String>,
    /// Whether other names stand for them.
    pub operators_replaced: bool,
    /// Notes in registers, in logs and in the descriptions of datasets.
    pub notes: [usize; 3],
    /// Whether they are left out.
    pub notes_left_out: bool,
    /// Columns whose header sounds like people, and some of their cells.
    pub further: Vec<(String, Vec<String>)>,
    /// Files that were not searched: workbooks, and logs that cannot be read.
    pub unsearched: Vec<String>,
    /// Files with mail addresses, and some of these.
    pub addresses: Vec<(String, Vec<String>)>,
}

impl PersonalSummary {
    /// What is personal, one line a kind, with what becomes of it.
    pub fn lines(&self, w: &Wording<'_>) -> Vec<String> {
        let mut lines = vec!["personal in this bundle:".to_owned()];
        let kept = |left_out: bool, word: &str, otherwise: &str| {
            if left_out { word.to_owned() } else { format!("packed; `--without {otherwise}` leaves them out") }
        };
        let names = |names: &[String]| list(&names.iter().map(|n| w.quoted(n)).collect::<Vec<_>>());
        if !self.authors.is_empty() {
            lines.push(format!("  authors: {} (published)", names(&self.authors)));
        }
        if !self.sites.is_empty() {
            lines.push(format!("  sites: {} (packed)", names(&self.sites)));
        }
        if !self.operators.is_empty() {
            let kept = kept(self.operators_replaced, "replaced", "operators");
            lines.push(format!("  operators: {} ({kept})", names(&self.operators)));
        }
        let [registers, logs, descriptions] = self.notes;
        if registers + logs + descriptions > 0 {
            let kept = kept(self.notes_left_out, "left out", "notes");
            lines.push(format!(
                "  notes: {registers} in registers, {logs} in logs, {descriptions} in dataset.toml ({kept})"
            ));
        }
        for (header, cells) in &self.further {
            let cells = names(cells);
            lines.push(format!("  the column {} may name people: {cells} (packed)", w.quoted(header)));
        }
        if !self.unsearched.is_empty() {
            lines.push(format!("  not searched for operators and notes: {} (packed)", names(&self.unsearched)));
        }
        for (file, found) in &self.addresses {
            lines.push(format!("  mail addresses in {}: {} (packed)", w.quoted(file), names(found)));
        }
        if lines.len() == 1 {
            lines.push("  nothing was found".into());
        }
        lines
    }
}

/// Names that were replaced and stand elsewhere, too.
pub fn still_named(w: &Wording<'_>, name: &str, files: &[String]) -> String {
    let files: Vec<String> = files.iter().map(|file| w.quoted(file)).collect();
    let more = if files.len() > 3 { format!(" and {} more", plural(files.len() - 3, "file")) } else { String::new() };
    let first = if files.len() > 3 { files[..3].join(", ") } else { list(&files) };
    format!("warning: the name {} still stands in {first}{more}; look there before you publish", w.quoted(name))
}

/// A pipeline that reads somebody's bundle.
pub fn reads_bundle(w: &Wording<'_>, bundle: &std::path::Path) -> String {
    format!(
        "error: the pipeline reads the bundle {}, whose data have authors and a licence of their own; nothing was sealed\n  \
         hint: seal your own datasets with a pipeline that names them alone",
        w.quoted(&bundle.display().to_string())
    )
}

/// Why files cannot be packed.
pub fn layout_error(w: &Wording<'_>, error: &LayoutError) -> String {
    let path = |path: &std::path::Path| w.quoted(&path.display().to_string());
    match error {
        LayoutError::Outside(file) => format!(
            "error: {} lies outside the folders of the datasets, and nothing outside them is sealed\n  \
             hint: move the file into the folder of its dataset and correct its path in the register",
            path(file)
        ),
        LayoutError::Name(file, fault) => format!(
            "error: {} {}\n  hint: give the file another name, in the register too",
            path(file),
            name_fault(w, fault)
        ),
        LayoutError::Changed(file) => {
            format!("error: {} changed while it was read\n  hint: seal again when nothing writes into it", path(file))
        }
    }
}

/// A file whose notes or operators cannot be left out.
pub fn cannot_leave_out(w: &Wording<'_>, file: &str) -> String {
    format!(
        "error: nothing can be left out of {}: it is a workbook, or its columns cannot be told\n  \
         hint: save a workbook as CSV; `calefact check` names what is wrong with other files",
        w.quoted(file)
    )
}

/// How the results differ from those of the files as they are; none where they do not but for names and notes.
pub fn changed_results(w: &Wording<'_>, found: &Differences) -> Option<String> {
    let rows = found.tables.iter().find(|(_, t)| t.rows.0 != t.rows.1 || t.largest.is_some());
    let (name, table) = rows?;
    let words = super::rerun::table_words(w, table);
    Some(format!("warning: without what was left out the results are others: {} has {words}", w.quoted(name)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_personal_is_listed_with_what_becomes_of_it() {
        let summary = PersonalSummary {
            authors: vec!["Ida Example".into()],
            operators: vec!["Ida".into(), "Jo".into()],
            operators_replaced: true,
            notes: [2, 0, 1],
            further: vec![("crew".into(), vec!["Al".into()])],
            ..PersonalSummary::default()
        };
        insta::assert_snapshot!(summary.lines(&Wording::plain()).join("\n"), @r"
        personal in this bundle:
          authors: `Ida Example` (published)
          operators: `Ida` and `Jo` (replaced)
          notes: 2 in registers, 0 in logs, 1 in dataset.toml (packed; `--without notes` leaves them out)
          the column `crew` may name people: `Al` (packed)
        ");
        assert_eq!(PersonalSummary::default().lines(&Wording::plain())[1], "  nothing was found");
    }
}
