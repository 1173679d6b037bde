//! The burns in order: randomised within blocks, balanced over days and over the places in a day.
//!
//! Each day is a block. The levels of the column that asks for most burns are dealt out so that each day, and any number of first
//! days, holds them as evenly as their wanted numbers allow; the other columns take the combination that is
//! rarest so far, burns already made counted. Within a day the levels change places until each has been first, second and so
//! on as often as the others, as far as that goes: the first burn of a day finds a cold rig. What these rules leave open is
//! drawn by lot.

use super::factors::{Factors, Varied};
use super::names::continued;
use super::request::{Past, PlanRequest};
use crate::result::{BurnOrder, PlannedBurn};
use calefact_data::TrialKind;
use calefact_stats::rng::{below, stream};
use jiff::ToSpan;
use rand_pcg::Pcg64;
use std::collections::BTreeMap;

/// Levels of one burn, by place in the list of the levels of each varied column.
type Cell = Vec<usize>;

/// The order of the burns that the factors ask for.
pub(super) fn order(past: &Past<'_>, request: &PlanRequest, factors: &Factors) -> BurnOrder {
    let mut lot = stream(request.seed, "plan/order");
    let per_day = request.burns_per_day.max(1);
    let mut cells = dealt(past, &factors.vary, per_day, &mut lot);
    let mut places = Places::new(&factors.vary);
    for day in cells.chunks_mut(per_day) {
        places.arrange(day, &mut lot);
    }
    let days = cells.len().div_ceil(per_day);
    let burns = past.rows.iter().filter(|r| r.kind == TrialKind::Burn);
    let trials = continued(burns.map(|r| r.trial.as_str()), "p", cells.len());
    let blocks = continued(past.rows.iter().filter_map(|r| r.block.as_deref()), "d", days);
    let date = |day: usize| {
        let first = request.first_day?;
        first.checked_add(i64::try_from(day).unwrap_or(0).days()).ok().map(|d| d.to_string())
    };
    let levels = |cell: &Cell| {
        let varied = factors.vary.iter().zip(cell).map(|(f, &l)| (f.column.clone(), f.levels[l].clone()));
        varied.chain(factors.hold.iter().cloned()).collect()
    };
    let burn = |(i, cell): (usize, &Cell)| PlannedBurn {
        day: i / per_day + 1,
        date: date(i / per_day),
        position: i % per_day + 1,
        block: blocks[i / per_day].clone(),
        trial: trials[i].clone(),
        levels: levels(cell),
    };
    BurnOrder { burns: cells.iter().enumerate().map(burn).collect(), seed: request.seed, per_day }
}

/// The burns, days not yet arranged.
fn dealt(past: &Past<'_>, vary: &[Varied], per_day: usize, lot: &mut Pcg64) -> Vec<Cell> {
    let mut wanted: Vec<Vec<u64>> = vary.iter().map(|f| f.wanted.clone()).collect();
    let mut made = made(past, vary);
    let others = combinations(&vary[1..]);
    let mut cells: Vec<Cell> = Vec::new();
    while wanted[0].iter().any(|n| *n > 0) {
        let levels: Vec<usize> = (0..vary[0].levels.len()).filter(|l| wanted[0][*l] > 0).collect();
        let today = &cells[cells.len() - cells.len() % per_day..];
        let in_day = |level: usize| today.iter().filter(|cell| cell[0] == level).count();
        let first = *draw(&levels, |l| (in_day(*l), std::cmp::Reverse(wanted[0][*l])), lot);
        let rarity = |other: &Cell| {
            let cell = [&[first], &other[..]].concat();
            let missing: u64 = other.iter().zip(&wanted[1..]).map(|(l, wanted)| wanted[*l]).sum();
            let alike =
                |place: usize| made.iter().filter(|(c, _)| c[place] == cell[place]).map(|(_, n)| n).sum::<u64>();
            let in_level = made.get(&cell).copied().unwrap_or(0);
            (std::cmp::Reverse(missing), in_level, (1..cell.len()).map(alike).sum::<u64>())
        };
        let other = draw(&others, rarity, lot);
        let cell = [&[first], &other[..]].concat();
        for (place, level) in cell.iter().enumerate() {
            wanted[place][*level] = wanted[place][*level].saturating_sub(1);
        }
        *made.entry(cell.clone()).or_insert(0) += 1;
        cells.push(cell);
    }
    cells
}

/// Burns already made, by cell; those with another level do not count.
fn made(past: &Past<'_>, vary: &[Varied]) -> BTreeMap<Cell, u64> {
    let mut made = BTreeMap::new();
    for row in past.burns() {
        let place = |f: &Varied| f.levels.iter().position(|l| l == row.level(&f.column).unwrap_or_default());
        if let Some(cell) = vary.iter().map(place).collect::<Option<Cell>>() {
            *made.entry(cell).or_insert(0) += 1;
        }
    }
    made
}

/// All combinations of the levels of some columns.
fn combinations(columns: &[Varied]) -> Vec<Cell> {
    columns.iter().fold(vec![Vec::new()], |known, column| {
        let with = |cell: &Cell| (0..column.levels.len()).map(|l| [&cell[..], &[l]].concat()).collect::<Vec<_>>();
        known.iter().flat_map(with).collect()
    })
}

/// One of the things with the least key, by lot.
fn draw<'t, T, K: Ord>(things: &'t [T], key: impl Fn(&T) -> K, lot: &mut Pcg64) -> &'t T {
    let keys: Vec<K> = things.iter().map(key).collect();
    let least: Vec<usize> = (0..keys.len()).filter(|&i| keys.iter().all(|k| keys[i] <= *k)).collect();
    &things[least[below(lot, least.len())]]
}

/// How often each level has had each place in a day.
struct Places {
    /// By column and level: counts by place.
    counts: Vec<Vec<Vec<u64>>>,
}

impl Places {
    fn new(vary: &[Varied]) -> Self {
        Self { counts: vary.iter().map(|f| vec![Vec::new(); f.levels.len()]).collect() }
    }

    /// Puts the burns of a day in order, from a random one by exchanges of two as long as they help, and counts it.
    fn arrange(&mut self, day: &mut [Cell], lot: &mut Pcg64) {
        for i in (1..day.len()).rev() {
            day.swap(i, below(lot, i + 1));
        }
        let burns = day.len();
        let pairs: Vec<(usize, usize)> = (0..burns).flat_map(|a| (a + 1..burns).map(move |b| (a, b))).collect();
        let helps = |day: &[Cell], (a, b): (usize, usize)| {
            let at = |cell: usize, place: usize| self.cost(&day[cell], place);
            at(a, b) + at(b, a) < at(a, a) + at(b, b)
        };
        while let Some(&(a, b)) = pairs.iter().find(|pair| helps(day, **pair)) {
            day.swap(a, b);
        }
        for (place, cell) in day.iter().enumerate() {
            for (counts, level) in self.counts.iter_mut().zip(cell) {
                let counts = &mut counts[*level];
                counts.resize(counts.len().max(place + 1), 0);
                counts[place] += 1;
            }
        }
    }

    /// How often the levels of a burn have had a place; the first column and the first place weigh most.
    fn cost(&self, cell: &Cell, place: usize) -> u64 {
        let count = |(column, level): (usize, &usize)| {
            let count = self.counts[column][*level].get(place).copied().unwrap_or(0);
            if column == 0 { 4 * count } else { count }
        };
        let sum: u64 = cell.iter().enumerate().map(count).sum();
        if place == 0 { 3 * sum } else { sum }
    }
}
