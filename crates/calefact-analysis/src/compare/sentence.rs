//! A contrast in one plain sentence, the answer first.

use super::sample_size::SampleSizeAdvice;
use crate::Quantity;
use crate::quantity::Better;
use crate::result::{Contrast, ContrastKind, VerdictKind};
use crate::settings::ComparisonRequest;
use crate::words::{decimals_for, difference_unit, plural, spoken};
use calefact_data::TrialKind;
use calefact_stats::Interval;

/// What a trial of this kind is called in a sentence.
pub fn noun(kind: TrialKind) -> &'static str {
    if kind == TrialKind::Burn { "burn" } else { "trial" }
}

/// A level as one speaks of it: "the rocket stove", "spruce", "`split` coarse".
pub fn level_name(factor: &str, level: &str) -> String {
    match factor {
        "stove" | "exchanger" | "vessel" => format!("the {level} {factor}"),
        "fuel" | "operator" => level.to_owned(),
        _ => format!("`{factor}` {level}"),
    }
}

/// A quantity in a sentence: its label without the usual basis.
pub fn name(q: Quantity) -> &'static str {
    q.label().trim_end_matches(" (net, credited)")
}

/// With a capital first letter.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |c| c.to_uppercase().chain(chars).collect())
}

/// `x` to the first digit of its uncertainty.
pub fn plain(x: f64, u: f64) -> String {
    let decimals = decimals_for(u).saturating_sub(1);
    let text = format!("{x:.decimals$}");
    if text.chars().all(|c| matches!(c, '-' | '0' | '.')) { text.trim_start_matches('-').into() } else { text }
}

/// What the level with more, or less, of a quantity does, to be followed by the other level.
fn claim(q: Quantity, more: bool) -> String {
    let (high, low) = match q {
        Quantity::ThermalEfficiency => {
            ("turns more of the wood into hot water", "turns less of the wood into hot water")
        }
        Quantity::FuelPerHeat => ("needs more wood per kWh of heat", "needs less wood per kWh of heat"),
        Quantity::HeatInput => ("heats the vessel harder", "heats the vessel less hard"),
        Quantity::HeatingRate => ("heats the water faster", "heats the water more slowly"),
        Quantity::BurnRate => ("burns wood faster", "burns wood more slowly"),
        Quantity::CostPerHeat => ("costs more per kWh of heat", "costs less per kWh of heat"),
        Quantity::ExchangerEffectiveness => {
            ("takes more of the heat out of the flue gas", "takes less of the heat out of the flue gas")
        }
        Quantity::FlueLoss => ("loses more heat up the flue", "loses less heat up the flue"),
        Quantity::ReferenceTime => ("takes longer for the reference job", "does the reference job sooner"),
        Quantity::ReferenceFuel => ("needs more wood for the reference job", "needs less wood for the reference job"),
        _ => return format!("has {} {}", if more { "more" } else { "less" }, name(q)),
    };
    if more { high.into() } else { low.into() }
}

/// The sentence of a contrast that has its verdict; `means` are those of its two levels.
pub fn of(contrast: &Contrast, request: &ComparisonRequest, means: (f64, f64), outlook: &SampleSizeAdvice) -> String {
    let told = Told::of(contrast, request, means);
    match (contrast.kind, contrast.verdict) {
        (ContrastKind::Ratio, _) => ratio(contrast, request),
        (_, VerdictKind::Above | VerdictKind::Below) => settled(contrast, &told),
        (_, VerdictKind::Equivalent) => alike(contrast, request, &told),
        (_, VerdictKind::NoConclusion) => open(contrast, &told, outlook),
    }
}

/// Both levels, the one to speak of first in front.
struct Told {
    first: String,
    second: String,
    values: (String, String),
    /// Difference first - second and its interval, spoken unit.
    gap: (f64, f64, f64),
    u: f64,
    from: String,
    level: String,
}

impl Told {
    fn of(contrast: &Contrast, request: &ComparisonRequest, means: (f64, f64)) -> Self {
        let q = contrast.quantity;
        let e = &contrast.estimate;
        let (scale, unit) = spoken(q);
        let u = match contrast.kind {
            ContrastKind::Difference => e.std_uncertainty * scale,
            ContrastKind::Ratio => e.std_uncertainty * means.1.abs() * scale,
        };
        let u = if hides_a_sign(e.interval, scale, u) { 0.1 * u } else { u };
        let higher = means.0 >= means.1;
        let turned = if q.better() == Better::Lower { higher } else { !higher };
        let (a, b) = (level_name(&request.factor, &contrast.a), level_name(&request.factor, &contrast.b));
        let show = |x: f64| format!("{}{unit}", plain(x * scale, u));
        let (va, vb) = (show(means.0), show(means.1));
        let (na, nb) = contrast.n;
        let (first, second, values, n) = if turned { (b, a, (vb, va), (nb, na)) } else { (a, b, (va, vb), (na, nb)) };
        let sign = if turned { -scale } else { scale };
        let (x, y) = (sign * e.interval.lower, sign * e.interval.upper);
        Self {
            first,
            second,
            values,
            gap: (sign * e.value, x.min(y), x.max(y)),
            u,
            from: format!("from {} and {}", n.0, plural(n.1, noun(request.kind))),
            level: format!("{:.0} % interval", 100.0 * e.interval.confidence),
        }
    }

    /// The gap without its sign.
    fn upward(&self) -> (f64, f64, f64) {
        let (value, low, high) = self.gap;
        if value < 0.0 { (-value, -high, -low) } else { self.gap }
    }

    /// "49 % against 33 %".
    fn values(&self) -> String {
        format!("{} against {}", self.values.0, self.values.1)
    }
}

/// Whether an end of the interval would be shown as zero, so that one could not tell on which side of zero it lies.
fn hides_a_sign(interval: Interval, scale: f64, u: f64) -> bool {
    [interval.lower, interval.upper].iter().any(|end| plain(end * scale, u).chars().all(|c| matches!(c, '0' | '.')))
}

fn settled(contrast: &Contrast, told: &Told) -> String {
    let more = told.gap.0 > 0.0;
    let (value, low, high) = told.upward();
    let number = |x: f64| plain(x, told.u);
    format!(
        "{} {} than {}: {}, {}{} {} ({} {} to {}), {}.",
        capital(&told.first),
        claim(contrast.quantity, more),
        told.second,
        told.values(),
        number(value),
        difference_unit(contrast.quantity),
        if more { "more" } else { "less" },
        told.level,
        number(low),
        number(high),
        told.from
    )
}

fn alike(contrast: &Contrast, request: &ComparisonRequest, told: &Told) -> String {
    let (value, low, high) = told.upward();
    let number = |x: f64| plain(x, told.u);
    format!(
        "{} and {} are alike in {} to within {:.0} % of the larger (two one-sided tests): {}, a difference of {}{} ({} {} to {}), {}.",
        capital(&told.first),
        told.second,
        name(contrast.quantity),
        100.0 * request.equivalence_margin.unwrap_or(0.0),
        told.values(),
        number(value),
        difference_unit(contrast.quantity),
        told.level,
        number(low),
        number(high),
        told.from
    )
}

fn open(contrast: &Contrast, told: &Told, outlook: &SampleSizeAdvice) -> String {
    let (value, low, high) = told.upward();
    let number = |x: f64| plain(x, told.u);
    format!(
        "No conclusion on {} of {} and {}: {}, but the difference of {}{} may lie anywhere from {} to {} ({}), {}{}.",
        name(contrast.quantity),
        told.first,
        told.second,
        told.values(),
        number(value),
        difference_unit(contrast.quantity),
        number(low),
        number(high),
        told.level,
        told.from,
        outlook.words()
    )
}

fn ratio(contrast: &Contrast, request: &ComparisonRequest) -> String {
    let e = &contrast.estimate;
    format!(
        "As a ratio: {} of {} is {:.2} times that of {} ({:.0} % interval {:.2} to {:.2}), from {} and {}.",
        name(contrast.quantity),
        level_name(&request.factor, &contrast.a),
        e.value,
        level_name(&request.factor, &contrast.b),
        100.0 * e.interval.confidence,
        e.interval.lower,
        e.interval.upper,
        contrast.n.0,
        plural(contrast.n.1, noun(request.kind))
    )
}
