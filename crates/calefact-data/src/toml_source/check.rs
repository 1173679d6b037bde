//! The check of a whole file against its description: types, words, ranges, units, missing and unknown keys.

use super::context::Context;
use super::spelling::key_path;
use super::value::{Value, read};
use super::{Key, Shape};
use crate::fact::Toml;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Reports everything in a table that does not fit its keys.
pub(super) fn table(
    context: &Context<'_>,
    path: &str,
    span: Range<usize>,
    keys: &'static [Key],
    entries: &DeTable<'_>,
) {
    for key in keys.iter().filter(|k| k.required && !entries.contains_key(k.name)) {
        context.report(span.clone(), Toml::MissingKey { table: path.into(), key: key.name });
    }
    for (name, value) in entries {
        match keys.iter().find(|k| k.name == name.get_ref()) {
            Some(key) => item(context, &key_path(path, key.name), key.shape, value),
            None => unknown(context, path, name.get_ref(), name.span(), keys.iter().map(|k| k.name).collect()),
        }
    }
}

fn item(context: &Context<'_>, path: &str, shape: Shape, value: &Spanned<DeValue<'_>>) {
    let shape_of_type = shape.chosen(value.get_ref());
    match (read(shape, value.get_ref()), shape_of_type) {
        (Err(misfit), _) => context.report(value.span(), Toml::Value { key: path.into(), misfit }),
        (Ok(Value::Table(entries)), Shape::Table(keys)) => table(context, path, value.span(), keys, entries),
        (Ok(Value::Table(entries)), Shape::ById(each)) => {
            entries.iter().for_each(|(id, value)| item(context, &key_path(path, id.get_ref()), *each, value));
        }
        (Ok(Value::Table(entries)), Shape::ByName(names, each)) => by_name(context, path, &names(), *each, entries),
        (Ok(Value::Array(items)), Shape::List(each) | Shape::NonEmpty(each, _)) => {
            items.iter().enumerate().for_each(|(i, value)| item(context, &format!("{path}[{i}]"), *each, value));
        }
        _ => {}
    }
}

fn by_name(context: &Context<'_>, path: &str, names: &[&'static str], each: Shape, entries: &DeTable<'_>) {
    for (name, value) in entries {
        if names.contains(&name.get_ref().as_ref()) {
            item(context, &key_path(path, name.get_ref()), each, value);
        } else {
            unknown(context, path, name.get_ref(), name.span(), names.to_vec());
        }
    }
}

fn unknown(context: &Context<'_>, path: &str, key: &str, span: Range<usize>, known: Vec<&'static str>) {
    context.report(span, Toml::UnknownKey { table: path.into(), key: key.into(), known });
}
