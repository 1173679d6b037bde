//! First-order propagation of uncertainty through a measurement model, source by source.
//!
//! Law of propagation of uncertainty, JCGM 100:2008 clause 5, with numerical sensitivities (5.1.3 note 2): each
//! independent source is moved by plus and minus one standard uncertainty, which moves every input that holds a part of
//! it, and half the change of the output is the output's part. Correlation between inputs is thereby exact. Distributions
//! live in `monte_carlo`.

use crate::uncertain_value::{Source, UncertainValue};
use std::collections::BTreeMap;

/// All sources that the inputs hold parts of, with those parts by input.
fn by_source(inputs: &[UncertainValue]) -> BTreeMap<Source, Vec<(usize, f64)>> {
    let mut sources: BTreeMap<Source, Vec<(usize, f64)>> = BTreeMap::new();
    for (i, input) in inputs.iter().enumerate() {
        for (source, part) in &input.parts {
            sources.entry(source.clone()).or_default().push((i, *part));
        }
    }
    sources
}

/// Outputs of `model` at the inputs, each with its parts: part_s = (f(x + u_s) - f(x - u_s))/2 for every source s.
///
/// An output that is not finite at the estimates themselves stays so, without parts. Where the model is not defined on one
/// side of a source, the change on the other side is taken; where on neither, the part is NaN, and so is the standard
/// uncertainty. Parts that are exactly zero are left out.
pub fn first_order(inputs: &[UncertainValue], model: impl Fn(&[f64]) -> Vec<f64>) -> Vec<UncertainValue> {
    let mut x: Vec<f64> = inputs.iter().map(|t| t.value).collect();
    let centre = model(&x);
    let sources = by_source(inputs);
    let room = |value: f64| if value.is_finite() { sources.len() } else { 0 };
    let output = |value: &f64| UncertainValue { value: *value, parts: Vec::with_capacity(room(*value)) };
    let mut outputs: Vec<UncertainValue> = centre.iter().map(output).collect();
    for (source, moved) in sources {
        let mut at = |sign: f64| {
            for (i, part) in &moved {
                x[*i] = inputs[*i].value + sign * part;
            }
            let y = model(&x);
            for (i, _) in &moved {
                x[*i] = inputs[*i].value;
            }
            y
        };
        let (up, down) = (at(1.0), at(-1.0));
        for (k, output) in outputs.iter_mut().enumerate() {
            let part = change(up[k], centre[k], down[k]);
            if centre[k].is_finite() && (part.is_nan() || part.abs() > 0.0) {
                output.parts.push((source.clone(), part));
            }
        }
    }
    outputs
}

fn change(up: f64, centre: f64, down: f64) -> f64 {
    match (up.is_finite(), down.is_finite()) {
        (true, true) => 0.5 * (up - down),
        (true, false) => up - centre,
        (false, true) => centre - down,
        (false, false) => f64::NAN,
    }
}
