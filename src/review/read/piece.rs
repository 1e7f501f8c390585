//! Pieces: words and phrases with what they do, and the keys by which a topic is known.

use std::ops::Range;

use super::alike::{as_much_as, however, no_more_than};
use super::deed::parted;
use super::homograph::{by_deed, is_background, is_manner, is_way, not_so, repeated, turned_noun};
use super::number::Number;
use super::token::{Kind, Sentence, Token, tokens};
use crate::review::dictionary::Dictionary;
use crate::review::meaning::{Grammar, Link, Little, Meaning, Turn};
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
    /// Other things that it may mean.
    pub(crate) also: Vec<String>,
    /// Number of the term of the lexicon.
    pub(crate) term: Option<usize>,
    /// Under an odd number of negations.
    pub(crate) negated: bool,
    /// It tells what something does.
    pub(crate) verb: bool,
    /// It does something to something else.
    pub(crate) acts: bool,
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

/// The words of one sentence: as written, as mended, as stems.
pub(super) struct Words<'a> {
    pub(super) own: &'a [Token],
    pub(super) mended: &'a [String],
    pub(super) stems: &'a [&'a str],
    pub(super) sentence: usize,
    pub(super) dictionary: &'a Dictionary,
}

impl Words<'_> {
    /// The stems from a word on.
    pub(super) fn rest(&self, at: usize) -> &[&str] {
        self.stems.get(at..).unwrap_or_default()
    }
}

fn sentence_pieces(own: &[Token], sentence: usize, numbers: &[Number], dictionary: &Dictionary, into: &mut Vec<Piece>) {
    let mut mended: Vec<String> = own.iter().map(|token| dictionary.mended(&token.lower)).collect();
    for word in &mut mended {
        // "[dye]" is the dye, where it is no symbol of its own.
        if word.starts_with('[') && word.len() > 3 && dictionary.longest(&[word.as_str()]).is_none() {
            *word = dictionary.mended(word.trim_matches(['[', ']']));
        }
    }
    for at in 1..mended.len() {
        // "the leaves" are leaves; "it leaves" goes.
        if mended.get(at).is_some_and(|word| word == "leaves") && into_is_noun(at, &mended) {
            mended.splice(at..=at, ["leaf".to_owned()]);
        }
        // "the die" is the dye.
        if mended.get(at).is_some_and(|word| word == "die" || word == "dies") && into_is_noun(at, &mended) {
            mended.splice(at..=at, ["dye".to_owned()]);
        }
    }
    let stems: Vec<String> = mended.iter().map(|word| dictionary.stems.of(word)).collect();
    let stems: Vec<&str> = stems.iter().map(String::as_str).collect();
    let all = Words { own, mended: &mended, stems: &stems, sentence, dictionary };
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
        let (length, piece) = one(&all, at);
        into.push(piece);
        at += length.max(1);
    }
}

pub(super) fn empty(sentence: usize, lower: &str) -> Piece {
    Piece {
        bytes: 0..0,
        sentence,
        role: Role::Plain,
        lower: lower.to_owned(),
        keys: Vec::new(),
        also: Vec::new(),
        term: None,
        negated: false,
        verb: false,
        acts: false,
    }
}

/// What the words that begin here mean, and how many they are.
fn meant(all: &Words<'_>, at: usize) -> Option<(usize, Meaning)> {
    let Words { mended, dictionary, .. } = *all;
    let rest = all.rest(at);
    let starts_mass = mended.get(at).is_some_and(|word| word == "mass");
    let found =
        dictionary.longest(rest).filter(|(length, _)| *length > 1 && !starts_mass || !is_background(at, mended));
    let found = found.filter(|found| !is_way(all, at, *found));
    let found = found.filter(|found| !before_turn(dictionary, rest, *found));
    let found = found.map(|found| of_one_thing(dictionary, rest, found));
    let found = found.and_then(|found| before_its_verb(dictionary, rest, found));
    found.map(|found| match rest.get(..1).and_then(|word| dictionary.longest(word)) {
        Some(alone) if is_manner(all, at, found) => alone,
        _ => found,
    })
}

/// The piece that begins at this token, and how many tokens it takes.
fn one(all: &Words<'_>, at: usize) -> (usize, Piece) {
    let Words { own, mended, sentence, dictionary, .. } = *all;
    let rest = all.rest(at);
    if let Some(piece) = not_so(all, at) {
        return (2, piece);
    }
    if let Some(piece) = as_much_as(all, at).or_else(|| no_more_than(all, at)) {
        return (2, piece);
    }
    if let Some(found) = parted(all, at).or_else(|| however(all, at)) {
        return found;
    }
    if let Some(found) = repeated(all, at).or_else(|| by_deed(all, at)).or_else(|| turned_noun(all, at)) {
        return found;
    }
    let found = meant(all, at);
    let length = found.map_or(1, |(length, _)| length);
    let lower = mended.get(at..at + length).unwrap_or_default().join(" ");
    let start = own.get(at).map_or(0, |token| token.bytes.start);
    let end = own.get(at + length - 1).map_or(start, |token| token.bytes.end);
    let mut piece = Piece { bytes: start..end, ..empty(sentence, &lower) };
    let meaning = found.map(|(_, meaning)| meaning);
    let is_mark = own.get(at).is_some_and(|token| token.kind == Kind::Mark);
    piece.role = match meaning {
        None if is_mark => Role::Mark(lower.chars().next().unwrap_or(' ')),
        None => Role::Content,
        Some(meaning) => role(meaning),
    };
    match meaning {
        Some(Meaning::Turn(turn)) if !turn.about.is_empty() => piece.keys.push(dictionary.key(turn.about)),
        Some(Meaning::Sense(group)) => by_sense(&mut piece, group, rest.get(..length).unwrap_or_default(), dictionary),
        Some(Meaning::Term(term)) => {
            piece.term = Some(term);
            piece.keys.extend(dictionary.term(term).map(|term| term.id.clone()));
        }
        _ => {}
    }
    piece.acts = piece.role == Role::Plain && length == 1 && rest.first().is_some_and(|stem| dictionary.acts(stem));
    if piece.role == Role::Content {
        let noun = into_is_noun(at, mended) || is_nominal(&lower);
        piece.acts = !noun && rest.first().is_some_and(|stem| dictionary.acts(stem));
        piece.verb = !noun && rest.iter().take(length).any(|stem| dictionary.is_verb(stem));
        let whole = matches!(meaning, Some(Meaning::Sense(_))) && length > 1;
        let words = rest.iter().take(if whole { 0 } else { length }).filter(|stem| !dictionary.is_little(stem));
        for stem in words {
            // "the radius of the pouchlets" names the pouchlets too.
            let thing = match dictionary.longest(&[stem]).filter(|_| length > 1) {
                Some((1, Meaning::Term(term))) => dictionary.term(term).filter(|term| !term.quantity),
                _ => None,
            };
            piece.keys.push(thing.map_or_else(|| dictionary.canonical(stem), |term| term.id.clone()));
            piece.also.extend(dictionary.further(stem).cloned());
        }
        let known = piece.term.and_then(|term| dictionary.term(term)).map(|term| term.words.as_slice());
        for key in known.unwrap_or_default() {
            if !piece.keys.contains(key) {
                piece.keys.push(key.clone());
            }
        }
    }
    (length, piece)
}

/// "has gone up": the last word of a phrase for a thing begins one of direction.
fn before_turn(dictionary: &Dictionary, rest: &[&str], (length, meaning): (usize, Meaning)) -> bool {
    let last = length.checked_sub(1).filter(|last| *last > 0 && matches!(meaning, Meaning::Sense(_)));
    let onward = last.and_then(|last| rest.get(last..)).and_then(|tail| dictionary.longest(tail));
    matches!(onward, Some((2.., Meaning::Turn(_))))
}

/// Words that make a name of what something does: "dimming stuff", "light thief".
const BY_DEED: &[&str] = &["stuff", "substance", "thief", "stealer", "robber", "killer", "eater", "maker"];

/// What a phrase of a row of like words stands for, and what else.
fn by_sense(piece: &mut Piece, group: usize, stems: &[&str], dictionary: &Dictionary) {
    let head = words::lists().senses.get(group).and_then(|group| group.first());
    piece.keys.extend(head.map(|head| dictionary.key(head)));
    piece.also.extend(dictionary.further(&stems.join(" ")).cloned());
    if piece.lower.split(' ').any(|word| BY_DEED.contains(&word)) {
        name_by_deed(piece, dictionary);
    }
}

/// "the stuff that dims": the quantity that goes by the name of who does so.
pub(super) fn name_by_deed(piece: &mut Piece, dictionary: &Dictionary) {
    let Some(number) = piece.keys.first().and_then(|key| dictionary.stands_for(key)) else { return };
    let Some(term) = dictionary.term(number) else { return };
    piece.term = Some(number);
    piece.keys.insert(0, term.id.clone());
    for key in &term.words {
        if !piece.keys.contains(key) {
            piece.keys.push(key.clone());
        }
    }
}

/// "less coloured compound": a phrase of direction ends before what is one thing with its last word.
fn of_one_thing(dictionary: &Dictionary, rest: &[&str], (length, meaning): (usize, Meaning)) -> (usize, Meaning) {
    let last = length.checked_sub(1).filter(|last| *last > 0 && matches!(meaning, Meaning::Turn(_)));
    let thing = last.and_then(|last| rest.get(last..)).and_then(|tail| dictionary.longest(tail));
    let named = matches!(thing, Some((2.., Meaning::Sense(_) | Meaning::Term(_))));
    let short = last.filter(|_| named).and_then(|last| rest.get(..last)).and_then(|head| dictionary.longest(head));
    short.unwrap_or((length, meaning))
}

/// "The reaction | speeds up": a name ends before a verb of direction that begins with its last word.
fn before_its_verb(dictionary: &Dictionary, rest: &[&str], found: (usize, Meaning)) -> Option<(usize, Meaning)> {
    let (length, meaning) = found;
    let last =
        length.checked_sub(1).filter(|last| *last > 0 && matches!(meaning, Meaning::Term(_) | Meaning::Sense(_)));
    let verb = last.and_then(|last| rest.get(last..)).and_then(|tail| dictionary.longest(tail));
    let turns = matches!(verb, Some((2.., Meaning::Turn(turn))) if turn.grammar != Grammar::Comparative);
    match last.filter(|_| turns).and_then(|last| rest.get(..last)) {
        Some(head) => dictionary.longest(head),
        None => Some(found),
    }
}

/// Whether what stands before a word makes a noun of it: "more cuts", "the split", "of light".
pub(super) fn into_is_noun(at: usize, words: &[String]) -> bool {
    let Some(before) = at.checked_sub(1).and_then(|before| words.get(before)) else { return false };
    [
        "the", "a", "an", "of", "more", "less", "fewer", "each", "every", "in", "by", "with", "its", "their", "no",
        "any", "further", "many", "few", "some", "slower", "faster",
    ]
    .contains(&before.as_str())
}

/// "absorbance", "leakage": what is done, as a thing.
fn is_nominal(word: &str) -> bool {
    ["ance", "ence", "tion", "ment", "ness", "ity", "age"].iter().any(|ending| word.ends_with(ending))
}

/// What a word with this meaning does.
fn role(meaning: Meaning) -> Role {
    match meaning {
        Meaning::Turn(turn) => Role::Turn(turn),
        Meaning::Negator => Role::Negator,
        Meaning::NoNegator | Meaning::Little(Little::Plain) => Role::Plain,
        Meaning::Link(link) => Role::Link(link),
        Meaning::Aside => Role::Aside,
        Meaning::Pronoun => Role::Pronoun,
        Meaning::Hedge => Role::Hedge,
        Meaning::Little(Little::Article) => Role::Article,
        Meaning::Little(Little::Preposition) => Role::Preposition,
        Meaning::Little(Little::Copula) => Role::Copula,
        Meaning::Sense(_) | Meaning::Term(_) => Role::Content,
    }
}
