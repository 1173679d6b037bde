//! Cross-checks of the heat path: ways of measuring one heat flow that ought to agree, and effectiveness within 0 to 1.

use super::Path;
use super::slots::PathSlot as P;
use super::terms::Check;
use crate::Quantity;
use crate::finding::Finding;
use calefact_stats::UncertainValue;

/// Findings of the cross-checks.
pub fn findings(path: &Path, traced: &[UncertainValue]) -> Vec<Finding> {
    let found = [
        impossible(path, &traced[Quantity::ExchangerEffectiveness as usize]),
        reversed(path),
        agreement(
            &traced[Check::CoilOverTank.index()],
            "closure-water",
            ["coil (flow and rise)", "tank (storage and loss)"],
            &path.phases.words(),
        ),
        agreement(
            &traced[Check::GasOverWater.index()],
            "closure-gas",
            ["gas (analysis, burn rate and fall)", "water"],
            &path.phases.words(),
        ),
    ];
    found.into_iter().flatten().collect()
}

/// Two ways to one heat flow: a note on how they close, a warning where they do not within two standard uncertainties.
fn agreement(ratio: &UncertainValue, code: &'static str, sides: [&str; 2], when: &str) -> Option<Finding> {
    let u = ratio.std_uncertainty();
    if !ratio.value.is_finite() || !u.is_finite() {
        return None;
    }
    let off = 100.0 * (ratio.value - 1.0);
    let words = format!(
        "{} over {}: {:.2}, {off:+.1} % (two standard uncertainties: {:.1} %); {when}",
        sides[0],
        sides[1],
        ratio.value,
        200.0 * u
    );
    Some(if (ratio.value - 1.0).abs() > 2.0 * u {
        Finding::warning_text(code, format!("the two sides do not close: {words}"))
            .hint("a real bench closes to 1 to 12 %; check flow, probes and where they sit")
    } else {
        Finding::note_text(code, words)
    })
}

/// Effectiveness outside 0 to 1: an error beyond its uncertainty, else a warning.
fn impossible(path: &Path, effectiveness: &UncertainValue) -> Option<Finding> {
    let (value, u) = (effectiveness.value, effectiveness.std_uncertainty());
    if !value.is_finite() || (0.0..=1.0).contains(&value) {
        return None;
    }
    let words = format!("the exchanger's effectiveness comes to {value:.2}, outside 0 to 1; {}", path.phases.words());
    let beyond = value - 2.0 * u > 1.0 || value + 2.0 * u < 0.0;
    let finding = if beyond {
        Finding::error_text("effectiveness-impossible", words).action("trial left out of comparisons")
    } else {
        Finding::warning_text("effectiveness-impossible", words).action("effectiveness and conductance left empty")
    };
    Some(
        finding
            .hint("the gas cannot leave colder than the water enters: check the flue probes, their units and places"),
    )
}

/// Gas that gets hotter over the exchanger: probes swapped.
fn reversed(path: &Path) -> Option<Finding> {
    let (drop, u) = path.drop;
    (drop < -3.0 * u && drop.is_finite()).then(|| {
        let words = format!(
            "the flue gas reads {:.0} degC before the exchanger and {:.0} degC after it",
            path.value(P::FlueBefore),
            path.value(P::FlueAfter)
        );
        Finding::error_text("flue-probes-swapped", words)
            .action("trial left out of comparisons")
            .hint("are `flue_before` and `flue_after` swapped in the columns?")
    })
}
