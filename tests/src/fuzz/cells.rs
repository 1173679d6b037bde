//! Numbers, times and dates of single cells: each line of an input is a cell, which stands in a column of each kind.

use super::logs::{Rig, assert_whole};
use calefact_data::{Channel, ReadTrial, Readings};
use std::cell::RefCell;

thread_local! {
    static RIG: RefCell<Rig> = RefCell::new(Rig::new("[logs]\ndecimal = \"point\"\n"));
}

pub(super) fn check(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let cells: Vec<String> = text.lines().take(8).map(|cell| format!("\"{}\"", cell.replace('"', "\"\""))).collect();
    RIG.with(|rig| {
        let mut read = |log: &str| first(rig.borrow_mut().read(log.as_bytes()));
        read(&column("clock", &cells));
        read(&column("time", &cells));
        read(&column("elapsed [min]", &cells));
        for line in text.lines().take(8) {
            assert_read_as_written(line, &mut read);
        }
    });
}

fn first(trials: Vec<ReadTrial>) -> Option<Readings> {
    let trial = trials.into_iter().next().expect("a trial");
    assert!(trial.readings.is_some() || !trial.findings.is_empty(), "left out without a word");
    trial.readings.inspect(assert_whole)
}

/// A log whose times are the cells.
fn column(header: &str, cells: &[String]) -> String {
    let rows = cells.iter().enumerate().map(|(i, cell)| format!("{cell},{}\n", 10 + 5 * i));
    format!("{header},tank [degC]\n") + &rows.collect::<String>()
}

/// Asserts that a plain decimal number is read as what it says.
fn assert_read_as_written(cell: &str, read: &mut impl FnMut(&str) -> Option<Readings>) {
    let digits = cell.strip_prefix('-').unwrap_or(cell);
    let (whole, part) = digits.split_once('.').unwrap_or((digits, "0"));
    let is_plain = [whole, part].iter().all(|d| !d.is_empty() && d.bytes().all(|b| b.is_ascii_digit()));
    let stated: f64 = if is_plain { cell.parse().expect("a number") } else { f64::NAN };
    if Channel::Casing.limit().plausible.contains(&stated) {
        let log = format!("elapsed [min],tank [degC],casing [degC]\n0,10,20\n10,15,{cell}\n20,20,30\n");
        let value = read(&log).and_then(|readings| readings.channel(Channel::Casing).map(|values| values[1]));
        assert_eq!(value, Some(stated), "{cell:?}");
    }
}
