//! Notes beside the numbers of a trial, in words.

use super::{Wording, list};
use calefact_analysis::fact::Note;
use calefact_data::ApparatusKind;

/// All notes of a number, parted by semicolons.
pub(crate) fn notes(w: &Wording<'_>, notes: &[Note]) -> String {
    notes.iter().map(|n| note(w, n)).collect::<Vec<_>>().join("; ")
}

fn note(w: &Wording<'_>, note: &Note) -> String {
    let text = match note {
        Note::TypicalCalorificValue { fuel } => {
            let fuel = w.apparatus(ApparatusKind::Fuel, fuel);
            return format!("calorific value of {fuel}: typical of its class (ISO 17225-1, informative)");
        }
        Note::RateAt { tank_degc } => {
            return format!("at a tank of {}", w.measure(super::Measure::Temperature, *tank_degc));
        }
        Note::Steady(part) => return w.steady_part(*part),
        Note::WholeBurn { factor } => {
            let factor = w.typography.fixed(*factor, 2);
            return format!("net basis; carried to the whole burn by a factor of {factor}");
        }
        Note::FirstOrderDiffers { lower, upper } => {
            let [lower, upper] = [lower, upper].map(|end| w.typography.fixed(*end, 6));
            return format!("propagation to first order gives another interval, {lower} to {upper}");
        }
        Note::NotSettled { digits, draws } => return format!("not settled to {digits} digits after {draws} draws"),
        Note::TooManyDraws { draws, most } => {
            return format!("first order: Monte Carlo at this level takes blocks of {draws} draws, more than {most}");
        }
        Note::UndefinedDraws { undefined, draws } => return format!("not defined in {undefined} of {draws} draws"),
        Note::Unaccounted { not_measured } => return unaccounted(not_measured),
        Note::InletFromTank => "water into the coil taken as the tank's mean",
        Note::ScatterAssumed => "few readings: their scatter is partly assumed (common practice, no source)",
        Note::CounterflowAssumed => "arrangement not stated, taken as counterflow",
        Note::LargeWaterFlow => "water outlet and flow not known, water flow taken as large against the gas",
        Note::NoGasAnalysis => "no gas analysis: all heat the gas lost between the probes is taken to be in the water",
        Note::BurnRateWithHeat => "burn rate taken to go with the heat flow into the tank",
        Note::FuelAsPutOn => "net basis, as put on, kindling included",
        Note::GasAboveAir => "gas after the exchanger above the air, net basis",
        Note::ByCorrelation => "natural convection and radiation by correlation",
        Note::GrossBasisOnly => "on the gross basis only; not part of the sum",
    };
    text.to_owned()
}

fn unaccounted(not_measured: &[&str]) -> String {
    let own = "stove and pipe to the room, unburnt gas";
    if not_measured.is_empty() {
        return own.to_owned();
    }
    let names: Vec<&str> = not_measured.iter().map(|term| name(term)).collect();
    format!("{own}; not measured, so in here: {}", list(&names))
}

/// A term of the energy balance.
fn name(term: &str) -> &str {
    match term {
        "standing_loss" => "standing loss",
        "flue_sensible" => "flue gas",
        "flue_co" => "carbon monoxide",
        "leftover_fuel" => "leftover wood",
        "leftover_char" => "leftover char",
        _ => term,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_note_has_its_words() {
        let w = Wording::plain();
        let table = [
            (
                Note::TypicalCalorificValue { fuel: "spruce".into() },
                "calorific value of spruce: typical of its class (ISO 17225-1, informative)",
            ),
            (Note::RateAt { tank_degc: 40.0 }, "at a tank of 40 degC"),
            (
                Note::TooManyDraws { draws: 10_000_000, most: 100_000 },
                "first order: Monte Carlo at this level takes blocks of 10000000 draws, more than 100000",
            ),
            (Note::WholeBurn { factor: 0.984 }, "net basis; carried to the whole burn by a factor of 0.98"),
            (Note::UndefinedDraws { undefined: 3, draws: 1000 }, "not defined in 3 of 1000 draws"),
            (
                Note::Unaccounted { not_measured: vec!["flue_sensible", "flue_co", "casing"] },
                "stove and pipe to the room, unburnt gas; not measured, so in here: flue gas, carbon monoxide and casing",
            ),
            (Note::Unaccounted { not_measured: Vec::new() }, "stove and pipe to the room, unburnt gas"),
        ];
        for (fact, text) in &table {
            assert_eq!(notes(&w, std::slice::from_ref(fact)), *text);
        }
        assert_eq!(
            notes(&w, &[Note::Steady(None), Note::InletFromTank]),
            "no steady part found; water into the coil taken as the tank's mean"
        );
    }
}
