//! Problems of TOML files, by their facts and places.

use super::{Key, Range, Shape, TEXT, TextForm, read_text, words};
use crate::fact::{Fact, Misfit, Toml};
use crate::{Finding, Severity};
use calefact_units::Kind;

const VESSEL: &[Key] = &[
    Key::required("name", TEXT, ""),
    Key::optional("volume", Shape::Quantity(Kind::Volume, Range::Positive), ""),
    Key::optional("heat", Shape::Stated(Kind::HeatCapacity, Range::NotNegative), ""),
    Key::optional("heat_uncertainty", Shape::Width(Kind::HeatCapacity), ""),
];

const KEYS: &[Key] = &[
    Key::optional("vessels", Shape::ById(&Shape::Table(VESSEL)), ""),
    Key::optional("digits", Shape::Integer(Range::Within(1.0, 6.0)), ""),
    Key::optional("level", Shape::Either(&Shape::Number(Range::Below(0.5, 1.0)), &Shape::Word(|| vec!["high"])), ""),
    Key::optional("delimiter", Shape::Text(TextForm::Delimiter), ""),
    Key::optional("sign", Shape::Word(|| words(&[("point", 1), ("comma", 2)])), ""),
    Key::optional("list", Shape::NonEmpty(&Shape::Boolean, "no-dataset"), ""),
    Key::optional("named", Shape::ByName(|| vec!["tank", "flow"], &TEXT), ""),
];

fn findings(text: &str) -> Vec<Finding> {
    read_text("d/dataset.toml".as_ref(), text, KEYS, |_| ()).1
}

fn facts(text: &str) -> Vec<Fact> {
    findings(text).into_iter().map(|f| f.fact).collect()
}

fn value(key: &str, misfit: Misfit) -> Fact {
    Toml::Value { key: key.into(), misfit }.into()
}

#[test]
fn syntax_errors_have_a_place() {
    let found = findings("digits = 2\n[vessels\n");
    assert_eq!((found[0].code(), found[0].severity), ("toml-syntax", Severity::Error));
    assert_eq!((found[0].line, found[0].column), (Some(2), Some(9)));
    assert_eq!(found[0].excerpt.as_deref(), Some("2 | [vessels\n  |         ^"));
}

#[test]
fn keys_are_checked_at_every_depth() {
    let found = facts("[vessels.\"wash tub\"]\nvolum = \"160 L\"\n[named]\ntnk = \"x\"\n[vessel]\n");
    let vessel_keys = vec!["name", "volume", "heat", "heat_uncertainty"];
    let unknown = |table: &str, key: &str, known| Toml::UnknownKey { table: table.into(), key: key.into(), known };
    assert_eq!(found[0], Toml::MissingKey { table: "vessels.\"wash tub\"".into(), key: "name" }.into());
    assert_eq!(found[1], unknown("vessels.\"wash tub\"", "volum", vessel_keys).into());
    assert_eq!(found[2], unknown("named", "tnk", vec!["tank", "flow"]).into());
    assert!(
        matches!(&found[3], Fact::Toml(Toml::UnknownKey { table, key, .. }) if table.is_empty() && key == "vessel")
    );
}

#[test]
fn values_are_checked_against_their_shape() {
    let range = |range, kind| Misfit::Range { range, kind };
    assert_eq!(facts("digits = 9"), [value("digits", range(Range::Within(1.0, 6.0), None))]);
    assert_eq!(facts("level = inf"), [value("level", Misfit::NotFinite)]);
    assert_eq!(facts("level = 0.9\n"), []);
    assert_eq!(facts("level = \"high\""), []);
    let word = Misfit::Word { word: "dot".into(), known: vec!["point", "comma"] };
    assert_eq!(facts("sign = \"dot\""), [value("sign", word)]);
    let text = Misfit::Text { text: "xx".into(), form: TextForm::Delimiter };
    assert_eq!(facts("delimiter = \"xx\""), [value("delimiter", text)]);
    assert_eq!(facts("digits = 99999999999999999999"), [value("digits", Misfit::TooLarge)]);
    assert_eq!(facts("list = []"), [value("list", Misfit::Empty { code: "no-dataset" })]);
    assert_eq!(findings("list = [true, 1]")[0].code(), "wrong-type");
    let volume = range(Range::Positive, Some(Kind::Volume));
    let text = "[vessels.a]\nname = \"A\"\nvolume = \"0 L\"\nheat = \"1 kJ/K +- -1 J/K\"\n";
    assert_eq!(facts(text), [value("vessels.a.volume", volume), value("vessels.a.heat", Misfit::NegativeUncertainty)]);
}

#[test]
fn units_are_checked() {
    let code = |volume: &str| findings(&format!("[vessels.a]\nname = \"A\"\nvolume = \"{volume}\"\n"))[0].code();
    assert_eq!(code("42 gal"), "ambiguous-unit");
    assert_eq!(code("42 litrs"), "unknown-unit");
    assert_eq!(code("42 kg"), "wrong-kind-of-unit");
    assert_eq!(code("many L"), "not-a-quantity");
    assert_eq!(code("160"), "missing-unit");
}

#[test]
fn an_uncertainty_stands_in_the_text_or_beside_it() {
    let stated = |lines: &str| {
        let text = format!("[vessels.a]\nname = \"A\"\n{lines}\n");
        let read = |root: &super::Table<'_>| root.entries("vessels")[0].1.table().and_then(|t| t.stated("heat"));
        read_text("d.toml".as_ref(), &text, KEYS, read).0.flatten().expect("a value")
    };
    assert_eq!(stated("heat = \"2 kJ/K +- 100 J/K\"").std_uncertainty, Some(100.0));
    assert_eq!(stated("heat = \"2 kJ/K\"\nheat_uncertainty = \"0.1 kJ/K\"").std_uncertainty, Some(100.0));
    assert_eq!(stated("heat = \"0 J/K\"").std_uncertainty, None);
}
