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

/// Every file: names that exist once, relays with coil and contact, every point with its place in the drawing.
#[test]
fn every_file_fits() {
    let rigs: Vec<_> = Rig::circuits().collect();
    assert_eq!(rigs.len(), 5, "a circuit that does not parse is left out of this list");
    for (rig, spec) in rigs {
        assert_eq!(spec.problems(), Vec::<String>::new(), "{rig}");
    }
}

#[test]
fn what_does_not_fit_is_named() {
    let mut spec = spec("compact_car");
    spec.parts[0].to = "nowhere".into();
    spec.parts[1].id = "alternator".into();
    spec.points[1].at = spec.points[0].at;
    spec.parts.retain(|p| p.id != "fan_relay_contact");
    let problems = spec.problems().join("\n");
    for word in
        ["no point `nowhere`", "`alternator` is there twice", "share a place", "part `fan_relay_coil`"]
    {
        assert!(problems.contains(word), "{word} in\n{problems}");
    }
    let mut c = Circuit::new(&spec);
    pass(&mut c, &hot_day(), 1.0);
}
