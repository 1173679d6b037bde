//! The text of `dataset.toml`.

use calefact_data::apparatus::{
    Apparatus, Arrangement, Composition, Exchanger, Fuel, FuelClass, Instrument, Stated, Tolerance, Vessel,
};
use std::fmt::Write;

/// The `dataset.toml` of an apparatus.
pub(crate) fn dataset_toml(apparatus: &Apparatus) -> String {
    let mut text =
        String::from("# Invented: simulated readings, no measurement stands behind them. The truth is in truth.csv.\n");
    line(&mut text, "title", &quoted(&apparatus.title));
    line(&mut text, "invented", "true");
    site(&mut text, apparatus);
    for (id, stove) in &apparatus.stoves {
        table(&mut text, "stoves", id, &stove.name);
        if let Some(note) = &stove.note {
            line(&mut text, "note", &quoted(note));
        }
    }
    apparatus.fuels.iter().for_each(|(id, f)| fuel(&mut text, id, f));
    apparatus.exchangers.iter().for_each(|(id, x)| exchanger(&mut text, id, x));
    apparatus.vessels.iter().for_each(|(id, v)| vessel(&mut text, id, v));
    apparatus.instruments.iter().for_each(|(id, i)| instrument(&mut text, id, i));
    text
}

fn line(text: &mut String, key: &str, value: &str) {
    let _ = writeln!(text, "{key} = {value}");
}

fn quoted(text: &str) -> String {
    format!("{text:?}")
}

fn table(text: &mut String, kind: &str, id: &str, name: &str) {
    let _ = writeln!(text, "\n[{kind}.{id}]");
    line(text, "name", &quoted(name));
}

fn site(text: &mut String, apparatus: &Apparatus) {
    let site = &apparatus.site;
    let _ = writeln!(text, "\n[site]\nname = {}", quoted(&site.name));
    if let Some(m) = site.altitude_m {
        line(text, "altitude", &quoted(&format!("{m} m")));
    }
}

/// A value with its standard uncertainty, scaled into a unit.
fn stated(text: &mut String, key: &str, value: Option<Stated>, scale: f64, unit: &str) {
    let Some(value) = value else { return };
    line(text, key, &quoted(&format!("{} {unit}", value.value / scale)));
    if let Some(u) = value.std_uncertainty {
        line(text, &format!("{key}_uncertainty"), &quoted(&format!("{} {unit}", u / scale)));
    }
}

fn fuel(text: &mut String, id: &str, fuel: &Fuel) {
    table(text, "fuels", id, &fuel.name);
    match fuel.class {
        Some(FuelClass::Coniferous) => line(text, "class", "\"coniferous\""),
        Some(FuelClass::Broadleaf) => line(text, "class", "\"broadleaf\""),
        None => {}
    }
    stated(text, "net_calorific_value", fuel.net_calorific_value_dry, 1e6, "MJ/kg");
    stated(text, "char_calorific_value", fuel.char_calorific_value, 1e6, "MJ/kg");
    if let Some(Composition { c, h, o, n, s, ash }) = fuel.composition {
        line(text, "composition", &format!("{{ c = {c}, h = {h}, o = {o}, n = {n}, s = {s}, ash = {ash} }}"));
    }
    if let (Some(price), Some(currency)) = (fuel.price_per_kg, &fuel.currency) {
        line(text, "price", &price.to_string());
        line(text, "currency", &quoted(currency));
    }
}

fn exchanger(text: &mut String, id: &str, exchanger: &Exchanger) {
    table(text, "exchangers", id, &exchanger.name);
    if let Some(arrangement) = exchanger.arrangement {
        line(text, "arrangement", &quoted(arrangement_word(arrangement)));
    }
    if let Some(insulation) = &exchanger.insulation {
        line(text, "insulation", &quoted(insulation));
    }
    let entry = |(key, &value): (&String, &f64)| match key.as_str() {
        "passes" => format!("{key} = {value}"),
        _ if value >= 1.0 => format!("{key} = \"{value} m\""),
        _ => format!("{key} = \"{} mm\"", (value * 1e6).round() / 1e3),
    };
    let build: Vec<String> = exchanger.build.iter().map(entry).collect();
    line(text, "build", &format!("{{ {} }}", build.join(", ")));
}

const fn arrangement_word(arrangement: Arrangement) -> &'static str {
    match arrangement {
        Arrangement::Counter => "counter",
        Arrangement::Parallel => "parallel",
        Arrangement::CrossGasMixed => "cross-gas-mixed",
        Arrangement::CrossWaterMixed => "cross-water-mixed",
        Arrangement::CrossUnmixed => "cross-unmixed",
    }
}

fn vessel(text: &mut String, id: &str, vessel: &Vessel) {
    table(text, "vessels", id, &vessel.name);
    stated(text, "volume", vessel.volume, 1e-3, "L");
    stated(text, "heat_capacity", vessel.heat_capacity, 1e3, "kJ/K");
    stated(text, "loss_coefficient", vessel.loss_coefficient, 1.0, "W/K");
}

fn instrument(text: &mut String, id: &str, instrument: &Instrument) {
    table(text, "instruments", id, &instrument.name);
    let reads: Vec<String> = instrument.reads.iter().map(|r| quoted(r)).collect();
    line(text, "reads", &format!("[{}]", reads.join(", ")));
    let unit = width_unit(instrument.reads.first().map_or("", String::as_str));
    let limits: Vec<String> = instrument.tolerance.iter().map(|&t| quoted(&limit(t, unit))).collect();
    line(text, "tolerance", &format!("[{}]", limits.join(", ")));
    if let Some(step) = instrument.resolution {
        line(text, "resolution", &quoted(&width(step, unit)));
    }
    line(text, "calibrated", if instrument.calibrated { "true" } else { "false" });
}

/// Unit a width of a column is written in, and its size in SI.
fn width_unit(column: &str) -> (f64, &'static str) {
    match column {
        "flow" => (1.0, "kg/s"),
        "power" | "heater_power" => (1.0, "W"),
        "fuel_moisture" | "flue_o2" | "flue_co2" | "flue_co" => (0.01, "%"),
        "water" => (1e-3, "L"),
        "fuel_mass" | "kindling_mass" | "leftover_fuel" | "leftover_char" | "fuel_added" => (1.0, "kg"),
        _ => (1.0, "K"),
    }
}

fn width(si: f64, (scale, unit): (f64, &str)) -> String {
    format!("{} {unit}", rounded(si / scale))
}

/// A value rid of the last digits a division leaves.
fn rounded(value: f64) -> f64 {
    (value * 1e9).round() / 1e9
}

/// A limit as a sheet would give it. Classes by IEC 60584-1 (type K) and IEC 60751 (Pt100).
fn limit(limit: Tolerance, unit: (f64, &str)) -> String {
    match limit {
        Tolerance::Absolute(a) => width(a, unit),
        Tolerance::Standard(s) => format!("{} standard", width(s, unit)),
        Tolerance::OfReading(f) => format!("{} % of reading", rounded(100.0 * f)),
        Tolerance::GreaterOf(a, _) => format!("class {} type K", if a < 2.0 { 1 } else { 2 }),
        Tolerance::SumOf(a, _) => format!("class {} Pt100", if a < 0.2 { "A" } else { "B" }),
    }
}
