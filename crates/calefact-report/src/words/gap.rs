//! Why a quantity could not be given, in words.

use super::{Wording, list};
use calefact_analysis::fact::Lack;
use calefact_analysis::fact::Slot;

/// All that a quantity lacks.
pub(crate) fn lacks(w: &Wording<'_>, lacks: &[Lack]) -> String {
    let (columns, rest): (Vec<&Lack>, Vec<&Lack>) = lacks.iter().partition(|l| matches!(l, Lack::Column(_)));
    let names: Vec<String> = columns.iter().filter_map(|l| column(w, l)).collect();
    let logged = match names.len() {
        0 => None,
        1 => Some(format!("{} was not logged in the steady part", names[0])),
        _ => Some(format!("{} were not logged in the steady part", list(&names))),
    };
    let rest = rest.into_iter().map(|l| lack(w, l));
    logged.into_iter().chain(rest).collect::<Vec<_>>().join("; ")
}

fn column(w: &Wording<'_>, lack: &Lack) -> Option<String> {
    match lack {
        Lack::Column(name) => Some(w.column(name)),
        _ => None,
    }
}

fn lack(w: &Wording<'_>, lack: &Lack) -> String {
    match *lack {
        Lack::Input(slot) => input(w, slot),
        Lack::Column(name) => format!("{} was not logged in the steady part", w.column(name)),
        Lack::FlowOrOutlet => {
            format!("neither {} nor {} was logged in the steady part", w.column("flow"), w.column("coil_out"))
        }
        Lack::SmallRise { rise_k, std_uncertainty_k } => format!(
            "the water warms by {} in the coil, less than three times the standard uncertainty of {}",
            w.temperature_difference(rise_k, 1),
            w.temperature_difference(std_uncertainty_k, 1)
        ),
        Lack::SmallFall { fall_k, std_uncertainty_k } => format!(
            "the gas cools by {} over the exchanger, less than three times the standard uncertainty of {}",
            w.temperature_difference(fall_k, 0),
            w.temperature_difference(std_uncertainty_k, 0)
        ),
        Lack::Effectiveness { value } => {
            format!("it comes to {}, outside 0 to 1 (see the findings)", w.typography.fixed(value, 2))
        }
        Lack::Transfer { effectiveness } => format!(
            "no conductance gives an effectiveness of {}, the most that the exchanger can reach or more",
            w.typography.fixed(effectiveness, 2)
        ),
        Lack::WholeRange => "what was measured leaves it open from 0 to 100 %".to_owned(),
        Lack::TubeSize => {
            format!("the exchanger's build states no {} and {}", w.column("tube_outside"), w.column("length"))
        }
        Lack::WholeBurn => "the fuel was weighed for the whole burn, but the window covers a part of it".to_owned(),
        Lack::SteadyPart => "the log shows no steady part with two readings".to_owned(),
        Lack::Composition => "the fuel has neither a composition nor a class".to_owned(),
        Lack::LittleHeat => {
            "the water took less heat than the gas of complete combustion gives up: check fuel, probes and flow"
                .to_owned()
        }
        Lack::Undefined => "it cannot be computed from these numbers: it comes to no finite number".to_owned(),
    }
}

fn input(w: &Wording<'_>, slot: Slot) -> String {
    let blank = |column: &str, remedy: &str| format!("{} is blank{remedy}", w.column(column));
    match slot {
        Slot::Kindling => blank("kindling_mass", " (write 0 if there was none)"),
        Slot::FuelMass => blank("fuel_mass", ""),
        Slot::LeftoverFuel => blank("leftover_fuel", " (write 0 if nothing was left)"),
        Slot::LeftoverChar => blank("leftover_char", " (write 0 if nothing was left)"),
        Slot::Moisture => blank("fuel_moisture", ", or its basis is"),
        Slot::VesselCapacity => format!(
            "the vessel's own heat capacity is not stated (write {}, or {} and {})",
            w.column("heat_capacity"),
            w.column("mass"),
            w.column("material")
        ),
        Slot::Power => format!("there is neither {} nor a {} column", w.column("heater_power"), w.column("power")),
        _ => plain_input(slot).to_owned(),
    }
}

const fn plain_input(slot: Slot) -> &'static str {
    match slot {
        Slot::Water => "the amount of water is not stated",
        Slot::Air => "the air temperature is neither in the log nor in the register",
        Slot::LossCoefficient => "the vessel has no standing-loss trial and states no loss coefficient",
        Slot::NetDry => "the fuel states neither a net calorific value nor a class",
        Slot::CharValue => "the calorific value of char is not known",
        Slot::Price => "the fuel has no price",
        Slot::SteadyFlowNoise => "the log does not show a steady part",
        Slot::RateNoise => "the tank never rises through the temperature at which the rate is stated",
        Slot::LossNoise => "no cooling curve could be fitted",
        Slot::Rig => "there is no reference-heater trial",
        _ => "there is no tank temperature",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_named_together() {
        let both = [Lack::Column("flue_before"), Lack::Column("flue_after"), Lack::Composition];
        assert_eq!(
            lacks(&Wording::plain(), &both),
            "`flue_before` and `flue_after` were not logged in the steady part; the fuel has neither a composition nor a class"
        );
        assert_eq!(lacks(&Wording::plain(), &both[1..2]), "`flue_after` was not logged in the steady part");
    }

    #[test]
    fn each_lack_has_its_words() {
        let w = Wording::plain();
        let table = [
            (Lack::Input(Slot::LeftoverChar), "`leftover_char` is blank (write 0 if nothing was left)"),
            (Lack::Input(Slot::Moisture), "`fuel_moisture` is blank, or its basis is"),
            (
                Lack::Input(Slot::VesselCapacity),
                "the vessel's own heat capacity is not stated (write `heat_capacity`, or `mass` and `material`)",
            ),
            (Lack::Input(Slot::Air), "the air temperature is neither in the log nor in the register"),
            (
                Lack::SmallFall { fall_k: 5.0, std_uncertainty_k: 2.04 },
                "the gas cools by 5 K over the exchanger, less than three times the standard uncertainty of 2 K",
            ),
            (
                Lack::SmallRise { rise_k: 0.52, std_uncertainty_k: 0.31 },
                "the water warms by 0.5 K in the coil, less than three times the standard uncertainty of 0.3 K",
            ),
            (Lack::Effectiveness { value: 1.084 }, "it comes to 1.08, outside 0 to 1 (see the findings)"),
            (
                Lack::Transfer { effectiveness: 1.01 },
                "no conductance gives an effectiveness of 1.01, the most that the exchanger can reach or more",
            ),
            (Lack::TubeSize, "the exchanger's build states no `tube_outside` and `length`"),
        ];
        for (fact, text) in table {
            assert_eq!(lacks(&w, &[fact]), text);
        }
    }
}
