//! The course of a question: the quantities of its guide in order, each with its direction, and the answer's claims set
//! beside them.
//!
//! Each claim of the answer belongs to the quantity that it speaks of most plainly. Told with the guide's direction or with the
//! opposite one, a claim says which of the two changes the answer has in mind. As long as the answer keeps to one of them, it
//! tells the guide's relations, either way round; where it passes from one to the other, the step between is told wrongly.

use std::ops::Range;

use super::correction::corrects;
use super::likeness::{Likeness, SAME_QUANTITY, kinds};
use super::matching::{Found, Matcher};
use super::meaning::{Accord, Direction};
use super::pattern::{Pattern, Wanted};
use super::read::Claim;
use super::unnamed::{amounts_alike, extreme, flat_measure, read_off};

/// How much less plainly than the best one a quantity may be spoken of.
pub(super) const AS_PLAIN: f64 = 0.1;
/// From here on a quantity is spoken of plainly enough, wherever the claim stands.
pub(super) const PLAINLY: f64 = 0.5;

/// A quantity of the guide with its direction.
#[derive(Debug, Clone)]
pub(super) struct Node {
    pub(super) wanted: Wanted,
    pub(super) place: Place,
    /// What the step sets out from.
    pub(super) cause: bool,
    /// The same by the name that the question has for it.
    pub(super) named: Option<Wanted>,
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
pub(super) struct Told {
    pub(super) node: usize,
    pub(super) claim: usize,
    pub(super) accord: Accord,
    pub(super) share: f64,
    pub(super) blamed: bool,
    /// It tells a relation by itself ("brightest at 300").
    pub(super) whole: bool,
}

/// The quantities of a question's guide and what the answer tells of them.
#[derive(Debug, Clone, Default)]
pub(super) struct Course {
    pub(super) nodes: Vec<Node>,
    pub(super) told: Vec<Told>,
    /// How plainly each claim speaks of the quantity that it was given to.
    pub(super) plain: Vec<f64>,
    /// Quantities that are told by a state or a deed, and where.
    pub(super) stated: Vec<(Place, Range<usize>)>,
    /// The first step tells of how long there is, and the answer of how long the treatment that the question sets out from takes.
    timed: bool,
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
        let mut course = Self { nodes, plain: vec![0.0; matcher.reading.claims.len()], ..Self::default() };
        course.assign(&super::given::alike(points, matcher), matcher);
        if course.steps_apart() {
            course.pass_over(matcher);
        }
        course.blame(matcher);
        if course.steps_apart() {
            course.all_astray(matcher);
        } else {
            course.outcome_alone(matcher);
        }
        if !either_way {
            course.one_way();
        }
        course.timed = course.is_timed(matcher);
        course.by_state(matcher);
        course
    }

    /// Whether the guide tells of more than one step.
    pub(super) fn steps_apart(&self) -> bool {
        let first = |place: Place| place.point == usize::MAX || (place.point, place.step) == (0, 0);
        self.nodes.iter().any(|node| !first(node.place))
    }

    /// Gives each claim to the quantities that it speaks of most plainly.
    fn assign(&mut self, given: &[Vec<String>], matcher: &Matcher<'_>) {
        // "Rises with …" tells of one step which it is.
        let single = !self.steps_apart();
        let told = |claim: &Claim| !claim.aside || claim.presence;
        for (number, claim) in matcher.reading.claims.iter().enumerate().filter(|(_, claim)| told(claim)) {
            // "It rises" behind others, and nothing to say what; "they are proportional" beside the steps.
            let rather = claim.about.is_empty() && corrects(matcher.reading, claim);
            if !single && !rather && (claim.about.is_empty() && number > 0 || claim.relates && claim.carried) {
                continue;
            }
            // "less of it, or actually more", "they all get the same amount": of what was told just before.
            let before = number.checked_sub(1).and_then(|before| matcher.reading.claims.get(before));
            let before = before.filter(|before| rather || !single && amounts_alike(claim, before, matcher));
            let meant = before.map(|before| Claim { about: before.about.clone(), ..claim.clone() });
            if self.is_given(claim, given, matcher) {
                continue;
            }
            let mut shares = self.shares(meant.as_ref().unwrap_or(claim), matcher);
            if single {
                extreme(claim, &mut shares);
                flat_measure(claim, &mut shares, matcher);
                self.after_the_cause(claim, number, &mut shares, matcher);
            } else {
                self.amount_for_all(claim, &mut shares, matcher);
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
                let plainest = *share >= best - AS_PLAIN || self.counterpart(node, &shares, best, matcher);
                let Some(known) = self.nodes.get(node).filter(|_| plainest) else { continue };
                let said = if *mirrored { claim.direction.mirrored() } else { claim.direction };
                let level = claim.level.or(Some(Direction::Up).filter(|_| claim.relates && single));
                // What a later step sets out from is what the step before leads to.
                let whole = level.is_some() && (!known.cause || node > 0 && claim.compares && !claim.relates);
                let wanted = self.at_level(known.wanted.direction, level.filter(|_| whole));
                // "It is no less concentrated than …": that it is the same tells nothing of what it leads to.
                let kept = claim.direction == Direction::Same && known.cause && node == 0 && self.told.is_empty();
                let open = claim.hedged || kept && !matcher.reading.tells_none(claim);
                let accord = if open { Accord::Unclear } else { wanted.accord(said) };
                let blamed = whole && accord == Accord::Oppose;
                let node = if blamed && known.cause { node - 1 } else { node };
                self.told.push(Told { node, claim: number, accord, share: *share, blamed, whole });
            }
        }
        self.drop_presence(matcher);
    }

    /// Leaves out that a thing is there, where more is said of how much of it.
    fn drop_presence(&mut self, matcher: &Matcher<'_>) {
        // That a thing is there tells how much only where nothing else does, and only of what the question sets out from.
        let claims = &matcher.reading.claims;
        let there = |told: &Told| claims.get(told.claim).is_some_and(|claim| claim.presence);
        let sets_out = self.nodes.first().is_some_and(|first| first.cause);
        let said = self.told.iter().any(|told| told.node == 0 && !there(told));
        if said || !sets_out {
            self.told.retain(|told| !there(told));
        }
    }

    /// How plainly a claim speaks of each quantity.
    fn shares(&self, claim: &Claim, matcher: &Matcher<'_>) -> Vec<Option<Likeness>> {
        let likeness = |node: &Node| {
            let by_name = node.named.as_ref().and_then(|named| matcher.same_quantity(named, claim, false));
            let own = matcher.same_quantity(&node.wanted, claim, false);
            match (own, by_name) {
                (Some(own), Some(by_name)) if by_name.0 > own.0 => Some(by_name),
                (own, by_name) => own.or(by_name),
            }
        };
        let mut shares: Vec<Option<(f64, bool)>> = self.nodes.iter().map(likeness).collect();
        // "Big ones have …": which things, and not what is asked about.
        let next = matcher.reading.pieces.get(claim.at + 1).map_or("", |piece| piece.lower.as_str());
        let sized = claim.carried && matches!(next, "ones" | "one") && claim.class.iter().all(|class| *class == "size");
        if sized {
            for (node, share) in self.nodes.iter().zip(&mut shares) {
                let thing =
                    node.wanted.about.iter().all(|(key, _)| key.starts_with("t:")) && node.wanted.class.is_empty();
                *share = Some((PLAINLY, false)).filter(|_| thing);
            }
        }
        if let Some(mirrored) = self.by_its_place(claim, &shares, matcher) {
            shares.fill(None);
            if let Some(first) = shares.first_mut() {
                *first = Some((PLAINLY, mirrored));
            }
        } else if matcher.goes_along(claim) {
            shares.fill(None);
        }
        if let Some(last) = self.nodes.last().filter(|last| !last.cause)
            && read_off(claim, matcher)
            && !last.wanted.class.contains(&"colour")
        {
            shares.fill(None);
            if let Some(outcome) = shares.last_mut() {
                *outcome = Some((SAME_QUANTITY, false));
            }
        }
        shares
    }

    /// A claim that leads ("The bigger they are, …", "If … , …") and that no quantity is known by is of what the question sets
    /// out from, where it names nothing else. Says whether it is of its opposite.
    fn by_its_place(&self, claim: &Claim, shares: &[Option<Likeness>], matcher: &Matcher<'_>) -> Option<bool> {
        let first = self.nodes.first().filter(|first| first.cause && !claim.presence)?;
        let known = [Some(&first.wanted), first.named.as_ref()];
        let of_kind = known.iter().flatten().any(|known| kinds(&known.class, &claim.class).is_some());
        let weak = shares.iter().flatten().all(|(share, _)| *share < PLAINLY);
        let unnamed = claim.about.is_empty() || claim.carried && claim.about.iter().all(|(_, weight)| *weight < 0.5);
        // "Small ones have …".
        let ones = matcher
            .reading
            .pieces
            .get(claim.at + 1)
            .is_some_and(|piece| matches!(piece.lower.as_str(), "ones" | "one"));
        // "Going up from there you get …".
        let word = matcher.reading.pieces.get(claim.at).map_or("", |piece| piece.lower.as_str());
        let going = matches!(word, "going up" | "going down" | "moving up" | "moving down" | "rising" | "falling");
        // "Going from 300 down to 60 …".
        let first = matcher.reading.clauses.get(claim.clause).and_then(|clause| matcher.reading.within(clause).first());
        let going = going
            || matches!(word, "down to" | "up to" | "down" | "up")
                && first.is_some_and(|piece| matches!(piece.lower.as_str(), "going" | "moving" | "from"));
        let opens = (ones || going) && matcher.reading.opens_sentence(claim);
        let leads = matcher.reading.leads(claim) || opens;
        if !of_kind || !leads || !(unnamed || weak) {
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
        // "When the outside gets more negative": less of a potential.
        let (negative, potential) = (matcher.dictionary.key("negative"), matcher.dictionary.key("potential"));
        let signed = |known: &Wanted| known.about.iter().any(|(key, _)| *key == negative);
        let below = claim.about.iter().any(|(key, weight)| *key == negative && *weight >= PLAINLY)
            && known.iter().flatten().any(|known| known.about.iter().any(|(key, _)| *key == potential))
            && !known.iter().flatten().any(|known| signed(known));
        meets.then_some(below)
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

    /// What was found of a quantity. What the next step sets out from is what this one leads to.
    pub(super) fn found(&self, place: Place) -> Found {
        let own = self.found_of(place);
        let at = self.nodes.iter().position(|node| node.place == place);
        let next = at.and_then(|at| self.nodes.get(at + 1)).filter(|next| next.cause);
        let sets_out = at.and_then(|at| self.nodes.get(at)).is_some_and(|node| node.cause);
        let before = at.filter(|_| sets_out).and_then(|at| at.checked_sub(1)).and_then(|at| self.nodes.get(at));
        let agrees = |node: Option<&Node>| node.map(|node| self.found_of(node.place)) == Some(Found::Agrees);
        // A longer soak is what gives it longer: the question sets out from the time of which the first step tells.
        let timed = at == Some(1) && self.timed && agrees(self.nodes.get(2));
        match own {
            Found::Missing if agrees(next) || agrees(before) || timed => Found::Agrees,
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
        let stated = found == Found::Missing && self.stated.iter().any(|(known, _)| *known == place);
        if stated { Found::Agrees } else { found }
    }

    /// Whether at least so many claims tell of a point, and the answer rightly tells what the next one begins with.
    pub(super) fn goes_on(&self, point: usize, least: usize) -> bool {
        let told = |test: &dyn Fn(Place) -> bool| {
            let right = self.told.iter().filter(|told| !told.blamed && told.accord != Accord::Unclear);
            let own = right.filter(|told| self.nodes.get(told.node).is_some_and(|node| test(node.place)));
            own.map(|told| told.claim).collect::<std::collections::BTreeSet<usize>>().len()
        };
        told(&|place| place.point == point) >= least && told(&|place| (place.point, place.step) == (point + 1, 0)) > 0
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
        let told = told.filter_map(|told| Some((matcher.reading.claim_bytes(claims.get(told.claim)?), !told.blamed)));
        let stated = self.stated.iter().filter(|(known, _)| *known == place);
        told.chain(stated.map(|(_, bytes)| (bytes.clone(), true))).collect()
    }
}
