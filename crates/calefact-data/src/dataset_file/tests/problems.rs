//! Problems of `dataset.toml`, by their facts.

use crate::dataset_file::read_text;
use crate::fact::{DatasetFact, Fact, ToleranceProblem};

fn facts(text: &str) -> Vec<Fact> {
    let (_, findings) = read_text("d/dataset.toml".as_ref(), &format!("title = \"x\"\n{text}"));
    findings.into_iter().map(|f| f.fact).collect()
}

/// Code and line of each finding.
fn codes(text: &str) -> Vec<(&'static str, Option<u64>)> {
    let (_, findings) = read_text("d/dataset.toml".as_ref(), text);
    findings.iter().map(|f| (f.code(), f.line)).collect()
}

#[test]
fn problems_are_found_together() {
    let text = "[vessels.barrel]\nvolum = \"160 L\"\nmass = \"10 kg\"\n\n[fuels.spruce]\nname = \"Spruce\"\nclass = \"conifer\"\n\
        price = 0.2\ncomposition = { c = 0.5, h = 0.06, o = 0.3 }\n";
    let found = codes(text);
    let want = [
        ("missing-key", 1),
        ("missing-key", 1),
        ("missing-key", 1),
        ("unknown-key", 2),
        ("missing-key", 5),
        ("unknown-word", 7),
        ("bad-value", 9),
    ];
    assert_eq!(found, want.map(|(code, line)| (code, Some(line))));
}

#[test]
fn entries_that_do_not_go_together() {
    let table = |name: &str| name.to_owned();
    assert_eq!(
        facts("[vessels.a]\nname = \"A\"\nmass = \"9 kg\"\n"),
        [DatasetFact::MassWithoutMaterial { table: table("vessels.a") }.into()]
    );
    assert_eq!(
        facts("[vessels.a]\nname = \"A\"\nmaterial = \"steel\"\nmass = \"1 kg\"\nheat_capacity = \"1 kJ/K\"\n"),
        [DatasetFact::HeatCapacityTwice { table: table("vessels.a") }.into()]
    );
    assert_eq!(
        facts("[fuels.a]\nname = \"A\"\nprice = 1\n"),
        [DatasetFact::NoCurrency { table: table("fuels.a") }.into()]
    );
    let composition = facts("[fuels.a]\nname = \"A\"\ncomposition = { c = 0.5, h = 0.06, o = \"30 %\" }\n");
    assert!(
        matches!(composition[..], [Fact::Dataset(DatasetFact::Composition { sum, .. })] if (sum - 0.86).abs() < 1e-9)
    );
}

#[test]
fn vessels_that_cannot_be() {
    let vessel = |line: &str| codes(&format!("title = \"x\"\n[vessels.a]\nname = \"A\"\n{line}\n"));
    for line in ["volume = \"1e6 L\"", "heat_capacity = \"1e9 J/K\"", "loss_coefficient = \"1e6 W/K\""] {
        assert_eq!(vessel(line), [("bad-value", Some(4))], "{line}");
    }
    assert_eq!(vessel("material = \"steel\"\nmass = \"1e300 kg\""), [("bad-value", Some(5))]);
    assert_eq!(vessel("heat_capacity = \"0 J/K\"\nvolume = \"5000 L\""), []);
}

#[test]
fn two_instruments_that_read_one_column() {
    let two = |columns: &str| {
        let toml =
            "[instruments.a]\nname = \"A\"\nreads = [\"tank\"]\n[instruments.b]\nname = \"B\"\nreads = [\"ambient\"]\n";
        facts(&format!("{toml}[columns]\n{columns}\n"))
    };
    let twice = |column: &str, first: &str, second: &str| {
        DatasetFact::ColumnReadTwice { column: column.into(), first: first.into(), second: second.into() }.into()
    };
    assert_eq!(two("tank = { header = \"T\", instrument = \"b\" }"), [twice("tank", "b", "a")]);
    assert_eq!(two("tank = { header = \"T\", instrument = \"a\" }"), []);
    assert_eq!(
        facts("[instruments.a]\nname = \"A\"\nreads = [\"tank\"]\n[instruments.b]\nname = \"B\"\nreads = [\"tank\"]\n"),
        [twice("tank", "a", "b")]
    );
}

#[test]
fn instruments() {
    let columns = vec!["tank".to_owned(), "flow".to_owned()];
    assert_eq!(
        facts("[instruments.b]\nname = \"B\"\nreads = [\"tank\", \"flow\"]\n"),
        [DatasetFact::MixedKinds { table: "instruments.b".into(), columns }.into()]
    );
    assert_eq!(
        facts("[instruments.b]\nname = \"B\"\n"),
        [DatasetFact::ReadsNothing { table: "instruments.b".into() }.into()]
    );
    let negative = DatasetFact::Tolerance { written: "-1 K".into(), problem: ToleranceProblem::Negative };
    assert_eq!(facts("[instruments.b]\nname = \"B\"\nreads = [\"tank\"]\ntolerance = \"-1 K\"\n"), [negative.into()]);
    let found =
        codes("title = \"x\"\n[instruments.b]\nname = \"B\"\nreads = [\"tnak\", \"tank\"]\nresolution = \"1 kg\"\n");
    assert_eq!(found, [("unknown-word", Some(4)), ("wrong-kind-of-unit", Some(5))]);
}

#[test]
fn columns() {
    let shared = DatasetFact::SharedHeader { column: "ambient".into(), header: "barrel".into(), first: "tank".into() };
    let text =
        "[columns]\ntank = \"Barrel\"\nambient = { header = \"barrel\", unit = \"degC\" }\ncoil_in = \"Probe\"\n";
    assert_eq!(facts(text), [shared.into()]);
    let unknown = DatasetFact::UnknownInstrument { id: "probe".into(), known: Vec::new() };
    assert_eq!(facts("[columns]\ntank = { header = \"T\", instrument = \"probe\" }\n"), [unknown.into()]);
}

#[test]
fn the_build_of_an_exchanger_has_fixed_keys() {
    let text = "title = \"x\"\n[exchangers.coil]\nname = \"Coil\"\nbuild = { lenght = \"6 m\", pitch = 25, casing_diameter = \"0.3 m\" }\n";
    assert_eq!(codes(text), [("unknown-key", Some(4)), ("wrong-type", Some(4))]);
}

#[test]
fn zero_is_a_statement() {
    let text = "[site]\naltitude = \"0 m\"\n[vessels.pot]\nname = \"Pot\"\nheat_capacity = \"0 J/K\"\n\
        loss_coefficient = \"0 W/K\"\n[fuels.scrap]\nname = \"Scrap\"\nprice = 0\ncurrency = \"EUR\"\n";
    assert_eq!(facts(text), []);
}

#[test]
fn lists_of_headers() {
    let twice =
        |first: &str| DatasetFact::SharedHeader { column: "tank".into(), header: "fass".into(), first: first.into() };
    assert_eq!(facts("[columns]\ntank = [\"Fass\", \"fass\"]\n"), [twice("tank").into()]);
    assert_eq!(codes("title = \"x\"\n[columns]\ntank = []\n"), [("no-header", Some(3))]);
    assert_eq!(codes("title = \"x\"\n[logs]\ntrial_column = []\n"), [("no-header", Some(3))]);
    assert_eq!(codes("title = \"x\"\n[columns]\ntank = [\"a\", 3]\n"), [("wrong-type", Some(3))]);
    let two =
        "[instruments.a]\nname = \"A\"\nreads = [\"tank\"]\n[instruments.b]\nname = \"B\"\nreads = [\"ambient\"]\n";
    let columns = "tank = [{ header = \"T\", instrument = \"a\" }, { header = \"U\", instrument = \"b\" }, \"V\"]";
    let read = DatasetFact::ColumnReadTwice { column: "tank".into(), first: "a".into(), second: "b".into() };
    assert_eq!(facts(&format!("{two}[columns]\n{columns}\n")), [read.into()]);
}

/// Without a column, nothing tells what a tolerance is of.
#[test]
fn an_instrument_that_reads_nothing_is_one_finding() {
    for reads in ["reads = []\n", ""] {
        let toml =
            format!("[instruments.a]\nname = \"A\"\n{reads}tolerance = \"0.5 degC\"\nresolution = \"0.1 degC\"\n");
        assert_eq!(facts(&toml), [DatasetFact::ReadsNothing { table: "instruments.a".into() }.into()]);
    }
}
