//! The grid on which wires are laid, and what lies on it already. Two nets never share a stretch; they may cross.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// A node of the grid: column and row.
pub type Node = (i32, i32);

/// Right, down, left, up.
pub const WAYS: [Node; 4] = [(1, 0), (0, 1), (-1, 0), (0, -1)];

/// What it costs to go on by a step across or down, to turn, to cross another net, to end above a ground mark.
const STEP: [u32; 2] = [20, 10];
const TURN: u32 = 26;
const CROSS: u32 = 70;

/// Steps that a symbol takes along its wire, lying and standing.
pub const SYMBOL: [i32; 2] = [2, 3];

#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Cell {
    /// Net that runs through sideways, and up and down.
    net: [Option<usize>; 2],
    /// A point of this net sits here.
    point: Option<usize>,
    /// A symbol or ground mark sits here.
    solid: bool,
}

/// The grid.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    /// Columns and rows.
    pub size: Node,
    cells: Vec<Cell>,
}

/// Where a wire is to end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Goal {
    /// At a point, which carries this net.
    Point(Node, usize),
    /// At a ground mark wherever there is room.
    Ground,
}

/// A wire found: its nodes from start to goal, and the index of the node where its symbol begins.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// Nodes in order, one step apart.
    pub nodes: Vec<Node>,
    /// The symbol spans `nodes[symbol.0..=symbol.1]`.
    pub symbol: Option<(usize, usize)>,
}

impl Grid {
    /// An empty grid.
    pub fn new(size: Node) -> Self {
        Self { size, cells: vec![Cell::default(); (size.0.max(1) * size.1.max(1)) as usize] }
    }

    fn index(&self, (x, y): Node) -> Option<usize> {
        let within = x >= 0 && y >= 0 && x < self.size.0 && y < self.size.1;
        within.then(|| (y * self.size.0 + x) as usize)
    }

    fn cell(&self, node: Node) -> Option<Cell> {
        self.index(node).map(|i| self.cells[i])
    }

    fn free(&self, node: Node) -> bool {
        self.cell(node) == Some(Cell::default())
    }

    /// Put a point down.
    pub fn point(&mut self, node: Node, net: usize) {
        if let Some(i) = self.index(node) {
            self.cells[i].point = Some(net);
        }
    }

    /// Close a node for everything.
    pub fn block(&mut self, node: Node) {
        if let Some(i) = self.index(node) {
            self.cells[i].solid = true;
        }
    }

    /// Lay a wire; before its symbol it belongs to one net, after it to the other.
    pub fn lay(&mut self, found: &Found, nets: (usize, Option<usize>)) {
        for (n, pair) in found.nodes.windows(2).enumerate() {
            let inside = found.symbol.is_some_and(|(a, b)| n >= a && n < b);
            let before = found.symbol.is_none_or(|(a, _)| n < a);
            let axis = usize::from(pair[0].0 == pair[1].0);
            for node in pair {
                let Some(i) = self.index(*node) else { continue };
                if inside {
                    self.cells[i].solid |= self.cells[i].point.is_none();
                } else if let Some(net) = if before { Some(nets.0) } else { nets.1 } {
                    self.cells[i].net[axis] = Some(net);
                }
            }
        }
        if nets.1.is_none()
            && let Some(&(x, y)) = found.nodes.last()
        {
            self.block((x, y));
            self.block((x, y + 1));
        }
    }

    /// May net `net` pass `node` along `axis`? Gives the cost beyond the step; `turns` when it turns there.
    fn pass(&self, node: Node, net: Option<usize>, axis: usize) -> Option<(u32, bool)> {
        let cell = self.cell(node)?;
        if cell.solid || cell.point.is_some_and(|p| Some(p) != net) {
            return None;
        }
        let other = |n: Option<usize>| n.is_some() && n != net;
        if other(cell.net[axis]) {
            None
        } else if other(cell.net[1 - axis]) {
            Some((CROSS, true))
        } else {
            Some((0, false))
        }
    }

    fn shares(&self, node: Node, net: Option<usize>, axis: usize) -> bool {
        net.is_some() && self.cell(node).is_some_and(|c| c.net[axis] == net)
    }

    /// The cheapest way from a point of net `net` to a goal, with or without a symbol on it.
    pub fn find(&self, start: Node, net: usize, goal: Goal, symbol: bool) -> Option<Found> {
        let to_net = match goal {
            Goal::Point(_, n) => Some(n),
            Goal::Ground => None,
        };
        let states = self.cells.len() * 8;
        let mut best = vec![u32::MAX; states];
        let mut came: Vec<(usize, bool)> = vec![(usize::MAX, false); states];
        let mut queue = BinaryHeap::new();
        let code = |i: usize, way: usize, phase: usize| (i * 4 + way) * 2 + phase;
        let start_index = self.index(start)?;
        for way in 0..4 {
            best[code(start_index, way, 0)] = 0;
            queue.push(Reverse((0, code(start_index, way, 0))));
        }
        while let Some(Reverse((cost, state))) = queue.pop() {
            if cost > best[state] {
                continue;
            }
            let (i, way, phase) = (state / 8, state / 2 % 4, state % 2);
            let node = (i as i32 % self.size.0, i as i32 / self.size.0);
            let done = match goal {
                Goal::Point(end, _) => phase == 1 && node == end,
                Goal::Ground => {
                    phase == 1 && self.free(node) && self.free((node.0, node.1 + 1)) && WAYS[way].1 >= 0
                }
            };
            if done {
                return Some(self.trace(state, &came));
            }
            let here = if phase == 0 { Some(net) } else { to_net };
            let crossing = self.pass(node, here, way % 2).is_some_and(|(_, c)| c);
            let mut offer = |to: usize, cost: u32, jump: bool| {
                if cost < best[to] {
                    best[to] = cost;
                    came[to] = (state, jump);
                    queue.push(Reverse((cost, to)));
                }
            };
            for (next_way, step) in WAYS.into_iter().enumerate() {
                // Only a start may be left in any direction for nothing; nothing turns back or turns on a crossing.
                let at_start = node == start && phase == 0;
                if !at_start && (next_way == (way + 2) % 4 || (crossing && next_way != way)) {
                    continue;
                }
                let turn = if at_start || next_way == way { 0 } else { TURN };
                let axis = next_way % 2;
                if turn > 0 && self.pass(node, here, axis).is_none_or(|(_, c)| c) {
                    continue;
                }
                let to = (node.0 + step.0, node.1 + step.1);
                if let (Some((extra, _)), Some(index)) = (self.pass(to, here, axis), self.index(to)) {
                    let shared = self.shares(to, here, axis) && self.shares(node, here, axis);
                    // Symbols like to stand near where they are fed from.
                    let plain = if phase == 0 && symbol { STEP[axis] * 11 / 10 } else { STEP[axis] };
                    let step_cost = if shared { STEP[axis] / 5 } else { plain };
                    offer(code(index, next_way, phase), cost + turn + extra + step_cost, false);
                }
                if phase == 0 && symbol && !crossing {
                    let length = SYMBOL[axis];
                    let at = |n: i32| (node.0 + step.0 * n, node.1 + step.1 * n);
                    // Room beside it too, for its name and for symbols that are broader than a wire.
                    let clear = (1..length).all(|n| self.free(at(n)));
                    let beside = |n: i32, side: i32| (at(n).0 + step.1 * side, at(n).1 + step.0 * side);
                    let crowded = (1..length)
                        .flat_map(|n| [beside(n, -1), beside(n, 1)])
                        .filter(|&b| self.cell(b).is_some_and(|c| c.solid || c.point.is_some()))
                        .count() as u32;
                    let end = at(length);
                    let own = self.cell(node).is_some_and(|c| c.net.iter().flatten().all(|&n| n == net));
                    if let (true, true, Some((0, false)), Some(index)) =
                        (clear, own, self.pass(end, to_net, axis), self.index(end))
                    {
                        let cost = cost + turn + crowded * 30 + STEP[axis] * length as u32;
                        offer(code(index, next_way, 1), cost, true);
                    }
                }
            }
            let turned_over = phase == 0 && !symbol && node != start && !crossing && self.free(node);
            if turned_over {
                offer(code(i, way, 1), cost + 1, false);
            } else if phase == 0 && !symbol && matches!(goal, Goal::Point(end, _) if touches(node, end)) {
                // Points side by side: the joint lies at the far point itself.
                for (next_way, step) in WAYS.into_iter().enumerate() {
                    let to = (node.0 + step.0, node.1 + step.1);
                    if let (Goal::Point(end, _), Some(index)) = (goal, self.index(to))
                        && to == end
                        && !crossing
                    {
                        offer(code(index, next_way, 1), cost + STEP[next_way % 2], false);
                    }
                }
            }
        }
        None
    }

    fn trace(&self, last: usize, came: &[(usize, bool)]) -> Found {
        let node = |state: usize| {
            let i = state / 8;
            (i as i32 % self.size.0, i as i32 / self.size.0)
        };
        let mut steps = vec![(node(last), false)];
        let mut state = last;
        while came[state].0 != usize::MAX {
            let (before, jump) = came[state];
            if let Some(step) = steps.last_mut() {
                step.1 = jump;
            }
            steps.push((node(before), false));
            state = before;
        }
        steps.reverse();
        let (mut nodes, mut symbol): (Vec<Node>, _) = (Vec::new(), None);
        for (to, jump) in steps {
            let Some(&from) = nodes.last() else {
                nodes.push(to);
                continue;
            };
            if from == to {
                continue;
            }
            let (dx, dy) = ((to.0 - from.0).signum(), (to.1 - from.1).signum());
            let first = nodes.len() - 1;
            let mut at = from;
            while at != to {
                at = (at.0 + dx, at.1 + dy);
                nodes.push(at);
            }
            if jump {
                symbol = Some((first, nodes.len() - 1));
            }
        }
        Found { nodes, symbol }
    }
}

fn touches(a: Node, b: Node) -> bool {
    (a.0 - b.0).abs() + (a.1 - b.1).abs() == 1
}
