//! An even scale with round steps.

use crate::quantity::significant::decimals;

/// A scale of one axis.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::render) struct Scale {
    /// Where it starts.
    pub(in crate::render) low: f64,
    /// Where it ends.
    pub(in crate::render) high: f64,
    /// Distance between two marks: 1, 2 or 5 times a power of ten.
    pub(in crate::render) step: f64,
    /// Decimals with which the marks are written.
    pub(in crate::render) places: usize,
}

/// Steps that an axis has at most.
const MOST_STEPS: f64 = 7.0;
/// Marks that a scale can have, however odd the numbers are.
const MOST_MARKS: usize = 40;
/// Where the values differ by less than this share of the greatest, a scale from zero would leave most of it empty.
const EMPTY: f64 = 0.5;
/// Room below the lowest value, in steps, where a scale does not start from zero.
const CLEAR: f64 = 0.15;

impl Scale {
    /// A scale that holds both values, from mark to mark.
    pub(in crate::render) fn holding(low: f64, high: f64) -> Self {
        let span = if high > low { high - low } else { low.abs().max(1.0) };
        let raw = span / MOST_STEPS;
        let power = libm::pow(10.0, libm::floor(libm::log10(raw)));
        let factor = [1.0, 2.0, 5.0, 10.0].into_iter().find(|factor| factor * power >= raw * 0.999).unwrap_or(10.0);
        let step = factor * power;
        let places = libm::ceil(-libm::log10(step) - 1e-9).clamp(0.0, 12.0);
        let first = libm::floor(low / step + 1e-9) * step;
        let last = libm::ceil((low + span).max(high) / step - 1e-9) * step;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 0..=12 above")]
        Self { low: first, high: last, step, places: places as usize }
    }

    /// A scale from zero, unless that would leave most of it empty; bars always start at zero.
    pub(in crate::render) fn of_readings(low: f64, high: f64, bars: bool) -> Self {
        if low < 0.0 {
            return Self::holding(low, high.max(0.0));
        }
        if bars || high - low >= EMPTY * high {
            return Self::holding(0.0, high);
        }
        let mut scale = Self::holding(low, high);
        // An error bar that ends on the axis would seem cut off.
        if low - scale.low < CLEAR * scale.step {
            scale.low -= scale.step;
        }
        if scale.low < 0.5 * scale.step { Self::holding(0.0, high) } else { scale }
    }

    /// A scale of amounts: from zero where that costs little room.
    pub(in crate::render) fn of_levels(low: f64, high: f64) -> Self {
        if low >= 0.0 && low <= 0.34 * high { Self::holding(0.0, high) } else { Self::holding(low, high) }
    }

    /// Whether the axis leaves out zero.
    pub(in crate::render) fn is_broken(&self) -> bool {
        self.low > 0.0
    }

    /// Every mark with its number as written.
    pub(in crate::render) fn marks(&self) -> Vec<(f64, String)> {
        let at = |number: usize| self.low + self.step * count(number);
        (0..MOST_MARKS)
            .map(at)
            .take_while(|value| *value <= self.high + self.step * 1e-6)
            .map(|value| (value, decimals(value, self.places)))
            .collect()
    }

    /// Where a value lies, as a share of the axis.
    pub(in crate::render) fn share(&self, value: f64) -> f64 {
        if self.high > self.low { (value - self.low) / (self.high - self.low) } else { 0.0 }
    }
}

fn count(number: usize) -> f64 {
    u32::try_from(number).map_or(0.0, f64::from)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(scale: &Scale, expected: &[&str]) {
        let marks: Vec<String> = scale.marks().into_iter().map(|(_, text)| text).collect();
        assert_eq!(marks, expected, "{scale:?}");
    }

    #[test]
    fn steps_are_one_two_or_five() {
        case(&Scale::of_readings(113.0, 7132.0, false), &["0", "2000", "4000", "6000", "8000"]);
        case(&Scale::of_readings(0.2, 0.66, false), &["0.0", "0.1", "0.2", "0.3", "0.4", "0.5", "0.6", "0.7"]);
        case(&Scale::of_readings(0.85, 0.93, false), &["0.84", "0.86", "0.88", "0.90", "0.92", "0.94"]);
        case(&Scale::of_readings(95.0, 125.0, false), &["90", "95", "100", "105", "110", "115", "120", "125"]);
        case(&Scale::of_readings(0.85, 0.93, true), &["0.0", "0.2", "0.4", "0.6", "0.8", "1.0"]);
        case(&Scale::of_readings(-4.0, -1.0, false), &["−4", "−3", "−2", "−1", "0"]);
        case(&Scale::of_levels(45.0, 65.0), &["45", "50", "55", "60", "65"]);
        case(&Scale::of_levels(0.15, 0.60), &["0.0", "0.1", "0.2", "0.3", "0.4", "0.5", "0.6"]);
    }

    #[test]
    fn odd_numbers_make_a_scale_too() {
        for (low, high) in [(0.0, 0.0), (5.0, 5.0), (-3.0, -3.0), (1e-12, 2e-12), (1e15, 3e15)] {
            let scale = Scale::of_readings(low, high, false);
            assert!(scale.marks().len() >= 2 && scale.marks().len() <= MOST_MARKS, "{scale:?}");
            assert!(scale.low <= low && scale.high >= high, "{scale:?}");
        }
    }
}
