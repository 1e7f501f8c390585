//! Two stretches of text compared fact by fact: which number, sign or direction is another, new, or gone.
//!
//! Facts are counted, so that sentences may be reordered, split and reworded; the alignment of all words only decides
//! which of several equal facts is the changed one.

use std::collections::BTreeMap;

use similar::{Algorithm, DiffOp, capture_diff_slices};

use super::fact::{Fact, Kind, Token};

/// Texts with more words than this are not aligned: the facts are still counted.
const MOST_ALIGNED: usize = 8000;
/// New facts of one text that are looked at; a text with more is another text.
const MOST_NEW: usize = 200;

/// One difference. Places are those of tokens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Difference {
    /// A fact has become another.
    Altered {
        made: usize,
        written: usize,
        /// Both stand at the same place of the text.
        near: bool,
        /// Nothing around it has changed.
        bare: bool,
    },
    /// A fact that the scenario does not have here.
    New { written: usize },
    /// A fact that the file no longer has.
    Missing {
        made: usize,
        /// What now stands where it stood.
        near: Option<usize>,
    },
}

/// What has changed from the scenario made again to the file.
pub(super) fn differences(made: &[Token], written: &[Token]) -> Vec<Difference> {
    let alignment = Alignment::of(made, written);
    let gone = surplus(made, written, &alignment.made);
    let mut new = surplus(written, made, &alignment.written);
    new.truncate(MOST_NEW);
    let gone: Vec<usize> = gone.into_iter().filter(|place| !is_small_word(made, *place)).collect();
    let mut pairs = pairs(made, written, &gone, &new, &alignment);
    pairs.sort_unstable_by_key(|pair| pair.1);
    let mut out: Vec<Difference> = Vec::new();
    for (one, other) in &pairs {
        let region = alignment.written.get(*other).copied().flatten();
        let near = region.is_some() && alignment.made.get(*one).copied().flatten() == region;
        let bare = near && region.is_some_and(|region| !alignment.has_words.contains(&region));
        out.push(Difference::Altered { made: *one, written: *other, near, bare });
    }
    for written_at in new.iter().filter(|place| pairs.iter().all(|(_, taken)| taken != *place)) {
        let in_words = matches!(fact(written, *written_at), Some(Fact::Number(number)) if number.in_words);
        if !in_words {
            out.push(Difference::New { written: *written_at });
        }
    }
    for made_at in gone.iter().filter(|place| pairs.iter().all(|(taken, _)| taken != *place)) {
        let region = alignment.made.get(*made_at).copied().flatten();
        let near = region.and_then(|region| alignment.starts.get(region).copied());
        out.push(Difference::Missing { made: *made_at, near });
    }
    out
}

/// The first fact of either text that stands in another place although no word has changed: (scenario, file).
pub(super) fn swapped(made: &[Token], written: &[Token]) -> Option<(usize, usize)> {
    let words = |tokens: &[Token]| {
        tokens.iter().filter(|token| matches!(token.kind, Kind::Word(_))).map(Token::key).collect::<Vec<String>>()
    };
    let facts = |tokens: &[Token]| {
        let facts = tokens.iter().enumerate().filter_map(|(place, token)| Some((place, token.fact()?.key())));
        facts.collect::<Vec<(usize, String)>>()
    };
    let (here, there) = (facts(made), facts(written));
    let differ = here.iter().zip(&there).find(|((_, one), (_, other))| one != other)?;
    (words(made) == words(written)).then_some((differ.0.0, differ.1.0))
}

/// Where the texts differ: regions of words that were changed together.
#[derive(Debug, Default)]
struct Alignment {
    /// For each token of the scenario the region that it lies in; none where it is unchanged.
    made: Vec<Option<usize>>,
    /// The same for the file.
    written: Vec<Option<usize>>,
    /// For each region, where it begins in the file.
    starts: Vec<usize>,
    /// Regions in which words have changed too.
    has_words: Vec<usize>,
}

impl Alignment {
    fn of(made: &[Token], written: &[Token]) -> Self {
        let mut alignment =
            Self { made: vec![None; made.len()], written: vec![None; written.len()], ..Self::default() };
        if made.len() + written.len() > MOST_ALIGNED {
            return alignment;
        }
        let keys = |tokens: &[Token]| tokens.iter().map(Token::key).collect::<Vec<String>>();
        let mut open = false;
        for op in capture_diff_slices(Algorithm::Myers, &keys(made), &keys(written)) {
            let DiffOp::Equal { .. } = op else {
                if !open {
                    alignment.starts.push(op.new_range().start);
                }
                open = true;
                let region = alignment.starts.len().saturating_sub(1);
                for place in op.old_range() {
                    alignment.mark(place, region, made, true);
                }
                for place in op.new_range() {
                    alignment.mark(place, region, written, false);
                }
                continue;
            };
            open = false;
        }
        alignment
    }

    fn mark(&mut self, place: usize, region: usize, tokens: &[Token], is_made: bool) {
        if fact(tokens, place).is_none() && !self.has_words.contains(&region) {
            self.has_words.push(region);
        }
        let list = if is_made { &mut self.made } else { &mut self.written };
        if let Some(slot) = list.get_mut(place) {
            *slot = Some(region);
        }
    }
}

fn fact(tokens: &[Token], place: usize) -> Option<&Fact> {
    tokens.get(place).and_then(Token::fact)
}

fn is_small_word(tokens: &[Token], place: usize) -> bool {
    matches!(fact(tokens, place), Some(Fact::Number(number)) if number.is_small_word())
}

/// The facts of which there are more here than there; of several equal ones those that the alignment left over.
fn surplus(here: &[Token], there: &[Token], regions: &[Option<usize>]) -> Vec<usize> {
    let mut places: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (place, fact) in here.iter().enumerate().filter_map(|(place, token)| Some((place, token.fact()?))) {
        places.entry(fact.key()).or_default().push(place);
    }
    for fact in there.iter().filter_map(Token::fact) {
        if let Some(places) = places.get_mut(&fact.key()) {
            let unchanged = places.iter().position(|place| regions.get(*place).is_some_and(Option::is_none));
            if !places.is_empty() {
                places.remove(unchanged.unwrap_or(0));
            }
        }
    }
    let mut left: Vec<usize> = places.into_values().flatten().collect();
    left.sort_unstable();
    left
}

/// Which fact that is gone has become which new one.
fn pairs(
    made: &[Token],
    written: &[Token],
    gone: &[usize],
    new: &[usize],
    alignment: &Alignment,
) -> Vec<(usize, usize)> {
    let mut candidates = Vec::new();
    for other in new {
        for one in gone {
            let (Some(before), Some(after)) = (fact(made, *one), fact(written, *other)) else { continue };
            let region = alignment.written.get(*other).copied().flatten();
            let near = region.is_some() && alignment.made.get(*one).copied().flatten() == region;
            if let Some(cost) = cost(before, after, near) {
                candidates.push((cost, *other, *one));
            }
        }
    }
    candidates.sort_unstable();
    let mut pairs: Vec<(usize, usize)> = Vec::new();
    for (_, other, one) in candidates {
        if pairs.iter().all(|(taken_one, taken_other)| *taken_one != one && *taken_other != other) {
            pairs.push((one, other));
        }
    }
    pairs
}

/// How little two facts are the same one changed; none where they cannot be.
fn cost(before: &Fact, after: &Fact, near: bool) -> Option<u8> {
    let far = if near { 0 } else { 10 };
    match (before, after) {
        (Fact::Number(one), Fact::Number(other)) => {
            let same_digits = (one.value.abs() - other.value.abs()).abs() <= 1e-9 * one.value.abs();
            if !near && (other.is_small_word() || !(one.is_like(other) || same_digits)) {
                return None;
            }
            Some(far + if same_digits { 0 } else { 1 + u8::from(!one.has_unit_of(other)) })
        }
        (Fact::Operator(_), Fact::Operator(_)) => Some(far),
        (Fact::Direction(one), Fact::Direction(other)) => Some(far + u8::from(one.verb != other.verb)),
        _ => None,
    }
}

#[cfg(test)]
#[expect(clippy::string_slice, reason = "places come from the same text")]
mod tests {
    use super::super::token::tokens;
    use super::*;

    #[track_caller]
    fn case(before: &str, after: &str, expected: &[(&str, &str)]) {
        let (made, written) = (tokens(before, &(0..before.len())), tokens(after, &(0..after.len())));
        let word = |text: &str, tokens: &[Token], place: usize| text[tokens[place].span.clone()].to_owned();
        let found: Vec<(String, String)> = differences(&made, &written)
            .into_iter()
            .map(|difference| match difference {
                Difference::Altered { made: one, written: other, .. } => {
                    (word(before, &made, one), word(after, &written, other))
                }
                Difference::New { written: other } => (String::new(), word(after, &written, other)),
                Difference::Missing { made: one, .. } => (word(before, &made, one), String::new()),
            })
            .collect();
        let found: Vec<(&str, &str)> = found.iter().map(|(one, other)| (one.as_str(), other.as_str())).collect();
        assert_eq!(found, expected, "{before} / {after}");
    }

    #[test]
    fn changed_facts_are_found() {
        case("0, 5 and 10 % of it", "0, 10 and 10 % of it", &[("5", "10")]);
        case("at 30 °C for 5 min", "at 30 °C for 6 min", &[("5 min", "6 min")]);
        case("(1 − 0.3)", "(1 + 0.3)", &[("−", "+")]);
        case("−7.4 bar", "7.4 bar", &[("−7.4 bar", "7.4 bar")]);
        case("it rises", "it falls", &[("rises", "falls")]);
        case("seven wells", "eight wells", &[("seven", "eight")]);
        case("it falls", "it is so", &[("falls", "")]);
    }

    #[test]
    fn other_words_for_the_same_are_no_difference() {
        case("At 30 °C they wait 5 min. Then it falls.", "It goes down at last; five minutes they wait at 30 °C.", &[]);
        case("0, 5 and 10 % of two", "0 %, 5 % and 10 %", &[]);
        case("0.25 mol/L", "250 mmol/L", &[]);
        case("0.30 umol/L", "0.3 µmol/L", &[]);
        case("it rises", "it rises, of three kinds", &[]);
    }
}
