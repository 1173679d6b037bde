//! `dataset.toml`, good and bad; problems by their rendered text.

use super::{DatasetFile, read_text};
use crate::apparatus::{Arrangement, FuelClass, Tolerance};
use crate::text::number::Decimal;

fn good(text: &str) -> DatasetFile {
    let (file, findings) = read_text("d/dataset.toml".as_ref(), text);
    assert_eq!(findings, []);
    file.expect("a dataset file")
}

fn rendered(text: &str) -> String {
    let (_, findings) = read_text("d/dataset.toml".as_ref(), text);
    findings.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
}

const FULL: &str = r#"
title = "Hill nursery"
invented = true
[site]
name = "Upper terrace"
altitude = "1000 ft"
[stoves.box]
name = "Box stove"
note = "two doors"
[fuels.spruce]
name = "Spruce"
class = "coniferous"
net_calorific_value = "19.1 MJ/kg"
net_calorific_value_uncertainty = "0.3 MJ/kg"
char_calorific_value = "30 MJ/kg +- 1 MJ/kg"
composition = { c = 0.505, h = 0.062, o = "42.6 %", ash = 0.005 }
price = 0.25
currency = "EUR"
[exchangers.coil]
name = "Coil"
arrangement = "cross-gas-mixed"
build = { tube_outside = "15 mm", length = "6 m", passes = 2 }
insulation = "none"
[vessels.barrel]
name = "Barrel"
volume = "160 L"
volume_uncertainty = "1 L"
mass = "10 kg"
material = "steel"
[instruments.tank-probe]
name = "Tank probe"
reads = ["tank"]
tolerance = ["class B Pt100", "0.1 K"]
resolution = "0.1 degC"
[instruments.scale]
name = "Scale"
reads = ["fuel_mass", "water"]
tolerance = "0.05 kg"
calibrated = true
[columns]
clock = "Zeit"
tank = { header = "Fass", unit = "degC", instrument = "tank-probe" }
ambient = { header = "Luft (degC)", instrument = "tank-probe" }
[logs]
delimiter = "tab"
decimal = "comma"
encoding = "latin1"
skip_lines = 3
missing = ["leer"]
time_zone = "Europe/Oslo"
date = "2026-03-28"
[files]
register = "../data/trials.csv"
"#;

#[test]
fn every_key_is_read_in_si() {
    let file = good(FULL);
    let a = &file.apparatus;
    assert!(a.invented);
    // One foot is 0.3048 m exactly (NIST SP 811, appendix B).
    assert!(a.site.altitude_m.is_some_and(|h| (h - 304.8).abs() < 1e-9));
    let fuel = &a.fuels["spruce"];
    assert_eq!(fuel.class, Some(FuelClass::Coniferous));
    let near = |a: Option<f64>, b: f64| a.is_some_and(|a| (a - b).abs() < 1e-6 * b.abs());
    let ncv = fuel.net_calorific_value_dry.expect("a value");
    assert!(near(Some(ncv.value), 19.1e6) && near(ncv.std_uncertainty, 0.3e6));
    let char_value = fuel.char_calorific_value.expect("a value");
    assert!(near(Some(char_value.value), 30e6) && near(char_value.std_uncertainty, 1e6));
    assert!(fuel.composition.is_some_and(|c| (c.o - 0.426).abs() < 1e-12 && c.n == 0.0));
    let coil = &a.exchangers["coil"];
    assert_eq!(coil.arrangement, Some(Arrangement::CrossGasMixed));
    assert!(near(coil.build.get("tube_outside").copied(), 0.015) && near(coil.build.get("passes").copied(), 2.0));
    let barrel = &a.vessels["barrel"];
    assert!(barrel.volume.is_some_and(|v| near(v.std_uncertainty, 1e-3)));
    assert!(barrel.heat_capacity.is_some_and(|c| near(Some(c.value), 4340.0) && c.std_uncertainty.is_none()));
}

#[test]
fn instruments_and_files() {
    let file = good(FULL);
    let probe = &file.apparatus.instruments["tank-probe"];
    assert_eq!(probe.tolerance, [Tolerance::SumOf(0.3, 0.005), Tolerance::Absolute(0.1)]);
    assert_eq!(
        (probe.resolution, probe.reads.as_slice()),
        (Some(0.1), ["tank".to_string(), "ambient".into()].as_slice())
    );
    assert!(file.apparatus.instruments["scale"].calibrated);
    let style = &file.logs.style;
    assert_eq!((style.delimiter, style.decimal, style.skip_lines), (Some(b'\t'), Some(Decimal::Comma), Some(3)));
    assert_eq!(style.encoding.map(encoding_rs::Encoding::name), Some("windows-1252"));
    let air = file.logs.columns.iter().find(|c| c.name == "ambient").expect("ambient");
    assert_eq!((air.header.as_str(), air.unit.as_deref()), ("Luft", Some("degC")));
    assert_eq!(file.register.as_deref(), Some("../data/trials.csv".as_ref()));
}

#[test]
fn problems_are_shown_together() {
    let text = "[vessels.barrel]\nvolum = \"160 L\"\nmass = \"10 kg\"\n\n[fuels.spruce]\nname = \"Spruce\"\nclass = \"conifer\"\n\
        price = 0.2\ncomposition = { c = 0.5, h = 0.06, o = 0.3 }\n";
    insta::assert_snapshot!(rendered(text), @r#"
    error[missing-key] d/dataset.toml:1:1
      the file lacks the key `title`
        1 | [vessels.barrel]
          | ^
    error[missing-key] d/dataset.toml:1:1
      [vessels.barrel] needs both `mass` and `material` for a heat capacity
        1 | [vessels.barrel]
          | ^^^^^^^^^^^^^^^^
      help: give both, or `heat_capacity`
    error[missing-key] d/dataset.toml:1:1
      [vessels.barrel] lacks the key `name`
        1 | [vessels.barrel]
          | ^^^^^^^^^^^^^^^^
    error[unknown-key] d/dataset.toml:2:1
      unknown key `vessels.barrel.volum`
        2 | volum = "160 L"
          | ^^^^^
      done: key ignored
      help: did you mean `volume`?
    error[missing-key] d/dataset.toml:5:1
      [fuels.spruce] gives a price but no `currency`
        5 | [fuels.spruce]
          | ^^^^^^^^^^^^^^
      help: add `currency`
    error[unknown-word] d/dataset.toml:7:9
      `fuels.spruce.class` does not know the word `conifer`
        7 | class = "conifer"
          |         ^^^^^^^^^
      done: value left empty
      help: did you mean `coniferous`?
    error[bad-value] d/dataset.toml:9:15
      the parts of `fuels.spruce.composition` add up to 0.860 instead of 1
        9 | composition = { c = 0.5, h = 0.06, o = 0.3 }
          |               ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
      help: give mass fractions of dry matter (or "50 %"), ash included
    "#);
}

#[test]
fn problems_of_instruments() {
    let text = "title = \"x\"\n[instruments.a]\nname = \"A\"\nreads = [\"tnak\", \"tank\"]\ntolerance = \"2.5 kg\"\n\
        [instruments.b]\nname = \"B\"\nreads = [\"tank\", \"flow\"]\nresolution = 0.1\n";
    insta::assert_snapshot!(rendered(text), @r#"
    error[unknown-word] d/dataset.toml:4:10
      `tnak` is no column an instrument can read
        4 | reads = ["tnak", "tank"]
          |          ^^^^^^
      done: value left empty
      help: did you mean `tank`?
    error[bad-tolerance] d/dataset.toml:5:13
      tolerance `2.5 kg`: `kg` is a unit of another kind (a mass), but a temperature is wanted here
        5 | tolerance = "2.5 kg"
          |             ^^^^^^^^
      done: value left empty
      help: write it as "0.5 degC", "0.75 % of reading", "1 K standard" or "class 2 type K"
    error[bad-value] d/dataset.toml:6:1
      [instruments.b] reads columns of different kinds: tank, flow
        6 | [instruments.b]
          | ^^^^^^^^^^^^^^^
      help: make one entry for each kind
    error[wrong-type] d/dataset.toml:9:14
      `instruments.b.resolution`: expected a quantity such as "60 degC", found a number
        9 | resolution = 0.1
          |              ^^^
      done: value left empty
    "#);
}

#[test]
fn problems_of_columns_and_files() {
    let text = "title = \"x\"\n[columns]\ntnk = \"Barrel\"\ntank = { heading = \"Barrel\", instrument = \"probe\" }\n\
        [logs]\ndelimiter = \"xx\"\nencoding = \"utf-9\"\ntime_zone = \"Mars\"\ndate = \"28.3.2026\"\ndecimal = \"dot\"\n";
    insta::assert_snapshot!(rendered(text), @r#"
    error[unknown-key] d/dataset.toml:3:7
      `tnk` is no canonical column
        3 | tnk = "Barrel"
          |       ^^^^^^^^
      done: value left empty
      help: did you mean `tank`?
    error[missing-key] d/dataset.toml:4:8
      [columns.tank] lacks the key `header`
        4 | tank = { heading = "Barrel", instrument = "probe" }
          |        ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
    error[unknown-key] d/dataset.toml:4:10
      unknown key `columns.tank.heading`
        4 | tank = { heading = "Barrel", instrument = "probe" }
          |          ^^^^^^^
      done: key ignored
      help: did you mean `header`?
    error[unknown-id] d/dataset.toml:4:43
      no instrument `probe` is defined
        4 | tank = { heading = "Barrel", instrument = "probe" }
          |                                           ^^^^^^^
      done: value left empty
      help: none is defined
    error[bad-value] d/dataset.toml:6:13
      `xx` is no delimiter
        6 | delimiter = "xx"
          |             ^^^^
      done: value left empty
      help: write one of "," ";" "|" "tab"
    error[unknown-word] d/dataset.toml:7:12
      unknown encoding `utf-9`
        7 | encoding = "utf-9"
          |            ^^^^^^^
      done: value left empty
      help: write a name such as "utf-8", "utf-16le", "windows-1252"
    error[unknown-word] d/dataset.toml:8:13
      unknown time zone `Mars`
        8 | time_zone = "Mars"
          |             ^^^^^^
      done: value left empty
      help: write an IANA name such as "Europe/Oslo"
    error[bad-value] d/dataset.toml:9:8
      `28.3.2026` is no date
        9 | date = "28.3.2026"
          |        ^^^^^^^^^^^
      done: value left empty
      help: write it as "2026-03-28"
    error[unknown-word] d/dataset.toml:10:11
      `logs.decimal` does not know the word `dot`
        10 | decimal = "dot"
           |           ^^^^^
      done: value left empty
      help: known here: `point`, `comma`
    "#);
}
