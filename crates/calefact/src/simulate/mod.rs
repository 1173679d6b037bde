//! stub
#![allow(missing_docs)]
pub struct SimulateOptions {
    pub out: std::path::PathBuf,
    pub trials: Option<std::num::NonZeroUsize>,
    pub rows: Option<std::num::NonZeroUsize>,
    pub seed: u64,
}
pub fn write(_: &SimulateOptions) -> Result<(), std::io::Error> {
    Ok(())
}
