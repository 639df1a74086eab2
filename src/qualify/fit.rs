//! A sum of two exponentials fitted to a curve: `c + a exp(-t / tau_1) + b exp(-t / tau_2)`.
//!
//! For given time constants the rest is linear, so only these two are searched: first on a net, then by ever
//! smaller steps about the best pair.

/// What was fitted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoExponentials {
    /// Final value.
    pub last: f64,
    /// Weights of the two.
    pub weights: (f64, f64),
    /// Time constants, the shorter first [s].
    pub taus_s: (f64, f64),
    /// Root mean square of what is left.
    pub rms: f64,
}

impl TwoExponentials {
    /// The curve at a time.
    pub fn at(&self, t_s: f64) -> f64 {
        self.last
            + self.weights.0 * libm::exp(-t_s / self.taus_s.0)
            + self.weights.1 * libm::exp(-t_s / self.taus_s.1)
    }
}

/// Best straight-line weights for given time constants.
fn weights(points: &[(f64, f64)], taus_s: (f64, f64)) -> Option<TwoExponentials> {
    // Normal equations of three unknowns.
    let mut m = [[0.0; 4]; 3];
    for &(t, y) in points {
        let basis = [1.0, libm::exp(-t / taus_s.0), libm::exp(-t / taus_s.1)];
        for (row, b) in m.iter_mut().zip(basis) {
            for (cell, other) in row.iter_mut().zip(basis) {
                *cell += b * other;
            }
            row[3] += b * y;
        }
    }
    let x = solve(m)?;
    let mut fit = TwoExponentials { last: x[0], weights: (x[1], x[2]), taus_s, rms: 0.0 };
    let sum: f64 = points.iter().map(|&(t, y)| (fit.at(t) - y) * (fit.at(t) - y)).sum();
    fit.rms = (sum / points.len().max(1) as f64).sqrt();
    fit.rms.is_finite().then_some(fit)
}

/// Three equations by elimination with the largest pivot; nothing if they are not independent.
fn solve(mut m: [[f64; 4]; 3]) -> Option<[f64; 3]> {
    for i in 0..3 {
        let pivot = (i..3).max_by(|&a, &b| m[a][i].abs().total_cmp(&m[b][i].abs()))?;
        m.swap(i, pivot);
        if m[i][i].abs() < 1e-9 {
            return None;
        }
        for j in i + 1..3 {
            let (share, above) = (m[j][i] / m[i][i], m[i]);
            for (cell, of_pivot) in m[j].iter_mut().zip(above).skip(i) {
                *cell -= share * of_pivot;
            }
        }
    }
    let mut x = [0.0; 3];
    for i in (0..3).rev() {
        let known: f64 = (i + 1..3).map(|k| m[i][k] * x[k]).sum();
        x[i] = (m[i][3] - known) / m[i][i];
    }
    Some(x)
}

/// Fit points (time [s], value); nothing when there are too few of them. Neither time constant is shorter than the
/// time between two points nor longer than all of it: such an exponential would describe nothing that was seen.
pub fn two_exponentials(points: &[(f64, f64)]) -> Option<TwoExponentials> {
    if points.len() < 6 {
        return None;
    }
    let span = points[points.len() - 1].0 - points[0].0;
    let shortest = span / (points.len() - 1) as f64;
    let mut best: Option<TwoExponentials> = None;
    let mut consider = |taus: (f64, f64)| {
        if !(taus.0 >= shortest && taus.1 >= 1.05 * taus.0 && taus.1 <= span) {
            return best;
        }
        let Some(fit) = weights(points, taus) else { return best };
        if best.is_none_or(|b| fit.rms < b.rms) {
            best = Some(fit);
        }
        best
    };
    let net = |i: u32| shortest * libm::pow(1.4, f64::from(i));
    for i in 0..24 {
        for j in i + 1..24 {
            consider((net(i), net(j)));
        }
    }
    let mut step = 0.2;
    while step > 1e-3 {
        let from = consider((span / 100.0, span / 10.0))?;
        let (a, b) = from.taus_s;
        let mut found = from;
        for (da, db) in [(step, 0.0), (-step, 0.0), (0.0, step), (0.0, -step)] {
            found = consider((a * (1.0 + da), b * (1.0 + db)))?;
        }
        if found.rms >= from.rms {
            step *= 0.5;
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sum_of_two_exponentials_is_found_again() {
        let want = TwoExponentials { last: 3000.0, weights: (-1800.0, 700.0), taus_s: (7.0, 90.0), rms: 0.0 };
        let points: Vec<(f64, f64)> = (0..600).map(f64::from).map(|t| (t, want.at(t))).collect();
        let fit = two_exponentials(&points).unwrap();
        assert!(fit.rms < 3.0, "{fit:?}");
        assert!((fit.taus_s.0 - 7.0).abs() < 0.1 && (fit.taus_s.1 - 90.0).abs() < 1.0, "{fit:?}");
        assert!((fit.last - 3000.0).abs() < 3.0, "{fit:?}");
    }

    #[test]
    fn a_straight_line_leaves_something_and_no_points_give_nothing() {
        assert_eq!(two_exponentials(&[(0.0, 1.0); 3]), None);
        let steps: Vec<(f64, f64)> =
            (0..300).map(|i| (f64::from(i), if i / 30 % 2 == 0 { 1.0 } else { -1.0 })).collect();
        assert!(two_exponentials(&steps).unwrap().rms > 0.5);
        let _ = two_exponentials(&[(0.0, f64::NAN); 10]);
    }
}
