//! The ledger: refrigerant in grams and oil in millilitres by place. Who may not look inside sees what scales and glasses
//! show; what was let out is never silent.

use egui::{Align, Rect, Sense, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::hands::Hands;
use crate::bay::Ledger;
use crate::bay::oil_balance::oil_ml;
use crate::desk::fonts;
use crate::desk::panels::parts::{BODY, SMALL, body, capital, card, heading, row, small, write};
use crate::desk::panels::words::signed;

/// The page.
pub fn ledger(ui: &mut Ui, hands: &Hands) {
    let theme = hands.view.theme;
    released(ui, hands);
    match &hands.face.ledger {
        Some(ledger) => full(ui, hands, ledger),
        None => {
            heading(ui, theme, "Refrigerant");
            small(
                ui,
                theme,
                "Scales and glasses tell where it is: weigh before and after, write both down, and take one from the other.",
            );
        }
    }
    let mistakes = &hands.face.bay.log.mistakes;
    if !mistakes.is_empty() {
        heading(ui, theme, "What went wrong");
        for (mistake, _) in mistakes {
            body(ui, theme, &format!("{}.", capital(mistake.words())));
        }
    }
}

/// Grams let out, large and in the colour of a warning.
fn released(ui: &mut Ui, hands: &Hands) {
    let theme = hands.view.theme;
    let g = 1e3 * hands.face.released_kg;
    let text = format!("{g:.1} g");
    card(ui, theme, if g >= 0.05 { theme.high } else { theme.line }, |ui| {
        let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 30.0), Sense::hover());
        response.widget_info(|| {
            WidgetInfo::labeled(WidgetType::Label, true, format!("Let out into the air: {text}"))
        });
        write(ui, rect, Align::Min, "Let out into the air", BODY, theme.high);
        ui.painter().text(
            rect.right_center(),
            egui::Align2::RIGHT_CENTER,
            &text,
            fonts::bold(20.0),
            theme.high,
        );
        if g >= 0.05 {
            small(ui, theme, "Venting is against the law in most places. Follow local codes.");
        }
    });
}

fn full(ui: &mut Ui, hands: &Hands, ledger: &Ledger) {
    let theme = hands.view.theme;
    let g = |kg: f64| signed(&format!("{:.1} g", 1e3 * kg));
    heading(ui, theme, "Refrigerant: where it is now");
    let whole = ledger.found_kg().max(1e-6);
    share(ui, hands, "In the loop", ledger.loop_kg, whole);
    share(ui, hands, "In the hoses", ledger.hoses_kg, whole);
    for (vessel, &kg) in ledger.vessels_kg.iter() {
        share(ui, hands, &format!("In the {}", vessel.name()), kg, whole);
    }
    share(ui, hands, "Let out", ledger.released_kg, whole);
    row(ui, theme, "All together", &g(ledger.found_kg()));
    row(ui, theme, "There at the start", &g(ledger.start_kg));
    if ledger.cans_kg != 0.0 {
        row(ui, theme, "Came with cans, less what went", &g(ledger.cans_kg));
    }
    if ledger.imposed_kg != 0.0 {
        row(ui, theme, "Put in by the instructor", &g(ledger.imposed_kg));
    }
    row(ui, theme, "Not accounted for", &g(ledger.unaccounted_kg()));
    heading(ui, theme, "Oil");
    let ml = |kg: f64| signed(&format!("{:.0} mL", oil_ml(kg)));
    for (name, kg) in [
        ("In loop and hoses", ledger.oil_loop_kg),
        ("Came along into vessels", ledger.oil_vessels_kg),
        ("Lost with what was let out", ledger.oil_lost_kg),
        ("Came out with parts", ledger.oil_taken_kg),
        ("Put in", ledger.oil_added_kg),
        ("There at the start", ledger.oil_start_kg),
        ("Not accounted for", ledger.oil_unaccounted_kg()),
    ] {
        row(ui, theme, name, &ml(kg));
    }
}

/// A place with its grams and a bar of its share.
fn share(ui: &mut Ui, hands: &Hands, name: &str, kg: f64, whole_kg: f64) {
    let theme = hands.view.theme;
    let text = format!("{:.1} g", 1e3 * kg);
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 22.0), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, format!("{name} {text}")));
    let share = (kg / whole_kg).clamp(0.0, 1.0) as f32;
    let line =
        Rect::from_min_max(pos2(rect.left(), rect.bottom() - 4.0), pos2(rect.right(), rect.bottom() - 1.0));
    ui.painter().rect_filled(line, 1.0, theme.line);
    let part = Rect::from_min_size(line.min, vec2(line.width() * share, line.height()));
    let lost = name == "Let out";
    ui.painter().rect_filled(part, 1.0, if lost { theme.high } else { theme.liquid });
    let room = Rect::from_min_max(rect.min, pos2(rect.right(), line.top()));
    write(ui, room, Align::Max, &text, BODY, if lost { theme.high } else { theme.text });
    write(ui, room, Align::Min, name, SMALL, theme.muted);
}
