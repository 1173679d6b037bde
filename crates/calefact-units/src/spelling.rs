//! One form for the many ways a unit is typed: spaces, dots, superscripts, degree signs, upper and lower case.

/// The form two spellings are compared in. Case is kept, because `mW` and `MW` differ; blanks, dots, middle dots,
/// stars, underscores, carets and round brackets go, so `J/(kg·K)`, `J/(kg K)` and `J/kgK` are one.
pub(crate) fn key(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '.' | '·' | '⋅' | '∙' | '×' | '*' | '_' | '^' | '(' | ')' => {}
            c if c.is_whitespace() => {}
            '\u{ba}' | '˚' => out.push('°'),
            '℃' => out.push_str("°C"),
            '℉' => out.push_str("°F"),
            '²' => out.push('2'),
            '³' => out.push('3'),
            'µ' | 'μ' => out.push('u'),
            '″' | '”' | '“' => out.push('"'),
            '′' | '’' => out.push('\''),
            '∆' | 'Δ' => out.push('Δ'),
            c => out.push(c),
        }
    }
    out
}

/// [`key`] with case dropped, the second try when no spelling matches as typed.
pub(crate) fn folded(text: &str) -> String {
    key(text).to_lowercase()
}
