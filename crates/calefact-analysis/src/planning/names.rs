//! Names proposed for trials and blocks: they go on from those that are there.

use std::collections::BTreeSet;

/// So many new names: those there, counted on where all have the same letters before their number (`b07` -> `b08`), else
/// `fallback` with a number.
pub(super) fn continued<'n>(there: impl Iterator<Item = &'n str>, fallback: &str, count: usize) -> Vec<String> {
    let taken: BTreeSet<&str> = there.collect();
    let parts: Option<Vec<(&str, u64, usize)>> = taken.iter().map(|name| numbered(name)).collect();
    let same = parts.filter(|p| p.windows(2).all(|w| w[0].0 == w[1].0));
    let last = same.and_then(|p| p.into_iter().max_by_key(|(_, number, _)| *number));
    let digits = count.to_string().len();
    let (prefix, first, width) =
        last.map_or((fallback, 1, digits), |(prefix, n, width)| (prefix, n.saturating_add(1), width));
    let names = (first..).map(|n| format!("{prefix}{n:0width$}")).filter(|name| !taken.contains(name.as_str()));
    names.take(count).collect()
}

/// The letters before the number at the end of a name, the number and its digits.
fn numbered(name: &str) -> Option<(&str, u64, usize)> {
    let prefix = name.trim_end_matches(|c: char| c.is_ascii_digit());
    let digits = &name[prefix.len()..];
    Some((prefix, digits.parse().ok()?, digits.len()))
}

#[cfg(test)]
mod tests {
    use super::continued;

    #[test]
    fn names_go_on_from_those_that_are_there() {
        let next = |there: &[&str]| continued(there.iter().copied(), "p", 2).join(" ");
        assert_eq!(next(&["b08", "b09"]), "b10 b11");
        assert_eq!(next(&["t9"]), "t10 t11");
        assert_eq!(next(&[]), "p1 p2");
        assert_eq!(next(&["b1", "r1"]), "p1 p2");
        assert_eq!(next(&["first", "p1"]), "p2 p3");
        assert_eq!(next(&["b99999999999999999999999"]), "p1 p2");
    }
}
