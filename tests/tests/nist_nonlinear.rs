//! NIST Statistical Reference Datasets, nonlinear regression: all 27 sets, each from both of its starting points.

mod dual;
mod reference_table;

use calefact_stats::nonlinear::{CurveFit, CurveModel, fit};
use dual::Dual;
use reference_table::{Row, number, table};
use std::f64::consts::PI;

type Formula = fn(&[Dual], &[f64]) -> Dual;

struct Set {
    formula: Formula,
    parameters: usize,
    x: Vec<Vec<f64>>,
}

impl Set {
    fn evaluate(&self, p: &[f64], x: &[f64]) -> Dual {
        let b: Vec<Dual> = p.iter().enumerate().map(|(j, v)| Dual::parameter(*v, j)).collect();
        (self.formula)(&b, x)
    }
}

impl CurveModel for Set {
    fn parameters(&self) -> usize {
        self.parameters
    }

    fn predict(&self, p: &[f64], out: &mut [f64]) {
        out.iter_mut().zip(&self.x).for_each(|(y, x)| *y = self.evaluate(p, x).v);
    }

    fn jacobian(&self, p: &[f64], out: &mut [f64]) {
        for (row, x) in out.chunks_exact_mut(self.parameters).zip(&self.x) {
            row.copy_from_slice(&self.evaluate(p, x).d[..self.parameters]);
        }
    }
}

/// The models as NIST prints them; b[0] is b1.
fn formula(name: &str) -> Formula {
    match name {
        "Misra1a" | "BoxBOD" => |b, x| b[0] * (1.0 - (-b[1] * x[0]).exp()),
        "Misra1b" => |b, x| b[0] * (1.0 - 1.0 / (1.0 + b[1] * x[0] / 2.0).square()),
        "Misra1c" => |b, x| b[0] * (1.0 - (1.0 + 2.0 * b[1] * x[0]).pow(-0.5)),
        "Misra1d" => |b, x| b[0] * b[1] * x[0] / (1.0 + b[1] * x[0]),
        "Chwirut1" | "Chwirut2" => |b, x| (-b[0] * x[0]).exp() / (b[1] + b[2] * x[0]),
        "DanWood" => |b, x| b[0] * Dual::constant(x[0]).pow(b[1]),
        "MGH09" => |b, x| b[0] * (x[0] * x[0] + b[1] * x[0]) / (x[0] * x[0] + b[2] * x[0] + b[3]),
        "MGH10" => |b, x| b[0] * (b[1] / (x[0] + b[2])).exp(),
        "MGH17" => |b, x| b[0] + b[1] * (-b[3] * x[0]).exp() + b[2] * (-b[4] * x[0]).exp(),
        "Rat42" => |b, x| b[0] / (1.0 + (b[1] - b[2] * x[0]).exp()),
        "Rat43" => |b, x| b[0] / (1.0 + (b[1] - b[2] * x[0]).exp()).pow(1.0 / b[3]),
        "Roszman1" => |b, x| b[0] - b[1] * x[0] - (b[2] / (x[0] - b[3])).atan() / PI,
        "Eckerle4" => |b, x| b[0] / b[1] * (-0.5 * ((x[0] - b[2]) / b[1]).square()).exp(),
        "Bennett5" => |b, x| b[0] * (b[1] + x[0]).pow(-1.0 / b[2]),
        "Nelson" => |b, x| b[0] - b[1] * x[0] * (-b[2] * x[1]).exp(),
        "Kirby2" => |b, x| polynomial(&b[..3], x[0]) / (1.0 + polynomial(&b[3..], x[0]) * x[0]),
        "Thurber" | "Hahn1" => |b, x| polynomial(&b[..4], x[0]) / (1.0 + polynomial(&b[4..], x[0]) * x[0]),
        "ENSO" => enso,
        name if name.starts_with("Lanczos") => {
            |b, x| decay(&b[..2], x[0]) + decay(&b[2..4], x[0]) + decay(&b[4..], x[0])
        }
        name if name.starts_with("Gauss") => |b, x| decay(&b[..2], x[0]) + bell(&b[2..5], x[0]) + bell(&b[5..8], x[0]),
        _ => panic!("no model for {name}"),
    }
}

fn polynomial(b: &[Dual], x: f64) -> Dual {
    b.iter().rev().fold(Dual::constant(0.0), |sum, c| sum * x + *c)
}

fn decay(b: &[Dual], x: f64) -> Dual {
    b[0] * (-b[1] * x).exp()
}

fn bell(b: &[Dual], x: f64) -> Dual {
    b[0] * (-((x - b[1]) / b[2]).square()).exp()
}

fn enso(b: &[Dual], x: &[f64]) -> Dual {
    let wave = |period: Dual, cos: Dual, sin: Dual| {
        let angle = 2.0 * PI * x[0] / period;
        cos * angle.cos() + sin * angle.sin()
    };
    let year = wave(Dual::constant(12.0), b[1], b[2]);
    b[0] + year + wave(b[3], b[4], b[5]) + wave(b[6], b[7], b[8])
}

fn read(name: &str, parameters: usize) -> (Set, Vec<f64>) {
    let rows = table(&format!("nist_nls/{name}.csv")).unwrap_or_default();
    let names: Vec<&String> = rows[0].keys().filter(|k| *k != "y").collect();
    let x = rows.iter().map(|r| names.iter().map(|c| number(r, c)).collect()).collect();
    let y = rows.iter().map(|r| number(r, "y")).map(|y| if name == "Nelson" { y.ln() } else { y }).collect();
    (Set { formula: formula(name), parameters, x }, y)
}

/// Correct digits of the worst parameter and of the worst standard deviation, 11 at most as NIST prints so many.
fn digits(fit: &CurveFit, certified: &[&Row]) -> (f64, f64) {
    let lre = |got: f64, want: f64| -((got / want - 1.0).abs().max(1e-11)).log10();
    let worst = |got: &[f64], column: &str| {
        got.iter().zip(certified).map(|(g, row)| lre(*g, number(row, column))).fold(11.0, f64::min)
    };
    (worst(&fit.parameters, "mpmath_value"), worst(&fit.std_uncertainties(), "mpmath_sd"))
}

/// Digits asked of a set. Lanczos1 fits its data to rounding, so its deviations mean little in double precision.
fn asked(name: &str) -> (f64, f64) {
    match name {
        "Lanczos1" => (9.5, 2.5),
        _ => (9.5, 9.5),
    }
}

#[test]
fn certified_values_from_both_starts() {
    let certified = table("nist_nls/certified.csv").unwrap_or_default();
    let mut failures = Vec::new();
    for summary in table("nist_nls/summary.csv").unwrap_or_default() {
        let name = summary["dataset"].as_str();
        let rows: Vec<&Row> = certified.iter().filter(|r| r["dataset"] == name).collect();
        let (set, y) = read(name, rows.len());
        for column in ["start1", "start2"] {
            let start: Vec<f64> = rows.iter().map(|r| number(r, column)).collect();
            let outcome = fit(&set, &y, &[start]);
            let line = match outcome {
                Ok(fit) => {
                    let (p, u) = digits(&fit, &rows);
                    let rss = (fit.rss / number(&summary, "mpmath_rss") - 1.0).abs();
                    let enough = p >= asked(name).0 && u >= asked(name).1 && (rss < 1e-9 || name == "Lanczos1");
                    let line = format!(
                        "{name} {column}: {p:.1} digits, sd {u:.1}, rss off {rss:.0e}, {} evaluations",
                        fit.evaluations
                    );
                    println!("{line}");
                    (!enough).then_some(line)
                }
                Err(e) => Some(format!("{name} {column}: {e}")),
            };
            failures.extend(line);
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}
