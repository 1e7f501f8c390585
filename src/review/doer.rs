//! Who does it: an answer that gives to one thing of the guide what another does ("the substrate is what quenches the dye").

use std::ops::Range;

use super::guide::Point;
use super::judge::Judge;
use super::read::{Piece, Reading, Role};

/// Words between "is" and the deed: "is the one that dims it".
const BETWEEN: &[&str] = &["the", "a", "what", "one", "thing", "that", "which", "stuff", "actually", "really"];

/// So many words at most stand there.
const REACH: usize = 5;

impl Judge<'_> {
    /// Where the answer says of another thing of the guide that it is what does so, where an alternative of the point says who
    /// does ("the product quenches the dye").
    pub(super) fn wrong_doer(&self, point: &Point) -> Option<Range<usize>> {
        point.accept.iter().find_map(|text| {
            let guide = self.dictionary.of_guide(text);
            let told: Vec<&Piece> = guide.pieces.iter().filter(|piece| piece.role == Role::Content).collect();
            let [who, deed, _] = told.as_slice() else { return None };
            // "The light is absorbed by the dye": who does so stands last.
            let passive = guide.pieces.iter().any(|piece| piece.role == Role::Copula);
            (deed.verb && !who.verb && !passive).then(|| self.said_of_another(who, deed)).flatten()
        })
    }

    fn said_of_another(&self, who: &Piece, deed: &Piece) -> Option<Range<usize>> {
        let pieces = &self.reading.pieces;
        let shares = |one: &Piece, other: &Piece| {
            let keys = other.keys.iter().chain(&other.also);
            keys.into_iter().any(|key| one.keys.contains(key) || one.also.contains(key))
        };
        pieces.windows(2).enumerate().find_map(|(at, pair)| {
            let [thing, is] = pair else { return None };
            if let Some(told) = self.singled_out(at).filter(|told| deed.keys.iter().any(|key| told.keys.contains(key)))
            {
                let other = !shares(thing, who) && !shares(thing, deed) && self.is_of_the_guide(thing);
                return other.then_some(thing.bytes.start..told.bytes.end);
            }
            let claims = thing.role == Role::Content && !thing.verb && !thing.negated && is.role == Role::Copula;
            let article = at.checked_sub(1).and_then(|before| pieces.get(before)).map(|piece| piece.role);
            let claims = claims && article == Some(Role::Article);
            let other = !shares(thing, who) && !shares(thing, deed) && self.is_of_the_guide(thing);
            let rest = pieces.get(at + 2..)?;
            let until = rest.iter().take(REACH).position(|piece| !BETWEEN.contains(&piece.lower.as_str()))?;
            let told = rest.get(until).filter(|_| until > 0 && claims && other)?;
            let does =
                told.sentence == thing.sentence && !told.negated && deed.keys.iter().any(|key| told.keys.contains(key));
            does.then_some(thing.bytes.start..told.bytes.end)
        })
    }

    /// What a thing that is singled out does: "it's the substrate that dims it".
    fn singled_out(&self, at: usize) -> Option<&Piece> {
        let [article, thing, that, told] = self.reading.pieces.get(at.checked_sub(1)?..at + 3)? else { return None };
        let before = self.reading.text.get(..article.bytes.start)?.trim_end().to_lowercase().replace('’', "'");
        let opens = ["it's", "it is", "its"]
            .iter()
            .any(|lead| before.strip_suffix(lead).is_some_and(|rest| !rest.ends_with(char::is_alphanumeric)));
        let does = matches!(that.lower.as_str(), "that" | "which") && !told.negated && told.sentence == thing.sentence;
        (opens && article.role == Role::Article && !thing.verb && does).then_some(told)
    }

    /// Whether the question or one of its points names a thing.
    fn is_of_the_guide(&self, thing: &Piece) -> bool {
        let Some(key) = thing.keys.first().filter(|key| !self.dictionary.is_light(key)) else { return false };
        let names = |reading: &Reading| reading.pieces.iter().any(|piece| piece.keys.contains(key));
        names(self.prompt)
            || self.question.points.iter().any(|point| names(&self.dictionary.of_guide(&point.statement)))
    }
}
