//! A walk through the table: each knob is read, refused, turned and told by its line alone.

use super::*;

/// Values a knob may have: both ends of its range, or both states of a switch.
fn allowed(knob: Knob) -> Vec<Change> {
    let values = match knob.info().scale {
        Scale::Switch => vec![Value::Switch(false), Value::Switch(true)],
        Scale::Number { range, .. } => vec![Value::Number(range.min), Value::Number(range.max)],
    };
    values.into_iter().map(|value| knob.to(value).expect("its own kind of value")).collect()
}

fn text_of(value: Value) -> String {
    match value {
        Value::Switch(on) => on.to_string(),
        Value::Number(number) => number.to_string(),
    }
}

#[test]
fn each_is_found_by_its_name_and_has_its_own() {
    for &knob in Knob::ALL {
        let info = knob.info();
        assert_eq!(Knob::by_key(info.key), Some(knob));
        assert_eq!(Controls::default().get(knob).knob(), knob);
        assert!(info.told.contains("{}") && !info.label.is_empty(), "{}", info.key);
        assert!(info.meaning().ends_with('.'), "{}", info.meaning());
        // A unit stands in the sentence, for that is all the help shows.
        assert!(info.meaning().contains(info.unit()), "{}", info.meaning());
        let twins = Knob::ALL.iter().filter(|other| other.info().label == info.label);
        assert_eq!(twins.count(), 1, "{}", info.label);
    }
    assert_eq!(Knob::by_key("no_such_knob"), None);
}

#[test]
fn what_is_allowed_is_read_and_turned() {
    for &knob in Knob::ALL {
        assert_eq!(Controls::default().get(knob).fault_in_value(), None, "{knob:?} where it usually stands");
        for change in allowed(knob) {
            assert_eq!(change.fault_in_value(), None, "{change:?}");
            assert_eq!(knob.read(&text_of(change.value())), Ok(change));
            let mut controls = Controls::default();
            controls.turn(change);
            assert_eq!(controls.get(knob), change);
            for &other in Knob::ALL.iter().filter(|&&other| other != knob) {
                assert_eq!(controls.get(other), Controls::default().get(other), "{knob:?} turns {other:?}");
            }
            assert!(change.words().contains(&change.value_words()), "{}", change.words());
        }
    }
}

#[test]
fn what_lies_just_outside_is_refused_and_so_is_no_number() {
    for &knob in Knob::ALL {
        let key = knob.info().key;
        let wrong = match knob.info().range() {
            None => vec!["yes".to_owned(), "1".to_owned(), String::new()],
            Some(range) => {
                let beyond = 1e-6 * (range.max - range.min);
                let values =
                    [range.min - beyond, range.max + beyond, f64::NAN, f64::INFINITY, -f64::INFINITY];
                for value in values {
                    let change = knob.to(Value::Number(value)).expect("a number");
                    let (_, named) = change.outside().expect("refused");
                    assert_eq!(named, range);
                }
                let text = values.map(|value| value.to_string());
                text.into_iter().chain(["true".to_owned(), String::new()]).collect()
            }
        };
        for text in wrong {
            let reason = knob.read(&text).expect_err("refused");
            assert!(reason.starts_with(key), "{reason}");
        }
        let other = if knob.info().range().is_some() { Value::Switch(true) } else { Value::Number(1.0) };
        assert_eq!(knob.to(other), None, "{key}");
    }
}

#[test]
fn files_have_each_under_its_key_and_leave_the_rare_ones_out() {
    let text = serde_json::to_string(&Controls::default()).unwrap();
    let usual = "{\"engine_on\":true,\"engine_rpm\":900.0,\"ac_request\":true,\"blower_pct\":100.0,\
        \"recirculate\":true,\"road_speed_kmh\":0.0,\"ambient_c\":35.0,\"relative_humidity_pct\":40.0,\
        \"solar_w_m2\":0.0,\"people\":1.0}";
    assert_eq!(text, usual, "state hashes are taken of it");
    for &knob in Knob::ALL {
        let key = knob.info().key;
        for change in allowed(knob) {
            let text = ron::to_string(&change).unwrap();
            assert!(text.starts_with(&format!("{key}(")), "{text}");
            assert_eq!(ron::from_str(&text), Ok(change));
            let mut controls = Controls::default();
            controls.turn(change);
            let json = serde_json::to_string(&controls).unwrap();
            let left_out = !json.contains(&format!("\"{key}\":"));
            assert!(!left_out || change == Controls::default().get(knob), "{key} is lost");
            assert_eq!(serde_json::from_str::<Controls>(&json).unwrap(), controls);
        }
        // What a file may leave out is as the table has it.
        let mut fields: serde_json::Value = serde_json::from_str(usual).unwrap();
        fields.as_object_mut().unwrap().remove(key);
        let read = serde_json::from_value::<Controls>(fields).unwrap();
        assert_eq!(read, Controls::default(), "{key} left out");
    }
    assert_eq!(ron::from_str("()"), Ok(Controls::default()));
    assert!(ron::from_str::<Controls>("(engine_off: true)").is_err(), "an unknown knob");
}

#[test]
fn hand_valves_are_found_by_name() {
    for valve in HandValve::ALL {
        assert_eq!(HandValve::by_key(valve.key()), Some(valve));
        assert_eq!(Knob::by_key(valve.key()), None);
    }
    assert!(HandValve::RANGE.holds(100.0) && !HandValve::RANGE.holds(100.1));
    assert_eq!(out_of_range(2.0, "", 0.0, 1.0).as_deref(), Some("2 is outside 0 to 1"));
    assert_eq!(out_of_range(1.0, "", 0.0, 1.0), None);
}
