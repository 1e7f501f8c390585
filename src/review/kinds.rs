//! Points of special kinds: the reason of a twist, the balance of two effects, a thing to be named, a link.

use std::ops::Range;

use super::judge::{Judge, Verdict, both, limit, says};
use super::matching::Found;
use super::meaning::Link;
use super::pattern::{Pattern, Unit};
use super::read::{Reading, Role};
use super::verdict::Status;
use super::words;

impl Judge<'_> {
    /// The reason of a twist: told in words of its own, or denied where the answer says what the trap says.
    pub(super) fn reason(&self, whole: &Pattern, rejected: Option<Vec<Range<usize>>>) -> Verdict {
        let found = self.matcher().find(whole);
        let predicted = self.question.points.iter().find(|point| point.statement.contains("direction alone"));
        let prediction = predicted.and_then(|point| self.matcher().find(&self.pattern(&point.statement)).effect());
        let reasons =
            self.reading.pieces.iter().any(|piece| matches!(piece.role, Role::Link(Link::Because | Link::So)));
        let still = self
            .reading
            .pieces
            .iter()
            .any(|piece| matches!(piece.lower.as_str(), "still" | "though" | "in spite" | "yet"));
        let goes_on = match prediction {
            Some(Found::Both) => reasons,
            Some(Found::Opposed) => found.named() < limit::REASON && reasons,
            _ => still && found.named() >= limit::REASON / 2.0,
        };
        match (found.named(), rejected) {
            (_, Some(places)) => (Status::Contradicted, both(&found.says, &places)),
            (_, None) if goes_on => {
                let whole = 0..self.reading.text.len();
                (
                    Status::Contradicted,
                    both(
                        &found.says,
                        if found.denies.is_empty() { std::slice::from_ref(&whole) } else { &found.denies },
                    ),
                )
            }
            // Words of one's own are given more room where the prediction that they explain is right.
            (named, None)
                if named >= limit::REASON && found.denied < 0.3
                    || (named >= limit::REASON - 0.12 && prediction == Some(Found::Agrees) && reasons) =>
            {
                (Status::Found, says(&found.says))
            }
            (named, None) if named >= limit::REASON / 2.0 => (Status::LookAgain, says(&found.says)),
            (_, None) => (Status::NotFound, Vec::new()),
        }
    }

    /// Two effects, told as acting against each other, and which of them is the larger.
    pub(super) fn balance(&self) -> Verdict {
        let text = self.reading.text.to_lowercase();
        let any = |words: &[&str]| words.iter().any(|word| text.contains(word));
        let lists = words::lists();
        let (against, larger, denied) = (any(&lists.against), any(&lists.larger), any(&lists.one_way));
        let whole = 0..self.reading.text.len();
        match (against, larger, denied) {
            (_, _, true) => (Status::Contradicted, both(&[], &[whole])),
            (true, true, false) => (Status::Found, says(&[whole])),
            (true, false, false) => (Status::LookAgain, says(&[whole])),
            (false, ..) => (Status::NotFound, Vec::new()),
        }
    }

    /// A thing that is to be named: by the head of its phrase, and by its number where it has one.
    pub(super) fn named(&self, statement: &str, rejected: Option<&[Range<usize>]>) -> Verdict {
        let pattern = self.pattern(statement);
        let found = self.matcher().find(&pattern);
        let wanted = Reading::of(statement, self.dictionary);
        if let (Some(places), true) = (rejected, found.coverage < 0.5) {
            return (Status::NotFound, both(&[], places));
        }
        if let Some(number) = wanted.numbers.first() {
            let first = self.reading.numbers.first();
            let same = first.is_some_and(|one| (one.value - number.value).abs() <= 1e-9 * number.value.abs());
            return match (same, first) {
                (true, Some(one)) => (Status::Found, says(std::slice::from_ref(&one.bytes))),
                _ => (Status::NotFound, Vec::new()),
            };
        }
        let light = |unit: &&Unit| unit.keys.iter().all(|key| self.dictionary.is_light(key));
        let head = pattern.units.first();
        let has = |unit: &Unit| {
            self.reading
                .pieces
                .iter()
                .any(|piece| !piece.negated && unit.keys.iter().any(|key| piece.keys.contains(key)))
        };
        let head_seen = head.is_some_and(has);
        let status = match (head_seen, head.is_some_and(|unit| light(&unit))) {
            (true, false) => Status::Found,
            (true, true) if found.coverage >= 0.5 => Status::Found,
            _ if found.coverage >= 0.7 => Status::Found,
            _ if found.coverage >= limit::LOOK => Status::LookAgain,
            _ => Status::NotFound,
        };
        (status, if status == Status::NotFound { Vec::new() } else { says(&found.says) })
    }

    /// A point for joining the steps: at least two reasons or results are told as such.
    pub(super) fn link(&self) -> Verdict {
        let is_reason = |link: Link| matches!(link, Link::Because | Link::So);
        let places: Vec<Range<usize>> = self
            .reading
            .pieces
            .iter()
            .filter(|piece| matches!(piece.role, Role::Link(link) if is_reason(link)))
            .map(|piece| piece.bytes.clone())
            .collect();
        let steps = self.question.points.iter().filter(|point| !point.statement.starts_with("The link:"));
        let said = steps.filter(|point| self.words(point).0 == Status::Found).count();
        match (places.len(), said) {
            (0, _) | (_, 0) => (Status::NotFound, Vec::new()),
            (_, 1) => (Status::LookAgain, says(&places)),
            _ => (Status::Found, says(&places)),
        }
    }
}
