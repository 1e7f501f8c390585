//! Clauses: stretches of a sentence between links and strong marks, with the scope of negations and asides.

use std::ops::Range;

use super::piece::{Piece, Role};
use crate::review::meaning::{Direction, Grammar, Link, Turn};

/// A stretch of a sentence that makes one statement.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Clause {
    pub(crate) sentence: usize,
    /// Places in the list of pieces.
    pub(crate) pieces: Range<usize>,
    /// What joins it to the clause before.
    pub(crate) link: Option<Link>,
    /// From this piece on it tells of another case or of what others believe: no claim.
    pub(crate) aside_from: Option<usize>,
    /// What it says hangs on a hedge before it: "could mean that …".
    pub(crate) hedged: bool,
}

/// Cuts the pieces into clauses and marks what is negated.
pub(crate) fn clauses(pieces: &mut [Piece]) -> Vec<Clause> {
    let mut clauses: Vec<Clause> = Vec::new();
    let mut start = 0;
    let mut link = None;
    let mut sentence = pieces.first().map_or(0, |piece| piece.sentence);
    for at in 0..pieces.len() {
        let Some(piece) = pieces.get(at) else { break };
        if piece.sentence != sentence {
            push(&mut clauses, sentence, start..at, link);
            (start, link, sentence) = (at, None, piece.sentence);
        }
        match piece.role {
            Role::Link(found) if cuts(found, pieces, start, at) => {
                push(&mut clauses, sentence, start..at, link);
                (start, link) = (at + 1, Some(found));
            }
            Role::Mark(';' | ':' | '—' | '–') => {
                push(&mut clauses, sentence, start..at, link);
                (start, link) = (at + 1, Some(Link::And));
            }
            // "warmer = faster", "warmer > faster".
            Role::Mark('=' | '>') if says(pieces, at + 1) && !formula(pieces, at + 1) => {
                push(&mut clauses, sentence, start..at, link);
                (start, link) = (at + 1, Some(Link::So));
            }
            Role::Mark(',') if at > start => {
                push(&mut clauses, sentence, start..at, link);
                (start, link) = (at + 1, Some(Link::And));
            }
            _ if trails(pieces, start, at) => {
                push(&mut clauses, sentence, start..at, link);
                (start, link) = (at, Some(Link::If));
            }
            _ if correlates(pieces, start, at) || (begins(pieces, start, at) && fronted(pieces, start, at, link)) => {
                push(&mut clauses, sentence, start..at, link);
                (start, link) = (at, Some(Link::And));
            }
            _ => {}
        }
    }
    push(&mut clauses, sentence, start..pieces.len(), link);
    deny(&mut clauses, pieces);
    let mut open = false;
    for clause in &mut clauses {
        clause.hedged = open && clause.link == Some(Link::So);
        let own = pieces.get(clause.pieces.clone()).unwrap_or_default();
        let hedge = own.iter().any(|piece| piece.role == Role::Hedge);
        let says = own.iter().any(|piece| matches!(piece.role, Role::Turn(_)));
        // "A smaller share could | make the rate lower".
        let leads_on = own.last().is_some_and(|piece| piece.role == Role::Hedge);
        // "could mean more pairs or fewer": both are left open.
        open = leads_on || !says && (hedge || clause.hedged);
    }
    clauses
}

/// Marks what is negated, clause by clause.
fn deny(clauses: &mut [Clause], pieces: &mut [Piece]) {
    // "It hadn't | made much": the verb that joins stands under the negation.
    let denied: Vec<bool> = clauses
        .iter()
        .map(|clause| {
            let last = clause.pieces.end.checked_sub(1).and_then(|last| pieces.get(last));
            last.is_some_and(|piece| piece.role == Role::Negator)
        })
        .collect();
    for (number, clause) in clauses.iter_mut().enumerate() {
        let before = number.checked_sub(1).and_then(|before| denied.get(before)).copied().unwrap_or(false);
        let joins = clause.pieces.start.checked_sub(1).and_then(|place| pieces.get(place));
        // "They are blocked, so it is slower": what follows is no more denied.
        let follows = joins.is_some_and(|piece| {
            matches!(
                piece.lower.as_str(),
                "so" | "therefore" | "thus" | "hence" | "consequently" | "so that" | "and so"
            )
        });
        negate(clause, pieces, before && clause.link == Some(Link::So) && !follows);
    }
}

fn push(clauses: &mut Vec<Clause>, sentence: usize, pieces: Range<usize>, link: Option<Link>) {
    if pieces.is_empty() {
        // Two links in a row ("and so"): the later one holds, unless it only adds.
        return;
    }
    clauses.push(Clause { sentence, pieces, link, aside_from: None, hedged: false });
}

/// Whether a link begins a clause here: "and" between two nouns, "with" and "that" do not.
fn cuts(link: Link, pieces: &[Piece], start: usize, at: usize) -> bool {
    let lower = pieces.get(at).map_or("", |piece| piece.lower.as_str());
    let said = pieces.get(start..at).unwrap_or_default();
    let has_said = said.iter().any(|piece| matches!(piece.role, Role::Turn(_) | Role::Copula | Role::Negator));
    // "The distance is therefore longer": an aside within one statement.
    let within = matches!(
        lower,
        "therefore" | "thus" | "hence" | "however" | "though" | "consequently" | "then" | "accordingly" | "so"
    ) && said.last().is_some_and(|piece| piece.role == Role::Copula);
    // "The liquid therefore holds more": so too before its verb.
    let next = pieces.get(at + 1);
    let verb = next.is_some_and(|piece| {
        piece.verb || matches!(piece.role, Role::Turn(turn) if !matches!(turn.grammar, Grammar::Comparative | Grammar::Predicate))
    });
    let subject = said.iter().any(|piece| piece.role == Role::Content)
        && !said.iter().any(|piece| piece.verb || matches!(piece.role, Role::Copula | Role::Turn(_)));
    let within = within
        || verb && subject && matches!(lower, "therefore" | "thus" | "hence" | "consequently" | "then" | "accordingly");
    // "does not pull in so much of it".
    let degree = lower == "so"
        && pieces.get(at + 1).is_some_and(|piece| {
            let lower = piece.lower.as_str();
            matches!(lower, "much" | "many" | "far" | "fast" | "easily" | "strongly" | "often")
                // "doesn't get chewed up so quick", but not "…, so quicker".
                || matches!(lower, "quick" | "quickly" | "rapidly" | "slow" | "slowly" | "bright" | "brightly")
                || matches!(lower, "tight" | "tightly" | "close" | "closely" | "strong" | "easy")
        })
        && said.iter().any(|piece| piece.role == Role::Negator);
    match link {
        _ if within || degree => false,
        Link::Because | Link::So | Link::But => true,
        Link::If => {
            // "as fast as", but not "as more is added".
            let compares = lower == "as"
                && pieces.get(at + 1).is_some_and(|next| {
                    let further = next.lower.ends_with("er") || matches!(next.lower.as_str(), "more" | "less");
                    matches!(next.role, Role::Turn(_)) && !further
                });
            // "they all end up with the same".
            let ends = lower == "with"
                && said.last().is_some_and(|piece| {
                    let word = piece.lower.rsplit(' ').next().unwrap_or_default();
                    matches!(word, "up" | "end" | "ends" | "finish" | "finishes" | "left")
                });
            !compares && !ends && (!matches!(lower, "as" | "with") || at == start || says(pieces, at + 1))
        }
        Link::And => has_said || says(pieces, at + 1),
        // "less that works".
        Link::Which => {
            let counted = said.last().is_some_and(|piece| matches!(piece.role, Role::Turn(_)));
            // "more of that enzyme": a demonstrative.
            let points = lower == "that"
                && said.last().is_some_and(|piece| matches!(piece.role, Role::Preposition))
                && pieces.get(at + 1).is_some_and(|piece| piece.role == Role::Content);
            (lower != "that" || has_said) && !counted && !points
        }
    }
}

/// "The more there is | the slower it goes": the second half of a comparison.
fn correlates(pieces: &[Piece], start: usize, at: usize) -> bool {
    let half = |at: usize| pieces.get(at..).is_some_and(starts_with_the);
    at > start + 1 && half(start) && half(at)
}

/// "It gets dimmer | the longer you wait", "there is less of it | the more has leaked": what it depends on, behind.
fn trails(pieces: &[Piece], start: usize, at: usize) -> bool {
    let role = |at: usize| pieces.get(at).map(|piece| piece.role);
    let subject = matches!(role(at + 2), Some(Role::Pronoun | Role::Copula | Role::Article))
        || pieces.get(at + 2).is_some_and(|piece| matches!(piece.lower.as_str(), "you" | "we" | "there"));
    let told = pieces.get(start..at).unwrap_or_default();
    let moves = told.iter().any(|piece| matches!(piece.role, Role::Turn(_)));
    let open = !told.last().is_some_and(|piece| {
        matches!(piece.role, Role::Preposition | Role::Copula | Role::Article | Role::Link(_) | Role::Mark(_))
    });
    let half = pieces.get(at..).is_some_and(starts_with_the)
        && matches!(role(at + 1), Some(Role::Turn(turn)) if turn.grammar == Grammar::Comparative && turn.direction != Direction::Same);
    half && subject && moves && open && !pieces.get(start..).is_some_and(starts_with_the)
}

/// Whether the subject of a sentence may begin here: an article, a pronoun, "more …", or a bare noun before what it does.
fn begins(pieces: &[Piece], start: usize, at: usize) -> bool {
    let role = |at: usize| pieces.get(at).map(|piece| piece.role);
    match role(at) {
        Some(Role::Article | Role::Pronoun) => true,
        // "With less of it at 40 | you'd see …".
        Some(Role::Plain) if pieces.get(at).is_some_and(|piece| matches!(piece.lower.as_str(), "you" | "we")) => {
            let before = at.checked_sub(1).and_then(role);
            at > start + 1 && matches!(before, Some(Role::Number(_) | Role::Turn(_)))
        }
        // "When it's warm | everything moves more."
        Some(Role::Content) if pieces.get(at).is_some_and(|piece| piece.lower == "everything") => true,
        Some(Role::Turn(turn)) => turn.grammar == Grammar::Comparative && role(at + 1) != Some(Role::Preposition),
        Some(Role::Content) if !pieces.get(start..).is_some_and(starts_with_the) => {
            matches!(role(at + 1), Some(Role::Copula))
                || matches!(
                    role(at + 1),
                    Some(Role::Turn(Turn { grammar: Grammar::Intransitive | Grammar::Either, .. }))
                )
        }
        _ => false,
    }
}

/// Whether a phrase in front of the sentence ends here: "with less surface | the dye leaves more slowly".
fn fronted(pieces: &[Piece], start: usize, at: usize, link: Option<Link>) -> bool {
    let before = pieces.get(start..at).unwrap_or_default();
    // "If it is higher then | …".
    let before = match before {
        [rest @ .., then] if matches!(then.lower.as_str(), "then" | "now") && !rest.is_empty() => rest,
        _ => before,
    };
    let first = before.iter().find(|piece| piece.role != Role::Article).map(|piece| piece.role);
    let instead = before.first().is_some_and(|piece| {
        matches!(
            piece.lower.as_str(),
            "instead of" | "rather than" | "unlike" | "as opposed to" | "compared with" | "compared to"
        )
    });
    if instead {
        return says(pieces, at);
    }
    // "by the time you stop it |".
    let until = matches!(before, [by, the, time, ..] if by.lower == "by" && the.lower == "the" && time.lower == "time");
    let lacks = before.first().is_some_and(|piece| piece.lower.starts_with("without"));
    let opens = lacks
        || matches!(first, Some(Role::Preposition | Role::Link(Link::If)))
        || (matches!(first, Some(Role::Turn(_))) && (link == Some(Link::If) || starts_with_the(before)));
    let verb = before.iter().any(|piece| piece.verb || piece.role == Role::Copula);
    // "Since all of them had as long | they end up alike."
    let before_link = start.checked_sub(2).and_then(|place| pieces.get(place));
    let here = pieces.get(start).map(|piece| piece.sentence);
    let adverb = pieces.get(at).is_some_and(|piece| matches!(piece.role, Role::Turn(_)))
        && !pieces.get(at + 1).is_some_and(|piece| piece.role == Role::Content);
    let reason = link == Some(Link::Because)
        && !adverb
        && before_link.is_none_or(|piece| {
            // "But since …", "and since …".
            Some(piece.sentence) != here || matches!(piece.role, Role::Link(Link::But | Link::And))
        });
    let occasion = (link == Some(Link::If) || reason) && first != Some(Role::Preposition);
    // "the less surface they have": which surface.
    let relative = starts_with_the(before) && pieces.get(at).is_some_and(|piece| piece.role == Role::Pronoun);
    let ended = !relative
        && before.last().is_some_and(|piece| match piece.role {
            // "When less is absorbed |", "if more leaks out |".
            Role::Content | Role::Number(_) => {
                let passive = before.iter().rev().nth(1).is_some_and(|piece| piece.role == Role::Copula);
                let alone = piece.lower.ends_with(" out") || piece.lower.starts_with("escape");
                // "at a higher speed |".
                let noun = before.iter().rev().nth(1).is_some_and(
                    |piece| matches!(piece.role, Role::Turn(turn) if turn.grammar == Grammar::Comparative),
                );
                !piece.verb || noun || (occasion && (passive || alone))
            }
            // "When it is warmer | the lipids move more".
            Role::Turn(turn) => match turn.grammar {
                // "there is not a lot of": of what follows.
                Grammar::Comparative | Grammar::Predicate => verb && !piece.lower.ends_with(" of"),
                // "As the reaction speeds up | the glow …", but not "as we increase the salt".
                Grammar::Intransitive | Grammar::Either => {
                    let subject = before.iter().rev().nth(1).map(|piece| piece.role);
                    occasion && matches!(subject, Some(Role::Content | Role::Pronoun))
                }
                Grammar::Transitive => false,
            },
            // "If it's low": what it is follows.
            Role::Pronoun => piece.bytes.len() == piece.lower.len() && !piece.lower.contains('\''),
            _ => false,
        });
    (opens || occasion) && (ended || until) && (occasion || until || !verb) && says(pieces, at)
}

/// "The more dye": half of a comparison.
pub(super) fn starts_with_the(pieces: &[Piece]) -> bool {
    matches!(pieces, [the, more, ..] if matches!(the.lower.as_str(), "the" | "teh" | "tha") && matches!(more.role, Role::Turn(_)))
}

/// "SA/V = 3/r": what a thing is reckoned from.
fn formula(pieces: &[Piece], at: usize) -> bool {
    matches!(pieces.get(at).map(|piece| piece.role), Some(Role::Number(_)))
        && matches!(pieces.get(at + 1).map(|piece| piece.role), Some(Role::Mark('/' | '×' | '*')))
}

/// Whether a direction, a negation or a form of "be" follows before the next link or mark.
fn says(pieces: &[Piece], from: usize) -> bool {
    let rest = pieces.get(from..).unwrap_or_default();
    let sentence = rest.first().map(|piece| piece.sentence);
    // "… end up with the same".
    let ends = |piece: &Piece| match piece.role {
        Role::Link(_) => piece.lower != "with",
        role => matches!(role, Role::Mark(_)),
    };
    rest.iter()
        .take_while(|piece| Some(piece.sentence) == sentence && !ends(piece))
        .any(|piece| matches!(piece.role, Role::Turn(_) | Role::Copula | Role::Negator))
}

/// Negations hold to the end of their clause; two cancel out. So do asides.
fn negate(clause: &mut Clause, pieces: &mut [Piece], from_before: bool) {
    let range = clause.pieces.clone();
    let mut negated = from_before;
    // "Without magnesium the nuclease is idle": only what is lacking is denied.
    let mut lacking = false;
    let mut named = false;
    for (offset, piece) in pieces.get_mut(range.clone()).unwrap_or_default().iter_mut().enumerate() {
        match piece.role {
            Role::Negator => {
                // "neither … nor" negates both sides, not neither.
                negated = piece.lower == "nor" || !negated;
                if matches!(piece.lower.as_str(), "instead of" | "rather than") && clause.aside_from.is_none() {
                    clause.aside_from = Some(range.start + offset);
                }
                lacking = matches!(piece.lower.as_str(), "without" | "lack of" | "absence of");
                named = false;
            }
            Role::Aside if clause.aside_from.is_none() => clause.aside_from = Some(range.start + offset),
            Role::Article | Role::Copula | Role::Pronoun | Role::Preposition if lacking && named => {
                (negated, lacking) = (false, false);
            }
            _ => {
                named = named || piece.role == Role::Content;
                piece.negated = negated;
            }
        }
    }
}
