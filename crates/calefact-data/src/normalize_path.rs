//! One spelling of a path, so that a file named in two ways is known as one. The disk is not asked.

use std::path::{Component, Path, PathBuf};

/// A path without `.` and with `..` resolved by its text where possible: `pipelines/../datasets/x` is `datasets/x`.
pub fn normalize_path(path: &Path) -> PathBuf {
    let mut out = PathBuf::new();
    for part in path.components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir if matches!(out.components().next_back(), Some(Component::Normal(_))) => {
                out.pop();
            }
            other => out.push(other),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dots_are_resolved_where_they_can_be() {
        for (path, want) in
            [("a/./b", "a/b"), ("a/../b", "b"), ("../a", "../a"), ("a/../../b", "../b"), ("/../a", "/../a")]
        {
            assert_eq!(normalize_path(Path::new(path)), Path::new(want));
        }
    }
}
