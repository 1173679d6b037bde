//! Words for numbers of a log or a register that may be read two ways.

use super::{Message, Wording};
use calefact_data::fact::TwoReadings;

/// A mark that may be a decimal sign or part thousands; `table` of dataset.toml says how the file is written.
pub(super) fn number(w: &Wording<'_>, column: &str, cell: &str, two: &TwoReadings, table: &str) -> Message {
    let (sign, other) = if two.mark == ',' { ("comma", "point") } else { ("point", "comma") };
    let (decimal, grouped) = (two.decimal, two.grouped);
    let text = format!("{} is {}, which may be {decimal} or {grouped}", w.column(column), w.quoted(cell));
    Message::new(text).hint(format!(
        "set `decimal = \"{sign}\"` under [{table}] in dataset.toml if it is {decimal}, `decimal = \"{other}\"` if it is \
         {grouped}"
    ))
}

/// A whole number and digits in the words beside it.
pub(super) fn split(w: &Wording<'_>, column: &str, written: &str) -> Message {
    let (number, words) = written.split_once(',').unwrap_or((written, ""));
    Message::new(format!("{} may be {} in two cells", w.column(column), w.quoted(written)))
        .action(format!("read as {number}, with the words {}", w.quoted(words)))
        .hint("if it is one number, write a point for its decimal comma, or separate the cells by semicolons")
}
