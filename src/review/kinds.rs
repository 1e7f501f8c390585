//! Points of special kinds: the reason of a twist, a thing to be named, a link.

use std::ops::Range;

use super::guide::{Point, PointKind};
use super::judge::{Judge, Verdict, both, limit, says};
use super::matching::Found;
use super::meaning::{Accord, Link};
use super::pattern::{Pattern, Unit, Wanted};
use super::read::{Claim, Piece, Reading, Role};
use super::special::join;
use super::told::Told;
use super::verdict::Status;
use super::words;

/// A claim, how it goes together with what is looked for, and how plainly.
type Directed<'a> = (&'a Claim, Accord, f64);

impl Judge<'_> {
    /// The reason of a twist: told in words of its own, or denied where the answer says what the trap says.
    pub(super) fn reason(&self, point: &Point, whole: &Pattern) -> Verdict {
        let found = self.matcher().find(whole);
        let predicted = self.question.points.iter().find(|point| point.statement.contains("direction alone"));
        let predicted = predicted.map(|point| self.pattern(&point.statement));
        let prediction = predicted.as_ref().and_then(|pattern| self.opened(pattern).effect());
        let text = Told::of(&self.reading.text);
        let independent = text.has(&words::lists().independent);
        let goes_on = text.has(&words::lists().goes_on) && prediction == Some(Found::Opposed);
        let reversed = point.kind == PointKind::Reversal;
        let pair = Some(point.kind).filter(|_| reversed).and_then(|_| self.pair(point));
        let old = pair.clone().filter(|(new, _)| !new).map(|(_, place)| place);
        let new = pair.is_some_and(|(new, _)| new);
        let ends = self.ends(point).filter(|_| reversed);
        let anew = ends.as_ref().is_some_and(|(from, to)| self.anew((from, to), true).is_some());
        let prior = old.or_else(|| {
            let (from, to) = ends.as_ref().filter(|_| !anew && !new && prediction == Some(Found::Agrees))?;
            self.anew((from, to), false)
        });
        let wrong = self
            .wrong_step(point, prediction, new, prior)
            .or_else(|| self.wrong_outcome(point, whole, (predicted.as_ref(), prediction), anew));
        let told = found.named();
        // What it says first it takes back where it then predicts the other way.
        let apart = self.turned_apart(predicted.as_ref());
        let torn = prediction == Some(Found::Both)
            && told >= limit::REASON_LOOK
            && !apart
            && self.rests_on_old_chain(predicted.as_ref(), prediction);
        // Beside a wrong prediction so few words tell no reason.
        let wrong_way = prediction == Some(Found::Opposed) || prediction == Some(Found::Both) && !apart;
        let otherwise = self.said_otherwise(point).filter(|_| !wrong_way);
        let directed = found.turns.contains(&Found::Agrees);
        let enough = if new { limit::REASON_LOOK } else { least(reversed, directed, independent) };
        // A reason that is told all the same stays, whatever is predicted.
        let stands = prediction == Some(Found::Opposed) && told >= enough - 1e-9;
        let all = 0..self.reading.text.len();
        match wrong {
            Some(place) => (Status::Contradicted, both(&found.says, &[place])),
            None if told < limit::REASON
                && !anew
                && !apart
                && !stands
                && (goes_on || self.rests_on_old_chain(predicted.as_ref(), prediction)) =>
            {
                (Status::Contradicted, both(&found.says, &[all]))
            }
            None if torn => (Status::Contradicted, both(&found.says, &[all])),
            None if told >= enough - 1e-9 && self.hedges(&found.says) => (Status::LookAgain, says(&found.says)),
            None if told >= enough - 1e-9 => (Status::Found, says(&found.says)),
            None if otherwise.as_ref().is_some_and(|places| self.hedges(places)) => {
                (Status::LookAgain, says(&found.says))
            }
            None if otherwise.is_some() => (Status::Found, says(&otherwise.unwrap_or_default())),
            None if told >= limit::REASON_LOOK => (Status::LookAgain, says(&found.says)),
            None => (Status::NotFound, Vec::new()),
        }
    }

    /// The changed step told wrongly: as the trap has it, with the shares swapped, or as it went before.
    fn wrong_step(
        &self,
        point: &Point,
        prediction: Option<Found>,
        new: bool,
        old: Option<Range<usize>>,
    ) -> Option<Range<usize>> {
        let reversed = point.kind == PointKind::Reversal;
        let opposed = prediction == Some(Found::Opposed);
        // Beside a wrong prediction one claim is enough to tell that it rests on the trap.
        let trap = self.trap(point, !opposed).filter(|_| !new);
        let swapped = || reversed && (self.swaps(&point.statement) || self.goes_in(&point.statement));
        // A step that goes the other way is told with both its ends as well, so there the prediction decides.
        let asserted = || self.asserted(point).filter(|_| (!reversed || opposed) && !new);
        trap.or_else(|| swapped().then_some(0..self.reading.text.len())).or(old).or_else(asserted)
    }

    /// What is said to decide, to go on or to stay alike, where it does not.
    fn wrong_outcome(
        &self,
        point: &Point,
        whole: &Pattern,
        (predicted, prediction): (Option<&Pattern>, Option<Found>),
        anew: bool,
    ) -> Option<Range<usize>> {
        let reversed = point.kind == PointKind::Reversal;
        let opposed = prediction == Some(Found::Opposed);
        let moves = || {
            let place = self.still_moves(point, predicted);
            place.filter(|_| matches!(prediction, Some(Found::Agrees | Found::Both)))
        };
        let alike = || self.leaves_alike().or_else(|| self.lets_nothing_follow()).filter(|_| reversed && opposed);
        self.governs(point, whole)
            .or_else(|| self.set_back(point, whole, predicted))
            .or_else(moves)
            .or_else(alike)
            .or_else(|| {
                let wrong = opposed || prediction == Some(Found::Both);
                self.opens_as_it_was().filter(|_| reversed && !anew && wrong)
            })
            .or_else(|| self.as_it_was().filter(|_| !anew && opposed))
    }

    /// The reason in words of another kind, which the guide accepts as well.
    fn said_otherwise(&self, point: &Point) -> Option<Vec<Range<usize>>> {
        let sayings = point.accept.iter().filter(|text| !text.starts_with("the step from "));
        sayings.map(|text| self.pattern(text)).filter(|pattern| pattern.units.len() >= 2).find_map(|pattern| {
            let found = self.matcher().in_one_sentence(&pattern);
            (found.coverage >= limit::SAYING && found.denied <= 0.0).then_some(found.says)
        })
    }

    /// Whether the answer does not commit itself where it says this: a hedge in the prediction leaves the reason as it is.
    fn hedges(&self, places: &[Range<usize>]) -> bool {
        self.reading.clauses.iter().any(|clause| {
            let own = self.reading.within(clause);
            let says = |piece: &Piece| {
                places.iter().any(|place| place.start <= piece.bytes.start && piece.bytes.end <= place.end)
            };
            own.iter().any(|piece| piece.role == Role::Hedge && piece.lower != "could") && own.iter().any(says)
        })
    }

    /// Whether a wrong prediction rests on the chain as it was: an effect of one of its steps is told with a direction, and
    /// is not the quantity that was to be predicted.
    fn rests_on_old_chain(&self, predicted: Option<&Pattern>, prediction: Option<Found>) -> bool {
        let Some(predicted) = predicted else { return false };
        let wrong = matches!(prediction, Some(Found::Opposed | Found::Both));
        let readout = |claim: &Claim, share: f64| {
            let shares = predicted.wanted.iter().filter_map(|wanted| self.matcher().same_quantity(wanted, claim, true));
            shares.into_iter().any(|(other, _)| other + limit::HALF > share)
        };
        let told = |wanted: &Wanted| {
            self.claimed(wanted).iter().any(|(claim, _, share)| *share >= limit::PLAIN && !readout(claim, *share))
        };
        wrong && self.effects.iter().any(told)
    }

    /// "The enzyme sets the rate": what the changed step sets out from, told as what decides.
    fn governs(&self, point: &Point, whole: &Pattern) -> Option<Range<usize>> {
        let (from, _) = self.ends(point)?;
        let limits = self.dictionary.key("limit");
        let about = |piece: &Piece| {
            from.about
                .iter()
                .any(|(key, weight)| *weight >= 0.5 && piece.keys.contains(key) && !self.dictionary.is_light(key))
        };
        self.reading.clauses.iter().find_map(|clause| {
            let own = self.reading.within(clause);
            let has = |test: &dyn Fn(&Piece) -> bool| own.iter().any(test);
            let decides =
                has(&|piece| piece.keys.contains(&limits) || piece.also.contains(&limits) || piece.lower == "sets");
            // "only decides how long you wait".
            let how_long = own.windows(2).any(|pair| {
                matches!(pair, [how, long] if how.lower == "how" && matches!(long.lower.as_str(), "long" | "soon" | "time"))
            });
            // "only decides when it is done".
            let next = self.reading.pieces.get(clause.pieces.end.saturating_sub(1)..clause.pieces.end + 2);
            let how_long = how_long || next.unwrap_or_default().iter().any(|piece| piece.lower == "when");
            let denied = how_long || has(&|piece| piece.role == Role::Negator || piece.negated);
            let other = whole.units.iter().filter(|unit| {
                !from.about.iter().any(|(key, _)| unit.keys.contains(key)) && !unit.keys.contains(&limits)
            });
            let names_other = other.into_iter().any(|unit| {
                has(&|piece| {
                    unit.keys.first().is_some_and(|key| piece.keys.contains(key) && !self.dictionary.is_light(key))
                }) && self.dictionary.class(unit.keys.first().map_or("", String::as_str)).is_none()
            });
            let found = decides && !denied && !names_other && has(&about);
            let start = own.first().map_or(0, |piece| piece.bytes.start);
            found.then(|| start..own.last().map_or(start, |piece| piece.bytes.end))
        })
    }

    /// Both ends of the step that the guide names as the one that changes.
    pub(super) fn ends(&self, point: &Point) -> Option<(Wanted, Wanted)> {
        let named = point.accept.iter().find_map(|text| text.strip_prefix("the step from "))?;
        let (from, to) = named.split_once(" to the ")?;
        Some((self.quantity(from)?, self.quantity(to.split(" named as ").next()?)?))
    }

    /// Both ends of a step that now goes the other way, told in one sentence: whether as it goes now, and where.
    fn pair(&self, point: &Point) -> Option<(bool, Range<usize>)> {
        let (from, to) = self.ends(point)?;
        // "… the more is handed over, the less works": the last two before the result.
        let told = Pattern::of(point.statement.split(". ").next()?, self.prompt, self.dictionary);
        let [.., one, other] = told.wanted.as_slice() else { return None };
        let alike = one.direction == other.direction;
        // "less is left" tells again what has got out.
        let keys = ["t:filtrate", "liquid"];
        let liquid = |claim: &Claim| claim.about.iter().any(|(key, _)| keys.contains(&key.as_str()));
        let (from, mut to) = (self.claimed(&from), self.claimed(&to));
        // "They have lost more of it": of what has left, and not of what there is.
        let elsewhere = |claim: &Claim| {
            claim.about.iter().any(|(key, weight)| *weight >= limit::HALF && self.dictionary.is_elsewhere(key))
        };
        to.retain(|(claim, ..)| {
            liquid(claim) || !elsewhere(claim) && !from.iter().any(|(other, ..)| self.are_opposed(claim, other))
        });
        let by_names = self.both_told(&from, &to).map(|(same, place)| (same == alike, place));
        let mut outcome = self.claimed(other);
        outcome.retain(|(claim, ..)| !liquid(claim));
        by_names.or_else(|| self.both_told(&self.claimed(one), &outcome).filter(|(same, _)| *same))
    }

    /// Whether two claims speak of opposites: what stays, and what leaves.
    fn are_opposed(&self, one: &Claim, other: &Claim) -> bool {
        one.about.iter().any(|(key, weight)| {
            *weight >= limit::HALF && other.about.iter().any(|(known, _)| self.dictionary.opposed(key, known))
        })
    }

    /// Two quantities told in one sentence: whether both go as they are looked for, or both the other way; and where.
    fn both_told(&self, causes: &[Directed<'_>], effects: &[Directed<'_>]) -> Option<(bool, Range<usize>)> {
        let sentence = |claim: &Claim| self.reading.clauses.get(claim.clause).map(|clause| clause.sentence);
        let plainer = |one: &[Directed<'_>], claim: &Claim, share: f64| {
            !one.iter().any(|(other, _, known)| other.at == claim.at && *known > share)
        };
        for (cause, first, _) in causes.iter().filter(|(claim, _, share)| plainer(effects, claim, *share)) {
            for (effect, second, _) in effects.iter().filter(|(claim, _, share)| plainer(causes, claim, *share)) {
                if sentence(cause) == sentence(effect) && cause.at != effect.at {
                    let place = join(&[self.reading.claim_bytes(cause), self.reading.claim_bytes(effect)])?;
                    return Some((first == second, place));
                }
            }
        }
        None
    }

    /// The changed step told as if it still went on: both its ends, each with a direction, in one sentence.
    fn asserted(&self, point: &Point) -> Option<Range<usize>> {
        let (from, to) = self.ends(point)?;
        for (cause, first, _) in self.claimed(&from) {
            for (effect, second, _) in self.claimed(&to) {
                let sentence = |claim: &Claim| self.reading.clauses.get(claim.clause).map(|clause| clause.sentence);
                // "… the slower it works": as it goes now.
                let anew =
                    point.kind == PointKind::Reversal && self.told_anew((&from, &to), (first, second)) == Some(true);
                if sentence(cause) == sentence(effect) && cause.at != effect.at && !anew {
                    return join(&[self.reading.claim_bytes(cause), self.reading.claim_bytes(effect)]);
                }
            }
        }
        None
    }

    /// "It stays level. By morning the fullest one has the most of it": what the changed step leads to, told after a prediction of
    /// no change as if it still went up or down.
    fn still_moves(&self, point: &Point, predicted: Option<&Pattern>) -> Option<Range<usize>> {
        let (_, to) = self.ends(point).filter(|_| point.kind == PointKind::Reason)?;
        let claimed = self.claimed(&to);
        let sentence = |claim: &Claim| self.reading.clauses.get(claim.clause).map(|clause| clause.sentence);
        let moves = |(claim, _, share): &&Directed<'_>| {
            *share >= limit::PLAIN && sentence(claim) > Some(0) && !self.reading.supposes(claim)
        };
        let apart = |claim: &Claim| {
            sentence(claim).is_some_and(|own| !self.tells_reading(own, predicted))
                && !self.tells_of_all(sentence(claim))
        };
        let (claim, ..) = claimed.iter().filter(moves).find(|(claim, ..)| apart(claim))?;
        Some(self.reading.claim_bytes(claim))
    }

    /// A thing that is to be named: by the head of its phrase, and by its number where it has one.
    pub(super) fn named(&self, statement: &str, rejected: Option<&[Range<usize>]>) -> Verdict {
        let pattern = self.pattern(statement);
        let found = self.matcher().find(&pattern);
        let wanted = self.dictionary.of_guide(statement);
        if let (Some(places), true) = (rejected, found.coverage < limit::HALF) {
            return (Status::NotFound, both(&[], places));
        }
        if let Some(number) = wanted.numbers.first() {
            let first = self.reading.numbers.first();
            let either =
                self.reading.pieces.iter().any(|piece| piece.role == Role::Hedge) && self.reading.numbers.len() > 1;
            let same = first.is_some_and(|one| (one.value - number.value).abs() <= 1e-9 * number.value.abs());
            return match (same, first) {
                (true, Some(one)) => {
                    let status = if either { Status::LookAgain } else { Status::Found };
                    (status, says(std::slice::from_ref(&one.bytes)))
                }
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
        let open = self.left_open(&wanted, head);
        let status = match (head_seen, head.is_some_and(|unit| light(&unit))) {
            (true, false) => Status::Found,
            (true, true) if found.coverage >= limit::HALF => Status::Found,
            _ if found.coverage >= limit::MOST => Status::Found,
            _ if found.coverage >= limit::LOOK => Status::LookAgain,
            _ => Status::NotFound,
        };
        // "the brightness of the lamp" for that of the dye.
        let telling = |keys: &[String]| {
            keys.iter().all(|key| !self.dictionary.is_light(key) && self.dictionary.class(key).is_none())
        };
        let others: Vec<&Unit> = pattern.units.iter().skip(1).filter(|unit| telling(&unit.keys)).collect();
        let names = |unit: &&Unit, keys: &[String]| unit.keys.iter().any(|key| keys.contains(key));
        let content = self.reading.pieces.iter().filter(|piece| piece.role == Role::Content && telling(&piece.keys));
        let strange = content.clone().any(|piece| !pattern.units.iter().any(|unit| names(&unit, &piece.keys)));
        let shared = content.into_iter().any(|piece| others.iter().any(|unit| names(unit, &piece.keys)));
        let another = !others.is_empty() && strange && !shared && status == Status::Found;
        let status = if another { Status::NotFound } else { status };
        let status = if status == Status::Found && open { Status::LookAgain } else { status };
        (status, if status == Status::NotFound { Vec::new() } else { says(&found.says) })
    }

    /// Whether a name leaves open what is meant: "the inhibitor" for its concentration; "either … or"; "the light", "time", one
    /// word for a name of several.
    fn left_open(&self, wanted: &Reading, head: Option<&Unit>) -> bool {
        let kind = |reading: &Reading| {
            reading
                .pieces
                .iter()
                .flat_map(|piece| piece.keys.iter().chain(&piece.also))
                .find_map(|key| self.dictionary.class(key))
        };
        let content = self.reading.pieces.iter().filter(|piece| piece.role == Role::Content);
        let one_word = matches!(content.collect::<Vec<_>>().as_slice(), [piece] if head.is_some_and(|head| {
            head.keys.len() > 2 && piece.keys.first() != head.keys.first()
        }));
        let bracketed = self.reading.text.contains('[');
        (kind(wanted).is_some() && kind(self.reading).is_none() && !bracketed)
            || (one_word && !self.reading.text.to_lowercase().contains("how "))
            || self.reading.pieces.iter().any(|piece| piece.role == Role::Hedge)
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
        let steps = self.question.points.iter().filter(|point| point.kind != PointKind::Link);
        let said = steps.filter(|point| self.words(point).0 == Status::Found).count();
        match (places.len(), said) {
            (0, _) | (_, 0) => (Status::NotFound, Vec::new()),
            (_, 1) => (Status::LookAgain, says(&places)),
            _ => (Status::Found, says(&places)),
        }
    }
}

/// How much of a reason must be named.
fn least(reversed: bool, directed: bool, independent: bool) -> f64 {
    match () {
        () if reversed && directed => limit::REASON_DIRECTED,
        () if reversed => limit::REASON_REVERSED,
        () if independent => limit::REASON_INDEPENDENT,
        () => limit::REASON,
    }
}
