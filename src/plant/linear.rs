//! Dense linear solve for the Newton step: LU with partial pivoting that skips zeros. The loop's matrix
//! is a band with a few corners, so most multipliers are zero and the skip pays more than a sparse format.

/// Solves `a x = b` in place; `a` is row-major `n` by `n`, `b` becomes `x`. False when singular.
pub fn solve(a: &mut [f64], b: &mut [f64], n: usize) -> bool {
    for k in 0..n {
        let (mut pivot, mut best) = (k, a[k * n + k].abs());
        for i in k + 1..n {
            let size = a[i * n + k].abs();
            if size > best {
                (pivot, best) = (i, size);
            }
        }
        // Not-a-number fails this comparison as well.
        if !(best > 1e-300) {
            return false;
        }
        if pivot != k {
            for j in k..n {
                a.swap(k * n + j, pivot * n + j);
            }
            b.swap(k, pivot);
        }
        let inverse = 1.0 / a[k * n + k];
        let (top, rest) = a.split_at_mut((k + 1) * n);
        let row = &top[k * n + k + 1..k * n + n];
        for i in k + 1..n {
            let line = &mut rest[(i - k - 1) * n..(i - k) * n];
            if line[k] == 0.0 {
                continue;
            }
            let factor = line[k] * inverse;
            for (x, y) in line[k + 1..].iter_mut().zip(row) {
                *x -= factor * y;
            }
            b[i] -= factor * b[k];
        }
    }
    for k in (0..n).rev() {
        let mut sum = b[k];
        for j in k + 1..n {
            sum -= a[k * n + j] * b[j];
        }
        b[k] = sum / a[k * n + k];
    }
    true
}

#[cfg(test)]
mod tests {
    use super::solve;

    #[test]
    fn solves_a_system_that_needs_pivoting() {
        let mut a = vec![0.0, 2.0, 1.0, 1.0, 1.0, 0.0, 3.0, 0.0, 1.0];
        let mut b = vec![7.0, 3.0, 6.0];
        assert!(solve(&mut a, &mut b, 3));
        for (got, want) in b.iter().zip([1.0, 2.0, 3.0]) {
            assert!((got - want).abs() < 1e-12, "{b:?}");
        }
    }

    #[test]
    fn says_so_when_singular() {
        assert!(!solve(&mut [1.0, 2.0, 2.0, 4.0], &mut [1.0, 2.0], 2));
    }
}
