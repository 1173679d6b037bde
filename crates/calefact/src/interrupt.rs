//! Signals that end the program: its working folders are removed first. What a working folder is, the report crate knows.

use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM, SIGXFSZ};
use signal_hook::flag::register_conditional_default;
use signal_hook::iterator::Signals;
use signal_hook::low_level::emulate_default_handler;
use std::io::{self, Write};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;

/// Catches the signals, and starts the thread that waits for them.
pub(crate) fn watch() {
    let ending = Arc::new(AtomicBool::new(false));
    let caught: Vec<i32> = [SIGHUP, SIGINT, SIGTERM].into_iter().filter(|s| !is_ignored(*s)).collect();
    for signal in &caught {
        // Once the end has begun, a further signal ends the program at once.
        if register_conditional_default(*signal, Arc::clone(&ending)).is_err() {
            return;
        }
    }
    // A file beyond the limit of the system is then a failed write, which is told.
    let Ok(mut signals) = Signals::new(caught.iter().chain([&SIGXFSZ])) else { return };
    let is_ending = Arc::clone(&ending);
    let wait = move || {
        if let Some(signal) = signals.forever().find(|signal| *signal != SIGXFSZ) {
            is_ending.store(true, Ordering::SeqCst);
            end(signal);
        }
    };
    if thread::Builder::new().name("signals".into()).spawn(wait).is_err() {
        // No thread to be had: signals end the program as they always do.
        ending.store(true, Ordering::SeqCst);
    }
}

/// Removes the working folders and ends the program as the signal does.
fn end(signal: i32) {
    // Held to the end, so that no other thread says that its files have gone, nor ends the program before.
    let mut stderr = io::stderr().lock();
    if calefact_report::abandon() > 0 {
        let _ = writeln!(stderr, "interrupted: the results are as they were before");
    }
    let _ = emulate_default_handler(signal);
}

/// Whether the program was started with a signal ignored, as `nohup` and shells do for work in the background. That holds.
fn is_ignored(signal: i32) -> bool {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let mask = status.lines().find_map(|line| line.strip_prefix("SigIgn:"));
    match mask.map(|mask| u64::from_str_radix(mask.trim(), 16)) {
        Some(Ok(mask)) => mask >> (signal - 1) & 1 == 1,
        // Not to be known here: a hang-up is left to the system, which obeys `nohup`.
        _ => signal == SIGHUP,
    }
}
