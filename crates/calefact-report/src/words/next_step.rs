//! Next step of a comparison in one line: stop, or how many more trials. The order of them is a plan's business.

use super::comparison_finding::{noun, origin};
use super::quantity::quantity_in_sentence;
use super::{Wording, capital, comparison_title, list, plural, standing_words};
use crate::pick;
use crate::standing::{self, Standing};
use calefact_analysis::Quantity;
use calefact_analysis::result::{Comparison, SampleSizeAdvice, VerdictKind};

/// "Stove and exchanger: you can stop. The main quantity is settled.", and a line for each comparison that is open.
pub(crate) fn next_steps(w: &Wording<'_>, comparisons: &[Comparison]) -> Vec<String> {
    let (mut done, mut open) = (Vec::new(), Vec::new());
    for comparison in comparisons {
        let Some(&quantity) = pick::quantities(comparison).first() else { continue };
        match standing::standing(comparison, quantity) {
            None => {}
            Some(Standing::Settled | Standing::Same) => done.push(comparison_title(w, comparison)),
            Some(standing) => open.push(open_step(w, comparison, quantity, standing)),
        }
    }
    let stop =
        (!done.is_empty()).then(|| format!("{}: you can stop. The main quantity is settled.", capital(&list(&done))));
    open.into_iter().chain(stop).collect()
}

fn open_step(w: &Wording<'_>, comparison: &Comparison, quantity: Quantity, standing: Standing) -> String {
    let title = capital(&comparison_title(w, comparison));
    let standing = standing_words(w, comparison, quantity, standing);
    let further = further(w, comparison, quantity).unwrap_or_default();
    format!("{title}: {} {standing}.{further}", quantity_in_sentence(quantity))
}

/// Advice on the first open pair.
fn further(w: &Wording<'_>, comparison: &Comparison, quantity: Quantity) -> Option<String> {
    let is_open = |v: VerdictKind| matches!(v, VerdictKind::NoConclusion | VerdictKind::NotYet);
    let pairs = standing::main_pairs(comparison, quantity);
    let advice = pairs.into_iter().filter(|c| is_open(c.verdict)).find_map(|c| c.sample_size.as_ref())?;
    let trials = |n: u32, word: &str| plural(n as usize, &format!("{word} {}", noun(comparison.kind)));
    Some(match advice {
        SampleSizeAdvice::Further { trials: n, .. } => {
            format!(
                " About {} of each would probably settle it, if the true difference is the one seen.",
                trials(*n, "more")
            )
        }
        SampleSizeAdvice::MoreThan(n) => {
            format!(
                " The difference is small beside the scatter: it would take more than {} of each.",
                trials(*n, "further")
            )
        }
        SampleSizeAdvice::Never(source) => {
            format!(
                " More {}s would not settle a difference as small as the one seen, because the error of {} stays.",
                noun(comparison.kind),
                origin(w, source)
            )
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture;

    #[test]
    fn what_is_settled_stops_and_what_is_open_says_what_it_takes() {
        let mut comparison = fixture::analysis().comparisons.remove(0);
        let steps = |c: &Comparison| next_steps(&Wording::plain(), std::slice::from_ref(c));
        let open = "Stove: thermal efficiency 2 of 3 pairs settled. About 3 more burns of each would probably settle it, if the true \
                    difference is the one seen.";
        assert_eq!(steps(&comparison), [open]);
        comparison.contrasts.iter_mut().for_each(|c| c.verdict = VerdictKind::Above);
        assert_eq!(steps(&comparison), ["Stove: you can stop. The main quantity is settled."]);
        comparison.contrasts.clear();
        assert!(steps(&comparison).is_empty());
    }
}
