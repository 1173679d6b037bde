//! One careful burn as a builder notes it, and a burn of two readings: what was not recorded becomes a range.

use super::{calefact, table};
use calefact_tests::Workspace;
use std::collections::BTreeMap;
use std::path::Path;

const PIPELINE: &str = "name = \"mine\"\ndatasets = [\"mine\"]\n";
const APPARATUS: &str = "title = \"My barrel\"\n[stoves.box]\nname = \"Box stove\"\n[exchangers.coil]\nname = \"Coil\"\n\
    [fuels.pine]\nname = \"Pine\"\n[vessels.barrel]\nname = \"Barrel\"\n";
const REGISTER: &str = "trial,kind,log,stove,fuel,exchanger,vessel,water [US gal],fuel_mass [lb],fuel_moisture [%],moisture_basis\n\
    b1,burn,b1.csv,box,pine,coil,barrel,28,9.25,20,wet\n";
const LOG: &str = "elapsed [min],tank [degF],flue_before [degF],flue_after [degF],coil_out [degF]\n\
    0,45,,,\n15,64,1160,315,\n27,76,,,118\n40,99.7,,,\n";

type Row = BTreeMap<String, String>;

/// The dataset in a fresh folder, run; the words of the terminal and the folder of the tables.
fn ran(apparatus: &str, log: &str) -> (Workspace, String) {
    let w = Workspace::new();
    w.write("mine.toml", PIPELINE);
    w.write("mine/dataset.toml", apparatus);
    w.write("mine/trials.csv", REGISTER);
    w.write("mine/b1.csv", log);
    let run = calefact(w.path(), &["run", "mine.toml", "--out", "out"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    (w, run.stderr)
}

fn number(row: &Row, column: &str) -> f64 {
    row[column].parse().unwrap_or_else(|_| panic!("{column} of {row:?}"))
}

fn estimate(folder: &Path, quantity: &str) -> Option<Row> {
    table(&folder.join("out/tables/estimates.csv")).into_iter().find(|row| row["quantity"] == quantity)
}

/// Whether the interval of a quantity holds a value, and its half width over its value.
fn holds(folder: &Path, quantity: &str, value: f64) -> f64 {
    let row = estimate(folder, quantity).unwrap_or_else(|| panic!("no {quantity}"));
    let (lower, upper) = (number(&row, "lower"), number(&row, "upper"));
    assert!(lower < value && value < upper, "{quantity}: {lower} to {upper} without {value}");
    0.5 * (upper - lower) / number(&row, "value")
}

/// Common practice, no source: 28 US gallons from 45 to 99.7 degF in 40 minutes is about 13.5 MJ and 5.6 kW; on 9.25 lb of
/// firewood at 20 % moisture (wet basis) at least 22 % of the wood; gas from 1160 to 315 degF with an outlet of 118 degF at a
/// tank of 76 degF is an effectiveness of about 0.78 and a flow of about 3.4 L/min.
#[test]
fn a_careful_burn_has_heat_and_efficiency() {
    let (w, words) = ran(APPARATUS, LOG);
    assert!(holds(w.path(), "heat_stored", 13.5) < 0.10, "heat to better than 10 %");
    holds(w.path(), "heat_input", 5600.0);
    holds(w.path(), "thermal_efficiency_uncredited", 0.22);
    holds(w.path(), "exchanger_effectiveness", 0.78);
    // 3.4 L/min, kg/s.
    holds(w.path(), "coil_flow", 3.4 / 60.0);
    for line in ["Assumed, not measured: vessel, air temperature, kindling, leftover wood", "Box stove at least 22 %"] {
        assert!(words.contains(line), "{words}");
    }
    assert!(words.contains("weigh the leftover wood (to about "), "{words}");
    let efficiency = estimate(w.path(), "thermal_efficiency").expect("credited");
    let assumed: Vec<&str> = efficiency["assumed"].split(' ').collect();
    assert_eq!(assumed[..3], ["vessel_heat_capacity", "loss_coefficient", "air_temperature"]);
    assert!(assumed.contains(&"leftover_char") && !assumed.contains(&"fuel_moisture"), "{assumed:?}");
    let groups = table(&w.join("out/tables/groups.csv"));
    assert!(groups.iter().any(|g| g["assumed"].contains("leftover_fuel")), "{groups:?}");
}

/// Start and end are a trial: heat stored, mean heat flow and efficiency.
#[test]
fn two_readings_are_a_trial() {
    let (w, _) = ran(APPARATUS, "elapsed [min],tank [degF]\n0,45\n40,99.7\n");
    holds(w.path(), "heat_stored", 13.5);
    holds(w.path(), "heat_input", 5600.0);
    assert!(holds(w.path(), "thermal_efficiency", 0.25) < 0.25);
}

/// Where nothing is assumed the vessel is not known, and neither is anything that rests on it.
#[test]
fn nothing_is_assumed_where_the_dataset_says_so() {
    let (w, words) = ran(&format!("assume = \"nothing\"\n{APPARATUS}"), LOG);
    for quantity in ["heat_stored", "thermal_efficiency"] {
        assert!(estimate(w.path(), quantity).is_none(), "{quantity}");
    }
    assert!(words.contains("warning tolerance-missing") && !words.contains("Assumed"), "{words}");
}

/// A range of the dataset's own takes the place of the table's, and a stated value that of any range.
#[test]
fn own_ranges_and_stated_values_win() {
    let width = |apparatus: &str| {
        let (w, _) = ran(apparatus, LOG);
        let row = estimate(w.path(), "thermal_efficiency").expect("given");
        (number(&row, "std_uncertainty"), row["assumed"].clone())
    };
    let (wide, _) = width(APPARATUS);
    let own = "[assume]\nleftover_fuel = [0, \"2 %\"]\nleftover_char = [0, 0.01]\nvessel_heat_capacity = [\"3 kJ/K\", \"6 kJ/K\"]\n";
    let (narrow, _) = width(&format!("{APPARATUS}{own}"));
    assert!(narrow < 0.8 * wide, "{narrow} {wide}");
    let stated = "heat_capacity = \"5 kJ/K\"\nloss_coefficient = \"6 W/K\"\n";
    let (_, assumed) = width(&format!("{APPARATUS}{stated}"));
    assert!(!assumed.contains("vessel_heat_capacity") && !assumed.contains("loss_coefficient"), "{assumed}");
}

/// A slip in a range is an error with a place, and an unknown key is refused.
#[test]
fn ranges_are_checked() {
    let w = Workspace::new();
    w.write("mine.toml", PIPELINE);
    w.write("mine/trials.csv", REGISTER);
    w.write("mine/b1.csv", LOG);
    w.write(
        "mine/dataset.toml",
        format!("{APPARATUS}[assume]\nloss_coefficient = [\"6 W/K\"]\nair = [\"1 degC\", \"2 degC\"]\n"),
    );
    let check = calefact(w.path(), &["check", "mine.toml"]);
    assert_eq!(check.code, 1, "{}", check.stderr);
    assert!(check.stderr.contains("a range needs its lower and its upper end"), "{}", check.stderr);
    assert!(check.stderr.contains("unknown key `assume.air`"), "{}", check.stderr);
}
