//! Points whose answers are not known in advance, and those that weigh one thing against another: a prediction by its
//! direction, a verdict on data, a second effect, any sound fault, limitation or control.

use std::ops::Range;

use super::guide::Point;
use super::judge::{Fared, Judge, Verdict, both, limit, says};
use super::matching::Found;
use super::meaning::{Accord, Direction, Link};
use super::pattern::{Pattern, Wanted};
use super::read::{Claim, Number, Piece, Role};
use super::told::Told;
use super::verdict::Status;
use super::words;

/// How far a number may be from the guide's to stand for "it stays near …".
const NEAR: f64 = 0.03;
/// How far a number may be from the end of an interval that it tells.
const NEAR_END: f64 = 0.002;
/// Words from which on a fault with its effect may be told.
const SENTENCE: usize = 10;

/// Upper 5 % point of chi-square with one degree of freedom (NIST/SEMATECH e-Handbook, table 1.3.6.7.4).
const CRITICAL: f64 = 3.84;

impl Judge<'_> {
    /// A prediction that earns by its direction alone.
    pub(super) fn prediction(&self, point: &Point, whole: &Pattern) -> Verdict {
        let found = self.predicted(whole);
        match Self::fared(whole, &found, limit::WORDS_ALONE) {
            Fared::Said => return (Status::Found, says(&found.says)),
            Fared::Denied => return (Status::Contradicted, both(&found.says, &found.denies)),
            Fared::Partly | Fared::Missing => {}
        }
        for text in &point.accept {
            let pattern = self.pattern(text);
            let other = self.matcher().find(&pattern);
            if !pattern.is_empty() && Self::fared(&pattern, &other, limit::ALTERNATIVE) == Fared::Said {
                return (Status::Found, says(&other.says));
            }
        }
        if let Some(place) = self.by_numbers(point).filter(|_| found.effect() == Some(Found::Missing)) {
            return (Status::Found, says(&[place]));
        }
        match found.effect() {
            Some(Found::Unclear) => (Status::LookAgain, says(&found.says)),
            _ => (Status::NotFound, Vec::new()),
        }
    }

    /// A prediction told by its numbers: "about 150 in all", "from 1.07 to 0.74".
    fn by_numbers(&self, point: &Point) -> Option<Range<usize>> {
        let guide = self.dictionary.of_guide(&point.statement);
        let wanted: Vec<f64> = guide.numbers.iter().map(|number| number.value).collect();
        let said: Vec<f64> = self.reading.numbers.iter().map(|number| number.value).collect();
        let near = |one: f64, other: f64| (one - other).abs() <= NEAR * one.abs().max(other.abs());
        let fits = match wanted.as_slice() {
            [one] => !said.is_empty() && said.iter().all(|value| near(*value, *one)),
            [one, other] => matches!(said.as_slice(), [a, b] if near(*a, *one) && near(*b, *other)),
            _ => false,
        };
        let start = self.reading.numbers.first()?.bytes.start;
        fits.then(|| start..self.reading.numbers.last().map_or(start, |number| number.bytes.end))
    }

    /// A verdict on a claim from intervals: which one, and whether it rests on them.
    pub(super) fn settled(&self, point: &Point) -> Verdict {
        let lists = words::lists();
        let verdict = |text: &Told| {
            let has = |list: &[&str]| text.affirms(list);
            (has(&lists.unsettled), has(&lists.supports), has(&lists.rejects), has(&lists.no_difference))
        };
        let text = Told::of(&self.reading.text);
        let (open, supports, rejects, alike) = verdict(&text);
        let (wants_open, wants_support, ..) = verdict(&Told::of(&point.statement));
        // The means alone are no intervals; their ends are, and what lies about a mean.
        let guide = self.dictionary.of_guide(&point.statement);
        let end = |number: &&Number| {
            guide.numbers.iter().any(|one| (one.value - number.value).abs() <= NEAR_END * one.value.abs())
        };
        let numbers = self.reading.numbers.iter().filter(end).count() >= 2 || self.reading.numbers.len() >= 4;
        let intervals = numbers || text.has(&lists.intervals);
        let all = 0..self.reading.text.len();
        let wrong = if wants_open {
            alike || (!open && (supports || rejects))
        } else {
            open || alike || (rejects && !supports)
        };
        let refused = text.denies(&lists.supports);
        let wrong = wrong || (!wants_open && refused && !supports);
        let right = if wants_open { open } else { wants_support && supports };
        let meets = text.has(&lists.meeting);
        match () {
            () if wrong => (Status::Contradicted, both(&[], &[all])),
            () if right && intervals => (Status::Found, says(&[all])),
            () if meets => (Status::LookAgain, says(&[all])),
            () => (Status::NotFound, Vec::new()),
        }
    }

    /// A verdict from chi-square: the one that follows from the answer's own value, beside the critical one.
    pub(super) fn tested(&self, point: &Point) -> Verdict {
        let text = Told::of(&self.reading.text);
        let lists = words::lists();
        let rejects = text.affirms(&lists.differing) || text.denies(&lists.agreeing);
        let keeps = text.affirms(&lists.agreeing) || text.denies(&lists.differing);
        let result = |number: &&Number| {
            let before = self.reading.text.get(..number.bytes.start).unwrap_or_default().trim_end();
            // "df = 1" is no value of it.
            let name = before.trim_end_matches(['=', ' ']).rsplit(|letter: char| !letter.is_alphabetic()).next();
            before.ends_with('=') && !matches!(name, Some("df" | "dof" | "freedom" | "p" | "P" | "n" | "N"))
        };
        let shown = self.reading.numbers.iter().rev().find(result).map(|number| number.value);
        let larger = shown.map_or(point.statement.contains("is larger"), |value| value > CRITICAL);
        let compared = text.has(&["3.84", "critical"]);
        // No test proves a claim.
        let proves = text.affirms(&lists.proves);
        let all = 0..self.reading.text.len();
        match (if larger { (rejects, keeps) } else { (keeps, rejects) }, compared) {
            ((_, true), _) => (Status::Contradicted, both(&[], &[all])),
            _ if proves => (Status::Contradicted, both(&[], &[all])),
            ((true, false), true) if !proves => (Status::Found, says(&[all])),
            ((false, false), true) => (Status::LookAgain, says(&[all])),
            _ => (Status::NotFound, Vec::new()),
        }
    }

    /// A second effect of the same treatment, with what it leads to.
    pub(super) fn second_effect(&self, point: &Point) -> Verdict {
        // "…: a second effect of the same treatment, by which X falls"; "…; by this second effect X falls".
        let (before, after) = point.statement.split_once("second effect").unwrap_or((&point.statement, ""));
        let effect = before.rsplit_once([':', ';']).map_or(before, |(effect, _)| effect);
        let outcome = after.split_once("by which ").map_or(after, |(_, outcome)| outcome);
        let (own, result) = (self.pattern(effect), self.pattern(outcome));
        let (named, led) = (self.matcher().find(&own), self.matcher().find(&result));
        let trap = self.trap(point, false);
        let told = own.wanted.iter().zip(&named.turns).filter(|(wanted, _)| !wanted.cause);
        let turns: Vec<Found> = told.map(|(_, found)| *found).collect();
        let directed = turns.contains(&Found::Agrees);
        let opposed = !directed && turns.contains(&Found::Opposed);
        let ends = led.effect() == Some(Found::Agrees);
        let places: Vec<Range<usize>> = named.says.iter().chain(&led.says).cloned().collect();
        let enough = named.named() >= limit::WITH_DIRECTIONS;
        match (trap, opposed) {
            (Some(place), _) if !directed || !enough => (Status::Contradicted, both(&places, &[place])),
            (_, true) => (Status::Contradicted, both(&places, &named.denies)),
            _ if directed && (ends || enough) => (Status::Found, says(&places)),
            _ if enough && ends => (Status::Found, says(&places)),
            _ if directed || enough => (Status::LookAgain, says(&places)),
            _ => (Status::NotFound, Vec::new()),
        }
    }

    /// Any sound fault, limitation or control: things of this investigation named, with an effect.
    pub(super) fn open(&self) -> Verdict {
        let text = Told::of(&self.reading.text);
        let vague = text.has(&words::lists().vague);
        let known = |key: &String| {
            let named = |reading: &super::read::Reading| {
                reading.pieces.iter().any(|piece| piece.role == Role::Content && piece.keys.contains(key))
            };
            named(self.prompt) || self.guide_names(key)
        };
        let mut things: Vec<&String> = Vec::new();
        let mut places: Vec<Range<usize>> = Vec::new();
        for piece in self.reading.pieces.iter().filter(|piece| piece.role == Role::Content) {
            if let Some(key) =
                piece.keys.first().filter(|key| !self.dictionary.is_light(key) && (piece.term.is_some() || known(key)))
                && !things.contains(&key)
            {
                things.push(key);
                places.push(piece.bytes.clone());
            }
        }
        let moves = |role: Role| match role {
            Role::Turn(_) | Role::Negator => true,
            Role::Link(link) => matches!(link, Link::Because | Link::So | Link::If),
            _ => false,
        };
        let effect = self.reading.pieces.iter().any(|piece| moves(piece.role)) || text.has(&["would"]);
        let words = self.reading.pieces.iter().filter(|piece| !matches!(piece.role, Role::Mark(_))).count();
        match (things.len(), effect && words >= SENTENCE, vague) {
            (2.., true, false) => (Status::Found, says(&places)),
            (1.., _, false) => (Status::LookAgain, says(&places)),
            _ => (Status::NotFound, Vec::new()),
        }
    }

    /// Whether any point of the guide names a thing.
    fn guide_names(&self, key: &str) -> bool {
        self.question.points.iter().any(|point| {
            let pattern = self.pattern(&point.statement);
            pattern.units.iter().any(|unit| unit.keys.iter().any(|known| known == key))
        })
    }

    /// What the trap says, said by the answer: all its directions, of one change or of the opposite one, in one sentence, and,
    /// where so asked, each by a claim of its own: "less is left in them" says what the trap begins with, and not what it ends
    /// with.
    pub(super) fn trap(&self, point: &Point, each: bool) -> Option<Range<usize>> {
        let statement = self.pattern(&point.statement);
        let matcher = self.matcher();
        // A claim that says what the statement says is none of the trap's.
        let plainer = |claim: &Claim, share: f64| {
            let ways = statement.wanted.iter().filter(|wanted| wanted.direction != Direction::Changed);
            let own = ways.filter_map(|wanted| matcher.same_quantity(wanted, claim, false));
            own.into_iter().any(|(other, _)| other > share + 1e-9)
        };
        point.reject.iter().find_map(|text| {
            let pattern = self.pattern(text);
            let n = pattern.wanted.len();
            let sentences = 0..self.reading.sentences.len();
            sentences.into_iter().filter(|_| n >= 2).find_map(|sentence| {
                [Accord::Agree, Accord::Oppose].into_iter().find_map(|way| {
                    let told = |wanted: &Wanted| -> Vec<&Claim> {
                        let all = self.claimed(wanted);
                        let here = |claim: &Claim| {
                            self.reading.clauses.get(claim.clause).map(|clause| clause.sentence) == Some(sentence)
                        };
                        // What is told more plainly the other way is not told by a word in passing.
                        let against = all.iter().filter(|(claim, accord, _)| *accord != way && here(claim));
                        let against = against.map(|(.., share)| *share).fold(0.0, f64::max);
                        let claims = all.into_iter().filter(|(claim, accord, share)| {
                            *accord == way && here(claim) && !plainer(claim, *share) && *share + limit::HALF > against
                        });
                        claims.map(|(claim, ..)| claim).collect()
                    };
                    let told: Vec<Vec<&Claim>> = pattern.wanted.iter().map(told).collect();
                    // "It is highest at 40": what sets one level beside the others tells all of it.
                    let whole = |claim: &Claim| {
                        let word = self.reading.pieces.get(claim.at).map_or("", |piece| piece.lower.as_str());
                        claim.compares && !claim.attributive && !word.starts_with("most")
                    };
                    let hits = if each || way == Accord::Oppose {
                        each_its_own(&told, &whole)?
                    } else {
                        told.iter().map(|own| own.first().copied()).collect::<Option<_>>()?
                    };
                    let hits: Vec<Range<usize>> =
                        hits.into_iter().map(|claim| self.reading.claim_bytes(claim)).collect();
                    join(&hits)
                })
            })
        })
    }

    /// "Giving it more doesn't help": more of it, and nothing comes of that.
    fn idle(&self, claim: &Claim) -> bool {
        let word = self.reading.pieces.get(claim.at).map_or("", |piece| piece.lower.as_str());
        let link = self.reading.clauses.get(claim.clause).and_then(|clause| clause.link);
        // "with the smallest dose": on which occasion.
        if claim.attributive && word.ends_with("est") && link == Some(Link::If) {
            return true;
        }
        let end = self.reading.clauses.get(claim.clause).map_or(0, |clause| clause.pieces.end);
        let behind = self.reading.pieces.get(claim.pieces.end..end).unwrap_or_default();
        let helps = |piece: &Piece| ["help", "matter", "count"].iter().any(|verb| piece.lower.starts_with(verb));
        let denied = behind.iter().position(|piece| piece.role == Role::Negator);
        denied.is_some_and(|denied| behind.iter().skip(denied).take(3).any(helps))
    }

    /// Claims about a quantity that commit themselves to more or less of it.
    pub(super) fn claimed(&self, wanted: &Wanted) -> Vec<(&Claim, Accord, f64)> {
        let matcher = self.matcher();
        let claims = self.reading.claims.iter().filter(|claim| !claim.aside && !claim.hedged && !self.idle(claim));
        let ways = claims.filter_map(|claim| {
            let (share, mirrored) = matcher.same_quantity(wanted, claim, false)?;
            let said = if mirrored { claim.direction.mirrored() } else { claim.direction };
            let accord = wanted.direction.accord(said);
            (matches!(said, Direction::Up | Direction::Down) && accord != Accord::Unclear)
                .then_some((claim, accord, share))
        });
        ways.collect()
    }
}

/// A claim for each list, none of them twice, but those that tell all of it.
fn each_its_own<'a>(lists: &[Vec<&'a Claim>], whole: &impl Fn(&Claim) -> bool) -> Option<Vec<&'a Claim>> {
    let (first, rest) = match lists {
        [] => return Some(Vec::new()),
        [first, rest @ ..] => (first, rest),
    };
    first.iter().find_map(|claim| {
        let others: Vec<Vec<&Claim>> = rest
            .iter()
            .map(|list| list.iter().copied().filter(|other| other.at != claim.at || whole(claim)).collect())
            .collect();
        let mut found = each_its_own(&others, whole)?;
        found.insert(0, claim);
        Some(found)
    })
}

/// From the first to the last of some places.
pub(super) fn join(places: &[Range<usize>]) -> Option<Range<usize>> {
    let start = places.iter().map(|place| place.start).min()?;
    let end = places.iter().map(|place| place.end).max()?;
    Some(start..end)
}
