//! In words how far a rerun agrees with results that were sealed.

use super::{Wording, list, plural};
use calefact_bundle::compare::{Agreement, Differences, TOLERANCE, TableDifference};

/// Files that are named; of the others the number.
const NAMED: usize = 10;

/// What agrees, what differs, and by how much. The versions are those of the program that sealed and of this one.
pub fn lines(w: &Wording<'_>, found: &Differences, (sealed, this): (&str, &str)) -> Vec<String> {
    let all = found.same + found.missing.len() + found.changed.len() + found.tables.len();
    let agreement = found.agreement(sealed == this);
    if agreement == Agreement::Same {
        return vec![format!("results: all {} are the same to the byte", plural(all, "file"))];
    }
    let same = found.same;
    let mut lines = vec![format!("results: {same} of {} are the same to the byte", plural(all, "file"))];
    let differing = differing(w, found);
    lines.extend(differing.iter().take(NAMED).map(|line| format!("  {line}")));
    if differing.len() > NAMED {
        lines.push(format!("  ... and {} more", differing.len() - NAMED));
    }
    lines.push(verdict(agreement, sealed, this));
    lines
}

fn verdict(agreement: Agreement, sealed: &str, this: &str) -> String {
    let tolerance = format!("the same words, and numbers within a relative difference of {TOLERANCE:e}");
    match agreement {
        Agreement::Close => format!("sealed by version {sealed}, rerun by version {this}: all tables have {tolerance}"),
        _ if sealed == this => "the same version of the program gives other results".into(),
        _ => format!("sealed by version {sealed}, rerun by version {this}: not all tables have {tolerance}"),
    }
}

fn differing(w: &Wording<'_>, found: &Differences) -> Vec<String> {
    let tables = found.tables.iter().map(|(name, table)| format!("{} has {}", w.quoted(name), table_words(w, table)));
    let missing = found.missing.iter().map(|name| format!("{} was sealed and is not written again", w.quoted(name)));
    let further = found.further.iter().map(|name| format!("{} is written and was not sealed", w.quoted(name)));
    let changed = found.changed.iter().map(|name| format!("{} has other bytes", w.quoted(name)));
    tables.chain(missing).chain(further).chain(changed).collect()
}

/// How a table differs, behind "has".
pub(super) fn table_words(w: &Wording<'_>, table: &TableDifference) -> String {
    let mut parts = Vec::new();
    let columns = |names: &[String]| list(&names.iter().map(|name| w.quoted(name)).collect::<Vec<_>>());
    if table.rows.0 != table.rows.1 {
        parts.push(format!("{} in place of {}", plural(table.rows.1, "row"), table.rows.0));
    }
    if !table.missing.is_empty() {
        parts.push(format!("no column {}", columns(&table.missing)));
    }
    if !table.further.is_empty() {
        parts.push(format!("the new column {}", columns(&table.further)));
    }
    if let Some(first) = &table.first_words {
        let (row, column) = (first.row, w.quoted(&first.column));
        parts.push(format!("other words in {}, first in row {row}, column {column}", plural(table.words, "cell")));
    }
    if let Some(largest) = &table.largest {
        let (row, column) = (largest.cell.row, w.quoted(&largest.cell.column));
        parts.push(format!(
            "numbers ({} compared) that differ by {:.1e} of their size at most, in row {row}, column {column}: {} was sealed, {} is found",
            table.numbers,
            largest.relative,
            largest.first,
            largest.second
        ));
    }
    if parts.is_empty() { "the same cells and other bytes".into() } else { parts.join("; ") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_bundle::compare::tables;
    use std::collections::BTreeMap;

    #[test]
    fn a_difference_is_named_with_its_place() {
        let table = tables(b"id,x\na,1\n", b"id,x\nb,1.5\n");
        let found = Differences {
            same: 2,
            further: vec!["new.svg".into()],
            tables: BTreeMap::from([("t.csv".to_owned(), table)]),
            ..Differences::default()
        };
        insta::assert_snapshot!(lines(&Wording::plain(), &found, ("0.2.0", "0.3.0")).join("\n"), @r"
        results: 2 of 3 files are the same to the byte
          `t.csv` has other words in 1 cell, first in row 1, column `id`; numbers (1 compared) that differ by 3.3e-1 of their size at most, in row 1, column `x`: 1 was sealed, 1.5 is found
          `new.svg` is written and was not sealed
        sealed by version 0.2.0, rerun by version 0.3.0: not all tables have the same words, and numbers within a relative difference of 1e-6
        ");
        let same = Differences { same: 3, ..Differences::default() };
        assert_eq!(lines(&Wording::plain(), &same, ("1", "1")), ["results: all 3 files are the same to the byte"]);
    }
}
