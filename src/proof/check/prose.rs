//! Running text and headings: a number that has become another is a fault; the words are the teacher's.

use crate::diagnostic::Diagnostic;
use crate::proof::Proof;
use crate::proof::report::{Directions, Policy, Weight, report};

pub(in crate::proof) fn check(proof: &Proof<'_>, faults: &mut Vec<Diagnostic>) {
    // Before the data stands what is done, and after them what follows from the path.
    let mut after_data = false;
    for (made, old, new) in proof.pairs() {
        let directions = match (old.tables.is_empty(), after_data) {
            // Beside the data stands what the figure shows, in words.
            (false, _) => Directions::Kept,
            (true, false) => Directions::Free,
            (true, true) => Directions::Loose,
        };
        after_data = after_data || !old.tables.is_empty();
        let place = if old.key == "#" { "the opening".to_owned() } else { format!("the section “{}”", new.title) };
        let tokens = (made.tokens_of(old), proof.tokens_of(new));
        let policy = Policy::prose(&place, directions);
        report(proof, made, (&tokens.0, &tokens.1), new.heading.clone(), policy, faults);
        if old.key != "#" {
            let tokens = (made.tokens(&old.heading), proof.tokens(&new.heading));
            let policy = Policy { missing: Weight::Nothing, ..Policy::prose("the heading", Directions::Free) };
            report(proof, made, (&tokens.0, &tokens.1), new.heading.clone(), policy, faults);
        }
    }
}
