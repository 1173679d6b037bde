//! Small parts of sentences: lists, plurals, capitals.

use std::borrow::Cow;

/// "1 trial", "3 trials".
pub fn plural(n: usize, word: &str) -> String {
    if n == 1 { format!("1 {word}") } else { format!("{n} {word}s") }
}

/// "a, b and c".
pub fn list<S: AsRef<str>>(parts: &[S]) -> String {
    joined(parts, "and")
}

/// "a, b or c".
pub fn choice<S: AsRef<str>>(parts: &[S]) -> String {
    joined(parts, "or")
}

fn joined<S: AsRef<str>>(parts: &[S], word: &str) -> String {
    let parts: Vec<&str> = parts.iter().map(AsRef::as_ref).collect();
    match parts[..] {
        [] => String::new(),
        [single] => single.to_owned(),
        [ref first @ .., last] => format!("{} {word} {last}", first.join(", ")),
    }
}

/// Text that may quote a file or a name, with what a terminal would obey and a page would hide made visible: control
/// characters but line ends and tabs, characters that turn the direction of the text (Unicode 16, section 23.2), and those that
/// XML 1.0 does not allow.
pub fn printable(text: String) -> String {
    let is_kept = |c: char| matches!(c, '\n' | '\t');
    replaced(text, |c| is_unprintable(c) && !is_kept(c))
}

/// The same on one line: a name cannot begin a line of its own.
pub(super) fn single_line(text: String) -> String {
    replaced(text, is_unprintable)
}

/// Characters of a message without a space, such as those of a path; of more the first and the last are shown.
const RUN: usize = 400;
/// Characters of a line of a message.
const LINE: usize = 6000;

/// A message of a length that a person can read, whatever it quotes.
pub fn bounded(text: String) -> String {
    if text.len() <= RUN {
        return text;
    }
    let line =
        |line: &str| cut(&line.split(' ').map(|run| cut(run, RUN)).collect::<Vec<_>>().join(" "), LINE).into_owned();
    text.split('\n').map(line).collect::<Vec<_>>().join("\n")
}

/// Three quarters of `most` characters from the start of a longer text, and a quarter from its end.
fn cut(text: &str, most: usize) -> Cow<'_, str> {
    if text.len() <= most || text.char_indices().nth(most).is_none() {
        return text.into();
    }
    let end = text.char_indices().nth(3 * most / 4).map_or(text.len(), |(at, _)| at);
    let start = text.char_indices().rev().nth(most / 4).map_or(end, |(at, _)| at.max(end));
    format!("{}\u{2026}{}", &text[..end], &text[start..]).into()
}

fn is_unprintable(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{2028}' | '\u{2029}' | '\u{fffe}' | '\u{ffff}')
}

fn replaced(text: String, is_replaced: impl Fn(char) -> bool) -> String {
    if text.contains(&is_replaced) { text.replace(&is_replaced, "\u{fffd}") } else { text }
}

/// The end of a caption, where marks are hidden.
pub(crate) fn hidden_marks(hidden: usize) -> String {
    match hidden {
        0 => String::new(),
        1 => " One mark lies on another and is not drawn.".to_owned(),
        n => format!(" {n} marks lie on others and are not drawn."),
    }
}

/// A label with its unit in brackets, for headings of columns and axes.
pub(crate) fn heading(label: &str, unit: &str) -> String {
    if unit.is_empty() { label.to_owned() } else { format!("{label} ({unit})") }
}

/// The text with its first letter in upper case.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |c| c.to_uppercase().chain(chars).collect())
}

/// A fragment as a sentence: a capital first, a full stop last.
pub fn sentence(text: &str) -> String {
    let text = capital(text.trim());
    if text.is_empty() || text.ends_with(['.', '!', '?']) { text } else { text + "." }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_terminal_obeys_is_replaced() {
        for c in ['\u{1b}', '\u{7}', '\u{7f}', '\u{9b}', '\r', '\0', '\u{202e}', '\u{2066}', '\u{ffff}'] {
            assert_eq!(printable(format!("a{c}b")), "a\u{fffd}b", "{c:?}");
        }
        assert_eq!(printable("é \u{202f}—\n\t".to_owned()), "é \u{202f}—\n\t");
        assert_eq!(single_line("Box\nerror x".to_owned()), "Box\u{fffd}error x");
    }

    #[test]
    fn long_runs_and_lines_are_cut() {
        assert_eq!(bounded("a b".repeat(50)), "a b".repeat(50));
        let long = bounded(format!("unknown unit `{}`; write L", "L".repeat(1_000_000)));
        assert!(
            long.starts_with("unknown unit `LL") && long.ends_with("L`; write L") && long.chars().count() < RUN + 40
        );
        let line = bounded("é ".repeat(1_000_000));
        assert!(line.chars().count() <= LINE + 2, "{}", line.chars().count());
    }

    #[test]
    fn lists_plurals_and_sentences() {
        assert_eq!(list::<&str>(&[]), "");
        assert_eq!(list(&["a"]), "a");
        assert_eq!(list(&["a", "b", "c"]), "a, b and c");
        assert_eq!(choice(&["a", "b"]), "a or b");
        assert_eq!((plural(1, "burn"), plural(0, "burn")), ("1 burn".to_owned(), "0 burns".to_owned()));
        assert_eq!(sentence("élan is kept"), "Élan is kept.");
        assert_eq!(sentence(" really? "), "Really?");
        assert_eq!(hidden_marks(2), " 2 marks lie on others and are not drawn.");
    }
}
