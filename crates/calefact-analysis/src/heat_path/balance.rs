//! The energy balance of a burn: where the fuel's energy went.

use super::Path;
use super::terms::Term;
use crate::finding::Finding;
use crate::reduce::slots::Slot;
use crate::result::{BalanceTerm, TrialResult};
use calefact_stats::UncertainValue;

/// Share beyond which energy that no term explains is worth a warning (where the flue loss is known).
pub const UNEXPLAINED: f64 = 0.5;

/// Writes the balance, on the net energy of the fuel as put on. Empty where that is not known.
pub fn fill(path: &Path, traced: &[UncertainValue], result: &mut TrialResult) {
    if !traced[Term::Fuel.energy()].value.is_finite() {
        return;
    }
    for term in Term::ALL {
        let (energy, share) = (&traced[term.energy()], &traced[term.share()]);
        if !energy.value.is_finite() {
            continue;
        }
        let energy = UncertainValue::combine(&[(1e-6, energy)]);
        let beside = matches!(term, Term::Fuel | Term::FlueLatent);
        let list = if beside { &mut result.balance_beside } else { &mut result.balance };
        list.push(BalanceTerm {
            term: term.name(),
            energy: path.estimate(&energy, "MJ", "energy balance; first order"),
            share: path.estimate(share, "1", "energy balance; first order"),
            traced: share.clone(),
            note: note(path, term, traced),
        });
    }
    result.findings.extend(closure(path, traced));
}

fn note(path: &Path, term: Term, traced: &[UncertainValue]) -> String {
    match term {
        Term::Fuel => "net basis, as put on, kindling included".into(),
        Term::FlueSensible => format!("gas after the exchanger above the air, net basis; {}", path.phases.words()),
        Term::FlueCo => path.phases.words(),
        Term::Casing => format!("natural convection and radiation by correlation; {}", path.phases.words()),
        Term::FlueLatent => "on the gross basis only; not part of the sum".into(),
        Term::Unaccounted => unaccounted_note(traced),
        _ => String::new(),
    }
}

/// What could not be told apart from the unaccounted part.
fn unaccounted_note(traced: &[UncertainValue]) -> String {
    let unknown = |t: &&Term| traced[t.energy()].value.is_nan();
    let words: Vec<&str> = Term::PARTS.iter().filter(unknown).filter_map(|t| words(*t)).collect();
    let mut note = String::from("stove and pipe to the room, unburnt gas");
    if !words.is_empty() {
        note = format!("{note}; not measured, so in here: {}", words.join(", "));
    }
    note
}

const fn words(term: Term) -> Option<&'static str> {
    match term {
        Term::StandingLoss => Some("standing loss"),
        Term::FlueSensible => Some("flue gas"),
        Term::FlueCo => Some("carbon monoxide"),
        Term::Casing => Some("casing"),
        Term::LeftoverFuel => Some("leftover wood"),
        Term::LeftoverChar => Some("leftover char"),
        _ => None,
    }
}

/// A balance that does not close within its uncertainty.
fn closure(path: &Path, traced: &[UncertainValue]) -> Option<Finding> {
    let left = &traced[Term::Unaccounted.share()];
    let u = left.std_uncertainty();
    let percent = |x: f64| 100.0 * x;
    if left.value + 2.0 * u < 0.0 {
        let words = format!(
            "the balance finds {:.0} % more energy than the fuel had, beyond its uncertainty of {:.0} % (two standard uncertainties)",
            -percent(left.value),
            percent(2.0 * u)
        );
        return Some(Finding::warning_text("balance-not-closed", words).hint(
            "check the weighings and moisture, the flue probes, and whether the gas flow follows from a burn rate that fits",
        ));
    }
    let flue_known = traced[Term::FlueSensible.energy()].value.is_finite();
    let known = path.inputs.slots[Slot::LeftoverChar as usize].value.is_finite();
    (flue_known && known && left.value - 2.0 * u > UNEXPLAINED).then(|| {
        let words = format!("{:.0} % of the fuel's energy is in no term of the balance", percent(left.value));
        Finding::warning_text("balance-not-closed", words).hint(
            "a stove that heats its room much, unburnt gas, false air after the fire, or a flue probe that reads low",
        )
    })
}
