//! Reasons of a changed experiment that tell of no change, or of the old relation.

use std::ops::Range;

use super::judge::Judge;
use super::meaning::{Accord, Direction, Link};
use super::pattern::{Pattern, Wanted};
use super::read::{Claim, Clause, Piece, Role};
use super::special::join;
use super::told::Told;
use super::words;

/// Words of all levels alike.
const ALL: &[&str] =
    &["every", "each", "all", "any", "both", "everywhere", "always", "whatever", "whichever", "however", "regardless"];

impl Judge<'_> {
    /// "No change, …, so every tube has the same amount whatever the dose": a prediction of no change, and a sentence or clause
    /// behind it that says of the changed step that it leaves all levels alike. That the thing is missing ("because there is none
    /// of it any more") is only the prompt again.
    pub(super) fn leaves_alike(&self) -> Option<Range<usize>> {
        let first = self.reading.claims.first().filter(|claim| claim.direction == Direction::Same && !claim.hedged)?;
        let opening = self.reading.clauses.get(first.clause)?.sentence;
        // "No change, it stays level at every dose": told twice, with no reason yet.
        let given = |until: usize| {
            let between = self.reading.pieces.get(first.at..until).unwrap_or_default();
            between.iter().any(|piece| matches!(piece.role, Role::Link(Link::So | Link::Because | Link::If)))
        };
        let reasons = self.reading.clauses.iter().enumerate().skip(first.clause + 1);
        let mut reasons = reasons.filter(|(_, clause)| clause.sentence != opening || given(clause.pieces.end));
        reasons.find_map(|(number, clause)| {
            let pieces = self.reading.within(clause);
            // "… every time.": a last clause of nothing but that.
            let last = self.reading.clauses.get(number + 1).filter(|next| next.sentence == clause.sentence);
            let last = last
                .map(|next| self.reading.within(next))
                .filter(|next| next.iter().all(|piece| matches!(piece.role, Role::Mark(_))));
            let end = last.and_then(|next| next.last()).map_or(pieces.last()?.bytes.end, |piece| piece.bytes.end);
            let start = pieces.first()?.bytes.start..end;
            let text = self.reading.slice(&start).to_lowercase();
            let words: Vec<&str> = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
            let all = levels_alike(&words) + usize::from(self.at_both_levels(pieces));
            // "so none of it is in the liquid at any temperature".
            let none = words.iter().any(|word| matches!(*word, "no" | "none" | "nothing"));
            let same = self.reading.claims.iter().any(|claim| {
                claim.clause == number && claim.direction == Direction::Same && !claim.aside && claim.at != first.at
            });
            let same = same || words.iter().any(|word| matches!(*word, "equally" | "same" | "alike"));
            // "because the same dose is put in every tube": what is kept alike.
            let kept = clause.link == Some(Link::Because) && words.contains(&"same") && !words.contains(&"whatever");
            (all >= 2 || all >= 1 && (same && !kept || none)).then_some(start)
        })
    }

    /// "5 min or 40 min": both levels named, which are all that is asked about.
    fn at_both_levels(&self, pieces: &[Piece]) -> bool {
        let Some((first, last)) = self.levels else { return false };
        let is = |level: f64| {
            pieces.iter().any(|piece| match piece.role {
                Role::Number(number) => {
                    self.reading.numbers.get(number).is_some_and(|number| number.value.total_cmp(&level).is_eq())
                }
                _ => false,
            })
        };
        is(first) && is(last)
    }

    /// "No change, it has no say in the rate": a prediction of no change, and a reason that the step that is to go the other way
    /// does nothing.
    pub(super) fn lets_nothing_follow(&self) -> Option<Range<usize>> {
        let alike =
            self.reading.claims.iter().any(|claim| claim.direction == Direction::Same && !claim.hedged && !claim.aside);
        let all = 0..self.reading.text.len();
        (alike && Told::of(&self.reading.text).has(&words::lists().indifferent)).then_some(all)
    }

    /// Whether a sentence may speak of all levels alike: any "as" will do, since it only holds back a blame.
    pub(super) fn tells_of_all(&self, sentence: Option<usize>) -> bool {
        let own = self.reading.pieces.iter().filter(|piece| Some(piece.sentence) == sentence);
        let words: Vec<&str> = own.flat_map(|piece| piece.lower.split(' ')).collect();
        // "the most of all".
        let beside =
            |at: usize| at.checked_sub(1).and_then(|before| words.get(before)).is_some_and(|word| *word == "of");
        words.iter().enumerate().any(|(at, word)| {
            ALL.contains(word) && !(*word == "all" && beside(at))
                || matches!(*word, "same" | "equal" | "equally" | "alike" | "as")
        })
    }

    /// "It falls just like before, because …": one sentence that says that it does as it did, and why. A prediction told so behind
    /// a reason of its own leaves that reason as it is.
    pub(super) fn as_it_was(&self) -> Option<Range<usize>> {
        self.reading.sentences.iter().enumerate().find_map(|(number, sentence)| {
            let because = |clause: &Clause| clause.sentence == number && clause.link == Some(Link::Because);
            let place = self.reading.clauses.iter().find(|clause| because(clause))?;
            let before = sentence.bytes.start..self.reading.within(place).first()?.bytes.start;
            let told = Told::of(self.reading.text.get(before.clone())?).affirms(&words::lists().as_it_was);
            told.then_some(before)
        })
    }

    /// "It falls again from 5 to 40. More of it …", "It would still rise": an answer whose first sentence says so of the whole.
    pub(super) fn opens_as_it_was(&self) -> Option<Range<usize>> {
        let sentence = self.reading.sentences.first()?.bytes.clone();
        let told = Told::of(self.reading.text.get(sentence.clone())?);
        let lists = words::lists();
        (told.affirms(&lists.as_it_was) || told.affirms(&lists.same_again)).then_some(sentence)
    }

    /// Whether each sentence that predicts the other way than the guide tells of nothing but the reading ("So overall it falls from
    /// 8 to 40"), behind or before others that predict as the guide does: the prediction is taken back, and no reason with it.
    pub(super) fn turned_apart(&self, predicted: Option<&Pattern>) -> bool {
        let sentences = 0..self.reading.sentences.len();
        let told: Vec<Vec<Option<Accord>>> = sentences.map(|sentence| self.readings(sentence, predicted)).collect();
        let has = |own: &&Vec<Option<Accord>>, accord: Accord| own.contains(&Some(accord));
        let mut against = told.iter().filter(|own| has(own, Accord::Oppose)).peekable();
        against.peek().is_some()
            && against.all(|own| own.iter().all(|one| *one == Some(Accord::Oppose)))
            && told.iter().any(|own| has(&own, Accord::Agree))
    }

    /// Whether a sentence tells of nothing but the reading, and gives no reason.
    pub(super) fn tells_reading(&self, sentence: usize, predicted: Option<&Pattern>) -> bool {
        let told = self.readings(sentence, predicted);
        let because = |clause: &Clause| clause.sentence == sentence && clause.link == Some(Link::Because);
        told.contains(&Some(Accord::Oppose))
            && told.iter().all(|one| *one == Some(Accord::Oppose))
            && !self.reading.clauses.iter().any(because)
    }

    /// The claims of a sentence: how each goes together with what is to be predicted; `None` for one of something else.
    fn readings(&self, sentence: usize, predicted: Option<&Pattern>) -> Vec<Option<Accord>> {
        let wanted = predicted.and_then(|pattern| pattern.wanted.last());
        let matcher = self.matcher();
        let accord = |claim: &Claim| {
            let wanted = wanted?;
            let known = matcher.same_quantity(wanted, claim, true).map(|(_, mirrored)| mirrored);
            let mirrored = known.or(matcher.of_what_is_asked(wanted, claim).then_some(false))?;
            Some(wanted.direction.accord(if mirrored { claim.direction.mirrored() } else { claim.direction }))
        };
        let own = |claim: &&Claim| {
            let clause = self.reading.clauses.get(claim.clause).map(|clause| clause.sentence);
            clause == Some(sentence) && !claim.aside && !claim.hedged && !claim.presence
        };
        self.reading.claims.iter().filter(own).map(accord).collect()
    }

    /// Where one sentence tells both ends of the changed step as they go now, or (`now` false) as they went before.
    pub(super) fn anew(&self, (from, to): (&Wanted, &Wanted), now: bool) -> Option<Range<usize>> {
        let sentence = |claim: &Claim| self.reading.clauses.get(claim.clause).map(|clause| clause.sentence);
        let effects = self.claimed(to);
        self.claimed(from).iter().find_map(|(cause, first, _)| {
            let (effect, ..) = effects.iter().find(|(effect, second, _)| {
                let apart = sentence(cause) == sentence(effect) && cause.at != effect.at;
                apart && self.told_anew((from, to), (*first, *second)) == Some(now)
            })?;
            join(&[self.reading.claim_bytes(cause), self.reading.claim_bytes(effect)])
        })
    }

    /// Whether two ends of a step are told as in the first experiment (`false`) or the other way round (`true`), by the steps of
    /// the guide's other questions; `None` where they do not tell.
    pub(super) fn told_anew(&self, ends: (&Wanted, &Wanted), accords: (Accord, Accord)) -> Option<bool> {
        let matcher = self.matcher();
        let known = |(cause, effect): &&(Wanted, Wanted)| matcher.alike(cause, ends.0) && matcher.alike(effect, ends.1);
        let (cause, effect) = self.relations.iter().find(known)?;
        Some((accords.0 == accords.1) != (cause.direction == effect.direction))
    }
}

/// How many words speak of all levels: "any more" and "at all" speak of none.
pub(super) fn levels_alike(words: &[&str]) -> usize {
    let word = |at: Option<usize>| at.and_then(|at| words.get(at)).copied().unwrap_or_default();
    let counts = |(at, own): &(usize, &&str)| {
        let (before, next) = (word(at.checked_sub(1)), word(Some(at + 1)));
        let little = matches!(
            next,
            "" | "in" | "from" | "to" | "by" | "of" | "on" | "for" | "because" | "since" | "as" | "so" | "and"
        );
        ALL.contains(own) && (**own != "any" || next != "more") && (**own != "all" || before != "at" || !little)
    };
    words.iter().enumerate().filter(counts).count()
}
