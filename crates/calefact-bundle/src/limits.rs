//! Limits of a bundle, for those that nobody vouches for.

/// Files of a bundle.
pub(crate) const MOST_FILES: u64 = 20_000;
/// Bytes of all files: a year of burns logged every second has less than a tenth.
pub(crate) const MOST_BYTES: u64 = 4 << 30;
/// Times that files may be larger than their archive, beyond [`FREE_BYTES`]. Logs shrink to a tenth or so; a bomb to a thousandth.
pub(crate) const MOST_RATIO: u64 = 200;
/// Bytes that are not compared with the size of the archive.
pub(crate) const FREE_BYTES: u64 = 256 << 20;
/// Bytes of an archive's list of entries: each has a name of a hundred characters or so.
pub(crate) const MOST_DIRECTORY: u32 = 150 * MOST_FILES as u32;
