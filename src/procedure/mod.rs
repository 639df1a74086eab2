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
mod row;
mod steps;
mod trouble;

pub use crate::assets::{PROCEDURES as SHIPPED, Shipped};
pub use guide::{Guide, Part};
pub use load::{from_text, load};
pub use look::Look;
pub use player::Player;
pub use quantity::{Line, Quantity};
pub use row::{Planned, whole};
pub use steps::{Expect, Procedure, Step, Turn, Until};
pub use trouble::{Miss, PlayError};
