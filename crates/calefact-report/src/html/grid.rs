//! A table of the page.

/// A table cell or heading text, escaped by the template.
pub(super) type Text = String;

/// A table of the page.
pub(super) struct Grid {
    /// Its caption, read out before it.
    pub(super) caption: Text,
    /// Headings, and whether the column holds numbers.
    pub(super) head: Vec<(Text, bool)>,
    /// Rows; as long as the headings.
    pub(super) rows: Vec<Vec<Text>>,
    /// What the first column holds.
    pub(super) names: Names,
}

/// What the first column of a table holds.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Names {
    /// No trial.
    None,
    /// A trial, with its anchor.
    Here,
    /// A trial, with a link to its anchor.
    Linked,
}

/// A cell as it is written.
pub(super) struct Cell<'a> {
    /// Text.
    pub(super) text: &'a str,
    /// Whether it is a number.
    pub(super) number: bool,
    /// Anchor of a trial.
    pub(super) id: Option<Text>,
    /// Anchor the cell leads to.
    pub(super) link: Option<Text>,
}

impl Grid {
    /// Cells of a row.
    pub(super) fn cells<'a>(&'a self, row: &'a [Text]) -> impl Iterator<Item = Cell<'a>> {
        row.iter().zip(&self.head).enumerate().map(|(column, (text, head))| {
            let names = if column == 0 { self.names } else { Names::None };
            let (id, link) = match names {
                Names::None => (None, None),
                Names::Here => (Some(trial_anchor(text)), Some("curves".to_owned())),
                Names::Linked => (None, Some(trial_anchor(text))),
            };
            Cell { text, number: head.1, id, link }
        })
    }
}

/// Headings with whether the column holds numbers.
pub(super) fn head(columns: &[(&str, bool)]) -> Vec<(Text, bool)> {
    columns.iter().map(|(name, number)| ((*name).to_owned(), *number)).collect()
}

/// Anchor of a trial in the table of trials: no two ids share one. What has a meaning in an address is written as its number
/// between points.
fn trial_anchor(trial: &str) -> Text {
    let escaped = |c: char| match c {
        _ if c.is_alphanumeric() || matches!(c, '-' | '_') => c.to_string(),
        _ => format!(".{:x}.", u32::from(c)),
    };
    format!("trial-{}", trial.chars().map(escaped).collect::<Text>())
}

#[cfg(test)]
mod tests {
    use super::trial_anchor;
    use std::collections::BTreeSet;

    #[test]
    fn no_two_trials_share_an_anchor() {
        let ids = ["a b", "a-b", "a/b", "A-B", "a_b", "a.20.b", "a\u{1b}b"];
        let anchors: BTreeSet<String> = ids.iter().map(|id| trial_anchor(id)).collect();
        assert_eq!(anchors.len(), ids.len(), "{anchors:?}");
        assert!(anchors.iter().all(|a| !a.contains([' ', '/', '#', '"', '<'])), "{anchors:?}");
        assert_eq!(trial_anchor("b01"), "trial-b01");
    }
}
