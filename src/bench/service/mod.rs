//! The service side: hoses and manifold, and the service bay with all that hands do there.

mod acts;
mod books;
mod check;
mod face;
mod hands;
mod ledger;
mod manifold;
mod works;

pub use face::{BayFace, HoseFace, VesselFace};
pub use hands::Service;
pub use manifold::Manifold;
