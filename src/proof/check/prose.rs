//! Running text: a number that has become another is a fault; the words are the teacher's.

use crate::diagnostic::Diagnostic;
use crate::proof::Proof;
use crate::proof::report::{Directions, Policy, report};

pub(in crate::proof) fn check(proof: &Proof<'_>, faults: &mut Vec<Diagnostic>) {
    for (made, old, new) in proof.pairs() {
        // Beside the data stands what the figure shows, in words.
        let directions = if old.tables.is_empty() { Directions::Free } else { Directions::Kept };
        let place = if old.key == "#" { "the opening".to_owned() } else { format!("the section “{}”", new.title) };
        let tokens = (made.tokens_of(old), proof.tokens_of(new));
        let policy = Policy::prose(&place, directions);
        report(proof, made, (&tokens.0, &tokens.1), new.heading.clone(), policy, faults);
    }
}
