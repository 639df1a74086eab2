//! Every kind of part against its source, and every file as a whole.

use super::*;

/// ISO 8820-3 for blade fuses (from memory): melting times [s] at multiples of the rating.
#[test]
fn a_fuse_melts_within_the_times_of_the_standard() {
    for (share, least_s, most_s) in
        [(1.35, 0.75, 600.0), (2.0, 0.15, 5.0), (3.5, 0.04, 0.5), (6.0, 0.02, 0.1)]
    {
        for rated in [10.0, 15.0, 30.0] {
            let mut fuse = memory::FuseState::default();
            let mut time = 0.0;
            while !fuse.blown && time < 1000.0 {
                fuse.carry(share * rated, rated, 0.001);
                time += 0.001;
            }
            assert!((least_s..=most_s).contains(&time), "{share} times {rated} A: {time} s");
        }
    }
    let mut fuse = memory::FuseState::default();
    for _ in 0..360_000 {
        fuse.carry(1.1, 1.0, 1.0);
    }
    assert!(!fuse.blown, "110 % for a hundred hours");
}
