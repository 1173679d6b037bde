//! The nearest of a set of names to one that is not among them, for hints.

/// The nearest name, if one is near enough to be what was meant (Jaro-Winkler similarity of at least 0.8, a limit
/// chosen by trying common slips).
pub fn nearest<'n>(name: &str, known: impl IntoIterator<Item = &'n str>) -> Option<&'n str> {
    let wanted = name.to_lowercase();
    known
        .into_iter()
        .map(|k| (strsim::jaro_winkler(&wanted, &k.to_lowercase()), k))
        .filter(|(score, _)| *score >= 0.8)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, k)| k)
}

/// A hint naming the nearest name, or else all of them.
pub fn hint<'n>(name: &str, known: impl IntoIterator<Item = &'n str> + Clone) -> String {
    if let Some(near) = nearest(name, known.clone()) {
        return format!("did you mean `{near}`?");
    }
    let all: Vec<String> = known.into_iter().map(|k| format!("`{k}`")).collect();
    if all.is_empty() { "none is defined".into() } else { format!("known here: {}", all.join(", ")) }
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn a_slip_finds_its_name_and_nonsense_finds_none() {
        assert_eq!(nearest("volum", ["volume", "name"]), Some("volume"));
        assert_eq!(nearest("Tank", ["tank", "coil_in"]), Some("tank"));
        assert_eq!(nearest("zzz", ["volume", "name"]), None);
    }
}
