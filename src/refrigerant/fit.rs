//! A polynomial of a logarithm over temperature and density, how transport properties are kept.

use super::error::TableError;

/// Bounds of ln(value / unit). Fluids stay well inside; far outside its states a polynomial does not.
const LN_BOUNDS: [f64; 2] = [-3.0, 12.0];

/// ln(value / unit) as a sum of c[i][j] * x^i * y^j over i + j <= degree; x and y are temperature and density stretched
/// to -1..1 over their spans. Outside the spans the nearest edge holds, so a value is always finite and positive.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "tables", derive(serde::Deserialize))]
pub(super) struct Fit {
    pub unit: f64,
    pub t_span_k: [f64; 2],
    pub rho_span_kg_m3: [f64; 2],
    pub ln_value: Vec<Vec<f64>>,
}

impl Fit {
    /// The value at `t` (K) and `rho` (kg/m3), in SI units.
    pub fn at(&self, t: f64, rho: f64) -> f64 {
        let (x, y) = (stretch(t, self.t_span_k), stretch(rho, self.rho_span_kg_m3));
        let mut sum = 0.0;
        for row in self.ln_value.iter().rev() {
            sum = sum * x + horner(row, y);
        }
        self.unit * libm::exp(sum.clamp(LN_BOUNDS[0], LN_BOUNDS[1]))
    }

    /// Whether the spans rise and there is a coefficient to every power.
    pub fn check(&self) -> Result<(), TableError> {
        let rises = |span: [f64; 2]| span[1] > span[0];
        let count = self.ln_value.len();
        let full = self.ln_value.iter().enumerate().all(|(i, row)| row.len() == count - i);
        if self.unit > 0.0 && rises(self.t_span_k) && rises(self.rho_span_kg_m3) && count > 0 && full {
            Ok(())
        } else {
            Err(TableError::Malformed { part: "a transport fit", problem: "is not complete" })
        }
    }
}

/// `value` on a scale where the span goes from -1 to 1, and no further.
pub(super) fn stretch(value: f64, span: [f64; 2]) -> f64 {
    ((2.0 * value - span[0] - span[1]) / (span[1] - span[0])).clamp(-1.0, 1.0)
}

/// A polynomial, its constant first.
pub(super) fn horner(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fit_is_the_exponential_of_its_polynomial() {
        let fit = Fit {
            unit: 1e-6,
            t_span_k: [200.0, 400.0],
            rho_span_kg_m3: [0.0, 1000.0],
            ln_value: vec![vec![0.1, 0.2, 0.3], vec![0.4, 0.5], vec![0.6]],
        };
        fit.check().unwrap();
        let (x, y) = (0.5, -0.2);
        let sum = 0.1 + 0.2 * y + 0.3 * y * y + x * (0.4 + 0.5 * y) + 0.6 * x * x;
        assert!((fit.at(350.0, 400.0) / (1e-6 * libm::exp(sum)) - 1.0).abs() < 1e-14);
        // Beyond the spans the edge holds.
        assert_eq!(fit.at(900.0, -5.0), fit.at(400.0, 0.0));
        let short = Fit { ln_value: vec![vec![1.0, 2.0], vec![]], ..fit };
        assert!(short.check().is_err());
    }
}
