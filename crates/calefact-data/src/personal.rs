//! Words of people in registers and logs: who made a trial, and what they noted. Found for a list of them, and left out of copies that
//! are given away. Nothing else of a file changes: its lines stay where they are.

use crate::column_maps::ColumnMaps;
use crate::text::cells::for_each_row;
use crate::text::decode;
use crate::text::header::{canonical, split_unit};
use memchr::memchr_iter;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;

/// Words of people in a table.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct PersonalWords {
    /// Names under `operator`.
    pub operators: BTreeSet<String>,
    /// Number of cells with a text under `note`.
    pub notes: usize,
    /// Further columns whose header sounds like people, and some of their cells.
    pub further: BTreeMap<String, BTreeSet<String>>,
}

/// Words left out of a copy.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct LeftOut {
    /// Whether notes, and comments of TOML files, are.
    pub notes: bool,
    /// Names of operators, and what stands for each.
    pub operators: BTreeMap<String, String>,
}

/// Words in headers of columns that may name people.
const PEOPLE: [&str; 14] = [
    "name", "person", "people", "crew", "who", "tester", "observer", "author", "owner", "user", "mail", "phone",
    "address", "initials",
];
/// Cells of such a column that are listed.
const LISTED: usize = 5;

/// A table as text, and where its header is.
#[derive(Debug, Clone, Copy)]
pub(crate) struct TextTable<'t> {
    /// The text, UTF-8.
    pub(crate) text: &'t [u8],
    /// Character between cells.
    pub(crate) delimiter: u8,
    /// Line of the header.
    pub(crate) header: u64,
    /// Foreign headers.
    pub(crate) columns: &'t ColumnMaps,
}

/// Content of a column, as far as people are concerned.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Held {
    Operator,
    Note,
    People(String),
}

/// The columns of the header that holds.
#[derive(Debug, Clone, Default)]
struct Marks {
    columns: Vec<(usize, Held)>,
    width: usize,
}

impl TextTable<'_> {
    /// The words of people.
    pub(crate) fn words(&self) -> PersonalWords {
        let mut found = PersonalWords::default();
        self.each_row(|_, cells, marks| {
            for (index, held) in marks.iter().flat_map(|marks| &marks.columns) {
                let text = String::from_utf8_lossy(cells.get(*index).copied().unwrap_or_default()).trim().to_owned();
                match held {
                    _ if text.is_empty() => {}
                    Held::Operator => {
                        found.operators.insert(text);
                    }
                    Held::Note => found.notes += 1,
                    Held::People(header) => {
                        let cells = found.further.entry(header.clone()).or_default();
                        if cells.len() < LISTED {
                            cells.insert(text);
                        }
                    }
                }
            }
        });
        found
    }

    /// The text without what is left out, with a byte order mark, so that it is read as UTF-8 whatever was said of the file.
    pub(crate) fn without(&self, left_out: &LeftOut) -> Vec<u8> {
        let mut out = b"\xEF\xBB\xBF".to_vec();
        let mut next = 1;
        self.each_row(|line, cells, marks| {
            // Blank lines are no rows; without them the lines below would have other numbers.
            out.extend(std::iter::repeat_n(b'\n', usize::try_from(line.saturating_sub(next)).unwrap_or(0)));
            let start = out.len();
            let cells = marks.map_or_else(|| cells.to_vec(), |marks| marks.without(cells, left_out));
            push_row(&mut out, &cells, self.delimiter);
            next = line.max(next) + memchr_iter(b'\n', &out[start..]).count() as u64;
        });
        out
    }

    /// Calls `each` with the line and the cells of every row, and with the marks of the header above it; with none for what stands
    /// above the first header and for headers.
    fn each_row(&self, mut each: impl FnMut(u64, &[&[u8]], Option<&Marks>)) {
        let mut marks = Marks::default();
        for_each_row(self.text, self.delimiter, |line, cells| {
            if line == self.header || line > self.header && self.is_header(cells) {
                marks = self.marks(cells);
                each(line, cells, None);
            } else {
                each(line, cells, (line > self.header).then_some(&marks));
            }
            ControlFlow::Continue(())
        });
    }

    /// Whether a row below the header is one, too: it names a tank, and does not begin with a number.
    fn is_header(&self, cells: &[&[u8]]) -> bool {
        let first = cells.iter().map(|c| c.trim_ascii()).find(|c| !c.is_empty()).and_then(|c| c.first());
        !first.is_some_and(|b| b.is_ascii_digit() || b"+-.".contains(b)) && cells.iter().any(|c| self.name(c) == "tank")
    }

    fn marks(&self, cells: &[&[u8]]) -> Marks {
        let held = |(index, cell): (usize, &&[u8])| {
            let name = self.name(cell);
            let held = match name.as_str() {
                "operator" => Held::Operator,
                "note" => Held::Note,
                _ if sounds_like_people(&name) => Held::People(String::from_utf8_lossy(cell).trim().to_owned()),
                _ => return None,
            };
            Some((index, held))
        };
        Marks { columns: cells.iter().enumerate().filter_map(held).collect(), width: cells.len() }
    }

    /// The canonical name of a header.
    fn name(&self, cell: &[u8]) -> String {
        let cell = String::from_utf8_lossy(cell);
        self.columns.find(&cell).map_or_else(|| canonical(split_unit(&cell).0), |m| m.name.clone())
    }
}

impl Marks {
    /// The cells of a row without what is left out. A note at the end of a row may hold commas, and so go on in further cells.
    fn without<'c>(&self, cells: &[&'c [u8]], left_out: &'c LeftOut) -> Vec<&'c [u8]> {
        let mut kept = cells.to_vec();
        for (index, held) in self.columns.iter().filter(|(index, _)| *index < cells.len()) {
            match held {
                Held::Note if left_out.notes => {
                    kept[*index] = b"";
                    if index + 1 == self.width {
                        kept.truncate(self.width);
                    }
                }
                Held::Operator => {
                    let name = String::from_utf8_lossy(cells[*index]);
                    if let Some(other) = left_out.operators.get(name.trim()) {
                        kept[*index] = other.as_bytes();
                    }
                }
                _ => {}
            }
        }
        kept
    }
}

/// Mail addresses in a text, at most some.
pub fn mail_addresses(text: &[u8]) -> BTreeSet<String> {
    let text = decode::text(text);
    let is_part = |c: char| c.is_alphanumeric() || ".-_+@".contains(c);
    let is_address = |word: &&str| {
        let parts = word.split_once('@').map(|(person, place)| (person, place.rsplit_once('.')));
        matches!(parts, Some((person, Some((host, top)))) if !person.is_empty() && !host.is_empty() && !host.contains('@')
            && top.len() > 1 && top.chars().all(char::is_alphabetic))
    };
    let words = text.split(|c| !is_part(c)).map(|word| word.trim_matches(['.', '-', '_', '+']));
    words.filter(is_address).take(LISTED).map(str::to_owned).collect()
}

/// Whether a text holds a name as a word of its own, in capitals or not.
pub fn mentions(text: &[u8], name: &str) -> bool {
    let (text, name) = (decode::text(text).to_lowercase(), name.to_lowercase());
    let is_word = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
    let mut places = text.match_indices(&name);
    places.any(|(at, _)| !is_word(text[..at].chars().next_back()) && !is_word(text[at + name.len()..].chars().next()))
}

fn sounds_like_people(name: &str) -> bool {
    name.split(|c: char| !c.is_alphanumeric())
        .any(|word| PEOPLE.contains(&word.trim_end_matches('s')) || PEOPLE.contains(&word))
}

fn push_row(out: &mut Vec<u8>, cells: &[&[u8]], delimiter: u8) {
    for (index, cell) in cells.iter().enumerate() {
        if index > 0 {
            out.push(delimiter);
        }
        let is_quoted = cell.iter().any(|b| matches!(b, b'"' | b'\n' | b'\r') || *b == delimiter);
        if is_quoted {
            let doubled = cell.iter().flat_map(|b| std::iter::repeat_n(*b, if *b == b'"' { 2 } else { 1 }));
            out.extend([b'"'].into_iter().chain(doubled).chain([b'"']));
        } else {
            out.extend_from_slice(cell);
        }
    }
    out.push(b'\n');
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::LazyLock;

    const REGISTER: &str =
        "by Ida\n\ntrial,operator,Crew names,note\nb1,Ida,\"Jo, Al\",\"wet \"\"wood\"\"\"\n\nb2, Jo ,,late, and cold\n";

    static NO_MAPS: LazyLock<ColumnMaps> = LazyLock::new(ColumnMaps::default);

    fn table(text: &str) -> TextTable<'_> {
        TextTable { text: text.as_bytes(), delimiter: b',', header: 3, columns: &NO_MAPS }
    }

    #[test]
    fn words_of_people_are_found() {
        let found = table(REGISTER).words();
        assert_eq!(found.operators.into_iter().collect::<Vec<_>>(), ["Ida", "Jo"]);
        assert_eq!(found.notes, 2);
        assert_eq!(found.further, BTreeMap::from([("Crew names".to_owned(), BTreeSet::from(["Jo, Al".to_owned()]))]));
    }

    #[test]
    fn what_is_left_out_leaves_the_lines_in_their_place() {
        let operators =
            BTreeMap::from([("Ida".to_owned(), "operator-1".to_owned()), ("Jo".to_owned(), "operator-2".to_owned())]);
        let bare = table(REGISTER).without(&LeftOut { notes: true, operators });
        let text = String::from_utf8(bare).expect("UTF-8");
        let wanted = "\u{feff}by Ida\n\ntrial,operator,Crew names,note\nb1,operator-1,\"Jo, Al\",\n\nb2,operator-2,,\n";
        assert_eq!(text, wanted);
        let all = table(REGISTER).without(&LeftOut::default());
        assert_eq!(String::from_utf8_lossy(&all), format!("\u{feff}{REGISTER}"));
    }

    #[test]
    fn addresses_and_names_are_found_in_any_text() {
        let text = b"Ida <ida.e@hill.example>, a@b, @x.org, 5 @ 3.2 degC, x@y.z9";
        assert_eq!(mail_addresses(text).into_iter().collect::<Vec<_>>(), ["ida.e@hill.example"]);
        assert!(
            mentions(b"by Ida, Jo", "Jo")
                && !mentions(b"John, Jot", "Jo")
                && mentions("von \u{c5}sa".as_bytes(), "\u{c5}sa")
        );
    }

    #[test]
    fn a_repeated_header_moves_the_notes() {
        let text = "elapsed [s],note,tank\n0,x,1\nelapsed [s],tank,note\n2,3,y\n";
        let table = TextTable { text: text.as_bytes(), delimiter: b',', header: 1, columns: &NO_MAPS };
        let bare = table.without(&LeftOut { notes: true, ..LeftOut::default() });
        assert_eq!(
            String::from_utf8_lossy(&bare),
            "\u{feff}elapsed [s],note,tank\n0,,1\nelapsed [s],tank,note\n2,3,\n"
        );
    }

    /// A logger's line above the header, in the encodings of common loggers and spreadsheets.
    #[test]
    fn names_and_addresses_are_found_in_any_encoding() {
        let line =
            "Logger of J\u{f6}rg \u{d6}ztek, jo@hill.example\r\nelapsed [min],tank [degC]\r\n0,11.0\r\n12,18.2\r\n";
        let utf_16: Vec<u8> = [0xfeff].into_iter().chain(line.encode_utf16()).flat_map(u16::to_le_bytes).collect();
        let western = encoding_rs::WINDOWS_1252.encode(line).0.into_owned();
        for bytes in [line.as_bytes().to_vec(), utf_16, western] {
            assert!(mentions(&bytes, "J\u{f6}rg \u{d6}ztek") && mentions(&bytes, "J\u{d6}RG \u{f6}ztek"));
            assert_eq!(mail_addresses(&bytes).into_iter().collect::<Vec<_>>(), ["jo@hill.example"]);
        }
    }
}
