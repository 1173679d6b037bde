//! `new --from` a workbook with a sheet a burn, as people keep one, and shares written `18 %`: to a report with one `new` and one `run`.

use super::{calefact, table};
use calefact_tests::Workspace;
use rust_xlsxwriter::{ExcelDateTime, Format, Workbook, Worksheet};

/// A burn: day of March, stove, wood in kg, tank in degC every twelve minutes, oxygen in the flue as a share. Invented.
struct Burn {
    day: u8,
    stove: &'static str,
    wood: f64,
    tank: [f64; 5],
    oxygen: f64,
}

const BURNS: [Burn; 4] = [
    Burn { day: 4, stove: "Barrel stove", wood: 5.6, tank: [11.0, 18.5, 26.5, 34.0, 41.0], oxygen: 0.18 },
    Burn { day: 14, stove: "Barrel stove", wood: 5.4, tank: [10.0, 17.0, 24.5, 32.0, 39.5], oxygen: 0.17 },
    Burn { day: 15, stove: "Rocket", wood: 4.2, tank: [11.5, 21.0, 30.5, 39.5, 48.0], oxygen: 0.13 },
    Burn { day: 20, stove: "Rocket", wood: 4.3, tank: [12.0, 22.0, 32.0, 41.5, 50.5], oxygen: 0.12 },
];

fn texts(sheet: &mut Worksheet, row: u32, cells: &[&str]) {
    for (column, cell) in (0..).zip(cells) {
        sheet.write_string(row, column, *cell).expect("a cell");
    }
}

/// Below a merged title: days as dates, moisture as a share shown in percent.
fn write_table(sheet: &mut Worksheet) {
    let (day, percent) = (Format::new().set_num_format("dd.mm.yyyy"), Format::new().set_num_format("0 %"));
    sheet.merge_range(0, 0, 0, 7, "Tests in the yard", &Format::new()).expect("a title");
    texts(sheet, 2, &["Burn", "Date", "Stove", "Wood type", "Wood kg", "Moisture dry", "Water L", "Char kg"]);
    for (row, (number, burn)) in (3..).zip((1..).zip(&BURNS)) {
        let date = ExcelDateTime::from_ymd(2026, 3, burn.day).expect("a day");
        sheet.write_number(row, 0, f64::from(number)).expect("a cell");
        sheet.write_datetime_with_format(row, 1, &date, &day).expect("a cell");
        sheet.write_string(row, 2, burn.stove).expect("a cell");
        sheet.write_string(row, 3, "Spruce").expect("a cell");
        sheet.write_number(row, 4, burn.wood).expect("a cell");
        sheet.write_number_with_format(row, 5, 0.18, &percent).expect("a cell");
        sheet.write_number(row, 6, 120.0).expect("a cell");
        sheet.write_number(row, 7, 0.1).expect("a cell");
    }
}

/// Times of day as a spreadsheet keeps them, and the oxygen shown in percent.
fn write_burn(sheet: &mut Worksheet, burn: &Burn) {
    let (clock, percent) = (Format::new().set_num_format("hh:mm"), Format::new().set_num_format("0 %"));
    texts(sheet, 0, &["Time", "Barrel C", "O2", "Remarks"]);
    for (row, (minute, tank)) in (1..).zip((0_u16..).step_by(12).zip(burn.tank)) {
        let time = ExcelDateTime::from_hms(15 + (50 + minute) / 60, ((50 + minute) % 60) as u8, 0).expect("a time");
        sheet.write_datetime_with_format(row, 0, &time, &clock).expect("a cell");
        sheet.write_number(row, 1, tank).expect("a cell");
        sheet.write_number_with_format(row, 2, burn.oxygen, &percent).expect("a cell");
    }
    sheet.write_string(1, 3, "lit").expect("a cell");
}

fn write_workbook(w: &Workspace) {
    let mut workbook = Workbook::new();
    write_table(workbook.add_worksheet().set_name("Burns").expect("a name"));
    for (number, burn) in (1..).zip(&BURNS) {
        write_burn(workbook.add_worksheet().set_name(format!("Burn {number}")).expect("a name"), burn);
    }
    workbook.save(w.join("tests.xlsx")).expect("a workbook");
}

#[test]
fn a_workbook_with_a_sheet_a_burn_becomes_a_report_with_one_new_and_one_run() {
    let w = Workspace::new();
    write_workbook(&w);
    let begun = calefact(w.path(), &["new", "yard", "--from", "tests.xlsx"]);
    assert_eq!(begun.code, 0, "{}", begun.stderr);
    assert!(!begun.stderr.contains("left out") && begun.stderr.contains("a table of 4 trials"), "{}", begun.stderr);
    let run = calefact(w.path(), &["run", "yard"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    assert!(run.stderr.contains("; 0 errors, 0 warnings"), "{}", run.stderr);
    assert!(run.stderr.contains("stove: thermal efficiency Rocket "), "{}", run.stderr);
    let register = table(&w.join("yard/trials.csv"));
    assert_eq!((register[1]["date"].as_str(), register[1]["moisture_basis"].as_str()), ("2026-03-14", "dry"));
    let estimates = table(&w.join("reports/yard/tables/estimates.csv"));
    let efficiency = estimates.iter().filter(|row| row["quantity"] == "thermal_efficiency");
    let values: Vec<f64> = efficiency.map(|row| row["value"].parse().expect("a number")).collect();
    assert!(values.len() == 4 && values.iter().all(|e| (0.1..0.8).contains(e)), "{values:?}");
    let check = calefact(w.path(), &["check", "yard"]);
    assert_eq!(check.code, 0, "{}", check.stderr);
    let like = "#Burn 1, yard/logs/tests.xlsx#Burn 2, yard/logs/tests.xlsx#Burn 3 and 1 more: `Time` is `clock`, `Barrel C` is `tank` in degC, \
        `O2` is `flue_o2` in %, `Remarks` is `note`\n";
    assert!(check.stderr.contains(like), "{}", check.stderr);
    for (number, burn) in (1..).zip(&BURNS) {
        let oxygen = (100.0 * burn.oxygen).round();
        let [first, last] = [burn.tank[0], burn.tank[4]];
        let line = format!(
            "trial {number}: burn of 2026-03-{:02}, 5 readings in 48 min, 15:50 to 16:38: `tank` from {first:.1} degC to {last:.1} degC; \
             `flue_o2` from {oxygen} % to {oxygen} %\n",
            burn.day
        );
        assert!(check.stderr.contains(&line), "{line} is not in {}", check.stderr);
    }
}

/// A share is one whether its cell or its header states the percent.
#[test]
fn shares_in_percent_in_a_text_file() {
    let w = Workspace::new();
    let log = |header: &str, unit: &str| {
        let row = |(minute, tank): (u32, f64)| format!("{minute},{tank},18{unit},2{unit}\n");
        let rows: String = (0..).step_by(12).zip(BURNS[0].tank).map(row).collect();
        format!("elapsed [min],tank [degC],{header}\n{rows}")
    };
    w.write("logs/b1.csv", log("flue_o2,CO2", " %"));
    w.write("logs/b2.csv", log("flue_o2 [%],CO2 [%]", "").replace(",11,", ",11.2,"));
    let begun = calefact(w.path(), &["new", "yard", "--from", "logs", "--water", "120 L"]);
    assert_eq!(begun.code, 0, "{}", begun.stderr);
    let check = calefact(w.path(), &["check", "yard"]);
    assert_eq!(check.code, 0, "{}", check.stderr);
    let shares = check.stderr.matches("; `flue_o2` from 18 % to 18 %; `flue_co2` from 2 % to 2 %").count();
    assert_eq!(shares, 2, "{}", check.stderr);
}
