//! Sentences about the apparatus, from files that the reader reads.

use crate::words::{Wording, message, terminal};
use calefact_analysis::finding::Finding;
use calefact_data::dataset_file;

fn findings(text: &str) -> Vec<Finding> {
    let (_, findings) = dataset_file::read_text("d/dataset.toml".as_ref(), text);
    findings.into_iter().map(calefact_data::Finding::widen).collect()
}

fn rendered(text: &str) -> String {
    findings(text).iter().map(|f| terminal(&Wording::plain(), f)).collect::<Vec<_>>().join("\n")
}

#[test]
fn entries_that_do_not_go_together() {
    insta::assert_snapshot!(rendered(
        "title = \"x\"\n[vessels.\"wash tub\"]\nname = \"A\"\nmass = \"10 kg\"\n[vessels.b]\nname = \"B\"\nmass = \"10 kg\"\nmaterial = \"steel\"\n\
         heat_capacity = \"5 kJ/K\"\n[fuels.spruce]\nname = \"Spruce\"\nprice = 0.2\ncomposition = { c = 0.5, h = 0.06, o = 0.3 }\n"
    ));
}

#[test]
fn instruments() {
    insta::assert_snapshot!(rendered(
        "title = \"x\"\n[instruments.a]\nname = \"A\"\nreads = [\"tank\"]\ntolerance = [\"2.5 kg\", \"class 2 type J\", \"-1 K\", \"0.5\"]\n\
         resolution = \"1 kg\"\n[instruments.b]\nname = \"B\"\nreads = [\"coil_in\", \"flow\"]\n[instruments.c]\nname = \"C\"\n\
         [instruments.d]\nname = \"D\"\nreads = [\"fuel_mass\"]\ntolerance = \"class 2 type K\"\n\
         [columns]\ntank = { header = \"Barrel\", instrument = \"aa\" }\nambient = \"barrel\"\n"
    ));
    insta::assert_snapshot!(rendered(
        "title = \"x\"\n[instruments.a]\nname = \"A\"\nreads = [\"tank\"]\n[instruments.b]\nname = \"B\"\nreads = [\"tank\"]\n"
    ), @r"
    error duplicate-column: d/dataset.toml line 5 column 1
      `tank` is read by two instruments, `a` and `b`
        5 | [instruments.b]
          | ^^^^^^^^^^^^^^^
      hint: leave the column to one of them
    ");
    let none = findings("title = \"x\"\n[columns]\ntank = { header = \"Barrel\", instrument = \"left probe\" }\n");
    let hint = message(&Wording::plain(), &none[0]).hint;
    assert_eq!(hint.as_deref(), Some("describe it under `[instruments.\"left probe\"]`"));
}

/// The TOML that a hint shows is read without a finding where it is pasted.
#[test]
fn hints_can_be_pasted() {
    let cases = [
        ("title = \"x\"\n[fuels.a]\nname = \"A\"\nprice = 1\n", ""),
        ("title = \"x\"\n[instruments.a]\nname = \"A\"\n", ""),
        (
            "title = \"x\"\n[columns]\ntank = { header = \"T\", instrument = \"left probe\" }\n",
            "\nname = \"Left\"\nreads = [\"tank\"]",
        ),
    ];
    for (text, more) in cases {
        let found = findings(text);
        let hint = message(&Wording::plain(), &found[0]).hint.expect("a hint");
        let pasted = hint.split('`').nth(1).expect("TOML in the hint");
        assert_eq!(findings(&format!("{text}{pasted}{more}\n")), [], "{pasted}");
    }
}
