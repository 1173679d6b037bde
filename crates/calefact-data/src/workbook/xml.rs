//! XML as both formats of workbooks need it. A text that ends within an element is damaged: nobody waits for its end.

use crate::fact::WorkbookFailure;
use quick_xml::escape::resolve_xml_entity;
use quick_xml::events::{BytesRef, BytesStart, Event};
use quick_xml::{Reader, XmlVersion};
use std::io::BufRead;

/// A reader that gives `<a/>` as a start and an end.
pub(super) fn reader<R: BufRead>(part: R) -> Reader<R> {
    let mut reader = Reader::from_reader(part);
    reader.config_mut().expand_empty_elements = true;
    reader
}

/// The next event.
pub(super) fn next<'b, R: BufRead>(
    reader: &mut Reader<R>,
    buffer: &'b mut Vec<u8>,
) -> Result<Event<'b>, WorkbookFailure> {
    buffer.clear();
    reader.read_event_into(buffer).map_err(|_| WorkbookFailure::Damaged)
}

/// Calls `each` with every start of an element of a well-formed part.
pub(super) fn each_start(
    part: impl BufRead,
    mut each: impl FnMut(&BytesStart<'_>) -> Result<(), WorkbookFailure>,
) -> Result<(), WorkbookFailure> {
    let (mut reader, mut buffer, mut depth) = (reader(part), Vec::new(), 0_u64);
    loop {
        match next(&mut reader, &mut buffer)? {
            Event::Start(start) => {
                depth += 1;
                each(&start)?;
            }
            Event::End(_) => depth -= 1,
            Event::Eof if depth > 0 => return Err(WorkbookFailure::Damaged),
            Event::Eof => return Ok(()),
            _ => {}
        }
    }
}

/// The value of an attribute by its name without prefix.
pub(super) fn attribute(start: &BytesStart<'_>, name: &str) -> Result<Option<String>, WorkbookFailure> {
    for attribute in start.attributes().with_checks(false) {
        let attribute = attribute.map_err(|_| WorkbookFailure::Damaged)?;
        if attribute.key.local_name().as_ref() == name {
            let value = attribute.normalized_value(XmlVersion::Implicit1_0).map_err(|_| WorkbookFailure::Damaged)?;
            return Ok(Some(value.into_owned()));
        }
    }
    Ok(None)
}

/// The character that a reference such as `&amp;` or `&#176;` stands for.
pub(super) fn character(reference: &BytesRef<'_>) -> Result<String, WorkbookFailure> {
    if let Some(text) = resolve_xml_entity(reference) {
        return Ok(text.into());
    }
    let found = reference.resolve_char_ref().map_err(|_| WorkbookFailure::Damaged)?;
    found.map(String::from).ok_or(WorkbookFailure::Damaged)
}
