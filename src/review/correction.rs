//! Where an answer takes back what it has just said: "or rather …", "no wait, …", "Then again …".

use super::read::{Claim, Reading};
use super::told::Told;
use super::words::lists;

/// Whether a claim stands behind such words in its sentence.
pub(super) fn corrects(reading: &Reading, claim: &Claim) -> bool {
    let Some(clause) = reading.clauses.get(claim.clause) else { return false };
    let Some(sentence) = reading.sentences.get(clause.sentence) else { return false };
    let start = sentence.bytes.start;
    let until = reading.pieces.get(claim.at).map_or(start, |piece| piece.bytes.start);
    let before = reading.text.get(start..until).unwrap_or_default();
    Told::of(before).has(&lists().corrects) || clause.sentence > 0 && opens(before)
}

/// Whether a text begins so.
pub(super) fn opens(text: &str) -> bool {
    let text = text.trim_start().to_lowercase();
    let begins = |list: &[&str]| {
        list.iter().any(|phrase| {
            let rest = text.strip_prefix(phrase);
            rest.is_some_and(|rest| phrase.ends_with(',') || !rest.starts_with(char::is_alphanumeric))
        })
    };
    begins(&lists().corrects) || begins(&lists().corrects_first)
}
