//! True values for Explore: the six points, heats, superheat and charge.

use egui::{Align, Rect, ScrollArea, Sense, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::parts::{BODY, SMALL, heading, prepare, row, small, write};
use super::words;
use crate::bench::{Inside, PointState};
use crate::desk::{Command, DeskView};
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
pub fn truth_ui(ui: &mut Ui, view: &DeskView, _out: &mut Vec<Command>) {
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
    let flow = point.flow_kg_s * if units == Units::Psi { 60.0 / 0.453_592_37 } else { 1e3 };
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

fn rows(ui: &mut Ui, view: &DeskView, i: &Inside) {
    let (theme, units) = (view.theme, view.units);
    let watts = |w: f64| format!("{w:.0} W");
    let grams = |kg: f64| format!("{:.0} g", kg * 1e3);
    heading(ui, theme, "Heat and work into the refrigerant");
    row(ui, theme, "Evaporator", &watts(i.q_evaporator_w));
    row(ui, theme, "Compressor shaft", &watts(i.w_compressor_w));
    row(ui, theme, "Lines and shells", &watts(i.q_other_w));
    row(ui, theme, "Out at the condenser", &watts(i.q_condenser_w));
    heading(ui, theme, "State of the loop");
    row(ui, theme, "Superheat at 6", &units.difference(DeltaK(i.superheat_k)));
    row(ui, theme, "Subcooling at 4", &units.difference(DeltaK(i.subcooling_k)));
    row(ui, theme, "Valve opening", &format!("{:.0} % of full lift", i.valve_lift * 100.0));
    row(ui, theme, "Receiver level", &format!("{:.0} %", i.receiver_level * 100.0));
    row(ui, theme, "Bubbles in the glass", &format!("{:.0} %", i.sight_glass_bubbles * 100.0));
    row(ui, theme, "Charge in the loop", &grams(i.charge_kg));
    row(ui, theme, "Let out so far", &grams(i.released_kg));
    row(ui, theme, "Air in the loop", &format!("{:.1} g", i.air_kg * 1e3));
    row(ui, theme, "Compressor", &format!("{:.0} rpm", i.compressor_rpm));
    heading(ui, theme, "Oil, water, compressor");
    row(
        ui,
        theme,
        "Oil in the compressor",
        &format!("{:.0} of {:.0} g", i.oil_sump_kg * 1e3, i.oil_kg * 1e3),
    );
    row(ui, theme, "Dissolved in the oil", &format!("{:.1} g", i.dissolved_kg * 1e3));
    row(ui, theme, "Water in the loop", &format!("{:.2} g", i.water_kg * 1e3));
    row(ui, theme, "Bound by the desiccant", &format!("{:.2} g", i.water_bound_kg * 1e3));
    row(ui, theme, "Ice at the valve", &format!("{:.2} g", i.valve_ice_kg * 1e3));
    row(ui, theme, "Compressor body", &units.temperature(Kelvin(i.shell_t_k)));
    let bearings = if i.compressor_wear >= 1.0 {
        "seized".to_owned()
    } else {
        format!("{:.0} % worn", i.compressor_wear * 100.0)
    };
    row(ui, theme, "Bearings", &bearings);
    row(ui, theme, "Reeds damaged", &format!("{:.0} %", i.reeds_battered * 100.0));
    row(ui, theme, "Under the bonnet", &units.temperature(Kelvin(i.bay_t_k)));
    row(ui, theme, "Frost on the evaporator", &grams(i.coil_frost_kg));
    heading(ui, theme, "Air");
    row(ui, theme, "Vents", &units.temperature(Kelvin(i.vent_t_k)));
    row(ui, theme, "Cabin", &units.temperature(Kelvin(i.cabin_t_k)));
    row(ui, theme, "Outside", &units.temperature(Kelvin(i.ambient_t_k)));
    let air_pa = i.points[1].p_total_pa - i.points[1].p_pa;
    if air_pa > 1e3 {
        let text = units.pressure(GaugePa(air_pa));
        row(ui, theme, "Share of trapped air in the pressure", &text);
    }
}
