//! The columns of the register: the one list from which reading, checking, writing and the reference follow.

use crate::text::header::canonical;
use crate::{MoistureBasis, TrialKind};
use calefact_units::Kind;

/// A column of the register.
#[derive(Debug, Clone, Copy)]
pub struct RegisterColumn {
    /// Canonical name.
    pub name: &'static str,
    /// What its cells hold.
    pub cell: Cell,
    /// Whether every row must have it.
    pub required: bool,
    /// Whether an instrument of `dataset.toml` may be said to read it.
    pub measured: bool,
    /// Whether its cells belong to one trial alone, so that `[defaults]` cannot fill them.
    pub per_trial: bool,
    /// The only kind of trial that has it, where others leave it blank.
    pub only: Option<TrialKind>,
    /// Unit of its numbers where they serve as levels of a factor; `None` for words, and for what a trial results in.
    pub level_unit: Option<&'static str>,
    /// What it means.
    pub meaning: &'static str,
}

/// What the cells of a column hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cell {
    /// Words.
    Text,
    /// An id of an entry of `dataset.toml`.
    Id,
    /// A number; a cell without a unit is in the column's, else in SI.
    Number(Kind),
    /// A volume or a mass, never without a unit.
    Water,
}

/// Canonical columns, in the order in which they are written.
pub const COLUMNS: [RegisterColumn; 22] = [
    text("trial", "id of the trial, used once").required().per_trial(),
    text("kind", "`burn`, `standing-loss` (no fire, the vessel cools) or `reference-heater` (metered electric heat)")
        .required(),
    text("date", "day of the trial").per_trial(),
    text("block", "block of a blocked design, such as the day or the crew"),
    text("operator", "who made the trial"),
    text("log", "file of the log; the trial's id with `.csv` where blank"),
    id("stove", "the stove"),
    id("fuel", "the fuel; with a unit in the header it is `fuel_mass`").only(TrialKind::Burn),
    id("exchanger", "the exchanger"),
    id("vessel", "the vessel").required(),
    RegisterColumn { cell: Cell::Water, ..text("water", "volume or mass of the water in the vessel, with its unit") }
        .required()
        .measured()
        .level("L"),
    number("fuel_mass", Kind::Mass, "wood put on the fire in all, as fired, without the kindling")
        .measured()
        .level("kg")
        .only(TrialKind::Burn),
    number("kindling_mass", Kind::Mass, "kindling, as fired").measured().level("kg").only(TrialKind::Burn),
    number("fuel_moisture", Kind::Fraction, "moisture of the fuel").measured().level("%").only(TrialKind::Burn),
    text("moisture_basis", "`wet` (water over total mass) or `dry` (water over dry mass, as pin meters show)")
        .only(TrialKind::Burn),
    number("leftover_fuel", Kind::Mass, "unburnt wood taken back at the end").measured().only(TrialKind::Burn),
    number("leftover_char", Kind::Mass, "char taken back at the end").measured().only(TrialKind::Burn),
    number("heater_power", Kind::Power, "power of a reference heater, where the log has no `power`")
        .measured()
        .level("W")
        .only(TrialKind::ReferenceHeater),
    number("ambient", Kind::Temperature, "air temperature, where the log has no `ambient`").level("degC"),
    number("altitude", Kind::Length, "height above sea level, where it is not that of the site").level("m"),
    text("exclude", "a reason leaves the trial out of comparisons").per_trial(),
    text("note", "a remark").per_trial(),
];

/// The column of a name.
pub fn column(name: &str) -> Option<&'static RegisterColumn> {
    COLUMNS.iter().find(|c| c.name == name)
}

/// Names of all columns.
pub fn names() -> Vec<&'static str> {
    COLUMNS.iter().map(|c| c.name).collect()
}

/// Kinds of trial by their word in the register.
pub const TRIAL_KINDS: [(&str, TrialKind); 3] = [
    ("burn", TrialKind::Burn),
    ("standing-loss", TrialKind::StandingLoss),
    ("reference-heater", TrialKind::ReferenceHeater),
];

/// Bases of a moisture by their word in the register.
pub const MOISTURE_BASES: [(&str, MoistureBasis); 2] = [("wet", MoistureBasis::Wet), ("dry", MoistureBasis::Dry)];

/// The kind of trial of a word in the register.
pub(crate) fn kind(text: &str) -> Option<TrialKind> {
    let word = canonical(text).replace('_', "-");
    TRIAL_KINDS.iter().find(|(name, _)| *name == word).map(|(_, kind)| *kind)
}

const fn text(name: &'static str, meaning: &'static str) -> RegisterColumn {
    RegisterColumn {
        name,
        cell: Cell::Text,
        required: false,
        measured: false,
        per_trial: false,
        only: None,
        level_unit: None,
        meaning,
    }
}

const fn id(name: &'static str, meaning: &'static str) -> RegisterColumn {
    RegisterColumn { cell: Cell::Id, ..text(name, meaning) }
}

const fn number(name: &'static str, kind: Kind, meaning: &'static str) -> RegisterColumn {
    RegisterColumn { cell: Cell::Number(kind), ..text(name, meaning) }
}

impl RegisterColumn {
    const fn required(self) -> Self {
        Self { required: true, ..self }
    }

    const fn measured(self) -> Self {
        Self { measured: true, ..self }
    }

    const fn per_trial(self) -> Self {
        Self { per_trial: true, ..self }
    }

    const fn only(self, kind: TrialKind) -> Self {
        Self { only: Some(kind), ..self }
    }

    const fn level(self, unit: &'static str) -> Self {
        Self { level_unit: Some(unit), ..self }
    }

    /// Kind of its numbers; water counts as a volume. `None` for words.
    pub const fn kind(&self) -> Option<Kind> {
        match self.cell {
            Cell::Text | Cell::Id => None,
            Cell::Number(kind) => Some(kind),
            Cell::Water => Some(Kind::Volume),
        }
    }
}
