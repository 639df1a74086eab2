//! Long work beside the drawing: the window goes on, sees how far it is, and may give it up. It ends when nobody waits.

use std::thread::JoinHandle;

use crate::effort::Effort;

/// One piece of work at a time; its outcome is a `T`.
pub struct Errand<T> {
    working: Option<(JoinHandle<T>, Effort)>,
}

impl<T> Default for Errand<T> {
    fn default() -> Self {
        Self { working: None }
    }
}

/// The work stopped in the middle, by a fault of the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the model stopped")]
pub struct Stopped;

impl<T: Send + 'static> Errand<T> {
    /// Start it; what was being worked out before is given up.
    pub fn start(&mut self, work: impl FnOnce(&Effort) -> T + Send + 'static) {
        self.give_up();
        let effort = Effort::default();
        let told = effort.clone();
        self.working = Some((std::thread::spawn(move || work(&told)), effort));
    }
}

impl<T> Errand<T> {
    /// What came of it, once, when it is ready.
    pub fn collect(&mut self) -> Option<Result<T, Stopped>> {
        self.working.as_ref().filter(|(thread, _)| thread.is_finished())?;
        let (thread, _) = self.working.take()?;
        Some(thread.join().map_err(|_| Stopped))
    }
    /// How far it is, 0 to 1, while it is being worked out.
    pub fn share(&self) -> Option<f32> {
        self.working.as_ref().map(|(_, effort)| effort.share())
    }
    /// Nobody waits for it any more.
    pub fn give_up(&mut self) {
        if let Some((_, effort)) = self.working.take() {
            effort.give_up();
        }
    }
}

impl<T> Drop for Errand<T> {
    fn drop(&mut self) {
        self.give_up();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wait<T: Send + 'static>(errand: &mut Errand<T>) -> Result<T, Stopped> {
        loop {
            match errand.collect() {
                Some(done) => return done,
                None => std::thread::yield_now(),
            }
        }
    }

    #[test]
    fn an_errand_is_collected_once_or_given_up() {
        let mut errand = Errand::default();
        errand.start(|effort| {
            effort.plan(1);
            effort.add(1);
            7
        });
        assert_eq!((wait(&mut errand), errand.share()), (Ok(7), None));
        assert_eq!(errand.collect(), None);
        let (seen, ended) = std::sync::mpsc::channel();
        errand.start(move |effort| {
            while !effort.is_given_up() {
                std::thread::yield_now();
            }
            let _ = seen.send(());
            0
        });
        drop(errand);
        ended.recv().unwrap();
    }

    #[test]
    fn a_panic_is_an_answer_too() {
        let mut errand: Errand<()> = Errand::default();
        errand.start(|_| panic!("on purpose"));
        assert_eq!(wait(&mut errand), Err(Stopped));
    }
}
