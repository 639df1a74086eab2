//! The tools on the bench: choose one, choose its place, read it. Cautions stand before the act.

use egui::Ui;

use super::gate::gate;
use super::parts::{body, button, choice, heading, prepare, row, slider, small, toggle};
use super::{Draft, words};
use crate::bench::{Action, Relay};
use crate::desk::{Command, DeskView, Papers, Screen};
use crate::instrument::{DetectorScale, Probe, Shelf, Tool};

/// In a column lower than this, and so much for each tool on the bench, the list makes room for the tool in hand.
const ROOM_FOR_PLACES: f32 = 420.0;
const ROOM_FOR_TOOL: f32 = 28.0;

/// Faster than this is no idle [rev/min].
const IDLE_RPM: f64 = 1_200.0;

/// Tools of the scenario and what the one in hand can do.
pub fn tools_ui(ui: &mut Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    heading(ui, view.theme, "Tools");
    let in_hand = view.ui_state.tool.filter(|tool| view.brief.has(*tool));
    let list = ROOM_FOR_TOOL * view.brief.bench_tools().count() as f32;
    let roomy = ui.clip_rect().height() >= ROOM_FOR_PLACES + list;
    let draft = &mut papers.draft;
    for tool in view.brief.bench_tools() {
        if roomy || in_hand.is_none() || in_hand == Some(tool) {
            let state = state_of(view, tool);
            let response = choice(ui, view.theme, tool.name(), &state, in_hand == Some(tool));
            if response.clicked() {
                draft.pending = None;
                out.push(Command::ChooseTool((in_hand != Some(tool)).then_some(tool)));
                response.scroll_to_me(Some(egui::Align::Min));
            }
        }
    }
    if let Some(tool) = in_hand {
        if button(ui, view.theme, "Put it down", ui.available_width(), false).clicked() {
            draft.pending = None;
            out.push(Command::ChooseTool(None));
        }
        small(ui, view.theme, tool.touches());
        in_use(ui, view, tool, draft, out);
    }
}

/// Places and switches of the tool in hand.
pub(in crate::desk) fn in_use(
    ui: &mut Ui,
    view: &DeskView,
    tool: Tool,
    draft: &mut Draft,
    out: &mut Vec<Command>,
) {
    match tool {
        Tool::GaugeSet => return gauge_set(ui, view, draft, out),
        Tool::Jumper => return jumper(ui, view, draft, out),
        // They are only noticed; their panel stands below.
        Tool::Senses => return,
        _ => {}
    }
    // Their panel is one of its own.
    if tool.shelf() == Shelf::Wiring {
        if button(ui, view.theme, "To the wiring (G)", ui.available_width(), true).clicked() {
            out.push(Command::Toggle(Screen::Rig));
        }
        return;
    }
    let mut places = tool.probes(&view.rig.circuit);
    if tool == Tool::LeakDetector {
        let chosen = detector_scale(ui, view, out);
        places.retain(|probe| matches!(probe, Probe::LeakDetector { scale, .. } if *scale == chosen));
    }
    places_of(ui, view, draft, &places, out);
}

/// Scale of the leak detector: its keys, once its tip is somewhere, and the scale it stands on.
fn detector_scale(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) -> DetectorScale {
    let tip = |(probe, _): &(Probe, f64)| match probe {
        Probe::LeakDetector { place, scale } => Some((*place, *scale)),
        _ => None,
    };
    let Some((place, now)) = view.snapshot.instruments.placed.iter().find_map(tip) else {
        return DetectorScale::default();
    };
    for scale in DetectorScale::ALL {
        if toggle(ui, view.theme, scale.name(), scale == now).clicked() && scale != now {
            out.push(Command::Act(Action::Place(Probe::LeakDetector { place, scale })));
        }
    }
    now
}

/// A word on where the tool is now.
pub(in crate::desk) fn state_of(view: &DeskView, tool: Tool) -> String {
    let instruments = &view.snapshot.instruments;
    match tool {
        Tool::GaugeSet if instruments.hoses_fitted => "fitted".into(),
        Tool::Jumper => instruments.jumper.map(|r| words::relay(r).to_owned()).unwrap_or_default(),
        Tool::Reader if instruments.electrical.done.reader => "in".into(),
        _ if instruments.placed.iter().any(|(probe, _)| probe.tool() == tool) => "set".into(),
        _ => String::new(),
    }
}

fn gauge_set(ui: &mut Ui, view: &DeskView, draft: &mut Draft, out: &mut Vec<Command>) {
    let (theme, instruments) = (view.theme, &view.snapshot.instruments);
    let fitted = instruments.hoses_fitted;
    let (wish, confirm) = if fitted {
        ("Take the hoses off", "Take hoses off, goggles on")
    } else {
        ("Fit the hoses", "Fit hoses, goggles on")
    };
    let action = Action::Hoses(!fitted);
    if draft.pending.as_ref() != Some(&action)
        && button(ui, theme, wish, ui.available_width(), false).clicked()
    {
        draft.ask(action.clone(), out);
    }
    gate(ui, theme, draft, &action, confirm, out);
    if !fitted {
        return;
    }
    for (probe, name) in [(Probe::LowGauge, "Read the low gauge"), (Probe::HighGauge, "Read the high gauge")]
    {
        if button(ui, theme, name, ui.available_width(), false).clicked() {
            out.push(Command::Act(Action::Read(probe)));
        }
    }
    let valves: [(&str, f64, fn(f64) -> Action); 2] = [
        ("Low hand valve", instruments.manifold_low_pct, Action::ManifoldLowPct),
        ("High hand valve", instruments.manifold_high_pct, Action::ManifoldHighPct),
    ];
    for (name, pct, action) in valves {
        let text = if pct <= 0.0 { "shut".to_owned() } else { format!("{pct:.0} % open") };
        if let Some(v) = slider(ui, theme, name, &text, pct, 0.0..=100.0, 5.0) {
            out.push(Command::Act(action(v)));
        }
    }
    small(ui, theme, "Open valves join both sides.");
}

fn places_of(ui: &mut Ui, view: &DeskView, draft: &mut Draft, places: &[Probe], out: &mut Vec<Command>) {
    let theme = view.theme;
    for probe in places {
        let shown = view.snapshot.instruments.placed.iter().find(|(placed, _)| placed == probe);
        if choice(ui, theme, &probe.choice(), "", shown.is_some()).clicked() {
            draft.ask(Action::Place(probe.clone()), out);
        }
        gate(ui, theme, draft, &Action::Place(probe.clone()), "Place it, gloves on", out);
        if let Some((_, si)) = shown {
            row(ui, theme, "shows", &words::value(view.units, probe, *si));
            if button(ui, theme, "Write it down", ui.available_width(), true).clicked() {
                out.push(Command::Act(Action::Read(probe.clone())));
            }
        }
    }
}

fn jumper(ui: &mut Ui, view: &DeskView, draft: &mut Draft, out: &mut Vec<Command>) {
    let (theme, now) = (view.theme, view.snapshot.instruments.jumper);
    if view.snapshot.instruments.jumper_fuse_blown {
        small(ui, theme, "The fuse of the lead has blown: it bridged a short circuit.");
    }
    for relay in [Relay::Fan, Relay::Clutch] {
        let here = now == Some(relay);
        let action = Action::Jumper((!here).then_some(relay));
        if toggle(ui, theme, words::relay_name(relay), here).clicked() {
            draft.ask(action.clone(), out);
        }
        if relay == Relay::Clutch && draft.pending.as_ref() == Some(&action) {
            before_bridging_the_clutch(ui, view);
        }
        gate(ui, theme, draft, &action, "Bridge it, hands clear", out);
    }
    if now == Some(Relay::Clutch) {
        body(ui, theme, "Both pressure cut-outs are bypassed. Take the lead off within seconds.");
    }
}

/// What is not as caution S25 asks.
fn before_bridging_the_clutch(ui: &mut Ui, view: &DeskView) {
    let (theme, rpm) = (view.theme, view.snapshot.outside.engine_rpm);
    if rpm > IDLE_RPM {
        body(ui, theme, &format!("The engine turns at {rpm:.0} rpm: bring it to idle first."));
    }
    let pressures = |probe: &Probe| matches!(probe, Probe::LowGauge | Probe::HighGauge);
    if !view.snapshot.instruments.notebook.iter().any(|reading| pressures(&reading.probe)) {
        body(ui, theme, "No pressure stands in the notebook: the charge is not proven yet.");
    }
}
