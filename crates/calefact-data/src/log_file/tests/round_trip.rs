//! A table written in any supported delimiter, encoding, decimal sign and line end reads back the same.

use crate::Channel;
use crate::layout::LogSettings;
use crate::log_file::{Wanted, read};
use encoding_rs::{Encoding, WINDOWS_1252};
use proptest::prelude::*;

/// How a file is written.
#[derive(Debug, Clone, Copy)]
enum Bytes {
    Utf8,
    Utf8Mark,
    Utf16LittleMark,
    Utf16BigMark,
    Utf16Little,
    Windows1252,
}

fn encode(text: &str, how: Bytes) -> Vec<u8> {
    let little = || text.encode_utf16().flat_map(u16::to_le_bytes).collect::<Vec<u8>>();
    let big = || text.encode_utf16().flat_map(u16::to_be_bytes).collect::<Vec<u8>>();
    let western: &'static Encoding = WINDOWS_1252;
    match how {
        Bytes::Utf8 => text.as_bytes().to_vec(),
        Bytes::Utf8Mark => [b"\xEF\xBB\xBF", text.as_bytes()].concat(),
        Bytes::Utf16LittleMark => [b"\xFF\xFE".as_slice(), &little()].concat(),
        Bytes::Utf16BigMark => [b"\xFE\xFF".as_slice(), &big()].concat(),
        Bytes::Utf16Little => little(),
        Bytes::Windows1252 => western.encode(text).0.into_owned(),
    }
}

fn number(tenths: i32, comma: bool) -> String {
    let text = format!("{:.1}", f64::from(tenths) / 10.0);
    if comma { text.replace('.', ",") } else { text }
}

fn table(rows: &[(i32, Option<i32>)], delimiter: char, comma: bool, quoted: bool, end: &str) -> String {
    let quote = |s: String| if quoted { format!("\"{s}\"") } else { s };
    let line = |cells: [String; 3]| cells.map(quote).join(&delimiter.to_string());
    let header = line(["elapsed [min]".into(), "tank [\u{b0}C]".into(), "ambient [\u{b0}C]".into()]);
    let body = rows.iter().enumerate().map(|(i, (tank, ambient))| {
        line([i.to_string(), number(*tank, comma), ambient.map_or_else(String::new, |a| number(a, comma))])
    });
    std::iter::once(header).chain(body).map(|l| l + end).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn reads_back_equal(
        rows in prop::collection::vec((-400..2000_i32, prop::option::of(-300..500_i32)), 3..40),
        delimiter in prop::sample::select(vec![',', ';', '\t', '|']),
        comma in any::<bool>(),
        quoted in any::<bool>(),
        end in prop::sample::select(vec!["\n", "\r\n"]),
        how in prop::sample::select(vec![
            Bytes::Utf8, Bytes::Utf8Mark, Bytes::Utf16LittleMark, Bytes::Utf16BigMark, Bytes::Utf16Little, Bytes::Windows1252,
        ]),
    ) {
        let quoted = quoted || (delimiter == ',' && comma);
        let bytes = encode(&table(&rows, delimiter, comma, quoted, end), how);
        let wanted = [Wanted { trial: "a", date: None, ..Wanted::default() }];
        let trial = read("a.csv".as_ref(), &bytes, &LogSettings::default(), &wanted).remove(0);
        let readings = trial.readings.ok_or_else(|| TestCaseError::fail(format!("{:?}", trial.findings)))?;
        let tenths = |c: Channel| -> Vec<Option<i32>> {
            let values = readings.channel(c).unwrap_or_default().iter();
            values.map(|v| (!v.is_nan()).then(|| (v * 10.0).round() as i32)).collect()
        };
        prop_assert_eq!(tenths(Channel::Tank), rows.iter().map(|r| Some(r.0)).collect::<Vec<_>>());
        prop_assert_eq!(tenths(Channel::Ambient), rows.iter().map(|r| r.1).collect::<Vec<_>>());
        let minutes: Vec<f64> = (0..rows.len()).map(|i| i as f64 * 60.0).collect();
        prop_assert_eq!(readings.elapsed_s, minutes);
    }
}
