//! The qualification guide as a person, a script and the test command meet it. The sections that take more than a few
//! seconds run in `tests/run qualification` only.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::Value;

/// Sections that take little time.
const QUICK: [&str; 5] = ["properties", "steady", "components", "limits", "bay"];

fn place(name: &str) -> PathBuf {
    let dir = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("qualify-{name}-{}", std::process::id()));
    let _ = fs::remove_dir_all(&dir);
    fs::create_dir_all(&dir).unwrap();
    dir
}

fn qualify(dir: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_pintle")).current_dir(dir).arg("qualify").args(args).output().unwrap()
}

fn told(output: &Output) -> (Option<i32>, String) {
    (output.status.code(), String::from_utf8(output.stderr.clone()).unwrap())
}

fn known_list() -> String {
    concat!(env!("CARGO_MANIFEST_DIR"), "/assets/qualify/known_misses.txt").to_owned()
}

fn sections(names: &[&'static str]) -> Vec<&'static str> {
    names.iter().flat_map(|name| ["--section", name]).collect()
}

fn rows(json: &Value) -> Vec<Value> {
    json["rows"].as_array().unwrap().clone()
}

/// Start and end tags of a page, in order; attributes and comments left out.
fn balanced(page: &str) -> Result<usize, String> {
    let mut open: Vec<&str> = Vec::new();
    let mut count = 0;
    let mut rest = page;
    while let Some(at) = rest.find('<') {
        rest = &rest[at + 1..];
        let end = rest.find('>').ok_or("a tag without an end")?;
        let tag = &rest[..end];
        rest = &rest[end + 1..];
        if tag.starts_with('!') || tag.ends_with('/') {
            continue;
        }
        count += 1;
        let name = tag.trim_start_matches('/').split_whitespace().next().unwrap_or("");
        if tag.starts_with('/') {
            let last = open.pop().ok_or(format!("</{name}> closes nothing"))?;
            if last != name {
                return Err(format!("</{name}> closes <{last}>"));
            }
        } else {
            open.push(name);
        }
    }
    if open.is_empty() { Ok(count) } else { Err(format!("left open: {open:?}")) }
}

#[test]
fn the_quick_sections_miss_exactly_what_is_listed() {
    let dir = place("known");
    let list = known_list();
    let mut args = sections(&QUICK);
    args.extend(["--known", &list]);
    let output = qualify(&dir, &args);
    assert_eq!(told(&output), (Some(0), String::new()));
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.contains("within tolerance") && text.contains("ATTENTION"), "{text}");
    // Without the list the same rows fail the run, and each has its reason.
    let output = qualify(&dir, &[&sections(&QUICK)[..], &["--json"]].concat());
    let (code, log) = told(&output);
    assert!(code == Some(1) && log.contains("out of tolerance"), "{code:?} {log}");
    let json: Value = serde_json::from_slice(&output.stdout).unwrap();
    let mut ids = BTreeSet::new();
    for row in rows(&json) {
        let id = row["id"].as_str().unwrap().to_owned();
        for field in ["case", "source", "quantity"] {
            assert!(!row[field].as_str().unwrap().is_empty(), "{id} has no {field}");
        }
        assert_eq!(row["verdict"] == "out", row["known"].is_string(), "{id}");
        let (source, standing) = (row["source"].as_str().unwrap(), row["standing"].as_str().unwrap());
        assert!(!source.contains(".md") && !source.contains("reference/"), "{id} cites {source}");
        let verdicts = match standing {
            "from_memory" => &["near_memory", "off_memory"][..],
            "contested" => &["reported"],
            _ => &["within", "out"],
        };
        assert!(verdicts.iter().any(|v| row["verdict"] == *v), "{id}, {standing}: {}", row["verdict"]);
        let year = source.split(|c: char| !c.is_ascii_digit()).any(|n| n.len() == 4);
        assert!(standing != "published" || year || source.contains("undated"), "{id}: {source} has no year");
        assert!(ids.insert(id.clone()), "{id} is there twice");
    }
    assert!(ids.len() > 500, "{} rows", ids.len());
    assert!(json["tally"]["new"] == 0 && json["engine_version"] == env!("CARGO_PKG_VERSION"));
}

#[test]
fn another_list_fails_and_says_how_it_differs() {
    let dir = place("lists");
    fs::write(dir.join("empty.txt"), "# nothing\n").unwrap();
    let (code, log) = told(&qualify(&dir, &["--section", "components", "--known", "empty.txt"]));
    assert!(code == Some(1) && log.contains("not listed: components/"), "{code:?} {log}");

    let more =
        "reason: x\ncomponents/no/such/row\ncomponents/coil-27-c-50-to-8-c-95/enthalpy-drop\nlimits/other\n";
    fs::write(dir.join("more.txt"), fs::read_to_string(known_list()).unwrap() + more).unwrap();
    let (code, log) = told(&qualify(&dir, &["--section", "components", "--known", "more.txt"]));
    assert_eq!(code, Some(1), "{log}");
    assert!(log.contains("there is no such row; take it off the list: components/no/such/row"), "{log}");
    assert!(log.contains("within tolerance now; take it off the list: components/coil"), "{log}");
    assert!(!log.contains("limits/other"), "a section that did not run was judged: {log}");

    fs::write(dir.join("bad.txt"), "components/a\n").unwrap();
    for (list, words) in [("bad.txt", "line 1"), ("none.txt", "none.txt"), (".", ".")] {
        let (code, log) = told(&qualify(&dir, &["--section", "components", "--known", list]));
        assert!(code == Some(2) && log.contains(words), "{list}: {code:?} {log}");
    }
}

#[test]
fn bad_input_is_told_before_anything_is_run() {
    let dir = place("bad");
    for (args, words) in [
        (&["--section", "propertys"][..], "properties"),
        (&["--section", "weather"][..], "valid names"),
        (&["--section"][..], "value"),
        (&["--report", "guide.pdf"][..], ".html or an .md"),
        (&["--report", "guide"][..], ".html or an .md"),
        (&["--report", "no/such/folder/guide.html"][..], "cannot be written"),
        (&["--report", "."][..], ".html or an .md"),
        (&["--json", "--all"][..], "--all"),
        (&["extra"][..], "extra"),
    ] {
        let began = std::time::Instant::now();
        let (code, log) = told(&qualify(&dir, args));
        assert!(code == Some(2) && log.contains(words), "{args:?}: {code:?} {log}");
        assert!(!log.contains("panicked") && began.elapsed().as_secs() < 5, "{args:?}: {log}");
    }
    assert_eq!(fs::read_dir(&dir).unwrap().count(), 0, "something was left behind");
}

#[test]
fn reports_hold_every_row_and_stand_on_their_own() {
    let dir = place("reports");
    let run = |args: &[&str]| qualify(&dir, &[&sections(&["limits", "properties"])[..], args].concat());
    let json: Value = serde_json::from_slice(&run(&["--json", "--report", "guide.html"]).stdout).unwrap();
    run(&["--report", "guide.md"]);
    let html = fs::read_to_string(dir.join("guide.html")).unwrap();
    let md = fs::read_to_string(dir.join("guide.md")).unwrap();
    let tags = balanced(&html).unwrap_or_else(|e| panic!("{e}"));
    assert!(tags > 1000, "{tags} tags");
    for row in rows(&json) {
        let (id, quantity) = (row["id"].as_str().unwrap(), row["quantity"].as_str().unwrap());
        assert_eq!(html.matches(&format!("<tr id=\"{id}\"")).count(), 1, "{id}");
        assert!(md.contains(&format!("| {quantity} |")), "{id}");
    }
    assert_eq!(md.matches("| quantity |").count(), html.matches("<th>Quantity</th>").count());
    for text in [&html, &md] {
        for words in
            ["training aid", "no certificate", "14 CFR Part 60", "ANSI/ANS-3.5", env!("CARGO_PKG_VERSION")]
        {
            assert!(text.contains(words), "{words}");
        }
        // Anchors and limits aside, nothing leads out of the file.
        for out in ["http:", "https:", "src=", "url(", "<script", "@import"] {
            assert!(!text.contains(out), "{out}");
        }
    }
    assert!(
        html.contains("class=\"plot\"") && html.contains("pressure [bar gauge]") && !html.contains("NaN")
    );

    // A report of ours is written over, anything else is not.
    assert_eq!(run(&["--report", "guide.md"]).status.code(), Some(0), "the section of limits misses nothing");
    assert_eq!(fs::read_to_string(dir.join("guide.md")).unwrap(), md, "two runs differ");
    fs::write(dir.join("notes.md"), "# My notes\n").unwrap();
    let (code, log) = told(&run(&["--report", "notes.md"]));
    assert!(code == Some(2) && log.contains("nothing was written over"), "{code:?} {log}");
    assert_eq!(fs::read_to_string(dir.join("notes.md")).unwrap(), "# My notes\n");
}
