//! Cautions in words: the danger first, then what the log shows, then what to do. They warn; local codes and licensed
//! practice decide.

use super::{Message, Wording};
use calefact_analysis::fact::CautionFact;
use calefact_physics::caution;

/// The words of a caution.
pub(crate) fn message(w: &Wording<'_>, fact: &CautionFact) -> Message {
    Message { text: danger(w, fact), action: None, hint: advice(w, fact) }
}

fn danger(w: &Wording<'_>, fact: &CautionFact) -> String {
    match *fact {
        CautionFact::NearBoiling { highest_degc, from_s, boiling_degc, altitude_m } => format!(
            "a coil that boils can burst: water left it at up to {}, and from {} on was within {} of boiling ({} {})",
            w.temperature(highest_degc, 1),
            w.minutes(from_s),
            w.temperature_difference(caution::COIL_BOIL_MARGIN, 0),
            w.temperature(boiling_degc, 1),
            w.altitude(altitude_m)
        ),
        CautionFact::FlowStopped { at_s, gas_degc } => format!(
            "a coil that stops flowing over a fire boils dry and can burst: at {} the water stood still, in flue gas of {}",
            w.minutes(at_s),
            w.temperature(gas_degc, 0)
        ),
        CautionFact::DryCoil { at_s, gas_degc } => dry_coil(w, at_s, gas_degc),
        CautionFact::Creosote { share, part, lowest_degc } => format!(
            "creosote in a flue can catch fire: the gas left the exchanger below {}, where tar condenses, for {} of {} ({}; lowest {})",
            w.temperature(caution::CREOSOTE_FLUE_GAS, 0),
            w.percent(share),
            if part.certain { "the steady part" } else { "the readings" },
            w.minutes_range(part.start_s, part.end_s),
            w.temperature(lowest_degc, 0)
        ),
        CautionFact::CarbonMonoxide { fraction, at_s } => format!(
            "carbon monoxide kills where a flue leaks or draws backwards: the flue gas held up to {}, at {}",
            w.typography.join(&w.typography.fixed(1e6 * fraction, 0), "ppm"),
            w.minutes(at_s)
        ),
        CautionFact::Scald { from_s, highest_degc } => format!(
            "water this hot scalds within {} (published times differ): the tank reached {}, and passed {} at {}",
            if highest_degc >= caution::SCALD_FAST { "seconds" } else { "minutes" },
            w.temperature(highest_degc, 1),
            w.temperature(caution::SCALD_SLOW, 0),
            w.minutes(from_s)
        ),
        CautionFact::Tub { highest_degc } => format!(
            "nobody should sit in water above {}: the tub reached {}, and a tub thermometer may err by {}",
            w.temperature(caution::TUB_LIMIT, 0),
            w.temperature(highest_degc, 1),
            w.temperature_difference(caution::TUB_THERMOSTAT_ERROR, 1)
        ),
        CautionFact::LukewarmStore { last_degc } => format!(
            "bacteria such as legionella grow between {} and {}: the store was left at {}",
            w.temperature(caution::LEGIONELLA_GROWTH.0, 0),
            w.temperature(caution::LEGIONELLA_GROWTH.1, 0),
            w.temperature(last_degc, 1)
        ),
        _ => general(w, fact),
    }
}

fn dry_coil(w: &Wording<'_>, at_s: f64, gas_degc: f64) -> String {
    let all = gas_degc > caution::SOLDER_LEAD_FREE;
    format!(
        "a dry coil takes the temperature of the gas, and {} melts there: at {} no heat or water moved in the coil, in gas of {} (soft solder melts from {} to {} on)",
        if all { "soft solder of any kind" } else { "tin-lead solder" },
        w.minutes(at_s),
        w.temperature(gas_degc, 0),
        w.temperature(caution::SOLDER_TIN_LEAD, 0),
        w.temperature(caution::SOLDER_LEAD_FREE, 0)
    )
}

/// Cautions that any burn calls for.
fn general(w: &Wording<'_>, fact: &CautionFact) -> String {
    match fact {
        CautionFact::ClosedCoil => format!(
            "a coil or vessel with a closed or blocked outlet is a steam bomb: never heat one without an open vent or a relief valve; {}",
            steam(w)
        ),
        CautionFact::Monoxide => {
            "carbon monoxide kills and has no smell: burn outdoors or under a flue that draws, with an alarm in the room".into()
        }
        CautionFact::Fibre => {
            "mineral-fibre insulation sheds dust that harms the lungs, when it is cut and after it has been heated: wear a mask and gloves, and keep it enclosed".into()
        }
        CautionFact::Solder => format!(
            "soft-soldered joints fail in flue gas: they are rated to {} at most and melt from {} on, so use none where gas touches",
            w.temperature(caution::SOLDERED_JOINT_SERVICE, 0),
            w.temperature(caution::SOLDER_TIN_LEAD, 0)
        ),
        _ => "these cautions do not replace local codes, the makers' instructions and licensed practice, which decide".into(),
    }
}

fn advice(w: &Wording<'_>, fact: &CautionFact) -> Option<String> {
    Some(match fact {
        CautionFact::NearBoiling { .. } => {
            format!("give the coil more flow or less fire, and an open vent or a relief valve; {}", steam(w))
        }
        CautionFact::FlowStopped { .. } => {
            "have an open vent or a relief valve, and a way to take the fire out".to_owned()
        }
        CautionFact::DryCoil { .. } => {
            "braze joints that see flue gas, and never light a fire under a dry coil".to_owned()
        }
        CautionFact::Creosote { .. } => {
            "look into the flue and sweep it; take less heat from the gas, or burn hotter and drier".to_owned()
        }
        CautionFact::CarbonMonoxide { .. } => {
            "have an alarm in the room, air from outside and a flue that draws".to_owned()
        }
        CautionFact::Scald { .. } => "mix it down before hands, children or animals come near it".to_owned(),
        CautionFact::Tub { .. } => format!(
            "cool the tub and read a second thermometer before anyone gets in; {} is taken as safe for a healthy adult",
            w.temperature(38.0, 0)
        ),
        CautionFact::LukewarmStore { .. } => format!(
            "keep stored water above {} or use it at once; do not spray it lukewarm",
            w.temperature(caution::LEGIONELLA_STORE, 0)
        ),
        _ => return None,
    })
}

fn steam(w: &Wording<'_>) -> String {
    let times = w.typography.fixed(caution::STEAM_EXPANSION, -2);
    format!("steam takes about {times} times the volume of its water")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Units;
    use calefact_analysis::phases::SteadyPart;

    #[test]
    fn the_danger_comes_first_then_the_log() {
        let w = Wording::plain();
        let steady = |certain| SteadyPart { start_s: 360.0, end_s: 6300.0, certain };
        let table = [
            (
                CautionFact::NearBoiling {
                    highest_degc: 93.84,
                    from_s: 5580.0,
                    boiling_degc: 97.83,
                    altitude_m: Some(640.0),
                },
                "a coil that boils can burst: water left it at up to 93.8 degC, and from 93 min on was within 5 K of boiling (97.8 degC at 640 m)",
            ),
            (
                CautionFact::FlowStopped { at_s: 1200.0, gas_degc: 300.2 },
                "a coil that stops flowing over a fire boils dry and can burst: at 20 min the water stood still, in flue gas of 300 degC",
            ),
            (
                CautionFact::DryCoil { at_s: 1200.0, gas_degc: 200.0 },
                "a dry coil takes the temperature of the gas, and tin-lead solder melts there: at 20 min no heat or water moved in the coil, in gas of 200 degC (soft solder melts from 183 degC to 220 degC on)",
            ),
            (
                CautionFact::Creosote { share: 0.65, part: steady(true), lowest_degc: 64.7 },
                "creosote in a flue can catch fire: the gas left the exchanger below 121 degC, where tar condenses, for 65 % of the steady part (6 to 105 min; lowest 65 degC)",
            ),
            (
                CautionFact::Creosote { share: 0.65, part: steady(false), lowest_degc: 64.7 },
                "creosote in a flue can catch fire: the gas left the exchanger below 121 degC, where tar condenses, for 65 % of the readings (6 to 105 min; lowest 65 degC)",
            ),
            (
                CautionFact::CarbonMonoxide { fraction: 2e-3, at_s: 600.0 },
                "carbon monoxide kills where a flue leaks or draws backwards: the flue gas held up to 2000 ppm, at 10 min",
            ),
            (
                CautionFact::Scald { from_s: 5280.0, highest_degc: 59.4 },
                "water this hot scalds within minutes (published times differ): the tank reached 59.4 degC, and passed 49 degC at 88 min",
            ),
            (
                CautionFact::Tub { highest_degc: 42.0 },
                "nobody should sit in water above 40 degC: the tub reached 42.0 degC, and a tub thermometer may err by 2.2 K",
            ),
            (
                CautionFact::LukewarmStore { last_degc: 35.0 },
                "bacteria such as legionella grow between 25 degC and 45 degC: the store was left at 35.0 degC",
            ),
        ];
        for (fact, text) in table {
            let message = message(&w, &fact);
            assert_eq!(message.text, text);
            assert!(message.hint.is_some(), "{text}");
        }
    }

    #[test]
    fn a_reader_of_us_units_reads_fahrenheit() {
        let us = Wording { units: Units::Us, ..Wording::plain() };
        let tub = message(&us, &CautionFact::Tub { highest_degc: 42.0 });
        assert_eq!(
            tub.text,
            "nobody should sit in water above 104 degF: the tub reached 107.6 degF, and a tub thermometer may err by 4.0 degF"
        );
    }

    #[test]
    fn general_cautions_have_words_of_their_own() {
        let texts = CautionFact::GENERAL.map(|fact| message(&Wording::plain(), &fact).text);
        assert!(texts[0].starts_with("a coil or vessel with a closed or blocked outlet is a steam bomb"));
        assert!(texts[0].ends_with("steam takes about 1600 times the volume of its water"));
        assert!(texts[3].contains("121 degC at most and melt from 183 degC on"));
        assert!(texts[4].contains("local codes") && texts[4].contains("licensed practice"));
    }
}
