//! `datapackage.json`: a Data Package 2.0 (<https://datapackage.org>) that describes every column of the tables of results. Types, units and
//! meanings are those of `columns.csv`.

use crate::about::Descriptors;
use crate::names::RESULTS;
use crate::{Author, Publication};
use calefact_data::InputFile;
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;
use std::io;

/// The document.
pub(crate) fn document(about: &Descriptors<'_>) -> io::Result<Value> {
    let Publication { title, authors, licence, version, keywords, url, .. } = about.publication;
    let mut package = Map::new();
    let mut add = |key: &str, value: Value| package.insert(key.to_owned(), value);
    add("$schema", "https://datapackage.org/profiles/2.0/datapackage.json".into());
    add("name", slug(about.name).into());
    add("title", title.as_str().into());
    add("description", about.description().into());
    if let Some(version) = version {
        add("version", version.as_str().into());
    }
    if let Some(url) = url {
        add("homepage", url.as_str().into());
    }
    add("licenses", licence.iter().map(|l| json!({ "name": l.id, "title": l.name, "path": l.url })).collect());
    add("contributors", authors.iter().map(contributor).collect());
    if !keywords.is_empty() {
        add("keywords", keywords.clone().into());
    }
    add("sources", about.datasets.iter().map(|set| json!({ "title": set.title, "path": set.folder })).collect());
    add("resources", resources(about)?);
    Ok(package.into())
}

fn contributor(author: &Author) -> Value {
    let mut person = json!({ "title": author.full_name(), "roles": ["author"] });
    if author.is_person {
        person["familyName"] = author.name.as_str().into();
        if let Some(given) = &author.given_names {
            person["givenName"] = given.as_str().into();
        }
    }
    if let Some(orcid) = &author.orcid {
        person["path"] = format!("https://orcid.org/{orcid}").into();
    }
    if let Some(affiliation) = &author.affiliation {
        person["organization"] = affiliation.as_str().into();
    }
    person
}

/// A resource for each table.
fn resources(about: &Descriptors<'_>) -> io::Result<Value> {
    let folder = format!("{RESULTS}/tables/");
    let fields = fields(&std::fs::read(about.root.join(format!("{folder}columns.csv")))?);
    let table = |(name, fields): (&String, &Vec<Value>)| {
        let path = format!("{folder}{name}.csv");
        if !about.files.contains(&path) {
            return Ok(None);
        }
        let file = InputFile::read(&about.root.join(&path))?;
        Ok(Some(json!({
            "name": slug(name),
            "type": "table",
            "path": path,
            "format": "csv",
            "mediatype": "text/csv",
            "encoding": "utf-8",
            "bytes": file.bytes,
            "hash": format!("sha256:{}", file.hex()),
            "schema": { "fields": fields, "missingValues": [""] },
        })))
    };
    fields.iter().filter_map(|entry| table(entry).transpose()).collect()
}

/// The fields of each table, from the table that explains the columns of the others.
fn fields(columns: &[u8]) -> BTreeMap<String, Vec<Value>> {
    let mut reader = csv::Reader::from_reader(columns);
    let mut tables: BTreeMap<String, Vec<Value>> = BTreeMap::new();
    for row in reader.deserialize::<BTreeMap<String, String>>().filter_map(Result::ok) {
        let cell = |name: &str| row.get(name).map(String::as_str).unwrap_or_default();
        let mut field = json!({ "name": cell("column"), "type": cell("type"), "description": description(cell("meaning"), cell("unit")) });
        if !cell("unit").is_empty() && other_column(cell("unit")).is_none() {
            field["unit"] = cell("unit").into();
        }
        tables.entry(cell("table").to_owned()).or_default().push(field);
    }
    tables
}

fn description(meaning: &str, unit: &str) -> String {
    match other_column(unit) {
        Some(column) => format!("{meaning}; its unit stands in the column {column}"),
        None => meaning.to_owned(),
    }
}

/// The column that holds the unit, for units such as "as `unit`".
fn other_column(unit: &str) -> Option<&str> {
    unit.strip_prefix("as ")
}

/// A name that the standard allows: lower-case letters without accents, digits, `-`, `_`, `.`.
fn slug(name: &str) -> String {
    let fits = |c: char| if c.is_ascii_alphanumeric() || "-_.".contains(c) { c.to_ascii_lowercase() } else { '-' };
    name.chars().map(fits).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fields_are_those_of_the_column_table() {
        let columns = "table,column,type,unit,meaning\nt,a,string,,name\nt,b,number,K/min,\"rate, mean\"\nu,c,number,as `unit`,value\n";
        let tables = fields(columns.as_bytes());
        assert_eq!(
            tables["t"],
            [
                json!({ "name": "a", "type": "string", "description": "name" }),
                json!({ "name": "b", "type": "number", "description": "rate, mean", "unit": "K/min" }),
            ]
        );
        assert_eq!(tables["u"][0]["description"], "value; its unit stands in the column `unit`");
        assert_eq!(slug("Übung 1"), "-bung-1");
    }
}
