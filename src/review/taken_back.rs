//! What an answer takes back: a later sentence that sets itself against what was said.

use std::ops::Range;

use super::correction::opens;
use super::guide::{Point, PointKind};
use super::judge::{Judge, limit};
use super::meaning::{Direction, Link};
use super::pattern::{Pattern, Unit};
use super::read::{Claim, Piece, Role};

impl Judge<'_> {
    /// A later sentence that sets itself against what was said ("But …", "… though") and speaks of this point. Where its
    /// claims are of the guide, they decide; else it is of the point that it names most of.
    pub(super) fn taken_back(&self, point: &Point) -> Option<Range<usize>> {
        // So does one that lets what is to leak out go in.
        if self.goes_in(&point.statement) {
            return Some(0..self.reading.text.len());
        }
        let own = self.question.points.iter().position(|one| one.id == point.id)?;
        for (number, sentence) in self.reading.sentences.iter().enumerate().skip(1) {
            let pieces: Vec<&Piece> = self.reading.pieces.iter().filter(|piece| piece.sentence == number).collect();
            if !against(&pieces, false) && !opens(self.reading.slice(&sentence.bytes)) {
                continue;
            }
            let claims: Vec<usize> =
                (0..self.reading.claims.len()).filter(|at| self.sentence_of(*at) == Some(number)).collect();
            let told = self.course.told_by(&claims);
            let speaks = if told.is_empty() {
                let counts: Vec<usize> = self.question.points.iter().map(|one| self.names(one, &pieces)).collect();
                let most = counts.iter().max().copied().unwrap_or(0);
                most > 0 && counts.iter().position(|count| *count == most) == Some(own)
            } else {
                told.contains(&(own, false))
            };
            if speaks {
                return Some(sentence.bytes.clone());
            }
        }
        None
    }

    /// The sentence of a claim.
    fn sentence_of(&self, claim: usize) -> Option<usize> {
        let claim = self.reading.claims.get(claim)?;
        self.reading.clauses.get(claim.clause).map(|clause| clause.sentence)
    }

    /// How many of the things of a point these pieces name; what its steps lead to counts twice.
    fn names(&self, point: &Point, pieces: &[&Piece]) -> usize {
        let pattern = self.pattern(point.said());
        let outcome = |key: &String| {
            let effects = pattern.wanted.iter().filter(|wanted| !wanted.cause);
            effects.flat_map(|wanted| &wanted.about).any(|(known, weight)| known == key && *weight >= limit::HALF)
        };
        let telling = pattern.units.iter().filter(|unit| !unit.prompted || pattern.direction_alone);
        let keys = telling.filter_map(|unit| unit.keys.first());
        let seen = keys.filter(|key| pieces.iter().any(|piece| piece.keys.contains(key)));
        seen.map(|key| 1 + usize::from(outcome(key))).sum()
    }

    /// A sentence set against the reason that speaks of it: "But …", "… though", "… still takes …".
    pub(super) fn set_back(&self, point: &Point, whole: &Pattern, predicted: Option<&Pattern>) -> Option<Range<usize>> {
        let rejects: Vec<Pattern> = point.reject.iter().map(|text| self.pattern(text)).collect();
        let units: Vec<&Unit> = whole.units.iter().chain(rejects.iter().flat_map(|one| &one.units)).collect();
        let heavy = |key: &String, piece: &Piece| piece.keys.contains(key) && !self.dictionary.is_light(key);
        self.reading.sentences.iter().enumerate().find_map(|(number, sentence)| {
            let own: Vec<&Piece> = self.reading.pieces.iter().filter(|piece| piece.sentence == number).collect();
            // "It still falls, though nothing reaches it": what is granted behind is not set against anything.
            let grants = |pair: &[&Piece]| match pair {
                [one, next] => {
                    matches!(one.lower.as_str(), "though" | "although" | "even though")
                        && !matches!(next.role, Role::Mark(_))
                }
                _ => false,
            };
            let granted = own.windows(2).position(|pair| number == 0 && grants(pair));
            let own = own.get(..granted.unwrap_or(own.len())).unwrap_or_default();
            let speaks =
                own.iter().any(|piece| units.iter().any(|unit| unit.keys.first().is_some_and(|key| heavy(key, piece))))
                    || self.step_moves(point, number);
            // "It is still made, but cannot reach it": no longer as it was.
            let denies = own.iter().any(|piece| piece.role == Role::Negator || piece.lower == "now");
            // "It is still made. But it cannot reach it.", "It is still made, but they are shut away."
            let next: Vec<&Piece> = self.reading.pieces.iter().filter(|piece| piece.sentence == number + 1).collect();
            let answered = next.first().is_some_and(|piece| piece.lower == "but")
                && next.iter().any(|piece| piece.role == Role::Negator)
                || still_but(own);
            // "It would still be a bit dimmer at 9": the prediction is taken back, and not the reason.
            // "… and it goes on coming out": so is the step that was to have stopped.
            let step = keeps_on(own)
                .is_some_and(|deed| units.iter().any(|unit| unit.keys.first().is_some_and(|key| heavy(key, deed))));
            let reading = number > 0 && !step && self.tells_reading(number, predicted);
            (against(own, number == 0) && speaks && !denies && !answered && !reading).then(|| sentence.bytes.clone())
        })
    }

    /// Whether a sentence lets the outcome of a step go up or down that is to leave all levels alike.
    fn step_moves(&self, point: &Point, sentence: usize) -> bool {
        let Some((_, to)) = self.ends(point).filter(|_| point.kind == PointKind::Reason) else { return false };
        let own =
            |claim: &Claim| self.reading.clauses.get(claim.clause).map(|clause| clause.sentence) == Some(sentence);
        self.claimed(&to).iter().any(|(claim, _, share)| own(claim) && *share >= limit::PLAIN)
    }
}

/// Whether a sentence sets itself against what was said. In the first one there is nothing yet to be set against: it must say
/// itself that things go on, and which way.
pub(super) fn against(own: &[&Piece], first: bool) -> bool {
    let word = own.first().map_or("", |piece| piece.lower.as_str());
    let second = own.get(1).map_or("", |piece| piece.lower.as_str());
    let opens = matches!(
        (word, second),
        ("but" | "however" | "yet" | "though" | "although" | "nevertheless" | "on the other hand" | "still", _)
            | ("even", "so")
            | ("then", "again")
            | ("that", "said")
    );
    // "is still inside" tells where, "still takes" what goes on.
    let goes = |next: &Piece| {
        next.verb || next.acts || matches!(next.role, Role::Copula | Role::Turn(_) | Role::Link(Link::So))
    };
    // "what still works": which ones.
    let which = |at: usize| {
        let before = at.checked_sub(1).and_then(|before| own.get(before)).map_or("", |piece| piece.lower.as_str());
        matches!(before, "what" | "that" | "which" | "who" | "ones" | "left")
    };
    let still = own
        .windows(2)
        .enumerate()
        .any(|(at, pair)| matches!(pair, [one, next] if one.lower == "still" && goes(next) && !which(at)));
    let moves = |piece: &Piece| match piece.role {
        Role::Turn(turn) => matches!(turn.direction, Direction::Up | Direction::Down) && !piece.negated,
        _ => false,
    };
    if first {
        return still && own.iter().any(|piece| moves(piece)) && !own.iter().any(|piece| piece.role == Role::Negator);
    }
    opens
        || still
        || keeps_on(own).is_some()
        || own.iter().any(|piece| matches!(piece.lower.as_str(), "though" | "spite"))
}

/// "It keeps leaking out", "goes on falling": what does not stop.
fn keeps_on<'a>(own: &[&'a Piece]) -> Option<&'a Piece> {
    let word = |at: usize| own.get(at).map_or("", |piece| piece.lower.as_str());
    let verb = |at: usize| match word(at) {
        "keep" | "keeps" => Some(at + usize::from(word(at + 1) == "on") + 1),
        "continue" | "continues" => Some(at + usize::from(word(at + 1) == "to") + 1),
        "go" | "goes" | "carry" | "carries" if word(at + 1) == "on" => Some(at + 2),
        "goes on" | "go on" | "carries on" | "carry on" | "keeps on" | "keep on" => Some(at + 1),
        _ => None,
    };
    (0..own.len()).find_map(|at| {
        let before = at.checked_sub(1).map_or("", word);
        let deed = *verb(at).and_then(|next| own.get(next))?;
        let doing = deed.lower.split(' ').next().is_some_and(|first| first.ends_with("ing"));
        (before != "to" && (doing || word(at).starts_with("continue") && deed.verb)).then_some(deed)
    })
}

/// "It is still made, but they are shut away": what goes on is answered in the same sentence.
fn still_but(own: &[&Piece]) -> bool {
    let still = own.iter().position(|piece| piece.lower == "still").filter(|at| *at > 0);
    let opens = own.first().is_some_and(|piece| piece.role == Role::Link(Link::But));
    still.is_some_and(|still| !opens && own.iter().skip(still).any(|piece| piece.lower == "but"))
}
