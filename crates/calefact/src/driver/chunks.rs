//! Work in parallel, results in order, memory bounded.

use rayon::prelude::*;

/// Bytes of log files a chunk may hold before the next one starts; one larger file is a chunk of its own.
const CHUNK_BYTES: u64 = 4 << 20;

/// Items a chunk may hold.
const CHUNK_ITEMS: usize = 64;

/// Cuts items into chunks by their size in bytes, in order.
fn cut<I>(items: &[I], size: impl Fn(&I) -> u64) -> Vec<&[I]> {
    let (mut chunks, mut start, mut bytes) = (Vec::new(), 0, 0);
    for (i, item) in items.iter().enumerate() {
        let next = size(item);
        if i > start && (bytes + next > CHUNK_BYTES || i - start >= CHUNK_ITEMS) {
            chunks.push(&items[start..i]);
            (start, bytes) = (i, 0);
        }
        bytes += next;
    }
    if start < items.len() {
        chunks.push(&items[start..]);
    }
    chunks
}

/// Makes a value of every item in parallel and takes the values in the order of the items, one chunk being made while
/// the last one is taken. At most two chunks are in memory, and what is taken does not depend on the number of threads.
///
/// # Errors
/// The first error of `take`, after which no further chunk is started.
pub(super) fn in_order<I: Sync, T: Send, E: Send>(
    items: &[I],
    size: impl Fn(&I) -> u64,
    make: impl Fn(&I) -> T + Sync,
    mut take: impl FnMut(T) -> Result<(), E> + Send,
) -> Result<(), E> {
    let produce = |chunk: &[I]| chunk.par_iter().map(&make).collect::<Vec<T>>();
    let mut ready = Vec::new();
    for chunk in cut(items, size) {
        let last = std::mem::take(&mut ready);
        let (taken, made) = rayon::join(|| last.into_iter().try_for_each(&mut take), || produce(chunk));
        taken?;
        ready = made;
    }
    ready.into_iter().try_for_each(take)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn order_is_kept() {
        let items: Vec<u64> = (0..1000).collect();
        let mut taken = Vec::new();
        let result: Result<(), ()> = in_order(
            &items,
            |_| 1,
            |i| i * 2,
            |v| {
                taken.push(v);
                Ok(())
            },
        );
        assert_eq!(result, Ok(()));
        assert_eq!(taken, items.iter().map(|i| i * 2).collect::<Vec<_>>());
    }

    #[test]
    fn an_error_stops_the_work() {
        let items: Vec<u64> = (0..1000).collect();
        let result = in_order(&items, |_| 1, |i| *i, |v| if v == 3 { Err(v) } else { Ok(()) });
        assert_eq!(result, Err(3));
    }

    #[test]
    fn chunks_are_bounded_in_bytes_and_items() {
        let sizes = [CHUNK_BYTES, 1, 1, CHUNK_BYTES * 3, 1];
        let cut_sizes: Vec<usize> = cut(&sizes, |s| *s).iter().map(|c| c.len()).collect();
        assert_eq!(cut_sizes, [1, 2, 1, 1]);
        assert_eq!(cut(&[0; CHUNK_ITEMS + 1], |_| 0).len(), 2);
        assert!(cut(&[0; 0], |_| 0).is_empty());
    }
}
