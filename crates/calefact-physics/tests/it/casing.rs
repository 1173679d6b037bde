//! Casing loss, tube sizes and caution figures.

use calefact_physics::casing::{Shape, Surface, casing_loss, nusselt};
use calefact_physics::{caution, tube};

#[track_caller]
fn near(actual: f64, expected: f64, tolerance: f64) {
    assert!((actual - expected).abs() <= tolerance, "{actual} is not {expected} within {tolerance}");
}

/// `ht.conv_free_immersed` of the library ht 1.2.0: `Nu_vertical_plate_Churchill`, `Nu_horizontal_cylinder_Churchill_Chu`.
#[test]
fn nusselt_numbers() {
    let (plate, drum) = (Shape::VerticalPlate { height: 1.0 }, Shape::HorizontalCylinder { diameter: 1.0 });
    for (prandtl, rayleigh, upright, level) in [
        (0.7, 1e5, 9.198_488_134_386_638, 7.764_131_735_076_143),
        (0.7, 1e9, 122.615_057_663_336_07, 115.529_365_683_976_93),
        (0.69, 5e10, 419.179_396_761_219_44, 402.277_828_197_070_5),
    ] {
        near(nusselt(plate, rayleigh, prandtl).unwrap(), upright, 1e-10 * upright);
        near(nusselt(drum, rayleigh, prandtl).unwrap(), level, 1e-10 * level);
    }
    assert!(nusselt(plate, 2e12, 0.7).is_err());
}

/// Incropera & DeWitt, example 9.2 (from memory): glass fire screen 0.71 m high, 1.02 m wide, 232 degC, room 23 degC,
/// heat by convection 1060 W; the book reads its air properties at 400 K from its table.
#[test]
fn incropera_fire_screen() {
    let screen = Surface { shape: Shape::VerticalPlate { height: 0.71 }, area: 0.71 * 1.02, emissivity: 1.0 };
    let loss = casing_loss(&screen, 232.0, 23.0, 101_325.0).unwrap();
    near(loss.convection, 1060.0, 0.02 * 1060.0);
    // The book: 2355 W by radiation at emissivity 1.0.
    near(loss.radiation, 2355.0, 0.005 * 2355.0);
    near(loss.total(), loss.convection + loss.radiation, 1e-9);
}

/// Incropera & DeWitt, example 9.4 (from memory): level steam pipe 0.1 m, 165 degC, room 23 degC, emissivity 0.85:
/// 763 W/m.
#[test]
fn incropera_steam_pipe() {
    let pipe = Surface {
        shape: Shape::HorizontalCylinder { diameter: 0.1 },
        area: std::f64::consts::PI * 0.1,
        emissivity: 0.85,
    };
    near(casing_loss(&pipe, 165.0, 23.0, 101_325.0).unwrap().total(), 763.0, 0.01 * 763.0);
}

#[test]
fn loss_changes_sign_with_the_difference_and_refuses_nonsense() {
    let wall = Surface { shape: Shape::VerticalPlate { height: 0.5 }, area: 0.4, emissivity: 0.9 };
    let loss = |hot, room| casing_loss(&wall, hot, room, 101_325.0);
    near(loss(20.0, 20.0).unwrap().total(), 0.0, 0.0);
    near(loss(20.0, 60.0).unwrap().total(), -loss(60.0, 20.0).unwrap().total(), 1e-9);
    assert!(casing_loss(&Surface { emissivity: 1.2, ..wall }, 60.0, 20.0, 101_325.0).is_err());
    assert!(casing_loss(&Surface { area: 0.0, ..wall }, 60.0, 20.0, 101_325.0).is_err());
    assert!(loss(900.0, 20.0).is_err());
}

/// ASTM B88 (from memory): the outside diameter is nominal plus 1/8 inch; inside diameters in inches.
#[test]
fn copper_tube_sizes() {
    for (nominal, outside, inside_l, inside_m) in [
        ("3/8", 0.500, 0.430, 0.450),
        ("1/2", 0.625, 0.545, 0.569),
        ("3/4", 0.875, 0.785, 0.811),
        ("1", 1.125, 1.025, 1.055),
    ] {
        let size = tube::size(nominal).unwrap();
        near(size.outside / 0.0254, outside, 1e-12);
        near(size.inside(tube::Wall::L) / 0.0254, inside_l, 1e-12);
        near(size.inside(tube::Wall::M) / 0.0254, inside_m, 1e-12);
    }
    assert!(tube::size("5/8").is_none());
}

/// The same limits as their sources print them, in degF.
#[test]
fn caution_figures_in_fahrenheit() {
    let f = |c: f64| c * 1.8 + 32.0;
    for (c, printed) in [
        (caution::CREOSOTE_FLUE_GAS, 250.0),
        (caution::SOLDERED_JOINT_SERVICE, 250.0),
        (caution::TUB_LIMIT, 104.0),
        (caution::SCALD_SLOW, 120.0),
        (caution::SCALD_FAST, 140.0),
        (caution::LEGIONELLA_STORE, 140.0),
    ] {
        near(f(c), printed, 1e-9);
    }
}
