//! Seeds and the streams of draws split from them: the same on every machine.
//!
//! Each stage draws from a stream of its own, named by a label, so that a new draw in one room leaves the bytes of the
//! others alone. Only integers come from the generator; everything else is arithmetic that all platforms share.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// Seeds stay below this, so that any JSON reader keeps them exact.
pub const MOST: u64 = 1 << 53;

/// A seed of a scenario or a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Seed(pub u64);

impl Seed {
    /// The seed of scenario number `index` of a run, at its `attempt`-th trial. The first trial of the first scenario is
    /// the run's seed itself, so that a scenario's own seed makes it again alone.
    #[must_use]
    pub fn of_run(self, index: u64, attempt: u64) -> Self {
        if index == 0 && attempt == 0 {
            return self;
        }
        Self(mix(mix(self.0 ^ mix(index.wrapping_add(0x51_7c_c1_b7))).wrapping_add(attempt)) % MOST)
    }

    /// The stream of this label.
    pub fn stream(self, label: &str) -> Stream {
        // FNV-1a over the label: fixed for ever, since scenario bytes depend on it.
        let hash = label
            .bytes()
            .fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3));
        Stream(ChaCha8Rng::seed_from_u64(mix(self.0 ^ mix(hash))))
    }
}

/// The finaliser of `SplitMix64` (Steele, Lea & Flood 2014): every input bit moves every output bit.
fn mix(value: u64) -> u64 {
    let z = value.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// A stream of draws.
#[derive(Debug, Clone)]
pub struct Stream(ChaCha8Rng);

impl Stream {
    /// A whole number below `n`; 0 when `n` is 0.
    pub fn below(&mut self, n: usize) -> usize {
        let wide = u128::from(self.0.next_u64()) * (n as u128);
        usize::try_from(wide >> 64).unwrap_or(0)
    }

    /// One of a list; `None` from an empty one.
    pub fn pick<'a, T>(&mut self, list: &'a [T]) -> Option<&'a T> {
        list.get(self.below(list.len()))
    }

    /// A number in [0, 1).
    #[expect(clippy::cast_precision_loss, reason = "53 bits fit a double exactly")]
    pub fn unit(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// A standard normal number, by the Box–Muller transform (Box & Muller 1958).
    pub fn normal(&mut self) -> f64 {
        let u = 1.0 - self.unit();
        let v = self.unit();
        libm::sqrt(-2.0 * libm::log(u)) * libm::cos(2.0 * std::f64::consts::PI * v)
    }

    /// The list in a drawn order (Fisher–Yates).
    pub fn shuffle<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            list.swap(last, self.below(last + 1));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_run_starts_with_its_own_seed() {
        assert_eq!(Seed(7).of_run(0, 0), Seed(7));
        assert_ne!(Seed(7).of_run(1, 0), Seed(7).of_run(0, 1));
    }

    #[test]
    fn bytes_never_change() {
        let mut stream = Seed(42).stream("test");
        let draws: Vec<usize> = (0..6).map(|_| stream.below(1000)).collect();
        // Scenario bytes depend on these for ever.
        assert_eq!(draws, [308, 188, 910, 375, 542, 509]);
    }

    #[test]
    fn labels_split() {
        assert_ne!(Seed(1).stream("a").unit().to_bits(), Seed(1).stream("b").unit().to_bits());
    }

    #[test]
    fn normal_has_the_right_spread() {
        let mut stream = Seed(3).stream("normal");
        let draws: Vec<f64> = (0..20_000).map(|_| stream.normal()).collect();
        let mean = draws.iter().sum::<f64>() / 20_000.0;
        let variance = draws.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / 20_000.0;
        // Standard error of the mean is 0.007, of the variance 0.01: four of each.
        assert!(mean.abs() < 0.03 && (variance - 1.0).abs() < 0.04, "{mean} {variance}");
    }
}
