//! Reading the table of another book: one file of a bounded size, every cell checked. Nothing else of its folder is opened.

use super::book_row::{BadCell, Row};
use crate::scratch::Scratch;
use calefact_analysis::book::Foreign;
use calefact_analysis::fact::{BookFact, BundleFact, CellFault};
use calefact_analysis::finding::Finding;
use calefact_analysis::result::BookEntry;
use calefact_bundle::{Bundle, names};
use calefact_data::InputFile;
use calefact_report::BOOK_VERSION;
use csv::StringRecord;
use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

/// Bytes that a table may have: a thousand combinations of ten jobs.
const MOST_BYTES: u64 = 4_000_000;

/// Columns that are read.
const COLUMNS: [&str; 26] = [
    "version",
    "rig",
    "name",
    "stove",
    "fuel",
    "exchanger",
    "job",
    "water",
    "from",
    "to",
    "ambient",
    "fuel_moisture",
    "quantity",
    "value",
    "unit",
    "lower",
    "upper",
    "level",
    "predict_lower",
    "predict_upper",
    "n",
    "outside",
    "seasons",
    "last",
    "undated",
    "burns",
];

/// Reads the table of a folder, with the hash of what was read. Rows that cannot be read are left out with a finding each.
pub(super) fn read(folder: &Path) -> (Option<(Foreign, InputFile)>, Vec<Finding>) {
    if !Bundle::is_at(folder) {
        return read_in(folder, folder);
    }
    let scratch = Scratch::new().map_err(|e| vec![BundleFact::Unreadable { reason: e.to_string() }]);
    let opened = scratch.and_then(|scratch| Ok((Bundle::open_sound(folder, &scratch.path().join("bundle"))?, scratch)));
    match opened {
        Ok((bundle, _scratch)) => read_in(&folder.join(names::RESULTS), &bundle.root().join(names::RESULTS)),
        Err(faults) => {
            let refused = BundleFact::refused(faults).map(|fact| Finding::error(fact).at(folder, None, None));
            (None, refused.into_iter().collect())
        }
    }
}

/// The same of a folder of results, which lies in `real` and is shown as `folder`.
fn read_in(folder: &Path, real: &Path) -> (Option<(Foreign, InputFile)>, Vec<Finding>) {
    let places = [Path::new("tables/book.csv"), Path::new("book.csv")];
    let Some(place) = places.into_iter().find(|place| real.join(place).is_file()) else {
        return (None, vec![Finding::error(BookFact::NoTable).at(folder, None, None)]);
    };
    let (file, real) = (folder.join(place), real.join(place));
    let read = text(&real).and_then(|text| Ok((rows(&text)?, InputFile::new(&file, text.as_bytes()))));
    match read {
        Ok(((entries, faults), input)) => {
            let finding = |(line, BadCell { column, fault }): (u64, BadCell)| {
                Finding::error(BookFact::BadRow { column, fault }).at(&file, Some(line), None)
            };
            let findings = faults.into_iter().map(finding).collect();
            (Some((Foreign { file, entries }, input)), findings)
        }
        Err(fact) => (None, vec![Finding::error(fact).at(file, None, None)]),
    }
}

/// The file as text, not more of it than a table may have.
fn text(file: &PathBuf) -> Result<String, BookFact> {
    let mut bytes = Vec::new();
    let read = File::open(file).and_then(|f| f.take(MOST_BYTES + 1).read_to_end(&mut bytes));
    read.map_err(|error| BookFact::Unreadable { reason: error.to_string() })?;
    if bytes.len() as u64 > MOST_BYTES {
        return Err(BookFact::TooLarge { most: MOST_BYTES });
    }
    String::from_utf8(bytes).map_err(|_| BookFact::NotText)
}

/// Entries of a table, and the lines that cannot be read.
type Rows = (Vec<BookEntry>, Vec<(u64, BadCell)>);

fn rows(text: &str) -> Result<Rows, BookFact> {
    let mut reader = csv::ReaderBuilder::new().flexible(true).from_reader(text.as_bytes());
    let header = reader.headers().cloned().map_err(|_| BookFact::NotText)?;
    let place = |column: &&'static str| header.iter().position(|h| h == *column).ok_or(*column);
    let wanted = || COLUMNS.iter();
    let missing: Vec<&'static str> = wanted().filter_map(|c| place(c).err()).collect();
    if !missing.is_empty() {
        return Err(BookFact::NoColumns { columns: missing });
    }
    let places: Vec<(&'static str, usize)> = wanted().filter_map(|c| Some((*c, place(c).ok()?))).collect();
    let (mut entries, mut faults) = (Vec::new(), Vec::new());
    for record in reader.records() {
        let record = record.map_err(|_| BookFact::NotText)?;
        check_version(&record, &places)?;
        let line = record.position().map_or(0, csv::Position::line);
        let row = if record.len() == header.len() {
            Row { record: &record, places: &places }.read()
        } else {
            Err(BadCell { column: None, fault: CellFault::Length })
        };
        match row {
            Ok(entry) => add(&mut entries, entry),
            Err(fault) => faults.push((line, fault)),
        }
    }
    Ok((entries, faults))
}

/// Refuses a table that names another version.
fn check_version(record: &StringRecord, places: &[(&str, usize)]) -> Result<(), BookFact> {
    let found = places.first().and_then(|(_, place)| record.get(*place)).unwrap_or_default();
    if found == BOOK_VERSION.to_string() {
        return Ok(());
    }
    Err(BookFact::OtherVersion { found: found.chars().take(20).collect() })
}

/// Adds an entry of one line to those of the same rig and combination.
fn add(entries: &mut Vec<BookEntry>, entry: BookEntry) {
    let is_same = |e: &&mut BookEntry| e.rig == entry.rig && e.combination == entry.combination;
    match entries.iter_mut().find(is_same) {
        Some(known) => {
            known.currency = known.currency.take().or(entry.currency);
            known.burns.extend(entry.burns);
            known.lines.extend(entry.lines);
        }
        None => entries.push(entry),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEAD: &str = "version,rig,name,stove,fuel,exchanger,job,water,from,to,ambient,fuel_moisture,quantity,value,unit,lower,upper,level,\
predict_lower,predict_upper,n,outside,seasons,last,undated,burns\n";
    const HEAT: &str = "1,hill,Box stove,box,spruce,,,,,,,,wood,0.6,kg,0.5,0.7,0.95,0.4,0.9,3,false,2024,2025-01-02,0,00000000000000aa 00000000000000ab 00000000000000ac\n";
    const JOB: &str = "1,hill,Box stove,box,spruce,,tub,0.3,10,40,8,,time,3600,s,3000,4000,0.95,,,2,true,2024,2025-01-02,0,00000000000000aa 00000000000000ab 00000000000000ac\n";

    fn faults(row: &str) -> Vec<(Option<&'static str>, CellFault)> {
        let (entries, faults) = rows(&format!("{HEAD}{row}{HEAT}")).expect("a table");
        assert_eq!(entries.len(), 1, "the other row is read");
        faults.into_iter().map(|(_, f)| (f.column, f.fault)).collect()
    }

    #[test]
    fn a_sound_table_is_read() {
        let (entries, faults) = rows(&format!("{HEAD}{HEAT}{JOB}")).expect("a table");
        assert!(faults.is_empty() && entries.len() == 1, "{faults:?}");
        let entry = &entries[0];
        assert_eq!((entry.lines.len(), entry.burns.len(), entry.lines[1].is_outside), (2, 3, true));
        assert!(entry.lines[1].spread.next.is_none() && entry.combination.exchanger.is_none());
    }

    #[test]
    fn each_wrong_cell_is_named() {
        let wrong = |from: &str, to: &str| faults(&HEAT.replacen(from, to, 1));
        assert_eq!(wrong("hill", "=HYPERLINK(1)"), [(Some("rig"), CellFault::Formula)]);
        assert_eq!(wrong("Box stove", "Box\u{1b}[2J"), [(Some("name"), CellFault::Text)]);
        assert_eq!(wrong("Box stove", &"x".repeat(500)), [(Some("name"), CellFault::Text)]);
        assert_eq!(wrong(",0.6,", ",NaN,"), [(Some("value"), CellFault::Number)]);
        assert_eq!(wrong(",0.6,", ",-0.6,"), [(Some("value"), CellFault::Number)]);
        assert_eq!(wrong(",0.5,", ",0.65,"), [(Some("lower"), CellFault::Interval)]);
        assert_eq!(wrong(",wood,", ",smoke,"), [(Some("quantity"), CellFault::Word)]);
        assert_eq!(wrong(",3,false", ",9,false"), [(Some("n"), CellFault::Number)]);
        assert_eq!(wrong("2025-01-02", "=1+1"), [(Some("last"), CellFault::Word)]);
        assert_eq!(wrong("00000000000000aa", "zz"), [(Some("burns"), CellFault::Word)]);
        assert_eq!(wrong("hill,", ""), [(None, CellFault::Length)]);
        assert_eq!(faults(&JOB.replacen(",0.3,", ",,", 1)), [(Some("water"), CellFault::Blank)]);
    }

    #[test]
    fn another_version_or_form_is_refused_whole() {
        let other = HEAT.replacen('1', "2", 1);
        assert!(matches!(rows(&format!("{HEAD}{other}")), Err(BookFact::OtherVersion { .. })));
        assert!(matches!(rows("a,b\n1,2\n"), Err(BookFact::NoColumns { columns }) if columns.len() == 26));
        assert!(rows(HEAD).is_ok_and(|(entries, _)| entries.is_empty()));
    }

    #[test]
    fn a_table_without_end_is_not_read() {
        let dir = tempfile::tempdir().unwrap();
        std::fs::write(dir.path().join("book.csv"), vec![b'x'; MOST_BYTES as usize + 1]).unwrap();
        let (table, findings) = read(dir.path());
        assert!(table.is_none() && matches!(&findings[..], [f] if f.code() == "book-table-refused"));
        assert_eq!(read(&dir.path().join("nowhere")).1.len(), 1);
    }
}
