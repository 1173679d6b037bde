//! Words for files that no proposal was made for.

use crate::words::text::{printable, single_line};
use crate::words::{Message, Wording, list, message};
use calefact_data::{LeftOut, Meaning, Proposal};
use std::path::PathBuf;

/// Files that no proposal was made for, each with what to do.
pub fn left_out(w: &Wording<'_>, proposal: &Proposal) -> Vec<String> {
    let line = |(path, reason): &(PathBuf, LeftOut)| {
        let message = left_out_message(w, reason);
        let hint = message.hint.map(|hint| format!("; {hint}")).unwrap_or_default();
        single_line(printable(format!("{}: {}{hint}", path.display(), message.text)))
    };
    proposal.left_out.iter().map(line).collect()
}

fn left_out_message(w: &Wording<'_>, reason: &LeftOut) -> Message {
    let headers = |headers: &[String]| list(&headers.iter().map(|h| w.quoted(h)).collect::<Vec<_>>());
    match reason {
        LeftOut::Finding(finding) => message(w, &(**finding).clone().widen()),
        LeftOut::NoHeader => Message::new("no row of headers above rows of numbers")
            .hint("write a row of headers, such as `elapsed [min],tank [degC]`, above the readings"),
        LeftOut::NoTime(found) => Message::new(format!("no column is a time; headers: {}", headers(found)))
            .hint("name the column of times `elapsed [min]` or `clock`"),
        LeftOut::NoTank(found) => {
            Message::new(format!("no column is surely the water in the tank; headers: {}", headers(found)))
                .hint("name that column `tank [degC]` or `tank [degF]`")
        }
        LeftOut::SecondTable => {
            Message::new("a second table of trials").hint("join the two in one file, or make two datasets")
        }
        LeftOut::OtherMeaning { header, before, here } => Message::new(format!(
            "the header {} is {} here, but {} in the files before it",
            w.quoted(header),
            meaning(w, *here),
            meaning(w, *before)
        ))
        .hint("write another header in one of them, or make a dataset of its own of such files"),
        LeftOut::OtherClock => Message::new("its clock is written in another form than in the files before it")
            .hint("write its dates as 2026-03-24, or make a dataset of its own of such files"),
    }
}

fn meaning(w: &Wording<'_>, meaning: Meaning) -> String {
    let unit = meaning.unit.map(|unit| format!(" in {unit}")).unwrap_or_default();
    meaning.column.map_or_else(|| "not used".to_owned(), |column| w.column(column) + &unit)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_header_with_two_meanings_is_told() {
        let meaning = |column, unit| Meaning { column, unit };
        let (before, here) = (meaning(Some("tank"), Some("degC")), meaning(None, None));
        let files = vec![
            ("b.csv".into(), LeftOut::OtherMeaning { header: "T1".into(), before, here }),
            ("c.csv".into(), LeftOut::OtherClock),
        ];
        let lines = left_out(&Wording::plain(), &Proposal { left_out: files, ..Proposal::default() });
        assert_eq!(
            lines,
            [
                "b.csv: the header `T1` is not used here, but `tank` in degC in the files before it; write another header in one of \
                 them, or make a dataset of its own of such files",
                "c.csv: its clock is written in another form than in the files before it; write its dates as 2026-03-24, or make a \
                 dataset of its own of such files"
            ]
        );
    }
}
