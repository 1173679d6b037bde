//! Problems of `dataset.toml`, by their rendered text.

use crate::dataset_file::read_text;

fn rendered(text: &str) -> String {
    let (_, findings) = read_text("d/dataset.toml".as_ref(), text);
    findings.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
}

#[test]
fn problems_are_shown_together() {
    let text = "[vessels.barrel]\nvolum = \"160 L\"\nmass = \"10 kg\"\n\n[fuels.spruce]\nname = \"Spruce\"\nclass = \"conifer\"\n\
        price = 0.2\ncomposition = { c = 0.5, h = 0.06, o = 0.3 }\n";
    insta::assert_snapshot!(rendered(text), @r#"
    error missing-key: d/dataset.toml line 1 column 1
      the file lacks the key `title`
        1 | [vessels.barrel]
          | ^
    error missing-key: d/dataset.toml line 1 column 1
      [vessels.barrel] needs both `mass` and `material` for a heat capacity
        1 | [vessels.barrel]
          | ^^^^^^^^^^^^^^^^
      hint: give both, or `heat_capacity`
    error missing-key: d/dataset.toml line 1 column 1
      [vessels.barrel] lacks the key `name`
        1 | [vessels.barrel]
          | ^^^^^^^^^^^^^^^^
    error unknown-key: d/dataset.toml line 2 column 1
      unknown key `vessels.barrel.volum`
        2 | volum = "160 L"
          | ^^^^^
      done: key ignored
      hint: did you mean `volume`?
    error missing-key: d/dataset.toml line 5 column 1
      [fuels.spruce] gives a price but no `currency`
        5 | [fuels.spruce]
          | ^^^^^^^^^^^^^^
      hint: add `currency`
    error unknown-word: d/dataset.toml line 7 column 9
      `fuels.spruce.class` does not know the word `conifer`
        7 | class = "conifer"
          |         ^^^^^^^^^
      done: value left empty
      hint: did you mean `coniferous`?
    error bad-value: d/dataset.toml line 9 column 15
      the parts of `fuels.spruce.composition` add up to 0.860 instead of 1
        9 | composition = { c = 0.5, h = 0.06, o = 0.3 }
          |               ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
      hint: give mass fractions of dry matter (or "50 %"), ash included
    "#);
}

#[test]
fn problems_of_instruments() {
    let text = "title = \"x\"\n[instruments.a]\nname = \"A\"\nreads = [\"tnak\", \"tank\"]\ntolerance = \"2.5 kg\"\n\
        [instruments.b]\nname = \"B\"\nreads = [\"tank\", \"flow\"]\nresolution = 0.1\n";
    insta::assert_snapshot!(rendered(text), @r#"
    error unknown-word: d/dataset.toml line 4 column 10
      `tnak` is no column an instrument can read
        4 | reads = ["tnak", "tank"]
          |          ^^^^^^
      done: value left empty
      hint: did you mean `tank`?
    error bad-tolerance: d/dataset.toml line 5 column 13
      tolerance `2.5 kg`: `kg` is a unit of another kind (a mass), but a temperature is wanted here
        5 | tolerance = "2.5 kg"
          |             ^^^^^^^^
      done: value left empty
      hint: write it as "0.5 degC", "0.75 % of reading", "1 K standard" or "class 2 type K"
    error bad-value: d/dataset.toml line 6 column 1
      [instruments.b] reads columns of different kinds: tank, flow
        6 | [instruments.b]
          | ^^^^^^^^^^^^^^^
      hint: make one entry for each kind
    error wrong-type: d/dataset.toml line 9 column 14
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
    error unknown-key: d/dataset.toml line 3 column 7
      `tnk` is no canonical column
        3 | tnk = "Barrel"
          |       ^^^^^^^^
      done: value left empty
      hint: did you mean `tank`?
    error missing-key: d/dataset.toml line 4 column 8
      [columns.tank] lacks the key `header`
        4 | tank = { heading = "Barrel", instrument = "probe" }
          |        ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
    error unknown-key: d/dataset.toml line 4 column 10
      unknown key `columns.tank.heading`
        4 | tank = { heading = "Barrel", instrument = "probe" }
          |          ^^^^^^^
      done: key ignored
      hint: did you mean `header`?
    error unknown-id: d/dataset.toml line 4 column 43
      no instrument `probe` is defined
        4 | tank = { heading = "Barrel", instrument = "probe" }
          |                                           ^^^^^^^
      done: value left empty
      hint: none is defined
    error bad-value: d/dataset.toml line 6 column 13
      `xx` is no delimiter
        6 | delimiter = "xx"
          |             ^^^^
      done: value left empty
      hint: write one of "," ";" "|" "tab"
    error unknown-word: d/dataset.toml line 7 column 12
      unknown encoding `utf-9`
        7 | encoding = "utf-9"
          |            ^^^^^^^
      done: value left empty
      hint: write a name such as "utf-8", "utf-16le", "windows-1252"
    error unknown-word: d/dataset.toml line 8 column 13
      unknown time zone `Mars`
        8 | time_zone = "Mars"
          |             ^^^^^^
      done: value left empty
      hint: write an IANA name such as "Europe/Oslo"
    error bad-value: d/dataset.toml line 9 column 8
      `28.3.2026` is no date
        9 | date = "28.3.2026"
          |        ^^^^^^^^^^^
      done: value left empty
      hint: write it as "2026-03-28"
    error unknown-word: d/dataset.toml line 10 column 11
      `logs.decimal` does not know the word `dot`
        10 | decimal = "dot"
           |           ^^^^^
      done: value left empty
      hint: known here: `point`, `comma`
    "#);
}

#[test]
fn values_that_cannot_be() {
    let text = "title = \"x\"\n[site]\naltitude = \"12 km\"\n[fuels.spruce]\nname = \"Spruce\"\nprice = -0.2\ncurrency = \"EUR\"\n\
        net_calorific_value = \"19 kJ/kg +- 1 kJ/kg\"\n[vessels.a]\nname = \"A\"\nmass = \"-11 kg\"\nmaterial = \"steel\"\n\
        volume = \"0 L\"\nloss_coefficient = \"-3 W/K\"\n[vessels.b]\nname = \"B\"\nheat_capacity = \"-2 kJ/K\"\n\
        loss_coefficient = \"0 W/K\"\n[exchangers.coil]\nname = \"Coil\"\nbuild = { length = \"-6 m\", passes = -2 }\n";
    insta::assert_snapshot!(rendered(text), @r#"
    error bad-value: d/dataset.toml line 3 column 12
      `site.altitude` lies outside -430 to 9000 m
        3 | altitude = "12 km"
          |            ^^^^^^^
      done: value left empty
      hint: correct the number or its unit
    error bad-value: d/dataset.toml line 6 column 9
      `fuels.spruce.price` cannot be less than zero
        6 | price = -0.2
          |         ^^^^
      done: value left empty
      hint: correct the number or its unit
    error bad-value: d/dataset.toml line 8 column 23
      `fuels.spruce.net_calorific_value` lies outside 1 to 60 MJ/kg
        8 | net_calorific_value = "19 kJ/kg +- 1 kJ/kg"
          |                       ^^^^^^^^^^^^^^^^^^^^^
      done: value left empty
      hint: correct the number or its unit
    error bad-value: d/dataset.toml line 11 column 8
      `vessels.a.mass` must be more than zero
        11 | mass = "-11 kg"
           |        ^^^^^^^^
      done: value left empty
      hint: correct the number or its unit
    error bad-value: d/dataset.toml line 13 column 10
      `vessels.a.volume` must be more than zero
        13 | volume = "0 L"
           |          ^^^^^
      done: value left empty
      hint: correct the number or its unit
    error bad-value: d/dataset.toml line 14 column 20
      `vessels.a.loss_coefficient` cannot be less than zero
        14 | loss_coefficient = "-3 W/K"
           |                    ^^^^^^^^
      done: value left empty
      hint: correct the number or its unit
    error bad-value: d/dataset.toml line 17 column 17
      `vessels.b.heat_capacity` cannot be less than zero
        17 | heat_capacity = "-2 kJ/K"
           |                 ^^^^^^^^^
      done: value left empty
      hint: correct the number or its unit
    error bad-value: d/dataset.toml line 21 column 20
      `exchangers.coil.build.length` cannot be less than zero
        21 | build = { length = "-6 m", passes = -2 }
           |                    ^^^^^^
      done: value left empty
      hint: correct the number or its unit
    error bad-value: d/dataset.toml line 21 column 37
      `exchangers.coil.build.passes` cannot be less than zero
        21 | build = { length = "-6 m", passes = -2 }
           |                                     ^^
      done: value left empty
      hint: correct the number or its unit
    "#);
}

#[test]
fn zeros_that_say_something() {
    let text = "title = \"x\"\n[site]\naltitude = \"0 m\"\n[vessels.pot]\nname = \"Pot\"\nheat_capacity = \"0 J/K\"\n\
        loss_coefficient = \"0 W/K\"\n[fuels.scrap]\nname = \"Scrap\"\nprice = 0\ncurrency = \"EUR\"\n";
    assert_eq!(rendered(text), "");
}

#[test]
fn one_header_for_two_columns() {
    let text = "title = \"x\"\n[columns]\ntank = \"Barrel\"\nambient = { header = \"barrel\", unit = \"degC\" }\ncoil_in = \"Probe\"\n";
    insta::assert_snapshot!(rendered(text), @r#"
    error duplicate-column: d/dataset.toml line 4 column 11
      `ambient` stands for the header `barrel`, but so does `tank`
        4 | ambient = { header = "barrel", unit = "degC" }
          |           ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
      done: value left empty
      hint: give each column the header it has in the file
    "#);
}
