//! Two runs of one pipeline compared, file by file and number by number.

use csv::StringRecord;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// How two folders of results differ.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Differences {
    /// Files of the same bytes.
    pub same: usize,
    /// Files that only the first has.
    pub missing: Vec<String>,
    /// Files that only the second has.
    pub further: Vec<String>,
    /// Files of other bytes that are no table.
    pub changed: Vec<String>,
    /// Tables of other bytes.
    pub tables: BTreeMap<String, TableDifference>,
}

/// Largest relative difference of two numbers that another version of the program may give: far below any uncertainty of a trial.
pub const TOLERANCE: f64 = 1e-6;

/// How far two folders of results agree.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Agreement {
    /// Every byte is the same.
    Same,
    /// The versions differ, and every table has the same words, and numbers within [`TOLERANCE`].
    Close,
    /// Neither.
    Differs,
}

/// How two tables differ.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct TableDifference {
    /// Rows of the first and the second.
    pub rows: (usize, usize),
    /// Columns that only the first has.
    pub missing: Vec<String>,
    /// Columns that only the second has.
    pub further: Vec<String>,
    /// Numbers compared.
    pub numbers: usize,
    /// The largest relative difference of two numbers.
    pub largest: Option<NumberDifference>,
    /// Cells of other words, or with a number in one table only.
    pub words: usize,
    /// The first of them.
    pub first_words: Option<Cell>,
}

/// Place of a cell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cell {
    /// Row, from 1 below the header.
    pub row: usize,
    /// Column.
    pub column: String,
}

/// Two numbers that differ.
#[derive(Debug, Clone, PartialEq)]
pub struct NumberDifference {
    /// Where.
    pub cell: Cell,
    /// Difference over the larger of the two.
    pub relative: f64,
    /// The first.
    pub first: f64,
    /// The second.
    pub second: f64,
}

impl Differences {
    /// How far the folders agree; tables may differ a little where another version of the program made one of them.
    pub fn agreement(&self, is_same_version: bool) -> Agreement {
        let is_same =
            self.missing.is_empty() && self.further.is_empty() && self.changed.is_empty() && self.tables.is_empty();
        if is_same {
            return Agreement::Same;
        }
        let tables_agree = !self.missing.iter().any(|name| is_table(name))
            && self.tables.values().all(|table| table.agrees_within(TOLERANCE));
        if tables_agree && !is_same_version { Agreement::Close } else { Agreement::Differs }
    }
}

impl TableDifference {
    fn agrees_within(&self, share: f64) -> bool {
        let is_same = self.rows.0 == self.rows.1 && self.missing.is_empty() && self.words == 0;
        is_same && self.largest.as_ref().is_none_or(|d| d.relative <= share)
    }
}

/// Compares two folders of results.
///
/// # Errors
/// If a file cannot be read.
pub fn folders(
    first: &Path,
    second: &Path,
    names: (&BTreeSet<String>, &BTreeSet<String>),
) -> std::io::Result<Differences> {
    let only = |a: &BTreeSet<String>, b: &BTreeSet<String>| a.difference(b).cloned().collect();
    let mut found =
        Differences { missing: only(names.0, names.1), further: only(names.1, names.0), ..Differences::default() };
    for name in names.0.intersection(names.1) {
        let (a, b) = (std::fs::read(first.join(name))?, std::fs::read(second.join(name))?);
        if a == b {
            found.same += 1;
        } else if is_table(name) {
            found.tables.insert(name.clone(), tables(&a, &b));
        } else {
            found.changed.push(name.clone());
        }
    }
    Ok(found)
}

fn is_table(name: &str) -> bool {
    Path::new(name).extension().is_some_and(|e| e == "csv")
}

/// Compares two tables by the names of their columns, row by row.
pub fn tables(first: &[u8], second: &[u8]) -> TableDifference {
    let ((head_a, rows_a), (head_b, rows_b)) = (parsed(first), parsed(second));
    let place = |head: &StringRecord, name: &str| head.iter().position(|h| h == name);
    let only = |a: &StringRecord, b: &StringRecord| {
        a.iter().filter(|name| place(b, name).is_none()).map(str::to_owned).collect()
    };
    let mut found = TableDifference {
        rows: (rows_a.len(), rows_b.len()),
        missing: only(&head_a, &head_b),
        further: only(&head_b, &head_a),
        ..TableDifference::default()
    };
    let shared: Vec<(usize, usize)> =
        head_a.iter().enumerate().filter_map(|(i, name)| Some((i, place(&head_b, name)?))).collect();
    for (row, (a, b)) in rows_a.iter().zip(&rows_b).enumerate() {
        for (i, j) in &shared {
            let cell = || Cell { row: row + 1, column: head_a[*i].to_owned() };
            found.cell(a.get(*i).unwrap_or_default(), b.get(*j).unwrap_or_default(), cell);
        }
    }
    found
}

impl TableDifference {
    fn cell(&mut self, first: &str, second: &str, at: impl Fn() -> Cell) {
        match (number(first), number(second)) {
            (Some(a), Some(b)) => {
                self.numbers += 1;
                let relative = (a - b).abs() / a.abs().max(b.abs()).max(f64::MIN_POSITIVE);
                if relative > 0.0 && self.largest.as_ref().is_none_or(|d| relative > d.relative) {
                    self.largest = Some(NumberDifference { cell: at(), relative, first: a, second: b });
                }
            }
            _ if first == second => {}
            _ => {
                self.words += 1;
                self.first_words.get_or_insert_with(at);
            }
        }
    }
}

fn number(cell: &str) -> Option<f64> {
    cell.parse().ok().filter(|x: &f64| x.is_finite())
}

/// Header and rows; what is no table has none.
fn parsed(text: &[u8]) -> (StringRecord, Vec<StringRecord>) {
    let mut reader = csv::ReaderBuilder::new().flexible(true).from_reader(text);
    let head = reader.headers().cloned().unwrap_or_default();
    (head, reader.records().filter_map(Result::ok).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_largest_difference_is_named() {
        let found = tables(b"id,x,y\na,1,2\nb,4,5\n", b"id,y,x,z\na,2,1\nb,5.5,4,9\n");
        assert_eq!((found.rows, found.numbers, found.words), ((2, 2), 4, 0));
        assert_eq!((found.missing.len(), found.further), (0, vec!["z".to_owned()]));
        let largest = found.largest.clone().expect("a difference");
        assert_eq!((largest.cell, largest.first, largest.second), (Cell { row: 2, column: "y".into() }, 5.0, 5.5));
        assert!((largest.relative - 0.5 / 5.5).abs() < 1e-12);
        let whole =
            |share| TableDifference { further: Vec::new(), ..tables(b"x\n1\n", b"x\n1.01\n") }.agrees_within(share);
        assert!(whole(0.01) && !whole(0.009));
        let near = |text: &[u8]| Differences {
            tables: BTreeMap::from([("t.csv".to_owned(), tables(b"x\n1\n", text))]),
            ..Differences::default()
        };
        assert_eq!(near(b"x\n1.0000001\n").agreement(false), Agreement::Close);
        assert_eq!(near(b"x\n1.0000001\n").agreement(true), Agreement::Differs);
        assert_eq!(near(b"x\n1.1\n").agreement(false), Agreement::Differs);
        assert_eq!(Differences::default().agreement(true), Agreement::Same);
    }

    #[test]
    fn words_and_rows_are_no_numbers() {
        let found = tables(b"v\nabove\n1\n", b"v\nbelow\nNaN\n3\n");
        assert_eq!((found.words, found.rows), (2, (2, 3)));
        assert_eq!(found.first_words, Some(Cell { row: 1, column: "v".into() }));
        assert!(!found.agrees_within(1.0));
    }
}
