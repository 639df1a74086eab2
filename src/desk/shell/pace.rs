//! When a frame is drawn: at once after input, else as often as something moves. The window wakes oftener than it draws
//! (winit sends each wake-up a redraw behind), so waking must cost little.

use std::time::{Duration, Instant};

/// A wake-up comes so much early or late.
const SLACK: Duration = Duration::from_millis(4);
/// Time between two frames of what moves [ms], from smooth to what a machine that paints in software has time for.
const STEPS_MS: [u64; 4] = [33, 40, 50, 66];
/// More of a core than this and the steps grow; so much, reckoned for the shorter step, and they shrink again.
const MOST: f64 = 0.50;
const FITS: f64 = 0.42;
/// The load is looked at so often.
const LOOK: Duration = Duration::from_secs(1);
/// Where nothing moves the window wakes so often: work of other threads, the ends of pauses.
const WATCH: Duration = Duration::from_millis(100);
/// The picture is handed to the window at least so often, whatever was laid over it.
const SHOW: Duration = Duration::from_secs(1);

/// When the last frame was drawn, and how long it may stay.
#[derive(Clone, Debug)]
pub struct Pace {
    woke: Instant,
    last: Instant,
    stays: Duration,
    shown: Instant,
    wakes: u32,
    drawn: u32,
    painted: u32,
    told: Instant,
    tells: bool,
    step: usize,
    looked: (Instant, Option<Duration>),
}

impl Pace {
    /// Nothing drawn yet.
    pub fn new(now: Instant) -> Self {
        Self {
            woke: now,
            last: now,
            stays: Duration::ZERO,
            shown: now,
            wakes: 0,
            drawn: 0,
            painted: 0,
            told: now,
            // With PINTLE_FPS set, tell how often it wakes, draws and paints; for checks.
            tells: std::env::var_os("PINTLE_FPS").is_some(),
            step: 0,
            looked: (now, None),
        }
    }
    /// The window woke.
    pub fn wake(&mut self) {
        self.woke = Instant::now();
        self.wakes += 1;
        if self.tells && self.told.elapsed() >= Duration::from_millis(500) {
            self.told = Instant::now();
            eprintln!("woke {} drew {} painted {}", self.wakes, self.drawn, self.painted);
        }
    }
    /// The frame that stands has stood long enough.
    pub fn is_due(&self) -> bool {
        self.woke.duration_since(self.last) + SLACK >= self.stays
    }
    /// A frame was drawn; it may stay for `rest`, unless egui wants to go on after `asked`.
    pub fn draw(&mut self, rest: Duration, asked: Duration) {
        // From wake-up to wake-up: how long the drawing took is no matter.
        self.last = self.woke;
        self.fit();
        let smooth = Duration::from_millis(STEPS_MS[self.step]);
        self.stays = rest.min(asked).max(smooth);
        self.drawn += 1;
    }
    /// How often the window wakes.
    pub fn wait(&self) -> Duration {
        self.stays.min(WATCH)
    }
    /// Choose the step that the machine has time for.
    fn fit(&mut self) {
        let (then, before) = self.looked;
        if then.elapsed() < LOOK {
            return;
        }
        let now = spent();
        if let (Some(before), Some(now)) = (before, now) {
            let share = now.saturating_sub(before).as_secs_f64() / then.elapsed().as_secs_f64();
            let ratio = |shorter: usize| STEPS_MS[self.step] as f64 / STEPS_MS[shorter] as f64;
            if share > MOST {
                self.step = (self.step + 1).min(STEPS_MS.len() - 1);
            } else if self.step > 0 && share * ratio(self.step - 1) < FITS {
                self.step -= 1;
            }
        }
        self.looked = (Instant::now(), now);
    }
    /// Frames drawn so far.
    pub fn drawn(&self) -> u32 {
        self.drawn
    }
    /// The picture has not been handed to the window for long.
    pub fn must_show(&self) -> bool {
        self.shown.elapsed() >= SHOW
    }
    /// The picture is handed to the window.
    pub fn show(&mut self) {
        self.shown = Instant::now();
        self.painted += 1;
    }
}

/// Processor time of this process so far, where the system tells it in a file. Linux counts it in hundredths of a second.
fn spent() -> Option<Duration> {
    let stat = std::fs::read_to_string("/proc/self/stat").ok()?;
    // The name of the program stands in brackets and may hold blanks.
    let (_, numbers) = stat.rsplit_once(')')?;
    let mut ticks = numbers.split_whitespace().skip(11).take(2).map(str::parse::<u64>);
    let (user, system) = (ticks.next()?.ok()?, ticks.next()?.ok()?);
    Some(Duration::from_millis(10 * (user + system)))
}
