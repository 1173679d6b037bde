//! Lines that give a quantity that could not be given: what to write, and where.

use super::register::entry_and_table;
use super::{Wording, list};
use calefact_analysis::fact::{Lack, Slot};
use calefact_data::ApparatusKind;
use calefact_data::toml_source::spelling::key_path;

/// What to write so that a quantity can be given: "fill `fuel_mass` and `leftover_fuel` in trials.csv"; none where no line helps.
pub(crate) fn remedies(w: &Wording<'_>, lacks: &[Lack]) -> Option<String> {
    let blank: Vec<&str> = lacks.iter().filter_map(blank).collect();
    let columns: Vec<String> = blank.iter().map(|column| w.column(column)).collect();
    let mut all: Vec<String> = Vec::new();
    all.extend((!columns.is_empty()).then(|| format!("fill {} in trials.csv", list(&columns))));
    for remedy in lacks.iter().filter_map(|lack| remedy(w, lack)) {
        if !all.contains(&remedy) {
            all.push(remedy);
        }
    }
    (!all.is_empty()).then(|| all.join("; "))
}

/// The column of the register whose cell is blank.
const fn blank(lack: &Lack) -> Option<&'static str> {
    let Lack::Input(slot) = lack else { return None };
    Some(match slot {
        Slot::FuelMass => "fuel_mass",
        Slot::Kindling => "kindling_mass",
        Slot::LeftoverFuel => "leftover_fuel",
        Slot::LeftoverChar => "leftover_char",
        Slot::Moisture => "fuel_moisture",
        _ => return None,
    })
}

fn remedy(w: &Wording<'_>, lack: &Lack) -> Option<String> {
    let class = || in_table(w, ApparatusKind::Fuel, &["class = \"coniferous\""]) + ", or \"broadleaf\"";
    Some(match *lack {
        Lack::Input(Slot::NetDry) | Lack::Composition => class(),
        Lack::Input(slot) => return input(w, slot),
        Lack::Column(name) => log(w, &[name]),
        Lack::FlowOrOutlet => log(w, &["flow", "coil_out"]),
        Lack::SteadyPart => STEADY.to_owned(),
        Lack::TubeSize => {
            in_table(w, ApparatusKind::Exchanger, &["build = { tube_outside = \"15 mm\", length = \"8 m\" }"])
        }
        Lack::WholeBurn => in_settings("window = \"whole log\""),
        Lack::SmallRise { .. }
        | Lack::SmallFall { .. }
        | Lack::Effectiveness { .. }
        | Lack::Transfer { .. }
        | Lack::WholeRange
        | Lack::LittleHeat
        | Lack::Undefined => return None,
    })
}

const STEADY: &str = "log a reading every few minutes while the fire is steady";

fn input(w: &Wording<'_>, slot: Slot) -> Option<String> {
    Some(match slot {
        Slot::FuelMass | Slot::Kindling | Slot::LeftoverFuel | Slot::LeftoverChar => return None,
        Slot::Water => format!("{}, or write {}", fill(w, "water"), default("water = \"120 L\"")),
        Slot::Air => format!("{}, or {}", fill(w, "ambient"), log(w, &["ambient"])),
        Slot::Moisture => format!("write {}, or \"wet\"", default("moisture_basis = \"dry\"")),
        Slot::VesselCapacity => in_table(w, ApparatusKind::Vessel, &["mass = \"19 kg\"", "material = \"steel\""]),
        Slot::LossCoefficient => format!(
            "log the vessel cooling once, as a trial of kind `standing-loss`, or {}",
            in_table(w, ApparatusKind::Vessel, &["loss_coefficient = \"4 W/K\""])
        ),
        Slot::CharValue => in_table(w, ApparatusKind::Fuel, &["char_calorific_value = \"30 MJ/kg\""]),
        Slot::Price => in_table(w, ApparatusKind::Fuel, &["price = 0.2", "currency = \"EUR\""]),
        Slot::Power => format!("{}, or {}", fill(w, "heater_power"), log(w, &["power"])),
        Slot::Rig => "make a trial of kind `reference-heater`".to_owned(),
        Slot::SteadyFlowNoise => STEADY.to_owned(),
        Slot::RateNoise => in_settings("heating_rate_at = \"30 degC\""),
        Slot::LossNoise => "log the vessel for longer while it cools".to_owned(),
        _ => log(w, &["tank"]),
    })
}

fn fill(w: &Wording<'_>, column: &str) -> String {
    format!("fill {} in trials.csv", w.column(column))
}

fn log(w: &Wording<'_>, columns: &[&str]) -> String {
    let names: Vec<String> = columns.iter().map(|column| w.column(column)).collect();
    format!("log {}, or name its header under [columns] in dataset.toml", names.join(" or "))
}

fn default(line: &str) -> String {
    format!("`{line}` under [defaults] in dataset.toml")
}

fn in_settings(line: &str) -> String {
    format!("write `{line}` under [settings] in the pipeline file")
}

/// Lines in the table of an entry; its id where there is only one.
fn in_table(w: &Wording<'_>, kind: ApparatusKind, lines: &[&str]) -> String {
    let (_, table) = entry_and_table(kind);
    let lines: Vec<String> = lines.iter().map(|line| format!("`{line}`")).collect();
    let id = w.names.only(kind).unwrap_or("ID");
    format!("write {} under [{}] in dataset.toml", lines.join(" and "), key_path(table, id))
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_data::{ApparatusNames, dataset_file};

    const LACKS: [Lack; 12] = [
        Lack::Input(Slot::Water),
        Lack::Input(Slot::Air),
        Lack::Input(Slot::FuelMass),
        Lack::Input(Slot::Kindling),
        Lack::Input(Slot::Moisture),
        Lack::Input(Slot::VesselCapacity),
        Lack::Input(Slot::LossCoefficient),
        Lack::Input(Slot::CharValue),
        Lack::Input(Slot::Price),
        Lack::Composition,
        Lack::TubeSize,
        Lack::FlowOrOutlet,
    ];

    #[test]
    fn what_to_write_and_where() {
        let name = "Drum".to_owned();
        let id = "drum".to_owned();
        let names = ApparatusNames::none().with(ApparatusKind::Vessel, [(&id, &name)].into_iter());
        let w = Wording { names: &names, ..Wording::plain() };
        let all = remedies(&w, &LACKS[2..5]);
        let wanted = "fill `fuel_mass`, `kindling_mass` and `fuel_moisture` in trials.csv; write `moisture_basis = \"dry\"` under \
            [defaults] in dataset.toml, or \"wet\"";
        assert_eq!(all.as_deref(), Some(wanted));
        let lines: Vec<String> = LACKS.iter().filter_map(|lack| remedies(&w, &[*lack])).collect();
        insta::assert_snapshot!(lines.join("\n"));
        let twice = remedies(&w, &[Lack::Composition, Lack::Input(Slot::NetDry), Lack::Undefined]);
        assert_eq!(twice, remedies(&w, &[Lack::Composition]));
        assert_eq!(remedies(&w, &[Lack::Undefined]), None);
    }

    /// Every line of dataset.toml that is told can be pasted under its table.
    #[test]
    fn lines_can_be_pasted() {
        for lack in LACKS {
            let text = remedies(&Wording::plain(), &[lack]).expect("a remedy");
            let lines: Vec<&str> = text.split('`').filter(|part| part.contains(" = ")).collect();
            let Some(table) = text.split('[').nth(1).and_then(|rest| rest.split(']').next()) else { continue };
            if lines.is_empty() {
                continue;
            }
            let name = if table.contains('.') { "name = \"X\"\n" } else { "" };
            let toml = format!("title = \"X\"\n[{table}]\n{name}{}\n", lines.join("\n"));
            let (file, findings) = dataset_file::read_text("dataset.toml".as_ref(), &toml);
            assert!(file.is_some() && findings.is_empty(), "{toml}{findings:?}");
        }
    }
}
