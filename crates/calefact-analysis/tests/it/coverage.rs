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
use tally::Cell;

const SEED: u64 = 7;

/// Rows of a named design with the given sizes and replicates.
fn rows(all: Vec<Design>, name: &str, sizes: &'static [usize], reps: usize) -> Vec<Cell> {
    let found = all.into_iter().find(|d| d.name == name).expect("a design of the study");
    tally::cells(&Design { sizes, ..found }, SEED, reps)
}

/// Coverage between the bounds, each widened by four Monte Carlo errors of its own.
#[track_caller]
fn holds(cells: &[Cell], quantity: &str, n: usize, lowest: f64, highest: f64) {
    let cell = cells.iter().find(|c| c.quantity == quantity && c.n == n).expect("a row of the design");
    let error = |p: f64| 4.0 * (p * (1.0 - p) / cell.reps as f64).sqrt();
    let coverage = cell.coverage();
    let (low, high) = (lowest - error(lowest), highest + error(highest));
    assert!((low..=high).contains(&coverage), "{}\n{}", tally::HEADER, cell.csv(SEED));
}

/// Fine instruments and five burns: scatter is nearly all there is, so Student's t is exact for the mean (0.95); Welch's
/// test of 5 and 5 with equal scatter holds 0.9558 (own simulation of 200 000 replicates, statistics reference,
/// section 10). Single burns rest on two degrees of freedom and the display step.
#[test]
fn five_row_logs_with_fine_instruments() {
    let cells = rows(design::pairs(), "five rows fine instruments", &[5], 500);
    holds(&cells, "group_mean", 5, 0.95, 0.95);
    holds(&cells, "prediction", 5, 0.95, 0.95);
    holds(&cells, "difference", 5, 0.9558, 0.9558);
    holds(&cells, "ratio", 5, 0.9558, 0.9558);
    for quantity in ["thermal_efficiency", "heat_input", "heating_rate"] {
        holds(&cells, quantity, 1, 0.94, 0.96);
    }
}

/// Errors of different fuels do not cancel between stoves; those of scale and probe do.
#[test]
fn five_row_logs_with_two_fuels() {
    let cells = rows(design::pairs(), "five rows two fuels", &[3], 500);
    holds(&cells, "group_mean", 3, 0.94, 0.96);
    holds(&cells, "difference", 3, 0.95, 0.97);
    holds(&cells, "ratio", 3, 0.95, 0.97);
}

/// Five nights that differ by far more than their noise: Student's t with four degrees of freedom is exact.
#[test]
fn a_loss_coefficient_from_nights_that_differ() {
    let all = design::nights().into_iter().filter(|d| d.nights == 5).collect();
    let cells = rows(all, "nights five rows differ by 15 %", &[1], 1000);
    holds(&cells, "loss_coefficient", 5, 0.95, 0.95);
}

/// Ten verdicts on five equal stoves: a false claim in at most 5 of 100 studies (Holm 1979).
#[test]
fn equal_stoves_are_seldom_told_apart() {
    let cells = rows(design::equals(), "five equal stoves five rows", &[5], 300);
    holds(&cells, "ten_differences", 5, 0.95, 1.0);
    holds(&cells, "ten_ratios", 5, 0.95, 1.0);
}

/// The same seed gives the same table, whatever the number of threads.
#[test]
fn the_table_does_not_depend_on_threads() {
    let table = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads");
        let cells = pool.install(|| rows(design::pairs(), "five rows", &[2], 40));
        cells.iter().map(|c| c.csv(SEED)).collect::<Vec<_>>()
    };
    assert_eq!(table(1), table(3));
}
