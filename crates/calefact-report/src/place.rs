//! File names and paths as they are shown: relative, with forward slashes, the same on every machine.

use calefact_analysis::finding::Finding;
use calefact_data::normalize_path;
use std::path::{Component, Path, PathBuf};

/// File name of a table or chart.
pub(crate) fn file(name: &str, ending: &str) -> String {
    format!("{name}.{ending}")
}

/// A name fit for a file: lower-case letters and digits, the rest as single hyphens.
pub(crate) fn slug(text: &str) -> String {
    let mut slug = String::with_capacity(text.len());
    for c in text.to_lowercase().chars() {
        if c.is_alphanumeric() || c == '_' {
            slug.push(c);
        } else if !slug.ends_with('-') && !slug.is_empty() {
            slug.push('-');
        }
    }
    slug.trim_end_matches('-').to_owned()
}

/// A path with forward slashes.
pub(crate) fn shown(path: &Path) -> String {
    path.components()
        .map(|c| match c {
            Component::RootDir => String::new(),
            other => other.as_os_str().to_string_lossy().into_owned(),
        })
        .collect::<Vec<_>>()
        .join("/")
}

/// A path relative to `base`, with `..` where it lies outside; both are taken as they are, without asking the disk.
pub(crate) fn relative(path: &Path, base: &Path) -> String {
    let (path, base) = (normalize_path(path), normalize_path(base));
    let common = path.components().zip(base.components()).take_while(|(a, b)| a == b).count();
    if path.is_absolute() != base.is_absolute() {
        return shown(&path);
    }
    let up = base.components().skip(common).map(|_| Component::ParentDir);
    let parts: PathBuf = up.chain(path.components().skip(common)).collect();
    shown(&parts)
}

/// A finding whose fact names its own file relative to `base` too.
pub(crate) fn within(finding: &Finding, base: &Path) -> Finding {
    let mut finding = finding.clone();
    if let Some(path) = finding.fact.path_mut() {
        *path = relative(path, base).into();
    }
    finding
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_outside_the_base_is_reached_by_dots() {
        assert_eq!(relative(Path::new("/a/b/c.csv"), Path::new("/a/b")), "c.csv");
        assert_eq!(relative(Path::new("/a/x/c.csv"), Path::new("/a/b/d")), "../../x/c.csv");
        assert_eq!(relative(Path::new("./logs/../trials.csv"), Path::new(".")), "trials.csv");
    }

    #[test]
    fn a_slug_is_fit_for_a_file_name() {
        assert_eq!(slug("Stove, fuel: spruce only"), "stove-fuel-spruce-only");
        assert_eq!(slug("../etc/passwd"), "etc-passwd");
    }
}
