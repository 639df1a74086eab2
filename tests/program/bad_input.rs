//! Bad input: one clear error, exit code 2, no panic, nothing written over.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use pintle::record::Record;
use pintle::scenario::load::{from_path, from_text, load};
use pintle::scenario::{SHIPPED, check};

/// A directory of its own for one test.
fn place(name: &str) -> PathBuf {
    let dir = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("bad-input-{name}-{}", std::process::id()));
    let _ = fs::remove_dir_all(&dir);
    fs::create_dir_all(&dir).unwrap();
    dir
}

fn shipped(id: &str) -> &'static str {
    SHIPPED.iter().find(|s| s.id == id).unwrap().text
}

/// The message for a shipped scenario with one piece of its text replaced.
fn spoiled(from: &str, to: &str) -> String {
    let text = shipped("weaker_by_the_mile");
    assert!(text.contains(from), "{from} is not in the scenario any more");
    message(&text.replacen(from, to, 1))
}

fn message(text: &str) -> String {
    from_text("spoiled.ron", text).unwrap_err().to_string()
}

/// A message that names file, line and column, and says all of `words`.
#[track_caller]
fn says(message: &str, line: usize, words: &[&str]) {
    assert!(message.starts_with(&format!("spoiled.ron:{line}:")), "{message}");
    for word in words {
        assert!(message.contains(word), "`{word}` is missing in: {message}");
    }
    assert_eq!(message.lines().count(), 1, "{message}");
}

/// The line of the shipped text a piece stands on.
fn line_of(piece: &str) -> usize {
    let text = shipped("weaker_by_the_mile");
    text[..text.find(piece).unwrap()].matches('\n').count() + 1
}

fn pintle(dir: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_pintle")).current_dir(dir).args(args).output().unwrap()
}

/// Run the program, expect exit code 2, an empty result and an error without a panic.
#[track_caller]
fn refused(dir: &Path, args: &[&str]) -> String {
    let output = pintle(dir, args);
    let log = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(2), "{args:?}: {log}");
    assert!(output.stdout.is_empty(), "{args:?}");
    assert!(log.starts_with("error: "), "{args:?}: {log}");
    assert!(!log.contains("panicked"), "{args:?}: {log}");
    log
}

#[test]
fn empty_files() {
    says(&message(""), 1, &["the file is empty"]);
    says(&message(" \n\t\n"), 1, &["the file is empty"]);
    says(&message("\u{feff}"), 1, &["the file is empty"]);
    says(&message("()"), 1, &["`format` is missing"]);
}

#[test]
fn unknown_names_get_the_nearest_valid_one() {
    let line = line_of("ambient_c");
    says(&spoiled("ambient_c", "ambiant_c"), line, &["unknown field `ambiant_c`", "hint", "ambient_c"]);
    let line = line_of("id: undercharge");
    says(&spoiled("id: undercharge", "id: undercharg"), line, &["`undercharg`", "name: undercharge"]);
    says(
        &spoiled("compact_car", "compact_cart"),
        line_of("compact_car"),
        &["rig `compact_cart`", "compact_car"],
    );
    says(&spoiled("\"T12\"", "\"T22\""), line_of("\"T12\""), &["task `T22`", "hint"]);
    says(&spoiled("mode: practice", "mode: practise"), line_of("mode:"), &["practise", "name: practice"]);
    let message = spoiled("hints:", "tools: [volt_meter], hints:");
    says(&message, line_of("hints:"), &["`volt_meter`", "valid names:", "meter"]);
    let message = spoiled("hints:", "tools: [voltmeter], hints:");
    says(&message, line_of("hints:"), &["`voltmeter`", "the meter shows volts", "write meter"]);
    let message = spoiled("hints:", "tools: [test_lmap], hints:");
    says(&message, line_of("hints:"), &["`test_lmap`", "name: test_lamp"]);
    says(&spoiled("unit:", "zzzzzzzzzzzzz:"), line_of("unit:"), &["valid names:", "accepted_causes"]);
}

#[test]
fn wrong_types() {
    says(&spoiled("ambient_c: 33", "ambient_c: \"hot\""), line_of("ambient_c"), &["a number was expected"]);
    says(&spoiled("engine_on: true", "engine_on: 1"), line_of("engine_on"), &["`true` or `false`"]);
    says(&spoiled("format: 1", "format: one"), line_of("format"), &["a whole number was expected"]);
    says(&spoiled("format: 1", "format: -1"), line_of("format"), &["too large or negative"]);
    says(&spoiled("title: \"", "title: 7, unit: \""), line_of("title"), &["text in double quotes"]);
    says(&spoiled("faults: [", "faults: 7, faults: ["), line_of("faults"), &["a list"]);
    says(&spoiled("start: (", "start: 7, start: ("), line_of("start: ("), &["round brackets"]);
    let column = message("(\n  format:   \"1\")");
    assert!(column.starts_with("spoiled.ron:2:13:"), "{column}");
}

#[test]
fn another_format_is_named_before_its_unknown_fields() {
    says(&message("(shiny: 1, format: 2)"), 1, &["format 2 is not known", "reads format 1", "newer"]);
    says(&message("(format: 0)"), 1, &["format 0 is not known"]);
}

#[test]
fn broken_text() {
    let text = shipped("weaker_by_the_mile");
    let end = text.trim_end();
    assert!(message(&end[..end.len() - 1]).contains("ends too early"));
    assert!(message(&format!("{end} more")).contains("more text after the end"));
    says(&message("hello"), 1, &["`hello`", "`Scenario`"]);
    // Cut anywhere, the text is refused and never panics.
    for cut in (0..end.len()).filter(|&cut| end.is_char_boundary(cut)) {
        assert!(from_text("cut.ron", &end[..cut]).is_err(), "cut at {cut}");
    }
}

#[test]
fn numbers_out_of_range() {
    let ambient = line_of("ambient_c");
    says(&spoiled("ambient_c: 33", "ambient_c: 400"), ambient, &["400 °C", "-20 to 55 °C"]);
    says(&spoiled("ambient_c: 33", "ambient_c: NaN"), ambient, &["NaN is not a usable number"]);
    says(&spoiled("ambient_c: 33", "ambient_c: -inf"), ambient, &["-inf is not a usable number"]);
    let faults = line_of("faults:");
    says(&spoiled("severity: 0.7", "severity: 1.5"), faults, &["faults[0].severity", "1.5", "0 to 1"]);
    says(&spoiled("severity: 0.7", "severity: NaN"), faults, &["not a usable number"]);
    says(&spoiled("after_s(60)", "after_s(-1)"), faults, &["faults[0].onset", "-1 s"]);
    says(&spoiled("grows_over_s: 600", "grows_over_s: inf"), faults, &["grows_over_s", "inf"]);
    let switch = spoiled("id: undercharge, severity: 0.7", "id: clutch_coil_open, severity: 0.5");
    says(&switch, faults, &["0.5 is not 1", "there or not"]);
}

#[test]
fn moments_in_order() {
    let with = |moments: &str| spoiled("hints:", &format!("moments: [{moments}], hints:"));
    let line = line_of("hints:");
    says(
        &with("(at_s: 9, change: engine_on(true)), (at_s: 8, change: engine_on(false))"),
        line,
        &["out of order"],
    );
    says(&with("(at_s: -1, change: engine_on(true))"), line, &["moments[0].at_s"]);
    says(&with("(at_s: NaN, change: engine_on(true))"), line, &["moments[0].at_s", "NaN"]);
    says(&with("(at_s: 1, change: ambient_c(400))"), line, &["moments[0].change", "400 °C"]);
}

#[test]
fn all_problems_are_told_at_once() {
    let text = shipped("weaker_by_the_mile")
        .replacen("ambient_c: 33", "ambient_c: 400", 1)
        .replacen("severity: 0.7", "severity: 9", 1)
        .replacen("compact_car", "lorry", 1);
    assert_eq!(message(&text).lines().count(), 3, "{}", message(&text));
    let mut scenario = from_text("healthy.ron", shipped("healthy")).unwrap();
    assert!(check::validate(&scenario).is_empty());
    scenario.start.engine_rpm = f64::INFINITY;
    scenario.title.clear();
    scenario.comes_on_after_s = -1.0;
    assert_eq!(check::validate(&scenario).len(), 3);
    let many = format!("moments: [{}], hints:", "(at_s: -1, change: blower_pct(101)),".repeat(5_000));
    let flood = spoiled("hints:", &many);
    assert_eq!(flood.lines().count(), 21, "{flood}");
    assert!(flood.ends_with("and 9980 more problems"), "{flood}");
}

#[test]
fn deep_nesting() {
    let deep = 100_000;
    for (open, close) in
        [("(", ")"), ("[", "]"), ("Some(", ")"), ("{", "}"), ("/*", "*/"), ("#![enable(", ")]")]
    {
        let nest = open.repeat(deep) + &close.repeat(deep);
        for text in [
            nest.clone(),
            format!("(format: 1, hints: {nest})"),
            format!("(format: 1, faults: [(id: overcharge, severity: {nest})])"),
            format!("(format: 1, start: {nest})"),
            format!("(format: 1, moments: [(at_s: 1, change: {nest})])"),
            format!("(format: 1, unknown: {nest})"),
        ] {
            let error = from_text("deep.ron", &text).unwrap_err().to_string();
            assert!(error.starts_with("deep.ron:1:") && error.len() < 1_000, "{error:.2000}");
            let error = Record::from_text("deep.ron", &text).unwrap_err().to_string();
            assert!(error.len() < 1_000, "{error:.2000}");
            let error = pintle::procedure::from_text("deep.ron", &text).unwrap_err().to_string();
            assert!(error.len() < 1_000, "{error:.2000}");
        }
    }
}

#[test]
fn files_that_cannot_be_read() {
    let dir = place("files");
    let at = |name: &str| dir.join(name);
    let error = |path: &Path| from_path(path).unwrap_err().to_string();
    assert!(error(&at("none.ron")).contains("there is no such file"));
    assert!(error(&dir).contains("directory"));
    fs::write(at("garbage.ron"), [b"(\n".as_slice(), &[0xff, 0xfe, 0x00, 0x80]].concat()).unwrap();
    assert!(error(&at("garbage.ron")).contains("garbage.ron:2:1: this is not a text file"));
    fs::write(at("zeros.ron"), [0; 4096]).unwrap();
    assert!(error(&at("zeros.ron")).contains("zeros.ron:1:1:"));
    // 100 MB that take no room on the disk and are never read.
    fs::File::create(at("huge.ron")).unwrap().set_len(100_000_000).unwrap();
    let began = std::time::Instant::now();
    assert!(error(&at("huge.ron")).contains("too large: 100000000 bytes"));
    assert!(began.elapsed().as_secs() < 5);
    assert!(load("healty").unwrap_err().to_string().contains("nearest valid name: healthy"));
    assert!(load("").is_err());
    fs::remove_dir_all(dir).unwrap();
}

#[test]
fn the_program_refuses_bad_scenarios() {
    let dir = place("program");
    let text = shipped("weaker_by_the_mile");
    let files: [(&str, Vec<u8>); 8] = [
        ("empty.ron", Vec::new()),
        ("field.ron", text.replace("ambient_c", "ambiant_c").into()),
        ("type.ron", text.replace("ambient_c: 33", "ambient_c: true").into()),
        ("severity.ron", text.replace("severity: 0.7", "severity: 5").into()),
        ("nan.ron", text.replace("ambient_c: 33", "ambient_c: NaN").into()),
        ("hot.ron", text.replace("ambient_c: 33", "ambient_c: 400").into()),
        ("deep.ron", "(".repeat(500_000).into()),
        ("garbage.ron", (0..=255).collect()),
    ];
    for (name, bytes) in &files {
        fs::write(dir.join(name), bytes).unwrap();
        for args in [&["run", *name, "--record", "out.ron", "--trace", "out.csv"][..], &["replay", *name]] {
            let log = refused(&dir, args);
            let place = log.strip_prefix(&format!("error: {name}:")).unwrap_or_else(|| panic!("{log}"));
            assert!(place.starts_with(|c: char| c.is_ascii_digit()), "{log}");
            assert_eq!(log.lines().count(), 1, "{log}");
        }
        assert_eq!(&fs::read(dir.join(name)).unwrap(), bytes, "{name} was written over");
    }
    refused(&dir, &["run", "missing.ron"]);
    refused(&dir, &["run", "."]);
    refused(&dir, &["replay", "missing.ron"]);
    assert!(!dir.join("out.ron").exists() && !dir.join("out.csv").exists());
    assert_eq!(fs::read_dir(&dir).unwrap().count(), files.len(), "something was left behind");
    fs::remove_dir_all(dir).unwrap();
}

#[test]
fn the_program_refuses_bad_arguments() {
    let dir = place("arguments");
    for args in [
        &["run"][..],
        &["rnu"],
        &["run", "healthy", "--no-such-thing"],
        &["run", "healthy", "--minutes", "0"],
        &["run", "healthy", "--minutes", "-1"],
        &["run", "healthy", "--minutes", "NaN"],
        &["run", "healthy", "--minutes", "10001"],
        &["run", "healthy", "--minutes", "ten"],
        &["run", "healthy", "--every", "0"],
        &["run", "healthy", "--every", "inf"],
        &["run", "healthy", "--seed", "-1"],
        &["run", "healthy", "--seed", "18446744073709551616"],
        &["run", "healthy", "--fault", "undercharge=1.5"],
        &["run", "healthy", "--fault", "undercharge=NaN"],
        &["run", "healthy", "--fault", "undercharge@-5"],
        &["run", "healthy", "--fault", "undercharge@9999", "--minutes", "1"],
        &["run", "healthy", "--fault", "clutch_coil_open=0.5"],
        &["run", "healthy", "--clear", "undercharge"],
        &["run", "healthy", "--set", "ambient_c=400"],
        &["run", "healthy", "--set", "ambient_c=NaN"],
        &["run", "healthy", "--set", "engine_on=yes"],
        &["run", "healthy", "--set", "manifold_low_valve_pct=101"],
        &["run", "healthy", "--trace", "no/such/directory.csv"],
        &["properties", "R-134a"],
        &["desk", "--after", "NaN", "--screenshot", "a.png"],
        &["desk", "--screenshot", "a.ron"],
    ] {
        refused(&dir, args);
    }
    let log = refused(&dir, &["run", "healthy", "--fault", "undercharg"]);
    assert!(log.contains("nearest valid name: undercharge"), "{log}");
    let log = refused(&dir, &["run", "healthy", "--set", "ambient=20"]);
    assert!(log.contains("nearest valid name: ambient_c"), "{log}");
    assert_eq!(fs::read_dir(&dir).unwrap().count(), 0);
    fs::remove_dir_all(dir).unwrap();
}

#[test]
fn nothing_is_written_over() {
    let dir = place("written");
    let text = shipped("healthy");
    for name in ["mine.ron", "mine.csv", "mine.txt"] {
        fs::write(dir.join(name), text).unwrap();
    }
    for (flag, name) in [("--record", "mine.ron"), ("--record", "mine.txt"), ("--trace", "mine.ron")] {
        refused(&dir, &["run", "mine.ron", "--minutes", "0.1", flag, name]);
    }
    // An earlier trace may be replaced; a CSV file of another kind may not.
    refused(&dir, &["run", "mine.ron", "--minutes", "0.1", "--trace", "mine.csv"]);
    refused(&dir, &["run", "mine.ron", "--minutes", "0.1", "--trace", "."]);
    refused(&dir, &["run", "mine.ron", "--minutes", "0.1", "--trace", "new.csv", "--record", "new.csv"]);
    for name in ["mine.ron", "mine.csv", "mine.txt"] {
        assert_eq!(fs::read_to_string(dir.join(name)).unwrap(), text, "{name}");
    }
    assert_eq!(fs::read_dir(&dir).unwrap().count(), 3, "something was left behind");
    fs::remove_dir_all(dir).unwrap();
}

#[test]
fn bad_records() {
    let scenario = from_text("healthy.ron", shipped("healthy")).unwrap();
    let bench = pintle::record::start(&scenario, 1).unwrap();
    let good = Record::of(&bench, &[]).unwrap().to_text().unwrap();
    assert_eq!(Record::from_text("r.ron", &good).unwrap().scenario, scenario);
    for (from, to, word) in [
        ("seed: 1", "sead: 1", "name: seed"),
        ("ticks: 0", "ticks: 99999999999", "ticks"),
        ("actions: []", "actions: [(5, engine_on(true))]", "after the end"),
        ("actions: []", "actions: [(0, engine_onn(true))]", "name: engine_on"),
        ("format: 2", "format: 3", "format 3 is not known"),
        ("hash: \"", "hash: \"x", "hash: a hash is 16 hexadecimal digits"),
        ("state: \"", "state: \"x", "state: a hash is 16 hexadecimal digits"),
        ("ambient_c: 35.0", "ambient_c: 400.0", "400 °C"),
        ("compact_car", "lorry", "unknown rig"),
    ] {
        assert!(good.contains(from), "{from}: {good}");
        let error = Record::from_text("r.ron", &good.replacen(from, to, 1)).unwrap_err().to_string();
        assert!(error.contains(word) && error.starts_with("r.ron:"), "{from}: {error}");
        assert!(error[6..].starts_with(|c: char| c.is_ascii_digit()), "{error}");
    }
}
