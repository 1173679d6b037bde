//! Values of a register that cannot be.

use super::one;

#[test]
fn moisture_that_leaves_no_wood() {
    insta::assert_snapshot!(one(",fuel_moisture [%],moisture_basis", ",100,wet"), @r"
    0 kept
    error out-of-range: trials.csv line 2 column 6, trial b1
      `fuel_moisture` is 100 % on wet basis, which leaves no wood
      done: trial left out
      hint: water over total mass is below 100 %; if it is over dry mass, as pin meters show, write `dry`
    ");
    insta::assert_snapshot!(one(",fuel_moisture [%],moisture_basis", ",420,dry"), @r"
    0 kept
    error out-of-range: trials.csv line 2 column 6, trial b1
      `fuel_moisture` is 420 %, more water than wood can hold (400 % of its dry mass)
      done: trial left out
      hint: correct the number or its unit
    ");
    // Green wood of some kinds holds more water than dry matter; the unit may stand in the cell.
    assert_eq!(one(",fuel_moisture [%],moisture_basis", ",120,dry"), "1 kept");
    assert_eq!(one(",fuel_moisture,moisture_basis", ",120 %,dry"), "1 kept");
}

#[test]
fn water_beyond_any_vessel() {
    let water = |cell: &str| super::rendered(&format!("trial,kind,log,vessel,water\nb1,burn,a.csv,barrel,{cell}\n"));
    insta::assert_snapshot!(water("160000 L"), @r"
    0 kept
    error out-of-range: trials.csv line 2 column 5, trial b1
      `water` is 160 m3, more than 100 m3
      done: trial left out
      hint: correct the number or its unit
    ");
    insta::assert_snapshot!(water("1e9 kg"), @r"
    0 kept
    error out-of-range: trials.csv line 2 column 5, trial b1
      `water` is 1.00e9 kg, more than 100 t
      done: trial left out
      hint: correct the number or its unit
    ");
    insta::assert_snapshot!(water("-5 L"), @r"
    0 kept
    error not-positive: trials.csv line 2 column 5, trial b1
      `water` must be more than nothing, not -5 L
      done: trial left out
      hint: correct the cell
    ");
    insta::assert_snapshot!(water("--"), @r"
    0 kept
    error blank-cell: trials.csv line 2 column 5, trial b1
      `water` has no number: --
      done: trial left out
      hint: fill the cell
    ");
    assert_eq!(water("100 m3"), "1 kept");
}

#[test]
fn more_wood_left_than_put_on() {
    let header = ",fuel_mass [kg],kindling_mass [kg],leftover_fuel [kg]";
    insta::assert_snapshot!(one(header, ",5.6,0.3,6"), @r"
    0 kept
    error leftover-above-fuel: trials.csv line 2 column 8, trial b1
      `leftover_fuel` is 6 kg, but 5.9 kg were put on the fire
      done: trial left out
      hint: correct it, or `fuel_mass` and `kindling_mass`; burnt wood goes under `leftover_char`
    ");
    assert_eq!(one(header, ",5.6,0.3,5.9"), "1 kept");
    assert_eq!(one(header, ",,,5.9"), "1 kept");
}

#[test]
fn places_and_air_where_nobody_burns_wood() {
    insta::assert_snapshot!(one(",altitude [ft],ambient", ",40000,283"), @r"
    0 kept
    error out-of-range: trials.csv line 2 column 7, trial b1
      `ambient` is 283 degC, outside -60 to 60 degC
      done: trial left out
      hint: correct the number or its unit
    error out-of-range: trials.csv line 2 column 6, trial b1
      `altitude` is 12192 m, outside -430 to 9000 m
      done: trial left out
      hint: correct the number or its unit
    ");
    assert_eq!(one(",altitude [m],ambient [degF]", ",-430,140"), "1 kept");
}

#[test]
fn nothing_weighs_less_than_nothing() {
    insta::assert_snapshot!(one(",kindling_mass,leftover_char,heater_power [kW]", ",-1,-2,-3"), @r"
    0 kept
    error negative: trials.csv line 2 column 6, trial b1
      `kindling_mass` is negative: -1
      done: trial left out
      hint: correct the sign
    error negative: trials.csv line 2 column 7, trial b1
      `leftover_char` is negative: -2
      done: trial left out
      hint: correct the sign
    error negative: trials.csv line 2 column 8, trial b1
      `heater_power` is negative: -3
      done: trial left out
      hint: correct the sign
    ");
}
