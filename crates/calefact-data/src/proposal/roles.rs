//! Roles of the columns of a log: by their headers first, then by their cells.

use super::facts::{ColumnProposal, Reason, Role, UnitReason};
use super::head::{Head, is_time};
use super::keywords::{self, CLOCK, ELAPSED, EVENT, LOG, NOTE, TRIAL, word_of};
use crate::Channel;
use crate::text::header::{canonical, split_unit};
use calefact_units::{Kind, Unit};

/// A rise of the tank from which its steadiness tells, K.
const RISE_K: f64 = 5.0;
/// Water is not hotter, degC; a probe may read a little high.
const HOTTEST_WATER: f64 = 115.0;

/// The columns of a table in their order.
pub(super) fn columns(head: &Head, us: bool) -> Vec<ColumnProposal> {
    let mut columns: Vec<ColumnProposal> = Vec::new();
    for index in 0..head.headers.len() {
        let column = column(head, index, us, &columns);
        columns.push(column);
    }
    settle_times(&mut columns);
    find_tank(head, us, &mut columns);
    columns
}

fn column(head: &Head, index: usize, us: bool, before: &[ColumnProposal]) -> ColumnProposal {
    let header = &head.headers[index];
    let words = keywords::words(header);
    let free = |role: Role| before.iter().all(|c| c.role != role);
    let (role, reason) = named(header)
        .filter(|(role, _)| free(*role))
        .or_else(|| time(head, index, &words))
        .or_else(|| text(head, index, &words))
        .or_else(|| channel(head, index, us, &words).filter(|(role, _)| free(*role)))
        .unwrap_or((Role::Unused, Reason::Nothing));
    let (unit, unit_reason) = unit(head, index, role, us);
    let name = canonical(split_unit(header).0);
    // The reader takes `time` for the clock by its cells.
    let is_named = role.column() == Some(name.as_str()) || name == "time" && role == Role::Clock;
    let in_row = || head.units.get(index).is_some_and(|u| !u.is_empty());
    let reads_unit = split_unit(header).1.is_some() || in_row() || head.cell_unit(index).is_some();
    let mapped = role.column().is_some() && !(is_named && (reads_unit || unit.is_none()));
    ColumnProposal { header: header.clone(), role, reason, unit, unit_reason, mapped }
}

/// The role that a header names as this program does.
fn named(header: &str) -> Option<(Role, Reason)> {
    let role = match canonical(split_unit(header).0).as_str() {
        "elapsed" => Role::Elapsed,
        "clock" => Role::Clock,
        "trial" => Role::Trial,
        "event" => Role::Event,
        "note" => Role::Note,
        name => Role::Channel(Channel::from_name(name)?),
    };
    Some((role, Reason::Name))
}

/// A time by its cells, or by its header where they are numbers.
fn time(head: &Head, index: usize, words: &[String]) -> Option<(Role, Reason)> {
    let cells: Vec<&str> = head.cells(index).collect();
    let elapsed = word_of(words, ELAPSED);
    let clock = word_of(words, CLOCK);
    if !cells.is_empty() && cells.iter().all(|cell| is_time(cell)) {
        let from_zero = cells[0].starts_with("0:") || cells[0].starts_with("00:00");
        let role = match (cells.iter().any(|c| c.contains(':')), elapsed.is_some() || from_zero && clock.is_none()) {
            (true, true) => Role::Elapsed,
            (true, false) => Role::Clock,
            (false, _) => Role::Date,
        };
        return Some((role, elapsed.or(clock).map_or(Reason::Times, Reason::Word)));
    }
    let numbers = head.numbers(index);
    // Where a log holds several trials, its times begin anew.
    let rising = numbers.windows(2).filter(|w| w[0] <= w[1]).count();
    let is_whole = numbers.len() == cells.len() && numbers.len() > 1 && numbers.iter().all(|t| *t >= 0.0);
    let is_first_time = is_whole && 2 * rising >= numbers.len() - 1 && !words.iter().any(|w| w.starts_with("temp"));
    let word = elapsed.or(clock).filter(|_| is_first_time)?;
    // A word such as `t` or `s` tells only of a header that is no more than that, or states a unit of time.
    let is_time = word.len() > 1 || words.len() == 1 || head.unit(index, &[Kind::Time]).is_some();
    is_time.then_some((Role::Elapsed, Reason::Word(word)))
}

/// Words that are not numbers, and ids of trials.
fn text(head: &Head, index: usize, words: &[String]) -> Option<(Role, Reason)> {
    if let Some(word) = word_of(words, TRIAL) {
        return Some((Role::Trial, Reason::Word(word)));
    }
    if head.numbers(index).len() > head.cells(index).count() / 2 {
        return None;
    }
    let event = word_of(words, EVENT).map(|word| (Role::Event, Reason::Word(word)));
    event.or_else(|| word_of(words, NOTE).map(|word| (Role::Note, Reason::Word(word))))
}

/// The first channel that the words of a header speak of and whose range holds the numbers.
fn channel(head: &Head, index: usize, us: bool, words: &[String]) -> Option<(Role, Reason)> {
    let numbers = head.numbers(index);
    if numbers.is_empty() {
        return None;
    }
    let fits = |channel: Channel| {
        let stated = head.unit(index, &kinds(channel));
        let unit = stated.or(unit(head, index, Role::Channel(channel), us).0.and_then(|u| parse(channel, u)));
        let unit = unit.unwrap_or(Unit::si(channel.kind()));
        let possible = |v: &&f64| channel.limit().possible.contains(&unit.to_si(**v));
        5 * numbers.iter().filter(possible).count() >= 4 * numbers.len()
    };
    let found = keywords::fitting(words, LOG).find(|(channel, _)| fits(**channel));
    found.map(|(channel, word)| (Role::Channel(*channel), Reason::Word(word)))
}

/// Kinds of unit that a channel is measured in.
fn kinds(channel: Channel) -> Vec<Kind> {
    let volume = (channel == Channel::Flow).then_some(Kind::VolumeFlow);
    volume.into_iter().chain([channel.kind()]).collect()
}

fn parse(channel: Channel, symbol: &str) -> Option<Unit> {
    kinds(channel).into_iter().find_map(|kind| Unit::parse(symbol, kind).ok())
}

/// The unit that `dataset.toml` states for a column, and where it is from.
fn unit(head: &Head, index: usize, role: Role, us: bool) -> (Option<&'static str>, UnitReason) {
    match role {
        Role::Elapsed => elapsed_unit(head, index),
        Role::Channel(channel) => {
            if let Some(unit) = head.unit(index, &kinds(channel)) {
                return (Some(unit.symbol), UnitReason::Stated);
            }
            let hottest = head.numbers(index).into_iter().fold(f64::NEG_INFINITY, f64::max);
            match channel.kind() {
                Kind::Temperature if us => (Some("degF"), UnitReason::Preference),
                Kind::Temperature if channel == Channel::Tank && hottest > HOTTEST_WATER => {
                    (Some("degF"), UnitReason::Values)
                }
                Kind::Mass if us => (Some("lb"), UnitReason::Preference),
                Kind::Temperature => (Some("degC"), UnitReason::Nothing),
                Kind::Mass => (Some("kg"), UnitReason::Nothing),
                Kind::Power => (Some("W"), UnitReason::Nothing),
                Kind::Fraction => (Some("%"), UnitReason::Nothing),
                _ => (Some(channel.usual_unit()), UnitReason::Nothing),
            }
        }
        _ => (None, UnitReason::NotNeeded),
    }
}

/// Readings that a person takes by hand are minutes apart; more rows than this are a logger's.
const BY_HAND: usize = 60;
/// Longest burn in minutes whose readings are taken by hand.
const LONGEST_MIN: f64 = 900.0;

fn elapsed_unit(head: &Head, index: usize) -> (Option<&'static str>, UnitReason) {
    if head.cells(index).any(|cell| cell.contains(':')) {
        let parts = head.cells(index).map(|cell| cell.matches(':').count()).max().unwrap_or(0);
        return if parts > 1 { (Some("h:mm:ss"), UnitReason::Stated) } else { (Some("h:mm"), UnitReason::Steps) };
    }
    let name = keywords::words(&head.headers[index]);
    let by_word = [("min", "min"), ("sec", "s"), ("hour", "h"), ("hrs", "h"), ("stunden", "h"), ("sekunden", "s")];
    if let Some(unit) = head.unit(index, &[Kind::Time]) {
        return (Some(unit.symbol), UnitReason::Stated);
    }
    let word = by_word.iter().find(|(start, _)| name.iter().any(|word| word.starts_with(start)));
    if let Some((_, unit)) = word {
        return (Some(*unit), UnitReason::Stated);
    }
    let numbers = head.numbers(index);
    let last = numbers.last().copied().unwrap_or(0.0);
    let by_hand = numbers.len() <= BY_HAND && last <= LONGEST_MIN;
    (Some(if by_hand { "min" } else { "s" }), UnitReason::Steps)
}

/// A time since the start goes before a clock, and a second time of one form is not used. A clock beside `elapsed` stays, to check it.
fn settle_times(columns: &mut [ColumnProposal]) {
    for role in [Role::Elapsed, Role::Clock, Role::Date, Role::Trial, Role::Event, Role::Note] {
        let again = columns.iter_mut().filter(|c| c.role == role).skip(1);
        again.for_each(|c| {
            (c.role, c.reason, c.mapped) = (Role::Unused, Reason::Nothing, false);
            (c.unit, c.unit_reason) = (None, UnitReason::NotNeeded);
        });
    }
}

/// The tank where no header names it: the only temperature left, or the one that rises most steadily below boiling.
fn find_tank(head: &Head, us: bool, columns: &mut [ColumnProposal]) {
    let tank = Role::Channel(Channel::Tank);
    if columns.iter().any(|c| c.role == tank) {
        return;
    }
    let (unused, mut candidates): (Vec<usize>, Vec<(usize, f64, Reason)>) =
        ((0..columns.len()).filter(|i| columns[*i].role == Role::Unused).collect(), Vec::new());
    for index in unused {
        let (Some(symbol), _) = unit(head, index, tank, us) else { continue };
        let Some(unit) = parse(Channel::Tank, symbol) else { continue };
        let values: Vec<f64> = head.numbers(index).iter().map(|v| unit.to_si(*v)).collect();
        candidates.extend(steadiness(&values).map(|(steady, reason)| (index, steady, reason)));
    }
    let only = candidates.len() == 1;
    let best = candidates.into_iter().max_by(|a, b| a.1.total_cmp(&b.1));
    let Some((index, steady, reason)) = best else { return };
    if !only && steady < 0.5 {
        return;
    }
    let (symbol, unit_reason) = unit(head, index, tank, us);
    let column = &mut columns[index];
    (column.role, column.unit, column.unit_reason, column.mapped) = (tank, symbol, unit_reason, true);
    column.reason = if only && steady < 0.5 { Reason::OnlyTemperature } else { reason };
}

/// Share of steps that do not fall, of numbers that can be those of water; none for others.
fn steadiness(values: &[f64]) -> Option<(f64, Reason)> {
    let (first, last) = (*values.first()?, *values.last()?);
    let is_water = values.len() > 1 && values.iter().all(|v| (-2.0..=HOTTEST_WATER).contains(v));
    let rising = values.windows(2).filter(|w| w[1] >= w[0]).count() as f64 / (values.len() - 1).max(1) as f64;
    let steady = if last - first > RISE_K { rising } else { 0.0 };
    is_water.then_some((steady, Reason::Rises(first, last)))
}
