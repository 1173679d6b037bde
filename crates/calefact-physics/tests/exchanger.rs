//! Exchanger relations against a library's tables and a textbook example.

use Arrangement::{Counter, CrossMaxMixed, CrossMinMixed, CrossUnmixed, Parallel};
use calefact_physics::exchanger::{
    Arrangement, Ends, conductance, correction_factor, duty, effectiveness, lmtd, ntu, tube_area,
};

const ALL: [Arrangement; 5] = [Counter, Parallel, CrossMinMixed, CrossMaxMixed, CrossUnmixed];

#[track_caller]
fn near(actual: f64, expected: f64, tolerance: f64) {
    assert!((actual - expected).abs() <= tolerance, "{actual} is not {expected} within {tolerance}");
}

/// `ht.hx.effectiveness_from_NTU` of the library ht 1.2.0: NTU, C_r, then the five arrangements in the order of `ALL`.
const HT: [(f64, f64, [f64; 5]); 15] = [
    (0.5, 0.25, [0.377_589, 0.371_791, 0.375_005, 0.374_736, 0.375_094]),
    (1.0, 0.25, [0.598_286, 0.570_796, 0.587_202, 0.584_704, 0.588_011]),
    (2.0, 0.25, [0.822_766, 0.734_332, 0.792_760, 0.777_594, 0.797_422]),
    (3.0, 0.25, [0.918_811, 0.781_186, 0.878_827, 0.845_780, 0.888_457]),
    (0.5, 0.5, [0.362_266, 0.351_756, 0.357_506, 0.357_183, 0.357_827]),
    (1.0, 0.5, [0.564_733, 0.517_913, 0.544_764, 0.541_969, 0.547_490]),
    (2.0, 0.5, [0.774_600, 0.633_475, 0.717_546, 0.702_013, 0.732_409]),
    (3.0, 0.5, [0.874_425, 0.659_261, 0.788_544, 0.756_362, 0.819_708]),
    (0.5, 0.75, [0.347_511, 0.333_222, 0.340_945, 0.340_726, 0.341_595]),
    (1.0, 0.75, [0.531_857, 0.472_129, 0.505_155, 0.503_399, 0.510_309]),
    (2.0, 0.75, [0.721_827, 0.554_173, 0.645_067, 0.636_226, 0.671_080]),
    (3.0, 0.75, [0.817_118, 0.568_430, 0.696_630, 0.679_549, 0.749_406]),
    (1.0, 1.0, [0.500_000, 0.432_332, 0.468_536, 0.468_536, 0.476_222]),
    (2.0, 1.0, [0.666_667, 0.490_842, 0.578_807, 0.578_807, 0.614_247]),
    (3.0, 1.0, [0.750_000, 0.498_761, 0.613_341, 0.613_341, 0.681_291]),
];

#[test]
fn effectiveness_tables_and_their_inverse() {
    for (n, c, row) in HT {
        for (arrangement, expected) in ALL.into_iter().zip(row) {
            let e = effectiveness(n, c, arrangement).unwrap();
            near(e, expected, 5.1e-7);
            near(ntu(e, c, arrangement).unwrap(), n, 1e-9);
        }
    }
}

/// C_r = 0: 1 - exp(-NTU) for every arrangement, table computed with the same library's formula.
#[test]
fn boiling_or_very_large_stream() {
    for (n, expected) in
        [(0.25, 0.221_199), (0.5, 0.393_469), (1.0, 0.632_121), (2.0, 0.864_665), (3.0, 0.950_213), (5.0, 0.993_262)]
    {
        for arrangement in ALL {
            near(effectiveness(n, 0.0, arrangement).unwrap(), expected, 5.1e-7);
            // The branch at zero joins the formulas beside it.
            near(effectiveness(n, 1e-9, arrangement).unwrap(), expected, 6e-7);
            near(ntu(effectiveness(n, 0.0, arrangement).unwrap(), 0.0, arrangement).unwrap(), n, 1e-9);
        }
    }
}

/// ht 1.2.0: inverse values; and the join at C_r = 1.
#[test]
fn inverse_values_and_the_join_at_one() {
    near(ntu(0.6, 0.5, Counter).unwrap(), 1.119_232, 5.1e-7);
    near(ntu(0.5, 0.5, Parallel).unwrap(), 0.924_196, 5.1e-7);
    near(effectiveness(2.0, 1.0 - 1e-9, Counter).unwrap(), 2.0 / 3.0, 1e-9);
    near(ntu(0.6, 1.0 - 1e-9, Counter).unwrap(), 1.5, 1e-8);
}

#[test]
fn limits_are_errors() {
    for arrangement in ALL {
        let limit = arrangement.limit(0.5);
        assert!(effectiveness(900.0, 0.5, arrangement).unwrap() <= limit + 1e-12);
        // Cross flow of two unmixed streams nears its limit slowly.
        let tolerance = if arrangement == CrossUnmixed { 1e-4 } else { 1e-8 };
        near(effectiveness(60.0, 0.5, arrangement).unwrap(), limit, tolerance);
        assert!(ntu(limit, 0.5, arrangement).is_err());
        assert!(ntu(-0.01, 0.5, arrangement).is_err());
        assert!(effectiveness(1.0, 1.01, arrangement).is_err());
        assert!(effectiveness(f64::NAN, 0.5, arrangement).is_err());
    }
    let error = ntu(0.7, 1.0, Parallel).unwrap_err();
    assert_eq!((error.value, error.low, error.high), (0.7, 0.0, 0.5));
    assert_eq!(error.to_string(), "effectiveness is 0.7, outside 0 to 0.5");
}

/// `ht.LMTD` of ht 1.2.0, and the limit of equal ends.
#[test]
fn log_mean_differences() {
    near(lmtd(100.0, 60.0, 30.0, 40.2, Counter).unwrap(), 43.2004, 5e-5);
    near(lmtd(100.0, 60.0, 30.0, 40.2, Parallel).unwrap(), 39.7525, 5e-5);
    near(lmtd(400.0, 150.0, 20.0, 60.0, Counter).unwrap(), 218.428_92, 5e-6);
    near(lmtd(400.0, 150.0, 20.0, 60.0, Parallel).unwrap(), 201.338_33, 5e-6);
    near(lmtd(90.0, 70.0, 10.0, 30.0, Counter).unwrap(), 60.0, 0.0);
    near(lmtd(90.0, 70.0, 10.0, 30.0 + 1e-9, Counter).unwrap(), 60.0, 1e-9);
    assert!(lmtd(90.0, 25.0, 10.0, 30.0, Parallel).is_err());
}

/// Incropera & DeWitt, example 11.1: oil 0.1 kg/s, 2131 J/(kg K), 100 to 60 degC; water 0.2 kg/s, 4178, from 30 degC.
#[test]
fn incropera_example_11_1() {
    let q = 0.1 * 2131.0 * 40.0;
    near(q, 8524.0, 1e-9);
    let ends = Ends { hot_in: 100.0, hot_out: 60.0, cold_in: 30.0, cold_out: 30.0 + q / (0.2 * 4178.0) };
    near(ends.cold_out, 40.201, 5e-4);
    let mean = lmtd(ends.hot_in, ends.hot_out, ends.cold_in, ends.cold_out, Counter).unwrap();
    near(mean, 43.200, 5e-4);
    near(conductance(q, ends, Counter).unwrap(), q / mean, 1e-9);
}

/// Flue-coil example computed with ht 1.2.0: gas 0.012 kg/s, 1080 J/(kg K), 350 degC; water 0.05 kg/s, 4181, 15 degC;
/// UA 15 W/K. Effectiveness, heat flow, outlets, LMTD, F.
#[test]
fn flue_coil_example() {
    for (arrangement, e, q, hot, cold, mean, factor) in [
        (Counter, 0.676_481, 2937.010, 123.3789, 29.0493, 195.8006, 1.0),
        (Parallel, 0.666_163, 2892.215, 126.8353, 28.8350, 192.8143, 1.0),
        (CrossMinMixed, 0.672_694, 2920.567, 124.6476, 28.9707, 196.7694, 0.989_506),
        (CrossMaxMixed, 0.671_330, 2914.646, 125.1045, 28.9423, 197.1173, 0.985_757),
    ] {
        let (ch, cc) = (0.012 * 1080.0, 0.05 * 4181.0);
        let d = duty(15.0, (ch, 350.0), (cc, 15.0), arrangement).unwrap();
        near(d.effectiveness, e, 5.1e-7);
        near(d.heat_flow, q, 5.1e-4);
        near(d.hot_out, hot, 5.1e-5);
        near(d.cold_out, cold, 5.1e-5);
        near(lmtd(350.0, d.hot_out, 15.0, d.cold_out, arrangement).unwrap(), mean, 5.1e-5);
        near(correction_factor(d.effectiveness, ch / cc, arrangement).unwrap(), factor, 5.1e-7);
        let ends = Ends { hot_in: 350.0, hot_out: d.hot_out, cold_in: 15.0, cold_out: d.cold_out };
        assert!(ends.hot_is_min());
        near(ends.effectiveness().unwrap(), e, 5.1e-7);
        near(conductance(d.heat_flow, ends, arrangement).unwrap(), 15.0, 1e-9);
    }
}

/// Common practice, no source: flue gas from 1160 to 315 degF over a coil in 76 degF water is about 0.78.
#[test]
fn trade_figure_of_a_good_coil() {
    let c = |f: f64| (f - 32.0) / 1.8;
    let ends = Ends { hot_in: c(1160.0), hot_out: c(315.0), cold_in: c(76.0), cold_out: c(118.0) };
    near(ends.effectiveness().unwrap(), 0.78, 0.005);
}

#[test]
fn impossible_ends_are_refused() {
    let good = Ends { hot_in: 300.0, hot_out: 150.0, cold_in: 20.0, cold_out: 40.0 };
    assert!(conductance(0.0, good, Counter).is_err());
    assert!(conductance(100.0, Ends { hot_out: 310.0, ..good }, Counter).is_err());
    assert!(Ends { hot_in: 10.0, ..good }.effectiveness().is_err());
    assert!(Ends { hot_out: 10.0, ..good }.effectiveness().is_err());
    assert!(duty(1.0, (0.0, 300.0), (1.0, 20.0), Counter).is_err());
    assert_eq!(Arrangement::cross_mixed(true, true), CrossMinMixed);
    assert_eq!(Arrangement::cross_mixed(true, false), CrossMaxMixed);
}

/// Cylinder surface: 1/2-inch tube (15.875 mm outside), 10 m.
#[test]
fn surface_of_a_tube() {
    near(tube_area(0.015_875, 10.0), 0.498_728, 5e-7);
}
