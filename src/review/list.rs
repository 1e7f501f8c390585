//! Lists: how many things an answer names, and the part of it that is read where so many were asked for.

use super::guide::Question;
use super::meaning::Grammar;
use super::read::{Piece, Reading, Role};

/// The part of an answer that holds as many things as were asked for, and how many things there are in all.
pub(super) fn first<'t>(question: &Question, prompt: &Reading, whole: &'t Reading) -> (&'t str, usize) {
    let text = whole.text.as_str();
    let Some(asked) = question.count else { return (text, 0) };
    let starts = items(whole, prompt, question);
    let end = starts.get(asked).copied().unwrap_or(text.len());
    let kept = text.get(..end).unwrap_or(text);
    (without_reason(question, whole, kept), starts.len())
}

/// Words that begin a reason.
const REASONS: &[&str] = &[" because ", " since ", " as it ", " as they ", " as the "];

/// What names is not named by its reason: "the volume, because the time depends on it".
fn without_reason<'t>(question: &Question, whole: &Reading, kept: &'t str) -> &'t str {
    let last = whole.sentences.iter().rev().find(|sentence| sentence.bytes.start < kept.len());
    let start = last.map_or(0, |sentence| sentence.bytes.start);
    let reason = REASONS.iter().filter_map(|mark| kept.get(start..)?.find(mark)).min();
    let cut = reason.filter(|_| names(question)).and_then(|at| kept.get(..start + at));
    cut.filter(|rest| rest.contains(char::is_alphanumeric)).unwrap_or(kept)
}

fn names(question: &Question) -> bool {
    ["identify", "name", "list", "state", "give"].iter().any(|term| question.command_term.contains(term))
}

/// So many words name one thing, or a few.
const SHORT: usize = 24;
/// So few are no sentence as a rule.
const FEW: usize = 4;

/// Where each thing begins, in bytes. Items of a list are things; where there is none, so are the parts of a short answer
/// that names ("A and B", "A, B"), sentences that only name ("A. B."), or that begin with "another", "also", "second" ....
fn items(whole: &Reading, prompt: &Reading, question: &Question) -> Vec<usize> {
    let sentences = &whole.sentences;
    let bullets: Vec<usize> =
        sentences.iter().filter(|sentence| sentence.bullet).map(|sentence| sentence.bytes.start).collect();
    if bullets.len() >= 2 {
        return bullets;
    }
    let is_name = names(question);
    let mut starts = vec![0];
    for (number, sentence) in sentences.iter().enumerate() {
        let words = whole.slice(&sentence.bytes);
        let named = is_name && only_names(whole, prompt, number);
        if number > 0 && (named || more(&words.to_lowercase())) {
            starts.push(sentence.bytes.start);
        }
        let short = words.split_whitespace().count() <= SHORT;
        if is_name && short && (named || sentences.len() == 1) {
            starts.extend(parts(words).into_iter().map(|at| sentence.bytes.start + at));
        }
    }
    starts.sort_unstable();
    starts.dedup();
    starts
}

/// What joins things.
const JOINTS: &[&str] =
    &[" and ", ", ", "; ", ". ", " or ", " / ", " & ", " plus ", " as well as ", " then ", " + ", "\n"];

/// Openings of what only tells more of a thing: nothing is counted in it.
const EXPLAINS: &[&str] = &[
    " because ",
    ", because ",
    " since ",
    " as it ",
    " as they ",
    ", which ",
    " which ",
    " so that ",
    ", for example",
    ", for instance",
    " such as ",
    ", e.g.",
    ", not ",
    " not ",
    " (",
    ": ",
    ", so ",
    " so ",
    " for ",
    " where ",
    ", like ",
    " like ",
    ", needed ",
    ", used ",
    ", with ",
];

/// Where further things begin in a sentence. What explains a thing goes on to the next "and" behind a comma, or to the end.
fn parts(text: &str) -> Vec<usize> {
    let begins = EXPLAINS.iter().filter_map(|mark| text.find(mark)).min();
    let (head, tail) = text.split_at(begins.unwrap_or(text.len()));
    // "the shortest soak, 5 min" names one thing twice.
    let number = |at: usize| {
        let rest = text.get(at..).unwrap_or_default();
        rest.trim_start_matches("the ").starts_with(|letter: char| letter.is_ascii_digit())
    };
    let joints = JOINTS.iter().flat_map(|mark| head.match_indices(mark).map(|(at, mark)| (at + mark.len(), mark)));
    let mut starts: Vec<usize> = joints.filter(|(at, mark)| *mark != ", " || !number(*at)).map(|(at, _)| at).collect();
    // "carbohydrates, which give energy, and proteins".
    let further = [", and ", "; "].into_iter().filter_map(|mark| tail.find(mark).map(|at| at + mark.len())).min();
    if let Some(at) = further.filter(|_| tail.starts_with(", which ") || tail.contains("; ")) {
        let at = head.len() + at;
        starts.push(at);
        starts.extend(parts(text.get(at..).unwrap_or_default()).into_iter().map(|more| at + more));
    }
    starts.retain(|at| text.get(*at..).is_some_and(|rest| rest.contains(char::is_alphanumeric)));
    starts
}

fn more(words: &str) -> bool {
    let all = ["another", "also", "second", "third", "in addition", "furthermore", "one more", "alternatively", "or "];
    all.iter().any(|word| words.starts_with(word))
}

/// Whether a sentence only names, beside what the question says itself: "Soil colour.", "It is the temperature.", "The light must
/// be kept the same." where that is asked for, and not "It is measured in the dark."
fn only_names(whole: &Reading, prompt: &Reading, sentence: usize) -> bool {
    let own: Vec<&Piece> = whole.pieces.iter().filter(|piece| piece.sentence == sentence).collect();
    let own = match own.as_slice() {
        [it, is, rest @ ..] if it.role == Role::Pronoun && is.role == Role::Copula => rest,
        rest => rest,
    };
    let asked = |piece: &Piece| {
        prompt.pieces.iter().any(|known| match (known.role, piece.role) {
            (Role::Turn(known), Role::Turn(turn)) => known.direction == turn.direction,
            (Role::Content, Role::Content) => known.keys.first() == piece.keys.first(),
            _ => known.lower == piece.lower,
        })
    };
    let told_again = own.iter().any(|piece| matches!(piece.role, Role::Content | Role::Turn(_)) && asked(piece));
    // A word of so few is a name, whatever else it may be: "Soil colour".
    let few = own.iter().filter(|piece| !matches!(piece.role, Role::Mark(_))).count() <= FEW;
    let tells = |piece: &Piece| match piece.role {
        Role::Copula => !told_again,
        Role::Pronoun | Role::Negator => true,
        Role::Link(_) => piece.lower != "and" && piece.lower != "or",
        Role::Turn(turn) => turn.grammar != Grammar::Comparative,
        _ => (piece.verb || piece.acts) && (!few || piece.lower.ends_with("ed")),
    };
    let names = own.iter().any(|piece| piece.role == Role::Content && !asked(piece));
    names && !own.iter().any(|piece| !asked(piece) && tells(piece))
}
