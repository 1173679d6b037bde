//! `[publish]`: what the publication of a pipeline says of itself.

use calefact_bundle::{Author, LICENCES, Publication};
use calefact_data::fact::Toml;
use calefact_data::toml_source::{Key, Shape, TEXT, Table, TextForm, words};

/// The keys of `[publish]`.
pub(super) const KEYS: &[Key] = &[
    Key::optional("title", TEXT, "title of the publication; that of the report if absent"),
    Key::optional("description", TEXT, "what it is, in a few sentences; the titles of the datasets if absent"),
    Key::required(
        "authors",
        Shape::NonEmpty(&Shape::Table(AUTHOR), "no-author"),
        "persons and organisations, in order",
    ),
    Key::optional("licence", Shape::Word(|| words(&LICENCES)), "licence, by its SPDX name; `--licence` if absent"),
    Key::required("date", Shape::Text(TextForm::Date), "day of publication"),
    Key::optional("version", TEXT, "its version, such as \"1.0.0\""),
    Key::optional("keywords", Shape::List(&TEXT), "words to find it by"),
    Key::optional("url", Shape::Text(TextForm::Url), "page where it is published"),
];

const AUTHOR: &[Key] = &[
    Key::optional("family_names", TEXT, "family names of a person"),
    Key::optional("given_names", TEXT, "given names of a person"),
    Key::optional("name", TEXT, "name of an organisation, or of a person who has one name only"),
    Key::optional("orcid", Shape::Text(TextForm::Orcid), "ORCID of a person"),
    Key::optional("affiliation", TEXT, "where a person works"),
];

/// Reads `[publish]`.
pub(super) fn read(root: &Table<'_>) -> Option<Publication> {
    let table = root.table("publish")?;
    // The form of citations allows no blank text and nothing twice.
    let filled = |text: Option<&str>| text.map(printable).filter(|text| !text.is_empty());
    let title = [table.text("title"), root.text("title"), root.text("name")].into_iter().find_map(filled);
    Some(Publication {
        title: title.unwrap_or_default(),
        description: filled(table.text("description")),
        authors: once(table.items("authors").iter().filter_map(|item| author(&item.table()?))),
        licence: table.word("licence", &LICENCES),
        version: filled(table.text("version")),
        date: table.string("date"),
        keywords: once(table.texts("keywords").iter().filter_map(|word| filled(Some(word)))),
        url: table.text("url").map(Into::into),
    })
}

/// A text without control characters and blanks at its ends.
fn printable(text: &str) -> String {
    let text: String = text.chars().filter(|c| !c.is_control() || c.is_whitespace()).collect();
    text.trim().to_owned()
}

/// Things in order, each once.
fn once<T: PartialEq>(all: impl Iterator<Item = T>) -> Vec<T> {
    let mut found: Vec<T> = Vec::new();
    for one in all {
        if !found.contains(&one) {
            found.push(one);
        }
    }
    found
}

fn author(table: &Table<'_>) -> Option<Author> {
    let text = |key| table.text(key).map(printable).filter(|text| !text.is_empty());
    let family_names = text("family_names");
    let is_person = family_names.is_some();
    let Some(name) = family_names.or_else(|| text("name")) else {
        table.report(Toml::MissingKey { table: table.path().into(), key: "name" });
        return None;
    };
    Some(Author {
        given_names: text("given_names").filter(|_| is_person),
        name,
        is_person,
        orcid: text("orcid"),
        affiliation: text("affiliation"),
    })
}
