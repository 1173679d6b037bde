//! How TOML spells keys and texts.

use std::fmt::Write;

/// A key as TOML spells it: bare where it can be, else in quotes.
pub fn key(name: &str) -> String {
    let bare = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    if !name.is_empty() && name.chars().all(bare) { name.into() } else { text(name) }
}

/// A key behind the path of its table.
pub fn key_path(table: &str, name: &str) -> String {
    if table.is_empty() { key(name) } else { format!("{table}.{}", key(name)) }
}

/// A text in quotes.
pub fn text(value: &str) -> String {
    let mut quoted = String::from("\"");
    for c in value.chars() {
        let _ = match c {
            '"' | '\\' => write!(quoted, "\\{c}"),
            c if c.is_control() => write!(quoted, "\\u{:04X}", u32::from(c)),
            c => write!(quoted, "{c}"),
        };
    }
    quoted.push('"');
    quoted
}

#[cfg(test)]
mod tests {
    use super::{key, text};

    #[test]
    fn every_name_is_read_back() {
        for name in ["pellet-tray", "pellet tray", "", "K\u{fc}che", "4\" pipe", "a\\b", "two\nlines", "\u{7f}"] {
            let toml = format!("[stoves.{}]\nname = {}\n", key(name), text(name));
            let table: toml::Table = toml.parse().expect("valid TOML");
            assert_eq!(table["stoves"][name]["name"].as_str(), Some(name), "{toml}");
        }
        assert_eq!(key("pellet-tray"), "pellet-tray");
    }
}
