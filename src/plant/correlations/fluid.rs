//! Properties of a saturated fluid as the film correlations need them.

/// Saturated liquid and vapour at one pressure, SI. Fields are public so that a property table can fill them;
/// [`FilmFluid::new`] keeps them positive, which every correlation relies on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FilmFluid {
    /// Pressure over critical pressure.
    pub p_reduced: f64,
    /// Density of saturated liquid [kg/m3].
    pub rho_l: f64,
    /// Density of saturated vapour [kg/m3].
    pub rho_v: f64,
    /// Viscosity of saturated liquid [Pa s].
    pub mu_l: f64,
    /// Viscosity of saturated vapour [Pa s].
    pub mu_v: f64,
    /// Thermal conductivity of saturated liquid [W/(m K)].
    pub k_l: f64,
    /// Thermal conductivity of saturated vapour [W/(m K)].
    pub k_v: f64,
    /// Heat capacity of saturated liquid [J/(kg K)].
    pub cp_l: f64,
    /// Heat capacity of saturated vapour [J/(kg K)].
    pub cp_v: f64,
    /// Surface tension [N/m].
    pub sigma: f64,
    /// Heat of evaporation [J/kg].
    pub h_fg: f64,
    /// Molar mass [kg/mol].
    pub molar_mass_kg_mol: f64,
}

/// A number kept within bounds; what is not a number takes the lower one.
fn within(value: f64, low: f64, high: f64) -> f64 {
    if value > low { value.min(high) } else { low }
}

impl FilmFluid {
    /// From numbers in the order of the fields. Absurd ones (negative, not finite, beyond the critical point)
    /// are replaced by the nearest that keeps every correlation finite: iterates of a solver may be absurd.
    pub fn new(
        p_reduced: f64,
        (rho_l, rho_v): (f64, f64),
        (mu_l, mu_v): (f64, f64),
        (k_l, k_v): (f64, f64),
        (cp_l, cp_v): (f64, f64),
        sigma: f64,
        h_fg: f64,
        molar_mass_kg_mol: f64,
    ) -> Self {
        let rho_v = within(rho_v, 1e-3, 1e4);
        Self {
            p_reduced: within(p_reduced, 1e-4, 0.99),
            rho_l: within(rho_l, 1.001 * rho_v, 2e4),
            rho_v,
            mu_l: within(mu_l, 1e-7, 1.0),
            mu_v: within(mu_v, 1e-7, 1.0),
            k_l: within(k_l, 1e-4, 1e2),
            k_v: within(k_v, 1e-4, 1e2),
            cp_l: within(cp_l, 10.0, 1e6),
            cp_v: within(cp_v, 10.0, 1e6),
            sigma: within(sigma, 1e-6, 1.0),
            h_fg: within(h_fg, 1e3, 1e8),
            molar_mass_kg_mol: within(molar_mass_kg_mol, 1e-3, 1.0),
        }
    }
    /// Prandtl number of the liquid.
    pub fn prandtl_l(&self) -> f64 {
        self.cp_l * self.mu_l / self.k_l
    }
    /// Prandtl number of the vapour.
    pub fn prandtl_v(&self) -> f64 {
        self.cp_v * self.mu_v / self.k_v
    }
    /// Reciprocal of the Lockhart-Martinelli parameter with both phases turbulent, held finite near pure vapour
    /// (x/(1-x))^0.9 (rho_l/rho_v)^0.5 (mu_v/mu_l)^0.1; 0 in liquid.
    pub fn inverse_martinelli(&self, quality: f64) -> f64 {
        let x = super::clamp_quality(quality).min(0.999);
        super::power(x / (1.0 - x), 0.9)
            * (self.rho_l / self.rho_v).sqrt()
            * super::power(self.mu_v / self.mu_l, 0.1)
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::super::testing::near;
    use super::FilmFluid;

    /// R-134a at 50 °C, CoolProp 8.0.0.
    pub fn at_50c() -> FilmFluid {
        FilmFluid::new(
            1_317_910.0 / 4_059_280.0,
            (1102.31, 66.272),
            (1.417_73e-4, 1.291_67e-5),
            (0.070_431, 0.016_738),
            (1566.15, 1246.06),
            0.004_897_7,
            151_814.0,
            0.102_032,
        )
    }
    /// R-134a at 5 °C, from the same places.
    pub fn at_5c() -> FilmFluid {
        FilmFluid::new(
            349_660.0 / 4_059_280.0,
            (1278.07, 17.1309),
            (2.501_11e-4, 1.091_10e-5),
            (0.089_808, 0.011_954),
            (1355.16, 920.59),
            0.010_730_1,
            194_740.0,
            0.102_032,
        )
    }
    /// Fluids that no table would hand out.
    pub fn absurd() -> Vec<FilmFluid> {
        [0.0, -1.0, 1e-300, 1e300, f64::NAN, f64::INFINITY]
            .map(|v| FilmFluid::new(v, (v, v), (v, v), (v, v), (v, v), v, v, v))
            .to_vec()
    }

    /// Prandtl numbers of CoolProp 8.0.0: 3.1526 and 3.7741 for liquid, 0.9616 for vapour at 50 °C.
    #[test]
    fn prandtl_numbers() {
        near("liquid, 50 °C", at_50c().prandtl_l(), 3.1526, 1e-3);
        near("liquid, 5 °C", at_5c().prandtl_l(), 3.7741, 1e-3);
        near("vapour, 50 °C", at_50c().prandtl_v(), 0.9616, 1e-3);
    }

    #[test]
    fn absurd_numbers_become_positive_and_finite() {
        for f in absurd() {
            assert!(f.rho_l > f.rho_v && f.rho_v > 0.0, "{f:?}");
            assert!(f.p_reduced > 0.0 && f.p_reduced < 1.0, "{f:?}");
            assert!(f.prandtl_l().is_finite() && f.prandtl_v().is_finite() && f.sigma > 0.0, "{f:?}");
        }
        let good = at_5c();
        assert_eq!((good.rho_l, good.k_v, good.molar_mass_kg_mol), (1278.07, 0.011_954, 0.102_032));
    }

    #[test]
    fn the_martinelli_parameter_is_one_where_both_phases_pull_alike() {
        let f = at_50c();
        assert_eq!(f.inverse_martinelli(-1.0), 0.0);
        assert!(f.inverse_martinelli(2.0).is_finite());
        // x = 1/2: sqrt(1102.31 / 66.272) (1.29167e-5 / 1.41773e-4)^0.1, by hand.
        near("x = 0.5", f.inverse_martinelli(0.5), 3.2096, 1e-3);
    }
}
