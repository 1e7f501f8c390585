//! Where an answer goes astray: it passes from one change to the opposite one, and the step between is told wrongly.

use super::correction::corrects;
use super::course::{AS_PLAIN, Course, Node, PLAINLY, Told};
use super::likeness::Likeness;
use super::matching::Matcher;
use super::meaning::{Accord, Direction, Link};
use super::read::{Claim, Role};

/// From here on a claim counts though all around it say the opposite.
const OUTRIGHT: f64 = 0.9;
/// So many pieces at the beginning name what an answer sets out from.
const OPENING: usize = 4;
/// How much of what the plainest quantity shares with a claim another must share to be meant.
const NAMED_LESS: f64 = 0.4;
/// Below this a claim is hardly of the quantity.
const HARDLY: f64 = 0.5;

impl Course {
    /// Takes no account of a claim that stands alone against those before and behind it: where an answer goes wrong it stays
    /// so, or says outright of one quantity both that it rises and that it falls.
    pub(super) fn pass_over(&mut self, matcher: &Matcher<'_>) {
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
            let [(before, one, _), (number, way, share), (next, other, _)] = trio else { continue };
            let against = matcher
                .reading
                .claims
                .get(*number)
                .is_some_and(|claim| matcher.reading.set_against(claim) || corrects(matcher.reading, claim));
            let alone = one != way && other != way && !stray.contains(before) && !against && *share < OUTRIGHT;
            let alone =
                alone && !self.opens_case(*number, *next, matcher) && !Self::told_at_extreme(*number, *next, matcher);
            let alone = alone && !self.said_again(*number, *way, matcher) && !Self::trails(*before, *number, matcher);
            if alone && !self.denied_elsewhere(*number, *way) {
                stray.push(*number);
            }
        }
        // So does one at the beginning that is hardly of a quantity of the guide, where all behind it go the other way.
        if let [(first, way, share), rest @ ..] = ways.as_slice() {
            let alone = rest.len() >= 3 && rest.iter().all(|(_, other, _)| other != way) && *share < HARDLY;
            if alone && !self.denied_elsewhere(*first, *way) {
                stray.push(*first);
            }
        }
        for told in self.told.iter_mut().filter(|told| stray.contains(&told.claim)) {
            told.accord = Accord::Unclear;
        }
    }

    /// "so more forms, and more of it makes …": what the rest of the sentence takes up is meant.
    fn said_again(&self, claim: usize, way: Accord, matcher: &Matcher<'_>) -> bool {
        let plain = |told: &&Told| told.share >= PLAINLY && told.accord == way && !told.whole;
        let claims = &matcher.reading.claims;
        let sentence = |claim: usize| {
            let clause = claims.get(claim).and_then(|claim| matcher.reading.clauses.get(claim.clause));
            clause.map(|clause| clause.sentence)
        };
        let next = claim + 1;
        let leads = claims.get(next).is_some_and(|next| next.attributive && !next.carried);
        let again = |one: &Told| {
            let mut others = self.told.iter().filter(plain).filter(|told| told.claim == next && told.node == one.node);
            others.any(|told| told.share >= one.share - AS_PLAIN)
        };
        leads
            && sentence(claim) == sentence(next)
            && self.told.iter().filter(plain).filter(|told| told.claim == claim).any(again)
    }

    /// Whether another claim tells the opposite of the same quantity, as plainly.
    fn denied_elsewhere(&self, claim: usize, way: Accord) -> bool {
        let plain = |told: &Told| told.share >= PLAINLY && told.accord != Accord::Unclear && !self.sets_out(told.node);
        let own = |told: &&Told| told.claim == claim && told.accord == way && plain(told);
        let other = |told: &Told| told.claim != claim && told.accord != way && plain(told);
        let as_plainly = |own: &Told, told: &Told| own.share >= told.share - AS_PLAIN;
        self.told
            .iter()
            .filter(own)
            .any(|own| self.told.iter().any(|told| told.node == own.node && other(told) && as_plainly(own, told)))
    }

    /// Whether the question sets out from a treatment of which the answer tells how long it takes, and the first step of how
    /// long there is for it.
    pub(super) fn is_timed(&self, matcher: &Matcher<'_>) -> bool {
        let [lead, first, ..] = self.nodes.as_slice() else { return false };
        let right = self.told.iter().filter(|told| told.node == 0 && !told.blamed && told.accord != Accord::Unclear);
        let mut claims = right.filter_map(|told| matcher.reading.claims.get(told.claim));
        let long = |claim: &Claim| claim.class.iter().any(|class| matches!(*class, "length" | "time"));
        lead.place.point == usize::MAX && first.wanted.class == ["time"] && claims.any(long)
    }

    /// "More has leaked out" is said of what has left as well as of what stays: a quantity that is known plainly enough, where
    /// the plainest is its opposite. What a step sets out from must be named itself.
    pub(super) fn counterpart(
        &self,
        node: usize,
        shares: &[Option<Likeness>],
        best: f64,
        matcher: &Matcher<'_>,
    ) -> bool {
        let (Some(own), Some(Some((share, mirrored)))) = (self.nodes.get(node), shares.get(node)) else { return false };
        let opposite = |(other, known): (&Node, &Option<Likeness>)| {
            known.is_some_and(|(plain, turned)| plain >= best - AS_PLAIN && turned != *mirrored)
                && matcher.are_opposite(&own.wanted, &other.wanted)
        };
        let apart = matcher.dictionary.key("apart");
        let left = own.wanted.about.iter().any(|(key, _)| {
            // So is "more of them have parted" of how many are paired.
            matcher.dictionary.is_elsewhere(key) || *key == apart
        });
        left && !(*mirrored && own.cause) && *share >= PLAINLY && self.nodes.iter().zip(shares).any(opposite)
    }

    /// Whether a step sets out from a quantity.
    pub(super) fn sets_out(&self, node: usize) -> bool {
        self.nodes.get(node).is_some_and(|node| node.cause)
    }

    /// Marks the claims at which the answer passes from one change to the opposite one.
    pub(super) fn blame(&mut self, matcher: &Matcher<'_>) {
        let reading = matcher.reading;
        // Claim after claim: the last that was clear, and how it went.
        let mut last: Option<(usize, Accord)> = None;
        let mut claims: Vec<usize> = self.told.iter().filter(|told| !told.whole).map(|told| told.claim).collect();
        claims.dedup();
        let mut first_node = usize::MAX;
        // Which way it went before the last step told wrongly: going back to it is no second mistake.
        let mut before_slip: Option<Accord> = None;
        let mut since_slip = 0_usize;
        let mut seen: Vec<(usize, Accord)> = Vec::new();
        let places: Vec<usize> = self.told.iter().map(|told| told.node).collect();
        let node_of = |at: usize| places.get(at).copied().unwrap_or(0);
        for number in claims.iter().copied() {
            let Some(claim) = reading.claims.get(number) else { continue };
            let Some((at, accord)) = self.current(number, last.map(|(_, accord)| accord), matcher) else { continue };
            let node = node_of(at);
            let flat = matches!(claim.direction, Direction::Same | Direction::NotUp | Direction::NotDown);
            // "No change" denies the relation, whichever way round it is told.
            let wants_flat = self.nodes.get(node).is_some_and(|node| node.wanted.direction == Direction::Same);
            let link = reading.clauses.get(claim.clause).and_then(|clause| clause.link);
            let same = claim.direction == Direction::Same;
            if same && self.kept(claim, link, matcher) {
                continue;
            }
            let denies = same && !wants_flat;
            if denies && self.deny_next(at, node, &seen, matcher) {
                continue;
            }
            let sets_out = self.sets_out(node) && (node == 0 || reading.goes_on(claim));
            if denies && last.is_none() && !sets_out {
                self.blame_claim(at);
            }
            if let Some((before, went)) = last
                && (went != accord || denies)
            {
                let earlier = node_of(before);
                // Where it stayed with the other for several steps, the way back is told wrongly as well.
                let returns = !denies && before_slip == Some(accord) && (since_slip < 2 || link == Some(Link::Because));
                let restarts = self.restarts(
                    claim,
                    self.set_out_again(number, at, node, matcher),
                    first_node,
                    &seen,
                    accord,
                    matcher,
                );
                before_slip = Some(went).filter(|_| denies || !(returns || restarts));
                since_slip = 0;
                if before_slip.is_some() {
                    let reason = matches!(link, Some(Link::Because | Link::If));
                    // What was told of this very step, and is told otherwise now, is not the reason of the step before.
                    let onward = reason && earlier > node && !denies && !seen.contains(&(node, went));
                    let wrong = if onward { before } else { self.slip(at, before, &claims, matcher) };
                    let earlier = wrong != at && !onward && self.crosses(wrong);
                    if earlier { self.blame_before(wrong) } else { self.blame_claim(wrong) }
                }
            }
            since_slip += 1;
            seen.push((node, accord));
            first_node = first_node.min(node);
            // It takes no side; what is denied outright is gone on from.
            let outright = flat && !same && before_slip.is_some();
            if !flat || outright {
                last = Some((at, accord));
            }
        }
    }

    /// What a claim tells, and which way it goes, after claims that went one way.
    fn current(&self, number: usize, last: Option<Accord>, matcher: &Matcher<'_>) -> Option<(usize, Accord)> {
        let is_own = |at: &usize| self.told.get(*at).is_some_and(|one| one.claim == number);
        let own: Vec<usize> = (0..self.told.len()).filter(is_own).collect();
        let claim = matcher.reading.claims.get(number)?;
        let own = self.meant_most(own, claim);
        let clear = |wanted: Accord| self.plainest(&own, wanted);
        match (clear(Accord::Agree), clear(Accord::Oppose), last) {
            // Behind "actually, …" it is meant to go against what was said.
            (Some(at), Some(other), Some(accord)) => {
                let agrees = (accord == Accord::Agree) != corrects(matcher.reading, claim);
                Some(if agrees { (at, Accord::Agree) } else { (other, Accord::Oppose) })
            }
            // What the answer sets out from, where it may be that as well.
            (Some(at), Some(other), None) if self.begins(other) && !self.begins(at) && self.as_plain(other, at) => {
                Some((other, Accord::Oppose))
            }
            (Some(at), Some(other), None) if self.begins(at) && !self.begins(other) && self.as_plain(at, other) => {
                Some((at, Accord::Agree))
            }
            (Some(at), Some(other), None)
                if self.is_effect(other) && !self.is_effect(at) && self.is_other(at, claim, matcher) =>
            {
                Some((other, Accord::Oppose))
            }
            (Some(at), _, _) => Some((at, Accord::Agree)),
            (None, Some(at), _) => Some((at, Accord::Oppose)),
            (None, None, _) => None,
        }
    }

    /// Of what a claim tells both ways, not what the whole course sets out from, where it names much more of another: "more
    /// strands pair" is of the pairs, and not of how many strands there are.
    fn meant_most(&self, own: Vec<usize>, claim: &Claim) -> Vec<usize> {
        let named = |at: &usize| {
            let node = self.told.get(*at).and_then(|told| self.nodes.get(told.node));
            let known = |key: &str| node.is_some_and(|node| node.wanted.about.iter().any(|(one, _)| one == key));
            claim.about.iter().filter(|(key, _)| known(key)).map(|(_, weight)| weight).sum::<f64>()
        };
        let ways: Vec<Accord> = own.iter().filter_map(|at| self.told.get(*at)).map(|told| told.accord).collect();
        let both = ways.contains(&Accord::Agree) && ways.contains(&Accord::Oppose);
        let most = own.iter().map(named).fold(0.0, f64::max);
        own.into_iter().filter(|at| !both || !self.begins(*at) || named(at) >= most * NAMED_LESS).collect()
    }

    /// Whether a claim of no change says what is kept alike: "because the time is the same for all", "Same volume, less dye, so
    /// …".
    fn kept(&self, claim: &Claim, link: Option<Link>, matcher: &Matcher<'_>) -> bool {
        let reading = matcher.reading;
        let reason = matches!(link, Some(Link::Because | Link::If)) && !reading.tells_none(claim);
        let first = claim.attributive && self.steps_apart() && reading.opens_sentence(claim) && reading.goes_on(claim);
        // "because the field and the time are constant".
        let before = claim.clause.checked_sub(1).and_then(|before| reading.clauses.get(before));
        let own = reading.clauses.get(claim.clause).map(|clause| clause.sentence);
        let start = reading.clauses.get(claim.clause).map_or(0, |clause| clause.pieces.start);
        let joined = start.checked_sub(1).and_then(|place| reading.pieces.get(place));
        let onward = joined.is_some_and(|piece| piece.lower == "and")
            && before.is_some_and(|one| one.link == Some(Link::Because) && Some(one.sentence) == own)
            && !reading.claims.iter().any(|one| one.clause + 1 == claim.clause)
            && !reading.tells_none(claim);
        reason || onward || reading.being(claim) || first
    }

    /// Whether something told is of what the whole course sets out from.
    fn begins(&self, told: usize) -> bool {
        self.told.get(told).is_some_and(|told| told.node == 0) && self.sets_out(0)
    }

    /// Whether one thing told is told as plainly as another.
    fn as_plain(&self, one: usize, other: usize) -> bool {
        let share = |told: usize| self.told.get(told).map_or(0.0, |told| told.share);
        share(one) >= share(other) - AS_PLAIN
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
    pub(super) fn one_way(&mut self) {
        let clear = |accord: Accord| {
            let own = self.told.iter().filter(move |told| told.accord == accord && !told.blamed);
            own.map(|told| told.claim).collect::<std::collections::BTreeSet<usize>>()
        };
        if clear(Accord::Agree).is_empty() && clear(Accord::Oppose).len() == 1 {
            self.told.iter_mut().filter(|told| told.accord == Accord::Oppose).for_each(|told| told.blamed = true);
        }
    }

    /// "It goes down, since …", where one relation is asked for and nothing is said of what it depends on: told of more of that,
    /// as the question puts it. An answer that begins otherwise ("If …", "The closer …", "At …") may tell of less.
    pub(super) fn outcome_alone(&mut self, matcher: &Matcher<'_>) {
        let last = self.nodes.len().saturating_sub(1);
        let claims: std::collections::BTreeSet<usize> = self.told.iter().map(|told| told.claim).collect();
        let sets_out = self.nodes.first().is_some_and(|first| first.cause) && last > 0;
        let Some(number) = claims.first().filter(|_| sets_out && claims.len() == 1) else { return };
        let reading = matcher.reading;
        let opens = reading.claims.get(*number).is_some_and(|claim| {
            let first = reading.clauses.first().is_some_and(|clause| clause.link.is_none() && claim.clause == 0);
            let alone = first && !reading.heads(claim);
            alone && claim.pieces.start <= 2 && !claim.attributive && !claim.relates && reading.opens_sentence(claim)
        });
        if opens && self.told.iter().all(|told| told.accord == Accord::Oppose && told.node > 0 && !told.whole) {
            self.told.iter_mut().for_each(|told| told.blamed = true);
        }
    }

    /// "The salt protects the pump, so more is pumped …": it names what the question sets out from, with nothing said of how much,
    /// and then tells all the course the other way round. That is the change asked about, and its first step told wrongly.
    pub(super) fn all_astray(&mut self, matcher: &Matcher<'_>) {
        let Some(first) = self.nodes.first().filter(|first| first.cause) else { return };
        let clear: Vec<(usize, usize)> = self
            .told
            .iter()
            .enumerate()
            .filter(|(_, told)| told.accord != Accord::Unclear)
            .map(|(at, told)| (at, told.claim))
            .collect();
        let against = self.told.iter().all(|told| told.accord != Accord::Agree && told.node > 0 && !told.whole);
        let Some((at, claim)) = clear.first().filter(|(_, claim)| against && clear.iter().any(|(_, one)| one != claim))
        else {
            return;
        };
        let reading = matcher.reading;
        let Some(until) = reading.claims.get(*claim).map(|claim| claim.pieces.start) else { return };
        let known = [Some(&first.wanted), first.named.as_ref()];
        // A thing may be there or not; a potential, a length cannot be.
        let measure = |class: &&str| {
            matches!(*class, "potential" | "length" | "time" | "temperature" | "size" | "ph" | "distance")
        };
        if known.iter().flatten().any(|known| known.class.iter().any(measure)) {
            return;
        }
        let telling = |key: &String| {
            let own = known.iter().flatten().flat_map(|known| &known.about);
            own.into_iter().any(|(known, weight)| known == key && *weight >= 1.0) && !matcher.dictionary.is_light(key)
        };
        // In the first words: "The short RNA …", "With a signal sugar …".
        let opening = reading.pieces.get(..until.min(OPENING)).unwrap_or_default();
        let names = opening.iter().enumerate().any(|(at, piece)| {
            let before = opening.get(..at).unwrap_or_default();
            let given =
                |word: &str| matches!(word, "when" | "if" | "you" | "we" | "they" | "put" | "add" | "adding" | "short");
            let bare =
                before.iter().all(|piece| matches!(piece.role, Role::Article | Role::Link(_)) || given(&piece.lower));
            piece.role == Role::Content
                && !piece.negated
                && bare
                && piece.sentence == 0
                && piece.keys.first().is_some_and(telling)
        });
        if names {
            self.blame_claim(*at);
        }
    }

    /// Of what one claim tells, the plainest that goes this way; what a step leads to before what it sets out from.
    fn plainest(&self, own: &[usize], accord: Accord) -> Option<usize> {
        let mut best: Option<(bool, f64, usize)> = None;
        for at in own {
            let Some(told) = self.told.get(*at).filter(|told| told.accord == accord) else { continue };
            let effect = self.nodes.get(told.node).is_some_and(|node| !node.cause);
            // Of two that are told as plainly, the earlier.
            let plainer = |(known, share, _): (bool, f64, usize)| {
                effect && !known || (effect == known && told.share > share + AS_PLAIN)
            };
            if best.is_none_or(plainer) {
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
        // So too where what else it tells lies in another point.
        let point = |node: usize| self.nodes.get(node).map(|node| node.place.point);
        let here = self.told.get(at).map_or(0, |told| told.node);
        let beside = self.told.iter().any(|told| own(told) && point(told.node) == point(here) && !is_cause(told.node));
        let only = only || is_cause(here) && !beside;
        let before = self.told.get(at).and_then(|told| told.node.checked_sub(1)).filter(|_| only);
        if let Some(node) = before {
            let share = self.told.get(at).map_or(0.0, |told| told.share);
            self.told.push(Told { node, claim, accord, share, blamed: true, whole: false });
            return;
        }
        // One step is told wrongly, and not the next point's, which begins with it.
        let own_point: Vec<bool> = self
            .told
            .iter()
            .map(|told| point(told.node) == self.told.get(at).and_then(|told| point(told.node)))
            .collect();
        for ((told, cause), own_point) in self.told.iter_mut().zip(causes).zip(own_point) {
            told.blamed =
                told.blamed || (told.claim == claim && told.accord == accord && own_point && (only || !cause));
        }
    }

    /// "A paler one lets it by": a sentence that opens with what the whole course sets out from is of that, though the same
    /// claim may be of a later quantity as well.
    fn set_out_again(&self, number: usize, at: usize, node: usize, matcher: &Matcher<'_>) -> usize {
        let accord = self.told.get(at).map(|told| told.accord);
        let opens = matcher.reading.claims.get(number).is_some_and(|claim| {
            claim.attributive && matcher.reading.opens_sentence(claim) && matcher.reading.goes_on(claim)
        });
        let own =
            self.told.iter().position(|told| told.claim == number && told.node == 0 && Some(told.accord) == accord);
        let first = own.is_some_and(|own| opens && self.begins(own) && self.as_plain(own, at));
        if first { 0 } else { node }
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
        if corrects(matcher.reading, claim) {
            return false;
        }
        // "If less of it is there, …": a new case.
        if !flat && link == Some(Link::If) && matcher.reading.opens_sentence(claim) && matcher.reading.supposes(claim) {
            return true;
        }
        let sets_out = self.nodes.get(node).is_some_and(|node| node.cause);
        let told = seen.iter().any(|(known, went)| *known == node && *went != accord);
        let back = !flat && node <= first && (sets_out || link == Some(Link::If));
        let onward = matches!(link, Some(Link::So | Link::Because));
        // "… so with large ones": from the small ones to those.
        let with = link == Some(Link::If) && claim.attributive && claim.class == ["size"];
        (back && !onward && (told || with || link == Some(Link::But)))
            || (!flat && link == Some(Link::But) && sets_out && node <= first)
    }
}
