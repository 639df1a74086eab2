//! What a row expects, whether a value meets it, and both as text.

use serde::Serialize;

/// What is expected of a value; every number in the unit of the row.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Expected {
    /// A value, give or take.
    Value {
        /// The value.
        value: f64,
        /// How far off it may be.
        tolerance: f64,
    },
    /// From one value to another.
    Band {
        /// Lowest.
        low: f64,
        /// Highest.
        high: f64,
    },
    /// This or more.
    AtLeast(f64),
    /// This or less.
    AtMost(f64),
    /// More than this: the sign of a trend.
    MoreThan(f64),
    /// Nothing: the value is reported.
    Nothing,
}

impl Expected {
    /// A value with a tolerance as a share of it.
    pub fn share(value: f64, share: f64) -> Self {
        Self::Value { value, tolerance: share * value.abs() }
    }
    /// Does a value meet it? What is not a number meets nothing.
    pub fn holds(self, got: f64) -> bool {
        let (low, high) = self.limits();
        match self {
            Self::MoreThan(limit) => got > limit && got.is_finite(),
            _ => got >= low && got <= high && got.is_finite(),
        }
    }
    /// Lowest and highest; infinite where it is open.
    pub fn limits(self) -> (f64, f64) {
        match self {
            Self::Value { value, tolerance } => (value - tolerance, value + tolerance),
            Self::Band { low, high } => (low, high),
            Self::AtLeast(low) | Self::MoreThan(low) => (low, f64::INFINITY),
            Self::AtMost(high) => (f64::NEG_INFINITY, high),
            Self::Nothing => (f64::NEG_INFINITY, f64::INFINITY),
        }
    }
    /// The smallest step worth printing.
    pub(super) fn step(self, got: Option<f64>) -> f64 {
        match self {
            Self::Value { tolerance, .. } => tolerance / 10.0,
            Self::Band { low, high } => (high - low) / 50.0,
            Self::AtLeast(x) | Self::AtMost(x) | Self::MoreThan(x) => match got {
                Some(got) if got.is_finite() => x.abs().max(got.abs()) / 200.0,
                _ => x.abs(),
            },
            Self::Nothing => got.filter(|got| got.is_finite()).map_or(0.0, |got| got.abs() / 200.0),
        }
    }
    /// As text, without the unit.
    pub fn text(self, got: Option<f64>) -> String {
        let n = |x: f64| if x == 0.0 { "0".to_owned() } else { number(x, self.step(got)) };
        match self {
            Self::Value { value, tolerance } => {
                format!("{} ± {}", n(value), number(tolerance, tolerance / 10.0))
            }
            Self::Band { low, high } if low == high => n(low),
            Self::Band { low, high } => format!("{} to {}", n(low), n(high)),
            Self::AtLeast(x) => format!("at least {}", n(x)),
            Self::AtMost(x) => format!("at most {}", n(x)),
            Self::MoreThan(x) => format!("more than {}", n(x)),
            Self::Nothing => "reported only".to_owned(),
        }
    }
}

/// A number with as many decimals as `step` needs; the very small and the very large in powers of ten.
pub fn number(value: f64, step: f64) -> String {
    if !value.is_finite() {
        return "no number".to_owned();
    }
    let size = value.abs();
    if value != 0.0 && !(1e-4..1e7).contains(&size) {
        return format!("{value:.1e}");
    }
    let decimals =
        if step > 0.0 { libm::ceil(-libm::log10(step) - 0.01).clamp(0.0, 7.0) as usize } else { 3 };
    let text = format!("{value:.decimals$}");
    // No lonely minus sign before a zero.
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|b| b == b'0' || b == b'.') => rest.to_owned(),
        _ => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bounds_and_signs_hold_where_they_should() {
        assert!(Expected::AtMost(1.0).holds(1.0) && !Expected::AtMost(1.0).holds(1.1));
        assert!(Expected::Band { low: 1.0, high: 2.0 }.holds(2.0));
        assert!(!Expected::MoreThan(0.0).holds(0.0) && Expected::MoreThan(0.0).holds(1e-9));
    }

    #[test]
    fn numbers_read_well() {
        assert_eq!((number(-0.0001, 0.01), number(2.5e-13, 1.0)), ("0.00".to_owned(), "2.5e-13".to_owned()));
        assert_eq!(number(0.00123, 0.0001), "0.0012");
        let none = Expected::Band { low: 0.0, high: 0.0 };
        assert_eq!(
            (none.text(Some(0.0)), Expected::MoreThan(0.0).text(Some(2.3))),
            ("0".to_owned(), "more than 0".to_owned())
        );
        assert_eq!(Expected::Value { value: 5.6, tolerance: 0.1 }.text(None), "5.60 ± 0.10");
    }
}
