//! Numbers of CoolProp 8.0.0 (R-134a and R-1234yf) and of the US Standard Atmosphere 1976.

use super::*;
use crate::units::{ATMOSPHERE_PA, ZERO_C_K};

/// Ticks in a second.
const PER_S: f64 = 20.0;
const PSI: f64 = crate::constants::PSI_PA;

fn reading(probe: Probe, value: f64, at_s: f64) -> Reading {
    let uncertainty = probe.uncertainty(value);
    Reading { tick: (at_s * PER_S) as u64, probe, value, uncertainty }
}
fn pipe(place: PipePlace, c: f64) -> Reading {
    reading(Probe::Pipe(place), c + ZERO_C_K, 10.0)
}
fn air(place: AirPlace, c: f64) -> Reading {
    reading(Probe::Air(place), c + ZERO_C_K, 20.0)
}
fn r134a() -> &'static Refrigerant {
    Refrigerant::r134a()
}
fn ask(what: WorkedValue, readings: &[Reading], answer: f64, unit: WorkedUnit) -> Worked {
    check(what, &readings.iter().collect::<Vec<_>>(), answer, unit, r134a(), ATMOSPHERE_PA)
}
/// 0 °C boils at 292.80 kPa; the pipe is at 6 °C.
fn suction() -> Vec<Reading> {
    vec![reading(Probe::LowGauge, 292_800.0 - ATMOSPHERE_PA, 0.0), pipe(PipePlace::EvaporatorOutlet, 6.0)]
}
/// 50 °C boils at 1317.91 kPa; the liquid pipe is at 44 °C.
fn liquid() -> Vec<Reading> {
    vec![reading(Probe::HighGauge, 1_317_910.0 - ATMOSPHERE_PA, 0.0), pipe(PipePlace::ValveInlet, 44.0)]
}

#[test]
fn the_right_sum_is_right_in_every_unit_of_the_trade() {
    use WorkedUnit as U;
    use WorkedValue as W;
    for (what, readings, answer, unit) in [
        (W::Superheat, suction(), 6.0, U::Kelvin),
        (W::Superheat, suction(), 6.0, U::Celsius),
        (W::Superheat, suction(), 10.8, U::FahrenheitDegrees),
        (W::Subcooling, liquid(), 6.0, U::Kelvin),
        (W::Approach, vec![liquid()[0].clone(), air(AirPlace::Outside, 35.0)], 15.0, U::Kelvin),
        (W::Split, vec![air(AirPlace::Cabin, 25.0), air(AirPlace::Vent, 7.0)], 18.0, U::Kelvin),
        (W::Saturation, vec![suction()[0].clone()], 0.0, U::Celsius),
        (W::Saturation, vec![liquid()[0].clone()], 122.0, U::Fahrenheit),
        (W::Absolute, vec![suction()[0].clone()], 2.928, U::Bar),
        (W::Absolute, vec![suction()[0].clone()], 292.8, U::Kilopascal),
        (W::Absolute, vec![suction()[0].clone()], 42.5, U::Psi),
    ] {
        let worked = ask(what, &readings, answer, unit);
        assert!(worked.right(), "{what:?} {answer} {unit:?}: {worked}");
    }
}

#[test]
fn a_service_chart_counts_as_right_but_two_kelvin_off_do_not() {
    // The chart of a Suzuki service manual (2006) has 1222.1 kPa gauge at 50 °C, the table 1216.6.
    let chart = vec![reading(Probe::HighGauge, 1_222_100.0, 0.0), pipe(PipePlace::ValveInlet, 44.0)];
    assert!(ask(WorkedValue::Subcooling, &chart, 6.0, WorkedUnit::Kelvin).right());
    let off = ask(WorkedValue::Subcooling, &liquid(), 8.0, WorkedUnit::Kelvin);
    assert_eq!(off.verdict, Verdict::Close, "{off}");
    assert!(off.tolerance < 1.1 && off.uncertainty > 2.5, "{off:?}");
    let far = ask(WorkedValue::Subcooling, &liquid(), 14.0, WorkedUnit::Kelvin);
    assert_eq!(far.verdict, Verdict::ArithmeticOff, "{far}");
}

#[test]
fn gauge_and_absolute_are_told_apart() {
    // 191.475 kPa taken as absolute boils at -11.1 °C: 17.1 K of superheat instead of 6.
    let wrong = r134a().saturation(libm::log(191_475.0)).t_k - ZERO_C_K;
    let superheat = ask(WorkedValue::Superheat, &suction(), 6.0 - wrong, WorkedUnit::Kelvin);
    assert_eq!(superheat.verdict, Verdict::GaugeAsAbsolute, "{superheat}");
    assert!((superheat.value.unwrap() - 6.0).abs() < 0.05);
    let gauge = vec![suction()[0].clone()];
    let p = ask(WorkedValue::Absolute, &gauge, 1.915, WorkedUnit::Bar);
    assert_eq!(p.verdict, Verdict::GaugeAsAbsolute, "{p}");
    let p = ask(WorkedValue::Absolute, &gauge, 3.941, WorkedUnit::Bar);
    assert_eq!(p.verdict, Verdict::AbsoluteAsGauge, "{p}");
    let twice = r134a().saturation(libm::log(292_800.0 + ATMOSPHERE_PA)).t_k;
    let t = ask(WorkedValue::Saturation, &gauge, twice - ZERO_C_K, WorkedUnit::Celsius);
    assert_eq!(t.verdict, Verdict::AbsoluteAsGauge, "{t}");
}

#[test]
fn units_and_signs_are_told_apart() {
    let f_for_c = ask(WorkedValue::Saturation, &[liquid()[0].clone()], 122.0, WorkedUnit::Celsius);
    assert_eq!(f_for_c.verdict, Verdict::WrongUnit("°F"), "{f_for_c}");
    let psi_for_bar = ask(WorkedValue::Absolute, &[suction()[0].clone()], 42.5, WorkedUnit::Bar);
    assert_eq!(psi_for_bar.verdict, Verdict::WrongUnit("psi"), "{psi_for_bar}");
    let f_degrees = ask(WorkedValue::Superheat, &suction(), 10.8, WorkedUnit::Kelvin);
    assert_eq!(f_degrees.verdict, Verdict::WrongUnit("Fahrenheit degrees"), "{f_degrees}");
    let pressure_for_k = ask(WorkedValue::Superheat, &suction(), 6.0, WorkedUnit::Bar);
    assert_eq!(pressure_for_k.verdict, Verdict::WrongUnit("K"), "{pressure_for_k}");
    let offset = ask(WorkedValue::Superheat, &suction(), 42.8, WorkedUnit::FahrenheitDegrees);
    assert_eq!(offset.verdict, Verdict::ThirtyTwoAdded, "{offset}");
    let sign = ask(WorkedValue::Subcooling, &liquid(), -6.0, WorkedUnit::Kelvin);
    assert_eq!(sign.verdict, Verdict::SignSwapped, "{sign}");
}

#[test]
fn wrong_and_missing_readings_are_named() {
    let says = |what, readings: &[Reading], part: &str| {
        let worked = ask(what, readings, 6.0, WorkedUnit::Kelvin);
        assert!(matches!(worked.verdict, Verdict::WrongPlaces(_)), "{worked}");
        assert!(worked.to_string().contains(part), "{worked}");
        assert_eq!(worked.value, None);
    };
    let wrong_pipe = [suction()[0].clone(), pipe(PipePlace::CompressorOutlet, 80.0)];
    says(WorkedValue::Superheat, &wrong_pipe, "compressor outlet pipe");
    let bright = |taped| {
        let probe = Probe::Infrared { place: PipePlace::EvaporatorOutlet, taped };
        [suction()[0].clone(), reading(probe, 6.0 + ZERO_C_K, 5.0)]
    };
    says(WorkedValue::Superheat, &bright(false), "bright metal");
    assert!(ask(WorkedValue::Superheat, &bright(true), 6.0, WorkedUnit::Kelvin).right());
    says(WorkedValue::Superheat, &[liquid()[0].clone(), suction()[1].clone()], "other gauge");
    says(WorkedValue::Superheat, &suction()[1..], "low gauge is missing");
    says(WorkedValue::Subcooling, &liquid()[..1], "temperature is missing");
    says(
        WorkedValue::Split,
        &[air(AirPlace::Outside, 35.0), air(AirPlace::Vent, 8.0)],
        "cabin air is missing",
    );
    says(WorkedValue::Saturation, &[suction()[0].clone(), liquid()[0].clone()], "both gauges");
    says(WorkedValue::Absolute, &[], "no gauge");
}

#[test]
fn readings_belong_to_one_settled_moment() {
    let mut late = suction();
    late[1].tick += 70 * 20;
    let worked = ask(WorkedValue::Superheat, &late, 6.0, WorkedUnit::Kelvin);
    assert_eq!(worked.verdict, Verdict::TooFarApart(80.0), "{worked}");
    // The gauge fell by half a bar within the minute before, as the notebook shows.
    let mut notebook = vec![reading(Probe::LowGauge, 241_475.0, 0.0)];
    notebook.extend(suction().into_iter().map(|mut r| {
        r.tick += 50 * 20;
        r
    }));
    let ask_in = |indices: &[usize]| {
        check_in(&notebook, indices, WorkedValue::Superheat, 6.0, WorkedUnit::Kelvin, r134a(), ATMOSPHERE_PA)
    };
    let worked = ask_in(&[1, 2]);
    assert_eq!(worked.verdict, Verdict::NotSettled("low gauge", 50_000.0), "{worked}");
    assert!(worked.to_string().contains("0.5 bar"));
    notebook.remove(0);
    let ask_in = |indices: &[usize]| {
        check_in(&notebook, indices, WorkedValue::Superheat, 6.0, WorkedUnit::Kelvin, r134a(), ATMOSPHERE_PA)
    };
    assert!(ask_in(&[0, 1]).right());
    assert!(matches!(ask_in(&[7, 900]).verdict, Verdict::WrongPlaces(_)), "indices that do not exist");
}

#[test]
fn altitude_counts() {
    // CoolProp 8.0.0 and the US Standard Atmosphere 1976: 0 °C reads 30.4 psig at 5,280 ft, where the air has 83,428 Pa.
    let high_up = [reading(Probe::LowGauge, 30.4 * PSI, 0.0)];
    let refs: Vec<&Reading> = high_up.iter().collect();
    let at = |c: f64| check(WorkedValue::Saturation, &refs, c, WorkedUnit::Celsius, r134a(), 83_428.0);
    assert!(at(0.0).right(), "{}", at(0.0));
    assert!(at(1.6).verdict == Verdict::SeaLevel, "{}", at(1.6));
}

#[test]
fn other_refrigerants_have_their_own_tables() {
    // CoolProp 8.0.0: R-1234yf boils at 315.88 kPa at 0 °C.
    let yf = Refrigerant::by_name("R-1234yf").unwrap();
    let gauge = reading(Probe::LowGauge, 315_880.0 - ATMOSPHERE_PA, 0.0);
    let t = check(WorkedValue::Saturation, &[&gauge], 0.0, WorkedUnit::Celsius, yf, ATMOSPHERE_PA);
    assert!(t.right() && (t.value.unwrap() - ZERO_C_K).abs() < 0.05, "{t}");
}

#[test]
fn nothing_panics_on_odd_numbers() {
    let empty = reading(Probe::LowGauge, -ATMOSPHERE_PA, 0.0);
    let t = check(WorkedValue::Saturation, &[&empty], 0.0, WorkedUnit::Celsius, r134a(), ATMOSPHERE_PA);
    assert_eq!(t.verdict, Verdict::NoSaturation);
    for answer in [f64::NAN, f64::INFINITY, -1e300] {
        for unit in [WorkedUnit::Kelvin, WorkedUnit::Psi, WorkedUnit::Fahrenheit] {
            assert!(!ask(WorkedValue::Superheat, &suction(), answer, unit).right());
            assert!(!ask(WorkedValue::Absolute, &suction()[..1], answer, unit).to_string().is_empty());
        }
    }
    let mut odd = suction();
    odd[0].value = f64::NAN;
    assert_eq!(ask(WorkedValue::Superheat, &odd, 6.0, WorkedUnit::Kelvin).verdict, Verdict::NoSaturation);
}
