//! Every bound that a file of a person's can reach: the last value that is allowed, and the first that is not.

use pintle::bench::{Action, Bench, Diagnosis};
use pintle::fault::{FaultId, Recurs};
use pintle::instrument::{PipePlace, Probe};
use pintle::knobs::{HandValve, Knob, Value};
use pintle::procedure;
use pintle::record::{MOST_TICKS, Record, ReplayError, replay, start};
use pintle::scenario::load::{LARGEST_BYTES, from_path, from_text};
use pintle::scenario::{SHIPPED, load};

fn shipped(id: &str) -> &'static str {
    SHIPPED.iter().find(|s| s.id == id).unwrap().text
}

/// The healthy scenario with one piece of its text put otherwise: what is said of it, nothing when it is fine.
fn healthy(from: &str, to: &str) -> Option<String> {
    otherwise("healthy", from, to)
}

fn otherwise(id: &str, from: &str, to: &str) -> Option<String> {
    let text = shipped(id);
    assert!(text.contains(from), "{from} is not in {id} any more");
    from_text("b.ron", &text.replacen(from, to, 1)).err().map(|bad| bad.to_string())
}

/// It is refused at a place in the file, with these words.
#[track_caller]
fn refused(said: Option<String>, words: &[&str]) {
    let said = said.expect("it is refused");
    let digits = said.strip_prefix("b.ron:").expect("the file's name");
    assert!(digits.starts_with(|c: char| c.is_ascii_digit()), "no line and column: {said}");
    for word in words {
        assert!(said.contains(word), "`{word}` is missing in: {said}");
    }
}

const NO_NUMBERS: [&str; 4] = ["NaN", "inf", "-inf", "1e300"];

/// NaN, -1 and 1e300 passed.
#[test]
fn amounts_in_the_bay() {
    let bay = |setup: &str| otherwise("bay_open_bench", "bay: ()", &format!("bay: ({setup})"));
    for (field, most) in [("supply_kg", 12.5), ("recovery_kg", 21.2), ("charging_kg", 2.3)] {
        for kg in ["0".to_owned(), most.to_string()] {
            assert_eq!(bay(&format!("{field}: {kg}")), None);
        }
        for kg in NO_NUMBERS.into_iter().chain(["-1", "-1e-9", "22"]) {
            refused(bay(&format!("left_open: true, {field}: {kg}")), &[&format!("bay.{field}: "), "kg"]);
        }
    }
}

#[test]
fn knobs_at_the_start_and_later() {
    for &knob in Knob::ALL {
        let Some(range) = knob.info().range() else { continue };
        let key = knob.info().key;
        // What is left out stands as usual.
        let start = |value: f64| {
            let text = format!(
                "(format: 1, id: \"b\", title: \"b\", unit: \"b\", trains: \"b\", work_order: \"b\",\n\
                rig: \"compact_car\", start: ({key}: {value:?}))"
            );
            from_text("b.ron", &text).err().map(|bad| bad.to_string())
        };
        let moment = |value: f64| {
            healthy("hints:", &format!("moments: [(at_s: 1, change: {key}({value:?}))], hints:"))
        };
        for value in [range.min, range.max] {
            assert_eq!((start(value), moment(value)), (None, None), "{key} {value}");
        }
        let beyond = 1e-6 * (range.max - range.min);
        let outside =
            [range.min - beyond, range.max + beyond, f64::NAN, f64::INFINITY, -f64::INFINITY, 1e300];
        for value in outside {
            refused(start(value), &[&format!("start.{key}: ")]);
            refused(moment(value), &[&format!("moments[0].change: {key}: ")]);
        }
    }
}

/// A missing knob was an error that named no way out.
#[test]
fn knobs_that_are_left_out_stand_as_usual() {
    let text = "(format: 1, id: \"b\", title: \"b\", unit: \"b\", trains: \"b\", work_order: \"b\", rig: \"sedan\", \
        start: (ambient_c: 20))";
    let start = from_text("b.ron", text).unwrap().start;
    let usual = pintle::knobs::Controls { ambient_c: 20.0, ..Default::default() };
    assert_eq!(start, usual);
    refused(healthy("start: (", "start: (ambient: 20, "), &["unknown field `ambient`", "ambient_c"]);
}

#[test]
fn times() {
    for time in ["0", "86400"] {
        assert_eq!(healthy("comes_on_after_s: 0", &format!("comes_on_after_s: {time}")), None);
        assert_eq!(healthy("hints:", &format!("moments: [(at_s: {time}, change: people(1))], hints:")), None);
        let fault =
            format!("faults: [(id: txv_stuck_open, onset: after_s({time}), grows_over_s: {time})], hints:");
        assert_eq!(healthy("hints:", &fault), None);
    }
    for time in NO_NUMBERS.into_iter().chain(["-0.001", "86400.001"]) {
        refused(
            healthy("comes_on_after_s: 0", &format!("comes_on_after_s: {time}")),
            &["comes_on_after_s: "],
        );
        let moment = format!("moments: [(at_s: {time}, change: people(1))], hints:");
        refused(healthy("hints:", &moment), &["moments[0].at_s: "]);
        let onset = format!("faults: [(id: txv_stuck_open, onset: after_s({time}))], hints:");
        refused(healthy("hints:", &onset), &["faults[0].onset: "]);
        let grows = format!("faults: [(id: txv_stuck_open, grows_over_s: {time})], hints:");
        refused(healthy("hints:", &grows), &["faults[0].grows_over_s: "]);
    }
}

#[test]
fn faults_of_every_kind_at_every_severity() {
    for id in FaultId::ALL
        .into_iter()
        .filter(|id| id.info().applies_to(pintle::rig::Rig::shipped("compact_car").unwrap()))
    {
        let key = id.info().key;
        let fault = |severity: f64| {
            healthy("hints:", &format!("faults: [(id: {key}, severity: {severity:?})], hints:"))
        };
        let (min, max) = id.info().severity.map_or((1.0, 1.0), |s| (s.min, s.max));
        assert_eq!((fault(min), fault(max)), (None, None), "{key}");
        let beyond = 1e-6 * (max - min).max(1.0);
        for severity in [min - beyond, max + beyond, f64::NAN, f64::INFINITY, 1e300, -1e300] {
            refused(fault(severity), &["faults[0].severity: "]);
        }
    }
    let place = PipePlace::ValveInlet;
    for recurs in [
        Recurs::WhenHot { above_c: 0.0, place },
        Recurs::WhenCold { below_c: 0.0, place },
        Recurs::WhenVibrating { from_rpm: 0.0, to_rpm: 8000.0 },
        Recurs::WhenOnTheRoad { above_kmh: 0.0 },
        Recurs::WhenLoaded { above_bar: 0.0 },
        Recurs::OnceInAWhile { share: 0.0 },
    ] {
        let text = ron::to_string(&recurs).unwrap();
        let fault = |text: &str| {
            healthy("hints:", &format!("faults: [(id: clutch_coil_open, comes_and_goes: {text})], hints:"))
        };
        assert_eq!(fault(&text), None);
        for number in NO_NUMBERS {
            refused(fault(&text.replacen("0.0", number, 1)), &["faults[0].comes_and_goes: "]);
        }
    }
}

#[test]
fn texts() {
    for (field, most) in
        [("title", 200), ("unit", 200), ("trains", 2_000), ("work_order", 2_000), ("debrief", 20_000)]
    {
        let with = |text: &str| {
            let rest: String = ["title", "unit", "trains", "work_order"]
                .into_iter()
                .filter(|other| *other != field)
                .map(|other| format!("{other}: \"b\",\n"))
                .collect();
            let text = format!("(format: 1, id: \"b\", rig: \"sedan\",\n{rest}{field}: \"{text}\")");
            from_text("b.ron", &text).err().map(|bad| bad.to_string())
        };
        assert_eq!(with(&"é".repeat(most)), None, "{field}");
        assert_eq!(with("two lines\r\n\tand a tab"), None, "{field}");
        refused(with(&"é".repeat(most + 1)), &[&format!("{field}: "), &most.to_string()]);
        for control in ["\\u{0}", "\\u{1b}[2J", "\u{1b}]0;x\u{7}", "\u{202e}", "\\r", "\u{9b}"] {
            refused(with(&format!("a{control}b")), &[&format!("{field}: the control character \\u{{")]);
        }
    }
    let hints = |hints: &str| healthy("hints: [", &format!("hints: [{hints} "));
    assert_eq!(hints("\"one\","), None);
    refused(hints("\"one\", \"\\u{7}\","), &["hints[1]: the control character"]);
    refused(hints(&format!("\"{}\",", "x".repeat(2_001))), &["hints[0]: ", "2000"]);
}

#[test]
fn counts() {
    let moments = |count: usize| {
        healthy("hints:", &format!("moments: [{}], hints:", "(at_s: 1, change: people(1)),".repeat(count)))
    };
    assert_eq!(moments(10_000), None);
    refused(moments(10_001), &["moments: 10001 entries; at most 10000"]);
    let hints = |count: usize| healthy("hints: [", &format!("hints: [{}", "\"x\",".repeat(count)));
    refused(hints(51), &["hints: ", "at most 50"]);
    refused(healthy("tasks: [", &format!("tasks: [{}", "\"T1\",".repeat(30))), &["tasks: ", "at most 21"]);
    let causes = "undercharge,".repeat(FaultId::COUNT + 1);
    refused(healthy("hints:", &format!("accepted_causes: [{causes}], hints:")), &["accepted_causes: "]);
    // As many as fit into a file; that takes no longer than reading it.
    let began = std::time::Instant::now();
    for (field, entry) in [("faults", "(id: undercharge),"), ("tools", "meter,")] {
        let many = entry.repeat(900_000 / entry.len());
        refused(healthy("hints:", &format!("{field}: [{many}], hints:")), &[&format!("{field}: ")]);
    }
    assert!(began.elapsed().as_secs() < 20, "{:?}", began.elapsed());
}

#[test]
fn sizes() {
    let dir = std::env::temp_dir().join(format!("pintle-bounds-{}", std::process::id()));
    std::fs::create_dir_all(&dir).unwrap();
    let path = dir.join("size.ron");
    let room = usize::try_from(LARGEST_BYTES).unwrap() - shipped("healthy").len();
    for (more, fine) in [(room, true), (room + 1, false)] {
        std::fs::write(&path, shipped("healthy").to_owned() + &" ".repeat(more)).unwrap();
        assert_eq!(from_path(&path).is_ok(), fine);
    }
    for (file, bytes) in [("record", 16_000_001_u64), ("actions", 1_000_001)] {
        std::fs::File::create(&path).unwrap().set_len(bytes).unwrap();
        let said = if file == "record" {
            Record::read(&path).unwrap_err().to_string()
        } else {
            procedure::load(path.to_str().unwrap()).unwrap_err().to_string()
        };
        assert!(said.contains("too large"), "{said}");
    }
    std::fs::remove_dir_all(dir).unwrap();
}

#[test]
fn the_length_of_a_record() {
    let mut record = Record::of(&start(&load("healthy").unwrap(), 1).unwrap(), &[]).unwrap();
    for (ticks, fine) in [(MOST_TICKS, true), (MOST_TICKS + 1, false), (u64::MAX, false)] {
        record.ticks = ticks;
        assert_eq!(Record::from_text("r.ron", &record.to_text().unwrap()).is_ok(), fine, "{ticks}");
    }
    // A record that was not read from a file is not trusted either.
    record.hash = record.own_hash().unwrap();
    assert!(matches!(replay(&record), Err(ReplayError::TooLong(_))));
}

#[test]
fn action_files() {
    let text = procedure::SHIPPED.iter().find(|s| s.id == "hook_up").unwrap().text;
    assert!(procedure::from_text("b.ron", text).is_ok());
    let step = |inside: &str| {
        let text = format!(
            "(format: 1, id: \"b\", title: \"b\", scenario: \"healthy\", when: \"b\", needs: \"b\",\n\
             steps: [(say: \"b\", why: \"b\", look: gauge, {inside})])"
        );
        procedure::from_text("b.ron", &text).err().map(|bad| bad.to_string())
    };
    for time in ["0.1", "86400"] {
        assert_eq!(step(&format!("wait_s: {time}, at_s: {time}")), None);
    }
    for time in NO_NUMBERS.into_iter().chain(["-1", "86401"]) {
        refused(step(&format!("wait_s: {time}")), &["steps[0].wait_s: "]);
        refused(step(&format!("wait_s: 1, at_s: {time}")), &["steps[0].at_s: "]);
        let until = format!("until: (probe: low_gauge, below: 1, at_most_s: {time})");
        refused(step(&until), &["steps[0].until.at_most_s: "]);
    }
    for number in ["NaN", "inf"] {
        refused(
            step(&format!("until: (probe: low_gauge, below: {number}, at_most_s: 1)")),
            &["steps[0].until: "],
        );
        refused(
            step(&format!("wait_s: 1, expect: [(of: reading(low_gauge), from: {number}, to: 1)]")),
            &["steps[0].expect[0]: "],
        );
    }
    assert_eq!(step(&format!("do: [{}]", "hint,".repeat(100))), None);
    refused(step(&format!("do: [{}]", "hint,".repeat(101))), &["steps[0].do: 101 entries"]);
    refused(
        step("wait_s: 1, caution: [\"\\u{1b}\"]"),
        &["steps[0].caution[0]: there is no caution `\\u{1b}`"],
    );
    let long = format!("steps: [{}]", "(say: \"b\", why: \"b\", look: gauge, wait_s: 1),".repeat(201));
    let head = "(format: 1, id: \"b\", title: \"b\", scenario: \"healthy\", when: \"b\", needs: \"b\",\n";
    let said = procedure::from_text("b.ron", &format!("{head}{long})")).err().map(|bad| bad.to_string());
    refused(said, &["steps: a procedure has 1 to 200 steps"]);
    let said = procedure::from_text(
        "b.ron",
        &format!("{head}steps: [(say: \"\u{1b}\", why: \"b\", look: gauge, wait_s: 1)])"),
    );
    refused(said.err().map(|bad| bad.to_string()), &["steps[0].say: the control character"]);
}

/// What an action may hold, whether it comes from a record, an action file or the desk.
#[test]
fn actions() {
    let mut bench = Bench::new(&load("healthy").unwrap(), 1).unwrap();
    bench.advance(20);
    let place = PipePlace::ValveInlet;
    let id = FaultId::Undercharge;
    for x in [f64::NAN, f64::INFINITY, -f64::INFINITY, -1e300, 1e300] {
        let mut all: Vec<Action> =
            Knob::ALL.iter().filter_map(|k| k.to(Value::Number(x))).map(Action::Set).collect();
        all.extend([
            Action::ManifoldLowPct(x),
            Action::ManifoldHighPct(x),
            Action::ImposeFault { id, severity: x },
            Action::RampFault { id, severity: x, over_s: 1.0 },
            Action::RampFault { id, severity: 0.5, over_s: x },
            Action::ImposeIntermittent {
                id: FaultId::ClutchCoilOpen,
                severity: 1.0,
                recurs: Recurs::WhenHot { above_c: x, place },
            },
            Action::Diagnose(Diagnosis {
                cause: None,
                evidence: vec![0],
                confidence: x,
                because: String::new(),
            }),
        ]);
        for action in all {
            let said = bench.apply(action.clone()).expect_err("it is refused").to_string();
            assert!(said.len() < 300, "{action:?}: {said}");
        }
    }
    assert!(HandValve::RANGE.holds(100.0));
    assert!(bench.apply(Action::Note("é".repeat(2_000))).is_ok());
    assert!(bench.apply(Action::Note("é".repeat(2_001))).is_err());
    let long = "\u{1b}[2J".repeat(20_000);
    for action in [
        Action::JumperBetween(Some((long.clone(), long.clone()))),
        Action::Unplug(long.clone(), true),
        Action::RenewFuse(long.clone()),
        Action::SwapRelays(long.clone(), long.clone()),
        Action::Place(Probe::Clamp(long.clone())),
        Action::Read(Probe::UnitValue { unit: long.clone(), id: long }),
    ] {
        let said = bench.apply(action).expect_err("it is refused").to_string();
        assert!(said.len() < 1_000 && !said.contains('\u{1b}'), "{said:.2000}");
    }
}
