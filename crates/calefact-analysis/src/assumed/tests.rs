//! Ranges of single inputs.

use super::*;
use crate::test_support::row;
use calefact_data::{Assume, Origin, TrialKind};
use std::sync::Arc;

fn assuming(assume: Assume) -> RegisterRow {
    let origin = Arc::new(Origin { title: "yard".into(), assume });
    RegisterRow { origin, ambient: None, ..row(TrialKind::Burn) }
}

#[test]
fn a_range_of_the_dataset_wins_and_nothing_switches_all_off() {
    let apparatus = Apparatus::default();
    let find = |row: &RegisterRow| limits(AssumedInput::LeftoverFuel, row, &apparatus);
    assert_eq!(find(&assuming(Assume::default())), Some(table::LEFTOVER_FUEL));
    let own = Assume { ranges: [("leftover_fuel".into(), (0.0, 0.02))].into(), nothing: false };
    assert_eq!(find(&assuming(own)), Some((0.0, 0.02)));
    let off = assuming(Assume { nothing: true, ..Assume::default() });
    assert_eq!(find(&off), None);
    assert_eq!(air(&off, &Readings::default(), 10.0), None);
}

#[test]
fn words_narrow_the_moisture() {
    let find = |name: &str, column: &str| {
        let fuel = Fuel { name: name.into(), ..Fuel::default() };
        let apparatus = Apparatus { fuels: [("wood".into(), fuel)].into(), ..Apparatus::default() };
        let extra = [("state".into(), column.into())].into();
        let row = RegisterRow { extra, ..assuming(Assume::default()) };
        limits(AssumedInput::FuelMoisture, &row, &apparatus).expect("a range")
    };
    assert_eq!(find("Pine", ""), (0.12, 0.30));
    assert_eq!(find("Pine, kiln-dried", ""), (0.08, 0.15));
    assert_eq!(find("Pine", "Seasoned two years"), (0.15, 0.25));
    assert_eq!(find("Unseasoned pine", ""), (0.12, 0.30), "a part of a word is no word");
    assert_eq!(find("fresh", "seasoned"), (0.15, 0.55), "two words: what both allow");
}

/// 20 % is 16.7 % or 20 % on the wet basis; 150 % can only be dry basis.
#[test]
fn a_moisture_without_basis_is_either_reading() {
    let (low, high) = both_bases(0.2);
    assert!((low - 1.0 / 6.0).abs() < 1e-12 && (high - 0.2).abs() < 1e-12);
    assert_eq!(both_bases(1.5), (0.6, 0.6));
}

#[test]
fn air_goes_with_a_cold_start_and_not_with_a_warm_one() {
    let row = assuming(Assume::default());
    let air = |start| air(&row, &Readings::default(), start);
    assert_eq!(air(10.0), Some((-5.0, 30.0)));
    assert_eq!(air(28.0), Some((13.0, 45.0)), "never above 45 degC");
    assert_eq!(air(60.0), Some((-15.0, 35.0)));
    let known = RegisterRow { ambient: Some(15.0), ..row.clone() };
    assert_eq!(super::air(&known, &Readings::default(), 10.0), None);
}

#[test]
fn trials_share_what_they_would_share_in_life() {
    let one = assuming(Assume::default());
    let other = RegisterRow { trial: "t2".into(), stove: Some("rocket".into()), ..one.clone() };
    let same = |input| owner::source(input, &one) == owner::source(input, &other);
    assert!(
        same(AssumedInput::FuelMoisture) && same(AssumedInput::KindlingMass) && same(AssumedInput::LossCoefficient)
    );
    assert!(!same(AssumedInput::LeftoverChar) && !same(AssumedInput::LeftoverFuel));
    let source = owner::source(AssumedInput::LeftoverChar, &one);
    assert_eq!(&*source, "assumed:leftover_char:box, wood, coil");
}

#[test]
fn an_assumed_value_is_no_condition_of_the_trial() {
    let readings = Readings {
        elapsed_s: vec![0.0, 1800.0, 3600.0],
        channels: [(calefact_data::Channel::Tank, vec![15.0, 30.0, 45.0])].into(),
        flags: vec![0; 3],
        ..Readings::default()
    };
    let (settings, apparatus) = (crate::Settings::default(), Apparatus::default());
    let losses = crate::pool_losses(&[], &apparatus, &settings);
    let reducer = crate::Reducer::new(&settings, &apparatus, &losses);
    let conditions = |row: &RegisterRow| {
        let found = reducer.reduce(row, &readings, Vec::new()).conditions;
        (found.start_temperature, found.air_temperature, found.fuel_moisture)
    };
    let recorded = row(TrialKind::Burn);
    assert_eq!(conditions(&recorded), (Some(15.0), Some(15.0), Some(0.2)));
    let bare = RegisterRow { ambient: None, fuel_moisture: None, moisture_basis: None, ..recorded };
    assert_eq!(conditions(&bare), (Some(15.0), None, None));
}
