//! Whatever the bytes, the readers answer with findings and do not stop the program.

use crate::dataset_file;
use crate::layout::{LogSettings, RegisterSettings};
use crate::log_file::{self, Wanted};
use crate::{Apparatus, register_file};
use proptest::prelude::*;

/// Pieces that occur in such files, so that random texts get past the first check.
const PIECES: [&str; 26] = [
    "elapsed",
    "clock",
    "tank",
    "flow [L/min]",
    "trial",
    "kind",
    "log",
    "vessel",
    "water [L]",
    "\n",
    "\n",
    "\r\n",
    ",",
    ",",
    ";",
    "\t",
    "\"",
    "1",
    "-2.5",
    "12:30",
    "2026-03-29T02:30",
    "[degC]",
    "b1",
    "burn",
    "\u{b0}",
    "=",
];

fn pieces() -> impl Strategy<Value = Vec<u8>> {
    prop::collection::vec(prop::sample::select(PIECES.to_vec()), 0..60).prop_map(|p| p.concat().into_bytes())
}

fn read_all(bytes: &[u8]) -> Result<(), TestCaseError> {
    let wanted = [
        Wanted { trial: "b1", date: Some("2026-03-29"), ..Wanted::default() },
        Wanted { trial: "b2", date: None, ..Wanted::default() },
    ];
    for wanted in [&wanted[..], &wanted[..1], &[]] {
        let zone = jiff::tz::TimeZone::get("Europe/Oslo").ok();
        let settings = LogSettings { time_zone: zone, ..LogSettings::default() };
        let trials = log_file::read("a.csv".as_ref(), bytes, &settings, wanted);
        prop_assert_eq!(trials.len(), wanted.len());
        for trial in &trials {
            let readings = trial.readings.as_ref();
            prop_assert!(readings.is_some() || !trial.findings.is_empty(), "left out without a word");
            let whole =
                readings.is_none_or(|r| r.channels.values().all(|v| v.len() == r.len()) && r.flags.len() == r.len());
            prop_assert!(whole, "columns of unequal length");
            let rising = readings.is_none_or(|r| r.elapsed_s.windows(2).all(|w| w[0] < w[1]));
            prop_assert!(rising, "time does not rise");
        }
    }
    let (register, findings) =
        register_file::read("t.csv".as_ref(), bytes, &RegisterSettings::default(), &Apparatus::default());
    prop_assert!(register.is_some() || !findings.is_empty());
    let text = String::from_utf8_lossy(bytes);
    let (file, findings) = dataset_file::read_text("d.toml".as_ref(), &text);
    prop_assert!(file.is_some() || !findings.is_empty());
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn random_bytes(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        read_all(&bytes)?;
    }

    #[test]
    fn random_pieces(bytes in pieces()) {
        read_all(&bytes)?;
    }
}
