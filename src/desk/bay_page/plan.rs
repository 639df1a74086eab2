//! Where everything stands in the drawing. Laid out once for the smallest window and stretched for larger ones.

use egui::{Pos2, Rect, Vec2, pos2, vec2};

use crate::bay::CentreEnd;
use crate::procedure::Look;

/// Size of the drawing as it was laid out [pt].
const BASE: Vec2 = vec2(880.0, 616.0);
/// It is not stretched further than this.
const LARGEST: f32 = 1.6;

/// The drawing in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plan {
    origin: Pos2,
    /// Stretch in both directions, and the one that letters and round things take.
    across: f32,
    down: f32,
    /// Size of letters and round things against the layout.
    pub s: f32,
}

impl Plan {
    /// The drawing in a rectangle.
    pub fn of(rect: Rect) -> Self {
        let stretch = |room: f32, base: f32| (room / base).clamp(1.0, LARGEST);
        let (across, down) = (stretch(rect.width(), BASE.x), stretch(rect.height(), BASE.y));
        Self { origin: rect.min, across, down, s: across.min(down) }
    }
    /// The drawing in its smallest size.
    pub fn at(origin: Pos2) -> Self {
        Self { origin, across: 1.0, down: 1.0, s: 1.0 }
    }
    /// Does it fit?
    pub fn fits(&self, rect: Rect) -> bool {
        self.size().x <= rect.width() + 0.5 && self.size().y <= rect.height() + 0.5
    }
    /// Its size.
    pub fn size(&self) -> Vec2 {
        vec2(BASE.x * self.across, BASE.y * self.down)
    }
    /// A point of the layout.
    pub fn p(&self, x: f32, y: f32) -> Pos2 {
        pos2(self.origin.x + x * self.across, self.origin.y + y * self.down)
    }
    /// A rectangle of the layout, by its left, top, width and height.
    pub fn r(&self, x: f32, y: f32, w: f32, h: f32) -> Rect {
        Rect::from_min_max(self.p(x, y), self.p(x + w, y + h))
    }
    /// Stretch of heights.
    pub fn down(&self) -> f32 {
        self.down
    }
    /// Size of text.
    pub fn text(&self) -> f32 {
        12.0 * self.s.min(1.25)
    }

    /// The cell of something on the floor.
    pub fn cell(&self, end: CentreEnd) -> Rect {
        let (x, w) = match end {
            CentreEnd::RecoveryMachine => (0.0, 214.0),
            CentreEnd::VacuumPump => (222.0, 128.0),
            CentreEnd::Nitrogen => (358.0, 110.0),
            CentreEnd::Supply => (476.0, 134.0),
            CentreEnd::Charging => (618.0, 142.0),
            _ => (768.0, 112.0),
        };
        self.r(x, 346.0, w, 270.0)
    }
    /// What a step of a how-to is about.
    pub fn look(&self, look: Look) -> Option<Rect> {
        Some(match look {
            Look::Manifold => self.r(228.0, 94.0, 424.0, 206.0),
            Look::LowCoupler => self.r(206.0, 40.0, 232.0, 48.0),
            Look::HighCoupler => self.r(442.0, 40.0, 232.0, 48.0),
            Look::Centre => self.r(226.0, 306.0, 372.0, 26.0),
            Look::Pump => self.cell(CentreEnd::VacuumPump),
            Look::Machine | Look::Recovery => self.cell(CentreEnd::RecoveryMachine),
            Look::Supply => self.cell(CentreEnd::Supply),
            Look::Charging => self.cell(CentreEnd::Charging),
            Look::Can => self.cell(CentreEnd::Can),
            Look::Nitrogen => self.cell(CentreEnd::Nitrogen),
            Look::Station => self.r(674.0, 72.0, 206.0, 266.0),
            Look::Loop => self.r(4.0, 2.0, 776.0, 34.0),
            Look::Gauge => self.r(232.0, 94.0, 416.0, 150.0),
            Look::Scale | Look::Record | Look::Part => return None,
        })
    }
    /// Where the centre hose goes in.
    pub fn inlet(&self, end: CentreEnd) -> Pos2 {
        match end {
            CentreEnd::Cap => self.p(348.0, 308.0),
            CentreEnd::Nothing => self.p(401.0, 308.0),
            CentreEnd::CompressedAir | CentreEnd::Oxygen => self.p(440.0, 308.0),
            on_floor => {
                let cell = self.cell(on_floor);
                pos2(cell.right() - 18.0 * self.s, cell.top() + 13.0)
            }
        }
    }
    /// A service port of the loop, low or high: foot of its stub.
    pub fn port(&self, low: bool) -> Pos2 {
        self.p(if low { 222.0 } else { 658.0 }, 40.0)
    }
    /// Where a hose leaves the manifold: low, high, centre.
    pub fn mouth(&self, hose: usize) -> Pos2 {
        self.p([290.0, 590.0, 440.0][hose.min(2)], 282.0)
    }
    /// A hand valve of the manifold.
    pub fn hand_valve(&self, low: bool) -> Pos2 {
        self.p(if low { 346.0 } else { 534.0 }, 262.0)
    }
}
