//! What a publication says of itself: title, authors, licence, date. All of it is given by the person; no clock is asked.

use crate::Licence;

/// Description of a publication.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Publication {
    /// Title.
    pub title: String,
    /// Its content, in a few sentences.
    pub description: Option<String>,
    /// Authors, in order.
    pub authors: Vec<Author>,
    /// Licence.
    pub licence: Option<Licence>,
    /// Its version.
    pub version: Option<String>,
    /// Day of publication, ISO 8601.
    pub date: String,
    /// Keywords.
    pub keywords: Vec<String>,
    /// Where it is published.
    pub url: Option<String>,
}

/// A person or an organisation.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Author {
    /// Given names of a person.
    pub given_names: Option<String>,
    /// Family names of a person; the name of an organisation if `is_person` is not set.
    pub name: String,
    /// Whether it is a person.
    pub is_person: bool,
    /// ORCID, as `0000-0002-1825-0097`.
    pub orcid: Option<String>,
    /// Where a person works.
    pub affiliation: Option<String>,
}

impl Author {
    /// The whole name.
    pub fn full_name(&self) -> String {
        self.given_names.iter().map(String::as_str).chain([self.name.as_str()]).collect::<Vec<_>>().join(" ")
    }
}

impl Publication {
    /// The names of the authors: "Ida Example, Hill nursery".
    pub fn holders(&self) -> String {
        self.authors.iter().map(Author::full_name).collect::<Vec<_>>().join(", ")
    }

    /// The text of its licence.
    pub fn licence_text(&self) -> Option<String> {
        let year = self.date.get(..4).unwrap_or_default();
        self.licence.map(|licence| licence.text_for(&self.holders(), year))
    }
}
