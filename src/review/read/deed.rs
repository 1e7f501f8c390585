//! What is done, told as a thing ("leaking is slow", "less dimming"), and verbs whose particle stands behind their object
//! ("speeds the leak up").

use super::claim::{About, Claim, Reader};
use super::piece::{Piece, Role, Words, empty};
use super::token::Kind;
use crate::review::meaning::{Direction, Grammar, Meaning, Turn};

/// Verbs that with "up" or "down" behind their object say which way it goes, and the kind of quantity that they speak of.
const WITH_PARTICLE: &[(&str, &str)] = &[("speed", "rate"), ("bring", ""), ("push", ""), ("drive", ""), ("send", "")];

/// Words between such a verb and its particle.
const OBJECT: usize = 4;

/// "Getting out is slow": the deed is what is slow, and is not done more. `first` is the first claim of the clause.
pub(super) fn told_deed(claims: &mut Vec<Claim>, first: usize) {
    let own = claims.get(first..).unwrap_or_default();
    let [deed, rest @ ..] = own else { return };
    let done = deed.attributive && !deed.presence && deed.direction == Direction::Up && deed.pieces.start == deed.at;
    let lessens = |claim: &Claim| matches!(claim.direction, Direction::Down | Direction::NotUp | Direction::Same);
    let told = |claim: &Claim| {
        let same = claim.pieces.start <= deed.at && deed.at < claim.at;
        same && !claim.attributive && !claim.presence && lessens(claim)
    };
    if done && rest.iter().any(told) {
        claims.remove(first);
    }
}

impl Reader<'_> {
    /// "so less dimming": less of what lowers it.
    pub(super) fn counts_undoing(&self, at: usize) -> bool {
        let next = self.pieces.get(at + 1).filter(|piece| piece.lower.ends_with("ing"));
        let lowers = matches!(
            next.map(|piece| piece.role),
            Some(Role::Turn(Turn { direction: Direction::Down, grammar, .. })) if grammar != Grammar::Comparative
        );
        // "less dimming stuff": less of a thing.
        let alone = self.role(Some(at + 2)) != Some(Role::Content);
        lowers && alone && matches!(self.word(Some(at)), "more" | "less" | "much" | "little" | "most" | "least")
    }

    /// "The light has a longer way to go", "is slowed down": where it goes and how fast, and not how much of it there is.
    pub(super) fn way_of_light(&self, at: usize, turn: Turn, about: &About) -> bool {
        let light = ["light", "photon"].map(|word| self.dictionary.key(word));
        let of_light = about.iter().any(|(key, weight)| *weight >= 1.0 && light.contains(key))
            && about
                .iter()
                .all(|(key, weight)| *weight < 0.5 || light.contains(key) || self.dictionary.class(key).is_some());
        let slowed = turn.about == "rate" && self.word(Some(at)).starts_with("slowed");
        of_light && (turn.about == "distance" || slowed)
    }
}

/// "speeds the leak up", "brings the rate down": the particle stands behind the object.
pub(super) fn parted(all: &Words<'_>, at: usize) -> Option<(usize, Piece)> {
    let Words { own, mended, stems, sentence, dictionary } = *all;
    let stem = stems.get(at)?;
    let (_, about) = WITH_PARTICLE.iter().find(|(verb, _)| verb == stem)?;
    let behind = mended.get(at + 1..).unwrap_or_default();
    let particle = behind.iter().take(OBJECT + 1).position(|word| matches!(word.as_str(), "up" | "down"))?;
    let place = at + 1 + particle;
    let stops = |place: usize| {
        let turns = matches!(all.rest(place), rest if matches!(dictionary.longest(rest), Some((_, Meaning::Turn(_) | Meaning::Link(_)))));
        turns || own.get(place).is_none_or(|token| token.kind == Kind::Mark)
    };
    let ends = own.get(place + 1).is_none_or(|token| token.kind == Kind::Mark)
        || matches!(dictionary.longest(all.rest(place + 1)), Some((_, Meaning::Link(_) | Meaning::Little(_))));
    if particle == 0 || !ends || (at + 1..place).any(stops) {
        return None;
    }
    let direction = if mended.get(place).is_some_and(|word| word == "up") { Direction::Up } else { Direction::Down };
    let keys = if about.is_empty() { Vec::new() } else { vec![dictionary.key(about)] };
    let turn = Turn { direction, grammar: Grammar::Transitive, about };
    let word = mended.get(at)?;
    Some((1, Piece { bytes: own.get(at)?.bytes.clone(), role: Role::Turn(turn), keys, ..empty(sentence, word) }))
}
