//! Draws of the sources, shared by name.

use crate::rng::stream;
use crate::uncertain_value::{ErrorSources, Shape, Source, SourceInfo, UncertainValue};
use rand::RngExt;
use rand_distr::{Distribution, StandardNormal, StudentT};
use std::collections::BTreeMap;

/// Unit draws of every source of a set of inputs, one list per source, all of the same length.
pub(super) struct SharedDraws {
    units: BTreeMap<Source, Vec<f64>>,
    size: usize,
}

impl SharedDraws {
    /// Block number `block` of `size` draws for each source the inputs hold. A source the book does not know is drawn as
    /// normal. The draws of a source depend on `seed`, its name and the block only.
    pub(super) fn block(inputs: &[UncertainValue], book: &ErrorSources, seed: u64, block: usize, size: usize) -> Self {
        let mut units = BTreeMap::new();
        for (source, _) in inputs.iter().flat_map(|t| &t.parts) {
            units
                .entry(source.clone())
                .or_insert_with(|| unit_draws(&format!("{source}#{block}"), book.get(source), seed, size));
        }
        Self { units, size }
    }

    /// Draws of one value: value + sum over sources of part times unit draw.
    pub(super) fn sample(&self, value: &UncertainValue) -> Vec<f64> {
        let mut out = vec![value.value; self.size];
        for (source, part) in &value.parts {
            if let Some(units) = self.units.get(source) {
                out.iter_mut().zip(units).for_each(|(x, u)| *x += part * u);
            }
        }
        out
    }
}

/// Unit draws of a source by its name; of one that nothing is known of, normal ones (JCGM 101:2008, 6.4). All shapes but Student's have
/// unit standard deviation. Student's t is drawn with unit scale, as 6.4.9 has it for a mean of few readings whose standard
/// uncertainty is s/sqrt n: its standard deviation is sqrt(v/(v-2)), so that intervals widen as those of the t table do.
pub fn unit_draws(source: &str, info: Option<&SourceInfo>, seed: u64, size: usize) -> Vec<f64> {
    let (shape, dof) = info.map_or((Shape::Normal, f64::INFINITY), |i| (i.shape, i.dof));
    let rng = &mut stream(seed, source);
    match shape {
        Shape::Rectangular => (0..size).map(|_| (2.0 * rng.random::<f64>() - 1.0) * 3.0_f64.sqrt()).collect(),
        Shape::Student if dof.is_finite() => {
            StudentT::new(dof).map_or_else(|_| vec![f64::NAN; size], |t| t.sample_iter(rng).take(size).collect())
        }
        Shape::Student | Shape::Normal => StandardNormal.sample_iter(rng).take(size).collect(),
    }
}
