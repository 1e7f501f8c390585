//! Of which case something is claimed, and of what: what a pronoun cannot stand for, what is told of another series, what is only
//! supposed, what a thing does whatever the case.

use super::claim::{About, Claim, Reader};
use super::clause::Clause;
use super::piece::{Piece, Role};
use crate::review::dictionary::Dictionary;
use crate::review::meaning::{Direction, Grammar, Link, Turn};

/// "The agent mops up the blocker so there is less of it": what something is done to.
pub(super) fn object_before(
    at: usize,
    number: usize,
    clauses: &[Clause],
    pieces: &[Piece],
    dictionary: &Dictionary,
) -> Option<About> {
    let word = |place: usize| pieces.get(place).map(|piece| (piece.role, piece.lower.as_str()));
    let of_it = word(at + 1).is_some_and(|(_, word)| word == "of")
        && word(at + 2).is_some_and(|(role, word)| role == Role::Pronoun && matches!(word, "it" | "them"));
    let own = clauses.get(number).filter(|_| of_it)?;
    let before = number.checked_sub(1).and_then(|before| clauses.get(before))?;
    let same = before.sentence == own.sentence && own.link == Some(Link::So);
    let range = before.pieces.clone();
    let turns = range.clone().any(|place| word(place).is_some_and(|(role, _)| matches!(role, Role::Turn(_))));
    let verb = range.clone().skip(1).find(|place| pieces.get(*place).is_some_and(|piece| piece.verb && piece.acts))?;
    let reader = Reader { pieces, clause: before, dictionary };
    let (about, _) = reader.right(verb + 1);
    (same && !turns && !about.is_empty()).then_some(about)
}

/// Whether a claim is told of another case: "In the first series it got darker, …", "what was pale is now dark", "With less of
/// it all this goes the other way", or of what a thing does whatever the case: "it is the dye that takes up the light".
pub(super) fn of_another_case(claim: &Claim, pieces: &[Piece], clauses: &[Clause]) -> bool {
    let Some(clause) = clauses.get(claim.clause) else { return false };
    let sentence: Vec<&Piece> = pieces.iter().filter(|piece| piece.sentence == clause.sentence).collect();
    let now = |piece: &&Piece| matches!(piece.lower.as_str(), "now" | "this time" | "in the second series" | "here");
    // "In the first series …", to the end of the sentence, or to what is set against it.
    let led = sentence.iter().find(|piece| !matches!(piece.role, Role::Link(Link::So | Link::And)));
    let before = led.is_some_and(|piece| former(piece));
    let opening: Vec<&str> = sentence
        .iter()
        .skip_while(|piece| matches!(piece.role, Role::Link(Link::So | Link::And)) || piece.lower == "ok")
        .take(4)
        .map(|piece| piece.lower.as_str())
        .collect();
    // "In the first one …", "Before, …".
    let before = before
        || matches!(
            opening.as_slice(),
            ["in", "the", "first", "one", ..] | ["before", ",", ..] | ["first", "time", ..]
        );
    let turned = clauses.iter().take(claim.clause + 1).filter(|one| one.sentence == clause.sentence).any(|one| {
        one.link == Some(Link::But)
            || pieces.get(one.pieces.clone()).unwrap_or_default().iter().any(|piece| now(&piece))
    });
    // "… was pale" beside "is now".
    let past = pieces.get(clause.pieces.start..claim.at).unwrap_or_default();
    let been = |piece: &Piece| {
        piece.lower == "used to be" || matches!(piece.lower.rsplit(' ').next(), Some("was" | "were" | "been"))
    };
    let last = past.iter().rev().take(3).find(|piece| piece.role == Role::Copula || been(piece) || now(piece));
    let was = last.is_some_and(been);
    let then = was && !past.iter().any(|piece| now(&piece)) && sentence.iter().any(now);
    // "since it is the dye that takes up light".
    let opening = clauses.get(claim.clause.wrapping_sub(1)).filter(|one| one.sentence == clause.sentence);
    let opening = opening.and_then(|one| pieces.get(one.pieces.clone())).unwrap_or_default();
    let cleft = clause.link == Some(Link::Which)
        && matches!(opening, [it, be, ..] if it.lower == "it" && be.role == Role::Copula)
        && !opening.iter().any(|piece| matches!(piece.role, Role::Turn(_) | Role::Negator));
    let step = of_a_step(claim, clause, &sentence, clauses, pieces);
    // "If it could be reached more would dim it, but it cannot."
    let unreal = clauses.iter().skip(claim.clause + 1).take_while(|one| one.sentence == clause.sentence).any(|one| {
        let later = pieces.get(one.pieces.clone()).unwrap_or_default();
        one.link == Some(Link::But) && later.iter().any(|piece| piece.role == Role::Negator)
    }) && sentence.first().is_some_and(|piece| piece.lower == "if")
        && sentence.iter().any(|piece| matches!(piece.lower.as_str(), "would" | "could"));
    // "Put more in and every one of these goes the other way."
    let turns_all = sentence.iter().any(|piece| piece.lower == "reverse" || piece.lower == "vice versa")
        || sentence.windows(4).any(|words| {
            let word = |at: usize| words.get(at).map_or("", |piece| piece.lower.as_str());
            matches!(word(0), "goes" | "go") && word(1) == "the" && word(2) == "other" && word(3) == "way"
        });
    let all = sentence.iter().any(|piece| matches!(piece.lower.as_str(), "all" | "every" | "everything" | "each"));
    let beside =
        reverses(claim, clauses, pieces) || where_to(claim, clause, pieces) || slackens(claim, &sentence, pieces);
    (before && !turned)
        || beside
        || then
        || step
        || unreal
        || cleft
        || up_to_here(claim, &sentence, pieces)
        || (turns_all && all)
}

/// "Go up in size and it is the other way about", "More of it is the reverse": the opposite case, of which nothing else is told.
fn reverses(claim: &Claim, clauses: &[Clause], pieces: &[Piece]) -> bool {
    let Some(clause) = clauses.get(claim.clause) else { return false };
    let own: Vec<&str> = pieces
        .iter()
        .filter(|piece| piece.sentence == clause.sentence && !matches!(piece.role, Role::Mark(_)))
        .map(|piece| piece.lower.as_str())
        .collect();
    let text = own.join(" ");
    let text = text.trim_end_matches(" of that").trim_end_matches(" of this");
    let ends = [
        " is the reverse",
        " is the opposite",
        " is the contrary",
        " it's the reverse",
        " it's the opposite",
        " it's the contrary",
        " the other way about",
        " the other way round",
        " the other way around",
        " the opposite way",
        " goes the other way",
        " vice versa",
    ];
    // Where more is told of it, it is a case of its own.
    let last = !pieces.iter().any(|piece| piece.sentence > clause.sentence && matches!(piece.role, Role::Turn(_)));
    let turns = pieces.iter().filter(|piece| piece.sentence == clause.sentence);
    let alone = turns.filter(|piece| matches!(piece.role, Role::Turn(_))).count() <= 1;
    alone && last && ends.iter().any(|end| text.ends_with(end))
}

/// "out to where there is less of it": a place, and not what becomes of it.
fn where_to(claim: &Claim, clause: &Clause, pieces: &[Piece]) -> bool {
    let word = |back: usize| {
        let place = clause.pieces.start.checked_sub(back);
        place.and_then(|place| pieces.get(place)).map_or("", |piece| piece.lower.as_str())
    };
    !claim.class.contains(&"potential")
        && word(1) == "where"
        && matches!(word(2), "to" | "towards" | "toward" | "from" | "place" | "side")
}

/// "It rises steeply at first and then less and less": no fall.
fn slackens(claim: &Claim, sentence: &[&Piece], pieces: &[Piece]) -> bool {
    let Some(own) = pieces.get(claim.at) else { return false };
    let before: Vec<&&Piece> = sentence.iter().filter(|piece| piece.bytes.end <= own.bytes.start).collect();
    let first = before.iter().any(|piece| {
        matches!(piece.lower.as_str(), "first" | "at first" | "to begin with" | "initially" | "steeply" | "early on")
    });
    let then = before.iter().rev().take(2).any(|piece| matches!(piece.lower.as_str(), "then" | "and then"));
    let rises = before.iter().any(|piece| matches!(piece.role, Role::Turn(turn) if turn.direction == Direction::Up));
    claim.carried
        && first
        && then
        && rises
        && matches!(own.lower.as_str(), "less" | "less and less" | "slower" | "more slowly" | "slowly")
}

/// Whether a claim only says which step is meant.
fn of_a_step(claim: &Claim, clause: &Clause, sentence: &[&Piece], clauses: &[Clause], pieces: &[Piece]) -> bool {
    // "It is the last step that is gone, the one where more of it makes it dimmer."
    let names_step = |number: usize| {
        let start = clauses.get(number).map_or(0, |one| one.pieces.start);
        let word = |back: usize| {
            let place = start.checked_sub(back);
            place.and_then(|place| pieces.get(place)).map_or("", |piece| piece.lower.as_str())
        };
        matches!(word(1), "where" | "which" | "that") && matches!(word(2), "one" | "step" | "part" | "bit" | "link")
    };
    let mut own_clause = claim.clause;
    while own_clause > 0 && clauses.get(own_clause).is_some_and(|one| one.link == Some(Link::So)) {
        own_clause -= 1;
    }
    names_step(own_clause)
        && clauses.get(own_clause).is_some_and(|one| one.sentence == clause.sentence)
        && sentence.iter().any(|piece| matches!(piece.lower.as_str(), "step" | "link" | "part" | "bit"))
}

/// "In the first series", "in series one", "the first time".
fn former(piece: &Piece) -> bool {
    let opens = ["in the ", "in series ", "in experiment ", "first time", "the first time"];
    piece.role == Role::Aside && opens.iter().any(|opening| piece.lower.starts_with(opening))
}

/// "It gets quicker till they are full and it can't go any faster": how far it goes, and no denial.
fn up_to_here(claim: &Claim, sentence: &[&Piece], pieces: &[Piece]) -> bool {
    let Some(until) = sentence.iter().find(|piece| matches!(piece.lower.as_str(), "until" | "till")) else {
        return false;
    };
    let moves = |piece: &&&Piece| {
        matches!(piece.role, Role::Turn(Turn { direction: Direction::Up | Direction::Down, .. }))
            && piece.bytes.end <= until.bytes.start
    };
    let own = pieces.get(claim.at).map_or(0, |piece| piece.bytes.start);
    let flat = matches!(claim.direction, Direction::NotUp | Direction::NotDown | Direction::Same);
    let since = |piece: &&&Piece| until.bytes.end <= piece.bytes.start && piece.bytes.end <= own;
    // "…, the amount is equal": told beside it.
    let apart = sentence.iter().filter(since).any(|piece| matches!(piece.role, Role::Mark(_)));
    flat && !apart && until.bytes.end <= own && sentence.iter().any(|piece| moves(&piece))
}

/// "There is little quencher to dim the dye": what the thing is there for, and not that it happens.
pub(super) fn serves(before: &Claim, at: usize, turn: Turn, pieces: &[Piece]) -> bool {
    let to = at.checked_sub(1).filter(|place| pieces.get(*place).is_some_and(|piece| piece.lower == "to"));
    // "less to dim the dye": so little of what was spoken of.
    let bare = to.is_some_and(|to| before.at + 1 == to) && before.carried;
    turn.grammar != Grammar::Comparative
        && (before.attributive || bare)
        && before.direction == Direction::Down
        && to.is_some_and(|to| before.at < to && before.pieces.end == to)
}

/// "If it gets bigger this gets smaller": in one sentence the pronoun cannot stand for what was just told the other way.
pub(super) fn turns_back(before: &Claim, claim: &Claim, clauses: &[Clause], pieces: &[Piece]) -> bool {
    let sentence = |claim: &Claim| clauses.get(claim.clause).map(|clause| clause.sentence);
    let moves = matches!(claim.direction, Direction::Up | Direction::Down);
    let against = clauses.get(claim.clause).is_some_and(|clause| clause.link == Some(Link::But));
    let between = pieces.get(before.at..claim.at).unwrap_or_default();
    // "It rises and then falls."
    let later = between.iter().any(|piece| matches!(piece.lower.as_str(), "then" | "and then" | "later" | "but"));
    let own = pieces.get(claim.at).is_some_and(|piece| !piece.keys.is_empty());
    moves
        && claim.carried
        && !own
        && !against
        && !later
        && !before.presence
        && sentence(before) == sentence(claim)
        && before.direction == claim.direction.mirrored()
}

/// "fast or slow", "from a high to a low concentration": neither is claimed.
pub(super) fn both_ways(claims: &mut [Claim], pieces: &[Piece]) {
    let ends: Vec<(usize, Direction)> = claims.iter().map(|claim| (claim.at, claim.direction)).collect();
    for (place, pair) in ends.windows(2).enumerate() {
        let [(one, up), (other, down)] = pair else { continue };
        let between = pieces.get(one + 1..*other).unwrap_or_default();
        // "less, and more of it stays": of something else.
        let own = claims.get(place + 1).is_some_and(|claim| claim.attributive && !claim.carried);
        let joined = matches!(between, [piece] if piece.lower == "or" || (piece.lower == "and" && !own));
        let before = pieces.get(one.saturating_sub(3)..*one).unwrap_or_default();
        let word = |pieces: &[Piece], word: &str| pieces.iter().any(|piece| piece.lower == word);
        let way = word(before, "from") && between.len() <= 4 && word(between, "to");
        if (joined || way) && *up == down.mirrored() && matches!(up, Direction::Up | Direction::Down) {
            claims.iter_mut().skip(place).take(2).for_each(|claim| claim.aside = true);
        }
    }
}
