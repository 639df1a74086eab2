//! How far time is let go on a bench that is recorded.

use crate::bench::Bench;

/// Longest run that can be recorded: 10,000 minutes.
pub const MOST_TICKS: u64 = 10_000 * 60 * 20;

/// A tick beyond the longest run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("tick {tick} lies beyond the longest run that can be recorded, {MOST_TICKS} ticks")]
pub struct TooLong {
    /// The tick asked for.
    pub tick: u64,
}

/// Let time pass until a tick; none passes where it is reached already.
///
/// # Errors
/// When the tick lies beyond [`MOST_TICKS`]; no time has passed then.
pub fn advance_to(bench: &mut Bench, tick: u64) -> Result<(), TooLong> {
    let ticks = tick.saturating_sub(bench.tick());
    match u32::try_from(ticks) {
        Ok(ticks) if tick <= MOST_TICKS => {
            bench.advance(ticks);
            Ok(())
        }
        _ => Err(TooLong { tick }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scenario::load;

    #[test]
    fn time_is_let_go_to_the_end_of_a_record_and_no_further() {
        let mut bench = Bench::new(&load("healthy").unwrap(), 1).unwrap();
        for tick in [MOST_TICKS + 1, u64::from(u32::MAX) + 5, u64::MAX] {
            assert_eq!(advance_to(&mut bench, tick), Err(TooLong { tick }));
            assert_eq!(bench.tick(), 0);
        }
        assert_eq!(advance_to(&mut bench, 3), Ok(()));
        assert_eq!(advance_to(&mut bench, 2), Ok(()), "it is past that already");
        assert_eq!(bench.tick(), 3);
    }
}
