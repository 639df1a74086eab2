//! Dye: it goes round with the oil and comes out with it.

/// Time in which a running compressor carries dye round [s] (common practice, no source: ten minutes show it).
const ROUND_S: f64 = 200.0;

/// Share of the dye that has been carried round, a second of running later.
pub fn mixed(share: f64) -> f64 {
    share + (1.0 - share) / ROUND_S
}

/// Dye that leaves with oil [kg]: so much put in, a share of it carried round, among so much oil, of which so much is lost
/// [kg].
pub fn out_kg(dye_kg: f64, mixed: f64, oil_kg: f64, oil_lost_kg: f64) -> f64 {
    let share = dye_kg / oil_kg * mixed;
    oil_lost_kg.max(0.0) * share.min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ten_minutes_carry_it_round() {
        let share = (0..600).fold(0.0, |share, _| mixed(share));
        assert!((0.9..1.0).contains(&share), "{share}");
        assert!((out_kg(0.01, 1.0, 0.1, 0.02) - 0.002).abs() < 1e-12);
        assert_eq!(out_kg(0.01, 1.0, 0.1, -0.02), 0.0);
    }
}
