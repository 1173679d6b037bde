//! Names of apparatus, levels and columns as people read them.

use super::{Typography, Wording};
use calefact_data::ApparatusKind;

impl Wording<'_> {
    /// The name of an apparatus entry: "Rocket stove".
    pub fn apparatus(&self, kind: ApparatusKind, id: &str) -> String {
        self.names.get(kind, id).to_owned()
    }

    /// A level of a factor: the name of the apparatus entry, or the level as the register has it.
    pub fn level(&self, factor: &str, level: &str) -> String {
        ApparatusKind::from_column(factor).map_or_else(|| level.to_owned(), |kind| self.apparatus(kind, level))
    }

    /// A level that says of what it is a level: "Rocket stove", "split fine".
    pub fn level_of_factor(&self, factor: &str, level: &str) -> String {
        match ApparatusKind::from_column(factor) {
            Some(kind) => self.apparatus(kind, level),
            None => format!("{} {level}", factor.replace('_', " ")),
        }
    }

    /// The name of a group: its levels, joined.
    pub fn group(&self, levels: &[(String, String)]) -> String {
        levels.iter().map(|(factor, level)| self.level(factor, level)).collect::<Vec<_>>().join(" · ")
    }

    /// A column or key: quoted as it is typed in plain text, in words on a page.
    pub fn column(&self, name: &str) -> String {
        match self.typography {
            Typography::Plain => format!("`{name}`"),
            Typography::Page => name.replace('_', " "),
        }
    }

    /// A column without quotes, in words on a page.
    pub(super) fn bare_column(&self, name: &str) -> String {
        match self.typography {
            Typography::Plain => name.to_owned(),
            Typography::Page => name.replace('_', " "),
        }
    }

    /// A text quoted as the file has it.
    pub fn quoted(&self, text: &str) -> String {
        match self.typography {
            Typography::Plain => format!("`{text}`"),
            Typography::Page => format!("“{text}”"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_data::ApparatusNames;

    #[test]
    fn people_read_names() {
        let (id, name) = ("rocket".to_owned(), "Rocket stove".to_owned());
        let names = ApparatusNames::none().with(ApparatusKind::Stove, [(&id, &name)].into_iter());
        let plain = Wording { names: &names, ..Wording::plain() };
        let page = Wording { typography: Typography::Page, ..plain };
        assert_eq!(plain.level("stove", "rocket"), "Rocket stove");
        assert_eq!(plain.level("stove", "box"), "box");
        assert_eq!(plain.level_of_factor("wood_split", "fine"), "wood split fine");
        assert_eq!((plain.column("fuel_mass"), page.column("fuel_mass")), ("`fuel_mass`".into(), "fuel mass".into()));
        assert_eq!((plain.quoted("x_1"), page.quoted("x_1")), ("`x_1`".into(), "“x_1”".into()));
    }
}
