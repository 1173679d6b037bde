//! `ro-crate-metadata.json`: who made the results, from what, with which instruments and program, as RO-Crate 1.2
//! (<https://w3id.org/ro/crate/1.2>).

use crate::about::{CITATION, CRATE, DATA_PACKAGE, DatasetEntry, Descriptors, LICENCE, README};
use crate::names::{CHECKSUMS, PIPELINE, RESULTS};
use crate::{Author, Publication};
use serde_json::{Value, json};
use std::io;

const VERSION: &str = "https://w3id.org/ro/crate/1.2";
const PROGRAM: &str = "#program";
const RUN: &str = "#run";
const COMPLETED: &str = "http://schema.org/CompletedActionStatus";

/// The document. The files are those that are there; the descriptors themselves are added.
///
/// # Errors
/// If a file has no size.
pub(crate) fn document(about: &Descriptors<'_>) -> io::Result<Value> {
    let authors = &about.publication.authors;
    let mut graph = vec![
        json!({
            "@id": CRATE,
            "@type": "CreativeWork",
            "name": "Description of this crate",
            "conformsTo": { "@id": VERSION },
            "about": { "@id": "./" },
        }),
        root(about),
    ];
    graph.extend(authors.iter().enumerate().flat_map(|(i, author)| person(i, author)));
    graph.extend(about.publication.licence.map(|licence| {
        json!({ "@id": licence.url, "@type": "CreativeWork", "name": licence.name, "identifier": licence.id,
            "description": format!("The licence of this crate; its text is in {LICENCE}") })
    }));
    graph.push(program(about));
    graph.push(run(about));
    graph.push(json!({ "@id": COMPLETED, "@type": "ActionStatusType", "name": "Completed" }));
    for (index, set) in about.datasets.iter().enumerate() {
        graph.extend(dataset(about, index, set));
    }
    graph.push(json!({
        "@id": format!("{RESULTS}/"),
        "@type": "Dataset",
        "name": "Results",
        "description": "Report, tables and charts",
        "hasPart": parts(about, RESULTS),
    }));
    for name in about.files {
        graph.push(file(about, name)?);
    }
    let own = [
        (LICENCE, "Text of the licence", "text/plain"),
        (CITATION, "How to cite this crate", "application/yaml"),
        (DATA_PACKAGE, "Types, units and meanings of the columns of the tables", "application/json"),
        (README, "How to check this crate", "text/markdown"),
        (CHECKSUMS, "SHA-256 of every other file", "text/plain"),
    ];
    graph.extend(own.map(|(name, meaning, kind)| {
        let mut file =
            json!({ "@id": name, "@type": "File", "name": name, "description": meaning, "encodingFormat": kind });
        // The list of checksums is written last: it covers this document.
        if let Ok(size) = std::fs::metadata(about.root.join(name)) {
            file["contentSize"] = size.len().to_string().into();
        }
        file
    }));
    Ok(json!({ "@context": format!("{VERSION}/context"), "@graph": graph }))
}

fn root(about: &Descriptors<'_>) -> Value {
    let Publication { title, authors, licence, version, date, keywords, url, .. } = about.publication;
    let own = [PIPELINE, LICENCE, CITATION, DATA_PACKAGE, README, CHECKSUMS].map(id);
    let folders =
        about.datasets.iter().map(|set| folder_id(&set.folder)).chain([json!({ "@id": format!("{RESULTS}/") })]);
    let measurements = (0..about.datasets.len()).map(|index| json!({ "@id": measurement_id(index) }));
    let mut root = json!({
        "@id": "./",
        "@type": "Dataset",
        "name": title,
        "description": about.description(),
        "datePublished": date,
        "license": licence.map(|l| json!({ "@id": l.url })),
        "author": some(authors.iter().enumerate().map(|(i, a)| json!({ "@id": author_id(i, a) }))),
        "publisher": publisher(authors),
        "hasPart": folders.chain(own).collect::<Value>(),
        "mentions": some([json!({ "@id": RUN })].into_iter().chain(measurements)),
    });
    if !keywords.is_empty() {
        root["keywords"] = some(keywords.iter().map(|word| Value::from(word.as_str())));
    }
    if let Some(version) = version {
        root["version"] = version.as_str().into();
    }
    if let Some(url) = url {
        root["url"] = url.as_str().into();
    }
    root
}

/// A person or an organisation, and the one that the person works for.
fn person(index: usize, author: &Author) -> Vec<Value> {
    let kind = if author.is_person { "Person" } else { "Organization" };
    let mut entity = json!({ "@id": author_id(index, author), "@type": kind, "name": author.full_name() });
    if author.is_person {
        entity["familyName"] = author.name.as_str().into();
        if let Some(given) = &author.given_names {
            entity["givenName"] = given.as_str().into();
        }
    }
    let Some(affiliation) = &author.affiliation else { return vec![entity] };
    let place = format!("#affiliation-{}", index + 1);
    entity["affiliation"] = json!({ "@id": place });
    vec![entity, json!({ "@id": place, "@type": "Organization", "name": affiliation })]
}

/// The first organisation among the authors, or else the first person.
fn publisher(authors: &[Author]) -> Value {
    let first = authors.iter().enumerate().min_by_key(|(i, author)| (author.is_person, *i));
    first.map_or(Value::Null, |(i, author)| json!({ "@id": author_id(i, author) }))
}

fn measurement_id(index: usize) -> String {
    format!("#measurement-{}", index + 1)
}

/// One value as it is, several as a list, as RO-Crate recommends.
fn some(values: impl Iterator<Item = Value>) -> Value {
    let mut values: Vec<Value> = values.collect();
    if values.len() == 1 { values.remove(0) } else { values.into() }
}

fn author_id(index: usize, author: &Author) -> String {
    match &author.orcid {
        Some(orcid) => format!("https://orcid.org/{orcid}"),
        None => format!("#author-{}", index + 1),
    }
}

/// The program. A crate must give an address of it; it has no page, so that the page of the bundle, which names it, stands there.
fn program(about: &Descriptors<'_>) -> Value {
    let software = about.software;
    json!({
        "@id": PROGRAM,
        "@type": "SoftwareApplication",
        "name": software.name,
        "version": software.version,
        "url": { "@id": README },
        "description": "Compares wood-stove water-heating trials",
    })
}

/// The run that made the results.
fn run(about: &Descriptors<'_>) -> Value {
    let inputs = about.datasets.iter().map(|set| folder_id(&set.folder)).chain([id(PIPELINE)]);
    let agents = about.publication.authors.iter().enumerate().map(|(i, a)| json!({ "@id": author_id(i, a) }));
    json!({
        "@id": RUN,
        "@type": "CreateAction",
        "name": format!("{} run {PIPELINE}", about.software.name),
        "description": "Reads the datasets, reduces every trial, and compares them as the pipeline says",
        "actionStatus": { "@id": COMPLETED },
        "agent": some(agents),
        "instrument": { "@id": PROGRAM },
        "object": inputs.collect::<Value>(),
        "result": { "@id": format!("{RESULTS}/") },
    })
}

/// A dataset, and where its readings were taken the act of measuring with its instruments.
fn dataset(about: &Descriptors<'_>, index: usize, set: &DatasetEntry) -> Vec<Value> {
    let kind = if set.invented {
        "Invented readings; no measurement stands behind them"
    } else {
        "Apparatus, trials and logs"
    };
    let folder = json!({
        "@id": format!("{}/", uri(&set.folder)),
        "@type": "Dataset",
        "name": set.title,
        "description": kind,
        "hasPart": parts(about, &set.folder),
    });
    let instrument_id = |i: usize| format!("#instrument-{}-{}", index + 1, i + 1);
    let instruments = set.instruments.iter().enumerate().map(|(i, (name, reads))| {
        json!({
            "@id": instrument_id(i),
            "@type": "IndividualProduct",
            "name": name,
            "description": format!("Reads {}", reads.join(", ")),
        })
    });
    let ids = (0..set.instruments.len()).map(|i| json!({ "@id": instrument_id(i) }));
    let doing = if set.invented { "Invention of" } else { "Measurement of" };
    let mut measured = json!({
        "@id": measurement_id(index),
        "@type": "CreateAction",
        "name": format!("{doing} {}", set.title),
        "result": folder_id(&set.folder),
    });
    if !set.instruments.is_empty() {
        measured["instrument"] = some(ids);
    }
    let place = (!set.site.is_empty()).then(|| {
        let id = format!("#site-{}", index + 1);
        measured["location"] = json!({ "@id": id });
        json!({ "@id": id, "@type": "Place", "name": set.site })
    });
    [folder].into_iter().chain(instruments).chain([measured]).chain(place).collect()
}

/// The files below a folder.
fn parts(about: &Descriptors<'_>, folder: &str) -> Value {
    let below = format!("{folder}/");
    about.files.iter().filter(|name| name.starts_with(&below)).map(|name| id(name)).collect()
}

fn file(about: &Descriptors<'_>, name: &str) -> io::Result<Value> {
    let bytes = std::fs::metadata(about.root.join(name))?.len();
    let kind = match name.rsplit('.').next().unwrap_or_default().to_lowercase().as_str() {
        "csv" => "text/csv",
        "html" => "text/html",
        "json" => "application/json",
        "svg" => "image/svg+xml",
        "toml" => "application/toml",
        "txt" | "tsv" => "text/plain",
        "xlsx" => "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
        "ods" => "application/vnd.oasis.opendocument.spreadsheet",
        _ => "application/octet-stream",
    };
    let short = name.rsplit('/').next().unwrap_or_default();
    Ok(json!({
        "@id": uri(name),
        "@type": "File",
        "name": short,
        "description": description(name),
        "contentSize": bytes.to_string(),
        "encodingFormat": kind,
    }))
}

/// What a file holds, by its place.
fn description(name: &str) -> String {
    let parts: Vec<&str> = name.split('/').collect();
    let short = parts.last().copied().unwrap_or_default();
    match parts[..] {
        [PIPELINE] => "The pipeline: what is read, and how it is analysed".into(),
        [RESULTS, "tables", _] => format!("Table of results; {DATA_PACKAGE} explains its columns"),
        [RESULTS, "charts", _] => "Chart of the report".into(),
        [RESULTS, "manifest.json"] => "Settings, and SHA-256 of the files that were read and written".into(),
        [RESULTS, ..] => "The report".into(),
        _ if short == "dataset.toml" => "Apparatus, instruments and columns of a dataset".into(),
        _ => "Trials or readings, as they were read".into(),
    }
}

fn id(name: &str) -> Value {
    json!({ "@id": uri(name) })
}

fn folder_id(folder: &str) -> Value {
    json!({ "@id": format!("{}/", uri(folder)) })
}

/// A path as a relative reference (RFC 3986).
fn uri(path: &str) -> String {
    let byte = |b: u8| {
        if b.is_ascii_alphanumeric() || b"-._~/".contains(&b) { char::from(b).to_string() } else { format!("%{b:02X}") }
    };
    path.bytes().map(byte).collect()
}

#[cfg(test)]
mod tests {
    use super::uri;

    #[test]
    fn paths_are_encoded() {
        assert_eq!(uri("datasets/hill/lög 1.csv"), "datasets/hill/l%C3%B6g%201.csv");
    }
}
