//! Classes of wood by their names, English and German. Common practice, no source: botany, not hardness.

const CONIFEROUS: &[&str] =
    &["spruce", "fir", "pine", "larch", "cedar", "hemlock", "fichte", "tanne", "kiefer", "lärche"];
const BROADLEAF: &[&str] = &[
    "oak", "beech", "birch", "ash", "maple", "hickory", "elm", "alder", "poplar", "willow", "apple", "cherry", "eiche",
    "buche", "birke", "esche", "ahorn", "erle", "pappel", "weide",
];

/// The class of a fuel whose name has the name of one wood, or of several of one class.
pub(super) fn class(name: &str) -> Option<&'static str> {
    let lower = name.to_lowercase();
    let has = |woods: &[&str]| lower.split(|c: char| !c.is_alphabetic()).any(|word| woods.contains(&word));
    match (has(CONIFEROUS), has(BROADLEAF)) {
        (true, false) => Some("coniferous"),
        (false, true) => Some("broadleaf"),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::class;

    #[test]
    fn classes_by_names() {
        assert_eq!(class("Spruce, split"), Some("coniferous"));
        assert_eq!(class("Red oak"), Some("broadleaf"));
        assert_eq!((class("pine and birch"), class("scrap"), class("Cashew")), (None, None, None));
    }
}
