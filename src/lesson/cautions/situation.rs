//! How things stand when an action is asked for.

use crate::bay::CentreEnd;

/// How things stand when an action is asked for; what makes one act harmless and the same act dangerous a minute later.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Situation<'a> {
    /// Refrigerant of the rig, such as `R-134a`.
    pub refrigerant: &'a str,
    /// The compressor stands under traction voltage.
    pub electric: bool,
    /// The compressor turns.
    pub running: bool,
    /// Loop, hoses or what hangs on them hold more pressure than the air outside.
    pub pressure: bool,
    /// There is refrigerant in loop or hoses, more than traces.
    pub refrigerant_in: bool,
    /// The loop is under vacuum.
    pub vacuum: bool,
    /// A sample has been to the identifier.
    pub identified: bool,
    /// What the centre hose ends in.
    pub centre: CentreEnd,
    /// What hangs on the centre hose gives liquid.
    pub liquid: bool,
}
