//! Numbers that nobody can mean.

use crate::case::Case;
use calefact_tests::TinyDataset;

/// Logs and registers with such numbers.
pub(crate) fn cases() -> Vec<Case> {
    let log = |rows: &str| TinyDataset::new().with_log("logs/b2.csv", &format!("elapsed [min],tank [degC]\n{rows}"));
    let all = "elapsed [min],tank [degC],ambient [degC],flue_before [degC],flow [L/min]\n";
    let huge = format!("{all}0,1e154,1e154,1e154,1e154\n12,1e154,1e154,1e154,1e154\n24,1e154,1e154,1e154,1e154\n");
    vec![
        Case::new("last-time-1e308", log("0,10\n12,17\n1e308,25\n"), 0, "time-unreadable"),
        Case::new("last-time-1e12", log("0,10\n12,17\n24,25\n1e11,40\n"), 0, ""),
        Case::new("times-of-a-femtosecond", log("0,10\n1e-15,17\n2e-15,25\n"), 0, ""),
        Case::new("times-all-alike", log("5,10\n5,17\n5,25\n"), 1, "time-repeated"),
        Case::new("times-below-zero", log("-1e9,10\n-1,17\n0,25\n"), 0, ""),
        Case::new("all-channels-1e154", TinyDataset::new().with_log("logs/b2.csv", &huge), 1, "no-tank-reading"),
        Case::new("tank-infinite", log("0,inf\n12,-inf\n24,NaN\n"), 1, "too-few-readings"),
        Case::new("tank-denormal", log("0,5e-324\n12,1e-310\n24,2e-308\n"), 0, ""),
        // The first reading is blank: rounding may part the ends of a log that is cut in halves.
        Case::new("first-tank-blank", log("0,\n0.1,11\n0.3,18\n0.7,26\n"), 0, ""),
        Case::new("heater-1e18", heater("1e18", "1e300"), 1, "no-tank-reading"),
        Case::new("heater-1e9", heater("1e9", "2000"), 1, "no-tank-reading"),
        Case::new("heater-without-end", heater("60", "1e300"), 0, "out-of-range"),
        Case::new("elapsed-with-colons-1e308", log("0,10\n12,17\n1e308:00:00,25\n"), 0, "time-unreadable"),
        Case::new("register-1e308", TinyDataset::new().with("drum,120,5.4", "drum,1e308,1e308"), 1, "out-of-range"),
        Case::new("register-minus", TinyDataset::new().with("drum,120,5.4", "drum,-120,-5.4"), 1, "negative"),
        Case::new("volume-denormal", TinyDataset::new().with("\"120 L\"", "\"5e-324 L\""), 1, ""),
    ]
}

/// Trial `b2` as a reference-heater trial that ends at a temperature, under an electric power.
fn heater(end: &str, power: &str) -> TinyDataset {
    let log = format!("elapsed [min],tank [degC],power [W]\n0,{end},{power}\n12,{end},{power}\n24,{end},{power}\n");
    TinyDataset::new().with("b2,burn", "b2,reference-heater").with_log("logs/b2.csv", &log)
}
