//! The binary property table: reading, writing, checking.
//!
//! Little-endian throughout. Layout 1: the mark `PINTLE-R`, u32 layout, u16 length and UTF-8 name, twelve f64
//! of [`Facts`], the saturation line (axis, then per knot 7 values and 7 slopes as f64), the vapour grid and the
//! liquid grid (two axes, then per node 12 f32), and a 64-bit FNV-1a check sum over everything before it. An
//! axis is a u32 count and that many f64.

use super::axis::Axis;
use super::error::TableError;
use super::grid::{CURVES, Grid, Node};
use super::hermite::Knot;
use super::saturation::{SATURATION_CURVES, SATURATION_LANES, SaturationLine};

const MARK: &[u8; 8] = b"PINTLE-R";
const LAYOUT: u32 = 1;

/// The constants of a refrigerant and the limits of its table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Facts {
    pub critical_t_k: f64,
    pub critical_p_pa: f64,
    pub critical_h: f64,
    pub critical_rho: f64,
    pub molar_mass_kg_mol: f64,
    pub triple_t_k: f64,
    pub triple_p_pa: f64,
    /// Highest temperature of the equation of state.
    pub max_t_k: f64,
    /// ln p of the valid range.
    pub low: f64,
    pub high: f64,
    /// Greatest distance in enthalpy from the dew line and from the bubble line.
    pub vapour_limit: f64,
    pub liquid_limit: f64,
}

const FACTS: usize = 12;

impl Facts {
    #[cfg(feature = "tables")]
    fn to_array(self) -> [f64; FACTS] {
        [
            self.critical_t_k,
            self.critical_p_pa,
            self.critical_h,
            self.critical_rho,
            self.molar_mass_kg_mol,
            self.triple_t_k,
            self.triple_p_pa,
            self.max_t_k,
            self.low,
            self.high,
            self.vapour_limit,
            self.liquid_limit,
        ]
    }

    fn from_array(a: [f64; FACTS]) -> Self {
        Self {
            critical_t_k: a[0],
            critical_p_pa: a[1],
            critical_h: a[2],
            critical_rho: a[3],
            molar_mass_kg_mol: a[4],
            triple_t_k: a[5],
            triple_p_pa: a[6],
            max_t_k: a[7],
            low: a[8],
            high: a[9],
            vapour_limit: a[10],
            liquid_limit: a[11],
        }
    }
}

/// A table in memory.
#[derive(Debug, Clone)]
pub(super) struct Table {
    pub name: String,
    pub facts: Facts,
    pub saturation: SaturationLine,
    pub vapour: Grid,
    pub liquid: Grid,
}

impl Table {
    /// Reads and checks a table.
    pub fn from_bytes(bytes: &[u8]) -> Result<Self, TableError> {
        let mut r = Reader { bytes, at: 0 };
        if !bytes.starts_with(MARK) {
            return Err(TableError::NotATable);
        }
        r.at = MARK.len();
        let layout = u32::from_le_bytes(r.take("the layout number")?);
        if layout != LAYOUT {
            return Err(TableError::Version { found: layout, expected: LAYOUT });
        }
        let length = u16::from_le_bytes(r.take("the name")?) as usize;
        let name = std::str::from_utf8(r.slice(length, "the name")?)
            .map_err(|_| TableError::Malformed { part: "the name", problem: "is not UTF-8" })?
            .to_owned();
        let mut facts = [0.0; FACTS];
        for fact in &mut facts {
            *fact = r.f64("the constants")?;
        }
        let facts = Facts::from_array(facts);
        let ln_p = r.axis("the saturation line")?;
        let mut knots = Vec::with_capacity(ln_p.len());
        for _ in 0..ln_p.len() {
            let mut knot = Knot { value: [0.0; SATURATION_LANES], slope: [0.0; SATURATION_LANES] };
            let (value, slope) = (&mut knot.value, &mut knot.slope);
            for number in value[..SATURATION_CURVES].iter_mut().chain(&mut slope[..SATURATION_CURVES]) {
                *number = r.f64("the saturation line")?;
            }
            knots.push(knot);
        }
        if !(facts.low > ln_p.first() && facts.high > facts.low && ln_p.last() > facts.high) {
            return Err(TableError::Malformed { part: "the range", problem: "does not fit the axis" });
        }
        let saturation = SaturationLine::new(ln_p, knots, facts.low, facts.high);
        let vapour = r.grid("the vapour grid", facts.vapour_limit, &saturation)?;
        let liquid = r.grid("the liquid grid", facts.liquid_limit, &saturation)?;
        if facts.liquid_limit >= liquid.distance.last() {
            return Err(TableError::Malformed { part: "the liquid grid", problem: "has no margin" });
        }
        let end = r.at;
        let sum = u64::from_le_bytes(r.take("the check sum")?);
        if sum != check_sum(&bytes[..end]) {
            return Err(TableError::CheckSum);
        }
        if r.at != bytes.len() {
            return Err(TableError::Trailing { count: bytes.len() - r.at });
        }
        Ok(Self { name, facts, saturation, vapour, liquid })
    }

    /// The table as bytes, the inverse of [`Table::from_bytes`].
    #[cfg(feature = "tables")]
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut out = MARK.to_vec();
        out.extend(LAYOUT.to_le_bytes());
        out.extend((self.name.len() as u16).to_le_bytes());
        out.extend(self.name.as_bytes());
        out.extend(self.facts.to_array().iter().flat_map(|v| v.to_le_bytes()));
        let axis = |out: &mut Vec<u8>, axis: &Axis| {
            out.extend((axis.len() as u32).to_le_bytes());
            out.extend(axis.knots().iter().flat_map(|v| v.to_le_bytes()));
        };
        axis(&mut out, &self.saturation.ln_p);
        for knot in &self.saturation.knots {
            for lane in [&knot.value, &knot.slope] {
                out.extend(lane[..SATURATION_CURVES].iter().flat_map(|v| v.to_le_bytes()));
            }
        }
        for grid in [&self.vapour, &self.liquid] {
            axis(&mut out, &grid.ln_p);
            axis(&mut out, &grid.distance);
            for n in &grid.nodes {
                for lane in [&n.f, &n.fx, &n.fq, &n.fxq] {
                    out.extend(lane[..CURVES].iter().flat_map(|v| v.to_le_bytes()));
                }
            }
        }
        out.extend(check_sum(&out).to_le_bytes());
        out
    }
}

/// FNV-1a over eight bytes at a time (byte by byte would cost a millisecond at start).
fn check_sum(bytes: &[u8]) -> u64 {
    let mut words = bytes.chunks_exact(8);
    let mut sum = 0xcbf2_9ce4_8422_2325_u64;
    let mut mix = |word: u64| sum = (sum ^ word).wrapping_mul(0x0000_0100_0000_01b3).rotate_left(23);
    for word in &mut words {
        mix(u64::from_le_bytes(std::array::from_fn(|i| word[i])));
    }
    words.remainder().iter().for_each(|&b| mix(u64::from(b)));
    sum
}

struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl<'a> Reader<'a> {
    fn slice(&mut self, count: usize, part: &'static str) -> Result<&'a [u8], TableError> {
        let end = self.at.checked_add(count).filter(|&end| end <= self.bytes.len());
        let end = end.ok_or(TableError::Truncated { at: self.bytes.len(), part })?;
        let slice = &self.bytes[self.at..end];
        self.at = end;
        Ok(slice)
    }

    fn take<const N: usize>(&mut self, part: &'static str) -> Result<[u8; N], TableError> {
        let slice = self.slice(N, part)?;
        Ok(std::array::from_fn(|i| slice[i]))
    }

    fn f64(&mut self, part: &'static str) -> Result<f64, TableError> {
        let value = f64::from_le_bytes(self.take(part)?);
        if value.is_finite() { Ok(value) } else { Err(not_finite(part)) }
    }

    fn axis(&mut self, part: &'static str) -> Result<Axis, TableError> {
        let count = u32::from_le_bytes(self.take(part)?) as usize;
        if count > self.bytes.len() / 8 {
            return Err(TableError::Truncated { at: self.bytes.len(), part });
        }
        let knots = (0..count).map(|_| self.f64(part)).collect::<Result<Vec<f64>, _>>()?;
        Axis::new(knots)
    }

    fn grid(&mut self, part: &'static str, limit: f64, line: &SaturationLine) -> Result<Grid, TableError> {
        let (ln_p, distance) = (self.axis(part)?, self.axis(part)?);
        let same_range = ln_p.first() == line.ln_p.first() && ln_p.last() == line.ln_p.last();
        if !same_range || distance.first() != 0.0 || !(limit > 0.0 && limit <= distance.last()) {
            return Err(TableError::Malformed { part, problem: "does not fit the saturation line" });
        }
        let count = ln_p.len() * distance.len();
        if count > self.bytes.len() / (16 * CURVES) {
            return Err(TableError::Truncated { at: self.bytes.len(), part });
        }
        let mut nodes = Vec::with_capacity(count);
        for _ in 0..count {
            let mut node = Node::default();
            for lane in [&mut node.f, &mut node.fx, &mut node.fq, &mut node.fxq] {
                for value in &mut lane[..CURVES] {
                    *value = f32::from_le_bytes(self.take(part)?);
                    if !value.is_finite() {
                        return Err(not_finite(part));
                    }
                }
            }
            nodes.push(node);
        }
        Ok(Grid { ln_p, distance, nodes })
    }
}

fn not_finite(part: &'static str) -> TableError {
    TableError::Malformed { part, problem: "holds a number that is not finite" }
}
