//! Sentences about the register, from registers that the reader reads.

use crate::words::{Wording, message, terminal};
use calefact_analysis::finding::Finding;
use calefact_data::{dataset_file, register_file};

const DATASET: &str = "title = \"Bench\"\n[stoves.box]\nname = \"Box\"\n[vessels.barrel]\nname = \"Barrel\"\n";

fn findings(toml: &str, text: &str) -> Vec<Finding> {
    let (file, _) = dataset_file::read_text("dataset.toml".as_ref(), toml);
    let file = file.expect("a dataset file");
    let (_, findings) =
        register_file::read("trials.csv".as_ref(), text.as_bytes(), &file.register_style, &file.apparatus);
    findings.into_iter().map(calefact_data::Finding::widen).collect()
}

fn rendered(text: &str) -> String {
    let words: Vec<String> = findings(DATASET, text).iter().map(|f| terminal(&Wording::plain(), f)).collect();
    words.join("\n")
}

/// Each register with one row of further cells.
fn burns(cases: &[(&str, &str)]) -> String {
    let register = |(header, cells): &(&str, &str)| {
        rendered(&format!("trial,kind,log,vessel,water [L]{header}\nb1,burn,b1.csv,barrel,160{cells}\n"))
    };
    cases.iter().map(register).collect::<Vec<_>>().join("\n")
}

#[test]
fn headers() {
    let texts = [
        "",
        "trial,kind,log,vessel,water [L]\n",
        "trial,kind,logs,vessel\nb1,burn,b1.csv,barrel\n",
        "trial,kind,log,vessel,water [gal],water [L],fuel_mas\nb1,burn,a.csv,barrel,42,1,2\n",
        "trial,kind,log,vessel,water [L],fuel_mass [kg]\nb1,burn,a.csv,barrel,160,3,\nb2,burn,b.csv,barrel,160,4,\n",
    ];
    insta::assert_snapshot!(texts.map(rendered).join("\n"));
}

#[test]
fn moisture() {
    insta::assert_snapshot!(burns(&[
        (",fuel_moisture,moisture_basis", ",18,dry"),
        (",fuel_moisture [%]", ",18"),
        (",fuel_moisture [%],moisture_basis", ",18,oven"),
        (",fuel_moisture [%],moisture_basis", ",100,wet"),
        (",fuel_moisture [%],moisture_basis", ",420,dry"),
    ]));
}

#[test]
fn levels_and_exclusions() {
    let head = "trial,kind,log,vessel,water [L],split,exclude\nb1,burn,a.csv,barrel,160,Sp\u{e4}ne,no\n";
    let rows = "b2,burn,b.csv,barrel,160,sp\u{e4}ne,\nb3,burn,c.csv,barrel,160,Spa\u{308}ne,\n";
    insta::assert_snapshot!(rendered(&format!("{head}{rows}")));
}

#[test]
fn limits() {
    let comma = "trial;kind;log;vessel;water [cm3];fuel_mass\nb1;burn;a.csv;barrel;120,000;5,5\n";
    let small = burns(&[
        (",fuel_moisture [%],moisture_basis", ",0.18,wet"),
        (",fuel_mass [t]", ",5600"),
        (",fuel_mass,ambient", ",350,55"),
        (",heater_power [kW]", ",1e300"),
        (",altitude", ",6000"),
    ]);
    let vessel = |volume: &str| {
        let toml = DATASET.replace("[vessels.barrel]", &format!("[vessels.barrel]\nvolume = \"{volume}\""));
        let text = "trial,kind,log,vessel,water [L]\nb1,burn,a.csv,barrel,160\n";
        findings(&toml, text).iter().map(|f| terminal(&Wording::plain(), f)).collect::<String>()
    };
    insta::assert_snapshot!([small, rendered(comma), vessel("120 L"), vessel("20000 L")].join("\n"));
}

#[test]
fn cells() {
    insta::assert_snapshot!(burns(&[
        (",fuel_mass", ",three"),
        (",fuel_mass", ",3 L"),
        (",fuel_mass", ",-3"),
        (",ambient,altitude [ft]", ",283,40000"),
        (",fuel_mass [kg],kindling_mass [kg],leftover_fuel [kg]", ",5.6,0.3,6"),
        (",fuel_mass", ",1,2"),
        (",fuel_mass,note", ",1,2"),
        (",kindling_mass [g]", ",\"5,600\""),
    ]));
}

#[test]
fn rows() {
    let head = "trial,kind,log,stove,vessel,water\n";
    insta::assert_snapshot!(rendered(&format!(
        "{head}b1,burns,a.csv,bxo,barrel,-1 L\nb1,burn,,pellet tray,barrel,42\nb2,burn,a.csv,,barrel,1e9 kg\nb3,burn,a.csv,,barrel,--\n"
    )));
}

/// Either line that the hint on a number with two readings shows settles it.
#[test]
fn a_decimal_sign_can_be_stated_as_the_hint_says() {
    let text = "trial;kind;log;vessel;water [L];kindling_mass [g]\nb1;burn;a.csv;barrel;160;5,600\n";
    let found = findings(DATASET, text);
    assert_eq!(found[0].code(), "ambiguous-number");
    let hint = message(&Wording::plain(), &found[0]).hint.expect("a hint");
    let lines: Vec<&str> = hint.split('`').skip(1).step_by(2).collect();
    assert_eq!(lines, ["decimal = \"comma\"", "decimal = \"point\""]);
    for line in lines {
        assert_eq!(findings(&format!("{DATASET}[register]\n{line}\n"), text), []);
    }
}

/// The table that a hint shows is read without a finding where it is pasted, and then the id is known.
#[test]
fn hints_can_be_pasted() {
    let text = "trial,kind,log,stove,vessel,water [L]\nb1,burn,a.csv,pellet tray,barrel,42\n";
    let hint = message(&Wording::plain(), &findings(DATASET, text)[0]).hint.expect("a hint");
    let head = hint.split('`').nth(1).expect("TOML in the hint");
    assert_eq!(findings(&format!("{DATASET}{head}\nname = \"Pellet tray\"\n"), text), []);
}
