//! A session from the outside: time, what is shown, and what a new case leaves behind.

use super::*;
use crate::desk::demo;
use crate::fault::FaultId;
use crate::knobs::Change;
use crate::rig::Rig;
use crate::scenario::{Mode, SHIPPED, load};
use crate::units::Units;

fn session() -> Session {
    Session::new(&demo::scenario()).expect("the demo opens")
}

#[test]
fn ticks_follow_wall_time_and_speed_whatever_the_frame_rate() {
    let mut hashes = Vec::new();
    for fps in [10_u32, 30, 144] {
        let mut session = session();
        session.command(Command::Speed(5));
        for _ in 0..fps * 4 {
            session.pass(1.0 / f64::from(fps), Duration::from_secs(5));
        }
        while session.run.bench.tick() < 400 {
            session.advance(1);
        }
        hashes.push((session.run.bench.tick(), session.run.bench.state_hash()));
    }
    assert!(hashes.windows(2).all(|w| w[0] == w[1]), "{hashes:?}");
}

#[test]
fn paused_time_stands_and_single_ticks_move_it() {
    let mut session = session();
    session.command(Command::TogglePause);
    session.pass(3.0, Duration::from_secs(1));
    assert_eq!(session.run.bench.tick(), 0);
    session.command(Command::SingleTick);
    assert_eq!(session.run.bench.tick(), 1);
}

#[test]
fn the_inside_stays_shut_where_it_is_not_granted() {
    let practice = Scenario { mode: Mode::Practice, inside_view: false, ..demo::scenario() };
    let mut session = Session::new(&practice).expect("opens");
    session.command(Command::ToggleInside);
    assert!(session.view().snapshot.inside.is_none());
    assert!(session.seat.ui_state.notice.is_some());
}

#[test]
fn hints_go_on_record_until_there_are_none_left() {
    let mut session = session();
    let all = session.view().brief.hints.left;
    assert!(all > 0);
    for taken in 1..=all {
        session.command(Command::Act(Action::Hint));
        let recorded = session.view().brief.hints.taken.len();
        assert_eq!((recorded, &session.seat.ui_state.notice), (taken, &None));
    }
    session.command(Command::Act(Action::Hint));
    assert_eq!(session.run.bench.journal().len(), all);
    assert_eq!(session.seat.ui_state.notice.as_deref(), Some("There are no more hints."));
}

#[test]
fn the_bay_opens_only_where_there_is_one_and_every_rig_has_one() {
    let mut plain = session();
    plain.command(Command::Toggle(Screen::Bay));
    assert_eq!(plain.seat.ui_state.screen, Screen::Bench);
    for rig in Rig::ids() {
        plain.command(Command::ExploreBay(rig.to_owned()));
        assert_eq!((plain.seat.ui_state.screen, &plain.seat.ui_state.notice), (Screen::Bay, &None), "{rig}");
        assert!(plain.view().snapshot.bay.is_some() && plain.view().rig.id == rig, "{rig}");
    }
    plain.command(Command::Follow(Some("hook_up".into())));
    assert!(plain.view().guide.is_some_and(|(guide, parts)| guide.step() == 0 && !parts.is_empty()));
    plain.command(Command::Toggle(Screen::Bay));
    assert_eq!(plain.seat.ui_state.screen, Screen::Bench);
}

#[test]
fn restarting_keeps_units_and_theme() {
    let mut session = session();
    session.command(Command::NextUnits);
    session.command(Command::ToggleTheme);
    session.pass(1.0, Duration::from_secs(1));
    session.command(Command::Restart);
    assert_eq!(
        (session.run.bench.tick(), session.seat.units, session.seat.theme.dark),
        (0, Units::Kpa, false)
    );
}

#[test]
fn nothing_hidden_reaches_a_panel() {
    let practices = SHIPPED.iter().filter_map(|s| load(s.id).ok()).filter(|s| s.mode == Mode::Practice);
    let mut tried = 0;
    for scenario in practices {
        let mut session = Session::new(&scenario).expect("opens");
        session.pass(0.05, Duration::from_secs(5));
        for granted in [false, true] {
            // Even where somebody opened the inside, which fault is in stays unsaid.
            session.seat.ui_state.show_inside = granted;
            session.stale = true;
            let seen = format!("{:?}", session.view());
            let mut hidden = scenario.hints.clone();
            hidden.push(scenario.debrief.clone());
            let causes = scenario.faults.iter().map(|f| f.id).chain(scenario.accepted_causes.iter().copied());
            hidden.extend(causes.flat_map(|id| {
                let info = id.info();
                [format!("{id:?}"), info.key.to_owned(), info.name.to_owned()]
            }));
            for words in hidden.iter().filter(|words| !words.is_empty()) {
                assert!(!seen.contains(words.as_str()), "{}, inside {granted}: “{words}”", scenario.id);
            }
            assert!(session.view().instructor.is_none());
        }
        tried += 1;
    }
    assert!(tried > 10, "only {tried} practices are shipped");
}

#[test]
fn an_instructor_sees_what_is_in_while_the_inside_is_open() {
    let mut session = session();
    let id = FaultId::Undercharge;
    session.command(Command::Act(Action::ImposeFault { id, severity: 0.3 }));
    let present = |session: &mut Session| session.view().instructor.and_then(|i| i.present.clone());
    assert!(present(&mut session).is_some_and(|faults| faults.iter().any(|f| f.id == id)));
    assert!(session.view().snapshot.inside.as_ref().is_some_and(|inside| inside.faults.is_empty()));
    session.command(Command::ToggleInside);
    assert_eq!(present(&mut session), None);
}

#[test]
fn a_new_case_begins_with_clean_papers() {
    let mut session = session();
    let (_, papers) = session.desk();
    papers.draft.because = "the fan stands still".into();
    papers.draft.evidence = vec![0, 3];
    papers.draft.pending = Some(Action::Set(Change::EngineOn(true)));
    papers.draft.tab = crate::desk::panels::Tab::Notebook;
    papers.rig.red = Some("fan_relay_86".into());
    papers.rig.find = "relay".into();
    papers.bay = Some(crate::desk::bay_page::Page::fresh(0.35));
    papers.organ = Some(crate::perceive::Organ::Ear);
    for command in [Command::Restart, Command::ExploreBay("sedan".into())] {
        session.command(command);
        let (_, papers) = session.desk();
        assert_eq!(papers.draft.tab, crate::desk::panels::Tab::Notebook, "where one looks is no secret");
        papers.draft.tab = crate::desk::panels::Tab::default();
        assert_eq!(*papers, Papers::default());
        papers.draft.tab = crate::desk::panels::Tab::Notebook;
        papers.draft.remark = "left over".into();
    }
}
