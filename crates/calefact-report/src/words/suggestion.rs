//! Which of the known names may have been meant.

use calefact_data::nearest;

/// Names that a hint lists.
const LISTED: usize = 30;

/// A hint that names the nearest of the known names, or else all of them.
pub(super) fn suggestion<S: AsRef<str>>(name: &str, known: &[S]) -> String {
    if let Some(near) = nearest(name, known.iter().map(AsRef::as_ref)) {
        return format!("did you mean `{near}`?");
    }
    let all: Vec<String> = known.iter().take(LISTED).map(|k| format!("`{}`", k.as_ref())).collect();
    match all.as_slice() {
        [] => "none is defined".into(),
        [only] => format!("write {only}"),
        _ => format!("write one of {}", all.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::suggestion;

    #[test]
    fn the_nearest_or_all() {
        assert_eq!(suggestion("volum", &["volume", "name"]), "did you mean `volume`?");
        assert_eq!(suggestion("x", &["point", "comma"]), "write one of `point`, `comma`");
        assert_eq!(suggestion("x", &["whole log"]), "write `whole log`");
        assert_eq!(suggestion::<&str>("x", &[]), "none is defined");
    }
}
