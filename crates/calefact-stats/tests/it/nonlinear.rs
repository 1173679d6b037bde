//! Two NIST sets typed in, and a rise like a vessel being heated; the other NIST sets are checked beside the reference data.

use calefact_stats::fit_error::FitError;
use calefact_stats::nonlinear::{CurveModel, fit, spread};

/// y = b1 (1 - exp(-b2 x)).
struct Rise(Vec<f64>);

impl CurveModel for Rise {
    fn parameters(&self) -> usize {
        2
    }

    fn predict(&self, p: &[f64], out: &mut [f64]) {
        out.iter_mut().zip(&self.0).for_each(|(y, x)| *y = -p[0] * (-p[1] * x).exp_m1());
    }

    fn jacobian(&self, p: &[f64], out: &mut [f64]) {
        for (row, x) in out.chunks_exact_mut(2).zip(&self.0) {
            row[0] = -(-p[1] * x).exp_m1();
            row[1] = p[0] * x * (-p[1] * x).exp();
        }
    }
}

/// y = y0 + a (1 - exp(-b t)).
struct Heating(Rise);

impl CurveModel for Heating {
    fn parameters(&self) -> usize {
        3
    }

    fn predict(&self, p: &[f64], out: &mut [f64]) {
        self.0.predict(&p[1..], out);
        for y in out.iter_mut() {
            *y += p[0];
        }
    }

    fn jacobian(&self, p: &[f64], out: &mut [f64]) {
        for (row, x) in out.chunks_exact_mut(3).zip(&self.0.0) {
            row.copy_from_slice(&[1.0, -(-p[2] * x).exp_m1(), p[1] * x * (-p[2] * x).exp()]);
        }
    }
}

#[track_caller]
fn close(got: f64, want: f64, rel: f64) {
    assert!((got - want).abs() <= rel * want.abs(), "got {got:e}, want {want:e}");
}

fn boxbod() -> (Rise, [f64; 6]) {
    (Rise(vec![1.0, 2.0, 3.0, 5.0, 7.0, 10.0]), [109.0, 149.0, 149.0, 191.0, 213.0, 224.0])
}

/// NIST StRD Misra1a, certified: b1 238.94212918 (2.7070075241), b2 5.5015643181e-4 (7.2668688436e-6), s 0.10187876330.
#[test]
fn misra1a_from_both_starts() {
    let x = [77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0];
    let y = [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78];
    for start in [[500.0, 1e-4], [250.0, 5e-4]] {
        let fit = fit(&Rise(x.to_vec()), &y, &[start.to_vec()]).expect("fits");
        close(fit.parameters[0], 238.942_129_18, 1e-9);
        close(fit.parameters[1], 5.501_564_318_1e-4, 1e-9);
        close(fit.std_uncertainties()[0], 2.707_007_524_1, 1e-10);
        close(fit.std_uncertainties()[1], 7.266_868_843_6e-6, 1e-10);
        close(fit.residual_sd, 0.101_878_763_30, 1e-9);
    }
}

/// Plain searches end NIST StRD BoxBOD's first start at (172.5, 110.9), where the exponential has died and only the mean is
/// fitted. Begun there, the search has nothing to go by and says so.
#[test]
fn boxbod_begun_where_the_exponential_is_dead_is_refused() {
    let (model, y) = boxbod();
    for start in [[172.5, 110.9], [170.0, 60.0], [1.0, 40.0]] {
        assert_eq!(fit(&model, &y, &[start.to_vec()]), Err(FitError::Saturated { parameter: 1 }));
    }
}

/// Certified: b1 213.80940889 (12.354515176), b2 0.54723748542 (0.10455993237), rss 1168.0088766.
#[test]
fn boxbod_is_found_from_either_start() {
    let (model, y) = boxbod();
    for guess in [[1.0, 1.0], [100.0, 0.75]] {
        let alone = fit(&model, &y, &[guess.to_vec()]).expect("fits");
        let fit = fit(&model, &y, &spread(&guess, &[0.1, 10.0, 100.0])).expect("fits");
        close(alone.rss, fit.rss, 1e-12);
        close(fit.parameters[0], 213.809_408_89, 1e-10);
        close(fit.parameters[1], 0.547_237_485_42, 1e-10);
        close(fit.std_uncertainties()[0], 12.354_515_176, 1e-10);
        close(fit.std_uncertainties()[1], 0.104_559_932_37, 1e-10);
        close(fit.rss, 1_168.008_876_6, 1e-9);
        assert!(fit.agreeing_starts >= 2);
    }
}

/// Computed to 40 digits elsewhere for these thirteen invented points: y0 20.0150, a 74.9520, b 0.00250240; the initial
/// slope a b is 0.187560099863 with 0.0015357947 by the full covariance, and 0.0017176779 if the covariance is ignored.
#[test]
fn an_initial_slope_uses_the_covariance() {
    let t: Vec<f64> = (0..13).map(|i| f64::from(i) * 100.0).collect();
    let y = [20.12, 36.34, 49.59, 59.87, 67.24, 73.46, 78.49, 81.66, 84.99, 87.12, 88.64];
    let rest = [90.47, 91.11];
    let y: Vec<f64> = y.into_iter().chain(rest).collect();
    let fit = fit(&Heating(Rise(t)), &y, &[vec![20.0, 60.0, 0.001]]).expect("fits");
    let (a, b) = (fit.parameters[1], fit.parameters[2]);
    close(a * b, 0.187_560_099_863_456_8, 1e-10);
    close(fit.derived_uncertainty(&[0.0, b, a]), 0.001_535_794_701_583_169_5, 1e-8);
    close(fit.derived_uncertainty(&[1.0, 1.0, 0.0]), 0.209_270_613_504_898_44, 1e-8);
}

/// Two amplitudes of one exponential cannot be told apart.
#[test]
fn twin_parameters_are_refused() {
    struct Twins(Rise);
    impl CurveModel for Twins {
        fn parameters(&self) -> usize {
            2
        }

        fn predict(&self, p: &[f64], out: &mut [f64]) {
            self.0.predict(&[p[0] + p[1], 0.5], out);
        }

        fn jacobian(&self, _: &[f64], out: &mut [f64]) {
            for (row, x) in out.chunks_exact_mut(2).zip(&self.0.0) {
                row.fill(-(-0.5 * x).exp_m1());
            }
        }
    }
    let (model, y) = boxbod();
    let got = fit(&Twins(model), &y, &[vec![100.0, 50.0]]);
    assert_eq!(got, Err(FitError::RankDeficient { rank: 1, parameters: 2 }));
}

#[test]
fn unusable_data_are_refused() {
    let (model, mut y) = boxbod();
    assert_eq!(fit(&model, &y[..1], &[vec![1.0, 1.0]]), Err(FitError::TooFew { observations: 1, parameters: 2 }));
    y[2] = f64::NAN;
    assert_eq!(fit(&model, &y, &[vec![1.0, 1.0]]), Err(FitError::NotUsable("an observation")));
}
