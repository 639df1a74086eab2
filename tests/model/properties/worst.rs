//! The worst of a set of errors.

/// The worst of a set of errors, where it happened, and the bound it must keep.
pub struct Worst {
    what: String,
    bound: f64,
    error: f64,
    place: String,
    count: usize,
}

impl Worst {
    pub fn new(what: impl Into<String>, bound: f64) -> Self {
        Self { what: what.into(), bound, error: 0.0, place: String::new(), count: 0 }
    }

    pub fn see(&mut self, error: f64, place: impl Fn() -> String) {
        self.count += 1;
        if error.abs() > self.error || error.is_nan() {
            self.error = if error.is_nan() { f64::INFINITY } else { error.abs() };
            self.place = place();
        }
    }

    /// Prints the worst, judges it and gives it back; a comparison that saw nothing fails too.
    pub fn hold(self) -> f64 {
        let Self { what, bound, error, place, count } = self;
        println!("{what}: worst {error:.2e} of {count} (bound {bound:.1e}) at {place}");
        assert!(count > 0 && error <= bound, "{what}: {error} at {place}");
        error
    }
}
