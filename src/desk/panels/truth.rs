//! True values for Explore: the six points, heats, superheat and charge.

use egui::{Align, Rect, ScrollArea, Sense, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::parts::{BODY, SMALL, heading, prepare, row, small, write};
use super::words;

use crate::bench::{Inside, MeteringKind, PointState};
use crate::constants::POUND_KG;
use crate::desk::{Command, DeskView, Papers};
use crate::units::{DeltaK, GaugePa, Kelvin, Units};

const NAMES: [&str; 6] = [
    "compressor inlet",
    "compressor outlet",
    "condenser outlet",
    "valve inlet",
    "valve outlet",
    "evaporator outlet",
];

/// The table on its own.
pub fn truth_ui(ui: &mut Ui, view: &DeskView, _papers: &mut Papers, _out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    values(ui, view);
}

/// The table inside another panel.
pub fn values(ui: &mut Ui, view: &DeskView) {
    let theme = view.theme;
    let Some(inside) = &view.snapshot.inside else {
        small(ui, theme, "The inside is hidden. Show it with I to see true values.");
        return;
    };
    ScrollArea::vertical().id_salt("truth").auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing = vec2(10.0, 1.0);
        heading(ui, theme, "Points of the loop, pressures absolute");
        let units = view.units;
        let flow = if units == Units::Psi { "lb/min" } else { "g/s" };
        cells(ui, view, ["", units.pressure_unit(), units.temperature_unit(), "kJ/kg", "vapour", flow], true);
        for (i, (point, name)) in inside.points.iter().zip(NAMES).enumerate() {
            let [p, t, h, x, m] = point_text(units, point);
            let number = (i + 1).to_string();
            let row = cells(ui, view, [&number, &p, &t, &h, &x, &m], false);
            row.on_hover_text(format!("Point {number}: {name}"));
        }
        rows(ui, view, inside);
    });
}

fn point_text(units: Units, point: &PointState) -> [String; 5] {
    let p = units.pressure_value(point.p_total_pa);
    let p = if units == Units::Bar { format!("{p:.2}") } else { format!("{p:.0}") };
    let x = if point.x.is_finite() {
        format!("{:.0} %", point.x * 100.0)
    } else if point.void_fraction > 0.5 {
        "gas".into()
    } else {
        "liquid".into()
    };
    let flow = point.flow_kg_s * if units == Units::Psi { 60.0 / POUND_KG } else { 1e3 };
    let t = units.temperature_value(Kelvin(point.t_k));
    [p, format!("{t:.1}"), format!("{:.1}", point.h_j_per_kg / 1e3), x, format!("{flow:.1}")]
        .map(|text| words::signed(&text))
}

fn cells(ui: &mut Ui, view: &DeskView, texts: [&str; 6], head: bool) -> egui::Response {
    const STOPS: [f32; 6] = [0.07, 0.24, 0.42, 0.63, 0.83, 1.0];
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 19.0), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, texts.join("  ")));
    let mut left = rect.left();
    for (text, stop) in texts.into_iter().zip(STOPS) {
        let right = rect.left() + stop * rect.width();
        let cell = Rect::from_min_max(pos2(left, rect.top()), pos2(right, rect.bottom()));
        let (size, ink) = if head { (SMALL, view.theme.muted) } else { (BODY, view.theme.text) };
        write(ui, cell, Align::Max, text, size, ink);
        left = right + 3.0;
    }
    response
}

/// Two short values side by side.
fn pair(ui: &mut Ui, view: &DeskView, left: (&str, &str), right: (&str, &str)) {
    ui.columns(2, |columns| {
        for (column, (name, value)) in columns.iter_mut().zip([left, right]) {
            row(column, view.theme, name, value);
        }
    });
}

fn rows(ui: &mut Ui, view: &DeskView, i: &Inside) {
    let (theme, units) = (view.theme, view.units);
    let topology = view.snapshot.topology;
    let watts = |w: f64| format!("{w:.0} W");
    let grams = |kg: f64| format!("{:.0} g", kg * 1e3);
    let tenths = |kg: f64| format!("{:.1} g", kg * 1e3);
    let degrees = |k: f64| units.temperature(Kelvin(k));
    let share = |x: f64| format!("{:.0} %", x * 100.0);
    heading(ui, theme, "Heat and work into the refrigerant");
    pair(ui, view, ("Evaporator", &watts(i.q_evaporator_w)), ("Shaft", &watts(i.w_compressor_w)));
    pair(
        ui,
        view,
        ("Condenser", &words::signed(&watts(-i.q_condenser_w))),
        ("Lines, shells", &watts(i.q_other_w)),
    );
    if let Some(chiller) = &i.chiller {
        let coolant = degrees(chiller.coolant_t_k);
        pair(ui, view, ("Chiller", &watts(chiller.heat_w)), ("Coolant", &coolant));
    }
    if let Some(exchanger) = &i.exchanger {
        row(ui, theme, "Liquid to suction, in the exchanger", &watts(exchanger.heat_w));
    }
    heading(ui, theme, "State of the loop");
    row(ui, theme, "Superheat at 6", &units.difference(DeltaK(i.superheat_k)));
    row(ui, theme, "Subcooling at 4", &units.difference(DeltaK(i.subcooling_k)));
    if topology.metering != MeteringKind::OrificeTube {
        row(ui, theme, "Valve opening", &format!("{} of full lift", share(i.valve_lift)));
    }
    if topology.receiver {
        row(ui, theme, "Receiver level", &share(i.receiver_level));
    }
    if let Some(vessel) = &i.accumulator {
        row(ui, theme, "Accumulator level", &share(vessel.level));
    }
    row(ui, theme, "Bubbles in the liquid line", &share(i.sight_glass_bubbles));
    row(ui, theme, "Charge in the loop", &grams(i.charge_kg));
    pair(ui, view, ("Let out", &grams(i.released_kg)), ("Air inside", &tenths(i.air_kg)));
    row(ui, theme, "Compressor", &format!("{:.0} rpm", i.compressor_rpm));
    heading(ui, theme, "Oil, water, compressor");
    let oil = format!("{:.0} of {:.0} g", i.oil_sump_kg * 1e3, i.oil_kg * 1e3);
    row(ui, theme, "Oil in the compressor", &oil);
    row(ui, theme, "Dissolved in the oil", &tenths(i.dissolved_kg));
    let hundredths = |kg: f64| format!("{:.2} g", kg * 1e3);
    pair(ui, view, ("Water", &hundredths(i.water_kg)), ("in desiccant", &hundredths(i.water_bound_kg)));
    row(ui, theme, "Ice at the metering device", &hundredths(i.valve_ice_kg));
    row(ui, theme, "Compressor body", &degrees(i.shell_t_k));
    let bearings = if i.compressor_wear >= 1.0 {
        "seized".to_owned()
    } else {
        format!("{} worn", share(i.compressor_wear))
    };
    row(ui, theme, "Bearings", &bearings);
    row(ui, theme, "Reeds damaged", &share(i.reeds_battered));
    row(ui, theme, "Frost on the evaporator", &grams(i.coil_frost_kg));
    heading(ui, theme, "Air");
    pair(ui, view, ("Vents", &degrees(i.vent_t_k)), ("Cabin", &degrees(i.cabin_t_k)));
    pair(ui, view, ("Outside", &degrees(i.ambient_t_k)), ("Bonnet", &degrees(i.bay_t_k)));
    let air_pa = i.points[1].p_total_pa - i.points[1].p_pa;
    if air_pa > 1e3 {
        let text = units.pressure(GaugePa(air_pa));
        row(ui, theme, "Share of trapped air in the pressure", &text);
    }
}
