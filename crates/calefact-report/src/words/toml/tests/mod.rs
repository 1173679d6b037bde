//! Sentences about TOML files, from files that the reader reads.

use crate::words::{Wording, terminal};
use calefact_data::dataset_file;

fn rendered(text: &str) -> String {
    let (_, findings) = dataset_file::read_text("d/dataset.toml".as_ref(), text);
    let rendered = |f: calefact_data::Finding| terminal(&Wording::plain(), &f.widen());
    findings.into_iter().map(rendered).collect::<Vec<_>>().join("\n")
}

#[test]
fn syntax() {
    insta::assert_snapshot!(rendered("title = \"x\"\n[site\n"));
}

#[test]
fn keys() {
    insta::assert_snapshot!(rendered("[vessels.\"wash tub\"]\nvolum = \"160 L\"\nnote = 1\n[fuel.x]\n"));
}

#[test]
fn types_and_words() {
    insta::assert_snapshot!(rendered(
        "title = 3\ninvented = \"yes\"\n[site]\naltitude = 420\n[fuels.a]\nname = \"A\"\nclass = \"conifer\"\ncomposition = [1]\n\
         [instruments.p]\nname = \"P\"\nreads = [\"tnak\", \"tank\"]\ntolerance = 1\nresolution = 0.1\n\
         [columns]\ntnk = \"Barrel\"\ntank = { heading = \"Barrel\" }\n[logs]\ndecimal = \"dot\"\nskip_lines = 99999999999999999999\n"
    ));
}

#[test]
fn forms_of_texts() {
    insta::assert_snapshot!(rendered(
        "title = \"x\"\n[logs]\ndelimiter = \"xx\"\nencoding = \"utf-9\"\ntime_zone = \"Mars\"\ndate = \"28.3.2026\"\n"
    ));
}

#[test]
fn ranges_and_units() {
    insta::assert_snapshot!(rendered(
        "title = \"x\"\n[site]\naltitude = \"12 km\"\n[fuels.a]\nname = \"A\"\nprice = -0.2\ncurrency = \"EUR\"\n\
         net_calorific_value = \"19 kJ/kg\"\nchar_calorific_value = \"30 MJ/kg +- -1 MJ/kg\"\n\
         [vessels.b]\nname = \"B\"\nvolume = \"0 L\"\nloss_coefficient = \"42 gal\"\nheat_capacity = \"12\"\n[logs]\nskip_lines = -2\n"
    ));
}
