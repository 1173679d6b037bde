//! A `dataset.toml` with every key.

mod problems;

use super::{DatasetFile, read_text};
use crate::apparatus::{Arrangement, FuelClass, Tolerance};
use crate::text::number::Decimal;

fn good(text: &str) -> DatasetFile {
    let (file, findings) = read_text("d/dataset.toml".as_ref(), text);
    assert_eq!(findings, []);
    file.expect("a dataset file")
}

const FULL: &str = r#"
title = "Hill nursery"
invented = true
[site]
name = "Upper terrace"
altitude = "1000 ft"
[stoves.box]
name = "Box stove"
note = "two doors"
[fuels.spruce]
name = "Spruce"
class = "coniferous"
net_calorific_value = "19.1 MJ/kg"
net_calorific_value_uncertainty = "0.3 MJ/kg"
char_calorific_value = "30 MJ/kg +- 1 MJ/kg"
composition = { c = 0.505, h = 0.062, o = "42.6 %", ash = 0.005 }
price = 0.25
currency = "EUR"
[exchangers.coil]
name = "Coil"
arrangement = "cross-gas-mixed"
build = { tube_outside = "15 mm", length = "6 m", passes = 2 }
insulation = "none"
[vessels.barrel]
name = "Barrel"
volume = "160 L"
volume_uncertainty = "1 L"
mass = "10 kg"
material = "steel"
[instruments.tank-probe]
name = "Tank probe"
reads = ["tank"]
tolerance = ["class B Pt100", "0.1 K"]
resolution = "0.1 degC"
[instruments.scale]
name = "Scale"
reads = ["fuel_mass", "water"]
tolerance = "0.05 kg"
calibrated = true
[columns]
clock = "Zeit"
tank = { header = "Fass", unit = "degC", instrument = "tank-probe" }
ambient = { header = "Luft (degC)", instrument = "tank-probe" }
[logs]
delimiter = "tab"
decimal = "comma"
encoding = "latin1"
skip_lines = 3
missing = ["leer"]
time_zone = "Europe/Oslo"
date = "2026-03-28"
[files]
register = "../data/trials.csv"
"#;

#[test]
fn every_key_is_read_in_si() {
    let file = good(FULL);
    let a = &file.apparatus;
    assert!(a.invented);
    // One foot is 0.3048 m exactly (NIST SP 811, appendix B).
    assert!(a.site.altitude_m.is_some_and(|h| (h - 304.8).abs() < 1e-9));
    let fuel = &a.fuels["spruce"];
    assert_eq!(fuel.class, Some(FuelClass::Coniferous));
    let near = |a: Option<f64>, b: f64| a.is_some_and(|a| (a - b).abs() < 1e-6 * b.abs());
    let ncv = fuel.net_calorific_value_dry.expect("a value");
    assert!(near(Some(ncv.value), 19.1e6) && near(ncv.std_uncertainty, 0.3e6));
    let char_value = fuel.char_calorific_value.expect("a value");
    assert!(near(Some(char_value.value), 30e6) && near(char_value.std_uncertainty, 1e6));
    assert!(fuel.composition.is_some_and(|c| (c.o - 0.426).abs() < 1e-12 && c.n == 0.0));
    let coil = &a.exchangers["coil"];
    assert_eq!(coil.arrangement, Some(Arrangement::CrossGasMixed));
    assert!(near(coil.build.get("tube_outside").copied(), 0.015) && near(coil.build.get("passes").copied(), 2.0));
    let barrel = &a.vessels["barrel"];
    assert!(barrel.volume.is_some_and(|v| near(v.std_uncertainty, 1e-3)));
    assert!(barrel.heat_capacity.is_some_and(|c| near(Some(c.value), 4340.0) && c.std_uncertainty.is_none()));
}

#[test]
fn instruments_and_files() {
    let file = good(FULL);
    let probe = &file.apparatus.instruments["tank-probe"];
    assert_eq!(probe.tolerance, [Tolerance::SumOf(0.3, 0.005), Tolerance::Absolute(0.1)]);
    assert_eq!(
        (probe.resolution, probe.reads.as_slice()),
        (Some(0.1), ["tank".to_string(), "ambient".into()].as_slice())
    );
    assert!(file.apparatus.instruments["scale"].calibrated);
    let style = &file.logs.style;
    assert_eq!((style.delimiter, style.decimal, style.skip_lines), (Some(b'\t'), Some(Decimal::Comma.into()), Some(3)));
    assert_eq!(style.encoding.map(encoding_rs::Encoding::name), Some("windows-1252"));
    let air = file.logs.columns.iter().find(|c| c.name == "ambient").expect("ambient");
    assert_eq!((air.header.as_str(), air.unit.as_deref()), ("Luft", Some("degC")));
    assert_eq!(file.register.as_deref(), Some("../data/trials.csv".as_ref()));
}
