//! Turns of phrase that decide what a direction word claims, and whether it claims anything.

use super::claim::{About, LEANING, Reader};
use super::piece::{Piece, Role};
use crate::review::meaning::{Direction, Grammar, Link, Turn};
use crate::review::words;

/// Words by which a clause tells of another case what was told of the first, turned round.
const REVERSE: &[&str] = &["reverse", "opposite", "vice versa", "other way round", "other way around"];

impl Reader<'_> {
    /// "the little loops", "leaves little gaps": small ones, and not few of them. What is little of a stuff is no plural.
    fn small_ones(&self, at: usize) -> bool {
        let next = self.word(Some(at + 1));
        let several =
            next.len() > 3 && next.ends_with('s') && !["ss", "us", "is"].iter().any(|end| next.ends_with(end));
        let before = self.word(at.checked_sub(1));
        self.word(Some(at)) == "little"
            && several
            && self.role(Some(at + 1)) == Some(Role::Content)
            && !matches!(before, "so" | "as" | "too" | "very" | "how")
    }

    pub(super) fn role(&self, at: Option<usize>) -> Option<Role> {
        at.filter(|at| self.clause.pieces.contains(at)).and_then(|at| self.pieces.get(at)).map(|piece| piece.role)
    }

    /// A word in lower case; empty beyond the text.
    pub(super) fn word(&self, at: Option<usize>) -> &str {
        at.and_then(|at| self.pieces.get(at)).map_or("", |piece| piece.lower.as_str())
    }

    /// Whether a word of direction claims nothing here.
    pub(super) fn claims_nothing(&self, at: usize, turn: Turn) -> bool {
        // "has a big effect on": not which way.
        let size = matches!(self.word(Some(at + 1)), "effect" | "influence" | "impact" | "effects" | "role");
        // "toward lower potential": where, not which way.
        let toward = matches!(self.word(at.checked_sub(1)), "toward" | "towards");
        size || toward
            || self.going_to(at)
            || self.measures(at)
            || self.names_which(at, turn)
            || self.told_by_another(at, turn)
            || self.only_describes(at)
            || self.kept_alike(at, turn)
    }

    /// Whether a word of direction says which things are meant, and nothing of them.
    fn names_which(&self, at: usize, turn: Turn) -> bool {
        let Some(piece) = self.pieces.get(at) else { return true };
        let back = self.word(at.checked_sub(1));
        // "the large ones" names things and says nothing of them.
        let warm = turn.about == "temperature"
            && (self.clause.pieces.start..at).all(|place| {
                matches!(self.role(Some(place)), Some(Role::Article | Role::Plain | Role::Link(_) | Role::Preposition))
            });
        let first = self.opens(at) && self.clause.link.is_none() && turn.about.is_empty();
        // "It will be the dimmest one" tells of it as "the dimmest" does.
        let being = back == "the" && piece.lower.ends_with("est") && self.role(at.checked_sub(2)) == Some(Role::Copula);
        let ones = matches!(self.word(Some(at + 1)), "ones" | "one")
            && !(warm || first || being)
            && (turn.about.is_empty() || !self.opens(at));
        // "more short RNA": which one, and more of it.
        let described = matches!(back, "more" | "less" | "fewer") && self.describes(at);
        // "the highest possible rate is halved": which rate.
        let superlative =
            turn.grammar == Grammar::Comparative && (piece.lower.ends_with("est") || piece.lower == "maximal");
        let later = (at + 2..self.clause.pieces.end)
            .find(|place| !matches!(self.role(Some(*place)), Some(Role::Content | Role::Copula | Role::Plain)));
        // "the palest liquid lets the least through": both are told.
        let most = |word: &str| word.ends_with("est") || word == "the most" || word == "the least";
        let named = superlative
            && self.role(Some(at + 1)) == Some(Role::Content)
            && matches!(self.role(later), Some(Role::Turn(_)))
            && !(self.opens(at) && most(self.word(later)));
        // "hardly any energy jumps over": what the little of it does.
        let counted = matches!(turn.grammar, Grammar::Intransitive)
            && self.role(Some(at + 1)) == Some(Role::Preposition)
            && self.role(at.checked_sub(1)) == Some(Role::Content)
            && self.counted(at);
        // "Tubes with lots of it and tubes with little shine alike": which tubes.
        let marked = self.marks_out(at, turn) || piece.lower == "the most" && self.most_of_which(at);
        ones || described || named || counted || marked || self.small_ones(at)
    }

    /// Whether another word makes the claim, and this one only goes with it.
    fn told_by_another(&self, at: usize, turn: Turn) -> bool {
        let Some(piece) = self.pieces.get(at) else { return true };
        let (before, back) = (self.role(at.checked_sub(1)), self.word(at.checked_sub(1)));
        let next = self.role(Some(at + 1));
        // "as long as before" says what is kept alike.
        let as_before = back == "as" && self.word(Some(at + 1)).starts_with("as") && !piece.negated;
        // "longer heating": a thing done for longer, not a change of its own.
        let done = piece.lower.ends_with("ing")
            && matches!(before, Some(Role::Turn(Turn { grammar: Grammar::Comparative, .. })));
        // "falls faster than": one claim, made by the verb.
        let moves = |role: Option<Role>| {
            matches!(role, Some(Role::Turn(Turn { grammar: Grammar::Intransitive | Grammar::Either, .. })))
        };
        let manner = turn.about == "rate" && moves(before);
        // "less slowed": one claim, made by the verb.
        let lessens = piece.lower == "less" && moves(next) && self.word(Some(at + 1)).ends_with("ed");
        // "picks up more protons": what it does to something else.
        let object = matches!(piece.lower.as_str(), "pick up" | "picks up" | "picked up")
            && matches!(next, Some(Role::Article | Role::Content | Role::Turn(_)));
        // "less charge builds up": one claim, made by the first word.
        let gathers = matches!(piece.lower.as_str(), "build up" | "builds up" | "built up" | "building up")
            && (self.clause.pieces.start..at).any(|place| matches!(self.role(Some(place)), Some(Role::Turn(_))));
        as_before || done || manner || lessens || object || gathers
    }

    /// "Going down to 60 would …": to which level.
    fn going_to(&self, at: usize) -> bool {
        let gerund = ["going ", "moving ", "rising", "falling", "dropping", "climbing"];
        gerund.iter().any(|word| self.word(Some(at)).starts_with(word))
            && self.opens(at)
            && matches!(self.word(Some(at + 1)), "to" | "from")
            && matches!(self.role(Some(at + 2)), Some(Role::Number(_)))
    }

    /// Whether a word tells of something else than a change: a picture, which ones, what a ratio is set against.
    fn only_describes(&self, at: usize) -> bool {
        let Some(piece) = self.pieces.get(at) else { return true };
        let before = self.role(at.checked_sub(1));
        // "a lot of surface for the little volume": what it is set against.
        let ratio = self.dictionary.key("surface to volume ratio");
        let against = at.checked_sub(1).and_then(|place| self.pieces.get(place)).is_some_and(|piece| {
            let last = piece.lower.rsplit(' ').next().unwrap_or_default();
            piece.keys.contains(&ratio) && matches!(last, "the" | "its" | "their" | "for" | "each" | "every")
        });
        // "most of them stay long": told by the word behind.
        let state = (at + 1..self.clause.pieces.end)
            .find(|place| !matches!(self.role(Some(*place)), Some(Role::Content | Role::Article | Role::Preposition)))
            .filter(|place| self.role(Some(*place)) == Some(Role::Copula));
        let most = matches!(piece.lower.as_str(), "most" | "most of")
            && state.is_some_and(|copula| {
                matches!(self.role(Some(copula + 1)), Some(Role::Turn(Turn { grammar: Grammar::Comparative, .. })))
            });
        // "the tiny 0.3 ones".
        let numbered = matches!(self.role(Some(at + 1)), Some(Role::Number(_)))
            && matches!(self.word(Some(at + 2)), "ones" | "one")
            && before == Some(Role::Article);
        // "is like a little gate": a picture. "all equally dim": what they are alike in.
        let picture = before == Some(Role::Article) && self.word(at.checked_sub(2)) == "like";
        let alike = self.word(at.checked_sub(1)).ends_with("equally");
        against || most || numbered || picture || alike
    }

    /// "with the most made": of which; "the most dilute": how far, of the word behind.
    fn most_of_which(&self, at: usize) -> bool {
        let made = self.word(at.checked_sub(1)) == "with"
            && matches!(self.word(Some(at + 1)), "made" | "formed" | "split" | "produced");
        made || matches!(self.role(Some(at + 1)), Some(Role::Turn(Turn { grammar: Grammar::Comparative, .. })))
    }

    /// Whether a word of how much only says which things are meant: "tubes with little shine", "those with lots of it".
    fn marks_out(&self, at: usize, turn: Turn) -> bool {
        let before = at.checked_sub(2).and_then(|place| self.pieces.get(place)).map(|piece| piece.role);
        let things = before == Some(Role::Content)
            || at >= 2 && matches!(self.word(at.checked_sub(2)), "those" | "ones" | "the ones");
        let ends = self.verb(at + 1) || matches!(self.role(Some(at + 1)), Some(Role::Pronoun | Role::Copula) | None);
        turn.grammar == Grammar::Comparative
            && turn.about.is_empty()
            && self.word(at.checked_sub(1)) == "with"
            && things
            && ends
    }

    /// "in the same minutes", "goes up a lot", "goes up to the same number", "gives off a bit of light": how long, how much or
    /// where to, and not which way.
    fn measures(&self, at: usize) -> bool {
        let word = |place: usize| self.word(Some(place));
        let behind = word(at + 1);
        let is_time =
            |word: &str| matches!(word, "time" | "minutes" | "minute" | "hours" | "seconds" | "period" | "times");
        // "the same ten minutes".
        let timed = word(at) == "same"
            && (is_time(behind) || is_time(word(at + 2)) || matches!(self.role(Some(at + 1)), Some(Role::Number(_))))
            && self.role(at.checked_sub(1)) != Some(Role::Copula);
        // "much weaker", "a lot fewer": how far it goes.
        let further = matches!(self.role(Some(at + 1)), Some(Role::Turn(Turn { grammar: Grammar::Comparative, .. })));
        let degree =
            word(at) == "a lot" && self.role(Some(at + 1)) != Some(Role::Copula) || word(at) == "much" && further;
        let level_with = behind == "to" && (at + 2..at + 6).any(|place| word(place).ends_with("same"));
        let only = (self.clause.pieces.start..at)
            .any(|place| matches!(word(place), "only" | "just" | "merely" | "barely" | "with"));
        let some = word(at).ends_with(" bit of") && word(at).starts_with("a ") && !only && !self.opens(at);
        timed || degree || level_with || some
    }

    /// Whether the subject before a verb is told with how much there is of it: "hardly any energy", "less of it".
    fn counted(&self, at: usize) -> bool {
        let before = (self.clause.pieces.start..at).rev();
        let named =
            |place: &usize| matches!(self.role(Some(*place)), Some(Role::Content | Role::Preposition | Role::Article));
        let first = before.into_iter().find(|place| !named(place));
        matches!(self.role(first), Some(Role::Turn(Turn { grammar: Grammar::Comparative, .. })))
    }

    /// "The liquid is darker": it is coloured more strongly.
    pub(super) fn of_a_liquid(
        &self,
        piece: &Piece,
        direction: Direction,
        about: &mut About,
        class: &mut Vec<&'static str>,
    ) -> Direction {
        let dark = matches!(
            piece.lower.as_str(),
            "dark" | "darker" | "darkest" | "darken" | "darkens" | "light" | "lighter" | "lightest"
        );
        let strength =
            matches!(piece.lower.as_str(), "weak" | "weaker" | "weakest" | "strong" | "stronger" | "strongest");
        // "the green looks weaker": it shines less.
        let shines = ["green", "red", "bright", "label", "glow"].map(|word| self.dictionary.key(word));
        if strength && about.iter().any(|(key, weight)| *weight >= 0.5 && shines.contains(key)) {
            about.push((self.dictionary.key("bright"), 1.0));
            *class = vec!["bright"];
            return direction;
        }
        let liquid = about.iter().any(|(key, weight)| *weight >= 0.1 && words::lists().liquids.contains(&key.as_str()));
        if !(dark || strength) || !liquid {
            return direction;
        }
        let colour = self.dictionary.key("absorbance");
        about.retain(|(key, _)| self.dictionary.class(key) != Some("bright"));
        about.push((colour, 1.0));
        *class = vec!["colour"];
        if piece.lower.starts_with("dark") { direction.mirrored() } else { direction }
    }

    /// Words that together name one thing: light that is stopped is absorbed.
    pub(super) fn combine(&self, at: usize, about: &mut About, class: &mut Vec<&'static str>) {
        // "There is less light", and nothing of where it goes: what is given off.
        let (light, second) = (self.dictionary.key("light"), self.dictionary.key("second"));
        if self.word(Some(at)) != "extra"
            && about.iter().all(|(key, _)| *key == light || *key == second || self.dictionary.is_light(key))
            && about.iter().any(|(key, _)| *key == light)
        {
            about.push((self.dictionary.key("bright"), 1.0));
        }
        for (all, result, dropped) in &words::lists().combined {
            let keys: Vec<String> = all.iter().map(|word| self.dictionary.key(word)).collect();
            let result = self.dictionary.key(result);
            let has = |key: &String| about.iter().any(|(known, _)| known == key);
            // Where the guide tells of nothing left outside, "leaves more in the liquid" says only that it is there.
            let spoken = !dropped.contains(&"stay") || self.dictionary.leaves_outside();
            // "its volume", of what has a surface: the volume.
            let per = self.clause.pieces.clone().any(|place| matches!(self.word(Some(place)), "for" | "per"));
            let colon = self.word(self.clause.pieces.start.checked_sub(1)) == ":";
            let ratio = result == "surface to volume ratio" && !per && !colon;
            let named =
                |key: &String| about.iter().any(|(known, weight)| known == key && (!ratio || *weight != LEANING));
            if keys.iter().all(named) {
                if spoken && !has(&result) {
                    about.push((result.clone(), 1.0));
                }
                class.extend(self.dictionary.class(&result));
                for word in dropped {
                    let key = self.dictionary.key(word);
                    about.retain(|(known, _)| *known != key);
                    class.retain(|class| self.dictionary.class(&key) != Some(class));
                }
            }
        }
    }

    /// "Rises with the dose", "is proportional": a relation in one claim.
    pub(super) fn relates(&self, at: usize, turn: Turn) -> bool {
        let word = self.word(Some(at));
        let named = ["proportion", "correlat", "relation", "∝"].iter().any(|mark| word.contains(mark));
        let verb = matches!(turn.grammar, Grammar::Intransitive | Grammar::Either);
        let more = (at + 1..self.clause.pieces.end).any(|place| matches!(self.role(Some(place)), Some(Role::Turn(_))));
        // "It goes down with less dye": the occasion is told, which way and all.
        let with = self.word(Some(at + 1)) == "with"
            && !(2..4)
                .any(|ahead| self.pieces.get(at + ahead).is_some_and(|piece| matches!(piece.role, Role::Turn(_))));
        named || (verb && !more && with)
    }

    /// "It is not eaten so much": more of it is left. Takes the deed out of what is spoken of.
    pub(super) fn spares(&self, at: usize, turn: Turn, about: &mut About) -> bool {
        let last = (self.clause.pieces.start..at).rev().find(|place| self.role(Some(*place)) == Some(Role::Content));
        let passive = last.is_some_and(|place| {
            self.role(place.checked_sub(1)).is_some_and(|role| matches!(role, Role::Copula | Role::Negator))
        });
        let deed = last
            .and_then(|place| self.pieces.get(place))
            .filter(|piece| words::lists().undoing.contains(&piece.lower.as_str()) && turn.about.is_empty());
        let Some(deed) = deed.filter(|_| passive && matches!(turn.direction, Direction::Up | Direction::Down)) else {
            return false;
        };
        let named = about.iter().any(|(key, _)| !deed.keys.contains(key));
        if named {
            about.retain(|(key, _)| !deed.keys.contains(key));
        }
        named
    }

    /// Whether a phrase names a kind of quantity and not of what.
    pub(super) fn bare(&self, about: &About) -> bool {
        about.iter().all(|(key, _)| {
            !key.starts_with("t:")
                && (self.dictionary.is_light(key) || self.dictionary.class(key).is_some_and(|class| class == "amount"))
        })
    }

    /// Whether a phrase is a measure alone: "time", "rate", "distance".
    pub(super) fn measure(&self, about: &About) -> bool {
        !about.is_empty()
            && about.iter().all(|(key, _)| {
                !key.starts_with("t:")
                    && matches!(self.dictionary.class(key), Some("time" | "rate" | "distance" | "length"))
            })
    }

    pub(super) fn verb(&self, at: usize) -> bool {
        self.clause.pieces.contains(&at) && self.pieces.get(at).is_some_and(|piece| piece.verb)
    }

    /// "The liquid has more": of what was spoken of before.
    pub(super) fn has_more(&self, at: usize, attributive: bool) -> bool {
        let word = |place: Option<usize>| {
            place.and_then(|place| self.pieces.get(place)).map_or("", |piece| piece.lower.as_str())
        };
        !attributive
            && matches!(word(Some(at)), "more" | "less" | "fewer")
            && matches!(word(at.checked_sub(1)), "has" | "have" | "holds" | "gets" | "contains" | "had" | "with")
    }

    /// "The longer they soak".
    pub(super) fn the_they(&self, at: usize) -> bool {
        // "the longer and stronger it glows".
        let back = |back: usize| self.word(at.checked_sub(back));
        let the = back(1) == "the" || back(1) == "and" && back(3) == "the" && self.verb(at + 2);
        the && self.role(Some(at + 1)) == Some(Role::Pronoun) && self.opens(at)
    }

    /// "At the same concentration the same share is busy, so …" before what changes.
    fn kept_alike(&self, at: usize, turn: Turn) -> bool {
        let sentence = self.pieces.get(at).map(|piece| piece.sentence);
        let others = self.pieces.iter().filter(|piece| Some(piece.sentence) == sentence);
        let moves =
            |piece: &Piece| matches!(piece.role, Role::Turn(Turn { direction: Direction::Up | Direction::Down, .. }));
        let the = at.checked_sub(1).and_then(|place| self.pieces.get(place)).is_some_and(|piece| piece.lower == "the");
        // "…, so there is the same amount in all": what comes of it.
        let result = self.clause.link == Some(Link::So) && !self.pieces.get(at + 1).is_some_and(|piece| piece.verb);
        let follows = self.pieces.iter().skip(at + 1).take_while(|piece| Some(piece.sentence) == sentence);
        let result = result && !follows.into_iter().any(&moves);
        turn.direction == Direction::Same
            && turn.grammar == Grammar::Comparative
            && the
            && !result
            && (self.opens(at) || self.role(Some(self.clause.pieces.start)) == Some(Role::Preposition))
            && others.into_iter().any(moves)
    }

    /// Whether "they" or "them" stands before a word in its clause.
    pub(super) fn told_of_several(&self, at: usize) -> bool {
        (self.clause.pieces.start..at).any(|place| matches!(self.word(Some(place)), "they" | "them"))
    }

    /// "They get smaller", where something was spoken of that has no size.
    pub(super) fn they_shrink(&self, at: usize, about: &About) -> bool {
        let size = matches!(self.word(Some(at)), "smaller" | "bigger" | "larger");
        let they = (self.clause.pieces.start..at).any(|place| self.word(Some(place)) == "they");
        size && they
            && about.iter().any(|(key, _)| {
                matches!(self.dictionary.class(key), Some("potential" | "rate" | "charge" | "temperature"))
            })
    }

    /// "made much", "produces less", "more has been made": whatever it is that is made.
    pub(super) fn made(&self, at: usize) -> bool {
        let makes = |place: Option<usize>| {
            matches!(
                self.word(place),
                "made" | "make" | "makes" | "making" | "produced" | "produces" | "produce" | "formed" | "forms"
            )
        };
        // Behind a clause that ends with the verb, or right before it.
        let ahead = (at + 1..self.clause.pieces.end).find(|place| self.role(Some(*place)) != Some(Role::Copula));
        let passive = self.pieces.get(at.saturating_sub(2)).is_some_and(|piece| {
            at >= 2 && matches!(piece.lower.as_str(), "is" | "are" | "was" | "were" | "be" | "been")
        });
        (makes(at.checked_sub(1)) && !passive) || (makes(ahead) && self.opens(at))
    }

    /// "A long one does the reverse of all this": of another case.
    pub(super) fn reversed(&self, at: usize) -> bool {
        let word = |place: usize| self.word(Some(place));
        let any = |words: &[&str]| (at..self.clause.pieces.end).any(|place| words.contains(&word(place)));
        let turned =
            |place: usize| REVERSE.contains(&word(place)) && !matches!(self.role(Some(place + 1)), Some(Role::Content));
        // "Adding sugar turns all this round".
        let round = any(&["turns", "turn", "turned"]) && any(&["round", "around"]);
        round || (at..self.clause.pieces.end).any(turned)
    }

    /// "There is more …": nothing stands before that it speaks of.
    pub(super) fn there_is(&self, at: usize) -> bool {
        let word = |back: usize| at.checked_sub(back).and_then(|place| self.pieces.get(place));
        (2..=4).any(|back| word(back).is_some_and(|piece| piece.lower == "there"))
            && word(1).is_some_and(|piece| matches!(piece.role, Role::Copula | Role::Plain | Role::Turn(_)))
    }

    /// Whether a word stands at the beginning of its clause, or behind an article there.
    pub(super) fn opens(&self, at: usize) -> bool {
        let start = self.clause.pieces.start;
        (start..at).all(|place| matches!(self.role(Some(place)), Some(Role::Article | Role::Plain | Role::Link(_))))
    }

    /// "brightest", "the most tightly closed", "more … than", "better sealed than".
    pub(super) fn sets_beside(&self, at: usize, turn: Turn) -> bool {
        let before = self.word(at.checked_sub(1));
        let most = |word: &str| word == "most" || word == "least" || word.ends_with("est");
        let superlative = self.word(Some(at)).split(' ').any(most) || matches!(before, "the most" | "most");
        let than = (at..self.clause.pieces.end).any(|place| self.word(Some(place)) == "than");
        let further = turn.grammar == Grammar::Comparative || matches!(before, "better" | "more" | "worse");
        superlative || further && than
    }

    /// "closer to the plus end", "nearest the anode": all the further from where things set out.
    pub(super) fn nears_an_end(&self, at: usize, class: &[&'static str]) -> bool {
        let near = matches!(self.word(Some(at)), "nearer" | "closer" | "nearest" | "closest");
        let behind = (at + 1..self.clause.pieces.end.min(at + 6)).map(|place| self.word(Some(place)));
        let behind = behind.take_while(|word| !matches!(*word, "than" | "where"));
        let end = |word: &str| {
            let last = word.rsplit(' ').next().unwrap_or_default();
            matches!(last, "electrode" | "anode" | "cathode" | "pole" | "end" | "front")
        };
        near && class.contains(&"distance") && behind.into_iter().any(end)
    }
}
