//! The keys of `dataset.toml`.

use super::{assume, defaults, exchangers, files, fuels, vessels};
use crate::Channel;
use crate::limits::{ALTITUDE, VESSEL_CAPACITY, VESSEL_LOSS, VESSEL_MASS, VOLUME};
use crate::register_columns;
use crate::toml_source::{Key, Range, Shape, TEXT, TextForm, words};
use calefact_units::Kind;

const NAME: Key = Key::required("name", TEXT, "name for readers");

/// All keys of `dataset.toml`.
pub const KEYS: &[Key] = &[
    Key::required("title", TEXT, "title of the dataset"),
    Key::optional("invented", Shape::Boolean, "true where the readings are invented; every output says so")
        .with_default("false"),
    Key::optional("site", Shape::Table(SITE), "where the trials were made"),
    Key::optional("stoves", Shape::ById(&Shape::Table(STOVE)), "the stoves, by id"),
    Key::optional("fuels", Shape::ById(&Shape::Table(FUEL)), "the fuels, by id"),
    Key::optional("exchangers", Shape::ById(&Shape::Table(EXCHANGER)), "the exchangers, by id"),
    Key::optional("vessels", Shape::ById(&Shape::Table(VESSEL)), "the vessels, by id"),
    Key::optional("instruments", Shape::ById(&Shape::Table(INSTRUMENT)), "the instruments, by id"),
    Key::optional(
        "columns",
        Shape::ByName(log_columns, &COLUMN),
        "headers of the logs that are not the names of their columns; a list where loggers write a column differently",
    ),
    Key::optional("logs", Shape::Table(LOGS), "how the logs are written; what is not stated is found out per file"),
    Key::optional("register", Shape::Table(REGISTER), "how the register is written"),
    Key::optional(
        "defaults",
        Shape::Table(&defaults::KEYS),
        "values of the register's columns, for rows that leave them blank",
    ),
    Key::optional("files", Shape::Table(FILES), "where the files lie"),
    Key::optional(
        "assume",
        Shape::Either(&Shape::Word(|| words(&assume::NOTHING)), &Shape::Table(ASSUME)),
        "own ranges for what was not recorded; \"nothing\": what was not recorded stays empty",
    ),
];

const ASSUME: &[Key] = &[
    Key::optional(
        "vessel_heat_capacity",
        Shape::List(&Shape::Quantity(Kind::HeatCapacity, Range::NotNegative)),
        "heat capacity of an empty vessel",
    ),
    Key::optional(
        "loss_coefficient",
        Shape::List(&Shape::Quantity(Kind::Conductance, Range::NotNegative)),
        "heat loss of a vessel to the air",
    ),
    Key::optional(
        "air_temperature",
        Shape::List(&Shape::Quantity(Kind::Temperature, Range::Within(-60.0, 60.0))),
        "temperature of the air",
    ),
    Key::optional("kindling_mass", SHARES, "kindling, as a share of `fuel_mass`"),
    Key::optional("leftover_fuel", SHARES, "wood taken back, as a share of `fuel_mass`"),
    Key::optional("leftover_char", SHARES, "char taken back, as a share of `fuel_mass`"),
    Key::optional("fuel_moisture", SHARES, "moisture of the fuel, wet basis"),
    Key::optional(
        "calorific_value",
        Shape::List(&Shape::Quantity(Kind::SpecificEnergy, Range::Within(1e6, 60e6))),
        "net calorific value of dry matter of a fuel without a class",
    ),
    Key::optional(
        "char_calorific_value",
        Shape::List(&Shape::Quantity(Kind::SpecificEnergy, Range::Within(1e6, 60e6))),
        "net calorific value of the char",
    ),
];

/// A share of something else.
const SHARES: Shape = Shape::List(&Shape::Either(
    &Shape::Number(Range::Below(0.0, 1.0)),
    &Shape::Quantity(Kind::Fraction, Range::Below(0.0, 1.0)),
));

const SITE: &[Key] = &[
    Key::optional("name", TEXT, "name of the place"),
    Key::optional(
        "altitude",
        Shape::Quantity(Kind::Length, ALTITUDE.range()),
        "height above sea level; it sets the boiling point",
    ),
];

const STOVE: &[Key] = &[NAME, Key::optional("note", TEXT, "a remark")];

/// Net calorific values of anything a stove burns lie well inside, J/kg.
const CALORIFIC: Shape = Shape::Stated(Kind::SpecificEnergy, Range::Within(1e6, 60e6));
const CALORIFIC_WIDTH: Shape = Shape::Width(Kind::SpecificEnergy);

const FUEL: &[Key] = &[
    NAME,
    Key::optional(
        "class",
        Shape::Word(|| words(&fuels::CLASSES)),
        "class of wood; typical values where none are stated",
    ),
    Key::optional("net_calorific_value", CALORIFIC, "net calorific value of dry matter"),
    Key::optional("net_calorific_value_uncertainty", CALORIFIC_WIDTH, "its standard uncertainty"),
    Key::optional("char_calorific_value", CALORIFIC, "net calorific value of the leftover char"),
    Key::optional("char_calorific_value_uncertainty", CALORIFIC_WIDTH, "its standard uncertainty"),
    Key::optional("composition", Shape::Table(COMPOSITION), "mass fractions of dry matter; they add up to 1"),
    Key::optional("price", Shape::Number(Range::NotNegative), "price per kg as bought, in `currency`"),
    Key::optional("currency", TEXT, "currency of the price"),
];

const SHARE: Shape =
    Shape::Either(&Shape::Number(Range::NotNegative), &Shape::Quantity(Kind::Fraction, Range::NotNegative));

const COMPOSITION: &[Key] = &[
    Key::required("c", SHARE, "carbon"),
    Key::required("h", SHARE, "hydrogen"),
    Key::required("o", SHARE, "oxygen"),
    Key::optional("n", SHARE, "nitrogen").with_default("0"),
    Key::optional("s", SHARE, "sulfur").with_default("0"),
    Key::optional("ash", SHARE, "ash").with_default("0"),
];

const EXCHANGER: &[Key] = &[
    NAME,
    Key::optional(
        "arrangement",
        Shape::Word(|| words(&exchangers::ARRANGEMENTS)),
        "how gas and water flow past each other",
    ),
    Key::optional("insulation", TEXT, "insulation of the housing, in words"),
    Key::optional("build", Shape::Table(BUILD), "its dimensions"),
];

const LENGTH: Shape = Shape::Quantity(Kind::Length, Range::NotNegative);

const BUILD: &[Key] = &[
    Key::optional("tube_outside", LENGTH, "outside diameter of the tube"),
    Key::optional("tube_inside", LENGTH, "inside diameter of the tube"),
    Key::optional("length", LENGTH, "length of the tube; with `tube_outside` it gives the area of the exchanger"),
    Key::optional("coil_diameter", LENGTH, "diameter of the coil, from centre to centre of the tube"),
    Key::optional("pitch", LENGTH, "distance between turns of the coil"),
    Key::optional("passes", Shape::Number(Range::NotNegative), "number of passes"),
    Key::optional("housing_gap", LENGTH, "gap between coil and housing"),
    Key::optional("casing_diameter", LENGTH, "outside diameter of the casing"),
    Key::optional(
        "casing_height",
        LENGTH,
        "height of the casing; with `casing_diameter` it gives the area that loses heat",
    ),
];

const VESSEL: &[Key] = &[
    NAME,
    Key::optional("volume", Shape::Stated(Kind::Volume, VOLUME.range_above()), "nominal volume"),
    Key::optional("volume_uncertainty", Shape::Width(Kind::Volume), "its standard uncertainty"),
    // Zero is a statement, too: that the vessel is counted elsewhere, such as in the water.
    Key::optional(
        "heat_capacity",
        Shape::Stated(Kind::HeatCapacity, VESSEL_CAPACITY.range()),
        "heat capacity of the empty vessel",
    ),
    Key::optional("heat_capacity_uncertainty", Shape::Width(Kind::HeatCapacity), "its standard uncertainty"),
    Key::optional(
        "mass",
        Shape::Stated(Kind::Mass, VESSEL_MASS.range_above()),
        "mass of the empty vessel, with `material` in place of `heat_capacity`",
    ),
    Key::optional("mass_uncertainty", Shape::Width(Kind::Mass), "its standard uncertainty"),
    Key::optional(
        "material",
        Shape::Word(|| words(&vessels::MATERIALS)),
        "what the vessel is made of; alone it narrows the range that stands for the heat capacity",
    ),
    Key::optional(
        "top",
        Shape::Word(|| words(&vessels::TOPS)),
        "whether the top is closed; counts where neither loss coefficient nor standing-loss trial is known",
    ),
    Key::optional(
        "loss_coefficient",
        Shape::Stated(Kind::Conductance, VESSEL_LOSS.range()),
        "heat loss to the air, used only where no standing-loss trial exists",
    ),
    Key::optional("loss_coefficient_uncertainty", Shape::Width(Kind::Conductance), "its standard uncertainty"),
];

const INSTRUMENT: &[Key] = &[
    NAME,
    Key::optional("reads", Shape::List(&Shape::Word(measured_columns)), "columns of log and register that it reads"),
    Key::optional(
        "tolerance",
        Shape::Either(&TEXT, &Shape::List(&TEXT)),
        "limit of error as the sheet gives it, or several that act together: \"0.5 degC\", \"1 % of reading\", \"1 K standard\", \"class 2 type K\"",
    ),
    Key::optional("resolution", Shape::Text(TextForm::Width), "step of the display or the logger"),
    Key::optional("calibrated", Shape::Boolean, "true where an offset was found and applied").with_default("false"),
];

/// A header, or several for files of several loggers.
const COLUMN: Shape = Shape::Either(&HEADER, &Shape::NonEmpty(&HEADER, "no-header"));

const HEADER: Shape = Shape::Either(&TEXT, &Shape::Table(COLUMN_KEYS));

const COLUMN_KEYS: &[Key] = &[
    Key::required("header", TEXT, "header in the file"),
    Key::optional("unit", TEXT, "unit, where the file's header has none"),
    Key::optional("instrument", TEXT, "id of the instrument that read the column"),
];

const DELIMITER: Key =
    Key::optional("delimiter", Shape::Text(TextForm::Delimiter), "character between cells, or \"tab\"");
const DECIMAL: Key = Key::optional("decimal", Shape::Word(|| words(&files::DECIMALS)), "decimal sign");
const ENCODING: Key = Key::optional("encoding", Shape::Text(TextForm::Encoding), "encoding, by its WHATWG name");
const SKIP_LINES: Key = Key::optional("skip_lines", Shape::Integer(Range::NotNegative), "lines above the header");
const MISSING: Key = Key::optional("missing", Shape::List(&TEXT), "further words for \"no reading\"");

const LOGS: &[Key] = &[
    DELIMITER,
    DECIMAL,
    ENCODING,
    SKIP_LINES,
    MISSING,
    Key::optional(
        "trial_column",
        Shape::Either(&TEXT, &Shape::NonEmpty(&TEXT, "no-header")),
        "header of the column that holds the trial id, where a log holds several trials; or a list of headers",
    ),
    Key::optional(
        "clock_format",
        Shape::Text(TextForm::ClockFormat),
        "strptime pattern of the clock, such as \"%d.%m.%Y %H:%M\"",
    ),
    Key::optional(
        "time_zone",
        Shape::Text(TextForm::TimeZone),
        "IANA time zone of the clock, to follow it through a change of clocks",
    ),
    Key::optional(
        "date",
        Shape::Text(TextForm::Date),
        "day of the first reading, where neither log nor register states it",
    ),
];

const REGISTER: &[Key] = &[
    DELIMITER,
    DECIMAL,
    ENCODING,
    SKIP_LINES,
    MISSING,
    Key::optional(
        "columns",
        Shape::ByName(register_columns::names, &COLUMN),
        "headers of the register that are not the names of its columns",
    ),
];

const FILES: &[Key] = &[
    Key::optional("register", TEXT, "where the register lies, from this folder").with_default("\"trials.csv\""),
    Key::optional("logs_root", TEXT, "folder that the register's `log` is relative to; the register's own if absent"),
];

fn log_columns() -> Vec<&'static str> {
    ["elapsed", "clock"].into_iter().chain(Channel::ALL.map(Channel::name)).chain(["event", "note"]).collect()
}

fn measured_columns() -> Vec<&'static str> {
    let register = register_columns::COLUMNS.iter().filter(|c| c.measured).map(|c| c.name);
    Channel::ALL.into_iter().map(Channel::name).chain(register).collect()
}
