//! Trial ids in few words: "42 trials: b01 to b42".

/// Pieces named before the rest is only counted.
const NAMED: usize = 6;

/// Lists trials; ids that differ by one in the number at their end are drawn together, and a long list is counted and
/// cut. An id that comes twice in a row counts once.
pub fn trial_list(trials: &[&str]) -> String {
    let mut ids = trials.to_vec();
    ids.dedup();
    let runs = runs(&ids);
    let mut words: Vec<String> = runs.iter().take(NAMED).map(|r| name(&ids[r.0..=r.1])).collect();
    let left: usize = runs.iter().skip(NAMED).map(|r| r.1 + 1 - r.0).sum();
    if left > 0 {
        words.push(format!("{left} more"));
    }
    if ids.len() > 3 { format!("{} trials: {}", ids.len(), words.join(", ")) } else { words.join(", ") }
}

/// First and last index of each run of neighbours.
fn runs(ids: &[&str]) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for i in 0..ids.len() {
        match runs.last_mut() {
            Some(run) if follows(ids[run.1], ids[i]) => run.1 = i,
            _ => runs.push((i, i)),
        }
    }
    runs
}

fn name(run: &[&str]) -> String {
    match run {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [one, two] => format!("{one}, {two}"),
        [first, .., last] => format!("{first} to {last}"),
    }
}

/// Whether `b` is `a` with the number at its end one higher.
fn follows(a: &str, b: &str) -> bool {
    let split = |id: &str| {
        let stem = id.trim_end_matches(|c: char| c.is_ascii_digit()).len();
        id[stem..].parse::<u64>().ok().map(|n| (id[..stem].to_owned(), n))
    };
    matches!((split(a), split(b)), (Some((s, n)), Some((t, m))) if s == t && n.checked_add(1) == Some(m))
}

#[cfg(test)]
mod tests {
    use super::trial_list;

    #[test]
    fn neighbours_are_drawn_together() {
        assert_eq!(trial_list(&["b01", "b02", "b03", "b04", "b07"]), "5 trials: b01 to b04, b07");
        assert_eq!(trial_list(&["b09", "b10", "b11", "h1"]), "4 trials: b09 to b11, h1");
        assert_eq!(trial_list(&["b1", "b1", "b3"]), "b1, b3");
        assert_eq!(trial_list(&["monday", "99999999999999999999999"]), "monday, 99999999999999999999999");
        assert_eq!(trial_list(&[]), "");
    }

    #[test]
    fn a_long_list_is_cut_and_counted() {
        assert_eq!(
            trial_list(&["a1", "a3", "a5", "a7", "a9", "a11", "a13", "a14"]),
            "8 trials: a1, a3, a5, a7, a9, a11, 2 more"
        );
    }
}
