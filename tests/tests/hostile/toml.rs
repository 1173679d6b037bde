//! Descriptions and pipelines that are hardly TOML, units that are none, and settings that contradict each other.

use crate::case::Case;
use calefact_tests::TinyDataset;

/// Descriptions, registers and pipelines.
pub(crate) fn cases() -> Vec<Case> {
    [syntax(), values(), units(), registers(), pipelines()].into_iter().flatten().collect()
}

/// A changed text of the dataset, whose first finding is an error that is told.
fn with(name: &'static str, from: &str, to: &str, code: i32, finding: &'static str) -> Case {
    Case::new(name, TinyDataset::new().with(from, to), code, finding)
}

fn syntax() -> Vec<Case> {
    let site = "[site]";
    vec![
        with("toml-open-table", site, "[site", 1, "error "),
        with("toml-open-text", "\"300 m\"", "\"300 m", 1, "error "),
        with("toml-key-twice", site, "[site]\naltitude = \"1 m\"", 1, "error "),
        with("toml-table-twice", "[fuels.spruce]", "[site]\n[fuels.spruce]", 1, "error "),
        with("toml-value-missing", "invented = true", "invented =", 1, "error "),
        with("toml-two-values", "invented = true", "invented = true false", 1, "error "),
        with(
            "toml-dotted-forever",
            "invented = true",
            "a.b.c.d.e.f.g.h.i.j.k.l = 1\ninvented = true",
            1,
            "unknown-key",
        ),
        with("toml-bad-escape", "\"Spruce\"", "\"\\q\"", 1, "error "),
        with("toml-surrogate", "\"Spruce\"", "\"\\ud800\"", 1, "error "),
        with("toml-control-character", "\"Spruce\"", "\"a\u{1}b\"", 1, "error "),
        with("toml-empty-key", "invented = true", "\"\" = 1\ninvented = true", 1, "unknown-key"),
        with("toml-octal", "invented = true", "invented = 0o17", 1, "wrong-type"),
        with("toml-date-for-text", "\"Spruce\"", "2026-03-28", 1, "wrong-type"),
        with(
            "toml-list-for-table",
            "[stoves.box]\nname = \"Box stove\"",
            "[[stoves.box]]\nname = \"Box stove\"",
            1,
            "wrong-type",
        ),
        with("toml-number-of-1000-digits", "invented = true", &format!("invented = {}", "9".repeat(1000)), 1, "error "),
    ]
}

fn values() -> Vec<Case> {
    let drum = "material = \"steel\"";
    let price = |name, value: &str, code, finding| {
        with(name, "class = \"coniferous\"", &format!("class = \"coniferous\"\nprice = {value}"), code, finding)
    };
    vec![
        price("price-infinite", "inf", 1, "must be a finite number"),
        price("price-not-a-number", "nan", 1, "must be a finite number"),
        price("price-minus", "-1.0", 1, "zero or more"),
        price("price-in-words", "\"dear\"", 1, "wrong-type"),
        with("material-unknown", drum, "material = \"unobtainium\"", 1, "unknown-word"),
        with("class-unknown", "\"coniferous\"", "\"coniferus\"", 1, "did you mean"),
        with("volume-zero", "\"120 L\"", "\"0 L\"", 1, "error "),
        with("volume-minus", "\"120 L\"", "\"-120 L\"", 1, "error "),
        with("volume-of-a-lake", "\"120 L\"", "\"1e9 m3\"", 1, "error "),
        with("mass-1e308", "\"11 kg\"", "\"1e308 kg\"", 1, "error "),
        with("altitude-of-the-moon", "\"300 m\"", "\"384400 km\"", 1, "error "),
        with("loss-minus", "\"4 W/K\"", "\"-4 W/K\"", 1, "error "),
        with("tolerance-minus", "\"0.5 degC\"", "\"-0.5 degC\"", 1, "error "),
        with("tolerance-infinite", "\"0.5 degC\"", "\"inf degC\"", 1, "error "),
        with("tolerance-of-another-kind", "\"0.5 degC\"", "\"0.5 kg\"", 1, "error "),
        with("reads-nothing", "reads = [\"tank\"]", "reads = []", 1, "missing-key"),
        with("reads-unknown", "reads = [\"tank\"]", "reads = [\"tnak\"]", 1, "did you mean"),
        with("clock-format-invalid", "[site]", "[logs]\nclock_format = \"%Q\"\n[site]", 1, "pattern of a clock time"),
        with(
            "clock-format-without-percent",
            "[site]",
            "[logs]\nclock_format = \"hh:mm\"\n[site]",
            1,
            "pattern of a clock time",
        ),
        with(
            "clock-format-date-alone",
            "[site]",
            "[logs]\nclock_format = \"%d.%m.%Y\"\n[site]",
            1,
            "pattern of a clock time",
        ),
        with("delimiter-two-characters", "[site]", "[logs]\ndelimiter = \";;\"\n[site]", 1, "error "),
        with("encoding-unknown", "[site]", "[logs]\nencoding = \"utf-7\"\n[site]", 1, "error "),
        with("time-zone-unknown", "[site]", "[logs]\ntime_zone = \"Moon/Base\"\n[site]", 1, "error "),
    ]
}

fn units() -> Vec<Case> {
    let volume = |name, text: &str, finding| with(name, "\"120 L\"", &format!("\"{text}\""), 1, finding);
    vec![
        volume("unit-of-ambiguous-gallon", "32 gal", "ambiguous-unit"),
        volume("unit-of-another-kind", "120 kg", "error "),
        volume("unit-missing", "120", "error "),
        volume("unit-unknown", "120 xyzzy", "unknown-unit"),
        volume("number-missing", "L", "error "),
        volume("number-with-a-comma", "1,5 L", "error "),
        volume("number-infinite", "inf L", "error "),
        volume("number-not-a-number", "NaN L", "error "),
        volume("number-1e999", "1e999 L", "error "),
        volume("number-in-another-script", "١٢٠ L", "error "),
        with("temperature-1e300", "\"0.5 degC\"", "\"1e300 K\"", 1, "error "),
        with("header-unit-ambiguous", "water [L]", "water [gal]", 1, "ambiguous-unit"),
        with("header-unit-of-another-kind", "fuel_mass [kg]", "fuel_mass [degC]", 1, "error "),
        with("header-unit-unknown", "water [L]", "water [bucket]", 1, "unknown-unit"),
        with("header-bracket-open", "water [L]", "water [L", 1, "missing-column"),
        with("header-unit-of-markup", "water [L]", "water [<script>alert(1)</script>]", 1, "unknown-unit"),
    ]
}

fn registers() -> Vec<Case> {
    let cell = |name, to: &str, code, finding| with(name, "drum,120,5.4", to, code, finding);
    vec![
        cell("water-blank", "drum,,5.4", 1, "blank"),
        cell("water-in-words", "drum,full,5.4", 1, "not-a-number"),
        cell("fuel-zero", "drum,120,0", 1, "error "),
        cell("fuel-not-a-number", "drum,120,NaN", 0, ""),
        cell("fuel-of-tonnes", "drum,120,5400", 1, "out-of-range"),
        cell("vessel-unknown", "durm,120,5.4", 1, "unknown-id"),
        cell("water-more-than-the-vessel", "drum,1200,5.4", 1, "error "),
        with("trial-twice", "\nb2,burn", "\nb1,burn", 1, "duplicate-trial"),
        with("trial-blank", "\nb2,burn", "\n,burn", 1, "blank"),
        with("kind-unknown", "b2,burn", "b2,bonfire", 1, "unknown-kind"),
        with("basis-unknown", "17,wet", "17,damp", 1, "unknown-word"),
        with("moisture-beyond-all", "17,wet", "170,wet", 1, "error "),
        with("leftover-more-than-fuel", "0.3,0,0.12", "0.3,50,0.12", 1, "error "),
        with("row-too-long", "0.12,8", "0.12,8,9,10", 1, "too-many-cells"),
        with(
            "row-too-short",
            "\nb2,burn,logs/b2.csv,box,spruce,drum,120,5.4,17,wet,0.3,0,0.12,8",
            "\nb2,burn",
            1,
            "blank",
        ),
        with("column-missing", ",water [L],", ",watr [L],", 1, "missing-column"),
        with("column-twice-in-the-register", ",stove,", ",fuel,", 1, "duplicate-column"),
        with("register-empty", "trial,kind,log", "", 1, "error "),
        with("excluded-all", "kind,log", "exclude,kind,log", 1, "error "),
    ]
}

fn pipelines() -> Vec<Case> {
    let wrong = |name, from: &str, to: &str, finding| with(name, from, to, 2, finding);
    vec![
        wrong("datasets-empty", "[\"data\"]", "[]", "error "),
        wrong("datasets-not-a-list", "[\"data\"]", "\"data\"", "wrong-type"),
        wrong("factor-unknown", "\"stove\"", "\"stvoe\"", "did you mean"),
        wrong("factor-number", "\"stove\"", "7", "wrong-type"),
        wrong("quantity-unknown", "thermal_efficiency", "thermal_eficiency", "did you mean"),
        wrong("comparison-key-unknown", "factor =", "factr =", "did you mean"),
        with("dataset-missing", "[\"data\"]", "[\"dta\"]", 1, "dataset-missing"),
        with("dataset-twice", "[\"data\"]", "[\"data\", \"data\"]", 1, "duplicate-trial"),
        with("dataset-absolute-missing", "[\"data\"]", "[\"/no/such/folder\"]", 1, "dataset-missing"),
        with("comparison-twice", "[[comparison]]", "[[comparison]]\nfactor = \"stove\"\n[[comparison]]", 0, ""),
        with("compare-the-fuel-of-one", "factor = \"stove\"", "factor = \"fuel\"", 0, ""),
    ]
}
