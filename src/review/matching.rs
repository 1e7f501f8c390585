//! How far a response says what a pattern looks for.

use std::ops::Range;

use super::dictionary::Dictionary;
use super::likeness::{Likeness, SAME_QUANTITY, likeness};
use super::meaning::{Accord, Direction, Link};
use super::pattern::{Pattern, Unit, Wanted};
use super::read::{Claim, Clause, Piece, Reading, Role};

/// Sentences in a row within which a pattern must be met.
const WINDOW: usize = 3;

/// What was found of a pattern.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Match {
    /// Share of the units that are there, by weight.
    pub(crate) coverage: f64,
    /// The same, without what the question itself names; `None` where nothing else is looked for.
    pub(crate) own: Option<f64>,
    /// Share of the units that are there and denied, or their opposites.
    pub(crate) denied: f64,
    /// For each direction wanted, what was found.
    pub(crate) turns: Vec<Found>,
    /// Stretches that say it, in bytes.
    pub(crate) says: Vec<Range<usize>>,
    /// Stretches that deny it, in bytes.
    pub(crate) denies: Vec<Range<usize>>,
}

/// What was found of a direction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Found {
    Agrees,
    Opposed,
    /// Said one way and the other.
    Both,
    Unclear,
    Missing,
}

impl Match {
    /// Share of the directions that agree; the last one, the effect, counts double. `None` where none is wanted.
    pub(crate) fn agreement(&self) -> Option<f64> {
        let last = self.turns.len().checked_sub(1)?;
        let weight = |place: usize| if place == last { 2.0 } else { 1.0 };
        let total: f64 = (0..self.turns.len()).map(weight).sum();
        let agreed = self.turns.iter().enumerate().filter(|(_, found)| **found == Found::Agrees);
        Some(agreed.map(|(place, _)| weight(place)).sum::<f64>() / total)
    }

    /// Share of what is named, by what tells most.
    pub(crate) fn named(&self) -> f64 {
        self.own.map_or(self.coverage, |own| own.max(self.coverage))
    }

    /// What was found of the effect.
    pub(crate) fn effect(&self) -> Option<Found> {
        self.turns.last().copied()
    }
}

/// A reading of a response, to be matched.
pub(crate) struct Matcher<'a> {
    pub(crate) reading: &'a Reading,
    pub(crate) dictionary: &'a Dictionary,
    /// Keys of the quantity that the question asks about: what "it" stands for at the start.
    pub(crate) topic: &'a [(String, f64)],
}

impl Matcher<'_> {
    /// The best stretch for a pattern.
    pub(crate) fn find(&self, pattern: &Pattern) -> Match {
        let mut best = self.things(pattern);
        best.turns = self.turns(pattern, &mut best.says, &mut best.denies);
        best
    }

    /// The best stretch for the things that a pattern names, its directions left open.
    pub(crate) fn things(&self, pattern: &Pattern) -> Match {
        let n = self.reading.sentences.len().max(1);
        let starts = 0..n.saturating_sub(WINDOW - 1).max(1);
        let mut best = Match::default();
        for start in starts {
            let found = self.within(pattern, &(start..start + WINDOW));
            if start == 0 || found.coverage > best.coverage {
                best = found;
            }
        }
        best
    }

    /// Share of the things that a pattern names, each counted alike, in the sentence that has most of them.
    pub(crate) fn named_together(&self, pattern: &Pattern) -> f64 {
        let count = |sentence: usize| {
            let seen = |unit: &&Unit| {
                let (share, denied, place) = self.unit(unit, &(sentence..sentence + 1));
                // "when they are burst" is told as the occasion, not as what happens.
                let occasion = place.is_some_and(|place| self.occasion(place.start));
                share >= 0.5 && !denied && !occasion
            };
            pattern.units.iter().filter(seen).count()
        };
        let most = (0..self.reading.sentences.len()).map(count).max().unwrap_or(0);
        to_f64(most) / to_f64(pattern.units.len().max(1))
    }

    /// Whether a place stands in a clause with "when" or "if".
    fn occasion(&self, byte: usize) -> bool {
        let holds = |clause: &&Clause| {
            let own = self.reading.within(clause);
            own.first().is_some_and(|piece| piece.bytes.start <= byte)
                && own.last().is_some_and(|piece| byte < piece.bytes.end)
        };
        self.reading.clauses.iter().find(holds).is_some_and(|clause| clause.link == Some(Link::If))
    }

    /// The things that a pattern names, as far as one sentence has them; the sentence that has most.
    pub(crate) fn in_one_sentence(&self, pattern: &Pattern) -> Match {
        let mut best = Match::default();
        for sentence in 0..self.reading.sentences.len() {
            let found = self.within(pattern, &(sentence..sentence + 1));
            if found.coverage > best.coverage {
                best = found;
            }
        }
        best.turns = self.turns(pattern, &mut best.says, &mut best.denies);
        best
    }

    fn within(&self, pattern: &Pattern, sentences: &Range<usize>) -> Match {
        let mut found = Match::default();
        let (mut own, mut own_total) = (0.0, 0.0);
        for unit in &pattern.units {
            let (share, denied, place) = self.unit(unit, sentences);
            if denied {
                found.denied += share * unit.weight;
                found.denies.extend(place);
            } else {
                found.coverage += share * unit.weight;
                if share > 0.4 {
                    found.says.extend(place);
                }
            }
            if !unit.prompted {
                own_total += unit.weight;
                own += if denied { 0.0 } else { share * unit.weight };
            }
        }
        let total = pattern.weight().max(1e-9);
        found.coverage /= total;
        found.denied /= total;
        found.own = (own_total > 0.0).then(|| own / own_total);
        found
    }

    /// How far one unit is there, whether it is denied, and where.
    fn unit(&self, unit: &Unit, sentences: &Range<usize>) -> (f64, bool, Option<Range<usize>>) {
        let mut best = (0.0, false, None);
        for clause in self.reading.clauses.iter().filter(|clause| sentences.contains(&clause.sentence)) {
            for (offset, piece) in self.reading.within(clause).iter().enumerate() {
                if piece.keys.is_empty() || !matches!(piece.role, Role::Content | Role::Turn(_)) {
                    continue;
                }
                let aside = clause.aside_from.is_some_and(|from| from < clause.pieces.start + offset);
                let share = self.share(unit, piece);
                if share <= 0.0 || (aside && share < 1.0) {
                    continue;
                }
                let denied = piece.negated != unit.negated;
                let better = share > best.0 || (best.1 && !denied && share >= best.0);
                if better {
                    best = (share, denied, Some(piece.bytes.clone()));
                }
            }
        }
        if best.0 > 0.0 {
            return best;
        }
        self.opposite(unit, sentences)
    }

    /// The unit's opposite said outright, or denied, which says the unit.
    fn opposite(&self, unit: &Unit, sentences: &Range<usize>) -> (f64, bool, Option<Range<usize>>) {
        let opposites: Vec<&str> = unit.keys.iter().flat_map(|key| self.dictionary.opposites(key)).collect();
        let pieces = self.reading.pieces.iter().filter(|piece| sentences.contains(&piece.sentence));
        let mut hits = pieces.filter(|piece| piece.keys.iter().any(|key| opposites.contains(&key.as_str())));
        match hits.next() {
            Some(piece) => (1.0, piece.negated == unit.negated, Some(piece.bytes.clone())),
            None => (0.0, false, None),
        }
    }

    /// How much of a unit a piece is: the whole, or some of its words.
    pub(super) fn share(&self, unit: &Unit, piece: &Piece) -> f64 {
        let hit = |key: &String| piece.keys.contains(key) || piece.also.contains(key);
        if unit.keys.first().is_some_and(hit) {
            return 1.0;
        }
        let words: Vec<&String> = unit.keys.iter().filter(|key| !key.starts_with("t:")).collect();
        let heavy: Vec<&&String> = words.iter().filter(|key| !self.dictionary.is_light(key)).collect();
        let (hits, all) = if heavy.is_empty() {
            (words.iter().filter(|key| hit(key)).count(), words.len())
        } else {
            (heavy.iter().filter(|key| hit(key)).count(), heavy.len())
        };
        if all == 0 { 0.0 } else { to_f64(hits) / to_f64(all) }
    }

    fn turns(&self, pattern: &Pattern, says: &mut Vec<Range<usize>>, denies: &mut Vec<Range<usize>>) -> Vec<Found> {
        let mut found = Vec::new();
        let mut places: Vec<Vec<Hit>> = Vec::new();
        for wanted in &pattern.wanted {
            let hits = self.accords(wanted, pattern.direction_alone);
            let apart = pattern.direction_alone && self.in_sentences_apart(&hits);
            found.push(summary(&hits, if apart { APART } else { AS_PLAINLY }));
            places.push(hits);
        }
        let met = found.iter().filter(|one| **one != Found::Missing).count();
        let opposed = found.iter().filter(|one| **one == Found::Opposed).count();
        // Cause and effect both turned round: the same relation told for the opposite change.
        let turned = met >= 2 && opposed == met;
        if turned {
            for one in &mut found {
                if *one == Found::Opposed {
                    *one = Found::Agrees;
                }
            }
        }
        for (_, accord, place) in places.into_iter().flatten() {
            match accord {
                Accord::Agree => says.push(place),
                Accord::Oppose if turned => says.push(place),
                Accord::Oppose => denies.push(place),
                Accord::Unclear => {}
            }
        }
        found
    }

    /// Every claim about a quantity, and how it goes together with what is wanted.
    fn accords(&self, wanted: &Wanted, alone: bool) -> Vec<Hit> {
        let mut hits: Vec<Hit> = Vec::new();
        for claim in self.reading.claims.iter().filter(|claim| !claim.aside) {
            // "Small ones": which.
            let next = self.reading.pieces.get(claim.at + 1).map_or("", |piece| piece.lower.as_str());
            if claim.carried && claim.class == ["size"] && matches!(next, "ones" | "one") {
                continue;
            }
            // "…, with the most made": of nothing that is asked about.
            if alone && self.goes_along(claim) && self.reading.goes_on(claim) {
                continue;
            }
            let apart = alone && claim.about.is_empty() && !self.reading.opens_sentence(claim);
            if apart && !self.instead(claim) {
                continue;
            }
            let known = self.same_quantity(wanted, claim, alone).or_else(|| {
                // "They look alike": where one quantity is asked about, what is alike is that.
                let alike = alone && wanted.direction == Direction::Same && claim.direction == Direction::Same;
                (alike && claim.class.is_empty()).then_some((SAME_QUANTITY, false))
            });
            let Some((share, mirrored)) = known else { continue };
            let mirrored = mirrored != (alone && self.gets_lit(wanted, claim));
            let said = if mirrored { claim.direction.mirrored() } else { claim.direction };
            let open = claim.hedged || self.stays_so(wanted, claim) || (alone && self.beside_before(claim));
            let accord = if open { Accord::Unclear } else { wanted.direction.accord(said) };
            hits.push((share, accord, self.reading.claim_bytes(claim)));
        }
        if hits.is_empty() {
            hits.extend(self.without_turn(wanted));
        }
        let best = hits.iter().map(|(share, ..)| *share).fold(0.0, f64::max);
        if alone {
            let plainly = |claim: &&Claim| {
                let open = claim.aside || claim.hedged || self.stays_so(wanted, claim);
                !open && self.of_what_is_asked(wanted, claim)
            };
            let own: Vec<&Claim> = self.reading.claims.iter().filter(plainly).collect();
            // "Brighter than in the first series" does not say which way it goes in this one.
            for claim in own.into_iter().filter(|claim| !self.beside_before(claim)) {
                let lit = self.gets_lit(wanted, claim);
                let said = if lit { claim.direction.mirrored() } else { claim.direction };
                let accord = wanted.direction.accord(said);
                hits.push((best, accord, self.reading.claim_bytes(claim)));
            }
        }
        hits.retain(|(share, ..)| *share >= best - 0.3);
        hits
    }

    /// "Going down from 9 to 5, …", "From 9 down to 5 …": along the levels, and not what becomes of anything.
    pub(super) fn goes_along(&self, claim: &Claim) -> bool {
        let piece = |place: Option<usize>| place.and_then(|place| self.reading.pieces.get(place));
        let own = piece(Some(claim.at)).map_or("", |piece| piece.lower.as_str());
        let number = |place: Option<usize>| piece(place).is_some_and(|piece| matches!(piece.role, Role::Number(_)));
        let led = piece(Some(claim.at + 1)).is_some_and(|piece| matches!(piece.lower.as_str(), "from" | "to"));
        let going = matches!(own, "going down" | "going up" | "moving up" | "moving down" | "coming down")
            && led
            && number(Some(claim.at + 2));
        let between = matches!(own, "down to" | "up to" | "down" | "up") && number(claim.at.checked_sub(1));
        claim.carried && self.reading.opens_sentence(claim) && (going || between)
    }

    /// "It doesn't fall any more, it climbs": said of the same thing in place of what is denied.
    fn instead(&self, claim: &Claim) -> bool {
        let sentence = |claim: &Claim| self.reading.clauses.get(claim.clause).map(|clause| clause.sentence);
        let mut earlier =
            self.reading.claims.iter().filter(|one| one.at < claim.at && sentence(one) == sentence(claim));
        let Some(before) = earlier.next_back() else { return false };
        let denied = matches!(
            (before.direction, claim.direction),
            (Direction::NotDown, Direction::Up) | (Direction::NotUp, Direction::Down)
        );
        let it = claim.at.checked_sub(1).and_then(|place| self.reading.pieces.get(place));
        denied
            && before.about.is_empty()
            && self.reading.opens_sentence(before)
            && it.is_some_and(|piece| piece.role == Role::Pronoun || piece.lower.starts_with("it"))
    }

    /// Whether two quantities of the guide are one.
    pub(super) fn alike(&self, one: &Wanted, other: &Wanted) -> bool {
        let telling = |about: &[(String, f64)]| -> Vec<String> {
            about
                .iter()
                .filter(|(key, weight)| *weight >= 1.0 && !self.dictionary.is_light(key))
                .map(|(key, _)| key.clone())
                .collect()
        };
        let (one, other) = (telling(&one.about), telling(&other.about));
        let shared = one.iter().filter(|key| other.contains(key)).count();
        shared > 0 && 2 * shared >= one.len().min(other.len())
    }

    /// Whether two quantities of the guide are opposites: what has leaked and what stays.
    pub(super) fn are_opposite(&self, one: &Wanted, other: &Wanted) -> bool {
        one.about.iter().any(|(key, _)| {
            other.about.iter().any(|(known, weight)| *weight >= 0.5 && self.dictionary.opposed(key, known))
        })
    }

    /// Whether a claim speaks of the wanted quantity, or of its opposite.
    pub(super) fn same_quantity(&self, wanted: &Wanted, claim: &Claim, alone: bool) -> Option<Likeness> {
        likeness(wanted, claim, self.topic, alone, self.dictionary)
    }

    /// Directions that are told without a direction word: "the strands cannot pair" for a smaller paired share.
    fn without_turn(&self, wanted: &Wanted) -> Option<(f64, Accord, Range<usize>)> {
        if !matches!(wanted.direction, Direction::Up | Direction::Down) {
            return None;
        }
        let telling = wanted.about.iter().filter(|(key, weight)| *weight >= 1.0 && !key.starts_with("t:"));
        let telling: Vec<&String> = telling.map(|(key, _)| key).collect();
        for piece in self.reading.pieces.iter().filter(|piece| piece.role == Role::Content) {
            let opposite = telling.iter().any(|key| piece.keys.iter().any(|other| self.dictionary.opposed(key, other)));
            if opposite && wanted.direction == Direction::Down && !piece.negated {
                return Some((SAME_QUANTITY, Accord::Agree, piece.bytes.clone()));
            }
        }
        None
    }
}

/// How much more plainly a claim must speak of a quantity for another to count for nothing, in one sentence and in another one.
const AS_PLAINLY: f64 = 0.1;
const APART: f64 = 0.35;

/// A claim about the wanted quantity: how well it is known again, how it goes together, where it stands.
pub(super) type Hit = (f64, Accord, Range<usize>);

/// What the claims come to. Where some agree and some oppose, those that speak of the quantity more plainly count; a denial
/// in as plain words is one.
fn summary(hits: &[Hit], margin: f64) -> Found {
    let best = |wanted: Accord| {
        let shares = hits.iter().filter(|(_, accord, _)| *accord == wanted).map(|(share, ..)| *share);
        shares.fold(None, |best: Option<f64>, share| Some(best.map_or(share, |best| best.max(share))))
    };
    match (best(Accord::Agree), best(Accord::Oppose)) {
        (Some(agree), Some(oppose)) if agree > oppose + margin => Found::Agrees,
        (Some(agree), Some(oppose)) if oppose > agree + margin => Found::Opposed,
        (Some(_), Some(_)) => Found::Both,
        (Some(_), None) => Found::Agrees,
        (None, Some(_)) => Found::Opposed,
        (None, None) if hits.is_empty() => Found::Missing,
        (None, None) => Found::Unclear,
    }
}

#[expect(clippy::cast_precision_loss, reason = "counts of words are small")]
fn to_f64(n: usize) -> f64 {
    n as f64
}
