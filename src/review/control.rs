//! Open points that still have a right and a wrong way: what a positive control does to the reading, what a fault leaves alike.

use std::ops::Range;

use super::guide::Point;
use super::judge::{Judge, Verdict, both};
use super::meaning::{Accord, Direction, Link};
use super::read::{Claim, Piece, Role};
use super::taken_back::against;
use super::verdict::Status;

impl Judge<'_> {
    /// What goes against an open point, whatever example an answer chooses: a control that is to drive the reading and is said
    /// to leave it, or to drive it the other way; a fault that is to make all alike and is said to leave a difference.
    pub(super) fn open_astray(&self, point: &Point) -> Option<Verdict> {
        self.control_astray(point).or_else(|| {
            let fault = point.statement.contains("makes all levels alike");
            let place = self.still_differs().filter(|_| fault)?;
            Some((Status::Contradicted, both(&[], &[place])))
        })
    }

    /// "…; if the reading can change, the dye becomes brighter there."
    fn control_astray(&self, point: &Point) -> Option<Verdict> {
        let (control, outcome) = point.statement.rsplit_once("the reading can change, ")?;
        let ways = [" to which ", " also contains ", " received "];
        let added = ways.iter().find_map(|way| control.split_once(way)).map_or("", |(_, added)| added);
        let added = self.pattern(added);
        // Another treatment than the guide's may drive the reading the other way; none may leave it as it is.
        let names_added = self.reading.pieces.iter().any(|piece| {
            let known = |key: &String| !self.dictionary.is_light(key) && piece.keys.contains(key);
            added.units.iter().filter_map(|unit| unit.keys.first()).any(known)
        });
        let pattern = self.pattern(outcome);
        let wanted = pattern.wanted.last()?;
        let matcher = self.matcher();
        let clause = |claim: &Claim| self.reading.clauses.get(claim.clause);
        let mut hits: Vec<(Accord, &Claim)> = Vec::new();
        for claim in self.reading.claims.iter().filter(|claim| !claim.aside && !claim.hedged && !claim.presence) {
            // "If it stays dim the assay does not work": not what is expected.
            if clause(claim).is_none_or(|own| own.link == Some(Link::If)) {
                continue;
            }
            let Some((_, mirrored)) = matcher.same_quantity(wanted, claim, false) else { continue };
            if !names_added && claim.direction != Direction::Same {
                continue;
            }
            let said = if mirrored { claim.direction.mirrored() } else { claim.direction };
            hits.push((wanted.direction.accord(said), claim));
        }
        let agrees = hits.iter().any(|(accord, _)| *accord == Accord::Agree);
        let (_, claim) = hits.iter().rfind(|(accord, _)| *accord == Accord::Oppose)?;
        let sentence = clause(claim).map_or(0, |own| own.sentence);
        let own: Vec<&Piece> = self.reading.pieces.iter().filter(|piece| piece.sentence == sentence).collect();
        if agrees && !against(&own, false) {
            return None;
        }
        let place = self.reading.claim_bytes(claim);
        // Where something is left out, that is right for a control of the other kind, which was not asked for.
        let left_out = |piece: &Piece| piece.role == Role::Negator && piece.bytes.start < place.start;
        let negative = !agrees && self.reading.pieces.iter().any(|piece| left_out(piece) && lacks(&piece.lower));
        let status = if negative { Status::NotFound } else { Status::Contradicted };
        Some((status, both(&[], &[place])))
    }

    /// "…, but there would still be more of it at 40": behind a fault that was to leave none.
    fn still_differs(&self) -> Option<Range<usize>> {
        let but = self.reading.pieces.iter().position(|piece| {
            piece.role == Role::Link(Link::But) && matches!(piece.lower.as_str(), "but" | "however" | "yet")
        })?;
        let sentence = self.reading.pieces.get(but)?.sentence;
        let behind: Vec<&Piece> =
            self.reading.pieces.iter().skip(but + 1).filter(|piece| piece.sentence == sentence).collect();
        let denied = behind.iter().any(|piece| piece.role == Role::Negator || piece.negated);
        let still = behind.iter().any(|piece| piece.lower == "still");
        let moves = |claim: &&Claim| {
            claim.at > but && !claim.aside && matches!(claim.direction, Direction::Up | Direction::Down)
        };
        let alike = self.reading.claims.iter().any(|claim| claim.at > but && claim.direction == Direction::Same);
        let claim = self.reading.claims.iter().find(moves).filter(|_| still && !denied && !alike)?;
        Some(self.reading.claim_bytes(claim))
    }
}

/// Whether a word says that something is left out.
fn lacks(word: &str) -> bool {
    matches!(word, "no" | "without" | "lack of" | "absence of" | "none")
}
