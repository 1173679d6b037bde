//! Draws of the sources, shared by name.

use crate::rng::stream;
use crate::uncertain_value::{ErrorSources, Shape, Source, SourceInfo, UncertainValue};
use rand::RngExt;
use rand_distr::{Distribution, StandardNormal, StudentT};
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// Draws that are kept at most: 32 MiB, ten of the least blocks of forty sources.
const MOST_KEPT: usize = 1 << 22;

/// A kept block of a source: the properties it was drawn by, and the draws.
type Kept = (SourceInfo, Arc<[f64]>);

/// Unit draws of sources, block by block of one size; those of sources that trials share are kept as far as there is room.
#[derive(Debug)]
pub(super) struct DrawsBySource {
    seed: u64,
    size: usize,
    kept: Mutex<BTreeMap<(Source, usize), Kept>>,
}

impl DrawsBySource {
    /// None yet, under a seed and in blocks of a size.
    pub(super) const fn new(seed: u64, size: usize) -> Self {
        Self { seed, size, kept: Mutex::new(BTreeMap::new()) }
    }

    /// Block number `block` for each source the inputs hold. A source the book does not know is drawn as normal. The draws of
    /// a source depend on the seed, its name, its shape and the block only.
    pub(super) fn block(&self, inputs: &[UncertainValue], book: &ErrorSources, block: usize) -> Block {
        let mut units = BTreeMap::new();
        for (source, _) in inputs.iter().flat_map(|t| &t.parts) {
            units.entry(source.clone()).or_insert_with(|| self.units(source, book.get(source), block));
        }
        Block { units, size: self.size }
    }

    fn units(&self, source: &Source, info: Option<&SourceInfo>, block: usize) -> Arc<[f64]> {
        let draw = || Arc::from(unit_draws(&format!("{source}#{block}"), info, self.seed, self.size));
        let Some(shared) = info.filter(|info| info.shared) else { return draw() };
        let key = (source.clone(), block);
        if let Some((_, units)) = self.kept().get(&key).filter(|(known, _)| known == shared) {
            return units.clone();
        }
        // Another thread may draw the same meanwhile.
        let units: Arc<[f64]> = draw();
        let mut kept = self.kept();
        if (kept.len() + 1) * self.size <= MOST_KEPT {
            kept.insert(key, (shared.clone(), units.clone()));
        }
        units
    }

    fn kept(&self) -> MutexGuard<'_, BTreeMap<(Source, usize), Kept>> {
        self.kept.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// Unit draws of every source of a set of inputs, all of the same length.
pub(super) struct Block {
    units: BTreeMap<Source, Arc<[f64]>>,
    size: usize,
}

impl Block {
    /// Draws of one value: value + sum over sources of part times unit draw.
    pub(super) fn sample(&self, value: &UncertainValue) -> Vec<f64> {
        let mut out = vec![value.value; self.size];
        for (source, part) in &value.parts {
            if let Some(units) = self.units.get(source) {
                out.iter_mut().zip(&**units).for_each(|(x, u)| *x += part * u);
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
