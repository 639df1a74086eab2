//! One control volume: what it holds at a pressure and enthalpy, and what leaves it.
//!
//! The unknowns of a volume are u = ln(p / 1 Pa) of the refrigerant and h, the enthalpy of its flow. A
//! channel holds more liquid than it carries (slip, Zivi 1964, J. Heat Transfer 86:247), a separator lets
//! liquid settle and gives it away from the bottom. Air adds its partial pressure (Dalton).

use super::dual::{D2, D3};
use crate::constants::R_DRY_AIR;
use crate::refrigerant::{Refrigerant, Saturation};

/// Width in vapour quality over which the bubble line is rounded in channels; 0.003 is about half a kJ/kg.
const CHANNEL_ROUNDING: f64 = 0.003;
/// The same in a separator, where void answers quality more steeply.
const SEPARATOR_ROUNDING: f64 = 0.001;
/// Liquid level below which a separator's outlet draws vapour along.
const OUTLET_LEVEL: f64 = 0.06;
/// Liquid level at which an accumulator's bleed hole is half covered, and above which its outlet begins to flood.
const BLEED_LEVEL: f64 = 0.02;
const FLOOD_LEVEL: f64 = 0.8;
/// Void share below which air is bubbles in liquid rather than a gas space.
const BUBBLY_VOID: f64 = 0.15;
/// Partial pressure below which refrigerant clings to walls and oil rather than leave with the air [Pa]. The last traces
/// go ever more slowly, so no volume is ever quite without refrigerant (an estimate: it only has to be invisible).
pub const CLING_PA: f64 = 0.01;
/// Elastic stretch of a volume per pascal: pipes and hoses give a little, so a liquid-full one stays finite.
const STRETCH_PER_PA: f64 = 4e-10;

/// Does the volume hold its phases as they flow, or let them settle?
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// Vapour runs faster than liquid.
    Channel,
    /// Liquid settles and leaves first.
    Separator,
    /// Liquid settles and stays: vapour leaves from the top, with a little liquid through a bleed hole.
    Accumulator {
        /// Liquid drawn through the hole, share of the outflow by mass.
        bleed: f64,
    },
}

/// A volume evaluated at its unknowns; duals by (u, h).
#[derive(Clone, Copy, Debug)]
pub struct Node {
    /// Saturation properties at the refrigerant's own pressure.
    pub sat: Saturation,
    /// Total pressure [Pa].
    pub p: D2,
    /// Change of the total pressure with the mass of air [Pa/kg].
    pub p_per_air: f64,
    /// Refrigerant partial pressure [Pa].
    pub p_ref: f64,
    /// Temperature [K].
    pub t: D2,
    /// Saturation temperature at the refrigerant's pressure [K].
    pub t_sat: D2,
    /// Mass held [kg].
    pub mass: D2,
    /// Internal energy held [J].
    pub energy: D2,
    /// Enthalpy of what leaves [J/kg].
    pub h_out: D2,
    /// Density of what leaves, phases at equal speed [kg/m3].
    pub rho_out: D2,
    /// Quality (h - h_l) / (h_v - h_l), below 0 in liquid, above 1 in vapour.
    pub quality: D2,
    /// Share of the volume that is vapour.
    pub void: f64,
    /// Share of the volume's air that one kilogram of flow carries out [1/kg]: air rides with the vapour at the
    /// vapour's speed.
    pub air_share: D2,
    /// How many times less refrigerant leaves with the air than stands in the gas, because its last traces cling.
    pub clinging: D2,
    /// Within the range of the tables.
    pub valid: bool,
}

/// Liquid, void and slip at a pressure and signed quality.
struct Mixture {
    void: D2,
    rho_l: D2,
    h_l: D2,
    t: D2,
    x: D2,
}

fn by_u(v: f64, slope: f64) -> D2 {
    D2 { v, d: [slope, 0.0] }
}

fn mixture(refrigerant: &Refrigerant, sat: &Saturation, quality: D2, h: f64, kind: Kind) -> (Mixture, bool) {
    let rounding = if kind == Kind::Channel { CHANNEL_ROUNDING } else { SEPARATOR_ROUNDING };
    let full = 0.5 * (1.0 + (1.0 + rounding * rounding).sqrt());
    let x = quality.soft_positive(rounding) * (1.0 / full);
    let ratio = sat.rho_v / sat.rho_l;
    let ratio_slope = ratio * (sat.drho_v_dlnp / sat.rho_v - sat.drho_l_dlnp / sat.rho_l);
    // Slip factor S in void = x / (x + (1 - x) S): the density ratio to the power 2/3 after Zivi, 1 if at rest.
    let slip = if kind == Kind::Channel {
        let c = libm::cbrt(ratio);
        by_u(c * c, 2.0 / 3.0 * c * c / ratio * ratio_slope)
    } else {
        by_u(ratio, ratio_slope)
    };
    let void = x / (x + (D2::constant(1.0) - x) * slip);
    if quality.v < 0.0 {
        let s = refrigerant.state_with(sat, h);
        let liquid = Mixture {
            void,
            rho_l: D2 { v: s.rho_kg_m3, d: [s.drho_dlnp, s.drho_dh] },
            h_l: D2 { v: h, d: [0.0, 1.0] },
            t: D2 { v: s.t_k, d: [s.dt_dlnp, s.dt_dh] },
            x,
        };
        return (liquid, s.valid);
    }
    let saturated = Mixture {
        void,
        rho_l: by_u(sat.rho_l, sat.drho_l_dlnp),
        h_l: by_u(sat.h_l, sat.dh_l_dlnp),
        t: by_u(sat.t_k, sat.dt_dlnp),
        x,
    };
    (saturated, sat.valid)
}

/// Evaluate a volume of `volume_m3` at u and h with `air_kg` of air in it.
pub fn evaluate(refrigerant: &Refrigerant, kind: Kind, volume_m3: f64, air_kg: f64, u: f64, h: f64) -> Node {
    let sat = refrigerant.saturation(u);
    let p = by_u(sat.p_pa, sat.p_pa);
    let room = (p - 1e6) * (STRETCH_PER_PA * volume_m3) + volume_m3;
    let h_l = by_u(sat.h_l, sat.dh_l_dlnp);
    let h_v = by_u(sat.h_v, sat.dh_v_dlnp);
    let h_dual = D2 { v: h, d: [0.0, 1.0] };
    let quality = (h_dual - h_l) / (h_v - h_l);
    let t_sat = by_u(sat.t_k, sat.dt_dlnp);
    let rho_v = by_u(sat.rho_v, sat.drho_v_dlnp);

    let (density, heat_density, t, h_out, rho_out, void, carried, clinging, valid);
    if quality.v >= 1.0 {
        let s = refrigerant.state_with(&sat, h);
        let rho = D2 { v: s.rho_kg_m3, d: [s.drho_dlnp, s.drho_dh] };
        density = rho;
        heat_density = rho * h_dual;
        t = D2 { v: s.t_k, d: [s.dt_dlnp, s.dt_dh] };
        (h_out, rho_out, void, valid) = (h_dual, rho, D2::constant(1.0), s.valid);
        let near = p.recip() * CLING_PA;
        clinging = near.square() * near + near + 1.0;
        carried = rho.recip() * clinging;
    } else {
        let (mix, ok) = mixture(refrigerant, &sat, quality, h, kind);
        let liquid = (D2::constant(1.0) - mix.void) * mix.rho_l;
        density = mix.void * rho_v + liquid;
        heat_density = mix.void * rho_v * h_v + liquid * mix.h_l;
        t = mix.t;
        let leaving = match kind {
            Kind::Channel => mix.x,
            Kind::Separator => drawn_vapour(mix.void),
            Kind::Accumulator { bleed } => vapour_off_the_top(mix.void, bleed),
        };
        h_out = if kind == Kind::Channel { h_dual } else { mix.h_l + (h_v - mix.h_l) * leaving };
        rho_out = (leaving / rho_v + (D2::constant(1.0) - leaving) / mix.rho_l).recip();
        carried = leaving / (mix.void * rho_v);
        (void, valid, clinging) = (mix.void, ok, D2::constant(1.0));
    }
    let per_air = t * R_DRY_AIR * gas_space(void) / room;
    Node {
        sat,
        p: p + per_air * air_kg,
        p_per_air: per_air.v,
        p_ref: sat.p_pa,
        t,
        t_sat,
        mass: room * density,
        energy: room * (heat_density - p),
        h_out,
        rho_out,
        quality,
        void: void.v,
        air_share: carried * (1.0 / volume_m3),
        clinging,
        valid: valid && sat.valid,
    }
}

/// Reciprocal of the gas space as air feels it. Where vapour has all but condensed, air is small bubbles in
/// liquid that is at the full pressure itself; a floor under the gas space keeps a few milligrams of air in a
/// liquid-full cell from turning the step stiff. It falls with void everywhere, so a step has one answer.
fn gas_space(void: D2) -> D2 {
    ((void - BUBBLY_VOID).soft_positive(0.3 * BUBBLY_VOID) + BUBBLY_VOID).recip()
}

/// Vapour share of what a separator gives away: none while liquid covers the outlet.
fn drawn_vapour(void: D2) -> D2 {
    let level = D2::constant(1.0) - void;
    if level.v >= OUTLET_LEVEL {
        return D2::constant(0.0);
    }
    let s = level * (1.0 / OUTLET_LEVEL);
    let value = (1.0 - s.v) * (1.0 - s.v) * (1.0 + 2.0 * s.v);
    s.chain(value, -6.0 * s.v * (1.0 - s.v))
}

/// Vapour share of what an accumulator gives away: all but the bleed while liquid covers the hole, less and less as
/// liquid comes near the mouth of the outlet pipe.
fn vapour_off_the_top(void: D2, bleed: f64) -> D2 {
    let level = D2::constant(1.0) - void;
    let hole = level / (level + BLEED_LEVEL) * bleed;
    let s = ((level.v - FLOOD_LEVEL) / (1.0 - FLOOD_LEVEL)).clamp(0.0, 1.0);
    let over = level.chain(s * s * (3.0 - 2.0 * s), 6.0 * s * (1.0 - s) / (1.0 - FLOOD_LEVEL));
    (D2::constant(1.0) - hole) * (D2::constant(1.0) - over)
}

impl Node {
    /// Density of the gas as a whole [kg/m3], by the volume's own unknowns; `load` is the air that leaves per kilogram of
    /// refrigerant.
    pub fn whole_density(&self, load: D3) -> D3 {
        self.rho_out.with_air(0.0) * (load / self.clinging.with_air(0.0) + 1.0)
    }
    /// Superheat above saturation at the total pressure's refrigerant share, 0 unless vapour [K].
    pub fn superheat_k(&self) -> f64 {
        if self.quality.v > 1.0 { (self.t.v - self.sat.t_k).max(0.0) } else { 0.0 }
    }
    /// Quality as reported: NaN in a single phase.
    pub fn reported_x(&self) -> f64 {
        if self.quality.v > 0.0 && self.quality.v < 1.0 { self.quality.v } else { f64::NAN }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn difference_check(kind: Kind, p: f64, h: f64, air: f64) {
        let r = Refrigerant::r134a();
        let at = |u: f64, h: f64| evaluate(r, kind, 1e-4, air, u, h);
        let u = libm::log(p);
        let n = at(u, h);
        let (eu, eh) = (1e-6, 0.5);
        let pick = [
            ("mass", (|n: &Node| n.mass) as fn(&Node) -> D2),
            ("energy", |n| n.energy),
            ("p", |n| n.p),
            ("t", |n| n.t),
            ("h_out", |n| n.h_out),
            ("rho_out", |n| n.rho_out),
        ];
        for (name, f) in pick {
            let du = (f(&at(u + eu, h)).v - f(&at(u - eu, h)).v) / (2.0 * eu);
            let dh = (f(&at(u, h + eh)).v - f(&at(u, h - eh)).v) / (2.0 * eh);
            let got = f(&n);
            let scale = got.v.abs().max(1e-9);
            assert!(
                (got.d[0] - du).abs() < 2e-4 * du.abs().max(scale),
                "{name} by u at {p} {h}: {} {du}",
                got.d[0]
            );
            assert!(
                (got.d[1] - dh).abs() < 2e-3 * dh.abs().max(1e-6 * scale),
                "{name} by h at {p} {h}: {} {dh}",
                got.d[1]
            );
        }
    }

    #[test]
    fn slopes_agree_with_differences() {
        for kind in [Kind::Channel, Kind::Separator, Kind::Accumulator { bleed: 0.03 }] {
            for (p, h) in [
                (3.5e5, 300e3),
                (3.5e5, 420e3),
                (1.6e6, 260e3),
                (1.6e6, 282e3),
                (1.6e6, 330e3),
                (1.6e6, 470e3),
            ] {
                difference_check(kind, p, h, 0.0);
                difference_check(kind, p, h, 1e-5);
            }
        }
    }

    /// Void fraction of R-134a after S. M. Zivi, J. Heat Transfer 86 (1964) 247, values computed with the open
    /// library `fluids` 1.3.1.
    #[test]
    fn void_follows_zivi() {
        let r = Refrigerant::r134a();
        for (t, x, want) in
            [(323.15, 0.1, 0.4200), (323.15, 0.5, 0.8670), (278.15, 0.3, 0.8837), (278.15, 0.7, 0.9764)]
        {
            let u = libm::log(r.saturation_p_pa(t));
            let s = r.saturation(u);
            let n = evaluate(r, Kind::Channel, 1.0, 0.0, u, s.h_l + x * (s.h_v - s.h_l));
            assert!((n.void - want).abs() < 0.002, "{t} {x}: {} {want}", n.void);
        }
    }
}
