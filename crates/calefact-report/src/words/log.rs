//! Words for facts about logs.

use super::{Message, Wording, file};
use calefact_data::fact::{Log, ReadFailure};

/// The message on a fact.
pub(super) fn message(w: &Wording<'_>, fact: &Log) -> Message {
    match fact {
        Log::Unreadable { log, failure } => {
            let reason = file::reason(failure);
            let hint = match failure {
                ReadFailure::NotFound => Some("the register's `log` is relative to the folder of the register".into()),
                ReadFailure::Folder | ReadFailure::NotAFile => Some("name a file under `log` in the register".into()),
                _ => file::permission_hint(failure),
            };
            let message =
                Message::new(format!("cannot read the log {}: {reason}", w.quoted(&log.display().to_string())));
            Message { hint, ..message.action("trial left out") }
        }
        Log::Unregistered => Message::new("no row of the register names this file")
            .action("file not read")
            .hint("add a row for it to the register, or move it elsewhere"),
    }
}
