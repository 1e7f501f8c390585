//! Where one quantity alone is asked about: which claims are of it, and which sentences deny what others say.

use std::ops::Range;

use super::matching::{Hit, Matcher};
use super::meaning::{Accord, Direction, Grammar, Link};
use super::pattern::Wanted;
use super::read::{Claim, Piece, Role};

/// Keys of what shows a reading, and of nothing else.
const SHOWS: &[&str] = &["measur", "curv", "line", "graph", "output", "meter", "needl", "read"];
/// Words before "it" that say nothing of their own: "I predict it falls".
const LEADS: &[&str] = &[
    "i", "we", "would", "predict", "think", "say", "expect", "reckon", "that", "so", "now", "then", "here", "my", "be",
];

/// Weight up to which a claim only leans on a thing.
const LEANT: f64 = 0.41;

/// Kinds of quantity whose words of direction speak of nothing else at the bench.
const OWN_KINDS: &[&str] = &["bright", "colour"];

impl Matcher<'_> {
    /// "It stays dim": as it was.
    pub(super) fn stays_so(&self, wanted: &Wanted, claim: &Claim) -> bool {
        let word = self.reading.pieces.get(claim.at).map_or("", |piece| piece.lower.as_str());
        let stays = word.starts_with("stay") || word.starts_with("remain");
        stays && wanted.direction == Direction::Same && matches!(claim.direction, Direction::Up | Direction::Down)
    }

    /// "It gets lighter", read as paler, where it is asked how bright it is or how much light comes through.
    pub(super) fn gets_lit(&self, wanted: &Wanted, claim: &Claim) -> bool {
        let word = self.reading.pieces.get(claim.at).map_or("", |piece| piece.lower.as_str());
        matches!(word, "lighter" | "lightest")
            && claim.class.contains(&"colour")
            && !wanted.class.contains(&"colour")
            && claim.direction == Direction::Down
            || self.gets_dark(wanted, claim)
    }

    /// "So it gets darker", read as deeper in colour, where it is asked how bright it is or how much light comes through.
    fn gets_dark(&self, wanted: &Wanted, claim: &Claim) -> bool {
        let word = |at: usize| self.reading.pieces.get(at).map_or("", |piece| piece.lower.as_str());
        let start = self.reading.clauses.get(claim.clause).map_or(claim.at, |clause| clause.pieces.start);
        matches!(word(claim.at), "darker" | "darkest")
            && !wanted.class.contains(&"colour")
            && claim.class.contains(&"colour")
            && claim.direction == Direction::Up
            && (start..claim.at).any(|at| word(at) == "it")
    }

    /// Whether one sentence says which way, and another one that follows from it or sets itself against it the opposite.
    pub(super) fn in_sentences_apart(&self, hits: &[Hit]) -> bool {
        let sentence = |place: &Range<usize>| {
            self.reading.sentences.iter().position(|sentence| sentence.bytes.contains(&place.start))
        };
        let of = |wanted: Accord| -> Vec<Option<usize>> {
            hits.iter().filter(|(_, accord, _)| *accord == wanted).map(|(.., place)| sentence(place)).collect()
        };
        let (agree, oppose) = (of(Accord::Agree), of(Accord::Oppose));
        let goes_on = |number: usize| {
            let own: Vec<&Piece> = self.reading.pieces.iter().filter(|piece| piece.sentence == number).collect();
            let link = |piece: &&Piece| matches!(piece.role, Role::Link(Link::So | Link::But));
            let has = |test: &dyn Fn(&Piece) -> bool| own.iter().any(|piece| test(piece));
            // "At 40 it is higher than at 2": one level beside another.
            let levels = has(&|piece| matches!(piece.role, Role::Number(_))) && has(&|piece| piece.lower == "than");
            own.first().is_some_and(link)
                || levels
                || has(&|piece| piece.role == Role::Link(Link::But) || piece.lower == "so")
        };
        !agree.is_empty() && oppose.iter().flatten().any(|number| !agree.contains(&Some(*number)) && goes_on(*number))
    }

    /// "Lower than in the first series": set beside another series, not along this one.
    pub(super) fn beside_before(&self, claim: &Claim) -> bool {
        let Some(clause) = self.reading.clauses.get(claim.clause) else { return false };
        let own = self.reading.pieces.get(claim.at..clause.pieces.end).unwrap_or_default();
        // "It falls less than before" says which way all the same; so does "dimmer at 40 than in the first series".
        let than = own.iter().take_while(|piece| !piece.lower.starts_with("than"));
        let told = own.first().is_some_and(|piece| match piece.role {
            Role::Turn(turn) => {
                matches!(turn.grammar, Grammar::Intransitive | Grammar::Either)
                    && !piece.lower.ends_with("er")
                    && matches!(claim.direction, Direction::Up | Direction::Down)
            }
            _ => false,
        });
        if told || than.into_iter().any(|piece| matches!(piece.role, Role::Number(_))) {
            return false;
        }
        // "than before" is one piece.
        let behind = own.iter().skip_while(|piece| !piece.lower.starts_with("than"));
        let other = ["first", "before", "previous", "original", "earlier", "last"];
        behind.into_iter().any(|piece| piece.lower.split(' ').any(|word| other.contains(&word)))
    }

    /// Where one quantity is asked about: a word of direction of its own kind ("brighter" of a brightness), or "it" at the
    /// beginning of a sentence.
    pub(super) fn of_what_is_asked(&self, wanted: &Wanted, claim: &Claim) -> bool {
        let clause = self.reading.clauses.get(claim.clause);
        let start = clause.map_or(claim.at, |clause| clause.pieces.start);
        let before = self.reading.pieces.get(start..claim.at).unwrap_or_default();
        // "It won't change" says which way.
        if before.iter().any(|piece| piece.role == Role::Negator) && claim.direction != Direction::Same {
            return false;
        }
        // "The more colour has run out of them", where it is not asked what has.
        let elsewhere = claim.attributive
            && !claim.carried
            && claim.about.iter().any(|(key, weight)| {
                let known = wanted.about.iter().any(|(known, _)| known == key || self.dictionary.opposed(known, key));
                *weight >= 0.5 && self.dictionary.is_elsewhere(key) && !known
            });
        if elsewhere {
            return false;
        }
        let word = self.reading.pieces.get(claim.at);
        let kinds = word.into_iter().flat_map(|piece| &piece.keys).filter_map(|key| self.dictionary.class(key));
        // "a dark liquid" is of its colour.
        let of_kind = |kind: &'static str| claim.class.contains(&kind) && wanted.class.contains(&kind);
        let own = kinds.into_iter().any(|kind| OWN_KINDS.contains(&kind) && of_kind(kind));
        let first = before.iter().find(|piece| !LEADS.contains(&piece.lower.as_str()));
        let opens = claim.clause == 0
            || self.reading.clauses.get(claim.clause - 1).map(|before| before.sentence)
                != clause.map(|own| own.sentence);
        // "So the 20 min one comes out lowest": not all alike.
        let stands_out = wanted.direction == Direction::Same
            && (claim.carried || claim.class.iter().any(|class| wanted.class.contains(class)))
            && claim.compares
            && !claim.attributive
            && word.is_some_and(|piece| piece.lower.ends_with("est"));
        if stands_out {
            return true;
        }
        // "But there is so much of it that … so it does rise there."
        let bare = word.is_none_or(|piece| piece.keys.is_empty());
        let opens = opens || (bare && self.reading.set_against(claim));
        own || self.gets_dark(wanted, claim)
            || (claim.carried && opens && first.is_some_and(|piece| piece.lower == "it"))
            || self.told_again(wanted, claim)
            || shows(claim) && !self.beside_before(claim)
    }

    /// "So overall it falls from 8 to 40", "By 34 it will have dropped", "But the ones at 9 would be higher": a later sentence that
    /// says which way without naming anything but levels speaks of what was asked, whatever stood last in the one before.
    fn told_again(&self, wanted: &Wanted, claim: &Claim) -> bool {
        let Some(clause) = self.reading.clauses.get(claim.clause).filter(|clause| clause.sentence > 0) else {
            return false;
        };
        let moves = matches!(claim.direction, Direction::Up | Direction::Down);
        // What the word itself speaks of ("faster"), and not what it takes over from before.
        let of_kind = match self.reading.pieces.get(claim.at).map(|piece| piece.role) {
            Some(Role::Turn(turn)) => turn.about.is_empty() || wanted.class.contains(&turn.about),
            _ => true,
        };
        let sentence = |piece: &&Piece| piece.sentence == clause.sentence;
        let before: Vec<&Piece> =
            self.reading.pieces.get(..claim.at).unwrap_or_default().iter().filter(sentence).collect();
        let plain = |piece: &&Piece| match piece.role {
            Role::Link(link) => matches!(link, Link::So | Link::But | Link::And),
            Role::Content | Role::Turn(_) | Role::Negator | Role::Hedge | Role::Aside => false,
            _ => !matches!(piece.lower.as_str(), "they" | "these" | "those" | "there"),
        };
        let level = |piece: &Piece| matches!(piece.role, Role::Number(_));
        let closes = |piece: &Piece| {
            matches!(piece.role, Role::Link(Link::So | Link::But))
                || matches!(piece.lower.as_str(), "overall" | "that be")
        };
        let behind = self.reading.pieces.get(claim.at + 1..clause.pieces.end).unwrap_or_default();
        let levels = before.iter().any(|piece| level(piece)) || behind.iter().any(level);
        let bare = behind.iter().all(|piece| {
            piece.role != Role::Content
                || piece
                    .keys
                    .iter()
                    .all(|key| self.dictionary.is_light(key) || wanted.about.iter().any(|(known, _)| known == key))
        });
        moves
            && claim.carried
            && !claim.attributive
            && of_kind
            && bare
            && before.iter().all(plain)
            && (levels || before.iter().any(|piece| closes(piece)))
    }
}

/// "The curve slopes down": what shows the reading, and nothing else.
fn shows(claim: &Claim) -> bool {
    let mut telling = claim.about.iter().filter(|(_, weight)| *weight > LEANT).peekable();
    !claim.attributive && telling.peek().is_some() && telling.all(|(key, _)| SHOWS.contains(&key.as_str()))
}
