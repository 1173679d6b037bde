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
    /// In a folder that lies elsewhere than people are told: an unpacked archive.
    Unpacked {
        /// The folder, as people know it.
        shown: PathBuf,
        /// Where it lies.
        real: PathBuf,
    },
}

impl Reach {
    /// The inside of a folder.
    pub(crate) fn inside(folder: &Path) -> Self {
        Self::Folder { named: normalize_path(folder), real: real(folder).ok() }
    }

    /// Where a file or folder that may be read lies.
    ///
    /// # Errors
    /// As [`Self::check`].
    pub(crate) fn resolve(&self, path: &Path) -> Result<PathBuf, ReadFailure> {
        self.check(path)?;
        Ok(match self {
            Self::Unpacked { shown, real } => real.join(normalize_path(path).strip_prefix(shown).unwrap_or(path)),
            _ => path.to_path_buf(),
        })
    }

    /// Whether a file or folder may be read.
    ///
    /// # Errors
    /// [`ReadFailure::Outside`], or why the disk does not tell.
    pub(crate) fn check(&self, path: &Path) -> Result<(), ReadFailure> {
        let (named, root) = match self {
            Self::Anywhere => return Ok(()),
            Self::Unpacked { shown, .. } => {
                return if is_below(path, shown) { Ok(()) } else { Err(ReadFailure::Outside) };
            }
            Self::Folder { named, real } => (named, real),
        };
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

    #[test]
    fn an_unpacked_folder_is_read_where_it_lies() {
        let reach = Reach::Unpacked { shown: "../n.zip/d".into(), real: "/tmp/x".into() };
        assert_eq!(reach.resolve(Path::new("../n.zip/d/logs/a.csv")), Ok("/tmp/x/logs/a.csv".into()));
        for outside in ["../n.zip/a.csv", "/etc/passwd", "../n.zip/d/../../a.csv"] {
            assert_eq!(reach.resolve(Path::new(outside)), Err(ReadFailure::Outside), "{outside}");
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
