//! Registers as people write them: parts and fractions, dates of all countries, names in place of ids.

use super::{burn, read_with};
use crate::RegisterRow;
use crate::fact::RegisterFact;

const HEADER: &str = "Trial,KIND,Log,Vessel,Water [L]";

fn rows(header: &str, rows: &[&str]) -> Vec<RegisterRow> {
    let rows: Vec<String> =
        rows.iter().zip(1..).map(|(cells, n)| format!("b{n},burn,b{n}.csv,barrel,160,{cells}")).collect();
    let (register, findings) = read_with("", &format!("{HEADER},{header}\n{}\n", rows.join("\n")));
    assert_eq!(findings, []);
    register.expect("a register").rows
}

/// NIST SP 811: 1 lb is 0.453 592 37 kg.
#[test]
fn pounds_and_ounces_and_fractions() {
    let masses = rows("fuel_mass", &["9 lb 6 oz", "9 3/8 lb", "9.375 lb"]);
    for row in masses.iter().chain(&rows("fuel_mass [lb]", &["9 3/8", "9\u{215c}", "9 lb 6 oz"])) {
        assert!(row.fuel_mass.is_some_and(|kg| (kg / (9.375 * 0.453_592_37) - 1.0).abs() < 1e-14), "{row:?}");
    }
    let error = |cell: &str| burn(",fuel_mass", &format!(",{cell}")).1;
    assert!(matches!(error("6 oz 9 lb")[..], [crate::Fact::Register(RegisterFact::Unit { .. })]));
}

#[test]
fn dates_are_kept_in_one_form() {
    let dates = |cells: &[&str]| -> Vec<String> { rows("date", cells).into_iter().filter_map(|r| r.date).collect() };
    let march = vec!["2026-03-24"; 4];
    assert_eq!(dates(&["24.03.2026", "24 March 2026", "3/24/2026", "2026-03-24"]), march);
    assert_eq!(dates(&["3/24/2026", "3/4/2026"]), ["2026-03-24", "2026-03-04"], "the other row tells the order");
    assert_eq!(dates(&["24/3/26", "3/4/26"]), ["2026-03-24", "2026-04-03"]);
    assert_eq!(dates(&["first Sunday"]), ["first Sunday"]);
    let (kept, facts) = burn(",date", ",3/4/2026");
    let dates = ["2026-04-03".into(), "2026-03-04".into()];
    assert_eq!((kept, facts), (1, vec![RegisterFact::DateTwoReadings { cell: "3/4/2026".into(), dates }.into()]));
}

#[test]
fn names_stand_for_ids() {
    let rows = rows("stove,fuel", &["Rocket,SPRUCE", "box ,Spruce", "BOX,softwood", "Box,Hardwood"]);
    let ids: Vec<_> =
        rows.iter().map(|r| (r.stove.as_deref().unwrap_or(""), r.fuel.as_deref().unwrap_or(""))).collect();
    assert_eq!(ids, [("rocket", "spruce"), ("box", "spruce"), ("box", "softwood"), ("box", "hardwood")]);
}
