//! `trials.csv`: the register, against an apparatus of a stove, a fuel and a vessel.

use super::findings::assert_sound;
use super::input::{choice, is_read_twice};
use crate::TinyDataset;
use calefact_data::dataset_file::{self, DatasetFile};
use calefact_data::register_file;
use std::path::Path;

/// Ways to describe the register beside an apparatus.
const STYLES: [&str; 4] = [
    "",
    "[register]\ndecimal = \"comma\"\n",
    "[register]\nmissing = [\"none\"]\n[register.columns]\ntrial = \"Burn\"\nwater = \"Wasser [L]\"\nfuel_mass = { header = \"Holz\", unit = \"lb\" }\n",
    "[defaults]\nkind = \"burn\"\nstove = \"box\"\nfuel = \"spruce\"\nvessel = \"drum\"\nwater = \"120 L\"\nmoisture_basis = \"wet\"\n",
];

thread_local! {
    static FILES: Vec<DatasetFile> = STYLES.into_iter().map(described).collect();
}

fn described(style: &str) -> DatasetFile {
    let text = TinyDataset::new().apparatus + style;
    let (file, findings) = dataset_file::read_text(Path::new("dataset.toml"), &text);
    assert!(findings.is_empty(), "{findings:?}");
    file.expect("a description")
}

pub(super) fn check(bytes: &[u8]) {
    let (style, bytes) = choice(bytes, STYLES.len());
    let path = Path::new("trials.csv");
    FILES.with(|files| {
        let file = &files[style];
        let read = || register_file::read(path, bytes, &file.register_style, &file.apparatus);
        let (register, findings) = read();
        assert_sound(&findings, &[(path, bytes)]);
        assert!(register.is_some() || !findings.is_empty(), "refused without a word");
        if is_read_twice(bytes) {
            let again = read();
            assert_eq!((format!("{:?}", again.0), again.1), (format!("{register:?}"), findings), "read twice");
        }
        let rows = register.iter().flat_map(|r| &r.rows);
        assert!(rows.clone().all(|row| !row.trial.is_empty()), "a trial without a name");
        let amounts = rows.flat_map(|row| [row.ambient, row.fuel_mass, row.fuel_moisture]);
        assert!(amounts.flatten().all(f64::is_finite), "{register:?}");
    });
}
