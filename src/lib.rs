//! Pintle: a training bench for vapor-compression loops.
