//! Claims: which quantity goes which way.

use std::ops::Range;

use super::clause::Clause;
use super::piece::{Piece, Role};
use crate::review::dictionary::Dictionary;
use crate::review::meaning::{Direction, Grammar, Link, Turn};
use crate::review::words;

/// A direction tied to what it speaks of.
#[expect(clippy::struct_excessive_bools, reason = "each is a fact of its own about the wording")]
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Claim {
    /// With negations taken in.
    pub(crate) direction: Direction,
    /// Keys of the quantity with their weights: the head of the phrase weighs most. Empty where nothing is named.
    pub(crate) about: Vec<(String, f64)>,
    /// The quantity is that of the claim or clause before ("it falls").
    pub(crate) carried: bool,
    /// Number of the clause.
    pub(crate) clause: usize,
    /// Place of the direction word in the list of pieces.
    pub(crate) at: usize,
    /// Places of the pieces of direction and quantity.
    pub(crate) pieces: Range<usize>,
    /// No claim of this case.
    pub(crate) aside: bool,
    /// The answer does not commit itself ("may", "perhaps").
    pub(crate) hedged: bool,
    /// What kind of quantity it is, where that is named or plain from the direction word.
    pub(crate) class: Vec<&'static str>,
    /// The direction stands before what it speaks of ("more sugar").
    pub(crate) attributive: bool,
}

/// All claims of a text in order.
pub(crate) fn claims(pieces: &[Piece], clauses: &[Clause], dictionary: &Dictionary) -> Vec<Claim> {
    let mut claims: Vec<Claim> = Vec::new();
    for (number, clause) in clauses.iter().enumerate() {
        claims.extend(Reader { pieces, clause, dictionary }.doing(number));
        for at in clause.pieces.clone() {
            let Some(Piece { role: Role::Turn(turn), .. }) = pieces.get(at) else { continue };
            let topic = topic(&claims, clauses, pieces, number, dictionary);
            let reader = Reader { pieces, clause, dictionary };
            if let Some(claim) = reader.claim(at, *turn, number, topic) {
                claims.push(claim);
            }
        }
    }
    both_ways(&mut claims, pieces);
    claims
}

/// "fast or slow", "more or less light": neither is claimed.
fn both_ways(claims: &mut [Claim], pieces: &[Piece]) {
    let ends: Vec<(usize, Direction)> = claims.iter().map(|claim| (claim.at, claim.direction)).collect();
    for (place, pair) in ends.windows(2).enumerate() {
        let [(one, up), (other, down)] = pair else { continue };
        let between = pieces.get(one + 1..*other).unwrap_or_default();
        let joined = matches!(between, [piece] if matches!(piece.lower.as_str(), "or" | "and"));
        if joined && *up == down.mirrored() && matches!(up, Direction::Up | Direction::Down) {
            claims.iter_mut().skip(place).take(2).for_each(|claim| claim.aside = true);
        }
    }
}

/// What a pronoun stands for: the quantity of the last claim of this or the last sentence, or the first thing named there.
fn topic(
    claims: &[Claim],
    clauses: &[Clause],
    pieces: &[Piece],
    number: usize,
    dictionary: &Dictionary,
) -> Vec<(String, f64)> {
    let near = |clause: usize| {
        let (own, other) =
            (clauses.get(number).map_or(0, |c| c.sentence), clauses.get(clause).map_or(0, |c| c.sentence));
        own <= other + 1
    };
    let claim = claims.last().filter(|claim| near(claim.clause));
    let before = number.checked_sub(1).filter(|before| near(*before));
    let since = before.filter(|before| claim.is_none_or(|claim| claim.clause < *before));
    let named = since.and_then(|before| clauses.get(before)).map(|clause| {
        let reader = Reader { pieces, clause, dictionary };
        reader.right(clause.pieces.start).0
    });
    named.filter(|about| !about.is_empty()).or(claim.map(|claim| claim.about.clone())).unwrap_or_default()
}

struct Reader<'a> {
    pieces: &'a [Piece],
    clause: &'a Clause,
    dictionary: &'a Dictionary,
}

type About = Vec<(String, f64)>;

/// Weight of the verb that rules a phrase.
const RULING: f64 = 0.6;
/// Weight of the kind of quantity that a direction word brings along, beside what is named.
const OWN: f64 = 0.3;
/// Weight of what a word may mean besides.
const ALSO: f64 = 0.4;
/// Weight of what a pronoun stands for, beside what is named.
const LEANING: f64 = 0.4;

impl Reader<'_> {
    fn role(&self, at: Option<usize>) -> Option<Role> {
        at.filter(|at| self.clause.pieces.contains(at)).and_then(|at| self.pieces.get(at)).map(|piece| piece.role)
    }

    /// "Adding salt …", "Cutting …": more of it, as the cause of what follows.
    fn doing(&self, number: usize) -> Option<Claim> {
        let start = self.clause.pieces.start;
        let first = self.pieces.get(start)?;
        let acts = self.clause.pieces.clone().skip(1).any(|place| {
            self.pieces.get(place).is_some_and(|piece| piece.verb || piece.acts || matches!(piece.role, Role::Turn(_)))
        });
        if first.role != Role::Content || !first.verb || !first.lower.ends_with("ing") || first.negated || !acts {
            return None;
        }
        let (about, end) = self.right(start);
        let class: Vec<&'static str> = about.iter().filter_map(|(key, _)| self.dictionary.class(key)).collect();
        let hedged = self.clause.hedged;
        let pieces = start..end.max(start + 1);
        let direction = Direction::Up;
        (!about.is_empty()).then_some(Claim {
            direction,
            about,
            carried: false,
            clause: number,
            at: start,
            pieces,
            aside: false,
            hedged,
            class,
            attributive: true,
        })
    }

    fn claim(&self, at: usize, turn: Turn, number: usize, topic: About) -> Option<Claim> {
        let piece = self.pieces.get(at)?;
        // "the large ones" names things and says nothing of them.
        if self.pieces.get(at + 1).is_some_and(|piece| matches!(piece.lower.as_str(), "ones" | "one")) {
            return None;
        }
        let (mut about, pieces, attributive) = self.about(at, turn.grammar);
        let word = |at: Option<usize>| at.and_then(|at| self.pieces.get(at)).map_or("", |piece| piece.lower.as_str());
        // "as long as before" says what is kept alike; "toward lower potential" where, not which way.
        let as_before = word(at.checked_sub(1)) == "as" && word(Some(at + 1)).starts_with("as") && !piece.negated;
        // "longer heating": a thing done for longer, not a change of its own.
        let done = piece.lower.ends_with("ing")
            && matches!(self.role(at.checked_sub(1)), Some(Role::Turn(Turn { grammar: Grammar::Comparative, .. })));
        let toward = matches!(word(at.checked_sub(1)), "toward" | "towards");
        // "falls faster than": one claim, made by the verb.
        let manner = turn.about == "rate"
            && matches!(self.role(at.checked_sub(1)), Some(Role::Turn(Turn { grammar: Grammar::Intransitive | Grammar::Either, .. })));
        if as_before || done || toward || manner || self.kept_alike(at, turn) {
            return None;
        }
        // "less charge builds up": one claim, made by the first word.
        let gathers = matches!(piece.lower.as_str(), "build up" | "builds up" | "built up" | "building up");
        if gathers && (self.clause.pieces.start..at).any(|place| matches!(self.role(Some(place)), Some(Role::Turn(_)))) {
            return None;
        }
        // "Warming opens …": it speaks of the temperature and of nothing else.
        if turn.about == "temperature" && self.opens(at) && self.role(Some(at + 1)) != Some(Role::Preposition) {
            about.clear();
            about.push((self.dictionary.key("temperature"), 1.0));
        }
        // "not more than", "no more" leave the rest to the reader: they stay denied.
        // "not as fast" is slower; "not faster" is only not faster.
        let compared =
            at.checked_sub(1).and_then(|before| self.pieces.get(before)).is_some_and(|piece| matches!(piece.lower.as_str(), "as" | "so" | "that"));
        let direction = match (piece.negated, compared) {
            (true, true) => turn.direction.mirrored(),
            (true, false) => turn.direction.denied(),
            (false, _) => turn.direction,
        };
        // "lasts a shorter time", "at a higher rate": of what stands before.
        if attributive && self.measure(&about) {
            let (before, _) = self.left(at);
            for (key, weight) in before {
                if !about.iter().any(|(known, _)| *known == key) {
                    about.push((key, weight));
                }
            }
        }
        let carried = about.is_empty();
        let own_class = piece.keys.iter().find_map(|key| self.dictionary.class(key));
        if carried {
            about = topic.iter().map(|(key, weight)| (key.clone(), if own_class.is_some() { f64::min(*weight, LEANING) } else { *weight })).collect();
            // "and get further": the kind of quantity is that of the direction word.
            if own_class.is_some() {
                about.retain(|(key, _)| self.dictionary.class(key).is_none());
            }
        } else if self.leans(&pieces) || (attributive && self.there_is(at)) || self.has_more(at, attributive) || self.bare(&about) {
            // "its concentration", "they move": of what was spoken of before.
            let telling = topic.into_iter().filter(|(key, _)| {
                (self.dictionary.class(key).is_none() || key == "light")
                    && !key.starts_with("t:")
                    && !self.dictionary.is_light(key)
                    && self.dictionary.opposites(key).next().is_none()
            });
            let bare = own_class.is_none() && self.bare(&about);
            for (key, _) in telling.take(3) {
                if !about.iter().any(|(known, _)| *known == key) {
                    about.push((key, if bare { 1.0 } else { LEANING }));
                }
            }
        }
        if self.pieces.get(at + 1).is_some_and(|piece| piece.lower == "to") && self.verb(at + 2) {
            for key in self.pieces.get(at + 2).into_iter().flat_map(|piece| &piece.keys) {
                if !about.iter().any(|(known, _)| known == key) {
                    about.push((key.clone(), 1.0));
                }
            }
        }
        if attributive && !carried {
            for key in self.ruling(at, pieces.end) {
                if !about.iter().any(|(known, _)| *known == key) {
                    about.push((key, RULING));
                }
            }
        }
        // The kind of quantity is that of the phrase's first word that names one; else that of the direction word: "faster" speaks
        // of a rate, "more dye" of an amount.
        let named = about.iter().find_map(|(key, _)| self.dictionary.class(key));
        let own = piece.keys.iter().find_map(|key| self.dictionary.class(key));
        let counts = matches!(
            piece.lower.as_str(),
            "more" | "less" | "fewer" | "few" | "little" | "plenty of" | "a lot of" | "much"
        );
        let head = about.iter().filter(|(_, weight)| *weight > 0.15);
        let mut class: Vec<&'static str> = head.filter_map(|(key, _)| self.dictionary.class(key)).collect();
        if class.is_empty() {
            class.extend(own);
        }
        let quality = about.first().is_some_and(|(key, _)| self.dictionary.is_adjective(key));
        if counts && attributive && !quality {
            class.push("amount");
        }
        let size = ["small", "smaller", "big", "bigger", "large", "larger", "tiny", "little", "tinier", "huge"];
        if class.is_empty() && size.contains(&piece.lower.as_str()) {
            class.push("size");
        }
        for key in piece.keys.iter().filter(|_| named.is_none()) {
            if !about.iter().any(|(known, _)| known == key) {
                let alone = about.iter().all(|(key, weight)| *weight < 0.5 || self.dictionary.is_light(key));
                about.push((key.clone(), if alone { 1.0 } else { OWN }));
            }
        }
        let direction = self.of_a_liquid(piece, direction, &mut about, &mut class);
        self.combine(&mut about, &mut class);
        let aside = self.clause.aside_from.is_some_and(|from| from < at);
        let hedged = self.clause.hedged || self.clause.pieces.clone().any(|place| self.role(Some(place)) == Some(Role::Hedge));
        Some(Claim { direction, about, carried, clause: number, at, pieces, aside, hedged, class, attributive })
    }

    /// What a direction word speaks of; where its phrase stands; whether that follows it.
    fn about(&self, at: usize, grammar: Grammar) -> (About, Range<usize>, bool) {
        let lower = self.pieces.get(at).map_or("", |piece| piece.lower.as_str());
        let next = self.role(Some(at + 1));
        let word_after = self.pieces.get(at + 1).map_or("", |piece| piece.lower.as_str());
        let last = self.role(at.checked_sub(1));
        let left = || {
            let (about, start) = self.left(at);
            (about, start..at + 1, false)
        };
        let right = |from: usize| {
            let (about, end) = self.right(from);
            (about, at..end.max(at + 1), true)
        };
        let is_noun = (matches!(last, Some(Role::Article | Role::Negator | Role::Content | Role::Turn(_)) | None) || self.there_is(at))
            && next == Some(Role::Preposition)
            && self.pieces.get(at + 1).is_some_and(|piece| matches!(piece.lower.as_str(), "in" | "of"));
        if is_noun && grammar != Grammar::Predicate {
            let found = right(at + 2);
            if !found.0.is_empty() {
                return found;
            }
        }
        // "has no effect on the rate": what follows is what does not change.
        if grammar == Grammar::Predicate
            && self.pieces.get(at + 1).is_some_and(|piece| matches!(piece.lower.as_str(), "on" | "to"))
            && (lower.ends_with("effect") || lower.ends_with("difference") || lower.ends_with("influence") || lower.ends_with("impact"))
        {
            let found = right(at + 2);
            if !found.0.is_empty() {
                return found;
            }
        }
        let passive = !self.there_is(at) && (1..=3).filter_map(|back| at.checked_sub(back)).any(|place| {
            self.role(Some(place)) == Some(Role::Copula)
                && (place + 1..at).all(|between| matches!(self.role(Some(between)), Some(Role::Plain | Role::Negator)))
        });
        let participle = lower.ends_with("ed") || lower.ends_with("ing") || lower == "lower";
        let takes_object = matches!(next, Some(Role::Article | Role::Content | Role::Pronoun | Role::Number(_)));
        let forward = match grammar {
            Grammar::Predicate => false,
            Grammar::Intransitive => next == Some(Role::Content) && participle && !passive,
            Grammar::Transitive => !passive || next == Some(Role::Content),
            Grammar::Either => takes_object && !(passive && lower.ends_with("ed")),
            Grammar::Comparative if matches!(lower, "half" | "twice" | "double") && next == Some(Role::Article) => true,
            Grammar::Comparative if self.the_they(at) => true,
            Grammar::Comparative if matches!(next, Some(Role::Turn(_))) && word_after.ends_with("ing") => true,
            Grammar::Comparative => {
                next == Some(Role::Content)
                    || (next == Some(Role::Article) && self.pieces.get(at.wrapping_sub(1)).is_some_and(|piece| piece.lower == "the") && self.opens(at)) || (next == Some(Role::Preposition) && self.is_of(at + 1) && !passive)
            }
        };
        if grammar == Grammar::Comparative && (next == Some(Role::Copula) || self.verb(at + 1)) && self.opens(at) {
            // "more is left inside", "less gets through": what the phrase goes on to say.
            let found = right(at + 1);
            if !found.0.is_empty() {
                return found;
            }
        }
        if !forward {
            return left();
        }
        let ahead = right(at + 1 + usize::from(self.the_they(at)));
        if ahead.0.is_empty() {
            return left();
        }
        // "becomes more permeable": what becomes so is spoken of as well.
        if grammar == Grammar::Comparative && passive {
            let (mut about, start) = self.left(at);
            about.extend(ahead.0);
            return (about, start..ahead.1.end, false);
        }
        ahead
    }

    /// "The liquid is darker": it is coloured more strongly.
    fn of_a_liquid(&self, piece: &Piece, direction: Direction, about: &mut About, class: &mut Vec<&'static str>) -> Direction {
        let dark = matches!(piece.lower.as_str(), "dark" | "darker" | "darken" | "darkens" | "light" | "lighter");
        let liquid = about.iter().any(|(key, weight)| *weight >= 0.1 && words::lists().liquids.contains(&key.as_str()));
        if !dark || !liquid {
            return direction;
        }
        let colour = self.dictionary.key("absorbance");
        about.retain(|(key, _)| self.dictionary.class(key) != Some("bright"));
        about.push((colour, 1.0));
        *class = vec!["colour"];
        if piece.lower.starts_with("dark") { direction.mirrored() } else { direction }
    }

    /// Words that together name one thing: light that is stopped is absorbed.
    fn combine(&self, about: &mut About, class: &mut Vec<&'static str>) {
        for (all, result, dropped) in &words::lists().combined {
            let keys: Vec<String> = all.iter().map(|word| self.dictionary.key(word)).collect();
            let result = self.dictionary.key(result);
            let has = |key: &String| about.iter().any(|(known, _)| known == key);
            if keys.iter().all(has) {
                if !has(&result) {
                    about.push((result.clone(), 1.0));
                }
                class.extend(self.dictionary.class(&result));
                for word in dropped {
                    let key = self.dictionary.key(word);
                    about.retain(|(known, _)| *known != key);
                    class.retain(|class| self.dictionary.class(&key) != Some(class));
                }
            }
        }
    }

    /// Whether a phrase names a kind of quantity and not of what.
    fn bare(&self, about: &About) -> bool {
        about.iter().all(|(key, _)| {
            !key.starts_with("t:") && (self.dictionary.is_light(key) || self.dictionary.class(key).is_some_and(|class| class == "amount"))
        })
    }

    /// Whether a phrase is a measure alone: "time", "rate", "distance".
    fn measure(&self, about: &About) -> bool {
        !about.is_empty()
            && about.iter().all(|(key, _)| {
                !key.starts_with("t:") && matches!(self.dictionary.class(key), Some("time" | "rate" | "distance" | "length"))
            })
    }

    fn verb(&self, at: usize) -> bool {
        self.clause.pieces.contains(&at) && self.pieces.get(at).is_some_and(|piece| piece.verb)
    }

    /// "The liquid has more": of what was spoken of before.
    fn has_more(&self, at: usize, attributive: bool) -> bool {
        let word = |place: Option<usize>| place.and_then(|place| self.pieces.get(place)).map_or("", |piece| piece.lower.as_str());
        !attributive
            && matches!(word(Some(at)), "more" | "less" | "fewer")
            && matches!(word(at.checked_sub(1)), "has" | "have" | "holds" | "gets" | "contains" | "had" | "with")
    }

    /// "The longer they soak".
    fn the_they(&self, at: usize) -> bool {
        let the = at.checked_sub(1).and_then(|place| self.pieces.get(place)).is_some_and(|piece| piece.lower == "the");
        the && self.role(Some(at + 1)) == Some(Role::Pronoun) && self.opens(at)
    }

    /// "The same amount of salt …" before what changes.
    fn kept_alike(&self, at: usize, turn: Turn) -> bool {
        let sentence = self.pieces.get(at).map(|piece| piece.sentence);
        let others = self.pieces.iter().filter(|piece| Some(piece.sentence) == sentence);
        let moves = |piece: &Piece| matches!(piece.role, Role::Turn(Turn { direction: Direction::Up | Direction::Down, .. }));
        let the = at.checked_sub(1).and_then(|place| self.pieces.get(place)).is_some_and(|piece| piece.lower == "the");
        turn.direction == Direction::Same
            && turn.grammar == Grammar::Comparative
            && the
            && self.opens(at)
            && others.into_iter().any(moves)
    }

    /// "the short stems": a word that says which.
    fn describes(&self, at: usize) -> bool {
        let word = |at: Option<usize>| at.and_then(|at| self.pieces.get(at)).map_or("", |piece| piece.lower.as_str());
        word(at.checked_sub(1)) == "the"
            && matches!(word(Some(at)), "short" | "long" | "small" | "large" | "high" | "low")
            && self.role(Some(at + 1)) == Some(Role::Content)
    }

    /// "There is more …": nothing stands before that it speaks of.
    fn there_is(&self, at: usize) -> bool {
        let word = |back: usize| at.checked_sub(back).and_then(|place| self.pieces.get(place));
        (2..=4).any(|back| word(back).is_some_and(|piece| piece.lower == "there"))
            && word(1).is_some_and(|piece| matches!(piece.role, Role::Copula | Role::Plain | Role::Turn(_)))
    }

    /// Whether a word stands at the beginning of its clause, or behind an article there.
    fn opens(&self, at: usize) -> bool {
        let start = self.clause.pieces.start;
        (start..at).all(|place| matches!(self.role(Some(place)), Some(Role::Article | Role::Plain | Role::Link(_))))
    }

    /// Keys of the verb that rules a phrase: "takes up | less light", "cut at | more places"; "lets more light | through".
    fn ruling(&self, at: usize, end: usize) -> Vec<String> {
        let start = self.clause.pieces.start;
        let mut found = Vec::new();
        for place in (start..at).rev() {
            let Some(piece) = self.pieces.get(place) else { break };
            match piece.role {
                Role::Article | Role::Plain | Role::Preposition | Role::Number(_) | Role::Negator => {}
                Role::Content if piece.verb => {
                    found = piece.keys.clone();
                    break;
                }
                _ => break,
            }
        }
        let through = |place: usize| self.pieces.get(place).is_some_and(|piece| piece.lower == "through");
        if self.clause.pieces.contains(&end) && through(end) || through(end.saturating_sub(1)) {
            found.push(self.dictionary.key("pass"));
        }
        found.retain(|key| !self.dictionary.is_light(key));
        found
    }

    /// Whether a phrase points back: by a pronoun, a possessive, or for want of a subject of its own.
    fn leans(&self, range: &Range<usize>) -> bool {
        let start = self.clause.pieces.start;
        let pieces = self.pieces.get(start.min(range.start)..range.end).unwrap_or_default();
        let points = |piece: &Piece| piece.role == Role::Pronoun || matches!(piece.lower.as_str(), "its" | "their");
        let first = self.pieces.get(start).map(|piece| piece.role);
        let no_subject = self.clause.link == Some(Link::And) && first == Some(Role::Content) && range.start == start;
        pieces.iter().any(points) || no_subject
    }

    fn is_of(&self, at: usize) -> bool {
        self.pieces.get(at).is_some_and(|piece| piece.lower == "of")
    }

    /// The phrase before this piece: its keys, and where it begins.
    fn left(&self, at: usize) -> (About, usize) {
        let mut places: Vec<usize> = Vec::new();
        let mut start = at;
        for place in (self.clause.pieces.start..at).rev() {
            match self.role(Some(place)) {
                Some(Role::Content | Role::Number(_)) => {
                    places.push(place);
                    start = place;
                }
                // "the rate at which it is split": the pronoun belongs to what is named before.
                Some(Role::Pronoun) if self.role(place.checked_sub(1)) == Some(Role::Content) => {}
                Some(Role::Pronoun | Role::Link(Link::And) | Role::Mark(_)) if !places.is_empty() => break,
                Some(Role::Turn(_)) if self.pieces.get(place + 1).is_some_and(|piece| piece.lower == "ones") => {}
                Some(Role::Turn(_)) => break,
                _ => {}
            }
        }
        places.reverse();
        (self.weighed(&places, false), start)
    }

    /// The phrase from this piece on: its keys, and where it ends.
    fn right(&self, from: usize) -> (About, usize) {
        let mut places: Vec<usize> = Vec::new();
        let mut end = from;
        let mut predicate = false;
        for place in from..self.clause.pieces.end {
            // "stays inside | to be set free": what follows is for another sentence.
            let to = self.pieces.get(place).is_some_and(|piece| piece.lower == "to");
            if to && !places.is_empty() && (self.role(Some(place + 1)) == Some(Role::Copula) || self.verb(place + 1)) {
                break;
            }
            match self.role(Some(place)) {
                // "more of the short RNA": which one, not a direction.
                Some(Role::Turn(_)) if places.is_empty() && self.describes(place) => {}
                // "longer heating".
                Some(Role::Turn(_)) if place == from && self.pieces.get(place).is_some_and(|piece| piece.lower.ends_with("ing")) => {
                    places.push(place);
                    end = place + 1;
                }
                Some(Role::Pronoun) if place > from && self.is_of(place - 1) => {}
                // "less surface | lets …": another statement begins.
                Some(Role::Plain) if !places.is_empty() && self.pieces.get(place).is_some_and(|piece| piece.acts) => break,
                Some(Role::Content) => {
                    places.push(place);
                    end = place + 1;
                }
                Some(
                    Role::Article
                    | Role::Preposition
                    | Role::Plain
                    | Role::Hedge
                    | Role::Number(_)
                    | Role::Mark('-' | '(' | ')' | '“' | '”' | '"' | '\''),
                ) => {}
                Some(Role::Copula) if places.is_empty() => {}
                _ if places.is_empty() && place == from => {}
                // "a smaller fraction has leaked out": what is said of it belongs to it.
                Some(Role::Copula) if !places.is_empty() && !predicate => predicate = true,
                Some(Role::Copula) if predicate => {}
                _ => break,
            }
        }
        (self.weighed(&places, true), end)
    }

    /// Keys of the pieces with weights: what follows a preposition other than "of" weighs less, as do light heads.
    fn weighed(&self, places: &[usize], forward: bool) -> About {
        let mut about: About = Vec::new();
        let mut tail = false;
        let mut before: Option<usize> = None;
        for (rank, place) in places.iter().enumerate() {
            let does = forward && rank > 0 && self.pieces.get(*place).is_some_and(|piece| piece.verb && piece.acts);
            tail = tail || rank >= 3 || does;
            if let Some(before) = before {
                let after_of = (before + 1..*place).any(|between| self.is_of(between));
                tail = tail
                    || (before + 1..*place).any(|between| match self.role(Some(between)) {
                        Some(Role::Preposition) => !self.is_of(between),
                        Some(Role::Article) => !after_of,
                        _ => false,
                    });
            }
            before = Some(*place);
            let Some(piece) = self.pieces.get(*place) else { continue };
            let quantity = piece.term.and_then(|term| self.dictionary.term(term)).is_some_and(|term| term.quantity);
            let thing = piece.term.is_some() && !quantity && places.len() > 1;
            // A thing by any of its names is one key; a quantity may be known again by its words.
            let most = if piece.term.is_some() && !quantity { 1 } else { piece.keys.len() };
            for (rank, key) in piece.keys.iter().take(most).enumerate() {
                let light = self.dictionary.is_light(key);
                let weight = match (quantity && rank == 0, light, tail) {
                    (true, _, false) => 2.0,
                    (_, _, false) if thing => 0.5,
                    (_, true, true) => 0.1,
                    (_, true, false) => 0.2,
                    (_, false, true) if forward => 0.25,
                    (_, false, true) => 0.5,
                    (_, false, false) => 1.0,
                };
                // "keeps more of the loops closed": in which state they are tells as much as what they are.
                let weight = if self.dictionary.is_state(key) { f64::max(weight, 0.6) } else { weight };
                if !about.iter().any(|(known, _)| known == key) {
                    about.push((key.clone(), weight));
                }
            }
            for key in &piece.also {
                if !about.iter().any(|(known, _)| known == key) {
                    about.push((key.clone(), if tail { 0.1 } else { ALSO }));
                }
            }
        }
        about
    }
}
