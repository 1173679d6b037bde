//! Needs `c` by a path.

pub(crate) struct Second;

fn call() {
    super::c::third();
}
