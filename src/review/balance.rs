//! Two effects against each other: whether an answer lets both act, each its own way, and which of them it lets win.

use super::guide::Point;
use super::judge::{Judge, Verdict, both, says};
use super::meaning::Accord;
use super::read::{Claim, Piece, Role};
use super::told::Told;
use super::verdict::Status;
use super::words;

/// How a sentence begins that lets win what was told first.
const FIRST: &[&str] =
    &["the first is ", "the first one is ", "the first effect is ", "the first wins", "the first one wins"];

impl Judge<'_> {
    /// The balance of two effects: that both act, against each other, and which is larger.
    pub(super) fn balance(&self, point: &Point) -> Verdict {
        let text = Told::of(&self.reading.text);
        let lists = words::lists();
        let (against, larger, denied) = (text.has(&lists.against), text.has(&lists.larger), text.has(&lists.one_way));
        let denied = denied || !against && !larger && self.both_one_way(point) || self.first_wins(point);
        let whole = 0..self.reading.text.len();
        match (against, larger, denied) {
            (_, _, true) => (Status::Contradicted, both(&[], &[whole])),
            (true, true, false) => (Status::Found, says(&[whole])),
            (true, false, false) => (Status::LookAgain, says(&[whole])),
            (false, ..) => (Status::NotFound, Vec::new()),
        }
    }

    /// What the answer says of the reading, beside what the first effect does to it.
    fn of_reading(&self, point: &Point) -> Vec<(&Claim, Accord)> {
        let first = self.pattern(&point.statement).wanted.into_iter().next();
        let claims = first.map(|first| self.claimed(&first)).unwrap_or_default();
        claims.into_iter().map(|(claim, accord, _)| (claim, accord)).collect()
    }

    fn sentence(&self, claim: &Claim) -> Option<usize> {
        self.reading.clauses.get(claim.clause).map(|clause| clause.sentence)
    }

    /// "Both of them lower the reading", and not "of both effects comes a lower reading".
    fn both_one_way(&self, point: &Point) -> bool {
        self.of_reading(point).into_iter().any(|(claim, _)| {
            let own: Vec<&Piece> = self.reading.pieces.iter().take(claim.at).collect();
            let own = own.split(|piece| Some(piece.sentence) != self.sentence(claim)).next_back().unwrap_or_default();
            let is_both = |piece: &&Piece| piece.lower.split(' ').next() == Some("both");
            own.iter().position(is_both).is_some_and(|at| {
                let before = at.checked_sub(1).and_then(|before| own.get(before));
                before.is_none_or(|before| matches!(before.role, Role::Mark(_) | Role::Pronoun) || before.lower == "so")
            })
        })
    }

    /// Whether the first effect is said to win: "the slower leak lets it rise and is the stronger of the two", or "the first is
    /// stronger" where the answer tells of that one first.
    fn first_wins(&self, point: &Point) -> bool {
        let claims = self.of_reading(point);
        let begins = claims.iter().min_by_key(|(claim, _)| claim.at).map(|(_, accord)| *accord);
        self.reading.sentences.iter().enumerate().any(|(number, sentence)| {
            let here: Vec<&(&Claim, Accord)> =
                claims.iter().filter(|(claim, _)| self.sentence(claim) == Some(number)).collect();
            let ends = here.iter().map(|(claim, _)| self.reading.claim_bytes(claim).end).max();
            let tail = self.reading.slice(&(ends.unwrap_or(sentence.bytes.start)..sentence.bytes.end)).to_lowercase();
            let lists = words::lists();
            let wins = Told::of(&tail).affirms(&lists.wins);
            if !wins || Told::of(self.reading.slice(&sentence.bytes)).has(&lists.grants) {
                return false;
            }
            let first = FIRST.iter().any(|begin| tail.trim_start().starts_with(begin));
            match here.as_slice() {
                [] => first && begins == Some(Accord::Agree),
                all => all.iter().all(|(_, accord)| *accord == Accord::Agree),
            }
        })
    }
}
