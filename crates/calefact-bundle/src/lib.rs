//! Bundles: a pipeline with its inputs and results, sealed so that a stranger can check and rerun them.
//!
//! Sealing: [`Layout`] names the files, [`rewrite`] fits the TOML files to their new places, [`Descriptors`] describe the whole in
//! open standards, [`checksums`] seal it, [`archive`] packs it. Using: [`Bundle`] unpacks within limits and checks every byte;
//! [`compare`] tells how far two runs agree. Running a pipeline is the command's business, sentences are the report crate's.

mod about;
pub mod archive;
pub mod checksums;
mod citation;
pub mod compare;
mod crate_metadata;
mod data_package;
pub mod descriptors;
mod entry_names;
mod layout;
mod licence;
mod limits;
mod opened;
pub mod publication;
pub mod rewrite;
mod unpack;

pub use about::{DatasetEntry, Descriptors, Software};
pub use entry_names::name_fault;
pub use layout::{Layout, LayoutError, PackedFile};
pub use licence::{LICENCES, Licence};
pub use opened::{Bundle, is_archive, list};
pub use publication::{Author, Publication};

/// Names of what lies in a bundle.
pub mod names {
    /// The list of checksums, as `sha256sum --check` reads it (the line format of BagIt, RFC 8493).
    pub const CHECKSUMS: &str = "manifest-sha256.txt";
    /// The pipeline file.
    pub const PIPELINE: &str = "pipeline.toml";
    /// Folder of the datasets.
    pub const DATASETS: &str = "datasets";
    /// Folder of the results.
    pub const RESULTS: &str = "results";
}
