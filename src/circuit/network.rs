//! A network of resistances solved by nodal analysis.

/// One end of a branch: a node by number, or ground (battery minus).
pub type End = Option<usize>;

/// Leakage from every node to ground [S]; a node cut off from everything reads about 0 V instead of
/// leaving the equations without a solution. Ten megohm would be a meter's own load; this is lighter.
pub const LEAKAGE_S: f64 = 1e-9;
/// Largest conductance of a branch [S], so a resistance of zero does no harm.
const MOST_S: f64 = 1e5;

/// A resistance between two ends.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Branch {
    from: End,
    to: End,
    siemens: f64,
}

/// Name of a branch inside its network.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BranchId(usize);

/// Nodes joined by resistances and fed by voltage sources that have an inner resistance.
#[derive(Clone, Debug, PartialEq)]
pub struct Network {
    nodes: usize,
    branches: Vec<Branch>,
    injected_a: Vec<f64>,
}

fn conductance(ohm: f64) -> f64 {
    if ohm.is_nan() { 0.0 } else { (1.0 / ohm.max(0.0)).min(MOST_S) }
}

impl Network {
    /// A network of so many nodes and no branches.
    pub fn new(nodes: usize) -> Self {
        Self { nodes, branches: Vec::with_capacity(2 * nodes), injected_a: vec![0.0; nodes] }
    }
    /// Join two ends by a resistance [ohm]. Zero or negative counts as a very good joint, NaN as none;
    /// ends that do not exist are left in the air.
    pub fn join(&mut self, from: End, to: End, ohm: f64) -> BranchId {
        let exists = |end: End| end.is_none_or(|n| n < self.nodes);
        let siemens = if exists(from) && exists(to) { conductance(ohm) } else { 0.0 };
        self.branches.push(Branch { from, to, siemens });
        BranchId(self.branches.len() - 1)
    }
    /// Feed a node from ground with a voltage [V] behind an inner resistance [ohm].
    pub fn feed(&mut self, node: usize, volts: f64, inner_ohm: f64) -> BranchId {
        let id = self.join(None, Some(node), inner_ohm);
        if let Some(into) = self.injected_a.get_mut(node)
            && volts.is_finite()
        {
            *into += volts * conductance(inner_ohm);
        }
        id
    }
    /// Volts of every node against ground; all zero should the equations have no solution.
    pub fn solve(&self) -> Vec<f64> {
        let (n, wide) = (self.nodes, self.nodes + 1);
        let mut m = vec![0.0; n * wide];
        for i in 0..n {
            m[i * wide + i] = LEAKAGE_S;
            m[i * wide + n] = self.injected_a[i];
        }
        for b in &self.branches {
            if b.siemens == 0.0 {
                continue;
            }
            for end in [b.from, b.to].into_iter().flatten() {
                m[end * wide + end] += b.siemens;
            }
            if let (Some(i), Some(k)) = (b.from, b.to) {
                m[i * wide + k] -= b.siemens;
                m[k * wide + i] -= b.siemens;
            }
        }
        eliminate(&mut m, n).unwrap_or_else(|| vec![0.0; n])
    }
    /// Current through a branch [A], positive from its first end to its second. For a feed this is the
    /// current of the inner resistance alone, not of the source.
    pub fn current(&self, id: BranchId, volts: &[f64]) -> f64 {
        let at = |end: End| end.and_then(|n| volts.get(n)).copied().unwrap_or(0.0);
        self.branches.get(id.0).map_or(0.0, |b| (at(b.from) - at(b.to)) * b.siemens)
    }
}

/// Gaussian elimination with row pivoting on an `n` by `n + 1` matrix.
fn eliminate(m: &mut [f64], n: usize) -> Option<Vec<f64>> {
    let wide = n + 1;
    for col in 0..n {
        let mut best = col;
        for row in col + 1..n {
            if m[row * wide + col].abs() > m[best * wide + col].abs() {
                best = row;
            }
        }
        let pivot = m[best * wide + col];
        if pivot == 0.0 || !pivot.is_finite() {
            return None;
        }
        if best != col {
            for k in col..wide {
                m.swap(best * wide + k, col * wide + k);
            }
        }
        for row in col + 1..n {
            let share = m[row * wide + col] / pivot;
            if share != 0.0 {
                for k in col..wide {
                    let above = m[col * wide + k];
                    m[row * wide + k] -= share * above;
                }
            }
        }
    }
    let mut x = vec![0.0; n];
    for row in (0..n).rev() {
        let mut sum = m[row * wide + n];
        for k in row + 1..n {
            sum -= m[row * wide + k] * x[k];
        }
        x[row] = sum / m[row * wide + row];
    }
    x.iter().all(|v| v.is_finite()).then_some(x)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn divider_and_bridge_by_hand() {
        let mut net = Network::new(3);
        net.feed(0, 12.0, 1.0);
        let upper = net.join(Some(0), Some(1), 3.0);
        net.join(Some(1), None, 2.0);
        let v = net.solve();
        assert!((v[0] - 10.0).abs() < 1e-6 && (v[1] - 4.0).abs() < 1e-6, "{v:?}");
        assert!((net.current(upper, &v) - 2.0).abs() < 1e-6);
        assert!(v[2].abs() < 1e-12, "a node joined to nothing reads zero");
    }

    #[test]
    fn strange_resistances_do_no_harm() {
        for ohm in [f64::NAN, 0.0, -3.0, f64::INFINITY, 1e-300] {
            let mut net = Network::new(2);
            net.feed(0, 12.0, ohm);
            net.feed(7, f64::NAN, 1.0);
            net.join(Some(0), Some(1), ohm);
            net.join(Some(9), None, 1.0);
            net.join(Some(1), None, 10.0);
            assert!(net.solve().iter().all(|v| v.is_finite() && v.abs() < 12.1));
        }
    }
}
