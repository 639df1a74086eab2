//! Boiling inside tubes and small channels. A method takes either the wall's superheat or the heat flux, as its
//! authors gave it; both are clamped at zero. All hold below dry-out only; [`dry_out`] blends to the vapour film.

use super::single_phase::{Exchange, dittus_boelter};
use super::{FilmFluid, clamp_quality, power, smooth_step};

/// What drives the boiling.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Drive {
    /// Wall above saturation [K].
    SuperheatK(f64),
    /// Heat flux into the refrigerant [W/m2].
    HeatFlux(f64),
}

/// Mass flux and the channel's diameter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Channel {
    /// Mass flux [kg/(m2 s)].
    pub flux_kg_s_m2: f64,
    /// Hydraulic diameter [m].
    pub diameter_m: f64,
}

/// Mass flux below which the boiling number is taken at this one [kg/(m2 s)]; a guard of our own, without which
/// Gungor & Winterton's enhancement grows without bound as flow stops.
const BOILING_NUMBER_FLUX: f64 = 10.0;

impl Channel {
    fn d(&self) -> f64 {
        self.diameter_m.max(1e-6)
    }
    fn g(&self) -> f64 {
        self.flux_kg_s_m2.abs()
    }
    /// Reynolds number and film of the flow's liquid share alone.
    fn liquid(&self, fluid: &FilmFluid, share: f64) -> (f64, f64) {
        let re = self.g() * self.d() * share / fluid.mu_l;
        (re, dittus_boelter(re, fluid.prandtl_l(), Exchange::Heating) * fluid.k_l / self.d())
    }
    /// Heat flux over that which would evaporate all flow through one cross-section.
    fn boiling_number(&self, fluid: &FilmFluid, heat_flux: f64) -> f64 {
        heat_flux.max(0.0) / (self.g().max(BOILING_NUMBER_FLUX) * fluid.h_fg)
    }
}

/// Cooper 1984 pool boiling, roughness 1 µm [W/(m2 K)]:
/// h = 55 q^0.67 p_r^0.12 (-log10 p_r)^-0.55 M^-0.5, M in g/mol; with superheat, q = h dT solved for h.
///
/// Range p_r 0.001 to 0.9. As in the open library ht. Continuous, 0 at rest; the slope by heat flux is unbounded
/// at zero.
pub fn cooper(fluid: &FilmFluid, drive: Drive) -> f64 {
    let pr = fluid.p_reduced.clamp(1e-4, 0.99);
    let base =
        55.0 * power(pr, 0.12) * power(-libm::log10(pr), -0.55) / (1000.0 * fluid.molar_mass_kg_mol).sqrt();
    match drive {
        Drive::HeatFlux(q) => base * power(q, 0.67),
        // 0.33 = 1 - 0.67.
        Drive::SuperheatK(dt) => power(base * power(dt.min(1e3), 0.67), 1.0 / 0.33),
    }
}

/// Forster & Zuber 1955, the pool-boiling part of Chen's method [W/(m2 K)]. `dp_sat_pa` is the rise of saturation
/// pressure from the fluid to the wall.
fn forster_zuber(f: &FilmFluid, superheat_k: f64, dp_sat_pa: f64) -> f64 {
    let top = power(f.k_l, 0.79) * power(f.cp_l, 0.45) * power(f.rho_l, 0.49);
    let under = f.sigma.sqrt() * power(f.mu_l, 0.29) * power(f.h_fg, 0.24) * power(f.rho_v, 0.24);
    0.001_22 * top / under * power(superheat_k, 0.24) * power(dp_sat_pa, 0.75)
}

/// The functions F and S of Chen's method.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChenFactors {
    /// Edelstein, Perez & Chen 1984.
    Edelstein,
    /// Bennett & Chen 1980.
    Bennett,
}

/// Chen 1966 (Industrial & Engineering Chemistry Process Design and Development 5:322) [W/(m2 K)]:
/// h = F h_l + S h_nb, h_l of the liquid's share alone (Dittus & Boelter), h_nb after Forster & Zuber.
///
/// Fitted to water and organic fluids in vertical tubes, x 0 to 0.71, G 54 to 4070 kg/(m2 s), p to 3.5 MPa
/// (ranges from memory). As in the open library ht. Finite at rest and at x = 1, where quality is held at 0.999.
/// Continuous; the slope by superheat is unbounded at zero.
pub fn chen(
    fluid: &FilmFluid,
    channel: &Channel,
    quality: f64,
    (superheat_k, dp_sat_pa): (f64, f64),
    factors: ChenFactors,
) -> f64 {
    let x = clamp_quality(quality).min(0.999);
    let (re, film) = channel.liquid(fluid, 1.0 - x);
    let convective = power(1.0 + fluid.inverse_martinelli(x).sqrt(), 1.78);
    let (enhance, suppress) = match factors {
        ChenFactors::Edelstein => {
            (convective, 0.9622 - 0.5822 * libm::atan(re * power(convective, 1.25) / 6.18e4))
        }
        ChenFactors::Bennett => {
            let f = power(0.5 * (fluid.prandtl_l() + 1.0), 0.444) * convective;
            let bubble = 0.041 * (fluid.sigma / (super::GRAVITY * (fluid.rho_l - fluid.rho_v))).sqrt();
            let y = (f * film * bubble / fluid.k_l).max(1e-9);
            (f, -libm::expm1(-y) / y)
        }
    };
    let pool = forster_zuber(fluid, superheat_k.clamp(0.0, 1e3), dp_sat_pa.clamp(0.0, 1e8));
    suppress.max(0.0) * pool + enhance * film
}

/// Gungor & Winterton 1986 (International Journal of Heat and Mass Transfer 29:351) [W/(m2 K)]:
/// h = E h_l + S h_pool, E = 1 + 24000 Bo^1.16 + 1.37 X_tt^-0.86, S = 1 / (1 + 1.15e-6 E^2 Re_l^1.17), pool
/// boiling after Cooper.
///
/// Fitted to 3693 points: water, R-11, R-12, R-22, R-113, R-114, ethylene glycol; mostly upflow in tubes of 3 to
/// 32 mm; mean deviation 21 %. From memory; the formula agrees with open re-implementations (ThermoSysPro, Fluid
/// Dissipation), the libraries here have none to check against. Without its factor for horizontal flow of Froude
/// number below 0.05, which is not continuous. Continuous; the slope by heat flux is unbounded at zero.
pub fn gungor_winterton(fluid: &FilmFluid, channel: &Channel, quality: f64, heat_flux: f64) -> f64 {
    let x = clamp_quality(quality).min(0.999);
    let (re, film) = channel.liquid(fluid, 1.0 - x);
    let bo = channel.boiling_number(fluid, heat_flux);
    let e = 1.0 + 24_000.0 * power(bo, 1.16) + 1.37 * power(fluid.inverse_martinelli(x), 0.86);
    let s = 1.0 / (1.0 + 1.15e-6 * e * e * power(re, 1.17));
    e * film + s * cooper(fluid, Drive::HeatFlux(heat_flux))
}

/// Liu & Winterton 1991 (International Journal of Heat and Mass Transfer 34:2759) [W/(m2 K)]:
/// h^2 = (F h_L)^2 + (S h_pool)^2, F = (1 + x Pr_l (rho_l/rho_v - 1))^0.35, S = 1 / (1 + 0.055 F^0.1 Re_L^0.16), h_L
/// and Re_L with all flow as liquid, pool boiling after Cooper.
///
/// Fitted to the data of Gungor & Winterton (D 3 to 32 mm, p_r 0.002 to 0.9, G 12 to 8200 kg/(m2 s), from memory).
/// As in the open library ht, without the factor for low Froude numbers. At rest pool boiling remains.
/// Continuous, rising with quality; slopes by flow and by drive are unbounded where these are zero, else C1.
pub fn liu_winterton(fluid: &FilmFluid, channel: &Channel, quality: f64, drive: Drive) -> f64 {
    let x = clamp_quality(quality);
    let (re, film) = channel.liquid(fluid, 1.0);
    let f = power(1.0 + x * fluid.prandtl_l() * (fluid.rho_l / fluid.rho_v - 1.0), 0.35);
    let s = 1.0 / (1.0 + 0.055 * power(f, 0.1) * power(re, 0.16));
    let (convective, pool) = (f * film, s * cooper(fluid, drive));
    (convective * convective + pool * pool).sqrt()
}

/// Sun & Mishima 2009 (International Journal of Heat and Mass Transfer 52:5323), small channels [W/(m2 K)]:
/// h = 6 Re_LO^1.05 Bo^0.54 We_L^-0.191 (rho_l/rho_v)^-0.142 k_l/D, of any quality below dry-out.
///
/// Fitted to 2501 points of 11 fluids, D 0.21 to 6.05 mm (as the open library ht says, whose form this is). 0 at rest and without heat; grows as flux^0.128 only, since boiling leads in small
/// channels. Continuous; the slope by heat flux is unbounded at zero.
pub fn sun_mishima(fluid: &FilmFluid, channel: &Channel, heat_flux: f64) -> f64 {
    let (g, d) = (channel.g(), channel.d());
    let q = heat_flux.max(0.0);
    // Re^1.05 Bo^0.54 We^-0.191 with the powers of G gathered, so nothing divides by a flux of zero.
    let gathered = power(g, 1.05 - 0.54 - 0.382) * power(d / fluid.mu_l, 1.05) * power(q / fluid.h_fg, 0.54);
    let weber = power(fluid.rho_l * fluid.sigma / d, 0.191);
    6.0 * gathered * weber * power(fluid.rho_v / fluid.rho_l, 0.142) * fluid.k_l / d
}

/// Lazarek & Black 1982 (International Journal of Heat and Mass Transfer 25:945), small channels [W/(m2 K)]:
/// h = 30 Re_LO^0.857 Bo^0.714 k_l/D.
///
/// R-113 in a 3.1 mm tube: x 0 to 0.6, Re_LO 860 to 5500, G 125 to 750 kg/(m2 s), q 14 to 380 kW/m2. As in the
/// open library ht. 0 at rest and without heat. Continuous; the slope by heat flux is unbounded at zero.
pub fn lazarek_black(fluid: &FilmFluid, channel: &Channel, heat_flux: f64) -> f64 {
    let (g, d) = (channel.g(), channel.d());
    let gathered = power(g, 0.857 - 0.714) * power(d / fluid.mu_l, 0.857);
    30.0 * gathered * power(heat_flux.max(0.0) / fluid.h_fg, 0.714) * fluid.k_l / d
}

/// Quality above which a boiling wall begins to dry out (our own; as in `plant/heat.rs`).
pub const DRY_OUT: f64 = 0.85;

/// Between the boiling film and the film of vapour as the wall dries out, from quality 0.85 to 1: our own blend,
/// C1, monotone. None of the methods above says when a wall dries; 0.85 is what re-implementations use too.
pub fn dry_out(boiling: f64, vapour: f64, quality: f64) -> f64 {
    boiling + (vapour - boiling) * smooth_step((quality - DRY_OUT) / (1.0 - DRY_OUT))
}

#[cfg(test)]
#[path = "boiling_tests.rs"]
mod tests;
