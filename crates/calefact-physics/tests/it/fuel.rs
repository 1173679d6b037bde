//! Fuel against published check values.

use crate::assert_near;
use calefact_physics::fuel::{FuelClass, gross_dry, net_as_fired, typical, wet_from_dry};

/// Definitions of the two bases; figures worked from them, in %.
#[test]
fn wet_basis_from_dry_basis() {
    for (wet, dry) in [(10.0, 11.1111), (12.0, 13.6364), (15.0, 17.6471), (20.0, 25.0), (30.0, 42.8571), (50.0, 100.0)]
    {
        assert_near(100.0 * wet_from_dry(dry / 100.0), wet, 5e-5);
    }
}

/// ISO 17225-1 formula worked at 19.1 and 18.9 MJ/kg dry: moisture %, MJ/kg as fired.
#[test]
fn net_calorific_value_as_fired() {
    for (m, first, second) in [
        (0.0, 19.1000, 18.9000),
        (8.0, 17.3766, 17.1926),
        (15.0, 15.8685, 15.6985),
        (20.0, 14.7914, 14.6314),
        (30.0, 12.6371, 12.4971),
        (50.0, 8.3285, 8.2285),
        (60.0, 6.1742, 6.0942),
    ] {
        assert_near(net_as_fired(19.1e6, m / 100.0) / 1e6, first, 5.1e-5);
        assert_near(net_as_fired(18.9e6, m / 100.0) / 1e6, second, 5.1e-5);
    }
}

/// Heating-value table of a public wood-boiler installation manual, kWh/kg at 15 % and 30 %, printed to 0.01: spruce,
/// fir, pine, beech, oak. The dry value is undone from the one with the latent heat of water at 25 degC by IAPWS-IF97,
/// 2.44171 MJ/kg, and leads to the other.
#[test]
fn slope_with_moisture_agrees_with_a_printed_table() {
    for (at_15, at_30) in [(4.49, 3.58), (4.40, 3.51), (4.32, 3.44), (4.13, 3.28), (4.10, 3.25)] {
        let dry = (at_15 * 3.6e6 + 2.441_71e6 * 0.15) / 0.85;
        assert_near(net_as_fired(dry, 0.30) / 3.6e6, at_30, 0.01);
    }
}

/// Pure water: what is left of the formula is the latent heat at 25 degC, 2.44171 MJ/kg by IAPWS-IF97, 2.443 as
/// ISO 18125 rounds it.
#[test]
fn latent_heat_of_the_standard_is_that_of_water() {
    assert_near(-net_as_fired(19.0e6, 1.0), 2.441_71e6, 1500.0);
}

/// ISO 18125 worked: 19.0 MJ/kg net dry with 6.2 % H, 43.2 % O, 0.1 % N is 20.3503 MJ/kg gross; the coniferous row of
/// ISO 17225-1 (from memory) has 20.5 MJ/kg gross, 6.3 % H, 42 % O, 0.1 % N, which is 19.129 MJ/kg net.
#[test]
fn gross_from_net() {
    assert_near(gross_dry(19.0e6, 0.062, 0.432, 0.001) / 1e6, 16.2802 / 0.8, 6.3e-5);
    assert_near(gross_dry(19.129e6, 0.063, 0.42, 0.001) / 1e6, 20.5, 5.1e-4);
}

/// ISO 17225-1, annex B (from memory): net calorific value and range in MJ/kg; C, H, O in %; they add up to 99.7 and
/// 99.6 %, and the composition is scaled to 100.
#[test]
fn typical_rows_are_those_of_the_standard() {
    for (class, net, range, [c, h, o], gross) in [
        (FuelClass::Coniferous, 19.1, 1.3, [51.0, 6.3, 42.0], 20.5),
        (FuelClass::Broadleaf, 18.9, 0.8, [49.0, 6.2, 44.0], 20.1),
    ] {
        let row = typical(class);
        assert_near(row.net.value, net * 1e6, 1e-6);
        assert_near(row.net.standard_uncertainty(), range * 1e6 / 12.0_f64.sqrt(), 1e-6);
        let wood = row.composition();
        assert_near(wood.c + wood.h + wood.o + wood.n + wood.s + wood.ash, 1.0, 1e-12);
        for (scaled, published) in [(wood.c, c), (wood.h, h), (wood.o, o)] {
            assert_near(100.0 * scaled, published, 0.006 * published);
            assert_near(scaled / wood.c, published / c, 1e-12);
        }
        assert_near(wood.n / wood.c, 0.1 / c, 1e-12);
        // The row's own gross value, hydrogen and oxygen against its net value: 0.15 MJ/kg, as printed.
        assert_near(gross_dry(net * 1e6, wood.h, wood.o, wood.n), gross * 1e6, 0.18e6);
    }
}

/// A pin meter's 20 % is dry basis: 15.5095 MJ/kg; read as wet basis it would be 14.7914, 4.63 % less.
#[test]
fn pin_meter_trap() {
    let (right, wrong) = (net_as_fired(19.1e6, wet_from_dry(0.20)), net_as_fired(19.1e6, 0.20));
    assert_near(right / 1e6, 15.5095, 5.1e-5);
    assert_near(100.0 * (wrong / right - 1.0), -4.63, 5.1e-3);
}

/// 10 kg of wood at 20 % moisture and 19.1 MJ/kg dry less 0.25 kg of char at the IPCC default: 147.914 less 7.375 MJ.
#[test]
fn char_credit() {
    let (wood, char) = (10.0 * net_as_fired(19.1e6, 0.20), 0.25 * 29.5e6);
    assert_near(100.0 * char / wood, 4.986, 5.1e-4);
    assert_near((wood - char) / 1e6, 140.539, 5.1e-4);
}
