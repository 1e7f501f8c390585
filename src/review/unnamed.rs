//! What a claim is of though it does not name it: a case that a sentence opens with, an extreme, the same amount for all, a reading.

use super::course::{Course, PLAINLY, Told};
use super::likeness::{Likeness, SAME_QUANTITY};
use super::matching::Matcher;
use super::meaning::{Direction, Link};
use super::read::{Claim, Role};

impl Course {
    /// "The slowest make the most", "A low dose makes even more": a sentence that opens with a case, and what it then says of it.
    pub(super) fn opens_case(&self, number: usize, next: usize, matcher: &Matcher<'_>) -> bool {
        let claims = &matcher.reading.claims;
        let (Some(claim), Some(next)) = (claims.get(number), claims.get(next)) else { return false };
        let sentence = |claim: &Claim| matcher.reading.clauses.get(claim.clause).map(|clause| clause.sentence);
        let own = |told: &&Told| told.claim == number;
        let sets_out = |told: &Told| told.share >= PLAINLY && self.sets_out(told.node);
        // Which case it is, and nothing that the steps tell.
        let first = claim.attributive && self.told.iter().filter(own).all(|told| told.node == 0 && sets_out(told));
        let extreme = claim.compares && self.told.iter().filter(own).any(sets_out);
        (first || extreme) && sentence(claim) == sentence(next) && matcher.reading.opens_sentence(claim)
    }
}

impl Course {
    /// "It is lowest when most has leaked": a relation told by itself, at one end of it.
    pub(super) fn told_at_extreme(number: usize, next: usize, matcher: &Matcher<'_>) -> bool {
        let claims = &matcher.reading.claims;
        let (Some(claim), Some(next)) = (claims.get(number), claims.get(next)) else { return false };
        let sentence = |claim: &Claim| matcher.reading.clauses.get(claim.clause).map(|clause| clause.sentence);
        claim.compares && matcher.reading.heads(claim) && sentence(claim) == sentence(next)
    }

    /// "It is paler the more has leaked": what it depends on, told behind.
    pub(super) fn trails(before: usize, number: usize, matcher: &Matcher<'_>) -> bool {
        let claims = &matcher.reading.claims;
        let (Some(before), Some(claim)) = (claims.get(before), claims.get(number)) else { return false };
        let own = matcher.reading.clauses.get(claim.clause);
        let sentence = |claim: &Claim| matcher.reading.clauses.get(claim.clause).map(|clause| clause.sentence);
        let first = own.and_then(|own| matcher.reading.within(own).first()).map_or("", |piece| piece.lower.as_str());
        let occasion = own.is_some_and(|own| own.link == Some(Link::If)) && matches!(first, "the" | "the more");
        occasion && claim.attributive && before.clause < claim.clause && sentence(before) == sentence(claim)
    }

    /// "All tubes make the same amount": of the first amount that the steps lead to, where nothing was told before.
    pub(super) fn amount_for_all(&self, claim: &Claim, shares: &mut [Option<Likeness>], matcher: &Matcher<'_>) {
        let sentence = matcher.reading.clauses.get(claim.clause).map(|clause| clause.sentence);
        let own = matcher.reading.pieces.iter().filter(|piece| Some(piece.sentence) == sentence);
        let first = own.into_iter().find(|piece| piece.role != Role::Mark(','));
        let all = first.is_some_and(|piece| matches!(piece.lower.as_str(), "all" | "every" | "each" | "both"));
        let named = matcher.reading.pieces.get(claim.pieces.clone()).unwrap_or_default().iter();
        let named: Vec<&str> =
            named.filter(|piece| piece.role == Role::Content).map(|piece| piece.lower.as_str()).collect();
        let bare = claim.direction == Direction::Same && named == ["amount"];
        if !all || !bare || !self.told.is_empty() {
            return;
        }
        let amount = self.nodes.iter().position(|node| !node.cause && node.wanted.class.contains(&"amount"));
        if let Some(share) = amount.and_then(|at| shares.get_mut(at)) {
            *share = Some((PLAINLY, false));
        }
    }
}

/// "The total stays the same", "the number is fixed", where one relation is asked for: of what it leads to.
pub(super) fn flat_measure(claim: &Claim, shares: &mut [Option<Likeness>], matcher: &Matcher<'_>) {
    let measure =
        |key: &str| matches!(key, "total" | "sum" | "number" | "amount" | "share" | "concentr" | "overall" | "count");
    let flat = claim.direction == Direction::Same && !claim.attributive && !claim.carried;
    // What is named, and not what it leans on.
    let own = matcher.reading.pieces.get(claim.pieces.clone()).unwrap_or_default().iter();
    let mut named = own.filter(|piece| piece.role == Role::Content).peekable();
    let bare = named.peek().is_some() && named.all(|piece| piece.keys.iter().all(|key| measure(key)));
    let link = matcher.reading.clauses.get(claim.clause).and_then(|clause| clause.link);
    let reason = matches!(link, Some(Link::Because | Link::If));
    if flat && bare && !reason && shares.iter().skip(1).all(Option::is_none) {
        shares.fill(None);
        if let Some(outcome) = shares.last_mut() {
            *outcome = Some((SAME_QUANTITY, false));
        }
    }
}

/// "It is highest at 10": of the outcome, whatever was named last.
pub(super) fn extreme(claim: &Claim, shares: &mut [Option<Likeness>]) {
    let unknown = shares.iter().all(Option::is_none);
    if unknown
        && claim.carried
        && claim.compares
        && claim.level.is_some()
        && let Some(outcome) = shares.last_mut()
    {
        *outcome = Some((SAME_QUANTITY, false));
    }
}

/// "They all end with the same amount of it": of the amount that was told of just before.
pub(super) fn amounts_alike(claim: &Claim, before: &Claim, matcher: &Matcher<'_>) -> bool {
    let measure = |key: &str| matches!(key, "amount" | "share" | "number");
    let bare = !claim.about.is_empty() && claim.about.iter().all(|(key, _)| measure(key));
    let sentence = matcher.reading.clauses.get(claim.clause).map(|clause| clause.sentence);
    let own = matcher.reading.pieces.iter().filter(|piece| Some(piece.sentence) == sentence);
    let all = own.into_iter().any(|piece| matches!(piece.lower.as_str(), "all" | "every" | "each" | "both"));
    claim.direction == Direction::Same && bare && all && before.attributive
}

/// "The meter shows a higher number", "the reading goes up": of what is measured, whatever it is.
pub(super) fn read_off(claim: &Claim, matcher: &Matcher<'_>) -> bool {
    let reading = matcher.reading;
    let Some(clause) = reading.clauses.get(claim.clause) else { return false };
    let shows = |word: &str| {
        word.ends_with("meter")
            || matches!(word, "detector" | "counter" | "reading" | "readings" | "readout" | "display")
    };
    let before = reading.pieces.get(clause.pieces.start..claim.pieces.end).unwrap_or_default();
    let named = before.iter().any(|piece| shows(&piece.lower));
    let own = reading.pieces.get(claim.pieces.clone()).unwrap_or_default().iter();
    let bare = own.filter(|piece| piece.role == Role::Content).all(|piece| {
        // "reads more": a meter, and no ribosome.
        let reads = matches!(piece.lower.as_str(), "reads" | "read");
        reads || shows(&piece.lower) || piece.keys.iter().all(|key| matcher.dictionary.is_light(key))
    });
    // "The reading is nearer to 100": not which way.
    let near = claim.class.contains(&"distance");
    named && bare && !near && matches!(claim.direction, Direction::Up | Direction::Down) && !claim.presence
}
