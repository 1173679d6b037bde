//! The keys of a pipeline file, and the words that stand for its settings.

use super::publish;
use calefact_analysis::Quantity;
use calefact_analysis::settings::{Combine, End, RigCheck, Window};
use calefact_data::dataset_file::{MATERIALS, TOPS};
use calefact_data::register_columns::TRIAL_KINDS;
use calefact_data::toml_source::{Key, Range, Shape, TEXT, TextForm, words};
use calefact_report::words::Units;
use calefact_units::Kind;

/// All keys of a pipeline file.
pub const KEYS: &[Key] = &[
    Key::required("name", Shape::Text(TextForm::FolderName), "name of the pipeline and of the folder of its results"),
    Key::optional("title", TEXT, "title of the report; the name if absent"),
    Key::required(
        "datasets",
        Shape::NonEmpty(&TEXT, "no-dataset"),
        "folders of the datasets, or bundles, relative to the pipeline file",
    ),
    Key::optional(
        "read_outside",
        Shape::Boolean,
        "whether registers and logs may lie outside the folder of their dataset",
    )
    .with_default("false"),
    Key::optional("settings", Shape::Table(SETTINGS), "how trials are reduced and compared"),
    Key::optional("reference_job", Shape::Table(REFERENCE_JOB), "the job that trials are normalised to"),
    Key::optional(
        "job",
        Shape::List(&Shape::Table(JOB)),
        "jobs not done yet, of which wood, time and cost are forecast; the reference job if absent",
    ),
    Key::optional(
        "comparison",
        Shape::List(&Shape::Table(COMPARISON)),
        "what is compared; stove, fuel and exchanger if absent, each adjusted for the other two",
    ),
    Key::optional("plan", Shape::Table(PLAN), "wishes and guesses for `calefact plan`"),
    Key::optional("outputs", Shape::Table(OUTPUTS), "what is written, and where"),
    Key::optional("publish", Shape::Table(publish::KEYS), "what `calefact seal` says of the publication"),
];

const TEMPERATURE: Shape = Shape::Quantity(Kind::Temperature, Range::Any);
const LEVEL: Range = Range::Below(0.5, 1.0);

const SETTINGS: &[Key] = &[
    Key::optional(
        "level",
        Shape::Either(&Shape::Number(LEVEL), &Shape::Quantity(Kind::Fraction, LEVEL)),
        "probability that an interval holds the true value",
    )
    .with_default("0.95"),
    Key::optional(
        "window",
        Shape::Either(&Shape::Word(|| words(&WINDOWS)), &Shape::Table(WINDOW)),
        "part of the log a trial is reduced over",
    )
    .with_default("\"whole log\""),
    Key::optional("end", Shape::Either(&Shape::Word(|| words(&ENDS)), &Shape::Table(END)), "end of a burn")
        .with_default("\"last reading\""),
    Key::optional("heating_rate_at", TEMPERATURE, "tank temperature at which the heating rate is stated")
        .with_default("\"40 degC\""),
    Key::optional("propagation", Shape::Word(|| words(&PROPAGATIONS)), "how uncertainty is propagated")
        .with_default("\"first order\""),
    Key::optional("seed", Shape::Integer(Range::NotNegative), "seed of the random draws of \"monte carlo\"")
        .with_default("20240601"),
    Key::optional(
        "digits",
        Shape::Integer(Range::Within(1.0, 6.0)),
        "significant digits of an uncertainty that \"monte carlo\" makes stable, within 100 000 draws",
    )
    .with_default("1"),
    Key::optional("rig_check", Shape::Word(|| words(&RIG_CHECKS)), "what reference-heater trials are used for")
        .with_default("\"report\""),
    Key::optional("combine", Shape::Word(|| words(&COMBINES)), "how the repeats of a level are combined")
        .with_default("\"mean\""),
];

const WINDOW: &[Key] = &[
    Key::required("from", TEMPERATURE, "tank temperature at which the window opens"),
    Key::required("to", TEMPERATURE, "tank temperature at which it closes"),
];

const END: &[Key] = &[Key::required("target", TEMPERATURE, "tank temperature at which a burn ends")];

const FROM: Key = Key::required("from", TEMPERATURE, "its temperature at the start");
const TO: Key = Key::required("to", TEMPERATURE, "its temperature at the end");
const AMBIENT: Key = Key::required("ambient", TEMPERATURE, "temperature of the air");
const FUEL_MOISTURE: Shape = Shape::Quantity(Kind::Fraction, Range::Below(0.0, 1.0));

const REFERENCE_JOB: &[Key] = &[
    Key::required("water", Shape::Quantity(Kind::Volume, Range::Positive), "water to heat"),
    FROM,
    TO,
    AMBIENT,
    Key::optional("fuel_moisture", FUEL_MOISTURE, "moisture of the fuel, wet basis; each trial's own if absent"),
];

/// A job that cannot be, such as one of boiling water, is told with the answers to the other jobs.
const JOB: &[Key] = &[
    Key::required("name", TEXT, "name of the job"),
    Key::required("water", Shape::Quantity(Kind::Volume, Range::NotNegative), "water to heat"),
    FROM,
    TO,
    AMBIENT,
    Key::optional("fuel_moisture", FUEL_MOISTURE, "moisture of the fuel, wet basis; that of the burns if absent"),
    Key::optional("standing", Shape::Quantity(Kind::Time, Range::NotNegative), "time the hot water then stands"),
    Key::optional("repeats", Shape::Number(Range::Positive), "how often a day it is done"),
    Key::optional("deadline", Shape::Quantity(Kind::Time, Range::Positive), "time within which it must be done"),
    Key::optional(
        "vessel",
        Shape::Either(&TEXT, &Shape::Table(JOB_VESSEL)),
        "id of a vessel of the data, or what the vessel is; the one that most burns heat if absent, where the water fits in",
    ),
];

const JOB_VESSEL: &[Key] = &[
    Key::optional("volume", Shape::Quantity(Kind::Volume, Range::Positive), "its volume; the water's if absent"),
    Key::optional(
        "loss_coefficient",
        Shape::Stated(Kind::Conductance, Range::NotNegative),
        "heat loss to the air; a range if neither this nor its wall is stated",
    ),
    Key::optional("insulation", Shape::Quantity(Kind::Length, Range::NotNegative), "thickness of its insulation"),
    Key::optional("conductivity", Shape::Number(Range::Positive), "thermal conductivity of the insulation, W/(m K)")
        .with_default("0.04"),
    Key::optional(
        "heat_transfer",
        Shape::Number(Range::Positive),
        "heat transfer from the water to the air (U), W/(m2 K), in place of the insulation",
    ),
    Key::optional(
        "area",
        Shape::Quantity(Kind::Area, Range::Positive),
        "outer area; that of a closed cylinder if absent",
    ),
    Key::optional("mass", Shape::Quantity(Kind::Mass, Range::Positive), "mass of the empty vessel, with `material`"),
    Key::optional("material", Shape::Word(|| words(&MATERIALS)), "what it is made of"),
    Key::optional("top", Shape::Word(|| words(&TOPS)), "whether the top is closed"),
];

const COMPARISON: &[Key] = &[
    Key::required("factor", TEXT, "register column whose levels are compared; a column of numbers gives a trend"),
    Key::optional("kind", Shape::Word(|| words(&TRIAL_KINDS)), "kind of trial that is compared")
        .with_default("\"burn\""),
    Key::optional("only", Shape::ById(&TEXT), "columns and the level that trials must have in them"),
    Key::optional("adjust", Shape::List(&TEXT), "further factors that the model holds constant"),
    Key::optional("covariates", Shape::List(&TEXT), "columns of numbers that the model holds constant"),
    Key::optional("block", TEXT, "column that names the block, such as the day or the crew"),
    Key::optional(
        "quantities",
        Shape::List(&Shape::Word(quantities)),
        "quantities that are compared; a list for the kind of trial if absent",
    ),
    Key::optional(
        "main",
        Shape::Word(quantities),
        "quantity that carries the verdict, named before the results are known; the first of the quantities if absent",
    ),
    Key::optional(
        "planned",
        Shape::Integer(Range::Within(2.0, 1000.0)),
        "trials of each level that are planned; before, only a very clear difference counts as settled",
    ),
    Key::optional(
        "equivalence_margin",
        Shape::Quantity(Kind::Fraction, Range::Between(0.0, 1.0)),
        "levels within this margin of each other count as the same",
    ),
];

const PLAN: &[Key] = &[
    Key::optional("factor", TEXT, "the comparison that is planned, by its factor; all if absent"),
    Key::optional("levels", Shape::List(&TEXT), "levels of that factor that no burn has yet"),
    Key::optional(
        "difference",
        TEXT,
        "smallest difference that matters: a share of the mean (`10 %`), points (`4 points`) or an amount; else the margin of equivalence, \
         else the difference seen",
    ),
    Key::optional(
        "width",
        TEXT,
        "wanted width of the interval of a difference, from end to end, stated in the same ways",
    ),
    Key::optional(
        "scatter",
        TEXT,
        "guessed standard deviation between burns of one level, stated in the same ways; what the burns show if absent",
    ),
    Key::optional("mean", TEXT, "guessed mean of the quantity, for sizes that are shares of it before there is a burn"),
    Key::optional(
        "power",
        Shape::Quantity(Kind::Fraction, Range::Between(0.0, 1.0)),
        "chance of showing a difference that is there",
    )
    .with_default("\"80 %\""),
    Key::optional("burns_per_day", Shape::Integer(Range::Within(1.0, 24.0)), "burns of one day").with_default("2"),
    Key::optional("first_day", Shape::Text(TextForm::Date), "day of the first burn; days have numbers only if absent"),
    Key::optional("seed", Shape::Integer(Range::NotNegative), "seed of the order").with_default("1"),
];

const OUTPUTS: &[Key] = &[
    Key::optional("folder", TEXT, "folder of the results, relative to the pipeline file; reports/NAME if absent"),
    Key::optional(
        "formats",
        Shape::NonEmpty(&Shape::Word(|| words(&FORMATS)), "no-format"),
        "formats of the tables; \"xlsx\" is one workbook for all, \"parquet\" needs a build with that feature",
    )
    .with_default("[\"csv\"]"),
    Key::optional(
        "units",
        Shape::Word(|| words(&UNITS)),
        "units of the report and the terminal; tables are in SI units",
    )
    .with_default("\"metric\""),
    Key::optional("readings", Shape::Boolean, "whether the readings of all trials are written as one table, a copy of all logs in SI units; false unless stated")
        .with_default("true"),
];

pub(super) const WINDOWS: [(&str, Window); 1] = [("whole log", Window::WholeLog)];

pub(super) const ENDS: [(&str, End); 3] =
    [("last reading", End::LastReading), ("fire out", End::FireOut), ("peak", End::Peak)];

/// Whether Monte Carlo draws are made.
pub(super) const PROPAGATIONS: [(&str, bool); 2] = [("first order", false), ("monte carlo", true)];

pub(super) const RIG_CHECKS: [(&str, RigCheck); 3] =
    [("report", RigCheck::Report), ("bound", RigCheck::Bound), ("correct", RigCheck::Correct)];

pub(super) const COMBINES: [(&str, Combine); 3] =
    [("mean", Combine::Mean), ("REML", Combine::Reml), ("Paule-Mandel", Combine::PauleMandel)];

/// Formats of the tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Format {
    /// Comma-separated text.
    Csv,
    /// Apache Parquet.
    Parquet,
    /// One workbook.
    Xlsx,
}

pub(super) const FORMATS: [(&str, Format); 3] =
    [("csv", Format::Csv), ("xlsx", Format::Xlsx), ("parquet", Format::Parquet)];

pub(super) const UNITS: [(&str, Units); 2] = [("metric", Units::Metric), ("us", Units::Us)];

fn quantities() -> Vec<&'static str> {
    Quantity::ALL.iter().map(|q| q.name()).collect()
}
