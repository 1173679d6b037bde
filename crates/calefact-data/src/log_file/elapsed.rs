//! Elapsed time as text: a number in a unit, or hours, minutes and seconds with colons.

use super::times::TimeCell;
use crate::text::number::{Cell, NumberStyle};
use calefact_units::{Kind, Unit, UnitError};

/// How elapsed time is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum ElapsedForm {
    /// A number in a unit of time; two parts with a colon are then ambiguous.
    Number(Unit),
    /// `h:mm`
    HoursMinutes,
    /// `m:ss`
    MinutesSeconds,
}

/// The form named in the header: a time unit, `h:mm`, `h:mm:ss` or `m:ss`; seconds if nothing is named.
pub(super) fn form(unit: Option<&str>) -> Result<ElapsedForm, UnitError> {
    let Some(unit) = unit else { return Ok(ElapsedForm::Number(Unit::si(Kind::Time))) };
    match unit.to_lowercase().as_str() {
        "h:mm" | "hh:mm" | "h:m" | "h:min" => Ok(ElapsedForm::HoursMinutes),
        "m:ss" | "mm:ss" | "m:s" | "min:s" | "min:ss" => Ok(ElapsedForm::MinutesSeconds),
        "h:mm:ss" | "hh:mm:ss" => Ok(ElapsedForm::Number(Unit::si(Kind::Time))),
        _ => Unit::parse(unit, Kind::Time).map(ElapsedForm::Number),
    }
}

/// Times beyond this are no times, s: seconds and even milliseconds since 1970 are below it, years of a trial far below.
const LONGEST_S: f64 = 1e13;

/// Reads one cell.
pub(super) fn read(cell: &[u8], form: ElapsedForm, style: &NumberStyle<'_>) -> TimeCell {
    match (style.read(cell), form) {
        (Cell::Number(v), ElapsedForm::Number(unit)) if unit.to_si(v).abs() < LONGEST_S => {
            TimeCell::Seconds(unit.to_si(v))
        }
        (Cell::Blank, _) => TimeCell::Blank,
        (Cell::Ambiguous, ElapsedForm::Number(_)) => TimeCell::TwoReadings,
        (Cell::Number(_) | Cell::Ambiguous | Cell::Unreadable, _) => colons(cell, form, style),
    }
}

fn colons(cell: &[u8], form: ElapsedForm, style: &NumberStyle<'_>) -> TimeCell {
    let mut parts = [0.0; 3];
    let mut count = 0;
    for part in cell.trim_ascii().split(|b| *b == b':') {
        let (Some(slot), Cell::Number(v)) = (parts.get_mut(count), style.read(part)) else {
            return TimeCell::Unreadable;
        };
        if v < 0.0 || (count > 0 && v >= 60.0) {
            return TimeCell::Unreadable;
        }
        *slot = v;
        count += 1;
    }
    let seconds = match (count, form) {
        (3, _) => parts[0] * 3600.0 + parts[1] * 60.0 + parts[2],
        (2, ElapsedForm::HoursMinutes) => parts[0] * 3600.0 + parts[1] * 60.0,
        (2, ElapsedForm::MinutesSeconds) => parts[0] * 60.0 + parts[1],
        (2, ElapsedForm::Number(_)) => return TimeCell::Ambiguous,
        _ => return TimeCell::Unreadable,
    };
    if seconds < LONGEST_S { TimeCell::Seconds(seconds) } else { TimeCell::Unreadable }
}

#[cfg(test)]
mod tests {
    use super::{ElapsedForm, TimeCell, form, read};
    use crate::text::number::{Decimal, NumberStyle};

    fn seconds(unit: Option<&str>, cell: &str) -> TimeCell {
        let style = NumberStyle { sign: Decimal::Point.into(), missing: &[] };
        read(cell.as_bytes(), form(unit).expect("a form"), &style)
    }

    #[test]
    fn forms_of_elapsed_time() {
        assert_eq!(seconds(None, "90"), TimeCell::Seconds(90.0));
        assert_eq!(seconds(Some("min"), "1.5"), TimeCell::Seconds(90.0));
        assert_eq!(seconds(None, "1:02:03"), TimeCell::Seconds(3723.0));
        assert_eq!(seconds(Some("h:mm"), "1:30"), TimeCell::Seconds(5400.0));
        assert_eq!(seconds(Some("m:ss"), "1:30"), TimeCell::Seconds(90.0));
        assert_eq!(seconds(None, "1:30"), TimeCell::Ambiguous);
        assert_eq!(seconds(None, "1:75:00"), TimeCell::Unreadable);
        assert_eq!(seconds(None, "soon"), TimeCell::Unreadable);
        assert_eq!(seconds(None, ""), TimeCell::Blank);
        assert_eq!(seconds(None, "1e300"), TimeCell::Unreadable);
        assert_eq!(seconds(None, "1e308:00:00"), TimeCell::Unreadable);
        assert_eq!(form(Some("m:ss")), Ok(ElapsedForm::MinutesSeconds));
    }
}
