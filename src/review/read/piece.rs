//! Pieces: words and phrases with what they do, and the keys by which a topic is known.

use std::ops::Range;

use super::number::Number;
use super::token::{Kind, Sentence, Token, tokens};
use crate::review::dictionary::Dictionary;
use crate::review::meaning::{Link, Little, Meaning, Turn};
use crate::review::words;

/// What a piece does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Role {
    /// It names something.
    Content,
    Turn(Turn),
    Negator,
    Link(Link),
    Aside,
    Pronoun,
    Hedge,
    Article,
    Preposition,
    Copula,
    Plain,
    Number(usize),
    Mark(char),
}

/// A word or phrase.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Piece {
    /// Its place.
    pub(crate) bytes: Range<usize>,
    pub(crate) sentence: usize,
    pub(crate) role: Role,
    /// In lower case, as mended.
    pub(crate) lower: String,
    /// What it may be matched by, the most telling first; empty where it names nothing.
    pub(crate) keys: Vec<String>,
    /// Number of the term of the lexicon.
    pub(crate) term: Option<usize>,
    /// Under an odd number of negations.
    pub(crate) negated: bool,
}

/// The pieces of all sentences in order.
pub(crate) fn pieces(text: &str, sentences: &[Sentence], numbers: &[Number], dictionary: &Dictionary) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let all = tokens(text);
    for (number, sentence) in sentences.iter().enumerate() {
        let inside =
            |token: &&Token| sentence.bytes.start <= token.bytes.start && token.bytes.end <= sentence.bytes.end;
        let own: Vec<Token> = all.iter().filter(inside).cloned().collect();
        sentence_pieces(&own, number, numbers, dictionary, &mut pieces);
    }
    pieces
}

fn sentence_pieces(own: &[Token], sentence: usize, numbers: &[Number], dictionary: &Dictionary, into: &mut Vec<Piece>) {
    let mended: Vec<String> = own.iter().map(|token| dictionary.mended(&token.lower)).collect();
    let stems: Vec<String> = mended.iter().map(|word| dictionary.stems.of(word)).collect();
    let stems: Vec<&str> = stems.iter().map(String::as_str).collect();
    let mut at = 0;
    while let Some(token) = own.get(at) {
        let number = numbers.iter().position(|number| number.bytes.contains(&token.bytes.start));
        if let Some(place) = number {
            let bytes = numbers.get(place).map_or(token.bytes.clone(), |number| number.bytes.clone());
            while own.get(at).is_some_and(|token| token.bytes.start < bytes.end) {
                at += 1;
            }
            into.push(Piece { bytes, role: Role::Number(place), ..empty(sentence, "") });
            continue;
        }
        let (length, piece) = one(at, own, &mended, &stems, sentence, dictionary);
        into.push(piece);
        at += length.max(1);
    }
}

fn empty(sentence: usize, lower: &str) -> Piece {
    Piece {
        bytes: 0..0,
        sentence,
        role: Role::Plain,
        lower: lower.to_owned(),
        keys: Vec::new(),
        term: None,
        negated: false,
    }
}

/// The piece that begins at this token, and how many tokens it takes.
fn one(
    at: usize,
    own: &[Token],
    mended: &[String],
    stems: &[&str],
    sentence: usize,
    dictionary: &Dictionary,
) -> (usize, Piece) {
    let rest = stems.get(at..).unwrap_or_default();
    let found = dictionary.longest(rest);
    // "each further cut" counts cuts; it says nothing of a distance.
    let counted = at
        .checked_sub(1)
        .and_then(|before| mended.get(before))
        .is_some_and(|word| ["each", "a", "every", "no", "any"].contains(&word.as_str()));
    // "in the same time" says what is kept alike, not what comes out.
    let back = |n: usize| at.checked_sub(n).and_then(|before| mended.get(before)).map_or("", String::as_str);
    let kept = mended.get(at).is_some_and(|word| word == "same")
        && ["in", "at", "of", "for", "into", "with", "by", "to", "on", "over"].contains(&if back(1) == "the" {
            back(2)
        } else {
            back(1)
        });
    let found = found.filter(|(length, _)| !(kept && *length == 1));
    let found = found.filter(|_| !(counted && mended.get(at).is_some_and(|word| word == "further")));
    let length = found.map_or(1, |(length, _)| length);
    let lower = mended.get(at..at + length).unwrap_or_default().join(" ");
    let start = own.get(at).map_or(0, |token| token.bytes.start);
    let end = own.get(at + length - 1).map_or(start, |token| token.bytes.end);
    let mut piece = Piece { bytes: start..end, ..empty(sentence, &lower) };
    let components =
        || rest.iter().take(length).filter(|stem| !dictionary.is_little(stem)).map(|stem| dictionary.canonical(stem));
    match found.map(|(_, meaning)| meaning) {
        Some(Meaning::Turn(turn)) => {
            piece.role = Role::Turn(turn);
            if !turn.about.is_empty() {
                piece.keys.push(dictionary.key(turn.about));
            }
        }
        Some(Meaning::Negator) => piece.role = Role::Negator,
        Some(Meaning::NoNegator) => {}
        Some(Meaning::Link(link)) => piece.role = Role::Link(link),
        Some(Meaning::Aside) => piece.role = Role::Aside,
        Some(Meaning::Pronoun) => piece.role = Role::Pronoun,
        Some(Meaning::Hedge) => piece.role = Role::Hedge,
        Some(Meaning::Little(little)) => {
            piece.role = match little {
                Little::Article => Role::Article,
                Little::Preposition => Role::Preposition,
                Little::Copula => Role::Copula,
                Little::Plain => Role::Plain,
            };
        }
        Some(Meaning::Sense(group)) => {
            piece.role = Role::Content;
            let head = words::SENSES.get(group).and_then(|group| group.first());
            piece.keys.extend(head.map(|head| dictionary.key(head)));
            piece.keys.extend(components());
        }
        Some(Meaning::Term(term)) => {
            piece.role = Role::Content;
            piece.term = Some(term);
            piece.keys.extend(dictionary.term(term).map(|term| term.id.clone()));
            piece.keys.extend(components());
        }
        None => {
            let is_mark = own.get(at).is_some_and(|token| token.kind == Kind::Mark);
            if is_mark {
                piece.role = Role::Mark(lower.chars().next().unwrap_or(' '));
            } else {
                piece.role = Role::Content;
                piece.keys.extend(components());
            }
        }
    }
    (length, piece)
}
