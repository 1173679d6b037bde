//! A few cells of the coverage study (`examples/coverage`), small enough for every test run: intervals from the real path
//! hold the known truth as often as theory says.

#[path = "../../examples/coverage/curve.rs"]
mod curve;
#[path = "../../examples/coverage/design.rs"]
mod design;
#[path = "../../examples/coverage/replicate.rs"]
mod replicate;
#[path = "../../examples/coverage/shared.rs"]
mod shared;
#[path = "../../examples/coverage/tally.rs"]
mod tally;
#[path = "../../examples/coverage/trial.rs"]
mod trial;

use design::Design;
use rayon::prelude::*;
use replicate::Hit;
use std::ops::RangeInclusive;

const SEED: u64 = 7;
/// Monte Carlo errors that a coverage may lie outside its bounds. With 2000 replicates that is 1.3 points at 95 %, so that an
/// interval which truly covers 93 % fails nine times in ten, in each quantity.
const MARGIN: f64 = 2.6;

fn design(all: Vec<Design>, name: &str) -> Design {
    all.into_iter().rfind(|d| d.name == name).expect("a design of the study")
}

/// All intervals of many replicates with `n` burns a group.
fn hits(design: &Design, n: usize, reps: usize) -> Vec<Hit> {
    let all: Vec<Vec<Hit>> = (0..reps).into_par_iter().map(|index| replicate::run(design, n, SEED, index)).collect();
    all.concat()
}

fn of_quantity<'a>(hits: &'a [Hit], quantity: &str) -> Vec<&'a Hit> {
    let own: Vec<&Hit> = hits.iter().filter(|h| h.quantity == quantity).collect();
    assert!(own.len() >= 300, "{quantity}: {} intervals", own.len());
    own
}

/// Coverage within the bounds, each widened by Monte Carlo errors of its own.
#[track_caller]
fn covers(hits: &[Hit], quantity: &str, bounds: RangeInclusive<f64>) {
    let own = of_quantity(hits, quantity);
    let count = own.len() as f64;
    let coverage = own.iter().filter(|h| h.held()).count() as f64 / count;
    let margin = |p: f64| MARGIN * (p * (1.0 - p) / count).sqrt();
    let (low, high) = (bounds.start() - margin(*bounds.start()), bounds.end() + margin(*bounds.end()));
    assert!((low..=high).contains(&coverage), "{quantity}: {coverage:.4} is outside {low:.4} to {high:.4}");
}

/// The mean error of the estimates is zero within three Monte Carlo errors. The estimate is the middle of its interval.
#[track_caller]
fn unbiased(hits: &[Hit], quantity: &str) {
    let error = |h: &&Hit| h.truth.map(|truth| f64::midpoint(h.lower, h.upper) - truth);
    let errors: Vec<f64> = of_quantity(hits, quantity).iter().filter_map(error).collect();
    let count = errors.len() as f64;
    let mean = errors.iter().sum::<f64>() / count;
    let sd = (errors.iter().map(|e| (e - mean) * (e - mean)).sum::<f64>() / (count - 1.0)).sqrt();
    let bound = 3.0 * sd / count.sqrt();
    assert!(mean.abs() <= bound, "{quantity}: mean error {mean} is beyond {bound}");
}

/// Fine instruments and five burns: scatter is nearly all there is, so Student's t is exact for the mean (0.95); Welch's
/// test of 5 and 5 with equal scatter holds 0.9558 (own simulation of 200 000 replicates). In single burns the display step is
/// most of the error. The heating rate between two readings is open by the bend of the curve, which this world has not.
#[test]
fn five_row_logs_with_fine_instruments() {
    let hits = self::hits(&design(design::pairs(), "five rows fine instruments"), 5, 2000);
    covers(&hits, "group_mean", 0.95..=0.95);
    covers(&hits, "prediction", 0.95..=0.95);
    covers(&hits, "difference", 0.9558..=0.9558);
    covers(&hits, "ratio", 0.9558..=0.9558);
    for quantity in ["thermal_efficiency", "heat_input"] {
        covers(&hits, quantity, 0.945..=0.955);
    }
    covers(&hits, "heating_rate", 0.99..=1.0);
    // The interval of a ratio is not symmetric. The slope between two readings is not quite that of a moment between them.
    for quantity in ["group_mean", "prediction", "difference", "thermal_efficiency"] {
        unbiased(&hits, quantity);
    }
    // Heat that arrives late bends the tank between the first two readings, which the interval counts as an error.
    let at_once = Design { longest_delay: 0.0, ..design(design::pairs(), "five rows fine instruments") };
    unbiased(&self::hits(&at_once, 5, 1000), "heat_input");
}

/// Errors of different fuels do not cancel between stoves; those of scale and probe do.
#[test]
fn five_row_logs_with_two_fuels() {
    let hits = hits(&design(design::pairs(), "five rows two fuels"), 3, 600);
    covers(&hits, "group_mean", 0.95..=0.96);
    covers(&hits, "difference", 0.95..=0.965);
    covers(&hits, "ratio", 0.95..=0.965);
    unbiased(&hits, "group_mean");
    unbiased(&hits, "difference");
}

/// Five nights that differ by far more than their noise: Student's t with four degrees of freedom is exact.
#[test]
fn a_loss_coefficient_from_nights_that_differ() {
    let design = design(design::nights(), "nights five rows differ by 15 %");
    assert_eq!(design.nights, 5);
    let hits = hits(&design, 1, 2000);
    covers(&hits, "loss_coefficient", 0.95..=0.95);
    unbiased(&hits, "loss_coefficient");
}

/// Ten verdicts on five equal stoves: a false claim in at most 5 of 100 studies (Holm 1979).
#[test]
fn equal_stoves_are_seldom_told_apart() {
    let hits = hits(&design(design::equals(), "five equal stoves five rows"), 3, 300);
    covers(&hits, "ten_differences", 0.95..=1.0);
    covers(&hits, "ten_ratios", 0.95..=1.0);
    unbiased(&hits, "group_mean");
}

/// The same seed gives the same table, whatever the number of threads.
#[test]
fn the_table_does_not_depend_on_threads() {
    let design = Design { sizes: &[2], ..design(design::pairs(), "five rows") };
    let table = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads");
        let cells = pool.install(|| tally::cells(&design, SEED, 40));
        cells.iter().map(|c| c.csv(SEED)).collect::<Vec<_>>()
    };
    let first = table(1);
    assert_eq!(first, table(3));
    assert_eq!(first[0].split(',').count(), tally::HEADER.split(',').count(), "{}", first[0]);
}
