//! TOML files fitted to the bundle: paths of the datasets in the pipeline; notes and names of operators left out where that is
//! wished. Everything else, comments among it, stays as the person wrote it.

use calefact_data::personal::{LeftOut, PersonalWords};
use toml_edit::visit_mut::{VisitMut, visit_array_mut, visit_inline_table_mut, visit_table_mut, visit_value_mut};
use toml_edit::{Array, DocumentMut, InlineTable, Item, Table, TableLike, Value, value};

/// The pipeline file with the folders of its datasets in the bundle. What leads out of the bundle, and where results go, is not in it.
///
/// # Errors
/// If it is not TOML.
pub fn pipeline(text: &str, datasets: &[String], left_out: &LeftOut) -> Result<String, toml_edit::TomlError> {
    let mut document: DocumentMut = text.parse()?;
    document["datasets"] = value(datasets.iter().collect::<Array>());
    document.remove("read_outside");
    if let Some(outputs) = document.get_mut("outputs").and_then(Item::as_table_like_mut) {
        outputs.remove("folder");
        outputs.remove("formats");
    }
    let comparisons = document.get_mut("comparison").and_then(Item::as_array_of_tables_mut);
    for table in comparisons.into_iter().flat_map(|all| all.iter_mut()) {
        let operator = table.get_mut("only").and_then(|only| only.get_mut("operator"));
        if let Some(operator) = operator
            && let Some(other) = operator.as_str().and_then(|name| left_out.operators.get(name))
        {
            *operator = value(other);
        }
    }
    if left_out.notes {
        strip(&mut document);
    }
    Ok(document.to_string())
}

/// The description of a dataset.
///
/// # Errors
/// If it is not TOML.
pub fn dataset(text: &str, left_out: &LeftOut) -> Result<String, toml_edit::TomlError> {
    let mut document: DocumentMut = text.parse()?;
    if let Some(operator) = document.get_mut("defaults").and_then(|table| table.get_mut("operator"))
        && let Some(other) = operator.as_str().and_then(|name| left_out.operators.get(name.trim()))
    {
        *operator = value(other);
    }
    if left_out.notes {
        remove_notes(document.as_table_mut());
        strip(&mut document);
    }
    Ok(document.to_string())
}

/// The words of people in a description: the operator that stands for blank cells, and the number of notes.
///
/// # Errors
/// If it is not TOML.
pub fn personal_words(text: &str) -> Result<PersonalWords, toml_edit::TomlError> {
    let mut document: DocumentMut = text.parse()?;
    let operator = document.get("defaults").and_then(|table| table.get("operator")).and_then(Item::as_str);
    let operators = operator.map(|name| name.trim().to_owned()).into_iter().collect();
    Ok(PersonalWords { operators, notes: remove_notes(document.as_table_mut()), ..PersonalWords::default() })
}

/// Removes every `note` of the entries of a description, such as `stoves.box.note`, and that of blank cells. Gives their number.
fn remove_notes(root: &mut Table) -> usize {
    let default = root.get_mut("defaults").and_then(Item::as_table_like_mut).and_then(|table| table.remove("note"));
    let sections = root.iter_mut().filter(|(key, _)| !matches!(key.get(), "columns" | "logs" | "register" | "assume"));
    let entries = sections.filter_map(|(_, section)| section.as_table_like_mut()).flat_map(entries_of);
    entries.filter_map(|entry| entry.remove("note")).count() + usize::from(default.is_some())
}

/// The entries of a section.
fn entries_of(section: &mut dyn TableLike) -> Vec<&mut dyn TableLike> {
    section.iter_mut().filter_map(|(_, entry)| entry.as_table_like_mut()).collect()
}

/// Removes all comments.
fn strip(document: &mut DocumentMut) {
    Bare.visit_document_mut(document);
    document.set_trailing("");
}

struct Bare;

impl VisitMut for Bare {
    fn visit_table_mut(&mut self, table: &mut Table) {
        table.decor_mut().clear();
        clear_keys(table);
        visit_table_mut(self, table);
    }

    fn visit_inline_table_mut(&mut self, table: &mut InlineTable) {
        clear_keys(table);
        visit_inline_table_mut(self, table);
    }

    fn visit_array_mut(&mut self, array: &mut Array) {
        array.set_trailing("");
        visit_array_mut(self, array);
    }

    fn visit_value_mut(&mut self, value: &mut Value) {
        value.decor_mut().clear();
        visit_value_mut(self, value);
    }
}

fn clear_keys(table: &mut dyn TableLike) {
    for (mut key, _) in table.iter_mut() {
        key.leaf_decor_mut().clear();
        key.dotted_decor_mut().clear();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    const PIPELINE: &str = "# Ida's file\nname = \"p\" # mine\ndatasets = [\n  \"../x\", # hers\n  \"y\",\n]\nread_outside = true\n\n\
        # only hers\n[[comparison]]\nfactor = \"stove\"\nonly = { operator = \"Ida\", fuel = \"spruce\" }\n\n\
        [outputs]\nfolder = \"/home/ida/out\"\nformats = [\"parquet\"]\nunits = \"us\"\n# end\n";

    #[test]
    fn paths_are_those_of_the_bundle() {
        let text = pipeline(PIPELINE, &["datasets/x".into(), "datasets/y".into()], &LeftOut::default()).expect("TOML");
        assert!(text.contains("datasets = [\"datasets/x\", \"datasets/y\"]"), "{text}");
        assert!(!text.contains("read_outside") && !text.contains("/home/ida") && !text.contains("parquet"), "{text}");
        assert!(text.contains("# only hers") && text.contains("units = \"us\""), "{text}");
    }

    #[test]
    fn notes_are_comments_too() {
        let operators = BTreeMap::from([("Ida".to_owned(), "operator-1".to_owned())]);
        let text = pipeline(PIPELINE, &["datasets/x".into()], &LeftOut { notes: true, operators }).expect("TOML");
        assert!(!text.contains('#') && text.contains("operator = \"operator-1\""), "{text}");
        assert_eq!(text.parse::<DocumentMut>().expect("TOML")["outputs"]["units"].as_str(), Some("us"));
    }

    #[test]
    fn notes_of_a_description_go_and_columns_named_so_stay() {
        let text = "title = \"t\" # by Ida\n[stoves]\nbox = { name = \"Box\", note = \"Ida's\" }\n[stoves.b]\nname = \"B\"\nnote = \"x\"\n\
            [columns]\nnote = \"Bemerkung\"\n[defaults]\noperator = \"Ida\"\nnote = \"y\"\n";
        let found = personal_words(text).expect("TOML");
        assert_eq!((found.notes, found.operators.into_iter().collect::<Vec<_>>()), (3, vec!["Ida".to_owned()]));
        let operators = BTreeMap::from([("Ida".to_owned(), "operator-1".to_owned())]);
        let bare = dataset(text, &LeftOut { notes: true, operators }).expect("TOML");
        assert!(!bare.contains("Ida") && !bare.contains("note = \"x\"") && !bare.contains("\"y\""), "{bare}");
        assert!(bare.contains("Bemerkung") && bare.contains("operator = \"operator-1\""), "{bare}");
        assert_eq!(dataset(text, &LeftOut::default()).expect("TOML"), text);
    }
}
