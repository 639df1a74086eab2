//! Hands in the service bay. A test file adds what it alone needs by an `impl` of its own.

use pintle::bay::{BayAction, Hose};
use pintle::bench::{Action, Bench};
use pintle::plant::Port;

/// Hands at work on a bench in a bay; what goes wrong panics.
pub struct Hands(pub Bench);

impl Hands {
    /// Do something.
    pub fn act(&mut self, action: Action) -> &mut Self {
        self.0.apply(action.clone()).unwrap_or_else(|no| panic!("{action:?}: {no}"));
        self
    }
    /// Do something that only a bay has.
    pub fn bay(&mut self, act: BayAction) -> &mut Self {
        self.act(Action::Bay(act))
    }
    /// Let seconds pass; steps solve and the books close.
    pub fn wait(&mut self, seconds: f64) -> &mut Self {
        self.0.advance((seconds / 0.05) as u32);
        assert!(self.0.troubles().is_empty(), "{:?}", self.0.troubles());
        let ledger = self.0.ledger().expect("a ledger");
        // A tenth of a gram is what a bay may lose; this is a tenth of a milligram.
        assert!(ledger.unaccounted_kg().abs() < 1e-7, "{ledger:?}");
        assert!(ledger.oil_unaccounted_kg().abs() < 1e-7, "{ledger:?}");
        self
    }
    /// Both hand valves of the manifold [%].
    pub fn hand_valves(&mut self, low: f64, high: f64) -> &mut Self {
        self.act(Action::ManifoldLowPct(low)).act(Action::ManifoldHighPct(high))
    }
    /// Fit both couplers and open them.
    pub fn fit_both(&mut self) -> &mut Self {
        for (hose, port) in [(Hose::Low, Port::Low), (Hose::High, Port::High)] {
            self.bay(BayAction::Fit { hose, port: Some(port) }).bay(BayAction::Knob { hose, open: true });
        }
        self
    }
}
