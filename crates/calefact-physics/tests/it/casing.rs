//! Loss of a warm wall against textbook examples.

use crate::assert_near;
use calefact_physics::casing::{Surface, casing_loss};

const ATMOSPHERE: f64 = 101_325.0;
const WALL: Surface = Surface { height: 0.5, area: 0.4, emissivity: 0.9 };

/// Incropera & DeWitt, example 9.2 (from memory): glass fire screen 0.71 m high, 1.02 m wide, 232 degC, room 23 degC,
/// heat by convection 1060 W, by radiation at emissivity 1.0 2355 W; the book reads its air properties at 400 K from
/// its table.
#[test]
fn incropera_fire_screen() {
    let screen = Surface { height: 0.71, area: 0.71 * 1.02, emissivity: 1.0 };
    let loss = casing_loss(&screen, 232.0, 23.0, ATMOSPHERE).unwrap();
    assert_near(loss.convection, 1060.0, 0.02 * 1060.0);
    assert_near(loss.radiation, 2355.0, 0.005 * 2355.0);
    assert_near(loss.total(), loss.convection + loss.radiation, 1e-9);
}

/// Stefan and Boltzmann: a black square metre at 100 degC radiates 1099.4 W to surroundings at 0 K more than at 0 degC,
/// 315.7 W less (5.670374e-8 times 373.15^4 and 273.15^4).
#[test]
fn radiation_of_a_black_wall() {
    let wall = Surface { height: 1.0, area: 1.0, emissivity: 1.0 };
    assert_near(casing_loss(&wall, 100.0, 0.0, ATMOSPHERE).unwrap().radiation, 1099.4 - 315.7, 0.1);
}

#[test]
fn loss_changes_sign_with_the_difference() {
    let loss = |hot, room| casing_loss(&WALL, hot, room, ATMOSPHERE).unwrap();
    assert_near(loss(20.0, 20.0).total(), 0.0, 0.0);
    assert_near(loss(20.0, 60.0).convection, -loss(60.0, 20.0).convection, 1e-9);
    assert_near(loss(20.0, 60.0).radiation, -loss(60.0, 20.0).radiation, 1e-9);
}

/// Churchill and Chu: the root of the Nusselt number is 0.825 plus a term in Ra^(1/6), so that the root of convection
/// times height is linear in the root of the height (Ra goes with the height cubed), and the root of convection is
/// linear in the cube root of the pressure (Ra goes with the density squared).
#[test]
fn convection_scales_with_height_and_pressure_as_the_correlation_says() {
    let convection = |height: f64, pressure: f64| {
        casing_loss(&Surface { height, ..WALL }, 60.0, 20.0, pressure).map(|loss| loss.convection).unwrap()
    };
    let [low, middle, high] = [0.25_f64, 1.0, 2.25].map(|h| (convection(h, ATMOSPHERE) * h).sqrt());
    assert_near(middle - low, high - middle, 1e-9 * high);
    // What is left at no height: 0.825 squared times conductivity, area and difference, 0.0269 W/(m K) at 40 degC
    // (US Standard Atmosphere 1976, table 2.7e-2).
    let still = (2.0 * low - middle).powi(2);
    assert_near(still, 0.825_f64.powi(2) * 0.0270 * WALL.area * 40.0, 0.01 * still);
    let [low, middle, high] = [1.0_f64, 2.0, 3.0].map(|p| convection(1.0, 30_000.0 * p.powi(3) / 8.0).sqrt());
    assert_near(middle - low, high - middle, 1e-9 * high);
}

/// Ra goes with the difference at one mean temperature: the root of convection over the difference is linear in its
/// sixth root.
#[test]
fn convection_scales_with_the_difference_as_the_correlation_says() {
    let root = |sixth_root: f64| {
        let half = sixth_root.powi(6) / 2.0;
        (casing_loss(&WALL, 60.0 + half, 60.0 - half, ATMOSPHERE).unwrap().convection / half).sqrt()
    };
    assert_near(root(1.5) - root(1.0), root(2.0) - root(1.5), 1e-9 * root(2.0));
}

#[test]
fn impossible_walls_are_refused() {
    let refused = |wall: Surface, hot, room, pressure| casing_loss(&wall, hot, room, pressure).is_err();
    assert!(refused(Surface { emissivity: 1.2, ..WALL }, 60.0, 20.0, ATMOSPHERE));
    assert!(refused(Surface { area: 0.0, ..WALL }, 60.0, 20.0, ATMOSPHERE));
    assert!(refused(Surface { height: -1.0, ..WALL }, 60.0, 20.0, ATMOSPHERE));
    assert!(refused(WALL, 60.0, 20.0, 0.0));
    assert!(refused(WALL, 601.0, 20.0, ATMOSPHERE) && !refused(WALL, 600.0, 20.0, ATMOSPHERE));
    assert!(refused(WALL, 60.0, -41.0, ATMOSPHERE) && !refused(WALL, 60.0, -40.0, ATMOSPHERE));
}
