//! Words for facts about TOML files.

use super::range::range_words;
use super::suggestion::suggestion;
use super::{Message, Wording, choice, unit_error};
use calefact_data::fact::{Misfit, Toml};
use calefact_data::toml_source::spelling::key_path;
use calefact_data::toml_source::{Form, TextForm};

/// The message on a fact.
pub(super) fn message(w: &Wording<'_>, fact: &Toml) -> Message {
    match fact {
        Toml::Syntax { problem } => Message::new(format!("not valid TOML: {problem}")),
        Toml::NotUtf8 { byte } => Message::new(format!("not UTF-8 text: the byte {byte:02X} is not valid here"))
            .hint("save the file as UTF-8"),
        Toml::MissingKey { table, key } if table.is_empty() => Message::new(format!("the file has no key `{key}`")),
        Toml::MissingKey { table, key } => Message::new(format!("{} has no key `{key}`", table_name(table))),
        Toml::UnknownKey { table, key, known } => {
            let path = key_path(table, key);
            Message::new(format!("unknown key `{path}`")).action("key ignored").hint(suggestion(key, known))
        }
        Toml::NoParquet => Message::new("`outputs.formats` asks for Parquet, which this build does not write")
            .hint("build with `--features parquet`, or leave \"parquet\" out"),
        Toml::NotRising { table, low, high } => {
            let name = table_name(table);
            Message::new(format!("`{high}` is not above `{low}` in {name}"))
                .hint(format!("correct `{low}` or `{high}`"))
        }
        Toml::Value { key, misfit } => value(w, key, misfit).action("value left empty"),
    }
}

/// A table as its head is written: `[fuels.spruce]`, or "comparison 2" for one of a list.
pub(super) fn table_name(path: &str) -> String {
    let numbered = path.strip_suffix(']').and_then(|rest| rest.rsplit_once('['));
    match numbered.and_then(|(list, index)| Some((list, index.parse::<usize>().ok()?))) {
        Some((list, index)) => format!("{list} {}", index + 1),
        None => format!("[{path}]"),
    }
}

fn value(w: &Wording<'_>, key: &str, misfit: &Misfit) -> Message {
    match misfit {
        Misfit::Type { expected, found } => {
            let expected: Vec<String> = expected.iter().map(|form| type_words(*form)).collect();
            Message::new(format!("`{key}`: expected {}, found {}", choice(&expected), type_words(*found)))
        }
        Misfit::Word { word, known } => {
            Message::new(format!("invalid value `{word}` for `{key}`")).hint(suggestion(word, known))
        }
        Misfit::Text { text, form } => text_message(key, text, *form),
        Misfit::Unit { written, error } => Message {
            hint: unit_error::quantity_hint(w, error),
            ..Message::new(unit_error::quantity(w, error, written))
        },
        Misfit::NotFinite => Message::new(format!("`{key}` must be a finite number")).hint("write the number itself"),
        Misfit::Range { range, kind } => Message::new(format!("`{key}` must be {}", range_words(w, *range, *kind)))
            .hint("correct the number or its unit"),
        Misfit::NegativeUncertainty => Message::new(format!("the uncertainty in `{key}` is negative")),
        Misfit::TooLarge => Message::new(format!("the whole number in `{key}` is too large")),
        Misfit::Empty { .. } => Message::new(format!("`{key}` is an empty list")).hint("write at least one item"),
    }
}

fn text_message(key: &str, text: &str, form: TextForm) -> Message {
    let (what, hint) = match form {
        TextForm::Any | TextForm::Width => ("text", ""),
        TextForm::FolderName => {
            ("name of a folder", "use letters, digits, `-`, `_` and `.`, and do not begin with `.`")
        }
        TextForm::Water => ("water", "write a volume or a mass with its unit, such as \"120 L\" or \"120 kg\""),
        TextForm::Delimiter => ("delimiter", "write one of \",\" \";\" \"|\" \"tab\""),
        TextForm::Encoding => ("encoding", "write a name such as \"utf-8\", \"utf-16le\", \"windows-1252\""),
        TextForm::ClockFormat => (
            "pattern of a clock time",
            "write it with %d %m %Y for the date and %H:%M:%S for the time, such as \"%d.%m.%Y %H:%M\"",
        ),
        TextForm::TimeZone => ("time zone", "write an IANA name such as \"Europe/Oslo\""),
        TextForm::Date => ("date", "write the date as \"2026-03-28\""),
        TextForm::Orcid => (
            "ORCID",
            "write its four groups of digits, such as \"0000-0002-1825-0097\"; the last digit checks the others",
        ),
        TextForm::Url => ("web address", "write it whole, such as \"https://example.org/stoves\""),
    };
    Message::new(format!("`{key}`: `{text}` is not a valid {what}")).hint(hint)
}

fn type_words(form: Form) -> String {
    match form {
        Form::Text => "a text in quotes".into(),
        Form::Integer => "a whole number".into(),
        Form::Number => "a number".into(),
        Form::Boolean => "true or false".into(),
        Form::Date => "a date".into(),
        Form::Array => "an array".into(),
        Form::Table => "a table".into(),
        Form::Quantity(kind) => {
            let example = kind.map_or("0.1 degC", unit_error::example);
            format!("a quantity such as \"{example}\"")
        }
    }
}

#[cfg(test)]
mod tests;
