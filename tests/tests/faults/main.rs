//! Runs that end before their time: killed, interrupted, two at once, without a reader, without room. The results are the
//! earlier ones or the new ones, whole, and the next run leaves nothing behind. `tests/faults/kill.py` does this a thousand
//! times, and fills a disk.
#![cfg(unix)]

mod ended;
mod killed;
