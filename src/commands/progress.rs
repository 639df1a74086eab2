//! A progress bar on the error stream, only on a terminal and only when a run takes over a second.

use std::io::IsTerminal;
use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressStyle};

/// Progress of a run.
pub struct Progress {
    began: Instant,
    total: u64,
    bar: Option<ProgressBar>,
}

impl Progress {
    /// Begin; nothing is shown yet.
    pub fn new(total: u64) -> Self {
        Self { began: Instant::now(), total, bar: None }
    }

    /// So much is done.
    pub fn at(&mut self, done: u64) {
        if self.bar.is_none()
            && self.began.elapsed() > Duration::from_secs(1)
            && std::io::stderr().is_terminal()
        {
            let bar = ProgressBar::new(self.total);
            if let Ok(style) = ProgressStyle::with_template("{wide_bar} {percent} % {eta} left") {
                bar.set_style(style);
            }
            self.bar = Some(bar);
        }
        if let Some(bar) = &self.bar {
            bar.set_position(done);
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}
