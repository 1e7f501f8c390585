//! Replicate readings: seeded noise of the size that the instrument and the bench would give.

use crate::concepts::graph::Reading;
use crate::seed::Stream;

/// The readings of one level.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Replicates(Vec<f64>);

impl Replicates {
    /// Draws `n` readings around a value, rounded to the instrument's resolution and never below zero.
    pub(super) fn draw(value: f64, reading: &Reading, n: u32, stream: &mut Stream) -> Self {
        let sd = spread(value, reading);
        let rounded = |x: f64| libm::round(x / reading.resolution) * reading.resolution;
        Self((0..n).map(|_| rounded(value + sd * stream.normal()).max(0.0)).collect())
    }

    /// Mean of the readings.
    pub(super) fn mean(&self) -> f64 {
        self.0.iter().sum::<f64>() / self.n()
    }

    /// Twice the standard error of the mean (sample standard deviation with n − 1); no less than what
    /// rounding to the instrument's step gives one reading, step/√12 (JCGM 100:2008, 4.3.7): readings that agree to the step
    /// do not show that there is no error.
    pub(super) fn two_sem(&self, resolution: f64) -> f64 {
        let mean = self.mean();
        let squares: f64 = self.0.iter().map(|x| (x - mean) * (x - mean)).sum();
        (2.0 * libm::sqrt(squares / (self.n() - 1.0) / self.n())).max(2.0 * resolution / libm::sqrt(12.0))
    }

    #[expect(clippy::cast_precision_loss, reason = "a handful of readings")]
    fn n(&self) -> f64 {
        self.0.len() as f64
    }
}

/// Standard deviation between replicates at this value: a share of it, and a part that is always there.
pub(super) fn spread(value: f64, reading: &Reading) -> f64 {
    libm::hypot(reading.relative_sd * value, reading.absolute_sd)
}
