//! Files that the program reads and writes: only ordinary ones are read, nothing of a person's is written over, and a run that
//! is stopped leaves nothing behind.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant};

/// A directory of its own for one test.
fn place(name: &str) -> PathBuf {
    let dir = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("files-{name}-{}", std::process::id()));
    let _ = fs::remove_dir_all(&dir);
    fs::create_dir_all(&dir).unwrap();
    dir
}

fn command(dir: &Path, args: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_pintle"));
    command.current_dir(dir).args(args).stdin(Stdio::null());
    command
}

fn pintle(dir: &Path, args: &[&str]) -> Output {
    command(dir, args).output().unwrap()
}

fn words(output: &Output) -> (Option<i32>, String, String) {
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    (output.status.code(), text(&output.stdout), text(&output.stderr))
}

/// Names of what lies in a folder.
fn lies_in(dir: &Path) -> Vec<String> {
    let name =
        |entry: std::io::Result<fs::DirEntry>| entry.unwrap().file_name().to_string_lossy().into_owned();
    let mut names: Vec<String> = fs::read_dir(dir).unwrap().map(name).collect();
    names.sort();
    names
}

/// Run the program for at most ten seconds.
fn soon(dir: &Path, args: &[&str]) -> (Option<i32>, String) {
    let began = Instant::now();
    let mut child = command(dir, args).stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap();
    while child.try_wait().unwrap().is_none() {
        if began.elapsed() > Duration::from_secs(10) {
            child.kill().unwrap();
            panic!("{args:?} hangs");
        }
        std::thread::sleep(Duration::from_millis(5));
    }
    let (code, _, log) = words(&child.wait_with_output().unwrap());
    (code, log)
}

/// A FIFO hung every reader, `/dev/zero` filled the memory.
#[cfg(unix)]
#[test]
fn only_ordinary_files_are_read() {
    let dir = place("ordinary");
    assert!(Command::new("mkfifo").arg(dir.join("pipe.ron")).status().unwrap().success());
    std::os::unix::fs::symlink("/dev/zero", dir.join("zero.ron")).unwrap();
    std::os::unix::fs::symlink("pipe.ron", dir.join("link.ron")).unwrap();
    for name in ["pipe.ron", "zero.ron", "link.ron", "/dev/zero", "/dev/tty", "."] {
        for args in [
            &["run", name][..],
            &["replay", name],
            &["run", "healthy", "--actions", name],
            &["qualify", "--known", name],
            &["properties", "R-134a", "--pairs", name],
        ] {
            let (code, log) = soon(&dir, args);
            assert_eq!(code, Some(2), "{args:?}: {log}");
            assert!(log.starts_with("error: ") && log.lines().count() == 1, "{args:?}: {log}");
        }
    }
    fs::write(dir.join("mine.ron"), fs::read_to_string(root("scenarios/healthy.ron")).unwrap()).unwrap();
    std::os::unix::fs::symlink("mine.ron", dir.join("to_mine.ron")).unwrap();
    assert_eq!(
        soon(&dir, &["run", "to_mine.ron", "--minutes", "0.01"]).0,
        Some(0),
        "a link to a file will do"
    );
    fs::remove_dir_all(dir).unwrap();
}

fn root(file: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(file)
}

/// Escape sequences in a title, a path or an engine's name reached the terminal as they were.
#[test]
fn no_message_obeys_a_file() {
    let dir = place("controls");
    let healthy = fs::read_to_string(root("scenarios/healthy.ron")).unwrap();
    let raw = |text: &str| text.chars().any(|c| c.is_control() && c != '\n');
    for (name, text) in [
        ("title.ron", healthy.replacen("title: \"", "title: \"\\u{1b}[2J", 1)),
        ("raw.ron", healthy.replacen("title: \"", "title: \"\u{1b}[2J", 1)),
        ("rig.ron", healthy.replacen("compact_car", &"\\u{7}".repeat(50_000), 1)),
        ("field.ron", healthy.replacen("title:", &"x".repeat(100_000), 1)),
        ("\u{1b}[31m.ron", "(".into()),
    ] {
        fs::write(dir.join(name), text).unwrap();
        let (code, out, log) = words(&pintle(&dir, &["run", name, "--minutes", "0.01"]));
        assert_eq!(code, Some(2), "{name:?}: {log}");
        assert!(!raw(&log) && log.len() < 5_000 && out.is_empty(), "{:.300}", log.escape_debug());
        assert!(log.contains(":1:1:") || log.contains(".ron:"), "{log}");
    }
    let (_, _, log) = words(&pintle(&dir, &["run", "title.ron"]));
    assert!(log.contains("title: the control character \\u{1b}"), "{log}");
    let (code, out, _) = words(&pintle(&dir, &["run", "healthy", "--minutes", "0.01", "--record", "r.ron"]));
    assert_eq!(code, Some(0), "{out}");
    fs::remove_dir_all(dir).unwrap();
}

#[test]
fn twenty_problems_are_named_and_the_others_counted() {
    let dir = place("twenty");
    let healthy = fs::read_to_string(root("scenarios/healthy.ron")).unwrap();
    let many = format!("moments: [{}], hints:", "(at_s: -1, change: engine_on(true)),".repeat(123));
    fs::write(dir.join("many.ron"), healthy.replacen("hints:", &many, 1)).unwrap();
    let (code, _, log) = words(&pintle(&dir, &["run", "many.ron"]));
    assert_eq!((code, log.lines().count()), (Some(2), 21), "{log}");
    assert!(log.ends_with("and 103 more problems\n"), "{log}");
    fs::remove_dir_all(dir).unwrap();
}

#[test]
fn an_empty_file_may_be_written() {
    let dir = place("empty");
    for name in ["t.csv", "r.ron", "g.md"] {
        fs::write(dir.join(name), "").unwrap();
    }
    let args = ["run", "healthy", "--minutes", "0.05", "--trace", "t.csv", "--record", "r.ron"];
    assert_eq!(words(&pintle(&dir, &args)).0, Some(0));
    assert!(fs::read_to_string(dir.join("t.csv")).unwrap().starts_with("time_s,"));
    assert_eq!(words(&pintle(&dir, &["replay", "r.ron"])).0, Some(0));
    let _misses = pintle(&dir, &["qualify", "--section", "properties", "--report", "g.md"]);
    assert!(!fs::read_to_string(dir.join("g.md")).unwrap().is_empty());
    // A record is never written over, a trace may be.
    assert_eq!(words(&pintle(&dir, &args)).0, Some(2));
    assert_eq!(lies_in(&dir), ["g.md", "r.ron", "t.csv"]);
    fs::remove_dir_all(dir).unwrap();
}

/// What only its owner could read stays so.
#[cfg(unix)]
#[test]
fn a_file_keeps_its_permissions() {
    use std::os::unix::fs::PermissionsExt;
    let dir = place("mode");
    let path = dir.join("t.csv");
    fs::write(&path, "").unwrap();
    fs::set_permissions(&path, fs::Permissions::from_mode(0o600)).unwrap();
    assert_eq!(words(&pintle(&dir, &["run", "healthy", "--minutes", "0.01", "--trace", "t.csv"])).0, Some(0));
    assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o600);
    fs::remove_dir_all(dir).unwrap();
}

#[cfg(unix)]
#[test]
fn ways_out_are_written_to_straight_away() {
    let dir = place("out");
    let run = ["run", "healthy", "--minutes", "0.05"];
    let (code, out, log) = words(&pintle(&dir, &[&run[..], &["--trace", "/dev/stdout"]].concat()));
    assert_eq!(code, Some(0), "{log}");
    assert!(out.starts_with("time_s,") && out.contains("state hash"), "{out:.200}");
    // Into a file, what comes after the trace stands behind it.
    let file = fs::File::create(dir.join("both.txt")).unwrap();
    let args = [&run[..], &["--trace", "/dev/stdout", "--json"]].concat();
    assert!(command(&dir, &args).stdout(file).status().unwrap().success());
    let both = fs::read_to_string(dir.join("both.txt")).unwrap();
    assert!(both.starts_with("time_s,") && both.ends_with("}\n"), "{both:.200}");
    assert_eq!(words(&pintle(&dir, &[&run[..], &["--record", "/dev/null"]].concat())).0, Some(0));
    let (code, _, log) = words(&pintle(&dir, &[&run[..], &["--trace", "/dev/full"]].concat()));
    assert!(code == Some(2) && log.contains("/dev/full: the file cannot be written"), "{log}");
    // A pipe with a reader.
    assert!(Command::new("mkfifo").arg(dir.join("pipe")).status().unwrap().success());
    let reader = Command::new("cat").arg(dir.join("pipe")).stdout(Stdio::piped()).spawn().unwrap();
    assert_eq!(words(&pintle(&dir, &[&run[..], &["--record", "pipe"]].concat())).0, Some(0));
    let read = words(&reader.wait_with_output().unwrap()).1;
    assert!(read.contains("scenario:"), "{read:.200}");
    // A link is no file of its own.
    std::os::unix::fs::symlink("both.txt", dir.join("link.csv")).unwrap();
    std::os::unix::fs::symlink("nowhere", dir.join("gone.csv")).unwrap();
    for name in ["link.csv", "gone.csv"] {
        let (code, _, log) = words(&pintle(&dir, &[&run[..], &["--trace", name]].concat()));
        assert!(code == Some(2) && log.contains("this is a link"), "{log}");
    }
    assert_eq!(lies_in(&dir), ["both.txt", "gone.csv", "link.csv", "pipe"]);
    fs::remove_dir_all(dir).unwrap();
}

#[test]
fn two_outputs_of_one_name_are_refused_in_one_plain_message() {
    let dir = place("twice");
    let here = dir.join("new.csv");
    let mut others = vec!["new.csv", "./new.csv", here.to_str().unwrap()];
    if cfg!(unix) {
        others.push("/dev/stdout");
    }
    for other in others {
        let trace = if other == "/dev/stdout" { "/dev/fd/1" } else { "new.csv" };
        let args = ["run", "healthy", "--minutes", "0.05", "--trace", trace, "--record", other];
        let (code, out, log) = words(&pintle(&dir, &args));
        assert_eq!((code, log.lines().count(), out.as_str()), (Some(2), 1, ""), "{log}");
        assert!(log.contains("--trace and --record both name"), "{log}");
    }
    assert!(lies_in(&dir).is_empty());
    fs::remove_dir_all(dir).unwrap();
}

#[test]
fn pictures_are_not_written_over_foreign_files() {
    let dir = place("pictures");
    let foreign = b"\x89PNX my own notes";
    fs::write(dir.join("mine.png"), foreign).unwrap();
    let (code, _, log) = words(&pintle(&dir, &["desk", "--screenshot", "mine.png"]));
    assert!(code == Some(2) && log.contains("of another kind"), "{log}");
    assert_eq!(fs::read(dir.join("mine.png")).unwrap(), foreign);
    assert_eq!(lies_in(&dir), ["mine.png"]);
    fs::remove_dir_all(dir).unwrap();
}

/// A run that was stopped left its part behind.
#[cfg(unix)]
#[test]
fn a_run_that_is_stopped_leaves_nothing_behind() {
    let dir = place("stopped");
    for (name, code) in [("INT", 130), ("TERM", 143), ("HUP", 129)] {
        let args = ["run", "healthy", "--minutes", "9000", "--trace", "t.csv", "--record", "r.ron"];
        let child = command(&dir, &args).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        let began = Instant::now();
        while lies_in(&dir).len() < 2 {
            assert!(began.elapsed() < Duration::from_secs(20), "it never began");
            std::thread::sleep(Duration::from_millis(5));
        }
        let told = Command::new("kill").args(["-s", name, &child.id().to_string()]).status().unwrap();
        assert!(told.success());
        let (got, out, log) = words(&child.wait_with_output().unwrap());
        assert_eq!(got, Some(code), "{name}: {log}");
        assert!(log.contains("stopped") && out.is_empty() && log.lines().count() == 1, "{name}: {log}");
        assert!(lies_in(&dir).is_empty(), "{name}: {:?}", lies_in(&dir));
    }
    fs::remove_dir_all(dir).unwrap();
}
