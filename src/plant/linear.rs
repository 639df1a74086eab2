//! Block-sparse linear solve for the Newton step.
//!
//! A loop couples each volume to its few neighbours, so the matrix is a sparse pattern of small blocks that
//! never changes. The order of elimination (least neighbours first) and every block that fills up on the way
//! are worked out once; a solve then runs through plain lists. The work grows linearly with the number of
//! volumes. There is no pivoting between blocks: each volume's own block holds its storage terms and is
//! regular; a block that is not says so.

/// Marks a pair of volumes that share no block.
const NONE: u16 = u16::MAX;

/// Which blocks exist and in which order volumes are eliminated.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Pattern {
    volumes: usize,
    blocks: usize,
    slots: Vec<u16>,
    steps: Vec<Step>,
}

/// Elimination of one volume.
#[derive(Clone, Debug, PartialEq)]
struct Step {
    pivot: usize,
    own: usize,
    /// Volumes still to come that it touches: (volume, block of their row, block of the pivot's row).
    others: Vec<(usize, usize, usize)>,
    /// Blocks that change: for each of `others` as a row, each of `others` as a column.
    targets: Vec<usize>,
}

impl Pattern {
    /// The pattern of `volumes` volumes of which the listed pairs touch each other.
    pub fn new(volumes: usize, pairs: impl IntoIterator<Item = (usize, usize)>) -> Self {
        let mut touch = vec![false; volumes * volumes];
        for (i, j) in pairs {
            touch[i * volumes + j] = true;
            touch[j * volumes + i] = true;
        }
        for i in 0..volumes {
            touch[i * volumes + i] = true;
        }
        let mut slots = vec![NONE; volumes * volumes];
        let mut blocks = 0_u16;
        let mut give = |slots: &mut Vec<u16>, at: usize| {
            if slots[at] == NONE {
                slots[at] = blocks;
                blocks += 1;
            }
            usize::from(slots[at])
        };
        for (at, _) in touch.iter().enumerate().filter(|(_, touches)| **touches) {
            give(&mut slots, at);
        }
        let mut left: Vec<usize> = (0..volumes).collect();
        let mut steps = Vec::with_capacity(volumes);
        while !left.is_empty() {
            let degree = |k: usize| left.iter().filter(|&&i| touch[i * volumes + k]).count();
            let (place, _) =
                left.iter().enumerate().min_by_key(|&(_, &k)| (degree(k), k)).expect("left is not empty");
            let pivot = left.remove(place);
            let near: Vec<usize> = left.iter().copied().filter(|&i| touch[i * volumes + pivot]).collect();
            let mut targets = Vec::with_capacity(near.len() * near.len());
            for &i in &near {
                for &j in &near {
                    touch[i * volumes + j] = true;
                    targets.push(give(&mut slots, i * volumes + j));
                }
            }
            let others = near
                .iter()
                .map(|&i| {
                    (i, usize::from(slots[i * volumes + pivot]), usize::from(slots[pivot * volumes + i]))
                })
                .collect();
            let own = usize::from(slots[pivot * volumes + pivot]);
            steps.push(Step { pivot, own, others, targets });
        }
        Self { volumes, blocks: usize::from(blocks), slots, steps }
    }
    /// Number of volumes.
    pub fn volumes(&self) -> usize {
        self.volumes
    }
    /// Number of blocks, those that fill up included.
    pub fn blocks(&self) -> usize {
        self.blocks
    }
    /// The block of a row and a column.
    ///
    /// # Panics
    /// When the pair was not listed.
    #[inline]
    pub fn block(&self, row: usize, column: usize) -> usize {
        let slot = self.slots[row * self.volumes + column];
        debug_assert!(slot != NONE, "volumes {row} and {column} do not touch");
        usize::from(slot)
    }

    /// The block of a row and a column, if they touch.
    #[cfg(test)]
    pub fn known(&self, row: usize, column: usize) -> Option<usize> {
        let slot = self.slots[row * self.volumes + column];
        (slot != NONE).then_some(usize::from(slot))
    }

    /// Solves in place: `matrix` holds row-major blocks of `S` by `S`, `rhs` becomes the solution. False when a
    /// volume's own block is singular.
    pub fn solve<const S: usize>(&self, matrix: &mut [[[f64; S]; S]], rhs: &mut [[f64; S]]) -> bool {
        for step in &self.steps {
            let Some(inverse) = invert(&matrix[step.own]) else { return false };
            matrix[step.own] = inverse;
            let head = rhs[step.pivot];
            let width = step.others.len();
            for (a, &(i, row_block, _)) in step.others.iter().enumerate() {
                let factor = times(&matrix[row_block], &inverse);
                for r in 0..S {
                    let mut sum = 0.0;
                    for c in 0..S {
                        sum += factor[r][c] * head[c];
                    }
                    rhs[i][r] -= sum;
                }
                for (b, &(_, _, column_block)) in step.others.iter().enumerate() {
                    let change = times(&factor, &matrix[column_block]);
                    let target = &mut matrix[step.targets[a * width + b]];
                    for r in 0..S {
                        for c in 0..S {
                            target[r][c] -= change[r][c];
                        }
                    }
                }
            }
        }
        for step in self.steps.iter().rev() {
            let mut sum = rhs[step.pivot];
            for &(i, _, column_block) in &step.others {
                let (block, x) = (&matrix[column_block], rhs[i]);
                for r in 0..S {
                    for c in 0..S {
                        sum[r] -= block[r][c] * x[c];
                    }
                }
            }
            let inverse = &matrix[step.own];
            for r in 0..S {
                let mut x = 0.0;
                for c in 0..S {
                    x += inverse[r][c] * sum[c];
                }
                rhs[step.pivot][r] = x;
            }
        }
        true
    }
}

#[inline]
fn times<const S: usize>(a: &[[f64; S]; S], b: &[[f64; S]; S]) -> [[f64; S]; S] {
    let mut out = [[0.0; S]; S];
    for r in 0..S {
        for k in 0..S {
            for c in 0..S {
                out[r][c] += a[r][k] * b[k][c];
            }
        }
    }
    out
}

/// Inverse by elimination with pivoting inside the block. None when singular or not finite.
#[inline]
fn invert<const S: usize>(block: &[[f64; S]; S]) -> Option<[[f64; S]; S]> {
    let mut a = *block;
    let mut out = [[0.0; S]; S];
    for (r, row) in out.iter_mut().enumerate() {
        row[r] = 1.0;
    }
    for k in 0..S {
        let mut pivot = k;
        for r in k + 1..S {
            if a[r][k].abs() > a[pivot][k].abs() {
                pivot = r;
            }
        }
        a.swap(k, pivot);
        out.swap(k, pivot);
        let head = a[k][k];
        if head == 0.0 || !head.is_finite() {
            return None;
        }
        let scale = 1.0 / head;
        for c in 0..S {
            a[k][c] *= scale;
            out[k][c] *= scale;
        }
        for r in 0..S {
            if r != k {
                let factor = a[r][k];
                for c in 0..S {
                    a[r][c] -= factor * a[k][c];
                    out[r][c] -= factor * out[k][c];
                }
            }
        }
    }
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// A ring with branches and a chord, like a loop with hoses and a valve: the residual is down to rounding.
        #[test]
        fn solves_a_ring_with_branches(seed in proptest::collection::vec(-1.0..1.0f64, 12 * 12 * 9 + 36)) {
            let mut pairs: Vec<(usize, usize)> = (0..8).map(|i| (i, (i + 1) % 8)).collect();
            pairs.extend([(2, 6), (0, 8), (4, 9), (8, 10), (9, 10), (10, 11)]);
            let pattern = Pattern::new(12, pairs.iter().copied());
            let mut matrix = vec![[[0.0; 3]; 3]; pattern.blocks()];
            let mut dense = vec![0.0; 36 * 36];
            let mut at = 0;
            let mut touching: Vec<(usize, usize)> = pairs.iter().flat_map(|&(i, j)| [(i, j), (j, i)]).collect();
            touching.extend((0..12).map(|i| (i, i)));
            for (i, j) in touching {
                for r in 0..3 {
                    for c in 0..3 {
                        let x = seed[at] + if i == j && r == c { 8.0 } else { 0.0 };
                        at += 1;
                        matrix[pattern.block(i, j)][r][c] = x;
                        dense[(3 * i + r) * 36 + 3 * j + c] = x;
                    }
                }
            }
            let given: Vec<[f64; 3]> = (0..12).map(|i| std::array::from_fn(|r| seed[at + 3 * i + r])).collect();
            let mut x = given.clone();
            prop_assert!(pattern.solve(&mut matrix, &mut x));
            for row in 0..36 {
                let sum: f64 = (0..36).map(|c| dense[row * 36 + c] * x[c / 3][c % 3]).sum();
                prop_assert!((sum - given[row / 3][row % 3]).abs() < 1e-10);
            }
        }
    }

    #[test]
    fn says_so_when_singular() {
        let pattern = Pattern::new(1, []);
        assert!(!pattern.solve(&mut [[[1.0, 2.0], [2.0, 4.0]]], &mut [[1.0, 2.0]]));
    }

    /// Blocks and work grow in proportion to a longer ring.
    #[test]
    fn grows_linearly() {
        let work = |n: usize| {
            let p = Pattern::new(n, (0..n).map(|i| (i, (i + 1) % n)));
            p.steps.iter().map(|s| s.targets.len()).sum::<usize>()
        };
        assert!(work(160) < 2 * work(80) + 20 && work(320) < 2 * work(160) + 20);
    }
}
