//! The text of the register.

use super::number::fixed;
use super::style::Style;
use calefact_data::{RegisterRow, Water};

/// US gallons in a cubic metre (231 cubic inches a gallon, NIST SP 811).
const GALLONS: f64 = 1.0 / 3.785_411_784e-3;
/// Kilograms in a pound (NIST SP 811).
const POUND: f64 = 0.453_592_37;

const HEADER: &str = "trial,kind,date,block,operator,log,stove,fuel,exchanger,vessel,water [US gal],fuel_mass [kg],kindling_mass [kg],\
                      fuel_moisture [%],moisture_basis,leftover_fuel [kg],leftover_char [kg],heater_power [W],damper,split,exclude,note";

/// The register of trials and the style each is written in.
pub(super) fn register_csv<'a>(rows: impl Iterator<Item = (&'a RegisterRow, Style)>) -> String {
    let mut text = format!("{HEADER}\n");
    for (row, style) in rows {
        let cells: Vec<String> = cells(row, style).iter().map(|c| quoted(c)).collect();
        text.push_str(&cells.join(","));
        text.push('\n');
    }
    text
}

fn cells(row: &RegisterRow, style: Style) -> [String; 22] {
    let words = |text: &Option<String>| text.clone().unwrap_or_default();
    let weight = |kg: Option<f64>| kg.map(|kg| weight(kg, style.pounds)).unwrap_or_default();
    let number = |value: Option<f64>, decimals: usize| value.map(|v| fixed(v, decimals)).unwrap_or_default();
    let extra = |column: &str| row.extra.get(column).cloned().unwrap_or_default();
    let water = match row.water {
        Water::Volume(m3) => fixed(m3 * GALLONS, 1),
        Water::Mass(kg) => format!("{} kg", fixed(kg, 1)),
    };
    let basis = if row.moisture_basis.is_some() { "dry" } else { "" };
    [
        row.trial.clone(),
        row.kind.name().to_owned(),
        words(&row.date),
        words(&row.block),
        words(&row.operator),
        row.log.to_string_lossy().into_owned(),
        words(&row.stove),
        words(&row.fuel),
        words(&row.exchanger),
        row.vessel.clone(),
        water,
        weight(row.fuel_mass),
        weight(row.kindling_mass),
        number(row.fuel_moisture.map(|m| 100.0 * m), 1),
        basis.to_owned(),
        weight(row.leftover_fuel),
        weight(row.leftover_char),
        number(row.heater_power, 0),
        extra("damper"),
        extra("split"),
        words(&row.exclude),
        words(&row.note),
    ]
}

/// Kilograms, or pounds with the unit in the cell.
fn weight(kg: f64, pounds: bool) -> String {
    if pounds { format!("{} lb", fixed(kg / POUND, 2)) } else { fixed(kg, 2) }
}

/// A cell, in quotes if it holds a comma or a quote.
fn quoted(cell: &str) -> String {
    if cell.contains([',', '"', '\n']) { format!("\"{}\"", cell.replace('"', "\"\"")) } else { cell.to_owned() }
}
