//! From the order of the logs to that of the register.

use std::collections::BTreeMap;

/// Dataset and register row of a trial.
pub(super) type Place = (usize, usize);

/// Hands things on in the order of their places, as soon as all earlier ones are there. Where each trial has a log of its own
/// nothing waits; a log of many trials may bring some before their turn.
pub(super) struct InOrder<T> {
    places: std::vec::IntoIter<Place>,
    next: Option<Place>,
    waiting: BTreeMap<Place, T>,
}

impl<T> InOrder<T> {
    /// For things that will come, each once, at these places, which are sorted.
    pub(super) fn new(places: Vec<Place>) -> Self {
        let mut places = places.into_iter();
        Self { next: places.next(), places, waiting: BTreeMap::new() }
    }

    /// Puts a thing in its place and gives `take` those whose turn has come.
    ///
    /// # Errors
    /// The first error of `take`.
    pub(super) fn put<E>(&mut self, place: Place, thing: T, mut take: impl FnMut(T) -> Result<(), E>) -> Result<(), E> {
        self.waiting.insert(place, thing);
        while let Some(thing) = self.next.and_then(|next| self.waiting.remove(&next)) {
            self.next = self.places.next();
            take(thing)?;
        }
        Ok(())
    }

    /// Gives `take` what still waits, in order: whatever stood behind a place that nothing came for.
    ///
    /// # Errors
    /// The first error of `take`.
    pub(super) fn finish<E>(self, take: impl FnMut(T) -> Result<(), E>) -> Result<(), E> {
        self.waiting.into_values().try_for_each(take)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn things_that_come_early_wait_for_their_turn() {
        let mut order = InOrder::new(vec![(0, 0), (0, 1), (0, 4), (1, 0)]);
        let mut taken = Vec::new();
        let mut counts = Vec::new();
        for place in [(0, 4), (0, 0), (1, 0), (0, 1)] {
            let put: Result<(), ()> = order.put(place, place, |p| {
                taken.push(p);
                Ok(())
            });
            assert_eq!(put, Ok(()));
            counts.push(taken.len());
        }
        assert_eq!(taken, [(0, 0), (0, 1), (0, 4), (1, 0)]);
        assert_eq!(counts, [0, 1, 1, 4]);
        assert_eq!(order.put((0, 0), (0, 0), |_| Err(1)), Ok(()), "nothing more is due");
    }

    #[test]
    fn a_place_that_stays_empty_holds_nothing_back_in_the_end() {
        let mut order = InOrder::new(vec![(0, 0), (0, 1), (0, 2), (0, 3)]);
        let mut taken = Vec::new();
        for place in [(0, 3), (0, 0), (0, 2)] {
            let put: Result<(), ()> = order.put(place, place, |p| {
                taken.push(p);
                Ok(())
            });
            assert_eq!(put, Ok(()));
        }
        let rest: Result<(), ()> = order.finish(|p| {
            taken.push(p);
            Ok(())
        });
        assert_eq!((rest, taken), (Ok(()), vec![(0, 0), (0, 2), (0, 3)]));
    }
}
