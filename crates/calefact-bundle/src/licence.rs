//! Licences that a bundle can have, each with its full text.

/// A licence.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Licence {
    /// Its name in the SPDX list of licences.
    pub id: &'static str,
    /// Its name for people.
    pub name: &'static str,
    /// Its page.
    pub url: &'static str,
    /// Its text. The text of `MIT` has places for the year and the holders.
    text: &'static str,
}

macro_rules! licence {
    ($id:literal, $name:literal, $url:literal) => {
        ($id, Licence { id: $id, name: $name, url: $url, text: include_str!(concat!("../licences/", $id, ".txt")) })
    };
}

/// The licences by their SPDX names.
pub const LICENCES: [(&str, Licence); 6] = [
    licence!(
        "CC-BY-4.0",
        "Creative Commons Attribution 4.0 International",
        "https://creativecommons.org/licenses/by/4.0/"
    ),
    licence!(
        "CC-BY-SA-4.0",
        "Creative Commons Attribution-ShareAlike 4.0 International",
        "https://creativecommons.org/licenses/by-sa/4.0/"
    ),
    licence!(
        "CC0-1.0",
        "Creative Commons Zero 1.0 Universal (public domain)",
        "https://creativecommons.org/publicdomain/zero/1.0/"
    ),
    licence!(
        "ODbL-1.0",
        "Open Data Commons Open Database License 1.0",
        "https://opendatacommons.org/licenses/odbl/1-0/"
    ),
    licence!("MIT", "MIT License", "https://opensource.org/license/mit"),
    licence!("Apache-2.0", "Apache License 2.0", "https://www.apache.org/licenses/LICENSE-2.0"),
];

impl Licence {
    /// The text for holders and a year.
    pub fn text_for(&self, holders: &str, year: &str) -> String {
        self.text.replace("<year>", year).replace("<copyright holders>", holders)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_licence_has_its_text() {
        for (id, licence) in LICENCES {
            let text = licence.text_for("Ida Example", "2026");
            assert!(id == licence.id && text.len() > 900 && !text.contains("<year>"), "{id}");
        }
        assert!(LICENCES[4].1.text_for("Ida Example", "2026").contains("Copyright (c) 2026 Ida Example"));
    }
}
