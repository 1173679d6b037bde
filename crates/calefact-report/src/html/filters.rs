//! How words are set on the page.

use askama::filters::{Html, Safe, escape};
use std::fmt::Display;

/// Sets what stands between backticks, which a person types into a file or a command line, as code.
#[askama::filter_fn]
pub(crate) fn typed(text: impl Display, _: &dyn askama::Values) -> askama::Result<Safe<String>> {
    Ok(Safe(set(&escape(text, Html)?.to_string())))
}

/// Text that is escaped already; a backtick without its partner stays.
fn set(escaped: &str) -> String {
    let parts: Vec<&str> = escaped.split('`').collect();
    if parts.len().is_multiple_of(2) {
        return escaped.to_owned();
    }
    let set = |(i, part): (usize, &&str)| if i % 2 == 1 { format!("<code>{part}</code>") } else { (*part).to_owned() };
    parts.iter().enumerate().map(set).collect()
}

#[cfg(test)]
mod tests {
    use super::set;

    #[test]
    fn what_is_typed_is_set_as_code() {
        assert_eq!(set("fill `stove`, or `fuel`"), "fill <code>stove</code>, or <code>fuel</code>");
        assert_eq!(set("`a"), "`a");
        assert_eq!(set("no word"), "no word");
    }
}
