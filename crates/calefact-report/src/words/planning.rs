//! The plan of each comparison in words: the answer first, then what it rests on. The order of the burns is in
//! [`burn_order`](super::burn_order). Which words a size may be stated in is in
//! [`size_text`](super::size_text).

use super::advice::cross_words;
use super::comparison_finding::{noun, origin, title};
use super::quantity::quantity_in_sentence;
use super::remark::remark;
use super::{Wording, capital, instrument, list, plural, sentence};
use calefact_analysis::result::{
    Aim, AimPlan, AimSource, Analysis, BurnsNeeded, ErrorOrigin, LevelBurns, PlanAnswer, Remark, Saving, TargetPlan,
};
use calefact_data::Apparatus;

/// The plan of one comparison in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TargetWords {
    /// The answer, one sentence or two.
    pub answer: String,
    /// Its grounds, and things to mind.
    pub grounds: Vec<String>,
}

/// The words of every comparison that is planned.
pub fn targets(
    w: &Wording<'_>,
    analysis: &Analysis,
    apparatus: &Apparatus,
    targets: &[TargetPlan],
) -> Vec<TargetWords> {
    targets.iter().map(|t| Target { w, analysis, apparatus, plan: t }.words()).collect()
}

/// One comparison in words.
struct Target<'w> {
    w: &'w Wording<'w>,
    analysis: &'w Analysis,
    apparatus: &'w Apparatus,
    plan: &'w TargetPlan,
}

impl Target<'_> {
    fn words(&self) -> TargetWords {
        let stops =
            matches!(self.plan.answer, PlanAnswer::Settled | PlanAnswer::Enough | PlanAnswer::Trend { settled: true });
        let mut grounds: Vec<String> = Vec::new();
        if !stops {
            grounds.extend(self.plan.aims.iter().map(|a| self.aim(a)));
            grounds.extend(self.scatter());
            grounds.extend(self.floor());
            grounds.extend(self.savings());
            grounds.extend(self.stopping());
            grounds.extend(self.uneven());
        }
        TargetWords { answer: self.answer(), grounds }
    }

    fn trials(&self) -> String {
        format!("{}s", noun(self.plan.kind))
    }

    fn answer(&self) -> String {
        let title = capital(&title(self.w, &self.plan.factor, &self.plan.only));
        let (name, trials) = (quantity_in_sentence(self.plan.quantity), self.trials());
        match &self.plan.answer {
            PlanAnswer::Settled => format!("{title}: you can stop. Every difference in {name} is settled."),
            PlanAnswer::Enough => format!(
                "{title}: you can stop. The {trials} made are enough for what was asked, and more of them are not likely to change the \
                 verdict."
            ),
            PlanAnswer::GoOn { planned } => {
                format!(
                    "{title}: go on to the planned {} of each: {}.",
                    plural(*planned as usize, noun(self.plan.kind)),
                    self.further()
                )
            }
            PlanAnswer::Burns { each, fresh: false } => {
                format!(
                    "{title}: make {} of each in all: {}.",
                    plural(*each as usize, noun(self.plan.kind)),
                    self.further()
                )
            }
            PlanAnswer::Burns { each, fresh: true } => format!(
                "{title}: the planned {trials} are made and left this open. A new study takes {} of each; those made before it do not \
                 count in it.",
                plural(*each as usize, noun(self.plan.kind))
            ),
            PlanAnswer::Cross(cross) => cross_words(self.w, cross),
            PlanAnswer::OutOfReach => format!("{title}: no number of {trials} will do."),
            PlanAnswer::TooSmall => format!(
                "{title}: the difference seen in {name} is small beside the scatter between {trials}, too small to plan for. State the \
                 smallest difference that matters under [plan], such as `difference = \"10 %\"`; if none smaller matters, you can stop."
            ),
            PlanAnswer::FewLevels { level } => self.few_levels(&title, level.as_deref()),
            PlanAnswer::NoGuess { keys } => self.no_guess(&title, keys),
            PlanAnswer::Trend { settled: true } => {
                format!("{title}: you can stop. How {name} changes along its numbers is settled.")
            }
            PlanAnswer::Trend { settled: false } => format!(
                "{title}: its levels are numbers, and the {trials} that a trend along them takes are not planned here. Spread the numbers as \
                 far apart as is safe, half of the {trials} at each end."
            ),
        }
    }

    fn few_levels(&self, title: &str, level: Option<&str>) -> String {
        let known = level.map_or_else(
            || "no level is known".to_owned(),
            |l| format!("{} is the only level known", self.w.level_of_factor(&self.plan.factor, l)),
        );
        format!(
            "{title}: nothing to compare, because {known}. Describe another in dataset.toml, or name it under [plan]: {}.",
            self.w.quoted("levels = [\"one\", \"other\"]")
        )
    }

    fn no_guess(&self, title: &str, keys: &[&str]) -> String {
        let example = |key: &&str| match *key {
            "difference" => "`difference = \"10 %\"` (the smallest difference that matters)".to_owned(),
            "scatter" => format!(
                "`scatter = \"5 %\"` (by how much {} of one level differ, as a standard deviation)",
                self.trials()
            ),
            _ => "`mean = \"35 %\"` (what the quantity may come to, in its unit)".to_owned(),
        };
        let examples: Vec<String> = keys.iter().map(example).collect();
        let wanted =
            if examples.is_empty() { "guesses in the unit of the quantity".to_owned() } else { list(&examples) };
        format!(
            "{title}: the number of {} cannot be told yet. State under [plan], or as options, {wanted}.",
            self.trials()
        )
    }

    /// "3 more of Box stove and 2 more of Rocket stove".
    fn further(&self) -> String {
        let is_open = |l: &&LevelBurns| l.further > 0;
        let words =
            |l: &LevelBurns| format!("{} more of {}", l.further, self.w.level_of_factor(&self.plan.factor, &l.level));
        let all: Vec<String> = self.plan.levels.iter().filter(is_open).map(words).collect();
        if all.is_empty() { format!("no {} is missing", noun(self.plan.kind)) } else { list(&all) }
    }

    /// A difference, an interval's width or a scatter.
    fn size(&self, size: f64) -> String {
        if self.plan.relative {
            return format!("{} of the mean", self.w.share(size));
        }
        let unit = self.w.unit_of_difference(self.plan.quantity);
        self.w.typography.join(&self.w.typography.significant(unit.width(size), 2), &unit.symbol)
    }

    fn aim(&self, plan: &AimPlan) -> String {
        let trials = self.trials();
        let what = match plan.aim {
            Aim::Difference { size, power, .. } => {
                format!("show a difference of {} with a chance of {}", self.size(size), self.w.percent(power))
            }
            Aim::Width { size } => {
                format!("make the interval of a difference {} wide from end to end", self.size(size))
            }
        };
        let source = match plan.aim {
            Aim::Difference { source: AimSource::Seen, .. } => {
                "; this is the difference seen, which tends to be too large: better state \
                the smallest that matters under [plan], such as `difference = \"10 %\"`"
                    .to_owned()
            }
            Aim::Difference { source: AimSource::Margin, .. } => "; this is the margin of the comparison".to_owned(),
            _ => String::new(),
        };
        match plan.reach {
            BurnsNeeded::Each { trials: n, cautious } => {
                let more = cautious.filter(|c| *c > n).map_or_else(String::new, |c| {
                    format!(", {c} if the scatter is as large as the {trials} so far allow")
                });
                format!("About {n} {trials} of each {what}{more}{source}.")
            }
            BurnsNeeded::Beyond => format!("More than a million {trials} of each would be needed to {what}{source}."),
            BurnsNeeded::Never => format!("No number of {trials} would {what}{source}."),
        }
    }

    fn scatter(&self) -> Option<String> {
        let scatter = self.plan.scatter.filter(|_| !self.plan.aims.is_empty())?;
        let source = if scatter.dof.is_some() { "seen so far" } else { "which is a guess" };
        Some(format!(
            "Counted with a scatter between {} of {} (standard deviation), {source}.",
            self.trials(),
            self.size(scatter.sd)
        ))
    }

    fn floor(&self) -> Option<String> {
        let trials = self.trials();
        if self.plan.aims.is_empty() && !matches!(self.plan.answer, PlanAnswer::OutOfReach) {
            return None;
        }
        let Some(floor) = &self.plan.floor else {
            let few = format!(
                "Errors that all {trials} share, such as that of the scale, are not in these numbers before two levels have been tried."
            );
            return Some(few);
        };
        let (origin_of_most, share) = floor.largest.as_ref()?;
        Some(format!(
            "However many {trials} are made, the errors they share hide differences below {} and leave intervals at least {} wide; most of \
             that is the error of {} ({} of the shared variance).",
            self.size(floor.difference),
            self.size(floor.width),
            origin(self.w, origin_of_most),
            self.w.percent(*share)
        ))
    }

    fn savings(&self) -> Vec<String> {
        let has_shared = self.plan.floor.as_ref().is_some_and(|f| f.largest.is_some());
        if self.plan.savings.is_empty() {
            let none = format!(
                "Half the error of any one instrument would save less than 0.1 {} of each.",
                noun(self.plan.kind)
            );
            return if has_shared && !self.plan.aims.is_empty() { vec![none] } else { Vec::new() };
        }
        self.plan.savings.iter().map(|s| self.saving(s)).collect()
    }

    fn saving(&self, saving: &Saving) -> String {
        let limits = match &saving.origin {
            ErrorOrigin::Instrument(id) => {
                self.apparatus.instruments.get(id).and_then(|i| instrument::tolerance(self.w, i))
            }
            ErrorOrigin::Input(_) => None,
        };
        let limits = limits.map_or_else(String::new, |l| format!(" (today {l})"));
        let whose = format!("half the error of {}{limits}", origin(self.w, &saving.origin));
        let number = |n: f64| self.w.typography.fixed(n, 1);
        match saving.today {
            Some(today) => format!(
                "{} would save {} of {} {} of each.",
                capital(&whose),
                number(today - saving.halved),
                number(today),
                self.trials()
            ),
            None => format!("With {whose}, {} {} of each would do.", saving.halved.ceil(), self.trials()),
        }
    }

    /// When to stop, and the line to add.
    fn stopping(&self) -> Vec<String> {
        let (trials, factor) = (self.trials(), &self.plan.factor);
        let rule = |n: u32| {
            format!(
                "Until there are {n} of each you may look after every {}, but only a very clear difference is settled; at {n} the verdict \
                 is due, and {trials} beyond it do not count.",
                noun(self.plan.kind)
            )
        };
        match self.plan.answer {
            PlanAnswer::GoOn { planned } => vec![rule(planned)],
            PlanAnswer::Burns { each, fresh } => {
                let key = format!("`planned = {each}`");
                let place = format!("`factor = \"{factor}\"`");
                let line = if fresh {
                    format!(
                        "Begin it in a dataset and a pipeline file of its own, with {key} under the [[comparison]] that has {place}."
                    )
                } else {
                    format!(
                        "Write {key} under the [[comparison]] that has {place} now, before the next {}.",
                        noun(self.plan.kind)
                    )
                };
                let look = "Results were seen before this number was fixed: a plan made after a look allows false verdicts in up to 9 % of \
                            studies, one that stands before the first look keeps to its level.";
                [line, rule(each)]
                    .into_iter()
                    .chain((self.plan.after_a_look && !fresh).then(|| look.to_owned()))
                    .collect()
            }
            _ => Vec::new(),
        }
    }

    /// Conditions that the burns so far have unevenly, to be evened out.
    fn uneven(&self) -> Vec<String> {
        let is_it =
            |c: &&calefact_analysis::result::Comparison| c.factor == self.plan.factor && c.only == self.plan.only;
        let Some(comparison) = self.analysis.comparisons.iter().find(is_it) else { return Vec::new() };
        let uneven = comparison.remarks.iter().filter(|r| matches!(r, Remark::Uneven(_) | Remark::UnevenCondition(_)));
        uneven.map(|r| sentence(&remark(self.w, comparison, r))).collect()
    }
}

#[cfg(test)]
mod tests;
