//! Content of burn sheets, and their paper.

use calefact_analysis::fact::CautionFact;
use calefact_data::Apparatus;

/// Paper of the sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Paper {
    /// 210 mm by 297 mm.
    #[default]
    A4,
    /// 8.5 in by 11 in.
    Letter,
}

impl Paper {
    /// Its name in a style sheet.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "letter",
        }
    }

    /// Height within the margins, mm.
    pub(super) const fn height(self) -> f64 {
        match self {
            Self::A4 => 279.0,
            Self::Letter => 261.0,
        }
    }
}

/// Content of burn sheets.
#[derive(Debug, Clone)]
pub struct SheetRequest<'a> {
    /// Title of the dataset.
    pub title: &'a str,
    /// The apparatus: which instruments read what.
    pub apparatus: &'a Apparatus,
    /// Further columns of the register.
    pub further: Vec<String>,
    /// Cautions that the logs so far call for.
    pub cautions: Vec<CautionFact>,
    /// Time between two ruled rows, s.
    pub every_s: f64,
    /// Paper.
    pub paper: Paper,
}
