//! A burn has the same results in whatever units its log and its row of the register are written.

use super::{run, table};
use calefact_tests::{TinyDataset, Workspace};
use proptest::prelude::*;
use proptest::test_runner::{RngSeed, TestRunner};
use std::collections::BTreeMap;

/// A burn as it was, in the units of the first style.
#[derive(Debug, Clone)]
struct Burn {
    water_l: f64,
    fuel_kg: f64,
    char_kg: f64,
    moisture_percent: f64,
    ambient_degc: f64,
    tank_degc: Vec<f64>,
}

fn burn() -> impl Strategy<Value = Burn> {
    let rises = prop::collection::vec(40..120_u32, 5..9);
    (600..1100_u32, 200..900_u32, 0..30_u32, 80..300_u32, -100..250_i32, rises).prop_map(
        |(water, fuel, char, moisture, ambient, rises)| Burn {
            water_l: f64::from(water) / 10.0,
            fuel_kg: f64::from(fuel) / 100.0,
            char_kg: f64::from(char) / 100.0,
            moisture_percent: f64::from(moisture) / 10.0,
            ambient_degc: f64::from(ambient) / 10.0,
            tank_degc: rises
                .iter()
                .scan(8.0, |tank, rise| Some(std::mem::replace(tank, *tank + f64::from(*rise) / 10.0)))
                .collect(),
        },
    )
}

/// Units of a log and of a row: symbol, and its factor from the first unit (NIST SP 811, appendix B.8).
struct Style {
    volume: (&'static str, f64),
    mass: (&'static str, f64),
    share: (&'static str, f64),
    time: (&'static str, f64),
    is_fahrenheit: bool,
}

const STYLES: [Style; 4] = [
    Style { volume: ("L", 1.0), mass: ("kg", 1.0), share: ("%", 1.0), time: ("min", 1.0), is_fahrenheit: false },
    Style {
        volume: ("US gal", 1.0 / 3.785_411_784),
        mass: ("lb", 1.0 / 0.453_592_37),
        share: ("%", 1.0),
        time: ("s", 60.0),
        is_fahrenheit: true,
    },
    Style {
        volume: ("m3", 1e-3),
        mass: ("g", 1000.0),
        share: ("", 0.01),
        time: ("h", 1.0 / 60.0),
        is_fahrenheit: false,
    },
    Style {
        volume: ("mL", 1000.0),
        mass: ("oz", 16.0 / 0.453_592_37),
        share: ("", 0.01),
        time: ("min", 1.0),
        is_fahrenheit: true,
    },
];

impl Style {
    fn temperature(&self, degc: f64) -> (f64, &'static str) {
        if self.is_fahrenheit { (degc.mul_add(1.8, 32.0), "degF") } else { (degc, "degC") }
    }

    fn row(&self, id: &str, burn: &Burn) -> String {
        let cell = |value: f64, (unit, factor): (&str, f64)| format!("{:.12} {unit}", value * factor);
        let (ambient, degrees) = self.temperature(burn.ambient_degc);
        format!(
            "{id},burn,logs/{id}.csv,box,spruce,drum,wet,{},{},{},{},{}\n",
            cell(burn.water_l, self.volume),
            cell(burn.fuel_kg, self.mass),
            cell(burn.char_kg, self.mass),
            cell(burn.moisture_percent, self.share),
            cell(ambient, (degrees, 1.0)),
        )
    }

    fn log(&self, burn: &Burn) -> String {
        let (unit, factor) = self.time;
        let cells = |(step, tank): (u32, &f64)| {
            format!("{:.12},{:.12}\n", 7.0 * f64::from(step) * factor, self.temperature(*tank).0)
        };
        let rows: Vec<String> = (0..).zip(&burn.tank_degc).map(cells).collect();
        format!("elapsed [{unit}],tank [{}]\n{}", self.temperature(0.0).1, rows.concat())
    }
}

/// Value and uncertainty of each quantity, by burn and quantity, one a style.
fn results(burns: &[Burn]) -> BTreeMap<(String, String), Vec<[f64; 2]>> {
    let mut data = TinyDataset::new();
    data.register =
        "trial,kind,log,stove,fuel,vessel,moisture_basis,water,fuel_mass,leftover_char,fuel_moisture,ambient\n".into();
    data.logs.clear();
    for (n, burn) in burns.iter().enumerate() {
        for (way, style) in STYLES.iter().enumerate() {
            let id = format!("{n}-{way}");
            data.register += &style.row(&id, burn);
            data.logs.push((format!("logs/{id}.csv"), style.log(burn)));
        }
    }
    let w = Workspace::new();
    data.write(&w);
    let outcome = run(&w);
    assert_eq!(outcome.code, 0, "{}\n{}", outcome.stderr, data.register);
    let mut results = BTreeMap::new();
    for row in table(&w.join("out/tables/estimates.csv")) {
        let burn = row["trial"].split('-').next().unwrap_or_default().to_owned();
        let numbers = ["value", "std_uncertainty"].map(|column| row[column].parse().unwrap_or(f64::NAN));
        results.entry((burn, row["quantity"].clone())).or_insert_with(Vec::new).push(numbers);
    }
    results
}

#[test]
fn results_do_not_depend_on_the_units_they_are_written_in() {
    let config = ProptestConfig {
        cases: 8,
        failure_persistence: None,
        max_shrink_iters: 8,
        rng_seed: RngSeed::Fixed(5),
        ..ProptestConfig::default()
    };
    let burns = prop::collection::vec(burn(), 4);
    let held = TestRunner::new(config).run(&burns, |burns| {
        let results = results(&burns);
        prop_assert!(results.len() > 4 * 5, "{:?}", results.keys());
        for (key, ways) in &results {
            prop_assert_eq!(ways.len(), STYLES.len(), "{:?}", key);
            // Twelve decimals hold every value to a part in 10^9 and better; the tables have as many digits as are honest.
            let close = |a: f64, b: f64| a.is_nan() && b.is_nan() || (a - b).abs() <= 1e-7 * a.abs().max(1e-9);
            let is_same = ways.iter().all(|way| close(ways[0][0], way[0]) && close(ways[0][1], way[1]));
            prop_assert!(is_same, "{:?}: {:?}", key, ways);
            let is_known = ways[0].iter().all(|number| number.is_finite());
            prop_assert!(is_known || key.1 != "thermal_efficiency" && key.1 != "heat_stored", "{:?}: {:?}", key, ways);
        }
        Ok(())
    });
    held.unwrap_or_else(|broken| panic!("{broken}"));
}
