//! A network of resistances and sources solved by nodal analysis.
//!
//! Every branch is one law: its volts are a weighted sum of node volts less a source, its current is those volts times a
//! conductance. With weights 1 and -1 it is a resistor or a battery; with `share`, `1 - share` and -1 it is a pulsed
//! transistor or a sensor that gives out a share of its feed. The equations are symmetric and positive whatever the branches.

/// One end of a branch: a node by number, or ground.
pub type End = Option<usize>;

/// Leakage from every node to ground [S]; a node cut off from everything reads about 0 V instead of
/// leaving the equations without a solution. Ten megohm would be a meter's own load; this is lighter.
pub const LEAKAGE_S: f64 = 1e-9;
/// Largest conductance of a branch [S], so a resistance of zero does no harm.
const MOST_S: f64 = 1e4;

/// A branch of the network.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Branch {
    ends: [(End, f64); 3],
    siemens: f64,
    source_v: f64,
}

impl Branch {
    /// Nothing at all.
    pub const NONE: Self = Self { ends: [(None, 0.0); 3], siemens: 0.0, source_v: 0.0 };

    fn new(ends: [(End, f64); 3], ohm: f64, source_v: f64) -> Self {
        let siemens = if ohm.is_nan() { 0.0 } else { (1.0 / ohm.max(0.0)).min(MOST_S) };
        if siemens == 0.0 || !source_v.is_finite() || ends.iter().any(|(_, w)| !w.is_finite()) {
            return Self { siemens: 0.0, source_v: 0.0, ends };
        }
        Self { ends, siemens, source_v }
    }
    /// A resistance [ohm]. Zero or negative counts as a very good joint, NaN as none.
    pub fn join(from: End, to: End, ohm: f64) -> Self {
        Self::new([(from, 1.0), (to, -1.0), (None, 0.0)], ohm, 0.0)
    }
    /// A source [V] behind a resistance [ohm]; its current counts positive out of `plus` through the rest of the circuit.
    pub fn feed(minus: End, plus: End, volts: f64, ohm: f64) -> Self {
        Self::new([(minus, 1.0), (plus, -1.0), (None, 0.0)], ohm, -volts)
    }
    /// A resistance [ohm] with a source against its current inside, such as a turning winding [V].
    pub fn against(from: End, to: End, ohm: f64, volts: f64) -> Self {
        Self::new([(from, 1.0), (to, -1.0), (None, 0.0)], ohm, volts)
    }
    /// Holds `to` at a share of `from` and the rest of `other`, behind a resistance [ohm].
    pub fn mean(from: End, other: End, to: End, share: f64, ohm: f64) -> Self {
        Self::new([(from, share), (other, 1.0 - share), (to, -1.0)], ohm, 0.0)
    }
    /// Resistance [ohm], infinite for none.
    pub fn ohm(&self) -> f64 {
        1.0 / self.siemens
    }
    /// Current [A] from the first end towards the last.
    pub fn current(&self, volts: &[f64]) -> f64 {
        let at = |end: End| end.and_then(|n| volts.get(n)).copied().unwrap_or(0.0);
        let sum: f64 = self.ends.iter().map(|&(end, weight)| weight * at(end)).sum();
        self.siemens * (sum - self.source_v)
    }
}

/// An order of elimination that keeps the equations sparse: least neighbours first.
pub fn order(nodes: usize, edges: &[(End, End)]) -> Vec<usize> {
    let mut near = vec![vec![false; nodes]; nodes];
    for &(a, b) in edges {
        if let (Some(a), Some(b)) = (a, b)
            && a != b
        {
            (near[a][b], near[b][a]) = (true, true);
        }
    }
    let mut left: Vec<usize> = (0..nodes).collect();
    let mut order = Vec::with_capacity(nodes);
    while !left.is_empty() {
        let degree = |n: usize| left.iter().filter(|&&k| near[n][k]).count();
        let place = (0..left.len()).min_by_key(|&i| degree(left[i])).unwrap_or(0);
        let node = left.remove(place);
        let around: Vec<usize> = left.iter().copied().filter(|&k| near[node][k]).collect();
        for &a in &around {
            for &b in &around {
                near[a][b] |= a != b;
            }
        }
        order.push(node);
    }
    order
}

/// The equations of a network, factored (L D L transposed) in a fixed order.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Factored {
    nodes: usize,
    /// Row of a node in the order of elimination.
    row: Vec<usize>,
    m: Vec<f64>,
    near: Vec<usize>,
}

impl Factored {
    /// Room for the equations of so many nodes, eliminated in this order.
    pub fn new(order: &[usize]) -> Self {
        let nodes = order.len();
        let mut row = vec![0; nodes];
        for (r, &node) in order.iter().enumerate() {
            row[node] = r;
        }
        Self { nodes, row, m: vec![0.0; nodes * nodes], near: Vec::with_capacity(nodes) }
    }

    /// Set up the equations of these branches and factor them.
    pub fn factor<'a>(&mut self, branches: impl Iterator<Item = &'a Branch>) {
        let n = self.nodes;
        self.m.fill(0.0);
        for r in 0..n {
            self.m[r * n + r] = LEAKAGE_S;
        }
        for b in branches.filter(|b| b.siemens != 0.0) {
            for (i, &(a, wa)) in b.ends.iter().enumerate() {
                let Some(ra) = a.and_then(|a| self.row.get(a)).copied() else { continue };
                self.m[ra * n + ra] += b.siemens * wa * wa;
                for &(c, wc) in &b.ends[i + 1..] {
                    let Some(rc) = c.and_then(|c| self.row.get(c)).copied() else { continue };
                    let (low, high) = (ra.min(rc), ra.max(rc));
                    // Both halves of the symmetric matrix fall on the diagonal when two ends are one node.
                    let twice = if low == high { 2.0 } else { 1.0 };
                    self.m[low * n + high] += twice * b.siemens * wa * wc;
                }
            }
        }
        for k in 0..n {
            let pivot = self.m[k * n + k].max(LEAKAGE_S);
            self.m[k * n + k] = pivot;
            self.near.clear();
            self.near.extend((k + 1..n).filter(|&j| self.m[k * n + j] != 0.0));
            for (i, &a) in self.near.iter().enumerate() {
                let share = self.m[k * n + a] / pivot;
                for &b in &self.near[i..] {
                    let above = self.m[k * n + b];
                    self.m[a * n + b] -= share * above;
                }
            }
            for &a in &self.near {
                self.m[k * n + a] /= pivot;
            }
        }
    }

    /// Volts of every node, into `volts`, for these sources and currents fed into nodes [A].
    pub fn solve<'a>(
        &self,
        branches: impl Iterator<Item = &'a Branch>,
        fed_a: &[(End, f64)],
        volts: &mut Vec<f64>,
    ) {
        let n = self.nodes;
        let mut x = vec![0.0; n];
        for b in branches.filter(|b| b.source_v != 0.0) {
            for &(end, weight) in &b.ends {
                if let Some(r) = end.and_then(|e| self.row.get(e)) {
                    x[*r] += b.siemens * b.source_v * weight;
                }
            }
        }
        for &(end, amps) in fed_a {
            if let Some(r) = end.and_then(|e| self.row.get(e)) {
                x[*r] += amps;
            }
        }
        for k in 0..n {
            if x[k] != 0.0 {
                let (done, rest) = x.split_at_mut(k + 1);
                for (y, m) in rest.iter_mut().zip(&self.m[k * n + k + 1..(k + 1) * n]) {
                    *y -= m * done[k];
                }
            }
        }
        for k in (0..n).rev() {
            let row = &self.m[k * n + k + 1..(k + 1) * n];
            let known: f64 = row.iter().zip(&x[k + 1..]).map(|(m, y)| m * y).sum();
            x[k] = x[k] / self.m[k * n + k] - known;
        }
        volts.clear();
        volts.extend(self.row.iter().map(|&r| if x[r].is_finite() { x[r] } else { 0.0 }));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn solve(nodes: usize, branches: &[Branch]) -> Vec<f64> {
        let mut f = Factored::new(&(0..nodes).collect::<Vec<_>>());
        f.factor(branches.iter());
        let mut volts = Vec::new();
        f.solve(branches.iter(), &[], &mut volts);
        volts
    }

    #[test]
    fn divider_by_hand() {
        let upper = Branch::join(Some(0), Some(1), 3.0);
        let net = [Branch::feed(None, Some(0), 12.0, 1.0), upper, Branch::join(Some(1), None, 2.0)];
        let v = solve(3, &net);
        assert!((v[0] - 10.0).abs() < 1e-6 && (v[1] - 4.0).abs() < 1e-6, "{v:?}");
        assert!((upper.current(&v) - 2.0).abs() < 1e-6);
        assert!((net[0].current(&v) - 2.0).abs() < 1e-6, "what the source gives");
        assert!(v[2].abs() < 1e-12, "a node joined to nothing reads zero");
    }

    #[test]
    fn a_pulsed_transistor_is_a_transformer() {
        // Half of 12 V at the load, and the source gives half of the load's current.
        let pulsed = Branch::mean(Some(0), None, Some(1), 0.5, 1e-3);
        let source = Branch::feed(None, Some(0), 12.0, 1e-3);
        let v = solve(2, &[source, pulsed, Branch::join(Some(1), None, 3.0)]);
        assert!((v[1] - 6.0).abs() < 0.01, "{v:?}");
        assert!((pulsed.current(&v) - 2.0).abs() < 0.01 && (source.current(&v) - 1.0).abs() < 0.01);
    }

    #[test]
    fn strange_resistances_do_no_harm() {
        for ohm in [f64::NAN, 0.0, -3.0, f64::INFINITY, 1e-300] {
            let net = [
                Branch::feed(None, Some(0), 12.0, ohm),
                Branch::feed(None, Some(7), f64::NAN, 1.0),
                Branch::join(Some(0), Some(1), ohm),
                Branch::join(Some(1), Some(9), ohm),
                Branch::mean(Some(0), Some(0), Some(0), 0.3, ohm),
            ];
            let v = solve(2, &net);
            assert!(v.iter().all(|v| v.is_finite() && (-1e-6..12.1).contains(v)), "{ohm}: {v:?}");
        }
    }

    #[test]
    fn the_order_takes_the_ends_of_a_chain_first() {
        let chain: Vec<_> = [(0, 1), (1, 2), (2, 3), (1, 3)].map(|(a, b)| (Some(a), Some(b))).into();
        let order = order(4, &chain);
        assert_eq!(order[0], 0);
        assert_eq!(order.len(), 4);
    }
}
