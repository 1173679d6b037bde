//! Needs `a` inside a macro; its tests need `d`, which does not count.

pub(crate) fn third() {
    let _ = format!("{:?}", crate::a::First::default());
}

#[cfg(test)]
mod tests {
    use crate::d::from_parent;
}
