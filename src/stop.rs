//! Told to stop: Ctrl+C, `kill`, a terminal that closes.
//!
//! The first signal is only noted: who works looks at it now and then, drops what was begun and ends in order. A second one
//! ends the program at once.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

use signal_hook::consts::{SIGINT, SIGTERM};
use signal_hook::flag;

/// What tells a program to stop. Others keep their own meaning.
const SIGNALS: &[i32] = &[
    SIGINT,
    SIGTERM,
    #[cfg(unix)]
    signal_hook::consts::SIGHUP,
];

/// Listens for signals from when it is made.
pub struct Stop(Arc<AtomicUsize>);

impl Stop {
    /// Begin to listen. Where the system does not let us, signals end the program as they always do.
    pub fn listen() -> Self {
        let (came, again) = (Arc::new(AtomicUsize::new(0)), Arc::new(AtomicBool::new(false)));
        for &signal in SIGNALS {
            // In this order: a second signal finds what the first one left.
            let at_once = flag::register_conditional_shutdown(signal, 128 + signal, Arc::clone(&again));
            let noted = at_once.and_then(|_| flag::register(signal, Arc::clone(&again))).and_then(|_| {
                flag::register_usize(signal, Arc::clone(&came), signal.unsigned_abs() as usize)
            });
            drop(noted);
        }
        Self(came)
    }

    /// The signal that came, by its number.
    pub fn came(&self) -> Option<u8> {
        u8::try_from(self.0.load(Ordering::Relaxed)).ok().filter(|signal| *signal > 0)
    }
}
