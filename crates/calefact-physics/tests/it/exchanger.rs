//! Exchanger relations against a library's tables and a textbook example.

use crate::assert_near;
use Arrangement::{Counter, CrossGasMixed, CrossUnmixed, CrossWaterMixed, Parallel};
use calefact_physics::exchanger::{Arrangement, Stream, effectiveness, ntu, tube_area};

/// The five arrangements and the stream of least capacity rate, in the order of [`HT`]; a mixed stream counts by its
/// capacity rate, so that the third and the fourth hold for either stream.
const ALL: [[(Arrangement, Stream); 2]; 5] = [
    [(Counter, Stream::Gas), (Counter, Stream::Water)],
    [(Parallel, Stream::Gas), (Parallel, Stream::Water)],
    [(CrossGasMixed, Stream::Gas), (CrossWaterMixed, Stream::Water)],
    [(CrossWaterMixed, Stream::Gas), (CrossGasMixed, Stream::Water)],
    [(CrossUnmixed, Stream::Gas), (CrossUnmixed, Stream::Water)],
];

/// `ht.hx.effectiveness_from_NTU` of the library ht 1.2.0: NTU, C_r, then counterflow, parallel flow, cross flow with
/// the stream of least capacity rate mixed, with that of greatest mixed, with neither mixed.
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

fn every_arrangement() -> impl Iterator<Item = (Arrangement, Stream)> {
    ALL.into_iter().flatten()
}

#[test]
fn effectiveness_and_its_inverse_agree_with_the_tables() {
    for (n, c, row) in HT {
        for (forms, expected) in ALL.into_iter().zip(row) {
            for (arrangement, least) in forms {
                let e = effectiveness(n, c, arrangement, least).unwrap();
                assert_near(e, expected, 5.1e-7);
                assert_near(ntu(e, c, arrangement, least).unwrap(), n, 1e-9);
            }
        }
    }
}

/// C_r = 0: 1 - exp(-NTU) for every arrangement, table computed with the same library's formula.
#[test]
fn a_boiling_or_very_large_stream_makes_all_arrangements_alike() {
    for (n, expected) in
        [(0.25, 0.221_199), (0.5, 0.393_469), (1.0, 0.632_121), (2.0, 0.864_665), (3.0, 0.950_213), (5.0, 0.993_262)]
    {
        for (arrangement, least) in every_arrangement() {
            let e = effectiveness(n, 0.0, arrangement, least).unwrap();
            assert_near(e, expected, 5.1e-7);
            // The branch at zero joins the formulas beside it.
            assert_near(effectiveness(n, 1e-9, arrangement, least).unwrap(), e, 1e-8);
            assert_near(ntu(e, 0.0, arrangement, least).unwrap(), n, 1e-9);
            assert_near(ntu(e, 1e-9, arrangement, least).unwrap(), n, 1e-5);
        }
    }
}

/// ht 1.2.0: inverse values; and the join at C_r = 1.
#[test]
fn inverse_values_and_the_join_at_one() {
    assert_near(ntu(0.6, 0.5, Counter, Stream::Gas).unwrap(), 1.119_232, 5.1e-7);
    assert_near(ntu(0.5, 0.5, Parallel, Stream::Gas).unwrap(), 0.924_196, 5.1e-7);
    assert_near(effectiveness(2.0, 1.0 - 1e-9, Counter, Stream::Gas).unwrap(), 2.0 / 3.0, 1e-9);
    assert_near(ntu(0.6, 1.0 - 1e-9, Counter, Stream::Gas).unwrap(), 1.5, 1e-8);
}

/// The limits for endless surface: 1/(1 + C_r) in parallel flow, 1 - exp(-1/C_r) and (1 - exp(-C_r))/C_r with one
/// stream mixed, else 1.
#[test]
fn effectiveness_nears_its_limit_and_never_passes_it() {
    let c = 0.5_f64;
    let limits = [1.0, 1.0 / (1.0 + c), 1.0 - libm::exp(-1.0 / c), (1.0 - libm::exp(-c)) / c, 1.0];
    for (forms, limit) in ALL.into_iter().zip(limits) {
        for (arrangement, least) in forms {
            assert!(effectiveness(900.0, c, arrangement, least).unwrap() <= limit + 1e-12);
            // Cross flow of two unmixed streams nears its limit slowly.
            let tolerance = if arrangement == CrossUnmixed { 1e-4 } else { 1e-8 };
            assert_near(effectiveness(60.0, c, arrangement, least).unwrap(), limit, tolerance);
            assert!(ntu(limit, c, arrangement, least).is_err());
            assert_near(ntu(limit + 0.01, c, arrangement, least).unwrap_err().high, limit, 1e-12);
            assert!(ntu(limit - 1e-3, c, arrangement, least).is_ok());
            assert!(ntu(-0.01, c, arrangement, least).is_err());
            assert!(effectiveness(1.0, 1.01, arrangement, least).is_err());
            assert!(effectiveness(f64::NAN, c, arrangement, least).is_err());
            assert_near(effectiveness(0.0, c, arrangement, least).unwrap(), 0.0, 0.0);
            assert_near(ntu(0.0, c, arrangement, least).unwrap(), 0.0, 1e-15);
        }
    }
    let error = ntu(0.7, 1.0, Parallel, Stream::Gas).unwrap_err();
    assert_eq!((error.value, error.low, error.high), (0.7, 0.0, 0.5));
    assert_eq!(error.to_string(), "effectiveness is 0.7, outside 0 to 0.5");
}

/// Incropera & DeWitt, example 11.1 (from memory): oil 0.1 kg/s, 2131 J/(kg K), 100 to 60 degC; water 0.2 kg/s, 4178,
/// from 30 degC; counterflow, log-mean difference 43.2 K.
#[test]
fn incropera_example_11_1() {
    let (oil, water) = (0.1 * 2131.0, 0.2 * 4178.0);
    let heat = oil * 40.0;
    let units = ntu(40.0 / 70.0, oil / water, Counter, Stream::Gas).unwrap();
    assert_near(heat / (units * oil), 43.2, 0.05);
}

/// Cylinder surface: 1/2-inch tube (15.875 mm outside), 10 m.
#[test]
fn surface_of_a_tube() {
    assert_near(tube_area(0.015_875, 10.0), 0.498_728, 5e-7);
}
