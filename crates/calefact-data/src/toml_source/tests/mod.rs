//! Problems of TOML files by their rendered text.

use super::{Table, read_text};
use calefact_units::Kind;

fn rendered<T>(text: &str, build: impl FnOnce(&Table<'_>) -> T) -> String {
    let (_, findings) = read_text("d/dataset.toml".as_ref(), text, build);
    findings.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
}

#[test]
fn syntax_error_shows_its_line() {
    insta::assert_snapshot!(rendered("title = \"x\"\n[site\n", |_| ()), @r"
    error toml-syntax: d/dataset.toml line 2 column 6
      unclosed table, expected `]`
        2 | [site
          |      ^
    ");
}

#[test]
fn unknown_key_names_the_nearest() {
    let text = "[vessel]\nvolum = \"160 L\"\n";
    let read = |root: &Table<'_>| {
        let vessel = root.table("vessel")?;
        vessel.quantity("volume", Kind::Volume);
        vessel.finish();
        root.finish();
        Some(())
    };
    insta::assert_snapshot!(rendered(text, read), @r#"
    error unknown-key: d/dataset.toml line 2 column 1
      unknown key `vessel.volum`
        2 | volum = "160 L"
          | ^^^^^
      done: key ignored
      hint: did you mean `volume`?
    "#);
}

#[test]
fn wrong_type_says_what_is_wanted() {
    let text = "volume = 160\nname = 3\ncalibrated = \"yes\"\n";
    let read = |root: &Table<'_>| {
        root.quantity("volume", Kind::Volume);
        root.string("name");
        root.boolean("calibrated");
    };
    insta::assert_snapshot!(rendered(text, read), @r#"
    error wrong-type: d/dataset.toml line 1 column 10
      `volume`: expected a quantity such as "160 L", found a whole number
        1 | volume = 160
          |          ^^^
      done: value left empty
    error wrong-type: d/dataset.toml line 2 column 8
      `name`: expected a text in quotes, found a whole number
        2 | name = 3
          |        ^
      done: value left empty
    error wrong-type: d/dataset.toml line 3 column 14
      `calibrated`: expected true or false, found a text
        3 | calibrated = "yes"
          |              ^^^^^
      done: value left empty
    "#);
}

#[test]
fn missing_key_points_at_the_table() {
    let text = "title = \"x\"\n\n[fuels.spruce]\nprice = 0.25\n";
    let read = |root: &Table<'_>| root.table("fuels")?.table("spruce")?.required_string("name");
    insta::assert_snapshot!(rendered(text, read), @r"
    error missing-key: d/dataset.toml line 3 column 1
      [fuels.spruce] lacks the key `name`
        3 | [fuels.spruce]
          | ^^^^^^^^^^^^^^
    ");
}

#[test]
fn units_are_explained() {
    let text = "a = \"42 gal\"\nb = \"42 litrs\"\nc = \"42 kg\"\nd = \"many L\"\ne = \"160\"\nf = \"160 xyz\"\n";
    let read = |root: &Table<'_>| {
        for key in ["a", "b", "c", "d", "e", "f"] {
            root.quantity(key, Kind::Volume);
        }
    };
    insta::assert_snapshot!(rendered(text, read), @r#"
    error ambiguous-unit: d/dataset.toml line 1 column 5
      `gal` is ambiguous: write gal_us (3.785 L) or gal_imp (4.546 L)
        1 | a = "42 gal"
          |     ^^^^^^^^
      done: value left empty
    error unknown-unit: d/dataset.toml line 2 column 5
      unknown unit `litrs` for a volume
        2 | b = "42 litrs"
          |     ^^^^^^^^^^
      done: value left empty
      hint: did you mean `litres`?
    error wrong-kind-of-unit: d/dataset.toml line 3 column 5
      `kg` is a unit of another kind (a mass), but a volume is wanted here
        3 | c = "42 kg"
          |     ^^^^^^^
      done: value left empty
    error not-a-quantity: d/dataset.toml line 4 column 5
      `many L` does not begin with a number
        4 | d = "many L"
          |     ^^^^^^^^
      done: value left empty
    error missing-unit: d/dataset.toml line 5 column 5
      `160` has no unit, but a volume is wanted here
        5 | e = "160"
          |     ^^^^^
      done: value left empty
      hint: write the unit after the number, as in "160 L"
    error unknown-unit: d/dataset.toml line 6 column 5
      unknown unit `xyz` for a volume
        6 | f = "160 xyz"
          |     ^^^^^^^^^
      done: value left empty
      hint: units of a volume are `m3`, `L`, `mL`, `cL`, `dL`, `hL`, `gal_us`, `gal_imp`
    "#);
}
