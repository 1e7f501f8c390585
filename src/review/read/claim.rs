//! Claims: which quantity goes which way.

use std::ops::Range;

use super::case::{both_ways, object_before, of_another_case, serves, turns_back};
use super::clause::Clause;
use super::deed::told_deed;
use super::implied::told_behind;
use super::piece::{Piece, Role};
use crate::review::dictionary::Dictionary;
use crate::review::meaning::{Direction, Grammar, Link, Turn};
use crate::review::words;

/// A direction tied to what it speaks of.
#[expect(clippy::struct_excessive_bools, reason = "each is a fact of its own about the wording")]
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Claim {
    /// With negations taken in.
    pub(crate) direction: Direction,
    /// Keys of the quantity with their weights: the head of the phrase weighs most. Empty where nothing is named.
    pub(crate) about: Vec<(String, f64)>,
    /// The quantity is that of the claim or clause before ("it falls").
    pub(crate) carried: bool,
    /// Number of the clause.
    pub(crate) clause: usize,
    /// Place of the direction word in the list of pieces.
    pub(crate) at: usize,
    /// Places of the pieces of direction and quantity.
    pub(crate) pieces: Range<usize>,
    /// No claim of this case.
    pub(crate) aside: bool,
    /// The answer does not commit itself ("may", "perhaps").
    pub(crate) hedged: bool,
    /// What kind of quantity it is, where that is named or plain from the direction word.
    pub(crate) class: Vec<&'static str>,
    /// The direction stands before what it speaks of ("more sugar").
    pub(crate) attributive: bool,
    /// It sets one case beside others ("more … than", "brightest").
    pub(crate) compares: bool,
    /// The end of the treatment that it is told of: of more, or of less.
    pub(crate) level: Option<Direction>,
    /// It tells a relation by itself: "rises with the dose", "proportional".
    pub(crate) relates: bool,
    /// A thing that does something is there ("Salt lowers …"): more of it, where nothing else is said of how much.
    pub(crate) presence: bool,
}

/// All claims of a text in order.
pub(crate) fn claims(pieces: &[Piece], clauses: &[Clause], dictionary: &Dictionary) -> Vec<Claim> {
    let mut claims: Vec<Claim> = Vec::new();
    for (number, clause) in clauses.iter().enumerate() {
        let reader = Reader { pieces, clause, dictionary };
        let first = claims.len();
        claims.extend(reader.doing(number));
        claims.extend(reader.presence(number));
        let moved = claims.iter().rev().find(|claim| claim.direction != Direction::Same && !claim.presence);
        claims.extend(reader.likewise(number, moved.or(claims.last())));
        for at in clause.pieces.clone() {
            let reader = Reader { pieces, clause, dictionary };
            claims.extend(reader.none(at, number));
            let Some(Piece { role: Role::Turn(turn), .. }) = pieces.get(at) else { continue };
            let topic = topic(&claims, clauses, pieces, number, dictionary);
            let topic = object_before(at, number, clauses, pieces, dictionary).unwrap_or(topic);
            let reader = Reader { pieces, clause, dictionary };
            if claims.last().is_some_and(|before| serves(before, at, *turn, pieces)) {
                continue;
            }
            if let Some(mut claim) = reader.claim(at, *turn, number, topic) {
                if claims.last().is_some_and(|before| turns_back(before, &claim, clauses, pieces)) {
                    claim.about.clear();
                    // "water moves in and makes them bigger": the things.
                    if claim.class == ["size"] && reader.told_of_several(at) {
                        claim.about.push((dictionary.key("volume"), 1.0));
                    }
                }
                claims.push(claim);
            }
        }
        told_deed(&mut claims, first);
    }
    let elsewhere: Vec<bool> = claims.iter().map(|claim| of_another_case(claim, pieces, clauses)).collect();
    claims.iter_mut().zip(elsewhere).filter(|(_, elsewhere)| *elsewhere).for_each(|(claim, _)| claim.aside = true);
    told_behind(&mut claims, pieces, clauses, dictionary);
    both_ways(&mut claims, pieces);
    claims
}

/// What a pronoun stands for: the quantity of the last claim of this or the last sentence, or the first thing named there.
fn topic(
    claims: &[Claim],
    clauses: &[Clause],
    pieces: &[Piece],
    number: usize,
    dictionary: &Dictionary,
) -> Vec<(String, f64)> {
    let near = |clause: usize| {
        let (own, other) =
            (clauses.get(number).map_or(0, |c| c.sentence), clauses.get(clause).map_or(0, |c| c.sentence));
        own <= other + 1
    };
    // "It rises when there is more of it": of something else.
    let occasion = clauses.get(number).is_some_and(|own| {
        let before = number.checked_sub(1).and_then(|before| clauses.get(before));
        let told = |before: &Clause| claims.last().is_some_and(|claim| before.pieces.contains(&claim.at));
        own.link == Some(Link::If) && before.is_some_and(|before| before.sentence == own.sentence && told(before))
    });
    if occasion {
        return Vec::new();
    }
    let claim = claims.last().filter(|claim| near(claim.clause));
    let before = number.checked_sub(1).filter(|before| near(*before));
    let since = before.filter(|before| claim.is_none_or(|claim| claim.clause < *before));
    let named = since.and_then(|before| clauses.get(before)).map(|clause| {
        let reader = Reader { pieces, clause, dictionary };
        reader.right(clause.pieces.start).0
    });
    named.filter(|about| !about.is_empty()).or(claim.map(|claim| claim.about.clone())).unwrap_or_default()
}

pub(super) struct Reader<'a> {
    pub(super) pieces: &'a [Piece],
    pub(super) clause: &'a Clause,
    pub(super) dictionary: &'a Dictionary,
}

/// Keys with their weights.
pub(super) type About = Vec<(String, f64)>;

/// Weight of the verb that rules a phrase.
pub(super) const RULING: f64 = 0.6;
/// Weight of the kind of quantity that a direction word brings along, beside what is named.
const OWN: f64 = 0.3;
/// Weight of what a pronoun stands for, beside what is named.
pub(super) const LEANING: f64 = 0.4;

/// Weight of what holds a thing, beside the thing.
const HOLDING: f64 = 0.25;

/// Words of much that are words of little under a negation.
const MUCH: &[&str] = &["much", "many", "a lot of", "a lot", "plenty", "plenty of", "so well", "that well"];

/// Words that tell how much there is.
const COUNTS: &[&str] = &[
    "more",
    "less",
    "fewer",
    "few",
    "little",
    "plenty of",
    "a lot of",
    "much",
    "most of",
    "nearly all of",
    "almost all of",
    "hardly any",
    "half as much",
    "half as many",
    "twice as much",
    "twice as many",
];

impl Reader<'_> {
    fn claim(&self, at: usize, turn: Turn, number: usize, topic: About) -> Option<Claim> {
        if self.claims_nothing(at, turn) {
            return None;
        }
        let piece = self.pieces.get(at)?;
        let (mut about, pieces, attributive) = self.about(at, turn.grammar);
        // "Warming opens …": it speaks of the temperature and of nothing else.
        if turn.about == "temperature" && self.opens(at) && self.role(Some(at + 1)) != Some(Role::Preposition) {
            about = vec![(self.dictionary.key("temperature"), 1.0)];
        }
        let direction = self.direction(at, turn);
        let spared = !attributive && self.spares(at, turn, &mut about);
        let undone = attributive && self.counts_undoing(at);
        let direction = if spared || undone { direction.mirrored() } else { direction };
        let carried = self.complete(at, &pieces, attributive, &mut about, topic);
        let mut class = self.class(piece, attributive, &mut about);
        // "The gap shrinks": of whatever it is, and not of a volume.
        let thing = |key: &str| key.starts_with("t:") || key == "volum" || self.dictionary.class(key) == Some("volume");
        if turn.about == "volume" && !carried && about.iter().all(|(key, weight)| *weight < 0.5 || !thing(key)) {
            class.retain(|class| *class != "volume");
            about.retain(|(key, _)| key != "volum");
        }
        // "splits more per minute": how fast it does so.
        let cuts = about.iter().any(|(key, weight)| *key == "split" && *weight >= LEANING);
        let subject = self.role(Some(at + 1)) == Some(Role::Copula);
        if cuts && (!attributive || subject) && COUNTS.contains(&piece.lower.as_str()) && self.per_time(at) {
            class.extend(["amount", "rate"]);
        }
        let direction = self.of_a_liquid(piece, direction, &mut about, &mut class);
        if self.way_of_light(at, turn, &about) {
            class = vec!["distance"];
        } else {
            self.combine(at, &mut about, &mut class);
        }
        let aside =
            self.clause.aside_from.is_some_and(|from| from < at) || self.reversed(at) || self.asks_how(at, direction);
        let is_hedge = |place: usize| self.hedges(place);
        let hedged = self.clause.hedged || self.clause.pieces.clone().any(is_hedge);
        let beside = self.sets_beside(at, turn);
        let direction = if self.nears_an_end(at, &class) { direction.mirrored() } else { direction };
        let clause = number;
        Some(Claim {
            direction,
            about,
            carried,
            clause,
            at,
            pieces,
            aside,
            hedged,
            class,
            attributive,
            compares: beside,
            level: None,
            relates: self.relates(at, turn),
            presence: false,
        })
    }

    /// "That decides how it changes": not that it does. "How changing one thing changes another" tells a relation.
    fn asks_how(&self, at: usize, direction: Direction) -> bool {
        let asks = |place: usize| {
            matches!(self.word(Some(place)), "how" | "whether") && !self.word(Some(place + 1)).ends_with("ing")
        };
        direction == Direction::Changed && (self.clause.pieces.start..at).any(asks)
    }

    /// Which way a word of direction goes, with what stands before it.
    fn direction(&self, at: usize, turn: Turn) -> Direction {
        let piece = self.pieces.get(at);
        let (word, negated) = piece.map_or(("", false), |piece| (piece.lower.as_str(), piece.negated));
        let before = self.word(at.checked_sub(1));
        // "all equally dim".
        if before.ends_with("equally") || before.ends_with("equal") {
            return Direction::Same;
        }
        // "less slowed" is faster.
        let grown = matches!(turn.grammar, Grammar::Either | Grammar::Intransitive);
        let lessened = grown && word.ends_with("ed") && before == "less";
        // "not as fast" is slower; "not faster" is only not faster. "not much" is little.
        let compared = lessened || matches!(before, "as" | "so" | "that") || MUCH.contains(&word);
        match (negated || lessened, compared) {
            (true, true) => turn.direction.mirrored(),
            (true, false) => turn.direction.denied(),
            (false, _) => turn.direction,
        }
    }

    /// Takes in what stands elsewhere: the subject of a measure, what a pronoun stands for, the verb that rules the phrase.
    /// Says whether the quantity is wholly that of what was spoken of before.
    fn complete(&self, at: usize, pieces: &Range<usize>, attributive: bool, about: &mut About, topic: About) -> bool {
        let own = self.pieces.get(at).and_then(|piece| piece.keys.iter().find_map(|key| self.dictionary.class(key)));
        let mut spoken = self.spoken(&topic);
        if spoken.is_empty() {
            spoken = self.first_named();
        }
        // "lasts a shorter time", "at a higher rate": of what stands before.
        let none_on =
            ["effect", "difference", "influence", "impact"].iter().any(|word| self.word(Some(at)).ends_with(word));
        if attributive && !none_on && self.measure(about) {
            self.left(at).0.into_iter().for_each(|(key, weight)| add(about, &key, weight));
        }
        let carried = about.is_empty();
        // "when it's saltier": of the salt, whatever "it" is.
        let salt = self.dictionary.key("salt");
        let topic =
            if self.pieces.get(at).is_some_and(|piece| piece.keys.contains(&salt)) { About::new() } else { topic };
        let by_the_way = topic.iter().all(|(key, _)| {
            self.dictionary.class(key) == Some("rate")
                || ["split", "react", "t:enzyme", "t:reaction-rate"].contains(&key.as_str())
        });
        if carried && by_the_way && self.made(at) {
            // "It hadn't made much": of what comes of it.
            about.push((self.dictionary.key("product"), 1.0));
        } else if carried {
            // "and get further": the kind of quantity is that of the direction word.
            // So is that of "more of it", where it was spoken of how fast.
            let counts = COUNTS.contains(&self.word(Some(at)));
            let kept = topic.into_iter().filter(|(key, _)| match self.dictionary.class(key) {
                Some(class) => own.is_none() && !(counts && words::lists().telling.contains(&class)),
                None => true,
            });
            about.extend(kept.map(|(key, weight)| (key, if own.is_some() { weight.min(LEANING) } else { weight })));
        } else if self.leans(pieces)
            || (attributive && self.there_is(at))
            || self.has_more(at, attributive)
            || self.bare(about)
        {
            // "its concentration", "they move": of what was spoken of before.
            let weight = if own.is_none() && self.bare(about) { 1.0 } else { LEANING };
            let telling = topic.into_iter().filter(|(key, _)| {
                (self.dictionary.class(key).is_none() || key == "light")
                    && !key.starts_with("t:")
                    && !self.dictionary.is_light(key)
                    && self.dictionary.opposites(key).next().is_none()
            });
            telling.take(3).for_each(|(key, _)| add(about, &key, weight));
        }
        if carried && self.they_shrink(at, about) {
            // "They get smaller": the things, and not what was told of before.
            about.clear();
            about.push((self.dictionary.key("volume"), 1.0));
        }
        self.held_by(at, carried, about);
        self.around(at, pieces, attributive && !carried, &spoken, about);
        carried
    }

    /// What was spoken of before, without kinds of quantity and states.
    fn spoken(&self, topic: &About) -> About {
        let plain = |key: &str| {
            !self.dictionary.is_light(key)
                && self.dictionary.class(key).is_none()
                && self.dictionary.opposites(key).next().is_none()
        };
        topic.iter().filter(|(key, _)| plain(key)).take(3).cloned().collect()
    }

    /// What the sentence names first.
    fn first_named(&self) -> About {
        let sentence = self.pieces.get(self.clause.pieces.start).map(|piece| piece.sentence);
        let named = |piece: &&Piece| {
            Some(piece.sentence) == sentence
                && piece.role == Role::Content
                && !piece.verb
                && piece.keys.iter().any(|key| !self.dictionary.is_light(key) && self.dictionary.class(key).is_none())
        };
        let first = self.pieces.iter().find(named);
        let keys = first.into_iter().flat_map(|piece| &piece.keys).map(|key| (key.clone(), 0.5));
        self.spoken(&keys.collect())
    }

    /// "A lot has come out, so there is a lot of it in this liquid": of what is there, and no longer of what came out.
    fn held_by(&self, at: usize, carried: bool, about: &mut About) {
        let after = at + 1 + usize::from(self.word(Some(at + 1)) == "of");
        let of_it = carried && self.role(Some(after)) == Some(Role::Pronoun);
        if !of_it || !matches!(self.word(Some(after + 1)), "in" | "inside" | "within") {
            return;
        }
        let small =
            |place: &usize| matches!(self.role(Some(*place)), Some(Role::Article | Role::Plain | Role::Pronoun));
        let holder = (after + 2..self.clause.pieces.end).find(|place| !small(place));
        let holder = holder.filter(|place| self.role(Some(*place)) == Some(Role::Content));
        if let Some(piece) = holder.and_then(|place| self.pieces.get(place)) {
            *about = self.spoken(about);
            piece.keys.iter().for_each(|key| add(about, key, 1.0));
        }
    }

    /// Takes in what stands around a phrase: what "them" stands for, the verb behind it, what holds or rules it, and where it is
    /// let.
    fn around(&self, at: usize, pieces: &Range<usize>, named: bool, spoken: &About, about: &mut About) {
        let ahead = pieces.start == at;
        if named && self.word(Some(at + 1)) == "of" && self.role(Some(at + 2)) == Some(Role::Pronoun) {
            // "more of them are present": of the things spoken of.
            for (key, weight) in spoken {
                add(about, key, weight.min(if key.starts_with("t:") { 0.5 } else { LEANING }));
            }
        }
        // "easier to cross", "harder for the dye to cross".
        let hard = matches!(self.word(Some(at)), "harder" | "easier" | "easy" | "hard");
        let reach = if hard && self.word(Some(at + 1)) == "for" { at + 6 } else { at + 2 };
        let to = (at + 1..reach).find(|place| self.word(Some(*place)) == "to").filter(|to| self.verb(to + 1));
        if let Some(deed) = to.and_then(|to| self.pieces.get(to + 1)) {
            deed.keys.iter().for_each(|key| add(about, key, 1.0));
        }
        if named {
            // "The liquid holds less dye": less of what is in the liquid.
            if let Some(holder) = self.holder(at) {
                self.left(holder).0.into_iter().for_each(|(key, weight)| add(about, &key, weight.min(HOLDING)));
            }
            self.ruling(at, pieces.end).iter().for_each(|key| add(about, key, RULING));
        }
        // "less light stopped", "less light is blocked".
        let light = self.dictionary.key("light");
        let behind = (pieces.end..self.clause.pieces.end).find(|place| self.role(Some(*place)) != Some(Role::Copula));
        let stopped = matches!(self.word(behind), "stopped" | "blocked" | "prevented" | "stop" | "block");
        if named && stopped && about.iter().any(|(key, weight)| *key == light && *weight >= 1.0) {
            about.retain(|(key, _)| self.dictionary.class(key) != Some("bright") || *key == light);
            add(about, &self.dictionary.key("absorb"), 1.0);
        }
        // "keeps more dye in".
        let keeps = (self.clause.pieces.start..at).any(|place| {
            let word = self.word(Some(place));
            ["keep", "hold", "lock", "trap", "kept", "held"].iter().any(|verb| word.starts_with(verb))
        });
        let last =
            (at..self.clause.pieces.end).rev().find(|place| !matches!(self.role(Some(*place)), Some(Role::Mark(_))));
        if ahead && keeps && self.word(last) == "in" {
            add(about, &self.dictionary.key("stay"), 1.0);
        }
        // "lets the dye out faster", "lets more of it out".
        let word = |place: usize| self.word(Some(place));
        let lets = (self.clause.pieces.start..at).any(|place| matches!(word(place), "let" | "lets" | "letting"));
        let mut reach = if ahead { at..self.clause.pieces.end } else { self.clause.pieces.start..at };
        if lets && reach.any(|place| word(place) == "out") {
            add(about, &self.dictionary.key("leak out"), 1.0);
        }
    }

    /// The kinds of quantity: those that the phrase names, else that of the direction word: "faster" speaks of a rate, "more
    /// dye" of an amount. The word's own quantity is taken in where the phrase names none.
    fn class(&self, piece: &Piece, attributive: bool, about: &mut About) -> Vec<&'static str> {
        // Beside a kind of its own, what the word leans on names none.
        let own = piece.keys.iter().any(|key| self.dictionary.class(key).is_some());
        let least = if own { LEANING } else { 0.15 };
        let head = about.iter().filter(|(_, weight)| *weight > least);
        let named = head.clone().any(|(key, _)| self.dictionary.class(key).is_some());
        let mut class: Vec<&'static str> = head.filter_map(|(key, _)| self.dictionary.class(key)).collect();
        if class.is_empty() {
            class.extend(piece.keys.iter().find_map(|key| self.dictionary.class(key)));
        }
        // "just as fast".
        let ending = |word: &str| piece.lower.ends_with(word);
        if class.is_empty() && piece.lower.contains("as ") {
            let kinds =
                [("fast", "rate"), ("quick", "rate"), ("bright", "bright"), ("far", "distance"), ("dark", "colour")];
            class.extend(kinds.iter().find(|(word, _)| ending(word)).map(|(_, kind)| *kind));
        }
        // "a shorter time".
        if class == ["length"] && about.iter().any(|(key, _)| self.dictionary.class(key) == Some("time")) {
            class = vec!["time"];
        }
        let word = piece.lower.as_str();
        let counts = COUNTS.contains(&word);
        let quality = about.first().is_some_and(|(key, _)| self.dictionary.is_adjective(key));
        if counts && attributive && !quality {
            class.push("amount");
        }
        let size = ["small", "smaller", "big", "bigger", "large", "larger", "tiny", "little", "tinier", "huge"];
        if class.is_empty() && size.contains(&word) {
            class.push("size");
        }
        for key in piece.keys.iter().filter(|_| !named) {
            let alone = about.iter().all(|(key, weight)| *weight < 0.5 || self.dictionary.is_light(key));
            add(about, key, if alone { 1.0 } else { OWN });
        }
        class
    }
}

impl Reader<'_> {
    /// Whether a word leaves open what is claimed.
    fn hedges(&self, at: usize) -> bool {
        // "flat at roughly 40": how near the number is.
        let nearly =
            matches!(self.word(Some(at)), "roughly" | "about" | "around" | "approximately" | "approx" | "near")
                && matches!(self.role(Some(at + 1)), Some(Role::Number(_)));
        self.role(Some(at)) == Some(Role::Hedge) && !self.within_a_name(at) && !nearly
    }

    /// "the top speed it could reach | is lower": which speed, and no hedge.
    fn within_a_name(&self, at: usize) -> bool {
        let verb = matches!(
            self.word(Some(at + 1)),
            "do" | "go" | "manage" | "reach" | "run" | "work" | "have" | "achieve" | "get to"
        );
        let finite = match self.role(Some(at + 2)) {
            Some(Role::Copula) => true,
            Some(Role::Turn(turn)) => turn.grammar == Grammar::Intransitive,
            _ => false,
        };
        let subject = matches!(self.role(at.checked_sub(1)), Some(Role::Pronoun | Role::Content));
        self.word(Some(at)) == "could" && subject && verb && finite
    }

    /// "… each second", "… per minute" behind a word of direction.
    fn per_time(&self, at: usize) -> bool {
        let unit = self.dictionary.key("minute");
        (at + 1..self.clause.pieces.end).any(|place| {
            let named = self.pieces.get(place).is_some_and(|piece| piece.keys.contains(&unit));
            named && matches!(self.word(place.checked_sub(1)), "per" | "each" | "every" | "a")
        })
    }
}

/// Adds a key that is not there yet.
pub(super) fn add(about: &mut About, key: &str, weight: f64) {
    if !about.iter().any(|(known, _)| known == key) {
        about.push((key.to_owned(), weight));
    }
}
