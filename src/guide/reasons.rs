//! How students put the reason why a step of a changed experiment acts otherwise, in everyday words.

use std::sync::LazyLock;

use super::lexicon::by_id;

/// What earns as well, by words of the guide's reason.
static SAYINGS: LazyLock<Vec<(&str, Vec<&str>)>> =
    LazyLock::new(|| by_id(include_str!("reasons.txt")).into_iter().collect());

/// What also earns a reason.
pub(super) fn of(statement: &str) -> Vec<String> {
    let lower = statement.to_lowercase();
    let rows = SAYINGS.iter().filter(|(words, _)| lower.contains(words));
    rows.flat_map(|(_, sayings)| sayings.iter().map(|saying| (*saying).to_owned())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_belongs_to_a_reason_of_the_graph() {
        let graph = crate::concepts::load_and_check(&crate::concepts::embedded()).unwrap();
        let reasons: Vec<String> = graph
            .influences()
            .flat_map(|(_, influence)| &influence.twists)
            .map(|twist| twist.because.to_lowercase())
            .collect();
        for (words, sayings) in SAYINGS.iter() {
            assert!(reasons.iter().any(|reason| reason.contains(words)), "`{words}` stands in no reason");
            assert!(sayings.len() >= 2, "{words}");
        }
        for reason in &reasons {
            assert!(!of(reason).is_empty(), "`{reason}` has no everyday words");
        }
    }
}
