//! Columns that change together with the factor compared: what they are, and which trials would tell them apart.

use super::{Wording, choice, list};
use calefact_analysis::fact::ConfoundedColumn;

/// Levels of a column named in one sentence.
const MOST_LEVELS: usize = 3;

/// Two levels of a factor and the columns that change together with them.
pub(crate) struct Together<'c> {
    /// Factor compared.
    pub(crate) factor: &'c str,
    /// First level.
    pub(crate) a: &'c str,
    /// Second level.
    pub(crate) b: &'c str,
    /// The columns.
    pub(crate) columns: &'c [ConfoundedColumn],
}

impl Together<'_> {
    /// "stove, fuel and operator".
    pub(super) fn names(&self, w: &Wording<'_>) -> String {
        let columns = self.columns.iter().map(|c| c.column.as_str());
        list(&[self.factor].into_iter().chain(columns).map(|c| w.bare_column(c)).collect::<Vec<_>>())
    }

    /// "stove and fuel change together (Box stove always with pine, Rocket stove always with birch)".
    pub(super) fn clause(&self, w: &Wording<'_>) -> String {
        let (a, b) = (w.level_of_factor(self.factor, self.a), w.level_of_factor(self.factor, self.b));
        let disjoint: Vec<&ConfoundedColumn> = self.columns.iter().filter(|c| c.is_disjoint()).collect();
        let with = |levels: fn(&ConfoundedColumn) -> &[String]| {
            list(&disjoint.iter().map(|c| with_level(w, &c.column, levels(c))).collect::<Vec<_>>())
        };
        let detail = format!(" ({a} always {}, {b} always {})", with(|c| &c.a), with(|c| &c.b));
        let detail = if disjoint.is_empty() { String::new() } else { detail };
        format!("{} change together{detail}", self.names(w))
    }

    /// "make two burns each of Box stove with birch and of Rocket stove with pine".
    pub(super) fn crossed(&self, w: &Wording<'_>, noun: &str) -> String {
        let trials = format!("make two {noun}s each of");
        let (a, b) = (w.level_of_factor(self.factor, self.a), w.level_of_factor(self.factor, self.b));
        let mut disjoint = self.columns.iter().filter(|c| c.is_disjoint());
        let Some(column) = disjoint.next() else {
            return format!("{trials} {a} and {b} with the same {}", self.others(w));
        };
        let first = match column.column.as_str() {
            "date" => format!("{trials} {a} and {b} on the same day"),
            "block" => format!("{trials} {a} and {b} in the same block"),
            _ => format!(
                "{trials} {a} {} and of {b} {}",
                with_level(w, &column.column, &column.b[..1]),
                with_level(w, &column.column, &column.a[..1])
            ),
        };
        let rest: Vec<String> = disjoint.map(|c| w.bare_column(&c.column)).collect();
        if rest.is_empty() { first } else { format!("{first}, and likewise for {}", list(&rest)) }
    }

    fn others(&self, w: &Wording<'_>) -> String {
        list(&self.columns.iter().map(|c| w.bare_column(&c.column)).collect::<Vec<_>>())
    }
}

/// "cannot be told apart from fuel and operator".
pub(crate) fn inseparable<'c>(w: &Wording<'_>, columns: impl IntoIterator<Item = &'c str>) -> String {
    let columns: Vec<String> = columns.into_iter().map(|c| w.bare_column(c)).collect();
    if columns.is_empty() {
        return "cannot be told apart from another column".to_owned();
    }
    format!("cannot be told apart from {}", choice(&columns))
}

/// "with pine", "with operator Ida", "without exchanger".
fn with_level(w: &Wording<'_>, column: &str, levels: &[String]) -> String {
    let names: Vec<String> =
        levels.iter().filter(|l| !l.is_empty()).take(MOST_LEVELS).map(|l| w.level_of_factor(column, l)).collect();
    match (names.is_empty(), names.len() < levels.len()) {
        (true, _) => format!("without {}", w.bare_column(column)),
        (false, true) => format!("with {} or another {}", names.join(", "), w.bare_column(column)),
        (false, false) => format!("with {}", choice(&names)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn column(column: &str, a: &[&str], b: &[&str]) -> ConfoundedColumn {
        let levels = |levels: &[&str]| levels.iter().map(ToString::to_string).collect();
        ConfoundedColumn { column: column.into(), a: levels(a), b: levels(b) }
    }

    fn words(columns: &[ConfoundedColumn]) -> (String, String) {
        let (w, together) = (Wording::plain(), Together { factor: "stove", a: "box", b: "rocket", columns });
        (together.clause(&w), together.crossed(&w, "burn"))
    }

    #[test]
    fn two_columns_that_change_together_name_the_burns_that_part_them() {
        let (clause, crossed) = words(&[column("fuel", &["pine"], &["birch"])]);
        assert_eq!(clause, "stove and fuel change together (box always with pine, rocket always with birch)");
        assert_eq!(crossed, "make two burns each of box with birch and of rocket with pine");
    }

    #[test]
    fn several_columns_are_named_with_the_first_crossing() {
        let both = [column("exchanger", &["coil"], &[""]), column("operator", &["Ida"], &["Piet", "Jo"])];
        let (clause, crossed) = words(&both);
        assert_eq!(
            clause,
            "stove, exchanger and operator change together (box always with coil and with operator Ida, rocket always without \
             exchanger and with operator Piet or operator Jo)"
        );
        assert_eq!(
            crossed,
            "make two burns each of box without exchanger and of rocket with coil, and likewise for operator"
        );
    }

    #[test]
    fn a_day_of_its_own_asks_for_a_day_in_common() {
        let (_, crossed) = words(&[column("date", &["2025-03-01"], &["2025-03-02"])]);
        assert_eq!(crossed, "make two burns each of box and rocket on the same day");
    }

    #[test]
    fn columns_that_are_confounded_only_together_have_no_levels_in_the_sentence() {
        let (clause, crossed) = words(&[column("fuel", &["oak", "pine"], &["oak"]), column("vessel", &["a"], &["a"])]);
        assert_eq!(clause, "stove, fuel and vessel change together");
        assert_eq!(crossed, "make two burns each of box and rocket with the same fuel and vessel");
    }
}
