//! Which part of an `.xlsx` archive holds which sheet (ECMA-376 part 1, 18.2.19 and part 2, 6.5).

use super::archive::Archive;
use super::xml::{attribute, each_start};
use crate::fact::WorkbookFailure;
use std::collections::BTreeMap;

/// The part that lists the sheets. Others are allowed and not in use.
pub(super) const WORKBOOK: &str = "xl/workbook.xml";

/// The sheets with their parts, in the order of the workbook. Charts that fill a sheet have no cells and are left out.
pub(super) fn sheets(archive: &mut Archive) -> Result<Vec<(String, String)>, WorkbookFailure> {
    if root(archive)?.to_lowercase() != WORKBOOK {
        return Err(WorkbookFailure::Damaged);
    }
    let parts = targets(archive, "xl/_rels/workbook.xml.rels", "/worksheet")?;
    let mut sheets = Vec::new();
    each_start(archive.part(WORKBOOK)?, |start| {
        if start.local_name().as_ref() == "sheet" {
            let (name, id) = (attribute(start, "name")?, attribute(start, "id")?);
            let part = id.and_then(|id| parts.get(&id)).map(|target| under_xl(target));
            sheets.extend(name.zip(part));
        }
        Ok(())
    })?;
    Ok(sheets)
}

/// The part that the archive names as its document.
fn root(archive: &mut Archive) -> Result<String, WorkbookFailure> {
    let parts = targets(archive, "_rels/.rels", "/officeDocument")?;
    let target = parts.into_values().next().ok_or(WorkbookFailure::NotAWorkbook)?;
    Ok(target.trim_start_matches('/').to_owned())
}

/// The targets of one type by their ids.
fn targets(archive: &mut Archive, part: &str, kind: &str) -> Result<BTreeMap<String, String>, WorkbookFailure> {
    let mut targets = BTreeMap::new();
    each_start(archive.part(part)?, |start| {
        let (id, target) = (attribute(start, "Id")?, attribute(start, "Target")?);
        if start.local_name().as_ref() == "Relationship" && attribute(start, "Type")?.is_some_and(|t| t.ends_with(kind))
        {
            targets.extend(id.zip(target));
        }
        Ok(())
    })?;
    Ok(targets)
}

/// The name of a part in the archive by its target, which is relative to `xl` unless it begins with a slash.
fn under_xl(target: &str) -> String {
    target.strip_prefix('/').map_or_else(|| format!("xl/{target}"), ToOwned::to_owned)
}
