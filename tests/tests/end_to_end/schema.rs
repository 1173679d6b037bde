//! The JSON Schemas of both TOML files are those of their keys, and the demo and the examples keep to them.
//!
//! The schemas are written anew with `CALEFACT_WRITE_REFERENCE=1 cargo test -p calefact-tests schema`. The files are checked with a
//! validator of the few keywords the schemas use, which saves a large dependency.

use calefact_data::toml_source::{Key, Range, Shape, TextForm};
use calefact_tests::root;
use serde_json::{Map, Value, json};
use std::path::Path;

const SCHEMAS: [(&str, &str, &[Key]); 2] = [
    ("datasets/dataset.schema.json", "Calefact dataset.toml", calefact_data::dataset_file::KEYS),
    ("pipelines/pipeline.schema.json", "Calefact pipeline file", calefact::pipeline_file::KEYS),
];

fn document(title: &str, keys: &[Key]) -> Value {
    let mut document = json!({ "$schema": "https://json-schema.org/draft/2020-12/schema", "title": title });
    merge(&mut document, table(keys));
    document
}

fn table(keys: &[Key]) -> Value {
    let properties: Map<String, Value> = keys.iter().map(|key| (key.name.to_owned(), property(key))).collect();
    let required: Vec<&str> = keys.iter().filter(|k| k.required).map(|k| k.name).collect();
    let mut schema = json!({ "type": "object", "properties": properties, "additionalProperties": false });
    if !required.is_empty() {
        merge(&mut schema, json!({ "required": required }));
    }
    schema
}

fn property(key: &Key) -> Value {
    let mut schema = json!({ "description": key.meaning });
    if let Some(default) = key.default {
        let parsed: Map<String, Value> = toml::from_str(&format!("value = {default}")).expect("a default in TOML");
        merge(&mut schema, json!({ "default": parsed["value"] }));
    }
    merge(&mut schema, shape(key.shape));
    schema
}

fn shape(of: Shape) -> Value {
    match of {
        Shape::Text(TextForm::Date) => json!({ "type": "string", "format": "date" }),
        Shape::Text(_) => json!({ "type": "string" }),
        Shape::Word(words) => json!({ "enum": words() }),
        Shape::Number(range) => limited("number", range),
        Shape::Integer(range) => limited("integer", range),
        Shape::Boolean => json!({ "type": "boolean" }),
        Shape::Quantity(kind, _) | Shape::Stated(kind, _) | Shape::Width(kind) => {
            json!({ "type": "string", "$comment": format!("{} with its unit", kind.words()) })
        }
        Shape::List(each) => json!({ "type": "array", "items": shape(*each) }),
        Shape::NonEmpty(each, _) => json!({ "type": "array", "items": shape(*each), "minItems": 1 }),
        Shape::Table(keys) => table(keys),
        Shape::ById(each) => json!({ "type": "object", "additionalProperties": shape(*each) }),
        Shape::ByName(names, each) => {
            json!({ "type": "object", "propertyNames": { "enum": names() }, "additionalProperties": shape(*each) })
        }
        Shape::Either(first, second) => json!({ "anyOf": [shape(*first), shape(*second)] }),
    }
}

fn limited(kind: &str, range: Range) -> Value {
    let mut schema = json!({ "type": kind });
    merge(
        &mut schema,
        match range {
            Range::Any => json!({}),
            Range::Positive => json!({ "exclusiveMinimum": 0 }),
            Range::NotNegative => json!({ "minimum": 0 }),
            Range::Within(low, high) => json!({ "minimum": low, "maximum": high }),
            Range::Below(low, high) => json!({ "minimum": low, "exclusiveMaximum": high }),
            Range::Between(low, high) => json!({ "exclusiveMinimum": low, "exclusiveMaximum": high }),
        },
    );
    schema
}

fn merge(into: &mut Value, from: Value) {
    if let (Value::Object(into), Value::Object(from)) = (into, from) {
        into.extend(from);
    }
}

/// Places where a value does not keep to a schema.
fn violations(schema: &Value, value: &Value, path: &str) -> Vec<String> {
    if let Some(any) = schema["anyOf"].as_array() {
        let fits = any.iter().any(|s| violations(s, value, path).is_empty());
        return if fits { Vec::new() } else { vec![path.to_owned()] };
    }
    let number = value.as_f64();
    let beyond = |key: &str, wrong: fn(f64, f64) -> bool| {
        schema[key].as_f64().zip(number).is_some_and(|(limit, value)| wrong(value, limit))
    };
    let wrong = schema["enum"].as_array().is_some_and(|words| !words.contains(value))
        || schema["type"].as_str().is_some_and(|kind| !is_of_type(value, kind))
        || beyond("minimum", |v, l| v < l)
        || beyond("maximum", |v, l| v > l)
        || beyond("exclusiveMinimum", |v, l| v <= l)
        || beyond("exclusiveMaximum", |v, l| v >= l)
        || schema["minItems"].as_u64().zip(value.as_array()).is_some_and(|(least, items)| (items.len() as u64) < least);
    let mut found = if wrong { vec![path.to_owned()] } else { Vec::new() };
    for item in value.as_array().into_iter().flatten() {
        found.extend(violations(&schema["items"], item, &format!("{path}[]")));
    }
    for required in schema["required"].as_array().into_iter().flatten().filter_map(Value::as_str) {
        if value.get(required).is_none() {
            found.push(format!("{path}.{required} missing"));
        }
    }
    for (key, item) in value.as_object().into_iter().flatten() {
        let at = format!("{path}.{key}");
        if schema["propertyNames"]["enum"].as_array().is_some_and(|names| !names.iter().any(|name| name == key)) {
            found.push(format!("{at} unknown"));
            continue;
        }
        match schema["properties"].get(key).unwrap_or(&schema["additionalProperties"]) {
            Value::Bool(false) => found.push(format!("{at} unknown")),
            schema => found.extend(violations(schema, item, &at)),
        }
    }
    found
}

fn is_of_type(value: &Value, kind: &str) -> bool {
    match kind {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "boolean" => value.is_boolean(),
        "integer" => value.is_i64() || value.is_u64(),
        _ => value.is_number(),
    }
}

fn violations_of(keys: &[Key], text: &str) -> Vec<String> {
    let value: Value = toml::from_str(text).expect("valid TOML");
    violations(&document("", keys), &value, "")
}

fn text(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).expect("a file")
}

#[test]
fn the_schemas_are_those_of_the_keys() {
    for (path, title, keys) in SCHEMAS {
        let wanted = serde_json::to_string_pretty(&document(title, keys)).expect("JSON") + "\n";
        let place = root().join(path);
        if std::env::var_os("CALEFACT_WRITE_REFERENCE").is_some() {
            std::fs::write(&place, &wanted).expect("a written schema");
        }
        let found = std::fs::read_to_string(&place).unwrap_or_default();
        assert!(found == wanted, "{path} is out of date; write it with CALEFACT_WRITE_REFERENCE=1");
    }
}

#[test]
fn the_demo_and_the_examples_keep_to_the_schemas() {
    let [(_, _, dataset), (_, _, pipeline)] = SCHEMAS;
    for path in ["datasets/hill-nursery/dataset.toml", "datasets/electric-pot/dataset.toml"] {
        assert_eq!(violations_of(dataset, &text(path)), [""; 0], "{path}");
    }
    for path in ["pipelines/hill-nursery.toml", "pipelines/electric-pot.toml"] {
        assert_eq!(violations_of(pipeline, &text(path)), [""; 0], "{path}");
    }
    let reference = text("datasets/README.md");
    let example = reference.split("```toml\n").nth(1).and_then(|rest| rest.split("```").next()).expect("an example");
    assert_eq!(violations_of(dataset, example), [""; 0]);
}

#[test]
fn the_validator_finds_what_is_wrong() {
    let [(_, _, dataset), (_, _, pipeline)] = SCHEMAS;
    let wrong = "[logs]\nskip_lines = -1\ndecimal = \"dot\"\n[exchangers.a]\nname = 3\nbuild = { lenght = \"1 m\" }\n[columns]\ntanc = \"T\"\n";
    let found = violations_of(dataset, wrong);
    for part in
        ["title missing", "skip_lines", "decimal", "lenght unknown", ".columns.tanc unknown", ".exchangers.a.name"]
    {
        assert!(found.iter().any(|f| f.contains(part)), "{part} is not in {found:?}");
    }
    assert_eq!(
        violations_of(pipeline, "name = \"a\"\ndatasets = []\n[settings]\nlevel = 1\n"),
        [".datasets", ".settings.level"]
    );
}

/// Every key of the pipeline file is in the demo or in its comments, and every key of `dataset.toml` in its reference, but
/// for the uncertainties, which the reference explains together.
#[test]
fn every_key_is_explained() {
    let [(_, _, dataset), (_, _, pipeline)] = SCHEMAS;
    let named = |keys: &[Key], path: &str| {
        let text = text(path);
        let missing: Vec<String> =
            names(keys).into_iter().filter(|key| !text.contains(key.trim_end_matches("_uncertainty"))).collect();
        assert_eq!(missing, [""; 0], "not in {}", Path::new(path).display());
    };
    named(dataset, "datasets/README.md");
    named(pipeline, "pipelines/hill-nursery.toml");
}

fn names(keys: &[Key]) -> Vec<String> {
    keys.iter().flat_map(|key| [vec![key.name.to_owned()], inner_names(key.shape)].concat()).collect()
}

fn inner_names(shape: Shape) -> Vec<String> {
    match shape {
        Shape::Table(keys) => names(keys),
        Shape::ById(each) | Shape::ByName(_, each) | Shape::List(each) | Shape::NonEmpty(each, _) => inner_names(*each),
        Shape::Either(first, second) => [inner_names(*first), inner_names(*second)].concat(),
        _ => Vec::new(),
    }
}
