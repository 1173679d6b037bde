//! Facts about bundles: sealed folders or archives whose files are checked before anything in them is used.

use serde::Serialize;
use std::path::PathBuf;

/// A fact about a bundle. Files are named by their path in it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum BundleFact {
    /// The path leads to no bundle: there is no list of checksums in it.
    NotABundle,
    /// The system, or the archive, does not give a file.
    Unreadable {
        /// Why, in the words of the system.
        reason: String,
    },
    /// A limit that no honest bundle needs.
    TooLarge(BundleLimit),
    /// An entry that must not be unpacked.
    Unsafe {
        /// Its name.
        name: String,
        /// Its fault.
        fault: NameFault,
    },
    /// A line of the list of checksums that is not as this program writes it.
    ChecksumLine {
        /// Its number.
        line: u64,
    },
    /// A file whose bytes are not those that were sealed.
    Changed {
        /// The file.
        name: String,
    },
    /// A sealed file that is not there.
    Missing {
        /// The file.
        name: String,
    },
    /// A file that was not sealed.
    Added {
        /// The file.
        name: String,
    },
    /// The pipeline of the bundle reads outside the bundle.
    ReadsOutside {
        /// What it reads.
        path: PathBuf,
    },
    /// The pipeline of the bundle cannot be used.
    NoPipeline,
    /// A bundle that is to serve as a dataset is damaged or unsafe.
    Refused {
        /// Number of faults.
        faults: usize,
        /// The first of them.
        first: Box<BundleFact>,
    },
}

/// What may be too large.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum BundleLimit {
    /// So many files at most.
    Files(u64),
    /// So many bytes at most, all files together.
    Bytes(u64),
    /// So many times the size of the archive at most.
    Ratio(u64),
    /// More bytes in an entry than the archive states.
    Stated,
}

/// Why an entry must not be unpacked.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum NameFault {
    /// The name leads out of the bundle or is absolute, has a drive, or a backslash.
    Path,
    /// A character that is none, or that some system does not allow in names.
    Character,
    /// A name that some system reserves for a device, or that ends in a blank or a dot.
    Reserved,
    /// A name longer than systems allow.
    Long,
    /// A name that another entry has, too.
    Twice,
    /// A name that differs from this one in capitals only.
    Case(String),
    /// A name that is that of a folder of another entry, too.
    Folder,
    /// A link, a pipe or a device.
    NotAFile,
    /// An encrypted entry.
    Encrypted,
}

impl BundleFact {
    /// All codes of this family with their meaning.
    pub const CODES: &[(&str, &str)] = &[
        ("bundle-missing", "the path leads to no bundle"),
        ("bundle-unreadable", "a bundle, or a file in it, cannot be read"),
        ("bundle-unsafe", "a bundle is too large, or has an entry that must not be unpacked"),
        ("bundle-damaged", "a file of a bundle is changed, missing or added"),
        ("bundle-pipeline", "the pipeline of a bundle cannot be used"),
        ("bundle-refused", "a bundle that is to serve as a dataset is damaged or unsafe"),
    ];

    /// The fact that a bundle with these faults cannot serve as a dataset; none without a fault.
    pub fn refused(faults: Vec<Self>) -> Option<Self> {
        let count = faults.len();
        Some(Self::Refused { faults: count, first: Box::new(faults.into_iter().next()?) })
    }

    /// Stable code of the fact.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NotABundle => "bundle-missing",
            Self::Unreadable { .. } => "bundle-unreadable",
            Self::TooLarge(_) | Self::Unsafe { .. } => "bundle-unsafe",
            Self::ChecksumLine { .. } | Self::Changed { .. } | Self::Missing { .. } | Self::Added { .. } => {
                "bundle-damaged"
            }
            Self::ReadsOutside { .. } | Self::NoPipeline => "bundle-pipeline",
            Self::Refused { .. } => "bundle-refused",
        }
    }
}
