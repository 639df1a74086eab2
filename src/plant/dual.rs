//! Forward dual numbers: a value with its exact partial derivatives, so that every flow law is written
//! once and the Newton solver gets its Jacobian without a second formula to keep in step.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// A value and its partial derivatives by `N` local unknowns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dual<const N: usize> {
    /// The value.
    pub v: f64,
    /// Partial derivatives.
    pub d: [f64; N],
}

/// Value by one volume's own unknowns: ln p and h.
pub type D2 = Dual<2>;
/// Value by one volume's own unknowns with its air: ln p, h and air.
pub type D3 = Dual<3>;
/// Value by the unknowns of a link's two ends: ln p and h of the first, then of the second.
pub type D4 = Dual<4>;

impl<const N: usize> Dual<N> {
    /// A constant.
    pub const fn constant(v: f64) -> Self {
        Self { v, d: [0.0; N] }
    }
    /// Apply a function given its value and slope here.
    #[inline]
    pub fn chain(self, value: f64, slope: f64) -> Self {
        let mut d = self.d;
        for x in &mut d {
            *x *= slope;
        }
        Self { v: value, d }
    }
    /// Square root.
    #[inline]
    pub fn sqrt(self) -> Self {
        let r = self.v.sqrt();
        self.chain(r, 0.5 / r)
    }
    /// Reciprocal.
    #[inline]
    pub fn recip(self) -> Self {
        let r = 1.0 / self.v;
        self.chain(r, -r * r)
    }
    /// Square.
    #[inline]
    pub fn square(self) -> Self {
        self.chain(self.v * self.v, 2.0 * self.v)
    }
    /// This or zero, whichever is larger.
    #[inline]
    pub fn positive(self) -> Self {
        if self.v > 0.0 { self } else { Self::constant(0.0) }
    }
    /// Smooth maximum of this and zero, rounded over `width`.
    #[inline]
    pub fn soft_positive(self, width: f64) -> Self {
        let root = (self.v * self.v + width * width).sqrt();
        self.chain(0.5 * (self.v + root), 0.5 * (1.0 + self.v / root))
    }
}

impl D2 {
    /// See this volume as the first end of a link.
    #[inline]
    pub fn first(self) -> D4 {
        D4 { v: self.v, d: [self.d[0], self.d[1], 0.0, 0.0] }
    }
    /// See this volume as the second end of a link.
    #[inline]
    pub fn second(self) -> D4 {
        D4 { v: self.v, d: [0.0, 0.0, self.d[0], self.d[1]] }
    }
}

impl Dual<6> {
    /// The part by both ends' unknowns; the last two slots are slopes by the ends' total pressures alone.
    #[inline]
    pub fn pair(self) -> D4 {
        D4 { v: self.v, d: [self.d[0], self.d[1], self.d[2], self.d[3]] }
    }
}

impl D4 {
    /// Room for slopes by the two total pressures; `slot` 4 or 5 gets a one.
    #[inline]
    pub fn with_pressure(self, slot: Option<usize>) -> Dual<6> {
        let mut d = [self.d[0], self.d[1], self.d[2], self.d[3], 0.0, 0.0];
        if let Some(slot) = slot {
            d[slot] = 1.0;
        }
        Dual { v: self.v, d }
    }
}

impl<const N: usize> Add for Dual<N> {
    type Output = Self;
    #[inline]
    fn add(self, o: Self) -> Self {
        let mut d = self.d;
        for (a, b) in d.iter_mut().zip(o.d) {
            *a += b;
        }
        Self { v: self.v + o.v, d }
    }
}

impl<const N: usize> Sub for Dual<N> {
    type Output = Self;
    #[inline]
    fn sub(self, o: Self) -> Self {
        let mut d = self.d;
        for (a, b) in d.iter_mut().zip(o.d) {
            *a -= b;
        }
        Self { v: self.v - o.v, d }
    }
}

impl<const N: usize> Mul for Dual<N> {
    type Output = Self;
    #[inline]
    fn mul(self, o: Self) -> Self {
        let mut d = self.d;
        for (a, b) in d.iter_mut().zip(o.d) {
            *a = *a * o.v + self.v * b;
        }
        Self { v: self.v * o.v, d }
    }
}

impl<const N: usize> Div for Dual<N> {
    type Output = Self;
    #[inline]
    fn div(self, o: Self) -> Self {
        let r = 1.0 / o.v;
        let v = self.v * r;
        let mut d = self.d;
        for (a, b) in d.iter_mut().zip(o.d) {
            *a = (*a - v * b) * r;
        }
        Self { v, d }
    }
}

impl<const N: usize> Neg for Dual<N> {
    type Output = Self;
    #[inline]
    fn neg(self) -> Self {
        self.chain(-self.v, -1.0)
    }
}

impl<const N: usize> Add<f64> for Dual<N> {
    type Output = Self;
    #[inline]
    fn add(self, o: f64) -> Self {
        Self { v: self.v + o, d: self.d }
    }
}

impl<const N: usize> Sub<f64> for Dual<N> {
    type Output = Self;
    #[inline]
    fn sub(self, o: f64) -> Self {
        Self { v: self.v - o, d: self.d }
    }
}

impl<const N: usize> Mul<f64> for Dual<N> {
    type Output = Self;
    #[inline]
    fn mul(self, o: f64) -> Self {
        self.chain(self.v * o, o)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn product_quotient_and_root_agree_with_differences() {
        let f = |x: f64, y: f64| (x * y + 2.0) / (x * x + y).sqrt();
        let dual = |x: f64, y: f64| {
            let x = D2 { v: x, d: [1.0, 0.0] };
            let y = D2 { v: y, d: [0.0, 1.0] };
            (x * y + 2.0) / (x.square() + y).sqrt()
        };
        let (x, y, e) = (1.3, 0.7, 1e-6);
        let got = dual(x, y);
        assert!((got.v - f(x, y)).abs() < 1e-14);
        assert!((got.d[0] - (f(x + e, y) - f(x - e, y)) / (2.0 * e)).abs() < 1e-8);
        assert!((got.d[1] - (f(x, y + e) - f(x, y - e)) / (2.0 * e)).abs() < 1e-8);
    }
}
