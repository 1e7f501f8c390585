//! How sure one can be of what a student can do: the chance of earning a point of a kind, and how uncertain it is.
//!
//! Model: points of a kind are earned with one chance. Prior: Beta(1/2, 1/2) (Jeffreys). After `earned` of `of` points the
//! chance follows Beta(earned + 1/2, of - earned + 1/2); the estimate is its mean, the interval its middle 95 %, with the
//! lower end at 0 where nothing was earned and the upper at 1 where all was.
//! Source: Brown, Cai & Das Gupta 2001, Statistical Science 16:101-133, doi 10.1214/ss/1009213286, which gives the interval
//! with these ends and recommends it for small numbers.

use statrs::distribution::{Beta, ContinuousCDF};

/// The model in words, for reports.
pub const MODEL: &str =
    "chance of earning a point: posterior mean and 95 % interval under the Jeffreys prior Beta(1/2, 1/2)";
/// Where the model is published.
pub const SOURCE: &str =
    "Brown, Cai & Das Gupta 2001, Statistical Science 16:101-133, doi 10.1214/ss/1009213286 (Jeffreys interval)";
/// Of each kind so many points count, the latest: what was learnt since then should show (common practice, no source).
pub const WINDOW: usize = 20;

/// A chance with its uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// Points earned.
    pub earned: u32,
    /// Points that could be earned.
    pub of: u32,
    /// Posterior mean, from 0 to 1; 0.5 where nothing is known.
    pub mean: f64,
    /// Lower end of the interval.
    pub low: f64,
    /// Upper end of the interval.
    pub high: f64,
}

impl Estimate {
    /// After so many points, of which so many were earned; more earned than there were count as all.
    pub fn of(earned: u32, of: u32) -> Self {
        let earned = earned.min(of);
        let (a, b) = (f64::from(earned) + 0.5, f64::from(of - earned) + 0.5);
        let quantile = |share: f64, end: f64| Beta::new(a, b).map_or(end, |posterior| posterior.inverse_cdf(share));
        let low = if earned == 0 { 0.0 } else { quantile(0.025, 0.0) };
        let high = if earned == of { 1.0 } else { quantile(0.975, 1.0) };
        Self { earned, of, mean: a / (a + b), low, high }
    }

    /// From points in the order of time: the latest [`WINDOW`] count.
    pub fn latest(points: &[bool]) -> Self {
        let counted = points.get(points.len().saturating_sub(WINDOW)..).unwrap_or_default();
        let small = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        Self::of(small(counted.iter().filter(|earned| **earned).count()), small(counted.len()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_known_is_the_prior_and_the_latest_points_count() {
        let none = Estimate::of(0, 0);
        assert_eq!((none.mean, none.low, none.high), (0.5, 0.0, 1.0));
        let learnt: Vec<bool> = (0..60).map(|n| n >= 40).collect();
        assert_eq!((Estimate::latest(&learnt).earned, Estimate::latest(&learnt).of), (20, 20));
        assert_eq!(Estimate::of(9, 4), Estimate::of(4, 4));
    }
}
