//! The course of a question: the quantities of its guide in order, each with its direction, and the answer's claims set
//! beside them.
//!
//! Each claim of the answer belongs to the quantity that it speaks of most plainly. Told with the guide's direction or with the
//! opposite one, a claim says which of the two changes the answer has in mind. As long as the answer keeps to one of them, it
//! tells the guide's relations, either way round; where it passes from one to the other, the step between is told wrongly.

use std::ops::Range;

use super::likeness::{Likeness, SAME_QUANTITY, kinds};
use super::matching::{Found, Matcher};
use super::meaning::{Accord, Direction, Link};
use super::pattern::{Pattern, Wanted};
use super::read::Claim;

/// How much less plainly than the best one a quantity may be spoken of.
const AS_PLAIN: f64 = 0.1;
/// From here on a quantity is spoken of plainly enough, wherever the claim stands.
const PLAINLY: f64 = 0.5;
/// From here on a claim counts though all around it say the opposite.
const OUTRIGHT: f64 = 0.9;

/// A quantity of the guide with its direction.
#[derive(Debug, Clone)]
struct Node {
    wanted: Wanted,
    place: Place,
    /// What the step sets out from.
    cause: bool,
    /// The same by the name that the question has for it.
    named: Option<Wanted>,
}

/// Where a quantity stands in the guide.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Place {
    pub(super) point: usize,
    pub(super) step: usize,
    pub(super) turn: usize,
}

/// A claim of the answer about a quantity of the guide.
#[derive(Debug, Clone)]
struct Told {
    node: usize,
    claim: usize,
    accord: Accord,
    share: f64,
    blamed: bool,
    /// It tells a relation by itself ("brightest at 300").
    whole: bool,
}

/// The quantities of a question's guide and what the answer tells of them.
#[derive(Debug, Clone, Default)]
pub(super) struct Course {
    nodes: Vec<Node>,
    told: Vec<Told>,
    /// How plainly each claim speaks of the quantity that it was given to.
    plain: Vec<f64>,
}

impl Course {
    /// How plainly a claim speaks of a quantity of the guide.
    pub(super) fn plain(&self, claim: usize) -> f64 {
        self.plain.get(claim).copied().unwrap_or(0.0)
    }

    /// Sets an answer beside the steps of the points; a point without steps has an empty list.
    pub(super) fn new(
        points: &[Vec<Pattern>],
        (lead, outcome): (Option<Wanted>, Option<Wanted>),
        either_way: bool,
        matcher: &Matcher<'_>,
    ) -> Self {
        let mut nodes: Vec<Node> = Vec::new();
        for (point, steps) in points.iter().enumerate() {
            for (step, pattern) in steps.iter().enumerate() {
                for (turn, wanted) in pattern.wanted.iter().enumerate() {
                    let cause = turn == 0 && wanted.cause && pattern.wanted.len() > 1;
                    let place = Place { point, step, turn };
                    nodes.push(Node { wanted: wanted.clone(), place, cause, named: None });
                }
            }
        }
        if let (Some(outcome), Some(last)) = (outcome, nodes.last_mut().filter(|last| !last.cause)) {
            // A rate of breakdown is not the half-life, though one follows from the other.
            let apart = !outcome.class.is_empty()
                && !last.wanted.class.is_empty()
                && !outcome.class.iter().any(|class| last.wanted.class.contains(class));
            last.named = Some(outcome).filter(|_| !apart);
        }
        let told = |lead: &Wanted| nodes.is_empty() || nodes.iter().any(|node| matcher.alike(lead, &node.wanted));
        // A step of one quantity alone does not show which way round it is told.
        let first = nodes.first().map(|node| (node.place.point, node.place.step));
        let several = nodes.iter().filter(|node| Some((node.place.point, node.place.step)) == first).count() >= 2;
        let plain = points.iter().flatten().next().is_some_and(|step| !step.text.contains("toward"));
        // What moves toward a lower potential comes in where that outside is higher.
        let osmosis = points.iter().flatten().next().filter(|step| step.text.contains("toward lower water potential"));
        let lead = match (lead, osmosis.and_then(|step| step.wanted.last())) {
            (Some(lead), Some(last)) => Some(Wanted { direction: last.direction, ..lead }),
            (lead, _) => lead,
        };
        let plain = plain || osmosis.is_some();
        let open = (several || plain) && lead.as_ref().is_some_and(|lead| !told(lead));
        match (lead, nodes.first_mut().filter(|first| first.cause)) {
            (Some(lead), Some(first)) if !matcher.are_opposite(&lead, &first.wanted) => first.named = Some(lead),
            (Some(lead), None) if open => {
                let place = Place { point: usize::MAX, step: 0, turn: 0 };
                nodes.insert(0, Node { wanted: lead, place, cause: true, named: None });
            }
            _ => {}
        }
        let mut course = Self { nodes, told: Vec::new(), plain: vec![0.0; matcher.reading.claims.len()] };
        course.assign(matcher);
        if course.steps_apart() {
            course.pass_over(matcher);
        }
        course.blame(matcher);
        if !either_way {
            course.one_way();
        }
        course
    }

    /// Whether the guide tells of more than one step.
    fn steps_apart(&self) -> bool {
        let first = |place: Place| place.point == usize::MAX || (place.point, place.step) == (0, 0);
        self.nodes.iter().any(|node| !first(node.place))
    }

    /// Gives each claim to the quantities that it speaks of most plainly.
    fn assign(&mut self, matcher: &Matcher<'_>) {
        // "Rises with …" tells of one step which it is.
        let single = !self.steps_apart();
        let told = |claim: &Claim| !claim.aside || claim.presence;
        for (number, claim) in matcher.reading.claims.iter().enumerate().filter(|(_, claim)| told(claim)) {
            let likeness = |node: &Node| {
                let by_name = node.named.as_ref().and_then(|named| matcher.same_quantity(named, claim, false));
                let own = matcher.same_quantity(&node.wanted, claim, false);
                match (own, by_name) {
                    (Some(own), Some(by_name)) if by_name.0 > own.0 => Some(by_name),
                    (own, by_name) => own.or(by_name),
                }
            };
            let mut shares: Vec<Option<(f64, bool)>> = self.nodes.iter().map(likeness).collect();
            if let Some(mirrored) = self.by_its_place(claim, &shares, matcher) {
                shares.fill(None);
                if let Some(first) = shares.first_mut() {
                    *first = Some((SAME_QUANTITY, mirrored));
                }
            }
            if single {
                self.after_the_cause(claim, number, &mut shares, matcher);
            }
            let best = shares.iter().flatten().map(|(share, _)| *share).fold(0.0, f64::max);
            if let Some(plain) = self.plain.get_mut(number) {
                *plain = best;
            }
            for (node, share) in shares.iter().enumerate() {
                let Some((share, mirrored)) = share else { continue };
                if claim.presence && (node > 0 || *mirrored) {
                    continue;
                }
                // "just as fast" denies nothing of an amount.
                let wanted = self.nodes.get(node).map_or(&[][..], |node| node.wanted.class.as_slice());
                let of_kind = claim.class.is_empty()
                    || wanted.is_empty()
                    || wanted.iter().any(|class| claim.class.contains(class));
                if claim.direction == Direction::Same && !of_kind {
                    continue;
                }
                let Some(known) = self.nodes.get(node).filter(|_| *share >= best - AS_PLAIN) else { continue };
                let said = if *mirrored { claim.direction.mirrored() } else { claim.direction };
                let level = claim.level.or(Some(Direction::Up).filter(|_| claim.relates && single));
                let whole = level.is_some() && !known.cause;
                let wanted = self.at_level(known.wanted.direction, level.filter(|_| whole));
                let accord = if claim.hedged { Accord::Unclear } else { wanted.accord(said) };
                let blamed = whole && accord == Accord::Oppose;
                self.told.push(Told { node, claim: number, accord, share: *share, blamed, whole });
            }
        }
        // That a thing is there tells how much only where nothing else does, and only of what the question sets out from.
        let claims = &matcher.reading.claims;
        let there = |told: &Told| claims.get(told.claim).is_some_and(|claim| claim.presence);
        let sets_out = self.nodes.first().is_some_and(|first| first.cause);
        let said = self.told.iter().any(|told| told.node == 0 && !there(told));
        if said || !sets_out {
            self.told.retain(|told| !there(told));
        }
    }

    /// A claim that leads ("The bigger they are, …", "If … , …") and that no quantity is known by is of what the question sets
    /// out from, where it names nothing else. Says whether it is of its opposite.
    fn by_its_place(&self, claim: &Claim, shares: &[Option<Likeness>], matcher: &Matcher<'_>) -> Option<bool> {
        let first = self.nodes.first().filter(|first| first.cause && !claim.presence)?;
        let known = [Some(&first.wanted), first.named.as_ref()];
        let of_kind = known.iter().flatten().any(|known| kinds(&known.class, &claim.class).is_some());
        let weak = shares.iter().flatten().all(|(share, _)| *share < PLAINLY);
        let unnamed = claim.about.is_empty() || claim.carried && claim.about.iter().all(|(_, weight)| *weight < 0.5);
        if !of_kind || !matcher.reading.leads(claim) || !(unnamed || weak) {
            return None;
        }
        let own = known.into_iter().flatten().flat_map(|known| &known.about);
        // "As they get longer": a measure alone.
        let mut meets = unnamed || claim.about.iter().all(|(key, _)| matcher.dictionary.class(key).is_some());
        for (key, _) in own {
            meets = meets || claim.about.iter().any(|(said, _)| said == key);
            if claim.about.iter().any(|(said, _)| matcher.dictionary.opposed(said, key)) {
                return Some(true);
            }
        }
        meets.then_some(false)
    }

    /// In an answer on one relation, what is claimed behind the cause, in the same sentence, is of what follows from it: not of
    /// the cause again, and of the outcome where it shares a word with it and no other quantity is plainer.
    fn after_the_cause(&self, claim: &Claim, number: usize, shares: &mut [Option<Likeness>], matcher: &Matcher<'_>) {
        let sentence = |claim: &Claim| matcher.reading.clauses.get(claim.clause).map(|clause| clause.sentence);
        let causes = self.told.iter().filter(|told| told.node == 0 && told.claim < number);
        let mut causes = causes.filter_map(|told| matcher.reading.claims.get(told.claim));
        let said = causes.any(|cause| sentence(cause) == sentence(claim) && cause.about != claim.about);
        let (Some(first), Some(last)) = (self.nodes.first(), self.nodes.last()) else { return };
        let said = said || matcher.reading.heads(claim);
        if !said || !first.cause || last.cause || matcher.reading.leads(claim) {
            return;
        }
        let later = shares.iter().skip(1).flatten().map(|(share, _)| *share).fold(0.0, f64::max);
        let known = [Some(&last.wanted), last.named.as_ref()];
        let of_kind = known.iter().flatten().any(|known| kinds(&known.class, &claim.class).is_some());
        let has = |key: &str| known.iter().flatten().any(|known| known.about.iter().any(|(one, _)| one == key));
        let names = claim.about.iter().any(|(key, weight)| *weight >= 0.2 && has(key));
        let opposed =
            claim.about.iter().any(|(key, weight)| *weight >= PLAINLY && matcher.dictionary.opposites(key).any(has));
        if later <= 0.0 && of_kind && (names || opposed) {
            shares.fill(None);
            if let Some(outcome) = shares.last_mut() {
                *outcome = Some((SAME_QUANTITY, opposed));
            }
        } else if later > 0.0
            && let Some(cause) = shares.first_mut()
        {
            *cause = None;
        }
    }

    /// Which way a quantity goes at an end of the treatment, which its first cause tells.
    fn at_level(&self, direction: Direction, level: Option<Direction>) -> Direction {
        let cause = self.nodes.first().filter(|first| first.cause).map(|first| first.wanted.direction);
        match (cause, level) {
            (Some(cause), Some(level)) if cause != level => direction.mirrored(),
            _ => direction,
        }
    }

    /// Takes no account of a claim that stands alone against those before and behind it: where an answer goes wrong it stays
    /// so, or says outright of one quantity both that it rises and that it falls.
    fn pass_over(&mut self, matcher: &Matcher<'_>) {
        // Claim, which way, how plainly; those that go both ways or neither tell nothing here.
        let mut ways: Vec<(usize, Accord, f64)> = Vec::new();
        for (number, claim) in matcher.reading.claims.iter().enumerate() {
            let flat = matches!(claim.direction, Direction::Same | Direction::NotUp | Direction::NotDown);
            let own: Vec<&Told> = self.told.iter().filter(|told| told.claim == number && !told.whole).collect();
            let has = |accord: Accord| own.iter().any(|told| told.accord == accord);
            let way = match (has(Accord::Agree), has(Accord::Oppose)) {
                (true, false) => Accord::Agree,
                (false, true) => Accord::Oppose,
                _ => continue,
            };
            if !flat {
                ways.push((number, way, own.iter().map(|told| told.share).fold(0.0, f64::max)));
            }
        }
        let mut stray: Vec<usize> = Vec::new();
        for trio in ways.windows(3) {
            let [(before, one, _), (number, way, share), (_, other, _)] = trio else { continue };
            let against = matcher.reading.claims.get(*number).is_some_and(|claim| matcher.reading.set_against(claim));
            let alone = one != way && other != way && !stray.contains(before) && !against && *share < OUTRIGHT;
            if alone && !self.denied_elsewhere(*number, *way) {
                stray.push(*number);
            }
        }
        for told in self.told.iter_mut().filter(|told| stray.contains(&told.claim)) {
            told.accord = Accord::Unclear;
        }
    }

    /// Whether another claim tells the opposite of the same quantity, as plainly.
    fn denied_elsewhere(&self, claim: usize, way: Accord) -> bool {
        let plain = |told: &Told| told.share >= PLAINLY && told.accord != Accord::Unclear && !self.sets_out(told.node);
        let own = |told: &&Told| told.claim == claim && told.accord == way && plain(told);
        let other = |told: &Told| told.claim != claim && told.accord != way && plain(told);
        self.told.iter().filter(own).any(|own| self.told.iter().any(|told| told.node == own.node && other(told)))
    }

    /// Whether a step sets out from a quantity.
    fn sets_out(&self, node: usize) -> bool {
        self.nodes.get(node).is_some_and(|node| node.cause)
    }

    /// Marks the claims at which the answer passes from one change to the opposite one.
    fn blame(&mut self, matcher: &Matcher<'_>) {
        let reading = matcher.reading;
        // Claim after claim: the last that was clear, and how it went.
        let mut last: Option<(usize, Accord)> = None;
        let claims: Vec<usize> = {
            let part = self.told.iter().filter(|told| !told.whole);
            let mut all: Vec<usize> = part.map(|told| told.claim).collect();
            all.dedup();
            all
        };
        let mut first_node = usize::MAX;
        let mut seen: Vec<(usize, Accord)> = Vec::new();
        let places: Vec<usize> = self.told.iter().map(|told| told.node).collect();
        let node_of = |at: usize| places.get(at).copied().unwrap_or(0);
        for number in claims {
            let own: Vec<usize> =
                (0..self.told.len()).filter(|at| self.told.get(*at).is_some_and(|one| one.claim == number)).collect();
            let clear = |wanted: Accord| self.plainest(&own, wanted);
            let (agrees, opposes) = (clear(Accord::Agree), clear(Accord::Oppose));
            let Some(claim) = reading.claims.get(number) else { continue };
            let current = match (agrees, opposes, last) {
                (Some(at), Some(other), Some((_, accord))) => {
                    Some(if accord == Accord::Agree { (at, Accord::Agree) } else { (other, Accord::Oppose) })
                }
                (Some(at), Some(other), None)
                    if self.is_effect(other) && !self.is_effect(at) && self.is_other(at, claim, matcher) =>
                {
                    Some((other, Accord::Oppose))
                }
                (Some(at), _, _) => Some((at, Accord::Agree)),
                (None, Some(at), _) => Some((at, Accord::Oppose)),
                (None, None, _) => None,
            };
            let Some((at, accord)) = current else { continue };
            let node = node_of(at);
            let flat = matches!(claim.direction, Direction::Same | Direction::NotUp | Direction::NotDown);
            // "No change" denies the relation, whichever way round it is told.
            let wants_flat = self.nodes.get(node).is_some_and(|node| node.wanted.direction == Direction::Same);
            // "because the time is the same for all": what is kept alike.
            let link = reading.clauses.get(claim.clause).and_then(|clause| clause.link);
            let kept = matches!(link, Some(Link::Because | Link::If)) || reading.being(claim);
            let denies = claim.direction == Direction::Same && !wants_flat && !kept;
            if claim.direction == Direction::Same && kept {
                continue;
            }
            let is_cause = self.nodes.get(node).is_some_and(|node| node.cause);
            if denies && last.is_none() && !is_cause {
                self.blame_claim(at);
            }
            if let Some((before, went)) = last
                && (went != accord || denies)
            {
                let earlier = node_of(before);
                if denies || !self.restarts(claim, node, first_node, &seen, accord, matcher) {
                    let clause = reading.clauses.get(claim.clause);
                    let reason = matches!(clause.and_then(|clause| clause.link), Some(Link::Because | Link::If));
                    let wrong = if reason && earlier > node && !denies { before } else { at };
                    self.blame_claim(wrong);
                }
            }
            seen.push((node, accord));
            first_node = first_node.min(node);
            // It takes no side.
            if !(flat && last.is_some()) {
                last = Some((at, accord));
            }
        }
    }

    /// Whether something told is of what a step leads to.
    fn is_effect(&self, told: usize) -> bool {
        self.told.get(told).and_then(|told| self.nodes.get(told.node)).is_some_and(|node| !node.cause)
    }

    /// Whether a claim told of a cause is of another quantity than the question names for it.
    fn is_other(&self, told: usize, claim: &Claim, matcher: &Matcher<'_>) -> bool {
        let node = self.told.get(told).and_then(|told| self.nodes.get(told.node));
        let named = node.and_then(|node| node.named.as_ref());
        named.is_some_and(|named| matcher.same_quantity(named, claim, false).is_none())
    }

    /// Where the question names no change of its own, one quantity told the other way round is told wrongly; two make a
    /// relation.
    fn one_way(&mut self) {
        let clear = |accord: Accord| {
            let own = self.told.iter().filter(move |told| told.accord == accord && !told.blamed);
            own.map(|told| told.claim).collect::<std::collections::BTreeSet<usize>>()
        };
        if clear(Accord::Agree).is_empty() && clear(Accord::Oppose).len() == 1 {
            self.told.iter_mut().filter(|told| told.accord == Accord::Oppose).for_each(|told| told.blamed = true);
        }
    }

    /// Of what one claim tells, the plainest that goes this way; what a step leads to before what it sets out from.
    fn plainest(&self, own: &[usize], accord: Accord) -> Option<usize> {
        let mut best: Option<(bool, f64, usize)> = None;
        for at in own {
            let Some(told) = self.told.get(*at).filter(|told| told.accord == accord) else { continue };
            let effect = self.nodes.get(told.node).is_some_and(|node| !node.cause);
            if best.is_none_or(|(known, share, _)| (effect, told.share) > (known, share)) {
                best = Some((effect, told.share, *at));
            }
        }
        best.map(|(.., at)| at)
    }

    /// Marks what a claim tells, for every quantity that it speaks of so.
    fn blame_claim(&mut self, at: usize) {
        let Some((claim, accord)) = self.told.get(at).map(|told| (told.claim, told.accord)) else { return };
        let own = |told: &Told| told.claim == claim && told.accord == accord;
        let is_cause = |node: usize| self.nodes.get(node).is_some_and(|node| node.cause);
        // Where a step sets out from what the step before leads to, that one is told wrongly.
        let causes: Vec<bool> = self.told.iter().map(|told| is_cause(told.node)).collect();
        let only = !self.told.iter().zip(&causes).any(|(told, cause)| own(told) && !cause);
        let before = self.told.get(at).and_then(|told| told.node.checked_sub(1)).filter(|_| only);
        if let Some(node) = before {
            let share = self.told.get(at).map_or(0.0, |told| told.share);
            self.told.push(Told { node, claim, accord, share, blamed: true, whole: false });
            return;
        }
        for (told, cause) in self.told.iter_mut().zip(causes) {
            told.blamed = told.blamed || (told.claim == claim && told.accord == accord && (only || !cause));
        }
    }

    /// Whether a claim begins to tell of the opposite change: it goes back to where the answer set out, and that was told of
    /// the first change already, or stands against it.
    fn restarts(
        &self,
        claim: &Claim,
        node: usize,
        first: usize,
        seen: &[(usize, Accord)],
        accord: Accord,
        matcher: &Matcher<'_>,
    ) -> bool {
        let flat = matches!(claim.direction, Direction::Same | Direction::NotUp | Direction::NotDown);
        let link = matcher.reading.clauses.get(claim.clause).and_then(|clause| clause.link);
        let sets_out = self.nodes.get(node).is_some_and(|node| node.cause);
        let told = seen.iter().any(|(known, went)| *known == node && *went != accord);
        let back = !flat && node <= first && (sets_out || link == Some(Link::If));
        let onward = matches!(link, Some(Link::So | Link::Because));
        (back && !onward && (told || link == Some(Link::But))) || (!flat && link == Some(Link::But) && sets_out)
    }

    /// What was found of a quantity. What the next step sets out from is what this one leads to.
    pub(super) fn found(&self, place: Place) -> Found {
        let own = self.found_of(place);
        let at = self.nodes.iter().position(|node| node.place == place);
        let next = at.and_then(|at| self.nodes.get(at + 1)).filter(|next| next.cause);
        match (own, next.map(|next| self.found_of(next.place))) {
            (Found::Missing, Some(Found::Agrees)) => Found::Agrees,
            _ => own,
        }
    }

    fn found_of(&self, place: Place) -> Found {
        let own = |told: &&Told| self.nodes.get(told.node).is_some_and(|node| node.place == place);
        let mut found = Found::Missing;
        for told in self.told.iter().filter(own) {
            found = match (told.blamed, told.accord, found) {
                (true, _, _) | (_, _, Found::Opposed) => Found::Opposed,
                (false, Accord::Unclear, Found::Missing) => Found::Unclear,
                (false, Accord::Unclear, found) => found,
                (false, ..) => Found::Agrees,
            };
        }
        found
    }

    /// What the answer's claims come to, of those of these numbers: for each that is plainly of what a step leads to, its point and
    /// whether it is told rightly.
    pub(super) fn told_by(&self, claims: &[usize]) -> Vec<(usize, bool)> {
        let own = |told: &&Told| claims.contains(&told.claim) && told.share >= PLAINLY && !self.sets_out(told.node);
        let own = self.told.iter().filter(own).filter(|told| told.accord != Accord::Unclear);
        own.filter_map(|told| Some((self.nodes.get(told.node)?.place.point, !told.blamed))).collect()
    }

    /// Where the answer tells of a quantity, and whether rightly.
    pub(super) fn places(&self, place: Place, matcher: &Matcher<'_>) -> Vec<(Range<usize>, bool)> {
        let own = |told: &&Told| self.nodes.get(told.node).is_some_and(|node| node.place == place);
        let claims = &matcher.reading.claims;
        let told = self.told.iter().filter(own).filter(|told| told.accord != Accord::Unclear);
        told.filter_map(|told| Some((matcher.reading.claim_bytes(claims.get(told.claim)?), !told.blamed))).collect()
    }
}
