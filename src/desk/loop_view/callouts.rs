//! What is written on the chart beside its lines: which part works there, and how.

use super::unfolded::{Chart, Name};
use super::{names, words};
use crate::bench::{Inside, MeteringKind};
use crate::desk::fonts;
use crate::units::{DeltaK, Kelvin};

impl Chart<'_> {
    pub(super) fn names(&self, inside: &Inside) -> Vec<Name> {
        let (theme, units) = (self.theme(), self.view.units);
        let at = |p: &crate::bench::PointState| self.axes.at(p.h_j_per_kg, p.p_pa);
        let [p1, p2, p3, p4, p5, p6] = &inside.points;
        let temperature = |p| units.temperature(Kelvin(words::saturation_k(self.view.dome, p)));
        let fan = self.view.snapshot.outside.fan_speed_pct;
        let fan = if fan < 1.0 { "fan still".to_owned() } else { format!("fan {fan:.0} %") };
        let bold = fonts::bold(self.plan.text(13.0));
        let plain = fonts::regular(self.plan.text(12.5));
        let down = inside.condenser_main_cells.min(inside.condenser.len());
        let condensed = inside.condenser[..down].last().map_or(p3, |c| &c.point);
        let name = |slot, text: String, colour, anchor, towards: (f32, f32)| Name {
            slot,
            text,
            font: bold.clone(),
            colour,
            anchor,
            towards: towards.into(),
            gap: 8.0,
        };
        let parts = self.plan.parts;
        let running = words::whole_loop(inside).is_none();
        let mut list = Vec::new();
        if running {
            // With air the refrigerant's share of the pressure falls as it condenses, and so does the temperature.
            let wet = inside.condenser[..down].iter().map(|c| &c.point).find(|p| p.x.is_finite());
            let glide = wet.filter(|p| p.p_pa > condensed.p_pa * 1.06);
            let condenser = match glide {
                Some(first) => {
                    format!(
                        "Condenser: condenses from {} to {}, {fan}",
                        temperature(first),
                        temperature(condensed)
                    )
                }
                None => format!("Condenser: condenses at {}, {fan}", temperature(condensed)),
            };
            list.push(name(6, condenser, theme.high, at(condensed).lerp(at(p2), 0.5), (0.0, -1.0)));
            let evaporator = format!("Evaporator: boils at {}", temperature(p5));
            list.push(name(7, evaporator, theme.low, at(p5).lerp(at(p6), 0.45), (0.0, 1.0)));
            list.push(name(
                8,
                names::compressor(parts).into(),
                theme.text,
                at(p1).lerp(at(p2), 0.5),
                (1.0, 0.2),
            ));
            let metering = names::metering(parts);
            let open = match parts.metering {
                MeteringKind::OrificeTube => metering.to_owned(),
                _ => format!("{metering}, {:.0} % open", inside.valve_lift * 100.0),
            };
            list.push(name(9, open, theme.text, at(p4).lerp(at(p5), 0.5), (-1.0, 0.0)));
            if let Some((mass, volume)) = words::wetness(p5) {
                let text = format!("after the {} {mass} {volume}", names::restriction(parts));
                let anchor = at(p5);
                list.push(Name { font: plain.clone(), ..name(13, text, theme.muted, anchor, (-0.2, 1.0)) });
            }
            if inside.subcooling_k > 0.05 {
                let text = format!("subcooling {}", units.difference(DeltaK(inside.subcooling_k)));
                let from = if parts.receiver { &inside.receiver } else { condensed };
                let anchor = at(p3).lerp(at(from), 0.5);
                list.push(Name { font: plain.clone(), ..name(11, text, theme.text, anchor, (-0.4, -1.0)) });
            }
            if inside.superheat_k > 0.05 {
                let text = format!("superheat {}", units.difference(DeltaK(inside.superheat_k)));
                list.push(Name { font: plain.clone(), ..name(12, text, theme.text, at(p6), (0.4, 1.0)) });
            }
        }
        if parts.receiver {
            let level = format!("receiver {:.0} % full", inside.receiver_level * 100.0);
            let anchor = at(&inside.receiver);
            list.push(Name { font: plain.clone(), ..name(10, level, theme.text, anchor, (0.3, 1.0)) });
        }
        if let Some(vessel) = &inside.accumulator {
            let level = format!("accumulator {:.0} % full", vessel.level * 100.0);
            list.push(Name {
                font: plain.clone(),
                ..name(14, level, theme.text, at(&vessel.point), (0.4, 1.0))
            });
        }
        if let Some(exchanger) = inside.exchanger.as_ref().filter(|_| running) {
            let text = format!("exchanger {:.0} W", exchanger.heat_w);
            let anchor = at(p6).lerp(at(p1), 0.5);
            list.push(Name { font: plain.clone(), ..name(15, text, theme.text, anchor, (0.2, 1.0)) });
        }
        let chilled = inside.chiller.as_ref().and_then(|c| c.cells.last());
        if let Some(cell) = chilled.filter(|c| running && c.point.flow_kg_s.abs() > 1e-5) {
            list.push(name(16, "Chiller".into(), theme.good, at(&cell.point), (0.3, -1.0)));
        }
        list
    }
}
