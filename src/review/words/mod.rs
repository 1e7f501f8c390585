//! Words that the reader knows by itself: directions, negations, links, plain words, and words that mean the same.
//!
//! They are data, in the text files beside this one; a row is words or phrases in their base form, since forms (`rises`,
//! `rose`, `rising`) are found through their stems and `forms.txt`. Source of all lists: common practice, no source.

use std::sync::LazyLock;

use super::meaning::{Direction, Grammar, Link, Little, Turn};

const FORMS: &str = include_str!("forms.txt");
const TURNS: &str = include_str!("turns.txt");
const SENSES: &str = include_str!("senses.txt");
const LISTS: &str = include_str!("lists.txt");
const CONFUSABLE: &str = include_str!("confusable.txt");

type Words = Vec<&'static str>;

/// All lists.
#[derive(Debug, Default)]
pub(super) struct Lists {
    /// Irregular forms and slips, each with the base form that it stands for.
    pub(super) irregular: Vec<(&'static str, &'static str)>,
    /// Words of direction.
    pub(super) turns: Vec<(Words, Turn)>,
    /// Words that mean much the same: the first stands for all.
    pub(super) senses: Vec<Words>,
    pub(super) links: Vec<(Words, Link)>,
    pub(super) little: Vec<(Words, Little)>,
    /// Words that name what kind of quantity is spoken of: two claims of different kinds are of two quantities.
    pub(super) classes: Vec<(&'static str, Words)>,
    /// Pairs that exclude each other.
    pub(super) opposites: Vec<(&'static str, &'static str)>,
    /// Words that together name one thing, that thing, and which of them then say nothing more.
    pub(super) combined: Vec<(Words, &'static str, Words)>,
    /// Words that turn what follows into its opposite.
    pub(super) negators: Words,
    /// Phrases with a negating word that negate nothing.
    pub(super) no_negators: Words,
    /// Openings of what is told of another case, or of what others believe.
    pub(super) asides: Words,
    /// Pronouns: they take over the quantity spoken of before.
    pub(super) pronouns: Words,
    /// Words by which an answer does not commit itself.
    pub(super) hedges: Words,
    /// Verbs of bench texts, where they follow their subject.
    pub(super) verbs: Words,
    /// Those that tell what something does to something else.
    pub(super) acting: Words,
    /// Words that deny a deed ("stops working") or do one ("stops the enzyme").
    pub(super) hindering: Words,
    /// Deeds that leave less of what they are done to.
    pub(super) undoing: Words,
    /// Keys of liquids: dark ones are coloured, not dim.
    pub(super) liquids: Words,
    /// Kinds of quantity that are not told by naming a thing.
    pub(super) telling: Words,
    /// Content words that carry little by themselves when they head a phrase.
    pub(super) light: Words,
    /// States in which a thing is, so that a claim is of the thing in that state.
    pub(super) state: Words,
    /// States that make another quantity of the same thing: what has leaked is not what is there.
    pub(super) elsewhere: Words,
    /// Words that "more" and "less" make no amount of.
    pub(super) adjective: Words,
    /// Words by which an answer says that one thing no longer depends on another.
    pub(super) independent: Words,
    /// Words by which it says that all goes on as before.
    pub(super) goes_on: Words,
    /// Words by which it says of a reading that it does as it did.
    pub(super) as_it_was: Words,
    /// That a thing does nothing to another.
    pub(super) indifferent: Words,
    /// The same where an answer opens with it.
    pub(super) same_again: Words,
    /// Words by which an answer takes back what it has just said: wherever they stand, and first in a sentence.
    pub(super) corrects: Words,
    pub(super) corrects_first: Words,
    /// Words by which two effects are set against each other; by which one of them is the larger; that deny this.
    pub(super) against: Words,
    pub(super) larger: Words,
    pub(super) one_way: Words,
    /// Words by which one of two effects wins, and those that only grant it something.
    pub(super) wins: Words,
    pub(super) grants: Words,
    /// Verdicts on data: it is left open, the claim holds, it does not, there is no difference; what verdicts rest on.
    pub(super) unsettled: Words,
    pub(super) supports: Words,
    pub(super) rejects: Words,
    pub(super) no_difference: Words,
    /// Verdicts from a test of the claim that two shares are the same.
    pub(super) differing: Words,
    pub(super) agreeing: Words,
    /// Words that tell a verdict, and those that claim more than data can show.
    pub(super) verdicts: Words,
    pub(super) proves: Words,
    /// Words that deny what follows in a text as it stands.
    pub(super) denials: Words,
    pub(super) intervals: Words,
    pub(super) meeting: Words,
    /// Faults that are none: "human error".
    pub(super) vague: Words,
    /// Terms that lie close in spelling and far in meaning.
    pub(super) confusable: Words,
    /// Terms of the trade: a statement that has one is not told without it.
    pub(super) terms: Words,
    /// Words that compare two things: each is the other's opposite.
    pub(super) comparing: Words,
    /// Endings before which a full stop ends no sentence.
    pub(super) abbreviations: Words,
}

static ALL: LazyLock<Lists> = LazyLock::new(read);

/// The lists.
pub(super) fn lists() -> &'static Lists {
    &ALL
}

/// Rows of a file: a row goes on in lines that begin with two spaces.
fn rows(text: &'static str) -> Vec<Vec<&'static str>> {
    let mut rows: Vec<Vec<&'static str>> = Vec::new();
    for line in text.lines().filter(|line| !line.trim().is_empty() && !line.starts_with('#')) {
        match rows.last_mut() {
            Some(row) if line.starts_with("  ") => row.push(line.trim()),
            _ => rows.push(vec![line.trim_end()]),
        }
    }
    rows
}

/// Words of a row between bars.
fn words(parts: &[&'static str]) -> Words {
    parts.iter().flat_map(|part| part.split('|')).map(str::trim).filter(|word| !word.is_empty()).collect()
}

/// The name of a row before its first colon, and its words.
fn named(row: &[&'static str]) -> Option<(&'static str, Words)> {
    let (first, rest) = row.split_first()?;
    let (name, begin) = first.split_once(": ").or_else(|| Some((first.strip_suffix(':')?, "")))?;
    let mut parts = vec![begin];
    parts.extend(rest);
    Some((name, words(&parts)))
}

fn read() -> Lists {
    let mut all = Lists { senses: rows(SENSES).iter().map(|row| words(row)).collect(), ..Lists::default() };
    for (base, forms) in rows(FORMS).iter().filter_map(|row| named(row)) {
        all.irregular.extend(forms.into_iter().map(|form| (form, base)));
    }
    for (name, list) in rows(TURNS).iter().filter_map(|row| named(row)) {
        if let Some(turn) = turn(name) {
            all.turns.push((list, turn));
        }
    }
    for row in rows(LISTS) {
        if let Some((name, list)) = named(&row) {
            all.add(name, list);
        }
    }
    let terms = CONFUSABLE.lines().filter(|line| !line.starts_with('#'));
    all.confusable = terms.flat_map(str::split_whitespace).collect();
    all
}

impl Lists {
    fn add(&mut self, name: &'static str, list: Words) {
        match name.split_once(' ') {
            Some(("link", kind)) => self.links.extend(link(kind).map(|link| (list, link))),
            Some(("little", kind)) => self.little.extend(little(kind).map(|little| (list, little))),
            Some(("class", kind)) => self.classes.push((kind, list)),
            _ => match (name, list.as_slice()) {
                ("opposite", [one, other]) => self.opposites.push((one, other)),
                ("combined", [all, result, dropped @ ..]) => {
                    let split = |text: &'static str| text.split('+').map(str::trim).collect::<Words>();
                    let dropped = dropped.first().map(|text| split(text)).unwrap_or_default();
                    self.combined.push((split(all), result, dropped));
                }
                _ => {
                    if let Some(place) = self.list(name) {
                        place.extend(list);
                    }
                }
            },
        }
    }

    fn list(&mut self, name: &str) -> Option<&mut Words> {
        Some(match name {
            "negator" => &mut self.negators,
            "no-negator" => &mut self.no_negators,
            "aside" => &mut self.asides,
            "pronoun" => &mut self.pronouns,
            "hedge" => &mut self.hedges,
            "verb" => &mut self.verbs,
            "acting" => &mut self.acting,
            "hindering" => &mut self.hindering,
            "undoing" => &mut self.undoing,
            "liquid" => &mut self.liquids,
            "telling" => &mut self.telling,
            "light" => &mut self.light,
            "independent" => &mut self.independent,
            "corrects" => &mut self.corrects,
            "corrects-first" => &mut self.corrects_first,
            "goes-on" => &mut self.goes_on,
            "as-it-was" => &mut self.as_it_was,
            "indifferent" => &mut self.indifferent,
            "same-again" => &mut self.same_again,
            "unsettled" => &mut self.unsettled,
            "supports" => &mut self.supports,
            "rejects" => &mut self.rejects,
            "no-difference" => &mut self.no_difference,
            "differing" => &mut self.differing,
            "agreeing" => &mut self.agreeing,
            "verdict" => &mut self.verdicts,
            "proves" => &mut self.proves,
            "denial" => &mut self.denials,
            "intervals" => &mut self.intervals,
            "meeting" => &mut self.meeting,
            "vague" => &mut self.vague,
            "state" => &mut self.state,
            "elsewhere" => &mut self.elsewhere,
            "adjective" => &mut self.adjective,
            "against" => &mut self.against,
            "larger" => &mut self.larger,
            "one-way" => &mut self.one_way,
            "wins" => &mut self.wins,
            "grants" => &mut self.grants,
            "term" => &mut self.terms,
            "comparing" => &mut self.comparing,
            "abbreviation" => &mut self.abbreviations,
            _ => return None,
        })
    }
}

/// "up transitive -": direction, grammar, and the quantity that the word itself speaks of.
fn turn(name: &'static str) -> Option<Turn> {
    let mut parts = name.split(' ');
    let direction = match parts.next()? {
        "up" => Direction::Up,
        "down" => Direction::Down,
        "same" => Direction::Same,
        "changed" => Direction::Changed,
        _ => return None,
    };
    let grammar = match parts.next()? {
        "intransitive" => Grammar::Intransitive,
        "transitive" => Grammar::Transitive,
        "either" => Grammar::Either,
        "comparative" => Grammar::Comparative,
        "predicate" => Grammar::Predicate,
        _ => return None,
    };
    let about = parts.next().filter(|about| *about != "-").unwrap_or_default();
    Some(Turn { direction, grammar, about })
}

fn link(name: &str) -> Option<Link> {
    Some(match name {
        "because" => Link::Because,
        "so" => Link::So,
        "and" => Link::And,
        "but" => Link::But,
        "if" => Link::If,
        "which" => Link::Which,
        _ => return None,
    })
}

fn little(name: &str) -> Option<Little> {
    Some(match name {
        "article" => Little::Article,
        "preposition" => Little::Preposition,
        "copula" => Little::Copula,
        "plain" => Little::Plain,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_read() {
        let all = lists();
        assert_eq!(rows(TURNS).len(), all.turns.len());
        assert_eq!(rows(SENSES).len(), all.senses.len());
        assert!(all.senses.iter().all(|row| row.len() >= 2), "a word alone means nothing else");
        for row in rows(LISTS) {
            let (name, list) = named(&row).unwrap();
            let known = Lists::default().list(name).is_some();
            let kinds = ["link", "little", "class", "opposite", "combined"];
            assert!(known || kinds.iter().any(|kind| name.split(' ').next() == Some(kind)), "{name}");
            assert!(!list.is_empty(), "{name}");
        }
        assert_eq!((all.links.len(), all.little.len()), (6, 4));
        // The first turn that has a phrase holds, and the first sense of a word is its own.
        let mut met = std::collections::BTreeSet::new();
        for (phrases, turn) in &all.turns {
            for phrase in phrases {
                assert!(met.insert(phrase), "`{phrase}` stands twice, once as {turn:?}");
            }
        }
        let mut heads = std::collections::BTreeSet::new();
        assert!(all.senses.iter().all(|row| heads.insert(row[0])), "a head stands twice");
        assert!(!all.combined.is_empty() && !all.opposites.is_empty() && !all.irregular.is_empty());
    }
}
