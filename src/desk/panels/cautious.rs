//! Which cautions stand before an act as things are: in the service bay the situation counts.

use crate::bench::Action;
use crate::desk::DeskView;
use crate::lesson::cautions::{Caution, Situation, before, before_here};

/// The cautions of an act.
pub fn cautions_of(view: &DeskView, action: &Action) -> Vec<&'static Caution> {
    match &view.snapshot.bay {
        Some(_) => before_here(action, &Situation::of(view.snapshot)),
        None => before(action).to_vec(),
    }
}
