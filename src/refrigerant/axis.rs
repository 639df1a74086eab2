//! A coordinate axis with knots at any spacing, and a fast way to the cell that holds a value.
//!
//! Knots stand where the properties bend: far apart at low pressure, close together near the critical point.
//! A list of equal buckets points at the first cell worth looking at, so a look-up costs one multiplication
//! and a few comparisons.

use super::error::TableError;

const BUCKETS: usize = 1024;

/// Knots in rising order with a bucket index over them.
#[derive(Debug, Clone)]
pub(super) struct Axis {
    knots: Vec<f64>,
    inverse_width: Vec<f64>,
    bucket: Vec<u16>,
    inverse_bucket: f64,
}

/// The place of a value on an axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Place {
    /// The cell, counted from 0.
    pub cell: usize,
    /// Position inside the cell, 0 at its lower and 1 at its upper knot.
    pub t: f64,
    /// Width of the cell.
    pub width: f64,
    /// One over the width.
    pub inverse_width: f64,
}

impl Axis {
    /// An axis over `knots`, which must be finite and rise strictly; 2 to 60000 of them.
    pub fn new(knots: Vec<f64>) -> Result<Self, TableError> {
        let bad = |problem| TableError::Malformed { part: "an axis", problem };
        if knots.len() < 2 || knots.len() > 60_000 {
            return Err(bad("has too few or too many knots"));
        }
        if !knots.iter().all(|k| k.is_finite()) || !knots.windows(2).all(|w| w[1] > w[0]) {
            return Err(bad("does not rise"));
        }
        let inverse_width: Vec<f64> = knots.windows(2).map(|w| 1.0 / (w[1] - w[0])).collect();
        let (first, last) = (knots[0], knots[knots.len() - 1]);
        let bucket_width = (last - first) / BUCKETS as f64;
        let mut bucket = Vec::with_capacity(BUCKETS);
        let mut cell = 0;
        for b in 0..BUCKETS {
            // One bucket width early: rounding in `place` can then never start past the right cell.
            let start = first + (b as f64 - 1.0) * bucket_width;
            while cell + 2 < knots.len() && knots[cell + 1] <= start {
                cell += 1;
            }
            bucket.push(cell as u16);
        }
        Ok(Self { knots, inverse_width, bucket, inverse_bucket: 1.0 / bucket_width })
    }

    #[inline]
    pub fn len(&self) -> usize {
        self.knots.len()
    }

    #[inline]
    pub fn first(&self) -> f64 {
        self.knots[0]
    }

    #[inline]
    pub fn last(&self) -> f64 {
        self.knots[self.knots.len() - 1]
    }

    #[inline]
    pub fn knots(&self) -> &[f64] {
        &self.knots
    }

    /// The cell that holds `value`; outside the axis, the end cell (then `t` is below 0 or above 1).
    #[inline(always)]
    pub fn place(&self, value: f64) -> Place {
        // By way of u16, which a processor converts to in one step; it saturates, as it should.
        let b = usize::from(((value - self.knots[0]) * self.inverse_bucket) as u16).min(BUCKETS - 1);
        let mut cell = self.bucket[b] as usize;
        // The first step without a branch: it is taken about every other time, which no processor can guess.
        cell += usize::from(cell + 2 < self.knots.len() && value >= self.knots[cell + 1]);
        while cell + 2 < self.knots.len() && value >= self.knots[cell + 1] {
            cell += 1;
        }
        let inverse_width = self.inverse_width[cell];
        let from = self.knots[cell];
        Place { cell, t: (value - from) * inverse_width, width: self.knots[cell + 1] - from, inverse_width }
    }
}

/// Follows `value` between `low` and `high`; beyond them it bends, with a continuous slope, and never goes
/// further than `low - low_margin` or `high + high_margin`. Returns the bent value and its slope.
#[inline(always)]
pub(super) fn soft_clamp(value: f64, low: f64, low_margin: f64, high: f64, high_margin: f64) -> (f64, f64) {
    if value > high {
        let s = 1.0 / (1.0 + (value - high) / high_margin);
        (high + high_margin * (1.0 - s), s * s)
    } else if value < low {
        let s = 1.0 / (1.0 + (low - value) / low_margin);
        (low - low_margin * (1.0 - s), s * s)
    } else {
        (value, 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_value_finds_its_cell() {
        let knots: Vec<f64> = (0..60).map(|i| 3.0 - 1.0 / (1.0 + 0.2 * f64::from(i))).collect();
        let axis = Axis::new(knots.clone()).unwrap();
        for i in 0..20_000 {
            let value = 1.9 + 1.2 * f64::from(i) / 20_000.0;
            let place = axis.place(value);
            assert!(place.cell == 0 || value >= knots[place.cell]);
            assert!(place.cell + 2 == knots.len() || value < knots[place.cell + 1]);
        }
        for (i, &k) in knots.iter().enumerate().take(knots.len() - 1) {
            assert_eq!((axis.place(k).cell, axis.place(k).t), (i, 0.0));
        }
    }

    #[test]
    fn soft_clamp_stays_inside_with_the_slope_it_reports() {
        for value in [-1e300, -50.0, -1.3, -0.2, 0.5, 1.01, 2.0, 80.0, 1e300] {
            let (y, slope) = soft_clamp(value, 0.0, 0.25, 1.0, 0.1);
            assert!((-0.25..=1.1).contains(&y));
            if value.abs() < 100.0 {
                let at = |v| soft_clamp(v, 0.0, 0.25, 1.0, 0.1).0;
                assert!(((at(value + 1e-6) - at(value - 1e-6)) / 2e-6 - slope).abs() < 1e-7);
            }
        }
    }
}
