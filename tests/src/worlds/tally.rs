//! Counting: from the hits of many draws to one row a cell, the same for any number of threads.

use super::design::Design;
use super::hits::{Given, Hit, Verdict, What};
use super::replicate;
use std::collections::BTreeMap;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};
use std::thread;

/// Level of all intervals.
const NOMINAL: f64 = 0.95;

/// Header of the table.
pub const HEADER: &str = "world,logging,missing,n,quantity,what,replicates,given,nominal,coverage,mc_error,mean_error,\
mean_error_mc,mean_width,settled,wrong_sign,false_verdicts";

/// One quantity in one way of looking at it, in one world.
#[derive(Debug, Clone)]
pub struct Cell {
    /// Quantity.
    pub quantity: String,
    /// What the intervals are about.
    pub what: What,
    /// Draws of the world that gave the quantity.
    pub replicates: usize,
    /// Share of the numbers looked for that were given.
    pub given: f64,
    /// Share of intervals that held the truth, and its Monte Carlo standard error.
    pub coverage: [f64; 2],
    /// Mean error in standard uncertainties, and its Monte Carlo standard error.
    pub error: [f64; 2],
    /// Mean width.
    pub width: f64,
    /// Shares of verdicts that settled, had the wrong sign, and were false; none where there is no verdict.
    pub verdicts: Option<[f64; 3]>,
}

impl Cell {
    /// The row as CSV.
    pub fn csv(&self, design: &Design) -> String {
        let Self { quantity, what, replicates, given, coverage, error, width, verdicts } = self;
        let (world, logging, missing, n) = (&design.name, design.logging(), &design.missing, design.world.burns);
        let verdicts = verdicts.map_or_else(|| ",,".into(), |v| v.map(|share| format!("{share:.4}")).join(","));
        format!(
            "{world},{logging},{missing},{n},{quantity},{},{replicates},{given:.3},{NOMINAL},{:.4},{:.4},{:.3},{:.3},{width:.4e},{verdicts}",
            what.name(),
            coverage[0],
            coverage[1],
            error[0],
            error[1],
        )
    }
}

/// All cells of a world. Single burns are looked at only where there are three of each stove, since their number does not
/// matter to them.
pub fn cells(design: &Design, replicates: u64) -> Vec<Cell> {
    let mut by_cell: BTreeMap<(String, What), Vec<Vec<Option<Given>>>> = BTreeMap::new();
    for hits in draws(design, replicates).into_iter().flatten() {
        let mut of_draw: BTreeMap<(String, What), Vec<Option<Given>>> = BTreeMap::new();
        for Hit { quantity, what, given } in hits {
            of_draw.entry((quantity, what)).or_default().push(given);
        }
        for (key, given) in of_draw {
            by_cell.entry(key).or_default().push(given);
        }
    }
    by_cell.retain(|(_, what), _| *what != What::Trial || design.world.burns == 3);
    by_cell.into_iter().filter_map(|((quantity, what), draws)| cell(quantity, what, &draws)).collect()
}

/// Runs all draws on all processors; their order is that of their seeds.
fn draws(design: &Design, replicates: u64) -> Vec<Option<Vec<Hit>>> {
    let (next, done) = (AtomicU64::new(0), Mutex::new(BTreeMap::new()));
    let work = || {
        loop {
            let seed = next.fetch_add(1, Ordering::Relaxed);
            if seed >= replicates {
                return;
            }
            let hits = replicate::run(design, seed);
            done.lock().expect("no draw has failed").insert(seed, hits);
        }
    };
    thread::scope(|scope| {
        for _ in 0..thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(work);
        }
    });
    done.into_inner().expect("no draw has failed").into_values().collect()
}

/// The cell of some draws, each with what it gave; none if no draw gave anything.
fn cell(quantity: String, what: What, draws: &[Vec<Option<Given>>]) -> Option<Cell> {
    let sought = draws.iter().map(Vec::len).sum::<usize>() as f64;
    let draws: Vec<Vec<Given>> = draws.iter().map(|d| d.iter().flatten().copied().collect()).collect();
    let draws: Vec<Vec<Given>> = draws.into_iter().filter(|d| !d.is_empty()).collect();
    let all: Vec<Given> = draws.iter().flatten().copied().collect();
    if all.is_empty() {
        return None;
    }
    let count = all.len() as f64;
    let share = |wanted: &[Verdict]| {
        all.iter().filter(|g| g.verdict.is_some_and(|v| wanted.contains(&v))).count() as f64 / count
    };
    let settled = [Verdict::Right, Verdict::WrongSign, Verdict::False];
    let judged = all.iter().any(|g| g.verdict.is_some());
    let [coverage, least] = [mean(&draws, |g| f64::from(u8::from(g.held))), least_error(&draws)];
    Some(Cell {
        quantity,
        what,
        replicates: draws.len(),
        given: count / sought,
        coverage: [coverage[0], coverage[1].max(least[1])],
        error: mean(&draws, |g| g.scaled),
        width: all.iter().map(|g| g.width).sum::<f64>() / count,
        verdicts: judged.then(|| [share(&settled), share(&[Verdict::WrongSign]), share(&[Verdict::False])]),
    })
}

/// Mean of a figure over all intervals, and its standard error from the spread between draws: the burns of a draw share
/// instruments and habits.
fn mean(draws: &[Vec<Given>], figure: impl Fn(&Given) -> f64) -> [f64; 2] {
    let count = draws.iter().map(Vec::len).sum::<usize>() as f64;
    let mean = draws.iter().flatten().map(&figure).sum::<f64>() / count;
    let spread: f64 = draws.iter().map(|d| d.iter().map(|g| figure(g) - mean).sum::<f64>().powi(2)).sum();
    let n = draws.len() as f64;
    [mean, (spread * n / (n - 1.0).max(1.0)).sqrt() / count]
}

/// Least standard error of a share, sqrt(p (1 - p) / n) with p = (held + 1) / (n + 2), so that it is never zero.
fn least_error(draws: &[Vec<Given>]) -> [f64; 2] {
    let n = draws.iter().map(Vec::len).sum::<usize>() as f64;
    let held = draws.iter().flatten().filter(|g| g.held).count() as f64;
    let p = (held + 1.0) / (n + 2.0);
    [p, (p * (1.0 - p) / n).sqrt()]
}
