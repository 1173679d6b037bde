//! A progress bar on a terminal; nothing when piped or asked to be quiet.

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

/// A bar for `total` steps, under a word or two for what is being done.
pub(crate) fn bar(total: usize, doing: &'static str, quiet: bool) -> ProgressBar {
    // The standard error target draws only when it is a terminal.
    let target = if quiet { ProgressDrawTarget::hidden() } else { ProgressDrawTarget::stderr() };
    let bar = ProgressBar::with_draw_target(Some(total as u64), target).with_message(doing);
    match ProgressStyle::with_template("{msg:>18} {bar:30} {pos}/{len} logs, {eta} left") {
        Ok(style) => bar.with_style(style),
        Err(_) => bar,
    }
}
