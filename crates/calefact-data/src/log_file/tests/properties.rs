//! Properties of reading: the same readings, however the log is written down.

use super::log;
use crate::Channel;
use proptest::prelude::*;

/// How a log is written down.
#[derive(Debug, Clone)]
struct Style {
    delimiter: char,
    comma: bool,
    /// Places of time, tank and ambient among the columns.
    order: [usize; 3],
    degrees: &'static str,
    time: &'static str,
    quoted: bool,
    line_end: &'static str,
}

fn style() -> impl Strategy<Value = Style> {
    let order = Just([0, 1, 2]).prop_shuffle();
    let parts = (prop_oneof![Just(','), Just(';'), Just('\t'), Just('|')], any::<bool>(), order, any::<[bool; 4]>());
    parts.prop_map(|(delimiter, comma, order, [fahrenheit, seconds, quoted, crlf])| Style {
        delimiter,
        comma: comma && delimiter != ',',
        order,
        degrees: if fahrenheit { "degF" } else { "degC" },
        time: if seconds { "s" } else { "min" },
        quoted,
        line_end: if crlf { "\r\n" } else { "\n" },
    })
}

impl Style {
    fn row(&self, cells: [String; 3]) -> String {
        let mut placed = [const { String::new() }; 3];
        for (cell, at) in cells.into_iter().zip(self.order) {
            placed[at] = if self.quoted { format!("\"{cell}\"") } else { cell };
        }
        placed.join(&self.delimiter.to_string()) + self.line_end
    }

    fn number(&self, value: f64, decimals: usize) -> String {
        let text = format!("{value:.decimals$}");
        if self.comma { text.replace('.', ",") } else { text }
    }

    /// Minutes, tank and air in tenths of a degree Celsius.
    fn written(&self, rows: &[(u32, i32, i32)]) -> String {
        let Self { degrees, time, .. } = self;
        let temperature = |tenths: i32| {
            let celsius = f64::from(tenths) / 10.0;
            // Two decimals hold a tenth of a degree Celsius in degrees Fahrenheit exactly.
            self.number(if *degrees == "degF" { celsius.mul_add(1.8, 32.0) } else { celsius }, 2)
        };
        let minutes = |m: u32| self.number(f64::from(if *time == "s" { 60 * m } else { m }), 1);
        let head = self.row([format!("elapsed [{time}]"), format!("tank [{degrees}]"), format!("ambient [{degrees}]")]);
        let below = rows.iter().map(|&(m, tank, air)| self.row([minutes(m), temperature(tank), temperature(air)]));
        std::iter::once(head).chain(below).collect()
    }
}

/// Rising minutes, with tank and air in tenths of a degree.
fn rows() -> impl Strategy<Value = Vec<(u32, i32, i32)>> {
    let row = (1..30_u32, 20..900_i32, -100..350_i32);
    proptest::collection::vec(row, 3..12).prop_map(|rows| {
        let mut minutes = 0;
        let rising = |(step, tank, air)| {
            minutes += step;
            (minutes, tank, air)
        };
        rows.into_iter().map(rising).collect()
    })
}

proptest! {
    /// Delimiter, decimal mark, order of columns, units, quotes and line ends change nothing.
    #[test]
    fn readings_do_not_depend_on_how_they_are_written(rows in rows(), style in style()) {
        let text = style.written(&rows);
        let trial = log(&text);
        let readings = trial.readings.unwrap_or_else(|| panic!("{:?}\n{text}", trial.findings));
        let start = rows[0].0;
        prop_assert_eq!(readings.len(), rows.len());
        for (i, (minutes, tank, air)) in rows.iter().enumerate() {
            let value = |channel| readings.channel(channel).map_or(f64::NAN, |values| values[i]);
            prop_assert!((readings.elapsed_s[i] - 60.0 * f64::from(minutes - start)).abs() < 1e-9, "{}", text);
            prop_assert!((value(Channel::Tank) - f64::from(*tank) / 10.0).abs() < 1e-9, "{}", text);
            prop_assert!((value(Channel::Ambient) - f64::from(*air) / 10.0).abs() < 1e-9, "{}", text);
        }
    }
}
