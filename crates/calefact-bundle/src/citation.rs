//! `CITATION.cff`: how to cite a bundle, in the Citation File Format 1.2.0 (<https://doi.org/10.5281/zenodo.5171937>).

use crate::{Author, Publication};
use serde_json::Value;

/// The text of the file. Values are written as JSON writes texts, which YAML reads.
pub(crate) fn text(publication: &Publication) -> String {
    let Publication { title, description, authors, licence, version, date, keywords, url } = publication;
    let mut lines = vec![
        "cff-version: \"1.2.0\"".to_owned(),
        "message: \"If you use these data, please cite them as below.\"".to_owned(),
        "type: dataset".to_owned(),
        entry("title", title),
        "authors:".to_owned(),
    ];
    lines.extend(authors.iter().flat_map(author));
    lines.extend(description.iter().map(|text| entry("abstract", text)));
    lines.extend(version.iter().map(|text| entry("version", text)));
    lines.push(entry("date-released", date));
    lines.extend(licence.map(|licence| entry("license", licence.id)));
    lines.extend(url.iter().map(|text| entry("url", text)));
    if !keywords.is_empty() {
        lines.push("keywords:".to_owned());
        lines.extend(keywords.iter().map(|word| format!("  - {}", quoted(word))));
    }
    lines.join("\n") + "\n"
}

fn author(author: &Author) -> Vec<String> {
    let orcid = author.orcid.as_ref().map(|id| format!("https://orcid.org/{id}"));
    let own = if author.is_person { "family-names" } else { "name" };
    let affiliation = author.affiliation.clone().filter(|_| author.is_person);
    let parts = [
        (own, Some(author.name.clone())),
        ("given-names", author.given_names.clone()),
        ("orcid", orcid),
        ("affiliation", affiliation),
    ];
    let lines = parts.into_iter().filter_map(|(key, value)| Some(entry(key, &value?))).enumerate();
    lines.map(|(i, line)| format!("  {} {line}", if i == 0 { '-' } else { ' ' })).collect()
}

fn entry(key: &str, text: &str) -> String {
    format!("{key}: {}", quoted(text))
}

fn quoted(text: &str) -> String {
    Value::from(text).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn persons_and_organisations() {
        let person = Author {
            given_names: Some("Ida".into()),
            name: "Example: \"x\"".into(),
            is_person: true,
            orcid: Some("0000-0002-1825-0097".into()),
            affiliation: Some("Hill nursery".into()),
        };
        let organisation = Author { name: "Hill nursery".into(), ..Author::default() };
        let text = text(&Publication {
            title: "Stoves".into(),
            authors: vec![person, organisation],
            date: "2026-05-04".into(),
            ..Publication::default()
        });
        let wanted = "authors:\n  - family-names: \"Example: \\\"x\\\"\"\n    given-names: \"Ida\"\n    \
            orcid: \"https://orcid.org/0000-0002-1825-0097\"\n    affiliation: \"Hill nursery\"\n  - name: \"Hill nursery\"\n\
            date-released: \"2026-05-04\"\n";
        assert!(text.ends_with(wanted), "{text}");
    }
}
