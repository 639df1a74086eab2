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

/// Print it all by organ, then the spectrum.
pub fn print(out: &mut dyn Write, perceived: &Perceived) -> io::Result<()> {
    for organ in Organ::ALL {
        writeln!(out, "{}", organ.name())?;
        for p in perceived.percepts.iter().filter(|p| p.sense.organ() == organ && p.notable) {
            writeln!(out, "  {:<34}{}", p.sense.name(), p.words)?;
            if let Some(caution) = p.caution.and_then(cautions::by_id) {
                writeln!(out, "      {}", caution.sentence())?;
            }
        }
        if organ == Organ::Eye && !perceived.percepts.iter().any(|p| is_wet(p.sense) && p.notable) {
            writeln!(out, "  {:<34}dry, no dew and no frost", "pipes")?;
        }
    }
    writeln!(out, "Spectrum at the open bonnet (estimates, a third of an octave each)")?;
    for (hz, db) in BAND_HZ.iter().zip(perceived.spectrum_db) {
        let bar = "#".repeat((db / 2.0).clamp(0.0, 60.0) as usize);
        writeln!(out, "  {hz:>6} Hz {db:>5.0} dB  {bar}")?;
    }
    writeln!(out)
}

fn is_wet(sense: Sense) -> bool {
    matches!(sense, Sense::Surface(_))
}
