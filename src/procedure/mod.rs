//! Action files: a procedure of the trade as steps that a bench can play and a person can follow.
//!
//! One file serves twice. `pintle run SCENARIO --actions FILE.ron` plays it ([`Player`]) and checks what it says must
//! come out; the desk shows the same steps as a how-to and sees by itself which of them are done ([`Guide`]).
//! A step does nothing that a person could not do: it acts, waits, watches instruments and reads them.

mod check;
mod guide;
pub mod listing;
mod load;
mod look;
mod player;
mod quantity;
mod reckon;
mod shipped;
mod steps;
mod trouble;

pub use guide::{Guide, Part};
pub use load::{Planned, from_text, load, whole};
pub use look::Look;
pub use player::Player;
pub use quantity::{Line, Quantity, unit};
pub use shipped::{SHIPPED, Shipped};
pub use steps::{Expect, Procedure, Step, Turn, Until};
pub use trouble::{Miss, PlayError};
