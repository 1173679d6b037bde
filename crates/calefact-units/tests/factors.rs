//! Factors and spellings against published figures and against an independent unit library.

use calefact_units::{Kind, Unit, UnitError, parse_quantity, symbols};

fn si(text: &str, kind: Kind) -> f64 {
    parse_quantity(text, kind).unwrap_or_else(|e| panic!("{text}: {e:?}"))
}

#[track_caller]
fn close(actual: f64, expected: f64, relative: f64) {
    assert!((actual - expected).abs() <= relative * expected.abs(), "{actual} is not {expected}");
}

/// NIST SP 811 (2008), appendix B.8; figures given there as exact are tested to rounding of the float.
#[test]
fn exact_factors_of_nist_sp_811() {
    for (text, kind, expected) in [
        ("1 gal_us", Kind::Volume, 3.785_411_784e-3),
        ("1 imp gal", Kind::Volume, 4.546_09e-3),
        ("1 lb", Kind::Mass, 0.453_592_37),
        ("1 oz", Kind::Mass, 0.028_349_523_125),
        ("1 in", Kind::Length, 0.0254),
        ("1 ft", Kind::Length, 0.3048),
        ("1 ft3", Kind::Volume, 28.316_846_592e-3),
        ("1 BTU", Kind::Energy, 1_055.055_852_62),
        ("1 Btu/lb", Kind::SpecificEnergy, 2326.0),
        ("1 cal", Kind::Energy, 4.184),
        ("1 cal_IT", Kind::Energy, 4.1868),
        ("1 therm_ec", Kind::Energy, 105_505_585.262),
        ("1 therm_us", Kind::Energy, 105_480_400.0),
        ("1 kWh", Kind::Energy, 3.6e6),
        ("1 cord", Kind::Volume, 3.624_556_363_776),
        ("1 Btu/(lb °F)", Kind::SpecificHeat, 4186.8),
        ("1 atm", Kind::Pressure, 101_325.0),
    ] {
        close(si(text, kind), expected, 1e-15);
    }
}

/// The same appendix, figures it rounds: tested to the last digit printed.
#[test]
fn rounded_factors_of_nist_sp_811() {
    for (text, kind, expected, half_digit) in [
        ("1 Btu_th", Kind::Energy, 1_054.350_264_488_889, 1e-12),
        ("1 Btu/h", Kind::Power, 0.293_071_070_2, 5e-11),
        ("1 hp", Kind::Power, 745.699_871_58, 5e-9),
        ("1 boiler hp", Kind::Power, 9809.50, 5e-3),
        ("1 psi", Kind::Pressure, 6_894.757_293, 5e-7),
        ("1 inHg", Kind::Pressure, 3386.389, 5e-4),
        ("3412.1416 Btu", Kind::Energy, 3.6e6, 0.06),
    ] {
        close(si(text, kind), expected, half_digit / expected);
    }
}

/// t_C = (t_F - 32)/1.8, NIST SP 811 B.8; a difference of 1 degF is 5/9 K.
#[test]
fn fahrenheit_points() {
    for (f, c) in
        [(60.0, 15.555_556), (104.0, 40.0), (140.0, 60.0), (212.0, 100.0), (250.0, 121.111_111), (-40.0, -40.0)]
    {
        assert!((si(&format!("{f} °F"), Kind::Temperature) - c).abs() < 5e-7);
    }
    close(si("9 degF", Kind::TemperatureDifference), 5.0, 1e-15);
    close(si("300 K", Kind::Temperature), 26.85, 1e-14);
    close(si("2.5 K", Kind::TemperatureDifference), 2.5, 0.0);
}

/// Independent check: the crate `ucum-units`, which carries the UCUM tables.
#[test]
fn ucum_codes_agree_with_an_independent_library() {
    for (code, kind, base) in [
        ("[gal_us]", Kind::Volume, "m3"),
        ("[gal_br]", Kind::Volume, "m3"),
        ("[qt_us]", Kind::Volume, "m3"),
        ("[foz_us]", Kind::Volume, "m3"),
        ("[crd_us]", Kind::Volume, "m3"),
        ("[lb_av]", Kind::Mass, "kg"),
        ("[oz_av]", Kind::Mass, "kg"),
        ("[ston_av]", Kind::Mass, "kg"),
        ("[lton_av]", Kind::Mass, "kg"),
        ("[in_i]", Kind::Length, "m"),
        ("[ft_i]", Kind::Length, "m"),
        ("[mi_i]", Kind::Length, "m"),
        ("[sft_i]", Kind::Area, "m2"),
        ("[cft_i]", Kind::Volume, "m3"),
        ("[Btu_IT]", Kind::Energy, "J"),
        ("[Btu_IT]/h", Kind::Power, "W"),
        ("[Btu_IT]/[lb_av]", Kind::SpecificEnergy, "J/kg"),
        ("cal_IT", Kind::Energy, "J"),
        ("cal_th", Kind::Energy, "J"),
        ("[psi]", Kind::Pressure, "Pa"),
        ("kW.h", Kind::Energy, "J"),
        ("[lb_av]/h", Kind::MassFlow, "kg/s"),
        ("L/min", Kind::VolumeFlow, "m3/s"),
        ("[gal_us]/min", Kind::VolumeFlow, "m3/s"),
        ("d", Kind::Time, "s"),
        ("%", Kind::Fraction, "1"),
        ("[ppm]", Kind::Fraction, "1"),
        ("kJ/K", Kind::HeatCapacity, "J/K"),
        ("kJ/kg/K", Kind::SpecificHeat, "J/kg/K"),
        ("W/K", Kind::Conductance, "W/K"),
        ("[degF]", Kind::Temperature, "Cel"),
        ("K", Kind::Temperature, "Cel"),
    ] {
        let ours = Unit::parse(code, kind).unwrap_or_else(|e| panic!("{code}: {e:?}")).to_si(67.3);
        let theirs = ucum::convert(67.3, code, base).unwrap_or_else(|e| panic!("{code}: {e}"));
        // The library's constants carry seven figures for psi.
        close(ours, theirs, if code == "[psi]" { 5e-7 } else { 1e-9 });
    }
}

#[test]
fn trade_spellings_are_read() {
    for (text, kind, symbol) in [
        ("°F", Kind::Temperature, "degF"),
        ("º F", Kind::Temperature, "degF"),
        ("f", Kind::Temperature, "degF"),
        ("℃", Kind::Temperature, "degC"),
        ("deg. C", Kind::Temperature, "degC"),
        ("Cel", Kind::Temperature, "degC"),
        ("KG", Kind::Mass, "kg"),
        ("Kg", Kind::Mass, "kg"),
        ("lbs.", Kind::Mass, "lb"),
        ("l", Kind::Volume, "L"),
        ("Liters", Kind::Volume, "L"),
        ("U.S. gal", Kind::Volume, "gal_us"),
        ("Imp. Gal", Kind::Volume, "gal_imp"),
        ("\"", Kind::Length, "in"),
        ("m²", Kind::Area, "m2"),
        ("MIN", Kind::Time, "min"),
        ("hrs", Kind::Time, "h"),
        ("BTU/hr", Kind::Power, "Btu/h"),
        ("BTU/lb", Kind::SpecificEnergy, "Btu/lb"),
        ("kwh", Kind::Energy, "kWh"),
        ("lpm", Kind::VolumeFlow, "L/min"),
        ("kJ/(kg·K)", Kind::SpecificHeat, "kJ/(kg K)"),
        ("kJ/kgK", Kind::SpecificHeat, "kJ/(kg K)"),
        ("W/°C", Kind::Conductance, "W/K"),
        ("in. Hg", Kind::Pressure, "inHg"),
    ] {
        assert_eq!(Unit::parse(text, kind).map(|u| u.symbol), Ok(symbol), "{text}");
    }
}

#[test]
fn two_meanings_are_refused_with_the_choices() {
    for (text, kind) in [
        ("gal", Kind::Volume),
        ("Gallons", Kind::Volume),
        ("gpm", Kind::VolumeFlow),
        ("ton", Kind::Mass),
        ("fl oz", Kind::Volume),
        ("mw", Kind::Power),
        ("therm", Kind::Energy),
        ("MG", Kind::Mass),
        ("oz", Kind::Volume),
        ("ML", Kind::Volume),
        ("ML/min", Kind::VolumeFlow),
    ] {
        assert!(matches!(Unit::parse(text, kind), Err(UnitError::Ambiguous { .. })), "{text}");
    }
    assert_eq!(Unit::parse("OZ", Kind::Mass).map(|u| u.symbol), Ok("oz"));
    let choices = "gal_us (3.785 L) or gal_imp (4.546 L)";
    assert_eq!(Unit::parse("gal", Kind::Volume), Err(UnitError::Ambiguous { text: "gal".into(), choices }));
}

#[test]
fn a_unit_of_another_kind_is_named() {
    for (text, kind, found) in [
        ("L", Kind::Mass, Kind::Volume),
        ("gal", Kind::Mass, Kind::Volume),
        ("gal_us", Kind::Mass, Kind::Volume),
        ("L/min", Kind::MassFlow, Kind::VolumeFlow),
        ("gpm", Kind::MassFlow, Kind::VolumeFlow),
        ("lb", Kind::Volume, Kind::Mass),
        ("m", Kind::Time, Kind::Length),
        ("kW", Kind::Energy, Kind::Power),
        ("%", Kind::Temperature, Kind::Fraction),
    ] {
        let text_owned = text.to_owned();
        assert_eq!(Unit::parse(text, kind), Err(UnitError::WrongKind { text: text_owned, found, kind }));
    }
}

#[test]
fn an_unknown_unit_names_the_nearest_of_its_kind() {
    let nearest = |text, kind| match Unit::parse(text, kind) {
        Err(UnitError::Unknown { nearest, .. }) => nearest,
        other => panic!("{text}: {other:?}"),
    };
    assert_eq!(nearest("litrse", Kind::Volume), Some("litre"));
    assert_eq!(nearest("kgg", Kind::Mass), Some("kg"));
    assert_eq!(nearest("degX", Kind::Temperature), Some("degC"));
    assert_eq!(nearest("bananas", Kind::Pressure), None);
    assert_eq!(nearest("", Kind::Mass), None);
}

#[test]
fn quantities_are_split_where_the_number_ends() {
    assert_eq!(parse_quantity("160 L", Kind::Volume), Ok(0.16));
    assert_eq!(parse_quantity(" 60degC ", Kind::Temperature), Ok(60.0));
    assert_eq!(parse_quantity("\u{2212}5 °C", Kind::Temperature), Ok(-5.0));
    assert_eq!(parse_quantity("1.5e3 W", Kind::Power), Ok(1500.0));
    assert_eq!(parse_quantity(".5 kg", Kind::Mass), Ok(0.5));
    assert_eq!(parse_quantity("20 %", Kind::Fraction), Ok(0.2));
    assert_eq!(parse_quantity("0.2", Kind::Fraction), Ok(0.2));
    assert!(matches!(parse_quantity("160", Kind::Volume), Err(UnitError::Unknown { .. })));
}

#[test]
fn numbers_that_cannot_be_trusted_are_refused() {
    for text in ["1,5 L", "1,000 L"] {
        assert_eq!(parse_quantity(text, Kind::Volume), Err(UnitError::Comma { text: text.into() }));
    }
    for text in ["L", "", "nan L", "inf L", "- L", ", L", "1e999 L"] {
        assert_eq!(parse_quantity(text, Kind::Volume), Err(UnitError::NoNumber { text: text.into() }), "{text}");
    }
}

#[test]
fn there_and_back() {
    let fahrenheit = Unit::parse("degF", Kind::Temperature).unwrap();
    close(fahrenheit.from_si(fahrenheit.to_si(98.6)), 98.6, 1e-14);
    assert!(symbols(Kind::Volume).any(|s| s == "gal_us"));
}

/// The float nearest to the decimal number, for every number an instrument of four digits can show; fixed points and a
/// body's 98.6 degF by the definitions of the scales.
#[test]
fn whole_parts_add_no_error_of_their_own() {
    let cases = [("%", Kind::Fraction, 2), ("g", Kind::Mass, 3), ("L", Kind::Volume, 3), ("mm", Kind::Length, 3)];
    for (symbol, kind, places) in cases {
        let unit = Unit::parse(symbol, kind).unwrap();
        for digits in 0..10_000 {
            let (value, wanted) = (format!("{digits}e-1"), format!("{digits}e-{}", places + 1));
            assert_eq!(Ok(unit.to_si(value.parse().unwrap())), wanted.parse::<f64>(), "{value} {symbol}");
        }
    }
    let fixed =
        [("32 degF", 0.0), ("98.6 degF", 37.0), ("-40 degF", -40.0), ("300.2 K", 27.05), ("671.67 degR", 100.0)];
    for (text, celsius) in fixed {
        assert_eq!(parse_quantity(text, Kind::Temperature), Ok(celsius), "{text}");
    }
}

/// Pound and foot by the international agreement of 1959 (NIST SP 811, appendix B): 0.453 592 37 kg and 0.3048 m; 16 oz, 12 in.
#[test]
fn parts_and_common_fractions() {
    let pounds = |lb: f64| lb * 0.453_592_37;
    let cases = [
        ("9 lb 6 oz", Kind::Mass, pounds(9.375)),
        ("9lb6oz", Kind::Mass, pounds(9.375)),
        ("9 lb 6.5 oz", Kind::Mass, pounds(9.0 + 6.5 / 16.0)),
        ("9 3/8 lb", Kind::Mass, pounds(9.375)),
        ("9⅜ lb", Kind::Mass, pounds(9.375)),
        ("3/8 lb", Kind::Mass, pounds(0.375)),
        ("½ lb", Kind::Mass, pounds(0.5)),
        ("2 kg 300 g", Kind::Mass, 2.3),
        ("1'6\"", Kind::Length, 1.5 * 0.3048),
        ("1' 6 1/2\"", Kind::Length, 18.5 * 0.0254),
        ("5 ft 3 in", Kind::Length, 63.0 * 0.0254),
        ("1 h 20 min", Kind::Time, 4800.0),
        ("1 h 20 min 30 s", Kind::Time, 4830.0),
        ("-1 h 20 min", Kind::Time, -4800.0),
    ];
    for (text, kind, want) in cases {
        let got = si(text, kind);
        assert!((got / want - 1.0).abs() < 1e-14, "{text}: {got} instead of {want}");
    }
}

#[test]
fn parts_that_do_not_fit_are_refused() {
    let parts = |text: &str| UnitError::Parts { text: text.into() };
    for text in ["6 oz 9 lb", "9 lb 16 oz", "9 lb 6 lb", "2 kg 3 kg"] {
        assert_eq!(parse_quantity(text, Kind::Mass), Err(parts(text)), "{text}");
    }
    let refused =
        ["9 lb 6", "9 lb -6 oz", "9 lb 6 gal", "9/8 lb", "3/0 lb", "3/14/2026 lb", "9 3 lb", "9 3/8", "1/2.5 lb"];
    for text in refused {
        assert!(parse_quantity(text, Kind::Mass).is_err(), "{text}");
    }
    assert!(parse_quantity("1/2", Kind::Fraction).is_err(), "a share is not a ratio");
    assert!(parse_quantity("3/14", Kind::Fraction).is_err());
}
