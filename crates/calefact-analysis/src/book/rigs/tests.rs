//! Rigs together: a published set, and simulated rigs.

use super::*;
use crate::book::{Foreign, assemble};
use crate::finding::Finding;
use crate::result::{Period, Spread, Work};
use calefact_stats::dist::normal_quantile;
use rand::SeedableRng;
use rand_distr::{Distribution, Normal};
use rand_pcg::Pcg64;

/// A rig with one figure: logarithm and its standard uncertainty.
fn rig(number: usize, y: f64, u: f64) -> BookEntry {
    let half = normal_quantile(0.975) * u;
    let mean = Interval { lower: exp(y - half), upper: exp(y + half), confidence: 0.95 };
    let spread = Spread { value: exp(y), mean, next: None };
    BookEntry {
        rig: format!("rig {number}"),
        combination: CombinationIds::default(),
        name: None,
        burns: BTreeSet::from([number as u64]),
        period: Period::default(),
        currency: None,
        lines: vec![BookLine { work: Work::Heat, measure: BookMeasure::Wood, n: 4, spread, is_outside: false }],
    }
}

/// The thirteen trials of the BCG vaccine (G. A. Colditz et al. 1994, JAMA 271:698; log relative risks and variances as in
/// `tests/data/meta/studies.csv`): by restricted maximum likelihood mu = -0.7145, tau^2 = 0.3132 (W. Viechtbauer, metafor), u by Knapp and
/// Hartung 0.180792 (`tests/data/meta/combined.csv`).
#[test]
fn a_published_set() {
    let y = [
        -0.889_311_3,
        -1.585_388_7,
        -1.348_073_1,
        -1.441_551_2,
        -0.217_547_3,
        -0.786_115_6,
        -1.620_898_2,
        0.011_952_3,
        -0.469_417_6,
        -1.371_344_8,
        -0.339_358_8,
        0.445_913_4,
        -0.017_313_9,
    ];
    let v = [
        0.325_584_8,
        0.194_581_1,
        0.415_368_0,
        0.020_010_0,
        0.051_210_2,
        0.006_905_6,
        0.223_017_2,
        0.003_961_6,
        0.056_434_2,
        0.073_024_8,
        0.012_412_2,
        0.532_505_8,
        0.071_404_7_f64,
    ];
    let entries: Vec<BookEntry> = y.iter().zip(v).enumerate().map(|(i, (y, v))| rig(i, *y, v.sqrt())).collect();
    let found = lines(&entries, 0.95);
    let [line] = &found[..] else { panic!("{found:?}") };
    assert_eq!((line.rigs, line.burns), (13, 52));
    assert!((log(line.value) + 0.714_532).abs() < 1e-4 && (line.between * line.between - 0.313_243).abs() < 1e-4);
    // t(.975; 12) = 2.178813, t(.975; 11) = 2.200985 (tables).
    let half = |i: Interval| 0.5 * log(i.upper / i.lower);
    assert!((half(line.mean) - 2.178_813 * 0.180_792).abs() < 1e-4);
    let next = half(line.new_rig.expect("13 rigs"));
    assert!((next - 2.200_985 * (0.313_243_f64 + 0.180_792 * 0.180_792).sqrt()).abs() < 1e-4);
}

#[test]
fn one_rig_is_not_combined_and_two_predict_no_third() {
    assert!(lines(&[rig(0, 0.1, 0.05)], 0.95).is_empty());
    let two = lines(&[rig(0, 0.1, 0.05), rig(1, 0.3, 0.05)], 0.95);
    assert!(two.len() == 1 && two[0].new_rig.is_none() && two[0].mean.contains(1.2));
    // By hand: equal figures of 0.05 each are known to 0.05 / sqrt 2, times t(.975; 1) = 12.7062.
    let alike = lines(&[rig(0, 0.1, 0.05), rig(1, 0.1, 0.05)], 0.95);
    let half = 0.5 * log(alike[0].mean.upper / alike[0].mean.lower);
    assert!((half - 12.7062 * 0.05 / 2.0_f64.sqrt()).abs() < 1e-4, "{half}");
    let mut euro = [rig(0, 0.1, 0.05), rig(1, 0.3, 0.05)];
    for entry in &mut euro {
        entry.lines[0].measure = BookMeasure::Cost;
    }
    euro[1].currency = Some("EUR".into());
    assert!(lines(&euro, 0.95).is_empty(), "two currencies");
}

/// Rigs that scatter by 20 %, each known to 5 %: the interval of a new rig holds its mean in about 95 % of worlds. The bounds
/// allow for three standard errors of 1500 worlds and for the caution of t with k - 2 degrees of freedom.
#[test]
fn a_new_rig_lies_within_its_interval() {
    let mut rng = Pcg64::seed_from_u64(7);
    let (between, within) = (Normal::new(0.0, 0.2).unwrap(), Normal::new(0.0, 0.05).unwrap());
    for rigs in [4, 10] {
        let worlds = 1500;
        let held = (0..worlds).filter(|_| {
            let figure = |i| rig(i, between.sample(&mut rng) + within.sample(&mut rng), 0.05);
            let entries: Vec<BookEntry> = (0..rigs).map(figure).collect();
            let line = lines(&entries, 0.95).remove(0);
            line.new_rig.is_some_and(|i| i.contains(exp(between.sample(&mut rng))))
        });
        let share = held.count() as f64 / f64::from(worlds);
        assert!((0.93..0.99).contains(&share), "{rigs} rigs: {share}");
    }
}

/// By hand: 4 burns of exp(0) and 12 of exp(ln 2) have the mean (4 x 1 + 12 x 2) / 16 = 1.75, and the mean width.
#[test]
fn further_burns_of_a_rig_join_it_and_the_same_burns_do_not() {
    let mut further = rig(0, log(2.0), 0.1);
    further.burns = BTreeSet::from([90, 91]);
    further.lines[0].n = 12;
    let table = |entries: Vec<BookEntry>| Foreign { file: "other/book.csv".into(), entries };
    let (book, findings) =
        assemble(vec![rig(0, 0.0, 0.05)], vec![table(vec![further.clone()]), table(vec![further])], 0.95);
    let line = &book.entries[0].lines[0];
    assert!((book.entries.len(), line.n, book.rigs.len()) == (1, 16, 0) && (line.spread.value - 1.75).abs() < 1e-12);
    let u = log(line.spread.mean.upper / 1.75) / normal_quantile(0.975);
    assert!((u - (4.0 * 0.05 + 12.0 * 0.1) / 16.0).abs() < 1e-12, "{u}");
    assert_eq!(findings.iter().map(Finding::code).collect::<Vec<_>>(), ["book-same-rig", "book-counted-once"]);
}
