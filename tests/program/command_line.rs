//! The commands as a person or a script meets them.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use pintle::record::{Record, hash_text, replay, start};
use pintle::scenario::load::from_text;
use pintle::scenario::{Mode, SHIPPED, Scenario, check, load};
use serde_json::Value;

/// The columns of the issue, in their order.
const COLUMNS: &str = "time_s,engine_rpm,compressor_rpm,clutch_engaged,fan_speed_pct,\
    p1_pa,h1_j_per_kg,t1_k,x1,p2_pa,h2_j_per_kg,t2_k,x2,p3_pa,h3_j_per_kg,t3_k,x3,\
    p4_pa,h4_j_per_kg,t4_k,x4,p5_pa,h5_j_per_kg,t5_k,x5,p6_pa,h6_j_per_kg,t6_k,x6,\
    m_compressor_kg_s,m_metering_kg_s,q_condenser_w,q_evaporator_w,w_compressor_w,q_other_w,\
    superheat_k,subcooling_k,gauge_low_pa,gauge_high_pa,charge_kg,released_kg,receiver_level,\
    sight_glass_bubbles,vent_t_k,cabin_t_k,ambient_t_k";

fn place(name: &str) -> PathBuf {
    let dir =
        Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("command-line-{name}-{}", std::process::id()));
    let _ = fs::remove_dir_all(&dir);
    fs::create_dir_all(&dir).unwrap();
    dir
}

fn pintle(dir: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_pintle")).current_dir(dir).args(args).output().unwrap()
}

/// Run the program, expect exit code 0 and a quiet error stream; its result.
#[track_caller]
fn fine(dir: &Path, args: &[&str]) -> String {
    let output = pintle(dir, args);
    let log = String::from_utf8(output.stderr).unwrap();
    assert_eq!((output.status.code(), log.as_str()), (Some(0), ""), "{args:?}");
    String::from_utf8(output.stdout).unwrap()
}

#[track_caller]
fn json(dir: &Path, args: &[&str]) -> Value {
    serde_json::from_str(&fine(dir, args)).unwrap()
}

fn hash_of(text: &str) -> &str {
    let line = text.lines().find(|line| line.starts_with("state hash")).expect("a line with the state hash");
    line.split_whitespace().last().unwrap()
}

#[test]
fn shipped_scenarios_load_and_check_clean() {
    assert_eq!(SHIPPED.len(), 20);
    for shipped in SHIPPED {
        let scenario = from_text(shipped.file, shipped.text).unwrap_or_else(|e| panic!("{e}"));
        assert_eq!(scenario.id, shipped.id);
        assert!(check::validate(&scenario).is_empty());
        assert_eq!(load(shipped.id).unwrap(), scenario);
        assert!(!scenario.hints.is_empty() && !scenario.debrief.is_empty() && !scenario.tasks.is_empty());
        if scenario.mode == Mode::Practice {
            assert!(!scenario.inside_view, "{}", shipped.id);
            assert!(scenario.nothing_wrong == scenario.faults.is_empty(), "{}", shipped.id);
            for fault in &scenario.faults {
                assert!(scenario.accepted_causes.contains(&fault.id), "{}", shipped.id);
                let info = fault.id.info();
                for text in [&scenario.id, &scenario.title, &scenario.trains, &scenario.work_order] {
                    let text = text.to_lowercase();
                    assert!(!text.contains(info.key) && !text.contains(&info.name.to_lowercase()), "{text}");
                }
            }
        }
    }
}

/// All refrigerants, at the saturation pressure of 20 C (CoolProp 8.0.0) half way across the
/// dome; and a state beyond the range, with its reason.
#[test]
fn properties_of_every_refrigerant() {
    let dir = place("properties");
    let rows = [
        ("R-134a", 571.71e3, 227.47e3, 409.75e3),
        ("R-1234yf", 591.84e3, 226.71e3, 376.14e3),
        ("R-32", 1474.57e3, 236.12e3, 516.90e3),
        ("R-290", 836.46e3, 251.64e3, 595.95e3),
    ];
    for (name, p, h_l, h_v) in rows {
        fs::write(dir.join("pairs.csv"), format!("p_pa,h_j_per_kg\n{p},{}\n9e6,4e5\n", 0.5 * (h_l + h_v)))
            .unwrap();
        let out = fine(&dir, &["properties", name, "--pairs", "pairs.csv"]);
        let lines: Vec<Vec<&str>> = out.lines().map(|line| line.split(',').collect()).collect();
        assert_eq!((lines.len(), lines[0][2], lines[0][9]), (3, "t_k", "range"));
        assert!((lines[1][2].parse::<f64>().unwrap() - 293.15).abs() < 0.01, "{name}: {out}");
        assert!((lines[1][5].parse::<f64>().unwrap() - 0.5).abs() < 1e-3, "{name}: {out}");
        assert_eq!((lines[1][6], lines[1][9]), ("two-phase", "ok"));
        assert_eq!((lines[2][2], lines[2][6], lines[2][9]), ("NaN", "out-of-range", "above-pressure-range"));
    }
}

/// Mean vent temperature [K] over the last three of 25 minutes, and whether all hidden faults are there then.
fn vents(scenario: &Scenario) -> (f64, bool) {
    let mut bench = start(scenario, 1).unwrap();
    bench.advance(22 * 60 * 20);
    let mut sum = 0.0;
    for _ in 0..180 {
        bench.advance(20);
        sum += bench.snapshot(true).inside.unwrap().vent_t_k;
    }
    let present = scenario.faults.iter().all(|fault| bench.faults().has(fault.id));
    (sum / 180.0, present)
}

/// A severity that nobody can notice makes no scenario: the vents must be warmer than without the fault.
#[test]
fn hidden_faults_set_in_and_can_be_felt() {
    for shipped in SHIPPED {
        let scenario = load(shipped.id).unwrap();
        // What comes and goes is looked at in `recurrence.rs`.
        let steady = scenario.faults.iter().all(|fault| fault.comes_and_goes.is_none());
        // What takes hours to show is looked at in `vacuum.rs`.
        let slow = shipped.id == "iced_by_noon";
        if scenario.mode != Mode::Practice || scenario.nothing_wrong || !steady || slow {
            continue;
        }
        let (faulty_k, present) = vents(&scenario);
        assert!(present, "{}: the fault never sets in", shipped.id);
        let healthy = Scenario { faults: Vec::new(), ..scenario };
        let warmer_k = faulty_k - vents(&healthy).0;
        assert!(warmer_k > 2.0, "{}: the vents are only {warmer_k:.1} K warmer", shipped.id);
        println!("{}: vents {warmer_k:.1} K warmer", shipped.id);
    }
}

#[test]
fn every_file_in_the_folder_is_shipped() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios");
    let mut files: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    files.sort();
    let mut shipped: Vec<String> = SHIPPED.iter().map(|s| format!("{}.ron", s.id)).collect();
    shipped.sort();
    assert_eq!(files, shipped);
}

#[test]
fn healthy_is_the_car_of_the_issue() {
    let healthy = load("healthy").unwrap();
    assert_eq!((healthy.mode, healthy.rig.as_str()), (Mode::Explore, "compact_car"));
    assert!(healthy.hoses_fitted && healthy.inside_view && healthy.faults.is_empty());
    let start = healthy.start;
    assert!(start.engine_on && start.ac_request && start.recirculate);
    let numbers = [start.ambient_c, start.relative_humidity_pct, start.engine_rpm, start.blower_pct];
    assert_eq!(numbers, [35.0, 40.0, 900.0, 100.0]);
}

#[test]
fn lists() {
    let dir = place("lists");
    for shipped in SHIPPED {
        assert!(fine(&dir, &["scenarios"]).contains(shipped.id));
    }
    let scenarios = json(&dir, &["scenarios", "--json"]);
    assert_eq!(scenarios.as_array().unwrap().len(), SHIPPED.len());
    assert_eq!(scenarios[0]["id"], "healthy");
    assert!(scenarios[1].get("faults").is_none(), "a list must not give the fault away");
    let faults = json(&dir, &["faults", "--json"]);
    let faults = faults.as_array().unwrap();
    assert_eq!(faults.len(), pintle::fault::FaultId::COUNT);
    let fins = faults.iter().find(|fault| fault["key"] == "condenser_fins_blocked").unwrap();
    assert_eq!(fins["severity"]["max"], 0.95);
    assert!(fins["rigs"].as_array().unwrap().len() > 3 && !fins["futile"].as_array().unwrap().is_empty());
    let pickup = json(&dir, &["faults", "--rig", "pickup", "--json"]);
    let pickup = pickup.as_array().unwrap();
    let total: f64 = pickup.iter().map(|fault| fault["share_on_rig"].as_f64().unwrap()).sum();
    assert!((total - 1.0).abs() < 1e-9 && pickup.len() < faults.len());
    assert!(fine(&dir, &["faults", "--repairs"]).contains("replace_orifice_tube"));
    assert!(faults[0]["severity"].is_null());
    assert!(fine(&dir, &["faults"]).contains("txv_stuck_open"));
    assert_eq!(json(&dir, &["rigs", "--json"])[0]["id"], "compact_car");
    assert!(fine(&dir, &["rigs"]).contains("compact_car"));
    assert!(fine(&dir, &["--help"]).contains("replay"));
    assert!(fine(&dir, &["--version"]).contains(env!("CARGO_PKG_VERSION")));
    fs::remove_dir_all(dir).unwrap();
}

#[test]
fn a_run_prints_a_table_or_json() {
    let dir = place("table");
    let table = fine(&dir, &["run", "healthy", "--minutes", "0.5"]);
    for word in ["Gauge pressures", "low side", "psi", "bar", "superheat", "subcooling", "state hash"] {
        assert!(table.contains(word), "{word}: {table}");
    }
    assert_eq!(hash_of(&table).len(), 16);
    let object = json(&dir, &["run", "healthy", "--minutes", "0.5", "--json"]);
    for column in COLUMNS.split(',') {
        let value = object.get(column).unwrap_or_else(|| panic!("{column} is missing"));
        assert!(value.is_number() || column.starts_with('x') && value.is_null(), "{column}: {value}");
    }
    assert_eq!(object["time_s"], 30.0);
    assert_eq!(object["state_hash"], hash_of(&table));
    fs::remove_dir_all(dir).unwrap();
}

#[test]
fn a_trace_has_the_columns_and_both_ends() {
    let dir = place("trace");
    let run = |every: &str| {
        // The second run replaces the trace of the first.
        fine(&dir, &["run", "healthy", "--minutes", "0.5", "--trace", "t.csv", "--every", every]);
        fs::read_to_string(dir.join("t.csv")).unwrap()
    };
    let trace = run("7");
    assert!(trace.lines().next().unwrap().starts_with(COLUMNS));
    let times = |trace: &str| -> Vec<f64> {
        trace.lines().skip(1).map(|line| line.split(',').next().unwrap().parse().unwrap()).collect()
    };
    assert_eq!(times(&trace), [0.0, 7.0, 14.0, 21.0, 28.0, 30.0]);
    let width = trace.lines().next().unwrap().split(',').count();
    assert!(trace.lines().all(|line| line.split(',').count() == width));
    assert_eq!(times(&run("1")).len(), 31);
    assert_eq!(times(&run("0.05")).len(), 601);
    assert_eq!(times(&run("86400")), [0.0, 30.0]);
    fs::remove_dir_all(dir).unwrap();
}

#[test]
fn a_trace_does_not_change_the_run() {
    let dir = place("same");
    let plain = fine(&dir, &["run", "healthy", "--minutes", "1"]);
    let traced = fine(&dir, &["run", "healthy", "--minutes", "1", "--trace", "t.csv", "--every", "0.35"]);
    assert_eq!(hash_of(&plain), hash_of(&traced));
    fs::remove_dir_all(dir).unwrap();
}

#[test]
fn record_and_replay_give_one_hash() {
    let dir = place("record");
    let args = [
        "run",
        "cold_only_on_the_road",
        "--minutes",
        "2",
        "--seed",
        "7",
        "--record",
        "r.ron",
        "--set",
        "ambient_c=31",
        "--set",
        "blower_pct=60@20",
        "--set",
        "manifold_low_valve_pct=30@40",
        "--fault",
        "undercharge=0.4@30",
        "--clear",
        "undercharge@60",
        "--fault",
        "condenser_fins_blocked",
    ];
    let ran = fine(&dir, &args);
    let again = fine(&dir, &["replay", "r.ron"]);
    assert_eq!(hash_of(&ran), hash_of(&again));
    let record = Record::read(&dir.join("r.ron")).unwrap();
    assert_eq!((record.seed, record.ticks), (7, 2400));
    assert_eq!(record.scenario.start.ambient_c, 31.0);
    let ticks: Vec<u64> = record.actions.iter().map(|(tick, _)| *tick).collect();
    assert!(ticks.starts_with(&[0, 400, 600]) && ticks.ends_with(&[800, 1200]), "{ticks:?}");
    assert_eq!(hash_text(&replay(&record).unwrap()).unwrap(), record.state);

    // A hash that differs is told with both values, and the exit code is 1.
    let text = fs::read_to_string(dir.join("r.ron")).unwrap();
    let wrong = "0123456789abcdef";
    let written = |name: &str, change: fn(&mut Record)| {
        let mut other = record.clone();
        change(&mut other);
        other.hash = other.own_hash().unwrap();
        fs::write(dir.join(name), other.to_text().unwrap()).unwrap();
        let output = pintle(&dir, &["replay", name]);
        (output.status.code(), String::from_utf8(output.stderr).unwrap())
    };
    let (code, log) = written("w.ron", |r| r.state = "0123456789abcdef".into());
    assert_eq!(code, Some(1), "{log}");
    assert!(log.contains(wrong) && log.contains(&record.state), "{log}");
    // Another engine version is said; it is the likely reason when the hashes differ.
    let (code, log) = written("v.ron", |r| {
        r.state = "0123456789abcdef".into();
        r.engine = "9.0.0".into();
    });
    assert_eq!(code, Some(1));
    assert!(log.contains("made by version 9.0.0"), "{log}");
    // A word changed by hand is found before anything is run.
    fs::write(dir.join("t.ron"), text.replacen("work_order: \"", "work_order: \"Please. ", 1)).unwrap();
    let output = pintle(&dir, &["replay", "t.ron"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(String::from_utf8(output.stderr).unwrap().contains("it was changed after it was written"));
    fs::remove_dir_all(dir).unwrap();
}

#[test]
fn a_scenario_file_is_opened_by_path() {
    let dir = place("path");
    let text = SHIPPED[0].text.replace("id: \"healthy\"", "id: \"my_own\"");
    fs::write(dir.join("own.ron"), text).unwrap();
    assert!(fine(&dir, &["run", "own.ron", "--minutes", "0.1"]).contains("(my_own)"));
    // A folder of that name does not hide an embedded scenario; a file does.
    fs::create_dir(dir.join("healthy")).unwrap();
    assert!(fine(&dir, &["run", "healthy", "--minutes", "0.1"]).contains("(healthy)"));
    fs::remove_dir_all(dir).unwrap();
}

#[cfg(not(feature = "desk"))]
#[test]
fn without_a_window_the_desk_says_so() {
    let dir = place("desk");
    for args in [&[][..], &["desk"], &["desk", "healthy"], &["healthy"]] {
        let output = pintle(&dir, args);
        let log = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(2), "{log}");
        assert!(log.contains("no window") && log.contains("pintle run healthy"), "{log}");
    }
    fs::remove_dir_all(dir).unwrap();
}

#[test]
fn perceive_tells_what_is_noticed_and_changes_nothing() {
    let dir = place("perceive");
    let run = |fault: &[&str], more: &[&str]| {
        fine(&dir, &[&["run", "healthy", "--minutes", "4"], fault, more].concat())
    };
    let (plain, told) = (run(&[], &[]), run(&[], &["--perceive"]));
    assert_eq!(hash_of(&plain), hash_of(&told));
    assert!(!plain.contains("rush of air"));
    for words in
        ["Listen", "soft rush of air", "too hot to touch", "CAUTION", "wet with dew", "A/C lamp", " dB "]
    {
        assert!(told.contains(words), "{words} in {told}");
    }
    assert_eq!(told.matches("CAUTION").count(), 1, "a caution is told once");
    let dead = run(&["--fault", "condenser_fan_motor_open"], &["--perceive", "--json"]);
    let dead: Value = serde_json::from_str(&dead).unwrap();
    let words = |name: &str| {
        let list = dead["perceived"].as_array().unwrap();
        list.iter().find(|row| row[0] == name).map(|row| row[1].as_str().unwrap().to_owned())
    };
    assert_eq!(words("Listen: condenser fan").as_deref(), Some("silent"));
    assert_eq!(words("Look: condenser fan").as_deref(), Some("stands still"));
    let without = json(&dir, &["run", "healthy", "--minutes", "1", "--json"]);
    assert!(without.get("perceived").is_none());
}
