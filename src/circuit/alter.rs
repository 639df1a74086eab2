//! Faults of parts, unplugged connectors and swapped relays, gathered into what they alter at each place.

use super::inputs::{Change, CircuitInputs};
use super::spec::{CircuitSpec, Kind};

/// A broken winding or joint [ohm].
const BROKEN_OHM: f64 = 1e7;
/// A bridged one [ohm].
const BRIDGED_OHM: f64 = 0.02;

/// What is altered at one part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Alter {
    /// Cut off altogether.
    pub cut: bool,
    /// Broken inside.
    pub open: bool,
    /// Bridged inside.
    pub shorted: bool,
    /// Added resistance [ohm].
    pub added_ohm: f64,
    /// Share of its own resistance.
    pub share: f64,
    /// A contact that stays closed (true) or open (false).
    pub stuck: Option<bool>,
    /// Reads so much more [Pa or K], gives so much more [V].
    pub offset: f64,
    /// Air gap [mm].
    pub gap_mm: Option<f64>,
    /// Share of charge, capacitance or a clutch's torque that is lost.
    pub weak: f64,
    /// Share of speed that is lost.
    pub drag: f64,
}

impl Alter {
    /// As built.
    pub const NOTHING: Self = Self {
        cut: false,
        open: false,
        shorted: false,
        added_ohm: 0.0,
        share: 1.0,
        stuck: None,
        offset: 0.0,
        gap_mm: None,
        weak: 0.0,
        drag: 0.0,
    };

    fn add(&mut self, change: Change) {
        let sound = |x: f64| if x.is_finite() { x } else { 0.0 };
        match change {
            Change::Open => self.open = true,
            Change::Shorted => self.shorted = true,
            Change::AddedOhm(x) => self.added_ohm += sound(x).max(0.0),
            Change::ShareOfOhm(x) => self.share *= sound(x).max(0.0),
            Change::StuckOpen => self.stuck = Some(false),
            Change::StuckClosed => self.stuck = Some(true),
            Change::Offset(x) => self.offset += sound(x),
            Change::Gap(x) => self.gap_mm = Some(sound(x).max(0.0)),
            Change::WeakBattery(x) | Change::WeakCapacitor(x) | Change::WornFacing(x) => {
                self.weak = sound(x).clamp(0.0, 1.0);
            }
            Change::Dragging(x) => self.drag = sound(x).clamp(0.0, 1.0),
        }
    }

    /// The resistance [ohm] of a part of so much.
    pub fn ohm(&self, own: f64) -> f64 {
        let whole = if self.shorted { BRIDGED_OHM.min(own) } else { own * self.share } + self.added_ohm;
        match (self.cut, self.open) {
            (true, _) => f64::INFINITY,
            (_, true) => BROKEN_OHM.max(own),
            _ => whole,
        }
    }
    /// The resistance [ohm] of a contact that wants to be closed or not.
    pub fn contact_ohm(&self, wants: bool, own: f64) -> f64 {
        if self.stuck.unwrap_or(wants) { self.ohm(own) } else { f64::INFINITY }
    }
}

/// The relay that a coil or contact belongs to.
fn relay_of(kind: &Kind) -> Option<&str> {
    match kind {
        Kind::Coil { relay, .. } | Kind::Contact { relay, .. } => Some(relay),
        _ => None,
    }
}

/// What is altered at every part, every supply and the alternator, in this order.
pub fn gather(spec: &CircuitSpec, inputs: &CircuitInputs) -> Vec<Alter> {
    let parts = spec.parts.len();
    let mut all = vec![Alter::NOTHING; parts + spec.supplies.len() + 1];
    for fault in &inputs.faults {
        let at = spec
            .parts
            .iter()
            .position(|p| p.id == fault.part)
            .or_else(|| spec.supplies.iter().position(|s| s.id == fault.part).map(|n| parts + n))
            .or_else(|| (fault.part == "alternator").then_some(all.len() - 1));
        if let Some(alter) = at.and_then(|n| all.get_mut(n)) {
            alter.add(fault.change);
        }
    }
    for (a, b) in &inputs.swapped {
        swap(spec, a, b, &mut all);
    }
    // An isolator that is a plug takes along what runs through the same plug: the other pole, the interlock.
    let isolated = |id: &String| inputs.isolated.contains(id);
    let pulled: Vec<&str> = spec
        .parts
        .iter()
        .filter(|p| matches!(p.kind, Kind::Isolator { .. }) && isolated(&p.id))
        .map(|p| p.connector.as_str())
        .chain(inputs.unplugged.iter().map(String::as_str))
        .filter(|name| !name.is_empty())
        .collect();
    for (part, alter) in spec.parts.iter().zip(&mut all) {
        let isolator = matches!(part.kind, Kind::Isolator { .. }) && isolated(&part.id);
        alter.cut = isolator || pulled.contains(&part.connector.as_str());
    }
    all
}

/// Two relays change sockets: what is wrong with coil and contacts goes along.
fn swap(spec: &CircuitSpec, a: &str, b: &str, all: &mut [Alter]) {
    let members = |relay: &str| -> Vec<usize> {
        (0..spec.parts.len()).filter(|&n| relay_of(&spec.parts[n].kind) == Some(relay)).collect()
    };
    let coil = |n: &usize| matches!(spec.parts[*n].kind, Kind::Coil { .. });
    let (ours, theirs) = (members(a), members(b));
    for coils in [true, false] {
        let of = |list: &[usize]| list.iter().copied().filter(|n| coil(n) == coils).collect::<Vec<_>>();
        for (x, y) in of(&ours).into_iter().zip(of(&theirs)) {
            all.swap(x, y);
        }
    }
}
