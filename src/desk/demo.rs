//! A healthy scenario written in code: what the desk opens until the shelf of scenarios is asked for, and
//! what the panel tests draw.

use crate::bench::Controls;
use crate::scenario::{Mode, Scenario, Tool};

/// The healthy compact car, everything open.
pub fn scenario() -> Scenario {
    Scenario {
        format: 1,
        id: "healthy".into(),
        title: "Healthy compact car".into(),
        unit: "The loop".into(),
        tasks: Vec::new(),
        trains: "What a sound loop looks like at idle on a hot day.".into(),
        mode: Mode::Explore,
        work_order: "Nothing is wrong. Look round, turn the knobs, unfold the loop.".into(),
        rig: "compact_car_r134a".into(),
        start: Controls::default(),
        comes_on_after_s: 5.0,
        moments: Vec::new(),
        faults: Vec::new(),
        tools: Tool::ALL.to_vec(),
        hoses_fitted: true,
        inside_view: true,
        accepted_causes: Vec::new(),
        hints: Vec::new(),
        debrief: String::new(),
    }
}
