//! `properties`.
