//! The start list: read beside the drawing, whatever lies in the folder.

use std::fs;
use std::time::{Duration, Instant};

use super::*;

/// A folder of its own for one test.
fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("pintle-shelf-{name}-{}", std::process::id()));
    drop(fs::remove_dir_all(&folder));
    fs::create_dir_all(&folder).unwrap();
    folder
}

/// The list once all of the folder is on it.
fn whole(shelf: &mut Shelf) -> Vec<Listed> {
    let began = Instant::now();
    shelf.collect(true);
    while shelf.coming.share().is_some() {
        assert!(began.elapsed() < Duration::from_secs(60), "the list never comes");
        std::thread::sleep(Duration::from_millis(2));
        shelf.collect(true);
    }
    shelf.listed().to_vec()
}

#[test]
fn embedded_scenarios_are_there_at_once() {
    let shelf = Shelf::of(Path::new("no such folder"));
    assert_eq!(shelf.listed().len(), SHIPPED.len());
    assert!(shelf.listed().iter().all(|l| l.case.is_ok()));
}

/// 200 broken files kept the window from opening, for the list was made before it.
#[test]
fn two_hundred_broken_files_keep_nobody_waiting() {
    let folder = folder("many");
    for n in 0..MOST_FILES + 30 {
        fs::write(folder.join(format!("broken_{n:03}.ron")), "(format: 1, \u{1b}[2J".repeat(500)).unwrap();
    }
    let began = Instant::now();
    let mut shelf = Shelf::of(&folder);
    shelf.collect(true);
    assert!(began.elapsed() < Duration::from_millis(500), "{:?}", began.elapsed());
    let all = whole(&mut shelf);
    assert_eq!(all.len(), SHIPPED.len() + MOST_FILES + 1);
    assert!(all.last().is_some_and(|l| l.case.as_ref().is_err_and(|why| why.contains("30 more files"))));
    let raw = |text: &String| text.chars().any(|c| c.is_control() && c != '\n');
    assert!(all.iter().filter_map(|l| l.case.as_ref().err()).all(|why| !raw(why)));
    fs::remove_dir_all(folder).unwrap();
}

/// A FIFO in `scenarios` hung the desk.
#[cfg(unix)]
#[test]
fn a_pipe_in_the_folder_hangs_nobody() {
    let folder = folder("pipe");
    let made = std::process::Command::new("mkfifo").arg(folder.join("pipe.ron")).status();
    assert!(made.is_ok_and(|status| status.success()), "mkfifo");
    std::os::unix::fs::symlink("/dev/zero", folder.join("zero.ron")).unwrap();
    let healthy = SHIPPED.iter().find(|s| s.id == "healthy").unwrap().text;
    fs::write(folder.join("mine.ron"), healthy.replacen("\"healthy\"", "\"mine\"", 1)).unwrap();
    fs::write(folder.join("copy.ron"), healthy).unwrap();
    let mut shelf = Shelf::of(&folder);
    let own: Vec<Listed> = whole(&mut shelf).split_off(SHIPPED.len());
    assert_eq!(own.len(), 3, "the copy of an embedded one is left out: {own:?}");
    assert_eq!(own[0].case.as_ref().map(|case| case.id.as_str()), Ok("mine"));
    assert!(
        own[1..].iter().all(|l| l.case.as_ref().is_err_and(|why| why.contains("ordinary file"))),
        "{own:?}"
    );
    fs::remove_dir_all(folder).unwrap();
}

#[test]
fn the_folder_is_read_again_when_the_list_comes_back() {
    let folder = folder("again");
    let mut shelf = Shelf::of(&folder);
    assert_eq!(whole(&mut shelf).len(), SHIPPED.len());
    fs::write(folder.join("new.ron"), "(").unwrap();
    assert_eq!(whole(&mut shelf).len(), SHIPPED.len(), "it stays on the screen");
    shelf.collect(false);
    assert_eq!(whole(&mut shelf).len(), SHIPPED.len() + 1);
    fs::remove_dir_all(folder).unwrap();
}
