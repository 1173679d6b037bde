//! Next step of each comparison: stop, go on, make so many more, or cross what changes together.

use super::known::{Known, differences};
use super::request::{Past, PlanRequest};
use super::sizes::{self, Levels};
use crate::compare::{is_numeric, planned_level};
use crate::result::{
    Aim, AimPlan, AimSource, BurnsNeeded, Contrast, Cross, LevelBurns, PlanAnswer, SampleSizeAdvice, TargetPlan,
    VerdictKind,
};
use crate::settings::ComparisonRequest;

/// Trials of each combination that crossing asks for, as the advice of a comparison does.
const CROSSED: u32 = 2;

/// The plans of the comparisons asked for, of those whose factor has two known levels; the first one where none has. No register
/// row is looked at.
pub fn targets(past: &Past<'_>, request: &PlanRequest) -> Vec<TargetPlan> {
    let has_levels = |r: &&ComparisonRequest| levels(past, request, r).len() > 1;
    let comparisons = past.requests.iter().filter(has_levels).count().max(1);
    let named = || past.requests.iter().filter(|r| request.factor.as_ref().is_none_or(|f| *f == r.factor));
    let mut wanted: Vec<&ComparisonRequest> = named().filter(has_levels).collect();
    if wanted.is_empty() {
        wanted.extend(named().next());
    }
    wanted.into_iter().map(|r| Target::new(past, request, r, comparisons).plan()).collect()
}

/// Levels in the order of the register, then those that only the apparatus or the request names.
fn levels(past: &Past<'_>, request: &PlanRequest, comparison: &ComparisonRequest) -> Vec<String> {
    let factor = &comparison.factor;
    let mut levels = past.comparison(comparison).map(|c| c.levels.clone()).unwrap_or_default();
    let stated = if request.factor.as_ref().is_none_or(|f| f == factor) { &request.levels[..] } else { &[] };
    let described = past.described(factor);
    for level in described.iter().chain(stated) {
        if !levels.contains(level) && comparison.only.get(factor).is_none_or(|only| only == level) {
            levels.push(level.clone());
        }
    }
    levels
}

/// Verdicts that more trials may change.
const OPEN: [VerdictKind; 2] = [VerdictKind::NoConclusion, VerdictKind::NotYet];
/// Chance that the advice of a comparison goes by.
const SEEN_POWER: f64 = crate::compare::SAMPLE_SIZE_POWER;

/// A comparison that is planned.
struct Target<'a> {
    past: &'a Past<'a>,
    request: &'a PlanRequest,
    comparison: &'a ComparisonRequest,
    levels: Vec<String>,
    pairs: Vec<&'a Contrast>,
    known: Known,
    judged: Levels,
}

impl<'a> Target<'a> {
    fn new(
        past: &'a Past<'a>,
        request: &'a PlanRequest,
        comparison: &'a ComparisonRequest,
        comparisons: usize,
    ) -> Self {
        let found = past.comparison(comparison);
        let quantity = comparison.quantities[0];
        let levels = levels(past, request, comparison);
        let pairs_of_levels = (levels.len() * levels.len().saturating_sub(1) / 2).max(1);
        let alpha = 1.0 - past.analysis.level;
        let judged = Levels {
            verdict: planned_level(alpha, comparison, comparisons) / pairs_of_levels as f64,
            interval: alpha / pairs_of_levels as f64,
        };
        let pairs = found.map(|c| differences(c, quantity)).unwrap_or_default();
        Self { past, request, comparison, levels, pairs, known: Known::new(found, quantity, request), judged }
    }

    fn plan(mut self) -> TargetPlan {
        let aims = self.aims();
        if let [AimPlan { aim: Aim::Difference { source: AimSource::Seen, .. }, .. }] = aims[..]
            && let Some(pair) = self.hardest_pair()
        {
            self.known = self.known.of_pair(pair);
        }
        let answer = self.answer(&aims);
        let stops = matches!(answer, PlanAnswer::Settled | PlanAnswer::Enough);
        let hardest = aims.iter().max_by_key(|a| rank(a.reach)).filter(|_| !stops);
        TargetPlan {
            factor: self.comparison.factor.clone(),
            only: self.comparison.only.clone(),
            kind: self.comparison.kind,
            quantity: self.comparison.quantities[0],
            levels: self.level_burns(&answer, &aims),
            relative: self.known.relative,
            scatter: self.known.scatter,
            floor: sizes::floor(&self.known, self.request.power, self.judged),
            savings: hardest.map(|a| sizes::savings(&self.known, a.aim, self.judged)).unwrap_or_default(),
            after_a_look: self.comparison.planned.is_none() && !self.pairs.is_empty(),
            aims,
            answer,
        }
    }

    /// The aims that are stated; else the margin of the comparison; else the difference seen.
    fn aims(&self) -> Vec<AimPlan> {
        if self.levels.len() < 2 || is_numeric(&self.levels) {
            return Vec::new();
        }
        let quantity = self.comparison.quantities[0];
        let stated = self.request.difference.get(&quantity).and_then(|s| s.amount(self.known.mean));
        let width = self.request.width.get(&quantity).and_then(|s| s.amount(self.known.mean));
        let margin = self.comparison.equivalence_margin.zip(self.known.mean).map(|(share, mean)| share * mean.abs());
        let margin = margin.filter(|_| width.is_none());
        let (size, source) = (stated.or(margin), if stated.is_some() { AimSource::Stated } else { AimSource::Margin });
        let difference = size.map(|size| Aim::Difference { size, power: self.request.power, source });
        let aims = difference.into_iter().chain(width.map(|size| Aim::Width { size }));
        let mut found: Vec<AimPlan> = aims.filter_map(|aim| sizes::aim_plan(&self.known, aim, self.judged)).collect();
        if found.is_empty() {
            found.extend(self.seen());
        }
        found
    }

    /// The pair whose difference as seen takes most further trials.
    fn hardest_pair(&self) -> Option<&'a Contrast> {
        self.pairs.iter().copied().max_by_key(|c| further(c))
    }

    /// That pair, with the number that the comparison advises for the difference seen.
    fn seen(&self) -> Option<AimPlan> {
        let pair = self.hardest_pair()?;
        let each = u32::try_from(pair.n.0.max(pair.n.1)).unwrap_or(u32::MAX).saturating_add(further(pair)?);
        let (size, power, source) = (pair.traced.value.abs(), SEEN_POWER, AimSource::Seen);
        let aim = Aim::Difference { size, power, source };
        Some(AimPlan { aim, reach: BurnsNeeded::Each { trials: each, cautious: None } })
    }

    fn answer(&self, aims: &[AimPlan]) -> PlanAnswer {
        if is_numeric(&self.levels) {
            return PlanAnswer::Trend { settled: self.trend_is_settled() };
        }
        if self.levels.len() < 2 {
            return PlanAnswer::FewLevels { level: self.levels.first().cloned() };
        }
        if let Some(cross) = self.cross() {
            return PlanAnswer::Cross(cross);
        }
        let has = |kinds: &[VerdictKind]| self.pairs.iter().any(|c| kinds.contains(&c.verdict));
        let all_compared = self.pairs.len() == self.levels.len() * (self.levels.len() - 1) / 2;
        let wants_width = aims.iter().any(|a| matches!(a.aim, Aim::Width { .. }));
        if all_compared && !wants_width && !has(&OPEN) {
            return PlanAnswer::Settled;
        }
        if let Some(planned) = self.comparison.planned.filter(|_| !all_compared || has(&[VerdictKind::NotYet])) {
            return PlanAnswer::GoOn { planned };
        }
        self.by_aims(aims)
    }

    /// Whether the main quantity is known to follow the numbers of the factor.
    fn trend_is_settled(&self) -> bool {
        let (quantity, factor) = (self.comparison.quantities[0], &self.comparison.factor);
        let trends = self.past.comparison(self.comparison).map(|c| &c.trends[..]).unwrap_or_default();
        trends.iter().any(|t| t.quantity == quantity && t.factor == *factor && t.confounded.is_empty() && t.follows())
    }

    fn by_aims(&self, aims: &[AimPlan]) -> PlanAnswer {
        let Some(each) = aims.iter().filter_map(|a| a.reach.trials()).max() else {
            return if aims.is_empty() { self.without_aim() } else { PlanAnswer::OutOfReach };
        };
        let fresh = self.comparison.planned.is_some() && !self.pairs.is_empty();
        let is_done = self.levels.iter().all(|level| self.done(level) >= each);
        if !is_done || fresh {
            return PlanAnswer::Burns { each, fresh };
        }
        // A pair that differs by more than is aimed at and is open all the same is not done with.
        let size = |a: &AimPlan| if let Aim::Difference { size, .. } = a.aim { Some(size) } else { None };
        let aimed = aims.iter().filter_map(size).reduce(f64::min);
        let is_open = |c: &Contrast| OPEN.contains(&c.verdict) && aimed.is_some_and(|s| c.traced.value.abs() >= s);
        let open = self.pairs.iter().filter(|c| is_open(c)).filter_map(|c| further(c)).max();
        let most = self.levels.iter().map(|level| self.done(level)).max().unwrap_or(0);
        open.map_or(PlanAnswer::Enough, |further| PlanAnswer::Burns { each: most.saturating_add(further), fresh })
    }

    /// Why there is no aim.
    fn without_aim(&self) -> PlanAnswer {
        let open = |c: &&Contrast| matches!(c.sample_size, Some(SampleSizeAdvice::Never(_)));
        if self.pairs.iter().any(open) {
            return PlanAnswer::OutOfReach;
        }
        if !self.pairs.is_empty() && self.known.scatter.is_some() {
            return PlanAnswer::TooSmall;
        }
        let quantity = &self.comparison.quantities[0];
        let has_size = self.request.difference.contains_key(quantity) || self.request.width.contains_key(quantity);
        let lacking = [
            ("difference", !has_size),
            ("scatter", self.known.scatter.is_none() && !self.request.scatter.contains_key(quantity)),
            ("mean", self.known.mean.is_none() && self.request.has_share(*quantity)),
        ];
        PlanAnswer::NoGuess { keys: lacking.into_iter().filter(|(_, lacks)| *lacks).map(|(key, _)| key).collect() }
    }

    /// Columns that change together, where every pair that is free of it is settled.
    fn cross(&self) -> Option<Cross> {
        let first = self.pairs.iter().find(|c| c.verdict == VerdictKind::Confounded)?;
        let is_open = self.pairs.iter().any(|c| OPEN.contains(&c.verdict));
        (!is_open).then(|| Cross {
            factor: self.comparison.factor.clone(),
            only: self.comparison.only.clone(),
            kind: self.comparison.kind,
            a: first.a.clone(),
            b: first.b.clone(),
            columns: first.confounded.clone(),
        })
    }

    fn level_burns(&self, answer: &PlanAnswer, aims: &[AimPlan]) -> Vec<LevelBurns> {
        let wanted = aims.iter().filter_map(|a| a.reach.trials()).max().unwrap_or(0);
        let further = |done: u32| match answer {
            PlanAnswer::GoOn { planned: each } | PlanAnswer::Burns { each, fresh: false } => each.saturating_sub(done),
            PlanAnswer::Burns { each, fresh: true } => *each,
            PlanAnswer::Cross(_) => wanted.saturating_sub(done).max(CROSSED),
            _ => 0,
        };
        let burns = |level: &String| {
            let done = self.done(level);
            LevelBurns { level: level.clone(), done, further: further(done) }
        };
        self.levels.iter().map(burns).collect()
    }

    /// Trials of a level that the main quantity is known of.
    fn done(&self, level: &str) -> u32 {
        let quantity = self.comparison.quantities[0];
        let is_it =
            |levels: &[(String, String)]| levels.iter().any(|(f, l)| *f == self.comparison.factor && l == level);
        let groups = self.past.comparison(self.comparison).map(|c| &c.groups[..]).unwrap_or_default();
        let group = groups.iter().find(|g| g.quantity == quantity && is_it(&g.levels));
        group.map_or(0, |g| u32::try_from(g.trials.len()).unwrap_or(u32::MAX))
    }
}

/// Further trials that a comparison advises for a pair.
fn further(pair: &Contrast) -> Option<u32> {
    pair.sample_size.as_ref().and_then(SampleSizeAdvice::further_trials)
}

/// The aim that takes most, out of reach last.
const fn rank(reach: BurnsNeeded) -> u64 {
    match reach {
        BurnsNeeded::Each { trials, .. } => trials as u64,
        BurnsNeeded::Beyond => u64::MAX - 1,
        BurnsNeeded::Never => u64::MAX,
    }
}
