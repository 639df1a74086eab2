//! The tools on the bench: choose one, choose its place, read it. Cautions stand before the act.

use egui::Ui;

use super::gate::gate;
use super::parts::{body, button, choice, heading, prepare, row, slider, small, toggle};
use super::{Draft, words};
use crate::bench::{Action, Relay, tool_of};
use crate::desk::{Command, DeskView};
use crate::instrument::{AirPlace, DetectorScale, PipePlace, Probe, SearchPlace, bay_tools};
use crate::scenario::Tool;

/// In a column lower than this, and so much for each tool on the bench, the list makes room for the tool in hand.
const ROOM_FOR_PLACES: f32 = 420.0;
const ROOM_FOR_TOOL: f32 = 28.0;

/// Faster than this is no idle [rev/min].
const IDLE_RPM: f64 = 1_200.0;

/// Tools of the scenario and what the one in hand can do.
pub fn tools_ui(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    heading(ui, view.theme, "Tools");
    let in_hand = view.ui_state.tool.filter(|tool| view.scenario.has(*tool));
    let list = ROOM_FOR_TOOL * view.scenario.bench_tools().count() as f32;
    let roomy = ui.clip_rect().height() >= ROOM_FOR_PLACES + list;
    let mut draft = Draft::load(ui.ctx(), view);
    for tool in view.scenario.bench_tools() {
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
        small(ui, view.theme, touches(tool));
        in_use(ui, view, tool, &mut draft, out);
    }
    draft.save(ui.ctx());
}

/// Places and switches of the tool in hand.
pub(in crate::desk) fn in_use(
    ui: &mut Ui,
    view: &DeskView,
    tool: Tool,
    draft: &mut Draft,
    out: &mut Vec<Command>,
) {
    let places: Vec<(Probe, String)> = match tool {
        Tool::GaugeSet => return gauge_set(ui, view, draft, out),
        Tool::Jumper => return jumper(ui, view, draft, out),
        Tool::PipeThermometer => {
            PipePlace::ALL.map(|p| (Probe::Pipe(p), format!("{} {}", p.point(), words::pipe(p)))).into()
        }
        Tool::AirThermometer => AirPlace::ALL.map(|p| (Probe::Air(p), p.name().to_owned())).into(),
        Tool::Voltmeter => {
            view.circuit_points.iter().map(|(id, label)| (Probe::Volts(id.clone()), label.clone())).collect()
        }
        // Their panel is one of its own.
        Tool::Meter | Tool::TestLamp | Tool::ClampAmmeter | Tool::Reader => {
            if button(ui, view.theme, "To the wiring (G)", ui.available_width(), true).clicked() {
                out.push(Command::ToggleRig);
            }
            return;
        }
        Tool::SightGlass => vec![(Probe::SightGlass, "look into the glass".to_owned())],
        Tool::VacuumGauge => named([Probe::VacuumGauge]),
        Tool::Scales => named([Probe::RecoveryScale, Probe::ChargingScale, Probe::OilGraduation]),
        Tool::InfraredThermometer => {
            let aims = [(false, "bare"), (true, "on tape")];
            let at = |place: PipePlace| {
                aims.map(|(taped, how)| {
                    (Probe::Infrared { place, taped }, format!("{}, {how}", words::pipe(place)))
                })
            };
            PipePlace::ALL.into_iter().flat_map(at).collect()
        }
        Tool::Psychrometer => AirPlace::ALL.map(|p| (Probe::WetBulb(p), p.name().to_owned())).into(),
        Tool::AirflowMeter => named([Probe::Airflow]),
        Tool::LeakDetector => {
            let scale = detector_scale(ui, view, out);
            search(|place| Probe::LeakDetector { place, scale })
        }
        Tool::SoapSolution => search(Probe::Soap),
        Tool::UvLamp => search(Probe::UvLamp),
        Tool::Identifier => named([Probe::Identifier, Probe::IdentifierAir]),
        Tool::Senses => Vec::new(),
    };
    places_of(ui, view, draft, &places, out);
}

/// Places of a tool with their names.
fn named(probes: impl IntoIterator<Item = Probe>) -> Vec<(Probe, String)> {
    probes.into_iter().map(|probe| (probe.clone(), bay_tools::name(&probe))).collect()
}

/// All places to search for a leak, by their names.
fn search(probe: impl Fn(SearchPlace) -> Probe) -> Vec<(Probe, String)> {
    SearchPlace::ALL.map(|place| (probe(place), place.name().to_owned())).into()
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

/// What a tool can touch, said in one line.
pub(in crate::desk) fn touches(tool: Tool) -> &'static str {
    match tool {
        Tool::GaugeSet => "Goes on the two service ports.",
        Tool::PipeThermometer => "Clamps on a bare metal pipe.",
        Tool::AirThermometer => "Hangs in an air stream.",
        Tool::Voltmeter => "Red lead on a point, black lead on battery minus.",
        Tool::Jumper => "Bridges the contact of a relay. Live parts after it prove the power path.",
        Tool::Meter => "Two leads on any two points: volts, ohms, amperes.",
        Tool::TestLamp => "Between two points; it takes real current.",
        Tool::ClampAmmeter => "Round one wire. Zero it with the jaws empty.",
        Tool::Reader => "In the diagnostic socket.",
        Tool::SightGlass => "In the liquid line, before the valve.",
        Tool::VacuumGauge => {
            "At the centre hose. Absolute: it knows no height above the sea. It shows nothing above 20,000 micron."
        }
        Tool::Scales => {
            "Under the vessels; a glass for the oil. Weigh before and after: the difference counts."
        }
        Tool::InfraredThermometer => {
            "Aimed at a pipe. Bright metal mirrors the air around it and reads wrong: put black tape on."
        }
        Tool::Psychrometer => "Wet bulb in its own air stream. Give it two minutes.",
        Tool::AirflowMeter => "Hood over the vents.",
        Tool::LeakDetector => "Tip under the place, slowly. Fan off, no wind, clean air.",
        Tool::SoapSolution => "Needs pressure inside. Finds larger leaks, and shows the very spot.",
        Tool::UvLamp => "Shows oil with dye where it came out. Needs dye and time.",
        Tool::Identifier => "Needs a sample from the low-side port.",
        Tool::Senses => "See Look, listen, touch below.",
    }
}

/// A word on where the tool is now.
pub(in crate::desk) fn state_of(view: &DeskView, tool: Tool) -> String {
    let instruments = &view.snapshot.instruments;
    let placed = |wanted: fn(&Probe) -> bool| {
        let here = instruments.placed.iter().any(|(probe, _)| wanted(probe));
        if here { "set".to_owned() } else { String::new() }
    };
    match tool {
        Tool::GaugeSet if instruments.hoses_fitted => "fitted".into(),
        Tool::GaugeSet => String::new(),
        Tool::PipeThermometer => placed(|p| matches!(p, Probe::Pipe(_))),
        Tool::AirThermometer => placed(|p| matches!(p, Probe::Air(_))),
        Tool::Voltmeter => placed(|p| matches!(p, Probe::Volts(_))),
        Tool::Jumper => instruments.jumper.map(|r| words::relay(r).to_owned()).unwrap_or_default(),
        Tool::Meter => placed(|p| matches!(p, Probe::Meter { .. })),
        Tool::TestLamp => placed(|p| matches!(p, Probe::Lamp { .. })),
        Tool::ClampAmmeter => placed(|p| matches!(p, Probe::Clamp(_))),
        Tool::Reader if instruments.electrical.done.reader => "in".into(),
        Tool::Reader => String::new(),
        Tool::SightGlass => placed(|p| matches!(p, Probe::SightGlass)),
        Tool::Senses => String::new(),
        other => {
            let here = instruments.placed.iter().any(|(probe, _)| tool_of(probe) == other);
            if here { "set".to_owned() } else { String::new() }
        }
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

fn places_of(
    ui: &mut Ui,
    view: &DeskView,
    draft: &mut Draft,
    places: &[(Probe, String)],
    out: &mut Vec<Command>,
) {
    let theme = view.theme;
    for (probe, name) in places {
        let shown = view.snapshot.instruments.placed.iter().find(|(placed, _)| placed == probe);
        if choice(ui, theme, name, "", shown.is_some()).clicked() {
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
