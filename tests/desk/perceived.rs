//! The card of what a person notices: it fits, says everything in words, writes down on a click, and warns first.

use crate::sample::{Desk, World, practice, world_of};
use crate::shapes;
use egui_kittest::kittest::Queryable;
use pintle::bench::{Action, Bench};
use pintle::desk::{Command, DeskView, Papers, panels};
use pintle::fault::FaultId;
use pintle::instrument::Probe;
use pintle::perceive::{Organ, Place, Sense, Sound};

/// The column the card stands in at 1366x768, and one twice as wide.
const COLUMN: egui::Vec2 = egui::vec2(172.0, 1400.0);
const WIDE: egui::Vec2 = egui::vec2(296.0, 900.0);

fn card(ui: &mut egui::Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    egui::ScrollArea::vertical()
        .auto_shrink(false)
        .show(ui, |ui| panels::perceived_ui(ui, view, papers, out));
}

fn read(sense: Sense) -> Command {
    Command::Act(Action::Read(Probe::Sense(sense)))
}

/// The header of an organ as it stands, with its count.
fn open(desk: &mut Desk, organ: Organ) {
    let snapshot = &desk.harness.state().world.snapshot;
    let count = snapshot.perceived.percepts.iter().filter(|p| p.sense.organ() == organ && p.notable).count();
    let count = if count == 0 { "nothing".to_owned() } else { count.to_string() };
    desk.click(&format!("{}, {count}", organ.name()));
}

/// A car in practice with a fault in it, ten minutes on.
fn faulty(id: FaultId, severity: f64) -> World {
    let mut scenario = practice().scenario;
    scenario.faults.clear();
    scenario.moments.clear();
    scenario.inside_view = false;
    scenario.start = pintle::knobs::Controls::default();
    let mut bench = Bench::new(&scenario, 1).expect("a bench");
    bench.apply(Action::ImposeFault { id, severity }).expect("allowed");
    bench.advance(12_000);
    world_of(&bench)
}

#[test]
fn every_page_of_the_card_fits() {
    let mut problems = Vec::new();
    let worlds = [
        ("healthy", World::explore()),
        ("dead fan", faulty(FaultId::CondenserFanMotorOpen, 1.0)),
        ("flooded", faulty(FaultId::TxvStuckOpen, 1.5)),
        ("short", faulty(FaultId::Undercharge, 0.5)),
        ("dry", faulty(FaultId::LowOil, 1.0)),
    ];
    for size in [COLUMN, WIDE] {
        for (name, world) in &worlds {
            for organ in Organ::ALL {
                let mut desk = Desk::new(card, size, world.clone());
                open(&mut desk, organ);
                desk.harness.run_steps(3);
                let found = shapes::problems(desk.harness.output(), true, true);
                problems.extend(found.into_iter().map(|p| format!("{name}, {organ:?}, {}: {p}", size.x)));
            }
        }
    }
    assert!(problems.is_empty(), "{}\n{} problems", problems.join("\n"), problems.len());
}

#[test]
fn closed_it_is_five_rows() {
    let mut desk = Desk::new(card, COLUMN, World::explore());
    desk.harness.run_steps(2);
    let lowest = shapes::texts(desk.harness.output());
    assert_eq!(lowest.len(), 1 + 2 * Organ::ALL.len(), "{lowest:?}");
}

#[test]
fn practice_shows_every_sign_and_a_click_writes_it_down() {
    let world = faulty(FaultId::CondenserFanMotorOpen, 1.0);
    assert!(world.snapshot.inside.is_none());
    let mut desk = Desk::new(card, COLUMN, world);
    open(&mut desk, Organ::Ear);
    desk.click("Listen, condenser fan: silent");
    assert_eq!(desk.taken(), [read(Sense::Listen(Sound::Fan))]);
    assert!(desk.harness.query_by_label_contains("Spectrum. Loudest near").is_some());
    open(&mut desk, Organ::Hand);
    assert!(desk.harness.query_by_label_contains("Spectrum").is_none(), "one page at a time");
    assert!(desk.harness.query_by_label("Touch, liquid pipe: too hot to touch").is_some());
    open(&mut desk, Organ::Hand);
    assert!(desk.harness.query_by_label_contains("liquid pipe").is_none());
}

#[test]
fn a_hot_part_waits_behind_its_caution_and_frost_is_told_with_the_cold() {
    let mut desk = Desk::new(card, COLUMN, faulty(FaultId::Undercharge, 0.5));
    open(&mut desk, Organ::Hand);
    assert!(desk.harness.query_all_by_label_contains("burns skin").count() == 1, "told once, above the list");
    desk.click("Touch, discharge pipe: too hot to touch");
    assert!(desk.taken().is_empty());
    assert!(desk.harness.get_by_label("Not now").is_focused());
    desk.click("Hold the hand near");
    assert_eq!(desk.taken(), [read(Sense::Touch(Place::DischargePipe))]);
    desk.click("Touch, pipe after the valve: freezing cold, white with frost");
    assert_eq!(desk.taken(), [read(Sense::Touch(Place::AfterMetering))]);
    open(&mut desk, Organ::Eye);
    desk.click("Look, pipe after the valve: white with frost");
    assert_eq!(desk.taken(), [read(Sense::Surface(Place::AfterMetering))]);
    // By keyboard alone.
    let evaporator = "Look, condenser fan: turns at part speed";
    desk.harness.get_by_label(evaporator).focus();
    desk.harness.run_steps(2);
    desk.harness.key_press(egui::Key::Enter);
    desk.harness.run_steps(2);
    assert_eq!(desk.taken().len(), 1);
}
