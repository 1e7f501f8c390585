//! Lists: how many things an answer names, and the part of it that is read where so many were asked for.

use super::guide::Question;
use super::read::token;

/// The part of an answer that holds as many things as were asked for, and how many things there are in all.
pub(super) fn first<'t>(question: &Question, text: &'t str) -> (&'t str, usize) {
    let Some(asked) = question.count else { return (text, 0) };
    let starts = items(text, &question.command_term);
    let end = starts.get(asked).copied().unwrap_or(text.len());
    (text.get(..end).unwrap_or(text), starts.len())
}

/// Where each thing begins, in bytes. Items of a list are things; where there is none, so are the parts of a short answer
/// that names ("A and B", "A, B"), or sentences that begin with "another", "also", "second" ....
fn items(text: &str, command_term: &str) -> Vec<usize> {
    let sentences = token::sentences(text);
    let bullets: Vec<usize> =
        sentences.iter().filter(|sentence| sentence.bullet).map(|sentence| sentence.bytes.start).collect();
    if bullets.len() >= 2 {
        return bullets;
    }
    let mut starts = vec![0];
    let is_name = ["identify", "name", "list", "state", "give"].iter().any(|term| command_term.contains(term));
    if is_name && sentences.len() == 1 && text.split_whitespace().count() <= 24 {
        for mark in [" and ", ", ", "; ", " or ", " / "] {
            let ends = text.match_indices(mark).map(|(at, mark)| at + mark.len());
            // "the shortest soak, 5 min" names one thing twice.
            let number = |at: &usize| {
                text.get(*at..)
                    .is_some_and(|rest| rest.trim_start_matches("the ").starts_with(|c: char| c.is_ascii_digit()))
            };
            starts.extend(ends.filter(|at| mark != ", " || !number(at)));
        }
        starts.sort_unstable();
        starts.dedup();
        return starts;
    }
    for sentence in sentences.iter().skip(1) {
        let words = text.get(sentence.bytes.clone()).unwrap_or_default().to_lowercase();
        let more =
            ["another", "also", "second", "third", "in addition", "furthermore", "one more", "alternatively", "or "];
        if more.iter().any(|word| words.starts_with(word)) {
            starts.push(sentence.bytes.start);
        }
    }
    starts
}
