//! Ends of the centre hose that are no machine: its cap, the open air, and what must never go on it.

use egui::{Rect, Stroke, StrokeKind, Ui, vec2};

use super::hands::Hands;
use super::knobs::{one_of, switch};
use super::plan::Plan;
use crate::bay::{BayAction, CentreEnd};

/// The row below the manifold.
pub fn ends(ui: &mut Ui, plan: &Plan, hands: &mut Hands) {
    let theme = hands.view.theme;
    let bay = &hands.face.bay;
    let (now, loose) = (bay.centre, bay.loose);
    let crack = plan.r(226.0, 308.0, 98.0, 22.0);
    let name = "Crack the end of the centre hose open to let its air out";
    if switch(ui, theme, crack, "Crack it", name, loose).on_hover_text(name).clicked() {
        hands.bay(BayAction::Loosen(!loose), crack);
    }
    let places = [
        (CentreEnd::Cap, "Cap", 328.0, 40.0),
        (CentreEnd::Nothing, "Open end", 371.0, 61.0),
        (CentreEnd::CompressedAir, "Workshop air", 449.0, 86.0),
        (CentreEnd::Oxygen, "Oxygen", 538.0, 56.0),
    ];
    for (end, word, x, w) in places {
        let rect = plan.r(x, 308.0, w, 22.0);
        let name = match end {
            CentreEnd::Nothing => "Centre hose: leave its end open".to_owned(),
            end => format!("Centre hose: on the {}", end.name()),
        };
        let chosen = now == end;
        if one_of(ui, theme, rect, word, &name, chosen).on_hover_text(&name).clicked() && !chosen {
            hands.bay(BayAction::Centre(end), rect);
        }
    }
}

/// The head of something on the floor: its name, and the fitting that takes the centre hose.
pub fn head(ui: &mut Ui, plan: &Plan, hands: &mut Hands, end: CentreEnd, title: &str) -> Rect {
    let theme = hands.view.theme;
    let cell = plan.cell(end);
    let on = hands.face.bay.centre == end;
    let stroke = if on { Stroke::new(2.0, theme.chosen) } else { Stroke::new(1.0, theme.line) };
    ui.painter().rect(cell, 6.0, theme.panel, stroke, StrokeKind::Inside);
    let head = Rect::from_min_size(cell.min, vec2(cell.width(), 26.0));
    let name = format!("Centre hose: on the {}", end.name());
    if one_of(ui, theme, head, "", &name, on).on_hover_text(&name).clicked() && !on {
        hands.bay(BayAction::Centre(end), head);
    }
    let words = Rect::from_min_max(head.min + vec2(8.0, 0.0), head.max - vec2(30.0, 0.0));
    crate::desk::panels::parts::write(ui, words, egui::Align::Min, title, plan.text(), theme.text);
    let inlet = plan.inlet(end);
    let fill = if on { theme.chosen } else { theme.ground };
    ui.painter().circle(inlet, 6.5, fill, Stroke::new(2.0, if on { theme.chosen } else { theme.text }));
    Rect::from_min_max(head.left_bottom() + vec2(8.0, 6.0), cell.max - vec2(8.0, 8.0))
}
