//! Names and explanations of the parts in the folded drawing, for hovering and for screen readers.

use egui::{Pos2, Rect, Sense, Ui, vec2};

use super::names;
use super::plan::{boxes, spots};
use super::sheet::Sheet;

impl Sheet<'_> {
    /// Names and explanations for hovering and for screen readers.
    pub fn explain(&self, ui: &mut Ui) {
        let square = |p: Pos2, half: f32| Rect::from_center_size(p, vec2(half, half) * 2.0);
        let topology = self.plan.parts;
        let (mover, ..) = names::room(topology);
        let mut parts = vec![
            (
                "Condenser",
                self.plan.condenser(),
                "Hot vapour gives its heat to the outside air and becomes liquid.",
            ),
            (names::metering(topology), square(spots::VALVE, 28.0), names::metering_words(topology)),
            ("Evaporator", boxes::EVAPORATOR, "Boiling refrigerant takes heat out of the air."),
            (names::compressor(topology), square(spots::COMPRESSOR, 42.0), names::compressor_words(topology)),
            ("Condenser fan", square(spots::FAN, 30.0), "Draws outside air over the condenser."),
            (mover, square(spots::BLOWER, 22.0), "Moves the air over the evaporator."),
        ];
        if topology.subcooler {
            let words =
                "Liquid from the receiver is cooled further, so that it does not boil in the liquid line.";
            parts.push(("Subcooling pass", boxes::SUBCOOLING, words));
        }
        if topology.receiver {
            let words = "Keeps spare liquid and dries it. Its dip tube sends liquid alone onward.";
            parts.push(("Receiver-drier", boxes::RECEIVER, words));
        }
        if topology.accumulator {
            let words = "Catches liquid that leaves the evaporator and dries it. Vapour goes on from its top; a small \
                         hole at its foot lets oil through.";
            parts.push(("Accumulator", boxes::ACCUMULATOR, words));
        }
        if topology.exchanger {
            let words =
                "Cold suction vapour cools the liquid before the valve. Liquid and suction pipe touch.";
            parts.push(("Internal heat exchanger, liquid side", boxes::EXCHANGER[0], words));
            parts.push(("Internal heat exchanger, suction side", boxes::EXCHANGER[1], words));
        }
        if topology.chiller {
            let words = "A second branch with a valve of its own: boiling refrigerant cools the coolant of the battery.";
            parts.push(("Chiller", boxes::CHILLER, words));
        }
        for (name, rect, text) in parts {
            let response = ui.interact(self.plan.on(rect), ui.id().with(name), Sense::hover());
            response.widget_info(|| egui::WidgetInfo::labeled(egui::WidgetType::Label, true, name));
            response.on_hover_ui(|ui| {
                ui.set_max_width(300.0);
                ui.strong(name);
                ui.label(text);
            });
        }
    }
}
