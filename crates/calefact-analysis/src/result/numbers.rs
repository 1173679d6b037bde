//! Many values of a trial in one piece of memory: of thousands of trials, each costs little more than its numbers.

use super::{LawParameter, OperatingPart};
use crate::Quantity;
use crate::shared::{SharedSources, SharedValue};
use calefact_stats::{ErrorSources, Estimate, Interval, UncertainValue};
use serde::Serialize;
use std::collections::HashSet;
use std::sync::Arc;

/// What a value is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
pub enum Name {
    /// A quantity.
    Quantity(Quantity),
    /// A parameter of the law of a burn.
    Law(LawParameter),
    /// A term of the energy balance, as its share of the fuel.
    Share(&'static str),
    /// A number of the exchanger at work.
    Operating(OperatingPart),
}

/// Where a value stands among the numbers, and the sources of its parts. Trials of one build mostly have the same places.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
struct Place {
    name: Name,
    start: usize,
    sources: Box<[u32]>,
}

/// Numbers of a value before its parts: value, own uncertainty and its degrees of freedom, ends and level of the interval.
const HEAD: usize = 6;

/// Values of a trial by name.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Numbers {
    places: Arc<[Place]>,
    numbers: Box<[f64]>,
}

impl Numbers {
    /// The value of a name, with its interval.
    pub fn get(&self, name: Name) -> Option<(SharedValue<'_>, Interval)> {
        let place = self.places.iter().find(|p| p.name == name)?;
        let numbers = &self.numbers[place.start..];
        let [value, own, own_dof, lower, upper, confidence] = *numbers.first_chunk::<HEAD>()?;
        let parts = &numbers[HEAD..HEAD + place.sources.len()];
        let value = SharedValue { value, own, own_dof, sources: &place.sources, parts };
        Some((value, Interval { lower, upper, confidence }))
    }

    /// All names.
    pub fn names(&self) -> impl Iterator<Item = Name> + '_ {
        self.places.iter().map(|p| p.name)
    }
}

/// Packs the values of trials; equal places are kept once.
#[derive(Debug, Clone, Default)]
pub struct Packer {
    known: HashSet<Arc<[Place]>>,
}

impl Packer {
    /// Packs values; what is a trial's alone is looked up in its `own` book.
    pub fn pack<'t>(
        &mut self,
        values: impl Iterator<Item = (Name, &'t Estimate, &'t UncertainValue)>,
        shared: &SharedSources,
        own: &ErrorSources,
    ) -> Numbers {
        let (mut places, mut numbers) = (Vec::new(), Vec::new());
        for (name, estimate, traced) in values {
            let (mut sources, mut parts) = (Vec::new(), Vec::new());
            let SharedValue { value, own, own_dof, .. } = shared.split(traced, own, (&mut sources, &mut parts));
            let Interval { lower, upper, confidence } = estimate.interval;
            places.push(Place { name, start: numbers.len(), sources: sources.into() });
            numbers.extend([value, own, own_dof, lower, upper, confidence]);
            numbers.append(&mut parts);
        }
        Numbers { places: self.place(places), numbers: numbers.into() }
    }

    fn place(&mut self, places: Vec<Place>) -> Arc<[Place]> {
        if let Some(known) = self.known.get(places.as_slice()) {
            return known.clone();
        }
        let places: Arc<[Place]> = places.into();
        self.known.insert(places.clone());
        places
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_stats::{Shape, SourceInfo};

    #[test]
    fn what_is_packed_is_found_again() {
        let info = SourceInfo { shared: true, dof: f64::INFINITY, shape: Shape::Normal };
        let shared = SharedSources::from_book(&["probe", "scale"].map(|s| (s.into(), info.clone())).into());
        let pack = |packer: &mut Packer, x: f64| {
            let values =
                [UncertainValue::new(x, "scale", 0.2).with("own", 0.1), UncertainValue::new(2.0 * x, "probe", 0.3)];
            let estimates = values.clone().map(|t| Estimate::student(t.value, "1", 0.2, 9.0, 0.95));
            let names = [Name::Quantity(Quantity::HeatInput), Name::Share("stored")];
            let all = names.into_iter().zip(&estimates).zip(&values).map(|((n, e), t)| (n, e, t));
            packer.pack(all, &shared, &ErrorSources::new())
        };
        let mut packer = Packer::default();
        let (first, second) = (pack(&mut packer, 1.0), pack(&mut packer, 5.0));
        assert!(Arc::ptr_eq(&first.places, &second.places), "one layout");
        let (share, interval) = second.get(Name::Share("stored")).expect("there");
        assert_eq!((share.value, share.own, share.sources, share.parts), (10.0, 0.0, &[0][..], &[0.3][..]));
        assert!(interval.contains(10.0) && !interval.contains(12.0));
        let (heat, _) = first.get(Name::Quantity(Quantity::HeatInput)).expect("there");
        assert_eq!((heat.value, heat.own, heat.sources, heat.parts), (1.0, 0.1, &[1][..], &[0.2][..]));
        assert!(first.get(Name::Share("casing")).is_none() && first.names().count() == 2);
    }
}
