use super::*;
use crate::bench::Bench;
use crate::instrument::Probe;
use crate::knobs::Change;
use crate::record::{reopen, replay};
use crate::scenario::load;

fn folder(name: &str) -> std::path::PathBuf {
    let folder = std::env::temp_dir().join(format!("pintle-{name}-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// A session of some acts and readings, the last words with line ends in them.
fn worked() -> Bench {
    let mut bench = Bench::new(&load("healthy").unwrap(), 3).unwrap();
    bench.apply(Action::Set(Change::BlowerPct(40.0))).unwrap();
    for _ in 0..3 {
        bench.advance(25);
        bench.apply(Action::Read(Probe::LowGauge)).unwrap();
    }
    bench.apply(Action::Note("low,\nand \"steady\"\u{0}".into())).unwrap();
    bench
}

#[test]
fn a_journal_makes_the_record_of_the_session() {
    let folder = folder("journal");
    let path = folder.join("a.session");
    let mut bench = worked();
    let mut journal = Journal::begin(&path, &bench, &[]).unwrap();
    assert!(Journal::begin(&path, &bench, &[]).is_err(), "nothing is written over");
    bench.advance(40);
    journal.note_time(&bench).unwrap();
    let cut_off = Record::read(&path).unwrap();
    assert_eq!((cut_off.ticks, cut_off.state.as_str(), cut_off.left_out.as_deref()), (115, "", None));
    bench.apply(Action::Set(Change::EngineOn(false))).unwrap();
    journal.leave(&bench, &[]).unwrap();
    let record = Record::read(&path).unwrap();
    assert_eq!(record, Record::of(&bench, &[]).unwrap());
    assert_eq!(record.is_untouched(), Some(true));
    assert_eq!(replay(&record).unwrap().state_hash(), bench.state_hash());
    std::fs::remove_dir_all(folder).unwrap();
}

/// Cut at any byte, it is a session that ended earlier, and never one that is lost.
#[test]
fn a_journal_cut_anywhere_keeps_all_whole_lines() {
    let folder = folder("torn");
    let path = folder.join("a.session");
    let bench = worked();
    drop(Journal::begin(&path, &bench, &[]).unwrap());
    let text = std::fs::read_to_string(&path).unwrap();
    let head = text.match_indices('\n').nth(1).unwrap().0 + 1;
    for end in head..=text.len() {
        let Some(cut) = text.get(..end) else { continue };
        let record = Record::from_text("cut", cut).unwrap();
        let whole = cut.matches('\n').count() - 2;
        let kept = record.actions.len() + record.readings.len();
        assert!(kept == whole || kept == whole + 1, "{end}: {kept} of {whole}");
        assert_eq!(record.left_out, None, "{end}");
    }
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn a_line_that_cannot_be_read_ends_the_record_and_says_so() {
    let folder = folder("foreign");
    let path = folder.join("a.session");
    drop(Journal::begin(&path, &worked(), &[]).unwrap());
    let text = std::fs::read_to_string(&path).unwrap();
    let mut lines: Vec<&str> = text.lines().collect();
    lines.insert(5, "did(60,teleport(3))");
    let record = Record::from_text("a", &(lines.join("\n") + "\n")).unwrap();
    assert_eq!(record.actions.len() + record.readings.len(), 3);
    let told = record.left_out.clone().unwrap();
    assert!(told.starts_with("line 6 cannot be read (unknown name `teleport`)"), "{told}");
    assert!(reopen(&record, &crate::effort::Effort::default()).is_ok());
    let newer = text.replacen("(format:2,", "(format:9,", 1);
    let bad = Record::from_text("a", &newer).unwrap_err().to_string();
    assert!(bad.starts_with("a:2:") && bad.contains("format 9 is not known"), "{bad}");
    std::fs::remove_dir_all(folder).unwrap();
}

/// What a full disk left half written is cut off by the next write that succeeds.
#[test]
fn half_a_line_is_overwritten() {
    let folder = folder("half");
    let path = folder.join("a.session");
    let mut bench = worked();
    let mut journal = Journal::begin(&path, &bench, &[]).unwrap();
    OpenOptions::new().append(true).open(&path).unwrap().write_all(b"did(80,no").unwrap();
    bench.apply(Action::Note("go on".into())).unwrap();
    journal.follow(&bench).unwrap();
    let record = Record::read(&path).unwrap();
    assert_eq!((record.actions.as_slice(), record.left_out), (bench.journal(), None));
    std::fs::remove_dir_all(folder).unwrap();
}
