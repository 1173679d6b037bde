//! Where the files of a dataset may lie: in its folder, unless the pipeline allows more. A path from elsewhere, a `..` or a
//! link must not make the program read, or quote, a file that is none of the dataset's.

use crate::fact::ReadFailure;
use crate::normalize_path;
use std::path::{Component, Path, PathBuf};

/// Where files may be read.
#[derive(Debug, Clone)]
pub(crate) enum Reach {
    /// Anywhere.
    Anywhere,
    /// In a folder.
    Folder {
        /// The folder, as it was named.
        named: PathBuf,
        /// The folder behind all links; none if there is no such folder.
        real: Option<PathBuf>,
    },
}

impl Reach {
    /// The inside of a folder.
    pub(crate) fn inside(folder: &Path) -> Self {
        Self::Folder { named: normalize_path(folder), real: real(folder).ok() }
    }

    /// Whether a file or folder may be read.
    ///
    /// # Errors
    /// [`ReadFailure::Outside`], or why the disk does not tell.
    pub(crate) fn check(&self, path: &Path) -> Result<(), ReadFailure> {
        let Self::Folder { named, real: root } = self else { return Ok(()) };
        if !is_below(path, named) {
            return Err(ReadFailure::Outside);
        }
        let real = real(path)?;
        if root.as_ref().is_some_and(|root| real.starts_with(root)) { Ok(()) } else { Err(ReadFailure::Outside) }
    }
}

/// Whether a path lies below a folder by its text.
fn is_below(path: &Path, folder: &Path) -> bool {
    let path = normalize_path(path);
    let is_plain = |part: Component<'_>| matches!(part, Component::Normal(_));
    path.strip_prefix(folder).is_ok_and(|rest| rest.components().all(is_plain))
}

/// The path behind all links. The folder that the command runs in has an empty name.
fn real(path: &Path) -> std::io::Result<PathBuf> {
    std::fs::canonicalize(if path.as_os_str().is_empty() { Path::new(".") } else { path })
}

#[cfg(test)]
mod tests {
    use super::{Reach, is_below};
    use crate::fact::ReadFailure;
    use std::path::Path;

    #[test]
    fn paths_are_below_a_folder_by_their_text() {
        let table = [
            ("d", "d/logs/a.csv", true),
            ("d", "d/logs/../a.csv", true),
            ("d", "d/../a.csv", false),
            ("d", "/etc/passwd", false),
            ("", "logs/a.csv", true),
            ("", "../a.csv", false),
            ("", "/etc/passwd", false),
            ("../d", "../d/a.csv", true),
            ("../d", "../../a.csv", false),
            ("..", "../../a.csv", false),
        ];
        for (folder, path, want) in table {
            assert_eq!(is_below(Path::new(path), Path::new(folder)), want, "{path} below {folder:?}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn links_are_followed_before_the_folder_is_compared() {
        use std::os::unix::fs::symlink;
        let dir = tempfile::tempdir().expect("a folder");
        let set = dir.path().join("set");
        std::fs::create_dir(&set).expect("a folder");
        for name in ["secret.csv", "set/own.csv"] {
            std::fs::write(dir.path().join(name), "x").expect("a file");
        }
        symlink("../secret.csv", set.join("out.csv")).expect("a link");
        symlink("own.csv", set.join("in.csv")).expect("a link");
        let reach = Reach::inside(&set);
        assert_eq!(reach.check(&set.join("in.csv")), Ok(()));
        assert_eq!(reach.check(&set.join("out.csv")), Err(ReadFailure::Outside));
        assert_eq!(reach.check(&set.join("none.csv")), Err(ReadFailure::NotFound));
        assert_eq!(Reach::Anywhere.check(&set.join("out.csv")), Ok(()));
    }
}
