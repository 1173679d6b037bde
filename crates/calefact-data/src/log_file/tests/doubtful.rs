//! Logs whose numbers, times or rows can be taken two ways.

use super::{log, log_with, shown};
use crate::Channel;
use crate::layout::LogSettings;
use crate::log_file::{LogTrial, Wanted, read};

fn channel(trial: &LogTrial, channel: Channel) -> Option<&[f64]> {
    trial.readings.as_ref().and_then(|r| r.channel(channel))
}

#[test]
fn a_decimal_sign_that_the_log_does_not_show() {
    let power = |cells: [&str; 3]| {
        let [a, b, c] = cells;
        log(&format!("elapsed [s];tank [degC];power [W]\n0;10;{a}\n60;11;{b}\n120;12;{c}\n"))
    };
    insta::assert_snapshot!(shown(&power(["1.234", "1.250", "980"])), @r#"
    left out
    Error 2:3 TwoReadings { column: "power", cell: "1.234", readings: TwoReadings { mark: '.', decimal: 1.234, grouped: 1234.0 } }, 1 more to line 3
    "#);
    assert_eq!(channel(&power(["1.234", "1.250", "980.5"]), Channel::Power), Some(&[1.234, 1.25, 980.5][..]));
    assert_eq!(channel(&power(["1.234", "1.250", "980,5"]), Channel::Power), Some(&[1234.0, 1250.0, 980.5][..]));
    // No water is at 20125 degC.
    let three_decimals = log("elapsed [s];tank [degC]\n0;20,125\n60;21,250\n120;22,500\n");
    assert_eq!(channel(&three_decimals, Channel::Tank), Some(&[20.125, 21.25, 22.5][..]));
    let toml = "[logs]\ndecimal = \"comma\"\n";
    let stated = log_with(toml, b"elapsed [s];tank [degC];power [W]\n0;10;1.234\n60;11;1\n120;12;1\n");
    assert_eq!(channel(&stated, Channel::Power), Some(&[1234.0, 1.0, 1.0][..]));
    insta::assert_snapshot!(shown(&log("elapsed [s];tank [degC]\n0;10\n1,200;11\n2,400;12\n")), @r#"
    left out
    Error 3:1 TwoReadings { column: "elapsed", cell: "1,200", readings: TwoReadings { mark: ',', decimal: 1.2, grouped: 1200.0 } }, 1 more to line 4
    "#);
    // Dates of the clock have no vote.
    let toml = "[logs]\nclock_format = \"%d.%m.%Y %H:%M\"\n";
    let dated = b"clock;tank [degC];flow [L/min]\n03.03.2025 10:00;10,5;0,5\n03.03.2025 10:10;11;1,250\n03.03.2025 10:20;12;1\n";
    let flow = log_with(toml, dated);
    assert!(channel(&flow, Channel::Flow).is_some_and(|f| (f[1] / f[2] - 1.25).abs() < 1e-3));
}

#[test]
fn decimal_commas_beside_words() {
    let rows = |rows: &str| log(&format!("elapsed [min],tank [degC],event\n{rows}"));
    insta::assert_snapshot!(shown(&rows("0,10,lit\n4,13,5,\n8,17,\n12,20,\n")), @r"
    left out
    Error 3:4 TooManyCells { cells: 4, header: 3 }
    ");
    insta::assert_snapshot!(shown(&rows("0,10,5,lit\n4,13,\n8,17,\n12,20,\n")), @r"
    left out
    Error 2:4 TooManyCells { cells: 4, header: 3 }
    ");
    let beside_air =
        log("elapsed [min],tank [degC],ambient [degC],event\n0,10,9.5,lit\n4,13,5,10.5,\n8,17,10,\n12,20,10,\n");
    insta::assert_snapshot!(shown(&beside_air), @r"
    left out
    Error 3:5 TooManyCells { cells: 5, header: 4 }
    ");
    insta::assert_snapshot!(shown(&rows("0,10,lit\n4,13,5\n8,17,2\n12,20,\n")), @r#"
    4 readings
    Warning 3:3 SplitNumber { channel: Tank, written: "13,5" }, 1 more to line 4
    "#);
    // Words may hold commas and are kept whole.
    let words = rows("0,10,\"lit\", then stirred\n4,13.5,5\n8,17,,,\n12,20,5 sticks\n");
    assert_eq!(shown(&words), "4 readings");
    let texts: Vec<String> = words.readings.expect("readings").events.into_iter().map(|e| e.text).collect();
    assert_eq!(texts, ["lit, then stirred", "5", "5 sticks"]);
}

#[test]
fn two_open_quotes_that_close_each_other() {
    let noted = |rows: &str| shown(&log(&format!("elapsed [s],tank [degC],ambient [degC],note\n0,10,3,\n{rows}")));
    insta::assert_snapshot!(noted("60,11,3,\"lit\n120,12,3,\n180,13,3,\"windy\n240,14,3,\n300,15,3,\n"), @r"
    left out
    Error 3:4 File(QuoteOpen { never_closed: false })
    ");
    insta::assert_snapshot!(noted("60,11,\"3,lit\n120,12,\"3,\n180,13,3,windy\n240,14,3,\n"), @r"
    left out
    Error 3:3 File(QuoteOpen { never_closed: false })
    ");
    assert_eq!(noted("60,11,3,\"lit, then\n5, 6 sticks of oak\n7\"\n120,12,3,\n"), "3 readings");
    let early = log("note,clock,tank [degC]\n\"lit,10:00,10\n\"late,10:10,11\n,10:20,12\n,10:30,13\n,10:40,14\n");
    insta::assert_snapshot!(shown(&early), @r"
    left out
    Error 2:1 File(QuoteOpen { never_closed: false })
    ");
}

#[test]
fn two_columns_of_time() {
    insta::assert_snapshot!(shown(&log("elapsed [s],elapsed [min],tank [degC]\n0,0,1\n1,2,2\n2,4,3\n")), @r#"
    left out
    Error 1:2 DuplicateColumn { headers: ["elapsed [s]", "elapsed [min]"], column: "elapsed", is_mapped: false }
    "#);
    insta::assert_snapshot!(shown(&log("clock,tank [degC],Clock\n10:00,1,11:00\n10:10,2,11:10\n10:20,3,11:20\n")), @r#"
    left out
    Error 1:3 DuplicateColumn { headers: ["clock", "Clock"], column: "clock", is_mapped: false }
    "#);
    insta::assert_snapshot!(shown(&log("trial,elapsed [s],tank [degC],trial\nb07,0,1,b2\nb07,1,2,b2\nb07,2,3,b2\n")), @r#"
    left out
    Error -:- TrialNotInLog(["b2"])
    Error 1:4 DuplicateColumn { headers: ["trial", "trial"], column: "trial", is_mapped: false }
    Warning 2:- TrialUnregistered(["b2"])
    "#);
}

#[test]
fn elapsed_and_clock_are_compared() {
    let both = |header: &str, rows: &[&str]| shown(&log(&format!("{header}\n{}\n", rows.join("\n"))));
    let minutes = ["0,23:50,1", "10,00:00,2", "20,00:11,3", "30,,4"];
    assert_eq!(both("elapsed [min],clock,tank [degC]", &minutes), "4 readings");
    insta::assert_snapshot!(both("elapsed [s],clock,tank [degC]", &minutes), @r"
    left out
    Error 3:2 TimesDisagree { elapsed_s: 10.0, clock_s: 600.0 }
    ");
    insta::assert_snapshot!(both("clock,elapsed [min],tank [degC]", &["10:00,0,1", "10:10,10,2", "11:20,20,3", "11:30,30,4"]), @r"
    left out
    Error 4:1 TimesDisagree { elapsed_s: 1200.0, clock_s: 4800.0 }
    ");
}

#[test]
fn rows_of_bare_delimiters_are_nothing() {
    assert_eq!(shown(&log("elapsed [s];tank [degC];note\n;;\n0;1;\n1;2;\n;;\n2;3;\n;;\n ; ;\n")), "3 readings");
    assert_eq!(shown(&log("trial,clock,tank [degC]\nb07,10:00,1\nb07,10:10,2\nb07,10:20,3\n,,\n,,\n")), "3 readings");
}

#[test]
fn times_with_and_without_offset() {
    let rows = "clock,tank [degC]\n2026-03-28T10:00:00+01:00,1\n2026-03-28T10:10:00,2\n2026-03-28T10:20:00+01:00,3\n2026-03-28T10:30:00+01:00,4\n";
    insta::assert_snapshot!(shown(&log(rows)), @r#"
    left out
    Error 3:1 TimeMixed { cell: "2026-03-28T10:10:00", form: Date, above: Offset }
    "#);
    insta::assert_snapshot!(shown(&log("clock,tank [degC]\n10:00,1\n2026-03-28 10:10,2\n10:20,3\n")), @r#"
    left out
    Error 3:1 TimeMixed { cell: "2026-03-28 10:10", form: Date, above: TimeOfDay }
    "#);
    // In a zone all of them are moments.
    assert_eq!(shown(&log_with("[logs]\ntime_zone = \"Europe/Oslo\"\n", rows.as_bytes())), "4 readings");
}

/// European summer time began on 2026-03-29 at 02:00 (Directive 2000/84/EC: last Sunday of March, 01:00 UTC).
#[test]
fn clocks_that_may_have_gone_forward() {
    let night = "clock,tank [degC]\n2026-03-29 01:40,1\n2026-03-29 01:50,2\n2026-03-29 03:00,3\n2026-03-29 03:10,4\n";
    insta::assert_snapshot!(shown(&log(night)), @r"
    4 readings
    Warning -:- HourSkipped { from_s: 6600.0, to_s: 10800.0 }
    ");
    assert_eq!(shown(&log_with("[logs]\ntime_zone = \"Europe/Oslo\"\n", night.as_bytes())), "4 readings");
    assert_eq!(shown(&log(&night.replace("03-29", "03-28"))), "4 readings");
}

#[test]
fn a_tank_in_the_other_unit_of_temperature() {
    let text = "elapsed [min],tank [degC],ambient [degC]\n0,59,14\n10,80,14\n20,99,14\n";
    let read_as = |text: &str, is_burn, air| {
        let wanted = [Wanted { trial: "b07", is_burn, air, ..Wanted::default() }];
        shown(&read("b07.csv".as_ref(), text.as_bytes(), &LogSettings::default(), &wanted)[0])
    };
    insta::assert_snapshot!(read_as(text, true, None), @r#"
    3 readings
    Warning -:- OtherUnit { unit: "degC", other: "degF", start: 59.0, other_start: 15.0, air: 14.0 }
    "#);
    assert_eq!(read_as(text, false, None), "3 readings", "a standing loss starts hot");
    assert_eq!(read_as(&text.replace(",14", ",20"), true, None), "3 readings", "a second burn of the day");
    insta::assert_snapshot!(read_as("elapsed [min],tank [degF]\n0,35\n10,37\n20,39\n", true, Some(34.0)), @r#"
    3 readings
    Warning -:- OtherUnit { unit: "degF", other: "degC", start: 1.6666666666666667, other_start: 35.0, air: 34.0 }
    "#);
}
