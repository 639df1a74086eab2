//! The binary property table: reading, writing, checking.
//!
//! Little-endian throughout. Layout 2: the mark `PINTLE-R`, u32 layout, u16 length and UTF-8 name, twelve f64
//! of [`Facts`], the axis of ln p, per knot of it 7 values and 7 slopes of the saturation line as f64 and as many of
//! transport along it, the vapour grid and the liquid grid (axis of distance, then per node 12 f32), the transport
//! correlations (two fits and the crossover) and a 64-bit FNV-1a check sum over everything before it. An axis and a
//! list is a u32 count and that many f64; a fit is its unit, its two spans and the rows of coefficients.

use super::axis::Axis;
use super::correlations::{Correlations, Crossover};
use super::error::TableError;
use super::fit::Fit;
use super::grid::{CURVES, Grid, Node, SLOPES};
use super::hermite::Knot;
use super::saturation::{SATURATION_CURVES, SATURATION_LANES, SaturationLine, T, WIDEST_CELL};

/// Temperatures (K) between which the tables are valid, -60 C and 160 C; less where the equation of state ends
/// earlier (R-1234yf: 410 K).
pub const RANGE_T_K: [f64; 2] = [213.15, 433.15];
/// Slack of [`RANGE_T_K`] (K), less than the tables' own error bound: a state at -60 C exactly is in the range, whatever
/// the last digits of the interpolation say.
pub(super) const RANGE_SLACK_K: f64 = 0.005;

const MARK: &[u8; 8] = b"PINTLE-R";
const LAYOUT: u32 = 2;
/// A correlation has far fewer coefficients in a row.
const MOST_COEFFICIENTS: usize = 64;

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
    /// Temperatures between which states are valid, with slack; not in the file, but from the others.
    pub valid_t_k: [f64; 2],
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
            valid_t_k: [a[5].max(RANGE_T_K[0]) - RANGE_SLACK_K, a[7].min(RANGE_T_K[1]) + RANGE_SLACK_K],
        }
    }
}

/// A table in memory.
#[derive(Debug, Clone)]
pub(super) struct Table {
    pub name: String,
    pub facts: Facts,
    pub saturation: SaturationLine,
    /// Transport along the saturation line, in the order of [`super::SaturationTransport`], and T in the last lane.
    pub saturation_transport: Vec<Knot<SATURATION_LANES>>,
    pub vapour: Grid,
    pub liquid: Grid,
    pub correlations: Correlations,
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
        if ln_p.knots().windows(2).any(|cell| cell[1] - cell[0] > WIDEST_CELL) {
            return Err(TableError::Malformed { part: "the axis of ln p", problem: "has too wide cells" });
        }
        let knots = r.knots("the saturation line", ln_p.len())?;
        let mut saturation_transport = r.knots("transport along saturation", ln_p.len())?;
        for (transport, knot) in saturation_transport.iter_mut().zip(&knots) {
            (transport.value[SATURATION_CURVES], transport.slope[SATURATION_CURVES]) =
                (knot.value[T], knot.slope[T]);
        }
        if !(facts.low > ln_p.first() && facts.high > facts.low && ln_p.last() > facts.high) {
            return Err(TableError::Malformed { part: "the range", problem: "does not fit the axis" });
        }
        let saturation = SaturationLine::new(ln_p, knots, facts.low, facts.high);
        let vapour = r.grid("the vapour grid", facts.vapour_limit, &saturation.ln_p)?;
        let liquid = r.grid("the liquid grid", facts.liquid_limit, &saturation.ln_p)?;
        if facts.liquid_limit >= liquid.distance.last() {
            return Err(TableError::Malformed { part: "the liquid grid", problem: "has no margin" });
        }
        let correlations = r.correlations()?;
        let end = r.at;
        let sum = u64::from_le_bytes(r.take("the check sum")?);
        if sum != check_sum(&bytes[..end]) {
            return Err(TableError::CheckSum);
        }
        if r.at != bytes.len() {
            return Err(TableError::Trailing { count: bytes.len() - r.at });
        }
        Ok(Self { name, facts, saturation, saturation_transport, vapour, liquid, correlations })
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
        for knot in self.saturation.knots.iter().chain(&self.saturation_transport) {
            for lane in [&knot.value, &knot.slope] {
                out.extend(lane[..SATURATION_CURVES].iter().flat_map(|v| v.to_le_bytes()));
            }
        }
        for grid in [&self.vapour, &self.liquid] {
            axis(&mut out, &grid.distance);
            for node in &grid.nodes {
                out.extend(node.iter().flatten().flat_map(|v| v.to_le_bytes()));
            }
        }
        let numbers = |out: &mut Vec<u8>, list: &[f64]| out.extend(list.iter().flat_map(|v| v.to_le_bytes()));
        let list = |out: &mut Vec<u8>, list: &[f64]| {
            out.extend((list.len() as u32).to_le_bytes());
            numbers(out, list);
        };
        let c = &self.correlations;
        for fit in [&c.viscosity, &c.conductivity] {
            numbers(&mut out, &[&[fit.unit], &fit.t_span_k[..], &fit.rho_span_kg_m3].concat());
            out.extend((fit.ln_value.len() as u32).to_le_bytes());
            fit.ln_value.iter().for_each(|row| list(&mut out, row));
        }
        let x = &c.crossover;
        let shape = [x.r0, x.gamma, x.nu, x.amplitude, x.zeta0_m, x.cutoff_per_m];
        numbers(&mut out, &shape);
        numbers(&mut out, &[x.t_reference_k, x.rho_critical_kg_m3]);
        numbers(&mut out, &x.reference_rho_span_kg_m3);
        list(&mut out, &x.ln_reference_dp_drho);
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

    fn knots(&mut self, part: &'static str, count: usize) -> Result<Vec<Knot<SATURATION_LANES>>, TableError> {
        let mut knots = Vec::with_capacity(count);
        for _ in 0..count {
            let mut knot = Knot { value: [0.0; SATURATION_LANES], slope: [0.0; SATURATION_LANES] };
            let (value, slope) = (&mut knot.value, &mut knot.slope);
            for number in value[..SATURATION_CURVES].iter_mut().chain(&mut slope[..SATURATION_CURVES]) {
                *number = self.f64(part)?;
            }
            knots.push(knot);
        }
        Ok(knots)
    }

    fn list(&mut self, part: &'static str) -> Result<Vec<f64>, TableError> {
        let count = u32::from_le_bytes(self.take(part)?) as usize;
        if count > MOST_COEFFICIENTS {
            return Err(TableError::Malformed { part, problem: "has too many coefficients" });
        }
        (0..count).map(|_| self.f64(part)).collect()
    }

    fn fit(&mut self, part: &'static str) -> Result<Fit, TableError> {
        let unit = self.f64(part)?;
        let (t_span_k, rho_span_kg_m3) =
            ([self.f64(part)?, self.f64(part)?], [self.f64(part)?, self.f64(part)?]);
        let rows = u32::from_le_bytes(self.take(part)?) as usize;
        if rows > MOST_COEFFICIENTS {
            return Err(TableError::Malformed { part, problem: "has too many coefficients" });
        }
        let ln_value = (0..rows).map(|_| self.list(part)).collect::<Result<_, _>>()?;
        let fit = Fit { unit, t_span_k, rho_span_kg_m3, ln_value };
        fit.check().map(|()| fit)
    }

    fn correlations(&mut self) -> Result<Correlations, TableError> {
        let (viscosity, conductivity) = (self.fit("the viscosity")?, self.fit("the conductivity")?);
        let part = "the critical enhancement";
        let mut next = || self.f64(part);
        let crossover = Crossover {
            r0: next()?,
            gamma: next()?,
            nu: next()?,
            amplitude: next()?,
            zeta0_m: next()?,
            cutoff_per_m: next()?,
            t_reference_k: next()?,
            rho_critical_kg_m3: next()?,
            reference_rho_span_kg_m3: [next()?, next()?],
            ln_reference_dp_drho: self.list(part)?,
        };
        Ok(Correlations { viscosity, conductivity, crossover })
    }

    /// A grid over the saturation line's knots of ln p.
    fn grid(&mut self, part: &'static str, limit: f64, ln_p: &Axis) -> Result<Grid, TableError> {
        let distance = self.axis(part)?;
        if distance.first() != 0.0 || !(limit > 0.0 && limit <= distance.last()) {
            return Err(TableError::Malformed { part, problem: "does not fit the saturation line" });
        }
        let count = ln_p.len() * distance.len();
        if count > self.bytes.len() / (16 * CURVES) {
            return Err(TableError::Truncated { at: self.bytes.len(), part });
        }
        let mut nodes = Vec::with_capacity(count);
        for _ in 0..count {
            let mut numbers: Node = [[0.0; CURVES]; SLOPES];
            for value in numbers.iter_mut().flatten() {
                *value = f32::from_le_bytes(self.take(part)?);
                if !value.is_finite() {
                    return Err(not_finite(part));
                }
            }
            nodes.push(numbers);
        }
        Ok(Grid::new(ln_p, distance, nodes))
    }
}

fn not_finite(part: &'static str) -> TableError {
    TableError::Malformed { part, problem: "holds a number that is not finite" }
}
