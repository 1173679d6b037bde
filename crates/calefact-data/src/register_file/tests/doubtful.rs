//! Registers whose numbers or rows can be taken two ways.

use super::{burn, codes, read_with, register};
use crate::Severity;
use crate::fact::{RegisterFact, TwoReadings};

const HEAD: &str = "trial;kind;date;log;vessel;water [L];fuel_mass [kg]\n";

/// Fuel of the rows kept, kg, and codes of the findings.
fn fuel(text: &str) -> (Vec<Option<f64>>, Vec<&'static str>) {
    let (register, findings) = read_with("", text);
    let rows = register.map(|r| r.rows).unwrap_or_default();
    (rows.iter().map(|r| r.fuel_mass).collect(), findings.iter().map(crate::Finding::code).collect())
}

#[test]
fn dates_and_ids_have_no_vote_on_the_decimal_sign() {
    let dated = |cells: &str| fuel(&format!("{HEAD}1.1;burn;03.03.2025;a.csv;barrel;{cells}\n"));
    assert_eq!(dated("160;5,6"), (vec![Some(5.6)], vec![]));
    assert_eq!(dated("160,5;5,600"), (vec![Some(5.6)], vec![]));
    // A point in a number makes the comma part thousands, which 1600 kg of wood are not worth believing.
    assert_eq!(dated("160.5;1,600"), (vec![], vec!["implausible"]));
    assert_eq!(dated("160.5;1,600 g"), (vec![Some(1.6)], vec![]));
}

#[test]
fn a_number_with_two_readings_is_not_taken() {
    let readings = TwoReadings { mark: ',', decimal: 1.6, grouped: 1600.0 };
    let fact = |cell: &str| RegisterFact::TwoReadings { column: "fuel_mass".into(), cell: cell.into(), readings };
    let row = |cell: &str| register(&format!("{HEAD}b1;burn;03.03.2025;a.csv;barrel;160;{cell}\n"));
    assert_eq!(row("1,600 g"), (0, vec![fact("1,600").into()]));
    // Between commas a point can only be a decimal sign.
    assert_eq!(burn(",fuel_mass [kg]", ",1.600").0, 1);
    assert_eq!(burn(",fuel_mass [g]", ",\"1,600\""), (0, vec![fact("1,600").into()]));
}

#[test]
fn a_number_with_its_own_unit_is_written_like_the_others() {
    assert_eq!(fuel(&format!("{HEAD}b1;burn;;a.csv;barrel;160;5,6 kg\n")), (vec![Some(5.6)], vec![]));
    assert_eq!(fuel(&format!("{HEAD}b1;burn;;a.csv;barrel;160,5;1.600 g\n")), (vec![Some(1.6)], vec![]));
    let (read, findings) = read_with("", "trial;kind;log;vessel;water\nb1;burn;a.csv;barrel;159,5 kg\n");
    assert_eq!(findings, []);
    assert_eq!(read.expect("a register").rows[0].water, crate::Water::Mass(159.5));
}

#[test]
fn a_decimal_comma_between_commas() {
    let facts = |cells: &str| burn(",fuel_mass [kg],note", cells);
    // The empty cell at the end shows that a number takes up two.
    assert_eq!(facts(",5,6,"), (0, vec![RegisterFact::TooManyCells { cells: 8, header: 7 }.into()]));
    let split = RegisterFact::SplitNumber { column: "fuel_mass".into(), written: "5,6".into() };
    assert_eq!(facts(",5,6"), (1, vec![split.into()]));
    assert_eq!(facts(",5.6,6"), (1, vec![]));
    assert_eq!(facts(",5,2 logs"), (1, vec![]));
}

#[test]
fn two_open_quotes_that_close_each_other() {
    let head = "trial,kind,log,vessel,water [L],note\n";
    let open = |rows: &str| (register(&format!("{head}{rows}")).0, codes(&format!("{head}{rows}")));
    let row = |n: u8, note: &str| format!("b{n},burn,b{n}.csv,barrel,160,{note}\n");
    let swallowed = [row(1, "\"lit late"), row(2, ""), row(3, "\"windy"), row(4, "")].concat();
    assert_eq!(open(&swallowed), (1, vec![("quote-open", Some(2), Some(6))]));
    let early =
        "trial,note,kind,log,vessel,water [L]\nb1,\"lit,burn,b1.csv,barrel,160\nb2,\"dry,burn,b2.csv,barrel,160\n";
    assert_eq!((register(early).0, codes(early)), (0, vec![("quote-open", Some(2), Some(2))]));
    assert_eq!(open(&row(1, "\"lit late, wind\nstirred, burn of oak\"")), (1, vec![]));
}

#[test]
fn rows_of_bare_delimiters_are_nothing() {
    let text = "trial,kind,log,vessel,water [L],note\nb1,burn,a.csv,barrel,160,\n,,,,,\n , ,,,,\n\"\",,,,,\n";
    assert_eq!(register(text), (1, vec![]));
    assert_eq!(register("trial;kind;log;vessel;water [L]\n;;;;\n;;;;\n").1, [RegisterFact::NoTrial.into()]);
}

#[test]
fn levels_that_differ_only_to_the_program() {
    let found = |cells: [&str; 4]| {
        let row = |(n, cell): (usize, &str)| format!("b{n},burn,b{n}.csv,barrel,160,{cell}\n");
        let rows: String = cells.into_iter().enumerate().map(row).collect();
        register(&format!("trial,kind,log,vessel,water [L],split\n{rows}"))
    };
    let twins = |level: &str, twin: &str, twin_line| {
        RegisterFact::TwinLevels { column: "split".into(), level: level.into(), twin: twin.into(), twin_line }.into()
    };
    assert_eq!(found(["Fine", "fine", "coarse", "fine"]), (4, vec![twins("fine", "Fine", 2)]));
    let (composed, parts) = ("K\u{fc}che", "Ku\u{308}che");
    assert_eq!(found(["x", composed, parts, "extra"]), (4, vec![twins(parts, composed, 3)]));
    assert_eq!(found(["very  fine", "", "", "very fine"]), (4, vec![twins("very fine", "very  fine", 2)]));
    assert_eq!(found(["fine", "fine", "finer", ""]), (4, vec![]));
}

/// Two ids that `dataset.toml` defines, of one stove to the eye.
#[test]
fn ids_that_differ_only_to_the_program() {
    let text = "trial,kind,log,vessel,water [L],stove\nb1,burn,a.csv,barrel,160,Box\nb2,burn,b.csv,barrel,160,box\n";
    let stoves = "[stoves.Box]\nname = \"Box\"\n";
    let (read, findings) = read_with(stoves, text);
    assert_eq!(read.expect("a register").rows.len(), 2);
    let (column, level, twin) = ("stove".into(), "box".into(), "Box".into());
    assert_eq!(findings[0].fact, RegisterFact::TwinLevels { column, level, twin, twin_line: 2 }.into());
}

/// `1,250` is a thousand and more where 5.6 has a decimal point, and a little more than one where 5,6 has a comma.
#[test]
fn numbers_of_further_columns_follow_the_decimal_sign_of_the_file() {
    let rpm = |mass: &str, cell: &str| {
        let head = "trial;kind;log;vessel;water [L];fuel_mass [kg];rpm\n";
        let (read, _) = read_with("", &format!("{head}b1;burn;a.csv;barrel;160;{mass};{cell}\n"));
        read.expect("a register").rows[0].extra["rpm"].clone()
    };
    assert_eq!([rpm("5.6", "1,250"), rpm("5,6", "1.250")], ["1250", "1250"]);
    assert_eq!([rpm("5,6", "1,250"), rpm("5.6", "1.250"), rpm("5.6", "12,5")], ["1,250", "1.250", "12,5"]);
    let (read, open) = read_with("", "trial;kind;log;vessel;water [L];rpm\nb1;burn;a.csv;barrel;160;1,250\n");
    assert!(read.is_some() && open.len() == 1 && open[0].severity == Severity::Warning, "{open:?}");
}

#[test]
fn a_trial_is_not_excluded_by_a_word_that_says_no() {
    for word in ["0", "no", "False"] {
        let (read, findings) =
            read_with("", &format!("{}{word}\n", "trial,kind,log,vessel,water [L],exclude\nb1,burn,a.csv,barrel,160,"));
        let facts: Vec<_> = findings.into_iter().map(|f| (f.severity, f.fact)).collect();
        assert_eq!(facts, [(Severity::Note, RegisterFact::NotExcluded { cell: word.into() }.into())]);
        assert_eq!(read.expect("a register").rows[0].exclude, None);
    }
    let (read, findings) =
        read_with("", "trial,kind,log,vessel,water [L],exclude,stove\nb1,burn,a.csv,barrel,160,--,-\n");
    let row = read.expect("a register").rows.remove(0);
    assert_eq!((row.exclude, row.stove, findings), (None, None, vec![]), "a dash is none");
    let (read, findings) = read_with("", "trial,kind,log,vessel,water [L],exclude\nb1,burn,a.csv,barrel,160,no lid\n");
    assert_eq!((read.expect("a register").rows[0].exclude.as_deref(), findings), (Some("no lid"), vec![]));
}

#[test]
fn of_two_further_columns_of_one_name_the_first_is_read() {
    let (read, findings) =
        read_with("", "trial,kind,log,vessel,water [L],split,split\nb1,burn,a.csv,barrel,160,fine,coarse\n");
    assert_eq!(
        findings[0].fact,
        RegisterFact::DuplicateColumn {
            column: "split".into(),
            headers: ["split".into(), "split".into()],
            is_mapped: false
        }
        .into()
    );
    assert_eq!(read.expect("a register").rows[0].level("split"), Some("fine"));
}
