//! Pintle: a training bench for vapor-compression loops.
//!
//! The map, upward: [`assets`] (embedded files), [`constants`], [`units`] and [`noise`], [`refrigerant`] properties and [`moist_air`]; the [`plant`] (conserved loop)
//! and the [`circuit`] (electrical side); [`places`] that people point at; the [`fault`] catalogue; [`instrument`]s; the table of [`knobs`]; what stands in the service [`bay`]; the mod@bench that binds
//! them into one deterministic state machine; [`scenario`] files; diagnosis, lessons and records; the
//! action files of each [`procedure`]; the qualification guide ([`qualify`]), which compares all that with published data; and, behind the feature
//! `desk`, the window. Data flows one way and nothing below knows what is above it.

pub mod assets;
pub mod bay;
pub mod bench;
pub mod circuit;
pub mod commands;
pub mod constants;
pub mod diagnosis;
pub mod effort;
pub mod fault;
pub mod fingerprint;
pub mod instrument;
pub mod knobs;
pub mod lesson;
pub mod message;
pub mod moist_air;
pub mod noise;
pub mod ordeal;
pub mod perceive;
pub mod places;
pub mod plant;
pub mod procedure;
pub mod qualify;
pub mod record;
pub mod refrigerant;
pub mod rig;
pub mod scenario;
pub mod stop;
pub mod units;
pub mod variants;

#[cfg(feature = "panels")]
pub mod desk;
