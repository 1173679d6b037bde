//! Facts of the trade, common practice, no source: whole sums a builder does on paper, through units and physics.

use crate::assert_near;
use calefact_physics::fuel::net_as_fired;
use calefact_physics::water::{density, enthalpy};
use calefact_units::{Kind, parse_quantity};

fn si(text: &str, kind: Kind) -> f64 {
    parse_quantity(text, kind).unwrap_or_else(|e| panic!("{e:?}"))
}

/// 28 US gallons from 45 to 99.7 degF in 40 min: about 13.5 MJ and 5.6 kW; on 9.25 lb of firewood at 20 % moisture
/// (wet basis, 19.1 MJ/kg dry) about 22 %.
#[test]
fn a_barrel_of_water() {
    let (start, end) = (si("45 °F", Kind::Temperature), si("99.7 °F", Kind::Temperature));
    let mass = si("28 US gal", Kind::Volume) * density(start);
    let heat = mass * (enthalpy(end) - enthalpy(start));
    assert_near(heat / 1e6, 13.5, 0.05);
    assert_near(heat / si("40 min", Kind::Time) / 1e3, 5.6, 0.05);
    let fuel = si("9.25 lb", Kind::Mass) * net_as_fired(si("19.1 MJ/kg", Kind::SpecificEnergy), 0.20);
    assert_near(heat / fuel, 0.22, 0.005);
}

/// 100 L read at 15 degC and heated to 60 degC gain 18.7975 MJ, read at 60 degC 18.4985 MJ (IF97 by iapws 1.5.5; the
/// formulations differ by 2e-4).
#[test]
fn a_volume_is_read_at_a_temperature() {
    let gain = enthalpy(60.0) - enthalpy(15.0);
    assert_near(0.1 * density(15.0) * gain / 1e6, 18.7975, 2e-4 * 18.8);
    assert_near(0.1 * density(60.0) * gain / 1e6, 18.4985, 2e-4 * 18.5);
}

/// One US gallon at 60 degF warmed by 1 degF takes 8.337 Btu.
#[test]
fn a_gallon_by_a_degree() {
    let t = si("60 °F", Kind::Temperature);
    let step = si("0.5 °F", Kind::TemperatureDifference);
    let heat = si("1 gal_us", Kind::Volume) * density(t) * (enthalpy(t + step) - enthalpy(t - step));
    assert_near(heat / si("1 Btu", Kind::Energy), 8.337, 0.005);
}
