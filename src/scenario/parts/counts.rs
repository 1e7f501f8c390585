//! Two counts compared by chi-square: the question and its points.

use super::super::{PartKind, Point};
use super::{Draft, Paper, empty};
use crate::experiment::Counts;
use crate::quantity::significant::decimals;

/// Upper 5 % points of chi-square with one and with two degrees of freedom (NIST/SEMATECH e-Handbook, table 1.3.6.7.4).
const CRITICAL: f64 = 3.84;
const CRITICAL_OF_TWO: f64 = 5.99;

impl Paper<'_, '_> {
    /// Two counts compared: whether the shares of single things differ.
    pub(super) fn count_test(&self, counts: Counts) -> Option<Draft> {
        let voice = self.voice;
        let counted = voice.graph.quantity(counts.quantity).counted.as_ref()?;
        let say = |text: &str| voice.later(text, None);
        let (from, to) = (voice.at(counts.at), voice.at(counts.at + 1));
        let text = format!(
            "{} Of {} {} {from}, {} are {}; of {} {to}, {} are. **Evaluate**, by a chi-square test at the 5 % \
             level, the claim that {} is the same at both. (Critical values: {CRITICAL} for 1 degree of freedom, \
             {CRITICAL_OF_TWO} for 2.)",
            say(&counted.how),
            counts.n,
            say(&counted.things),
            counts.first,
            say(&counted.yes),
            counts.n,
            counts.second,
            voice.the(counts.quantity)
        );
        let skill = "statistical tests and data analysis";
        let points = vec![chi_square_value(counts), chi_square_verdict(counts)];
        Some(Draft { kind: PartKind::Evaluate, term: "evaluate", skill, text, points, of_twist: false })
    }
}

/// The statistic where each difference is taken as half a thing smaller (F. Yates 1934), as some courses teach it.
fn with_yates(n: u32, first: u32, expected: f64) -> f64 {
    let other = f64::from(n) - expected;
    let apart = f64::max((f64::from(first) - expected).abs() - 0.5, 0.0);
    2.0 * apart * apart * (1.0 / expected + 1.0 / other)
}

/// The point for setup and value of the statistic.
fn chi_square_value(counts: Counts) -> Point {
    let other = f64::from(counts.n) - counts.expected;
    let term = |seen: u32, expected: f64| {
        let expected = decimals(expected, 1);
        format!("({seen} − {expected})²/{expected}")
    };
    let setup = [
        term(counts.first, counts.expected),
        term(counts.n - counts.first, other),
        term(counts.second, counts.expected),
        term(counts.n - counts.second, other),
    ];
    let says = format!("χ² = {} = {}", setup.join(" + "), decimals(counts.chi_square, 2));
    let corrected = with_yates(counts.n, counts.first, counts.expected);
    let (low, high) = (decimals(counts.chi_square * 0.98, 2), decimals(counts.chi_square * 1.02, 2));
    Point {
        statement: format!("Setup and value: {says}. The setup earns even if the arithmetic fails."),
        accept: vec![format!("{low} to {high}"), format!("about {} with Yates's correction", decimals(corrected, 2))],
        // Of a hundred things they are the same.
        reject: ["the sum over one of the two kinds alone".to_owned()]
            .into_iter()
            .chain((counts.n != 100).then(|| "percentages in place of counts".to_owned()))
            .collect(),
        model: format!("{says}."),
        wrong: "The two shares are not far apart.".into(),
        ..empty()
    }
}

/// The point for what follows from it.
fn chi_square_verdict(counts: Counts) -> Point {
    let rejected = counts.chi_square > CRITICAL;
    let corrected = with_yates(counts.n, counts.first, counts.expected);
    let verdict = if rejected {
        format!("χ² is larger than {CRITICAL} (1 degree of freedom), so the claim is rejected: the shares differ.")
    } else {
        format!(
            "χ² is not larger than {CRITICAL} (1 degree of freedom), so the claim cannot be rejected; that does not \
             prove it."
        )
    };
    Point {
        model: verdict.clone(),
        statement: verdict,
        accept: ["a verdict that follows from a wrong value".to_owned()]
            .into_iter()
            .chain(
                (rejected != (corrected > CRITICAL)).then(|| {
                    format!("with Yates's correction, about {} and so the other verdict", decimals(corrected, 2))
                }),
            )
            .collect(),
        reject: vec![if rejected { "“the claim is proved wrong for certain”" } else { "“the claim is proved”" }.into()],
        wrong: if rejected { "So the claim may well be right." } else { "So the claim is proved." }.into(),
        ..empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// # Source
    /// `scipy.stats.chi2_contingency` 1.17.1 of [[48, 32], [61, 19]] and [[27, 33], [35, 25]], with its correction of Yates.
    #[test]
    fn the_correction_of_yates_is_that_of_a_library() {
        let of = |n: u32, first: u32, second: u32| with_yates(n, first, f64::from(first + second) / 2.0);
        assert!((of(80, 48, 61) - 4.144_630_33).abs() < 1e-8);
        assert!((of(60, 27, 35) - 1.635_150_17).abs() < 1e-8);
    }
}
