//! Counts and shares with their intervals.

use std::collections::BTreeMap;

/// Lower and upper end of Wilson's 95 % interval for `hits` of `all`.
///
/// # Source
/// E. B. Wilson, Probable inference, the law of succession, and statistical inference, J. Am. Stat. Assoc. 22 (1927),
/// 209–212; z = 1.959964 for 95 %.
pub(crate) fn wilson(hits: u32, all: u32) -> (f64, f64) {
    if all == 0 {
        return (0.0, 1.0);
    }
    let (z, n) = (1.959_964, f64::from(all));
    let share = f64::from(hits) / n;
    let middle = share + z * z / (2.0 * n);
    let half = z * ((share * (1.0 - share) + z * z / (4.0 * n)) / n).sqrt();
    let scale = 1.0 + z * z / n;
    ((middle - half) / scale, (middle + half) / scale)
}

/// How often what was said met what is right.
#[derive(Debug, Default)]
pub(crate) struct Confusion {
    counts: BTreeMap<(String, String), u32>,
}

impl Confusion {
    pub(crate) fn add(&mut self, right: &str, said: &str) {
        *self.counts.entry((right.to_owned(), said.to_owned())).or_default() += 1;
    }

    /// The counts of both.
    pub(crate) fn join(&mut self, other: &Self) {
        for (key, n) in &other.counts {
            *self.counts.entry(key.clone()).or_default() += n;
        }
    }

    fn sum(&self, test: impl Fn(&str, &str) -> bool) -> u32 {
        self.counts.iter().filter(|((right, said), _)| test(right, said)).map(|(_, n)| n).sum()
    }

    /// Hits, and how often it was said.
    pub(crate) fn precision(&self, label: &str) -> (u32, u32) {
        (self.sum(|right, said| right == label && said == label), self.sum(|_, said| said == label))
    }

    /// Hits, and how often it was right.
    pub(crate) fn recall(&self, label: &str) -> (u32, u32) {
        (self.sum(|right, said| right == label && said == label), self.sum(|right, _| right == label))
    }

    /// One line a label.
    pub(crate) fn show(&self, title: &str, labels: &[&str]) {
        for label in labels {
            let line = |(hits, all): (u32, u32)| {
                let (low, high) = wilson(hits, all);
                format!("{:.3} [{low:.3}, {high:.3}] ({hits}/{all})", f64::from(hits) / f64::from(all.max(1)))
            };
            println!(
                "{title} {label:<13} precision {} recall {}",
                line(self.precision(label)),
                line(self.recall(label))
            );
        }
    }
}

#[test]
fn intervals_are_wilsons() {
    // From Newcombe, Stat. Med. 17 (1998), table I, method 3: 81 of 263 gives 0.2553 to 0.3662; 0 of 20 gives 0 to 0.1611.
    let close = |(low, high): (f64, f64), wanted: (f64, f64)| {
        assert!((low - wanted.0).abs() < 5e-5 && (high - wanted.1).abs() < 5e-5, "{low} {high}");
    };
    close(wilson(81, 263), (0.2553, 0.3662));
    close(wilson(0, 20), (0.0, 0.1611));
}
