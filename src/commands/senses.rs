//! What a person without tools notices, in words, after the readings of a run.

use std::io::{self, Write};

use crate::lesson::cautions;
use crate::perceive::{BAND_HZ, Organ, Perceived, Sense};

/// What stands in the JSON object of a run.
pub type Words = Vec<(String, &'static str)>;

/// Name and words of everything worth a word, in order.
pub fn words(perceived: &Perceived) -> Words {
    let noticed = perceived.percepts.iter().filter(|p| p.notable);
    noticed.map(|p| (format!("{}: {}", p.sense.organ().name(), p.sense.name()), p.words)).collect()
}

/// Print it all by organ, the cautions that belong to it, then the spectrum.
pub fn print(out: &mut dyn Write, perceived: &Perceived) -> io::Result<()> {
    for organ in Organ::ALL {
        writeln!(out, "{}", organ.name())?;
        let mut told = Vec::new();
        let noticed: Vec<_> =
            perceived.percepts.iter().filter(|p| p.sense.organ() == organ && p.notable).collect();
        for p in &noticed {
            writeln!(out, "  {:<34}{}", p.sense.name(), p.words)?;
            told.extend(p.caution);
        }
        if organ == Organ::Eye && !noticed.iter().any(|p| matches!(p.sense, Sense::Surface(_))) {
            writeln!(out, "  {:<34}dry, no dew and no frost", "pipes")?;
        } else if noticed.is_empty() {
            writeln!(out, "  nothing")?;
        }
        told.dedup();
        for caution in told.into_iter().filter_map(cautions::by_id) {
            writeln!(out, "  {}", caution.sentence())?;
        }
    }
    writeln!(out, "Spectrum at the open bonnet (estimates, a third of an octave each)")?;
    for (hz, db) in BAND_HZ.iter().zip(perceived.spectrum_db) {
        let bar = "#".repeat((db / 2.0).clamp(0.0, 60.0) as usize);
        writeln!(out, "  {hz:>6} Hz {db:>5.0} dB  {bar}")?;
    }
    writeln!(out)
}
