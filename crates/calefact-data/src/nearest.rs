//! The nearest of a set of names to one that is not among them, for hints.

/// Similarity from which a name may be what was meant; chosen by trying common slips.
const NEAR: f64 = 0.8;

/// A longer name is no slip of a known one, and comparing takes the product of both lengths.
const LONGEST: usize = 80;

/// The nearest name, if one is near enough to be what was meant: by Jaro-Winkler similarity, or, since that has no eye for
/// the middle of short names, where a single slip (a letter too many, too few, wrong, or two in the wrong order) parts
/// names of which one has at least three letters.
pub fn nearest<'n>(name: &str, known: impl IntoIterator<Item = &'n str>) -> Option<&'n str> {
    if name.len() > LONGEST {
        return None;
    }
    let wanted = name.to_lowercase();
    known
        .into_iter()
        .filter(|k| k.len() <= LONGEST)
        .map(|k| (similarity(&wanted, &k.to_lowercase()), k))
        .filter(|(score, _)| *score >= NEAR)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, k)| k)
}

fn similarity(wanted: &str, known: &str) -> f64 {
    let slip = wanted.chars().count().max(known.chars().count()) >= 3 && strsim::osa_distance(wanted, known) == 1;
    strsim::jaro_winkler(wanted, known).max(if slip { NEAR } else { 0.0 })
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn a_slip_finds_its_name_and_nonsense_finds_none() {
        assert_eq!(nearest("volum", ["volume", "name"]), Some("volume"));
        assert_eq!(nearest("Tank", ["tank", "coil_in"]), Some("tank"));
        for slip in ["bx", "Bxo", "bax", "boxx"] {
            assert_eq!(nearest(slip, ["rocket", "box"]), Some("box"), "{slip}");
        }
        assert_eq!(nearest("s4", ["s1", "s2"]), None);
        assert_eq!(nearest("zzz", ["volume", "name"]), None);
    }
}
