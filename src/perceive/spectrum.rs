//! A small spectrum: sound energy in 24 bands a third of an octave wide, 25 Hz to 5 kHz.

/// Number of bands.
pub const BANDS: usize = 24;

/// Middle of each band [Hz], the nominal third-octave frequencies of IEC 61260-1.
pub const BAND_HZ: [f64; BANDS] = [
    25.0, 31.5, 40.0, 50.0, 63.0, 80.0, 100.0, 125.0, 160.0, 200.0, 250.0, 315.0, 400.0, 500.0, 630.0, 800.0,
    1000.0, 1250.0, 1600.0, 2000.0, 2500.0, 3150.0, 4000.0, 5000.0,
];

/// Energy over that of 0 dB in each band.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spectrum(pub [f64; BANDS]);

/// Energy of a level [dB].
fn energy(level_db: f64) -> f64 {
    libm::pow(10.0, level_db / 10.0)
}

/// Level of an energy [dB]; nothing is 0 dB, not minus infinity.
pub fn level_db(energy: f64) -> f64 {
    if energy > 1.0 { 10.0 * libm::log10(energy) } else { 0.0 }
}

impl Spectrum {
    /// Add a tone; one outside the bands falls into the outermost.
    pub fn tone(mut self, hz: f64, level_db: f64) -> Self {
        let octaves = libm::log2(hz.max(1.0) / BAND_HZ[0]);
        let band = libm::round(3.0 * octaves).clamp(0.0, (BANDS - 1) as f64) as usize;
        self.0[band] += energy(level_db);
        self
    }
    /// Add a broad noise of this level in all, bell-shaped over so many octaves to either side.
    pub fn noise(mut self, hz: f64, octaves: f64, level: f64) -> Self {
        let bell = |band: f64| {
            let away = libm::log2(band / hz) / octaves;
            libm::exp(-0.5 * away * away)
        };
        let all: f64 = BAND_HZ.into_iter().map(bell).sum();
        for (sum, band) in self.0.iter_mut().zip(BAND_HZ) {
            *sum += energy(level) * bell(band) / all;
        }
        self
    }
    /// Both together.
    pub fn and(mut self, other: &Self) -> Self {
        self.0.iter_mut().zip(other.0).for_each(|(sum, more)| *sum += more);
        self
    }
    /// Level of all bands together [dB].
    pub fn total_db(&self) -> f64 {
        level_db(self.0.iter().sum())
    }
    /// Each band [dB].
    pub fn bands_db(&self) -> [f64; BANDS] {
        self.0.map(level_db)
    }
}
