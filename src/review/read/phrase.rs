//! Phrases: what a direction word speaks of, before it or behind it.

use std::ops::Range;

use super::claim::{About, RULING, Reader};
use super::piece::{Piece, Role};
use crate::review::meaning::{Grammar, Link};
use crate::review::words;

/// Verbs by which one thing has another in it.
const HOLDS: &[&str] = &["hold", "holds", "held", "contain", "contains", "contained", "has", "have", "had"];

/// What is said before what is expected.
const EXPECTS: &[&str] = &["expect", "expected", "expects", "predict", "think", "say", "see", "want"];

/// Weight of what a word may mean besides.
const ALSO: f64 = 0.4;

impl Reader<'_> {
    /// What a direction word speaks of; where its phrase stands; whether that follows it.
    pub(super) fn about(&self, at: usize, grammar: Grammar) -> (About, Range<usize>, bool) {
        let lower = self.word(Some(at));
        let next = self.role(Some(at + 1));
        let last = self.role(at.checked_sub(1));
        let left = || {
            let (about, start) = self.left(at);
            (about, start..at + 1, false)
        };
        let right = |from: usize| {
            let (about, end) = self.right(from);
            let found = (about, at..end.max(at + 1), true);
            (!found.0.is_empty()).then_some(found)
        };
        // "The dye goes down in concentration": a verb, whatever stands before it.
        let does = grammar == Grammar::Intransitive && last == Some(Role::Content) && lower.contains(' ');
        let behind_noun = !does
            && matches!(last, Some(Role::Article | Role::Negator | Role::Content | Role::Turn(_)) | None)
            || self.there_is(at);
        let is_noun = behind_noun
            && !lower.ends_with("ly")
            && !matches!(lower, "least" | "most")
            && next == Some(Role::Preposition)
            && matches!(self.word(Some(at + 1)), "in" | "of");
        // "has no effect on the rate": what follows is what does not change.
        let none_on = ["effect", "difference", "influence", "impact"].iter().any(|word| lower.ends_with(word))
            && matches!(self.word(Some(at + 1)), "on" | "to");
        // "more is left inside", "less gets through": what the phrase goes on to say.
        let subject =
            grammar == Grammar::Comparative && (next == Some(Role::Copula) || self.verb(at + 1)) && self.opens(at);
        let predicate = grammar == Grammar::Predicate;
        // "is low in dye", "richer in sugar".
        let holds = grammar == Grammar::Comparative
            && last == Some(Role::Copula)
            && self.word(Some(at + 1)) == "in"
            && matches!(lower, "low" | "high" | "lower" | "higher" | "rich" | "richer" | "poor" | "poorer");
        let is_noun = is_noun || holds;
        let ahead = (is_noun && !predicate || none_on && predicate)
            .then(|| right(at + 2))
            .flatten()
            .or_else(|| subject.then(|| right(at + 1)).flatten())
            .or_else(|| self.there_the_same(at).then(|| right(at + 1)).flatten())
            .or_else(|| self.the_there(at).then(|| right(at + 2)).flatten())
            .or_else(|| self.that_does(at, grammar).then(|| right(at + 2)).flatten());
        if let Some(ahead) = ahead {
            // "The dye goes down in concentration": that of the dye.
            if self.in_a_measure(at, grammar) {
                let (mut about, start) = self.left(at);
                about.extend(ahead.0);
                return (about, start..ahead.1.end, false);
            }
            return ahead;
        }
        let passive = self.passive(at);
        if !self.forward(at, grammar, passive) {
            return left();
        }
        let Some(ahead) = right(at + 1 + usize::from(self.the_they(at))) else { return left() };
        // "becomes more permeable", "makes it less permeable": what becomes so is spoken of as well.
        let quality = ahead.0.first().is_some_and(|(key, _)| self.dictionary.is_adjective(key));
        let has = matches!(self.word(at.checked_sub(1)), "have" | "has" | "had") || self.gets(at);
        // "was short of charge to pull the same tag": of that alone.
        let the_same = lower == "same" && last == Some(Role::Article) && self.verb(at.saturating_sub(2));
        if grammar == Grammar::Comparative && (passive && !has || quality) && !the_same {
            let (mut about, start) = self.left(at);
            about.extend(ahead.0);
            return (about, start..ahead.1.end, false);
        }
        ahead
    }

    /// "goes down in concentration", "falls in number" behind what does so.
    fn in_a_measure(&self, at: usize, grammar: Grammar) -> bool {
        let measure = |key: &String| self.dictionary.is_light(key) || self.dictionary.class(key).is_some();
        let own = self.pieces.get(at + 2).filter(|piece| !piece.keys.is_empty() && piece.term.is_none());
        matches!(grammar, Grammar::Intransitive | Grammar::Either)
            && self.word(Some(at + 1)) == "in"
            && self.role(at.checked_sub(1)) == Some(Role::Content)
            && own.is_some_and(|piece| piece.keys.iter().all(measure))
    }

    /// "There's the same amount of it": of what follows.
    fn there_the_same(&self, at: usize) -> bool {
        let there = self.word(Some(at)).starts_with("there") || self.word(at.checked_sub(1)).starts_with("there");
        there && self.word(Some(at)).ends_with("the same") && self.role(Some(at + 1)) == Some(Role::Content)
    }

    /// "The less there is in the liquid".
    fn the_there(&self, at: usize) -> bool {
        self.word(at.checked_sub(1)) == "the" && self.word(Some(at + 1)) == "there" && self.opens(at)
    }

    /// "There is less that works".
    fn that_does(&self, at: usize, grammar: Grammar) -> bool {
        grammar == Grammar::Comparative
            && self.role(Some(at + 1)) == Some(Role::Link(Link::Which))
            && (self.verb(at + 2) || self.role(Some(at + 2)) == Some(Role::Copula))
    }

    /// Whether a form of "be" rules the word.
    fn passive(&self, at: usize) -> bool {
        let be = |place: usize| {
            self.role(Some(place)) == Some(Role::Copula)
                && (place + 1..at).all(|between| matches!(self.role(Some(between)), Some(Role::Plain | Role::Negator)))
        };
        !self.there_is(at) && (1..=3).filter_map(|back| at.checked_sub(back)).any(be)
    }

    /// "You've got more of it", "we get less dye": had, and not become.
    fn gets(&self, at: usize) -> bool {
        let word = |back: usize| self.word(at.checked_sub(back));
        let counts =
            matches!(self.word(Some(at)), "more" | "less" | "fewer" | "much" | "a lot of" | "loads of" | "plenty of");
        match word(1) {
            _ if !counts => false,
            "got" => true,
            "get" | "gets" | "getting" => matches!(word(2), "you" | "we" | "i" | "one") || self.is_of(at + 1),
            _ => false,
        }
    }

    /// Whether what a word speaks of follows it.
    fn forward(&self, at: usize, grammar: Grammar, passive: bool) -> bool {
        let lower = self.word(Some(at));
        let next = self.role(Some(at + 1));
        let participle = lower.ends_with("ed") || lower.ends_with("ing") || lower == "lower";
        let takes_object = matches!(next, Some(Role::Article | Role::Content | Role::Pronoun | Role::Number(_)));
        let the = self.word(at.checked_sub(1)) == "the" && self.opens(at);
        match grammar {
            Grammar::Predicate => false,
            Grammar::Intransitive => next == Some(Role::Content) && participle && !passive,
            Grammar::Transitive => !passive || next == Some(Role::Content),
            Grammar::Either => takes_object && !(passive && lower.ends_with("ed")),
            Grammar::Comparative => match next {
                Some(Role::Content) => true,
                // "less stuff is split".
                Some(Role::Plain)
                    if matches!(self.word(Some(at + 1)), "stuff" | "things")
                        && matches!(lower, "more" | "less" | "fewer" | "little" | "much" | "easier" | "harder") =>
                {
                    true
                }
                // "only a small bit of gas".
                Some(Role::Plain)
                    if matches!(lower, "small" | "smaller" | "tiny" | "little" | "big" | "bigger")
                        && matches!(self.word(Some(at + 1)), "bit of" | "bits of") =>
                {
                    true
                }
                Some(Role::Turn(_)) => self.word(Some(at + 1)).ends_with("ing") || self.describes(at + 1),
                Some(Role::Article | Role::Pronoun) if lower.ends_with(" of") => true,
                Some(Role::Article) => {
                    the || matches!(lower, "half" | "twice" | "double" | "nearly all" | "almost all" | "hardly any")
                }
                Some(Role::Preposition) => self.is_of(at + 1) && (!passive || self.gets(at)),
                _ => self.the_they(at),
            },
        }
    }

    /// The phrase before this piece: its keys, and where it begins.
    pub(super) fn left(&self, at: usize) -> (About, usize) {
        let mut places: Vec<usize> = Vec::new();
        let mut start = at;
        let between = (self.clause.pieces.start..at).rfind(|place| self.word(Some(*place)) == "between");
        for place in (self.clause.pieces.start..at).rev() {
            match self.role(Some(place)) {
                // "the difference between inside and outside".
                Some(Role::Link(Link::And)) if between.is_some_and(|from| from < place) => {}
                Some(Role::Content | Role::Number(_)) => {
                    places.push(place);
                    start = place;
                }
                // "I'd expect it to go down": of what "it" stands for.
                Some(Role::Pronoun)
                    if places.is_empty()
                        && place.checked_sub(1).is_some_and(|before| EXPECTS.contains(&self.word(Some(before)))) =>
                {
                    break;
                }
                // "the rate at which it is split": the pronoun belongs to what is named before.
                Some(Role::Pronoun) if self.role(place.checked_sub(1)) == Some(Role::Content) => {}
                Some(Role::Pronoun | Role::Link(Link::And) | Role::Mark(_)) if !places.is_empty() => break,
                Some(Role::Turn(_)) if self.pieces.get(place + 1).is_some_and(|piece| piece.lower == "ones") => {}
                // "gets much weaker".
                Some(Role::Turn(_)) if place + 1 == at && matches!(self.word(Some(place)), "much" | "a lot") => {}
                // "leaks through the more permeable wall faster".
                Some(Role::Turn(_)) if !places.is_empty() && self.in_passing(place) => {}
                Some(Role::Turn(_)) => break,
                // "makes the dye | leak out more slowly": what does so is no part of it.
                Some(Role::Plain) if !places.is_empty() && self.causes(place) => break,
                _ => {}
            }
        }
        places.reverse();
        (self.weighed(&places, false), start)
    }

    /// Whether a word says that one thing makes another do something.
    fn causes(&self, at: usize) -> bool {
        matches!(
            self.word(Some(at)),
            "let" | "lets" | "letting" | "make" | "makes" | "making" | "made" | "allow" | "allows" | "allowing"
        )
    }

    /// Whether a word of direction only describes a thing behind a preposition: "through the more permeable wall".
    fn in_passing(&self, at: usize) -> bool {
        let article = self.role(at.checked_sub(1)) == Some(Role::Article);
        let before = at.checked_sub(if article { 2 } else { 1 });
        let verb = before.and_then(|place| place.checked_sub(1));
        self.role(before) == Some(Role::Preposition)
            && matches!(self.word(before), "through" | "across" | "into" | "out of" | "from" | "out")
            && self.role(verb) == Some(Role::Content)
    }

    /// The phrase from this piece on: its keys, and where it ends.
    pub(super) fn right(&self, from: usize) -> (About, usize) {
        let mut places: Vec<usize> = Vec::new();
        let mut end = from;
        let (mut predicate, mut relative) = (false, false);
        for place in from..self.clause.pieces.end {
            // "stays inside | to be set free": what follows is for another sentence.
            let able = ["able", "unable", "going", "managed", "manage"].contains(&self.word(place.checked_sub(1)));
            let to = self.pieces.get(place).is_some_and(|piece| piece.lower == "to") && !able;
            if to && !places.is_empty() && (self.role(Some(place + 1)) == Some(Role::Copula) || self.verb(place + 1)) {
                break;
            }
            match self.role(Some(place)) {
                // "more of the short RNA": which one, not a direction.
                Some(Role::Turn(_)) if places.is_empty() && self.describes(place) => {}
                // "longer heating".
                Some(Role::Turn(_))
                    if place == from && self.pieces.get(place).is_some_and(|piece| piece.lower.ends_with("ing")) =>
                {
                    places.push(place);
                    end = place + 1;
                }
                Some(Role::Pronoun) if place > from && self.is_of(place - 1) => {}
                // "less surface they have for …", "more dye it pulls in".
                Some(Role::Pronoun) if !places.is_empty() && self.rules(place + 1) => relative = true,
                Some(Role::Copula) if relative => relative = false,
                // "less surface | lets …": another statement begins.
                Some(Role::Plain) if !places.is_empty() && self.pieces.get(place).is_some_and(|piece| piece.acts) => {
                    break;
                }
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
                // "a smaller share of it with a working site".
                Some(Role::Link(Link::If)) if !places.is_empty() && self.word(Some(place)) == "with" => {}
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
        // "the more negative the potential": what is so weighs as much.
        let first = places.first().and_then(|place| self.pieces.get(*place)).and_then(|piece| piece.keys.first());
        let quality = forward && first.is_some_and(|key| self.dictionary.is_adjective(key));
        for (rank, place) in places.iter().enumerate() {
            // "a smaller share is handed over": that is what is said of it.
            let passive = self.role(place.checked_sub(1)) == Some(Role::Copula);
            let does = forward && rank > 0 && self.pieces.get(*place).is_some_and(|piece| piece.verb && piece.acts);
            tail = tail || rank >= 3 || does;
            if let Some(before) = before {
                let after_of = (before + 1..*place).any(|between| self.is_of(between));
                tail = tail
                    || (before + 1..*place).any(|between| match self.role(Some(between)) {
                        Some(Role::Preposition) => !self.is_of(between),
                        Some(Role::Article) => !(after_of || quality && rank == 1),
                        _ => false,
                    });
            }
            before = Some(*place);
            let Some(piece) = self.pieces.get(*place).filter(|piece| piece.lower != "same") else { continue };
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
                    (_, false, true) if does && passive => RULING,
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

    /// Keys of the verb that rules a phrase: "takes up | less light", "cut at | more places"; "lets more light | through".
    pub(super) fn ruling(&self, at: usize, end: usize) -> Vec<String> {
        let start = self.clause.pieces.start;
        let mut found = Vec::new();
        for place in (start..at).rev() {
            let Some(piece) = self.pieces.get(place) else { break };
            match piece.role {
                Role::Article | Role::Plain | Role::Preposition | Role::Number(_) | Role::Negator => {}
                // "soak up as much light"; "opens the stems of more loops".
                Role::Link(_) if matches!(piece.lower.as_str(), "as" | "so") => {}
                Role::Content if !piece.verb && self.is_of(place + 1) => {}
                // "opens the short stems of more loops".
                Role::Turn(_) if self.describes(place) => {}
                // "A higher melting point keeps | more of them shut": a thing, whatever verb it is made of.
                Role::Content if piece.term.is_some() => break,
                // "The liquid holds less": what is in it, not what stays in it.
                Role::Content if self.holder(place + 1).is_some() => break,
                Role::Content if piece.verb => {
                    found.clone_from(&piece.keys);
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

    /// The verb by which one thing has another in it, right before a phrase.
    pub(super) fn holder(&self, at: usize) -> Option<usize> {
        let before = at.checked_sub(1)?;
        let holds = self.clause.pieces.contains(&before) && HOLDS.contains(&self.word(Some(before)));
        let liquid = |(key, _): &(String, f64)| words::lists().liquids.contains(&key.as_str());
        (holds && self.left(before).0.iter().any(liquid)).then_some(before)
    }

    /// Whether a phrase points back: by a pronoun, a possessive, or for want of a subject of its own.
    pub(super) fn leans(&self, range: &Range<usize>) -> bool {
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

    /// Whether a verb or a form of "have" follows a pronoun here.
    fn rules(&self, at: usize) -> bool {
        self.verb(at) || matches!(self.word(Some(at)), "have" | "has" | "had")
    }

    /// "the short stems", "more short RNA": a word that says which.
    pub(super) fn describes(&self, at: usize) -> bool {
        says_which(self.pieces, at) && self.role(Some(at + 1)) == Some(Role::Content)
    }
}

/// "the short stems", "more short RNA": a size that says which, and not that they become so.
pub(crate) fn says_which(pieces: &[Piece], at: usize) -> bool {
    let word = |at: usize| pieces.get(at).map_or("", |piece| piece.lower.as_str());
    let before = at.checked_sub(1).map_or("", word);
    // "more little flashes".
    let tiny = matches!(before, "more" | "fewer") && matches!(word(at), "little" | "tiny" | "big");
    // "pull the same big tag".
    let sized = matches!(word(at), "short" | "long" | "small" | "large" | "high" | "low" | "big" | "little" | "tiny");
    tiny || before == "same" && sized
        || matches!(before, "the" | "more" | "less")
            && matches!(word(at), "short" | "long" | "small" | "large" | "high" | "low")
}
