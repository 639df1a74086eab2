//! The service label: what a technician reads under the bonnet before anything else.

use egui::{RichText, Ui, vec2};

use super::page::Page;
use crate::constants::POUND_KG;
use crate::desk::DeskView;
use crate::desk::fonts;
use crate::desk::panels::parts::{body, card, heading, row, small};
use crate::units::Units;

/// Width of the plate [pt].
const WIDTH: f32 = 620.0;

/// The label.
pub fn label(ui: &mut Ui, view: &DeskView, page: &mut Page) {
    let theme = view.theme;
    let (plant, words) = (&view.rig.plant, &view.rig.pictures.label);
    let grams = |kg: f64| match view.units {
        Units::Psi => format!("{:.0} g ({:.2} lb)", kg * 1e3, kg / POUND_KG),
        _ => format!("{:.0} g", kg * 1e3),
    };
    ui.add_space(8.0);
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing = vec2(28.0, 6.0);
        ui.vertical(|ui| {
            ui.set_width(WIDTH);
            card(ui, theme, theme.text, |ui| {
                ui.add_space(6.0);
                ui.label(RichText::new(&view.rig.name).font(fonts::bold(20.0)).color(theme.text));
                body(ui, theme, &view.rig.words);
                ui.add_space(6.0);
                row(ui, theme, "Refrigerant", &plant.refrigerant);
                row(ui, theme, "Charge", &grams(plant.full_charge_kg));
                row(ui, theme, "Oil", &words.oil);
                row(ui, theme, "Amount of oil, whole loop", &grams(plant.oil.full_kg));
                row(ui, theme, "Relief opens at", &view.units.pressure(relief(plant.relief_pa)));
                for supply in &view.rig.circuit.supplies {
                    row(ui, theme, &supply.name, &supply_words(&supply.kind));
                }
                ui.add_space(6.0);
            });
            if !words.flammable.is_empty() {
                ui.add_space(6.0);
                card(ui, theme, theme.chosen, |ui| {
                    ui.label(RichText::new("CAUTION").font(fonts::bold(13.0)).color(theme.chosen));
                    body(ui, theme, &words.flammable);
                });
            }
        });
        ui.vertical(|ui| {
            heading(ui, theme, "Mind this");
            for caution in &words.cautions {
                let danger = caution.starts_with("DANGER");
                card(ui, theme, if danger { theme.high } else { theme.line }, |ui| {
                    body(ui, theme, caution);
                });
            }
            heading(ui, theme, "What stands on this label");
            small(
                ui,
                theme,
                "The charge and the amount of oil are those of this rig's model. Weigh refrigerant in; pressure \
                 does not tell how much there is.",
            );
            ui.add_space(4.0);
            small(ui, theme, crate::lesson::cautions::DISCLAIMER);
            ui.add_space(10.0);
            let area = ui.available_rect_before_wrap();
            super::location::sheet(ui, view, page, area);
        });
    });
}

fn relief(absolute_pa: f64) -> crate::units::GaugePa {
    crate::units::AbsolutePa(absolute_pa).gauge()
}

fn supply_words(kind: &crate::circuit::spec::SupplyKind) -> String {
    use crate::circuit::spec::SupplyKind;
    match *kind {
        SupplyKind::Battery { rest_v, charging_v, .. } => {
            format!("{rest_v:.1} V at rest, {charging_v:.1} V while charged")
        }
        SupplyKind::Traction { volts, .. } => format!("{volts:.0} V, dangerous"),
        SupplyKind::Mains { volts, .. } => format!("{volts:.0} V alternating, dangerous"),
    }
}
