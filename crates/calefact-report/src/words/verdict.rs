//! Verdicts on two levels: one plain sentence each, the answer first.

use super::comparison_finding::{noun, origin};
use super::confounding::Together;
use super::number::places;
use super::quantity::quantity_in_sentence;
use super::{DisplayUnit, Wording, capital, plural};
use calefact_analysis::result::{Comparison, Contrast, ContrastKind, SampleSizeAdvice, VerdictKind};
use calefact_analysis::{Better, Quantity};
use calefact_data::TrialKind;

/// The verdict on a contrast of a comparison.
pub(crate) fn verdict(w: &Wording<'_>, comparison: &Comparison, contrast: &Contrast) -> String {
    let pair = Pair::new(w, comparison.kind, contrast);
    match (contrast.kind, contrast.verdict) {
        (ContrastKind::Ratio, _) => pair.ratio(),
        (_, VerdictKind::Above | VerdictKind::Below) => pair.settled(),
        (_, VerdictKind::Equivalent) => pair.alike(),
        (_, VerdictKind::NoConclusion) => pair.open(),
        (_, VerdictKind::NotYet) => pair.early(),
        (_, VerdictKind::Confounded) => pair.confounded(),
    }
}

/// A verdict in a word or two, of the first level against the second.
pub(super) fn verdict_word(kind: VerdictKind) -> &'static str {
    match kind {
        VerdictKind::Above => "higher",
        VerdictKind::Below => "lower",
        VerdictKind::Equivalent => "alike",
        VerdictKind::NoConclusion => "no conclusion",
        VerdictKind::NotYet => "not yet",
        VerdictKind::Confounded => "not told apart from another column",
    }
}

/// What the level with more, or less, of a quantity does, to be followed by "than" and the other level.
fn claim(quantity: Quantity, more: bool) -> String {
    let (high, low) = match quantity {
        Quantity::ThermalEfficiency => {
            ("turns more of the wood into hot water", "turns less of the wood into hot water")
        }
        Quantity::FuelPerHeat => ("needs more wood per kWh of heat", "needs less wood per kWh of heat"),
        Quantity::HeatInput | Quantity::SteadyHeatInput => ("heats the vessel harder", "heats the vessel less hard"),
        Quantity::HeatingRate => ("heats the water faster", "heats the water more slowly"),
        Quantity::BurnRate => ("burns wood faster", "burns wood more slowly"),
        Quantity::CostPerHeat => ("costs more per kWh of heat", "costs less per kWh of heat"),
        Quantity::ExchangerEffectiveness => {
            ("takes more of the heat out of the flue gas", "takes less of the heat out of the flue gas")
        }
        Quantity::FlueLoss => ("loses more heat up the flue", "loses less heat up the flue"),
        Quantity::ReferenceTime => ("takes longer for the reference job", "does the reference job sooner"),
        Quantity::ReferenceFuel => ("needs more wood for the reference job", "needs less wood for the reference job"),
        _ => return format!("has {} {}", if more { "more" } else { "less" }, quantity_in_sentence(quantity)),
    };
    if more { high.into() } else { low.into() }
}

/// Both levels, the one to speak of first in front: the better one, or where none is better the higher one.
struct Pair<'w> {
    w: &'w Wording<'w>,
    contrast: &'w Contrast,
    kind: TrialKind,
    first: String,
    second: String,
    means: (f64, f64),
    trials: (usize, usize),
    /// Difference first - second, and the ends of its interval.
    difference: f64,
    interval: (f64, f64),
    digits: Digits<'w>,
}

/// Numbers of one contrast, all to the same place but for the ends of its interval.
struct Digits<'w> {
    w: &'w Wording<'w>,
    quantity: Quantity,
    unit: DisplayUnit,
    places: i32,
}

/// The upper end of a ratio's interval over the lower one, from which the ratio counts as unknown.
const UNKNOWN: f64 = 1e6;

impl<'w> Digits<'w> {
    /// One significant digit of the standard uncertainty is enough in a sentence.
    fn new(w: &'w Wording<'w>, contrast: &Contrast) -> Self {
        let unit = w.unit_of_quantity(contrast.quantity);
        let width = unit.width(contrast.estimate.std_uncertainty);
        let places = places(width).map_or(1, |two_digits| two_digits - 1);
        Self { w, quantity: contrast.quantity, unit, places }
    }

    fn number(&self, x: f64) -> String {
        self.w.typography.fixed(self.unit.width(x), self.places)
    }

    /// An end of the interval: up to two places more where it would be shown as zero, so that a reader can tell on which side
    /// of zero it lies.
    fn end(&self, x: f64) -> String {
        let is_nonzero = |text: &String| text.contains(|c: char| ('1'..='9').contains(&c));
        let mut texts =
            (self.places..self.places + 3).map(|places| self.w.typography.fixed(self.unit.width(x), places));
        texts.find(is_nonzero).unwrap_or_else(|| self.number(x))
    }

    fn value(&self, x: f64) -> String {
        self.w.typography.join(&self.number(x), &self.unit.symbol)
    }

    fn difference(&self, x: f64) -> String {
        self.w.typography.join(&self.number(x), &self.w.unit_of_difference(self.quantity).symbol)
    }
}

impl<'w> Pair<'w> {
    fn new(w: &'w Wording<'w>, kind: TrialKind, contrast: &'w Contrast) -> Self {
        let name = |level: &str| w.level_of_factor(&contrast.factor, level);
        let (a, b) = (name(&contrast.a), name(&contrast.b));
        let (interval, (mean_a, mean_b), (n_a, n_b)) = (contrast.estimate.interval, contrast.means, contrast.n);
        let a_is_higher = mean_a >= mean_b;
        let b_is_first = if contrast.quantity.better() == Better::Lower { a_is_higher } else { !a_is_higher };
        let digits = Digits::new(w, contrast);
        if b_is_first {
            let (difference, interval) = (-contrast.estimate.value, (-interval.upper, -interval.lower));
            let (means, trials) = ((mean_b, mean_a), (n_b, n_a));
            return Self { w, contrast, kind, first: b, second: a, means, trials, difference, interval, digits };
        }
        let (difference, interval) = (contrast.estimate.value, (interval.lower, interval.upper));
        let (means, trials) = ((mean_a, mean_b), (n_a, n_b));
        Self { w, contrast, kind, first: a, second: b, means, trials, difference, interval, digits }
    }

    /// The difference and its interval without the sign of the difference.
    fn size(&self) -> (f64, f64, f64) {
        let (low, high) = self.interval;
        if self.difference < 0.0 { (-self.difference, -high, -low) } else { (self.difference, low, high) }
    }

    /// "49 % against 33 %".
    fn values(&self) -> String {
        format!("{} against {}", self.digits.value(self.means.0), self.digits.value(self.means.1))
    }

    /// "95 % interval".
    fn confidence(&self) -> String {
        format!("{} interval", self.w.confidence(self.contrast.estimate.interval.confidence))
    }

    /// "95 % interval 3 to 12", of the size of the difference.
    fn range(&self) -> String {
        let (_, low, high) = self.size();
        format!("{} {} to {}", self.confidence(), self.digits.end(low), self.digits.end(high))
    }

    /// "49 % against 33 %, a difference of 16 points (95 % interval 12 to 20), from 4 burns each".
    fn numbers(&self) -> String {
        let size = self.digits.difference(self.size().0);
        format!("{}, a difference of {size} ({}), {}", self.values(), self.range(), self.trials())
    }

    /// "from 4 burns each", "from 4 and 5 burns".
    fn trials(&self) -> String {
        let noun = noun(self.kind);
        match self.trials {
            (a, b) if a == b => format!("from {} each", plural(a, noun)),
            (a, b) => format!("from {a} and {}", plural(b, noun)),
        }
    }

    fn settled(&self) -> String {
        let more = self.difference > 0.0;
        format!(
            "{} {} than {}: {}, {} {} ({}), {}.",
            capital(&self.first),
            claim(self.contrast.quantity, more),
            self.second,
            self.values(),
            self.digits.difference(self.size().0),
            if more { "more" } else { "less" },
            self.range(),
            self.trials()
        )
    }

    fn alike(&self) -> String {
        format!(
            "{} and {} are alike in {} to within {} of the larger mean (two one-sided tests): {}.",
            capital(&self.first),
            self.second,
            quantity_in_sentence(self.contrast.quantity),
            self.w.share(self.contrast.margin.unwrap_or(0.0)),
            self.numbers()
        )
    }

    fn open(&self) -> String {
        let (size, low, high) = self.size();
        format!(
            "No conclusion on the {} of {} and {}: {}, {}. The difference of {} may lie anywhere from {} to {} ({}){}{}.",
            quantity_in_sentence(self.contrast.quantity),
            self.first,
            self.second,
            self.values(),
            self.trials(),
            self.digits.difference(size),
            self.digits.end(low),
            self.digits.end(high),
            self.confidence(),
            self.by_chance(),
            self.advice()
        )
    }

    /// The two levels differ, or not, but another column changes together with them.
    fn confounded(&self) -> String {
        let Contrast { factor, a, b, confounded, quantity, .. } = self.contrast;
        let together = Together { factor, a, b, columns: confounded };
        let numbers = self.numbers();
        let (clause, crossed) = (together.clause(self.w), together.crossed(self.w, noun(self.kind)));
        let (first, second) = (capital(&self.first), &self.second);
        let name = quantity_in_sentence(*quantity);
        let belongs = if confounded.len() == 1 { "both" } else { "all of them" };
        if self.interval.0 > 0.0 || self.interval.1 < 0.0 {
            return format!(
                "{first} and {second} differ in {name}: {numbers}. But {clause}: the difference belongs to {belongs}. To tell \
                 them apart, {crossed}."
            );
        }
        format!(
            "No conclusion on the {name} of {} and {second}: {clause}, so any difference would belong to {belongs}. Seen: \
             {numbers}. To tell them apart, {crossed}.",
            self.first
        )
    }

    /// The planned number of trials is not reached.
    fn early(&self) -> String {
        format!(
            "Not yet decided on the {} of {} and {}: {}, a difference of {} so far ({}), {}. The verdict is due at the planned \
             {} of each.",
            quantity_in_sentence(self.contrast.quantity),
            self.first,
            self.second,
            self.values(),
            self.digits.difference(self.size().0),
            self.range(),
            self.trials(),
            plural(self.contrast.planned.unwrap_or(0) as usize, noun(self.kind))
        )
    }

    /// Why an interval without zero settles nothing, to go on in a sentence.
    fn by_chance(&self) -> &'static str {
        if self.interval.0 > 0.0 || self.interval.1 < 0.0 {
            "; it leaves out zero, but among as many verdicts as on this page one such interval may well come by chance"
        } else {
            ""
        }
    }

    /// What would settle the difference, to end a sentence.
    fn advice(&self) -> String {
        let trials = |n: u32, word: &str| format!("{n} {word} {}{}", noun(self.kind), if n == 1 { "" } else { "s" });
        match &self.contrast.sample_size {
            None => String::new(),
            Some(SampleSizeAdvice::Further { trials: n, .. }) if self.contrast.planned.is_some() => format!(
                ". The plan is done; a new study of about {} of each would probably show a difference of this size",
                trials(self.most_trials() + n, "new")
            ),
            Some(SampleSizeAdvice::Further { trials: n, .. }) if !self.contrast.main => {
                format!(
                    "; if the true difference is the one seen, about {} of each would probably show it",
                    trials(*n, "more")
                )
            }
            Some(SampleSizeAdvice::Further { trials: n, fewest }) => self.plan(&trials(*n, "more"), *n, *fewest),
            Some(SampleSizeAdvice::MoreThan(n)) => {
                format!("; a difference of this size would take more than {} of each", trials(*n, "further"))
            }
            Some(SampleSizeAdvice::Never(source)) => format!(
                "; more {}s would not settle it, because the error of {} stays",
                noun(self.kind),
                origin(self.w, source)
            ),
        }
    }

    /// How to go on without being fooled by chance.
    fn plan(&self, more: &str, trials: u32, fewest: u32) -> String {
        let (_, low, high) = self.size();
        let planned = format!("`planned = {}`", self.most_trials() + trials);
        format!(
            ". If the true difference is the one seen, about {more} of each would probably show it: {fewest} if it is {}, and no number \
             if there is none. Fix the number now ({planned}) and wait for it: whoever looks after every {} until something is \
             settled is fooled by chance",
            self.digits.difference(low.abs().max(high.abs())),
            noun(self.kind)
        )
    }

    fn most_trials(&self) -> u32 {
        u32::try_from(self.trials.0.max(self.trials.1)).unwrap_or(u32::MAX)
    }

    fn ratio(&self) -> String {
        let Contrast { a, b, factor, estimate, n, quantity, .. } = self.contrast;
        let fixed = |x: f64| self.w.typography.fixed(x, 2);
        if estimate.interval.upper / estimate.interval.lower > UNKNOWN {
            return format!(
                "As a ratio: {} against {} is known no better than within a factor of a thousand.",
                self.w.level_of_factor(factor, a),
                self.w.level_of_factor(factor, b)
            );
        }
        format!(
            "As a ratio: the {} of {} is {} times that of {} ({} {} to {}), from {} and {}.",
            quantity_in_sentence(*quantity),
            self.w.level_of_factor(factor, a),
            fixed(estimate.value),
            self.w.level_of_factor(factor, b),
            self.confidence(),
            fixed(estimate.interval.lower),
            fixed(estimate.interval.upper),
            n.0,
            plural(n.1, noun(self.kind))
        )
    }
}

#[cfg(test)]
mod tests;
