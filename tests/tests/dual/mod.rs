//! Numbers that carry their derivatives by up to nine parameters: exact Jacobians of formulas as they are printed.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// Value and gradient.
#[derive(Clone, Copy)]
pub(crate) struct Dual {
    pub(crate) v: f64,
    pub(crate) d: [f64; 9],
}

impl Dual {
    /// A constant.
    pub(crate) fn constant(v: f64) -> Self {
        Self { v, d: [0.0; 9] }
    }

    /// Parameter `j` at value `v`.
    pub(crate) fn parameter(v: f64, j: usize) -> Self {
        let mut d = [0.0; 9];
        d[j] = 1.0;
        Self { v, d }
    }

    fn chain(self, v: f64, slope: f64) -> Self {
        Self { v, d: self.d.map(|d| d * slope) }
    }

    pub(crate) fn exp(self) -> Self {
        self.chain(self.v.exp(), self.v.exp())
    }

    pub(crate) fn ln(self) -> Self {
        self.chain(self.v.ln(), 1.0 / self.v)
    }

    pub(crate) fn atan(self) -> Self {
        self.chain(self.v.atan(), 1.0 / (1.0 + self.v * self.v))
    }

    pub(crate) fn sin(self) -> Self {
        self.chain(self.v.sin(), self.v.cos())
    }

    pub(crate) fn cos(self) -> Self {
        self.chain(self.v.cos(), -self.v.sin())
    }

    pub(crate) fn pow(self, exponent: impl Into<Self>) -> Self {
        (exponent.into() * self.ln()).exp()
    }

    pub(crate) fn square(self) -> Self {
        self * self
    }

    fn with(self, other: Self, v: f64, f: impl Fn(f64, f64) -> f64) -> Self {
        let mut d = self.d;
        d.iter_mut().zip(other.d).for_each(|(a, b)| *a = f(*a, b));
        Self { v, d }
    }
}

impl From<f64> for Dual {
    fn from(v: f64) -> Self {
        Self::constant(v)
    }
}

fn sum(a: Dual, b: Dual) -> Dual {
    a.with(b, a.v + b.v, |da, db| da + db)
}

fn difference(a: Dual, b: Dual) -> Dual {
    a.with(b, a.v - b.v, |da, db| da - db)
}

fn product(a: Dual, b: Dual) -> Dual {
    a.with(b, a.v * b.v, |da, db| da * b.v + a.v * db)
}

fn quotient(a: Dual, b: Dual) -> Dual {
    a.with(b, a.v / b.v, |da, db| (da - db * a.v / b.v) / b.v)
}

macro_rules! operator {
    ($name:ident, $method:ident, $rule:ident) => {
        impl<T: Into<Dual>> $name<T> for Dual {
            type Output = Dual;
            fn $method(self, other: T) -> Dual {
                $rule(self, other.into())
            }
        }
        impl $name<Dual> for f64 {
            type Output = Dual;
            fn $method(self, other: Dual) -> Dual {
                $rule(Dual::constant(self), other)
            }
        }
    };
}

operator!(Add, add, sum);
operator!(Sub, sub, difference);
operator!(Mul, mul, product);
operator!(Div, div, quotient);

impl Neg for Dual {
    type Output = Dual;
    fn neg(self) -> Dual {
        self.chain(-self.v, -1.0)
    }
}
