//! Which of the questions at hand make a balanced paper, and what balanced means.
//!
//! The choice starts greedily and is then mended by exchanges until no exchange of one question for another of its form
//! makes the [`Balance`] better. No draw is made here: the same questions give the same choice.

use std::collections::{BTreeMap, BTreeSet};

use crate::scenario::Scenario;
use crate::technique::Form;

/// How well questions go together: the less the better, the first counts first.
#[derive(Debug, Clone, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Balance {
    /// Fields that no question crosses.
    pub missing_fields: usize,
    /// Command terms at hand that no question uses, and skills at hand that none calls on.
    pub missing_terms_and_skills: usize,
    /// Questions of the field that most cross, less those of the field that fewest do.
    pub field_spread: usize,
    /// Questions whose context another one has already.
    pub repeated_contexts: usize,
    /// Steps that another question has walked already, questions of the commonest command term, and questions of the
    /// commonest skill.
    pub repeats: usize,
}

impl Balance {
    /// The balance of some questions over these fields, where these terms and skills were at hand.
    pub fn of(chosen: &[&Scenario], fields: &[String], terms: &BTreeSet<&str>, skills: &BTreeSet<&str>) -> Self {
        let count = |field: &String| chosen.iter().filter(|one| one.fields.contains(field)).count();
        let of_fields: Vec<usize> = fields.iter().map(count).collect();
        let (most, least) = (of_fields.iter().max().copied(), of_fields.iter().min().copied());
        let n_terms = counts(chosen.iter().flat_map(|one| terms_of(one)));
        let n_skills = counts(chosen.iter().flat_map(|one| skills_of(one)));
        let greatest = |counts: &BTreeMap<&str, usize>| counts.values().max().copied().unwrap_or(0);
        let contexts: BTreeSet<&str> = chosen.iter().map(|one| one.front.context.as_str()).collect();
        let steps = || chosen.iter().flat_map(|one| &one.path);
        let shared = steps().count() - steps().collect::<BTreeSet<_>>().len();
        Self {
            missing_fields: of_fields.iter().filter(|n| **n == 0).count(),
            missing_terms_and_skills: terms.len().saturating_sub(n_terms.len())
                + skills.len().saturating_sub(n_skills.len()),
            field_spread: most.unwrap_or(0) - least.unwrap_or(0),
            repeated_contexts: chosen.len() - contexts.len(),
            repeats: shared + greatest(&n_terms) + greatest(&n_skills),
        }
    }
}

/// How often each word comes.
fn counts<'a>(words: impl Iterator<Item = &'a str>) -> BTreeMap<&'a str, usize> {
    let mut counted = BTreeMap::new();
    for word in words {
        *counted.entry(word).or_default() += 1;
    }
    counted
}

/// Command terms of a question, each once.
pub(super) fn terms_of(scenario: &Scenario) -> BTreeSet<&str> {
    scenario.parts.iter().map(|part| part.command_term.as_str()).collect()
}

/// Skills of a question, each once.
pub(super) fn skills_of(scenario: &Scenario) -> BTreeSet<&str> {
    scenario.parts.iter().map(|part| part.skill).collect()
}

/// How many of a form could not be found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Short {
    pub(super) form: &'static str,
    pub(super) found: usize,
    pub(super) needed: usize,
}

/// Numbers of the questions chosen: so many short and so many long ones, of techniques that all differ.
pub(super) fn choose(
    pool: &[&Scenario],
    fields: &[String],
    n_short: usize,
    n_long: usize,
) -> Result<Vec<usize>, Short> {
    let terms: BTreeSet<&str> = pool.iter().flat_map(|one| terms_of(one)).collect();
    let skills: BTreeSet<&str> = pool.iter().flat_map(|one| skills_of(one)).collect();
    let balance = |chosen: &[usize]| {
        let questions: Vec<&Scenario> = chosen.iter().filter_map(|at| pool.get(*at).copied()).collect();
        Balance::of(&questions, fields, &terms, &skills)
    };
    let fits = |chosen: &[usize], at: usize, instead: Option<usize>| {
        let mut others = chosen.iter().filter(|other| Some(**other) != instead).filter_map(|other| pool.get(*other));
        pool.get(at).is_some_and(|one| others.all(|other| other.path != one.path && other.title != one.title))
    };
    let of_form = |form: Form| (0..pool.len()).filter(move |at| pool.get(*at).is_some_and(|one| one.form == form));
    let mut chosen: Vec<usize> = Vec::new();
    // Long ones first: they cross more and are fewer.
    for (form, needed) in [(Form::Long, n_long), (Form::Short, n_short)] {
        for found in 0..needed {
            let free = of_form(form).filter(|at| fits(&chosen, *at, None));
            let best = free.min_by_key(|at| (balance(&with(&chosen, *at)), *at));
            let Some(best) = best else { return Err(Short { form: form.word(), found, needed }) };
            chosen.push(best);
        }
    }
    // Each exchange makes the balance strictly better, so that this ends.
    while let Some(better) = exchange(&chosen, pool, &balance, &fits) {
        chosen = better;
    }
    let is_long = |at: &usize| pool.get(*at).is_some_and(|one| one.form == Form::Long);
    chosen.sort_by_key(|at| (is_long(at), *at));
    Ok(chosen)
}

fn with(chosen: &[usize], at: usize) -> Vec<usize> {
    let mut more = chosen.to_vec();
    more.push(at);
    more
}

/// The best exchange of one question for another of its form; `None` where none is better than what is there.
fn exchange(
    chosen: &[usize],
    pool: &[&Scenario],
    balance: &impl Fn(&[usize]) -> Balance,
    fits: &impl Fn(&[usize], usize, Option<usize>) -> bool,
) -> Option<Vec<usize>> {
    let mut best = (balance(chosen), None);
    for (place, old) in chosen.iter().enumerate() {
        let form = pool.get(*old).map(|one| one.form);
        for (new, scenario) in pool.iter().enumerate() {
            if Some(scenario.form) != form || chosen.contains(&new) || !fits(chosen, new, Some(*old)) {
                continue;
            }
            let mut other = chosen.to_vec();
            if let Some(slot) = other.get_mut(place) {
                *slot = new;
            }
            let reached = balance(&other);
            if reached < best.0 {
                best = (reached, Some(other));
            }
        }
    }
    best.1
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::concepts::{embedded, load_and_check};
    use crate::scenario::Generator;
    use crate::seed::Seed;
    use crate::technique::{Refusals, Wish};

    #[test]
    fn no_exchange_betters_a_choice() {
        let graph = load_and_check(&embedded()).unwrap();
        let fields: Vec<String> = graph.fields().map(|(_, field)| field.id.clone()).collect();
        let generator = Generator::new(graph);
        for start in [0, 100, 200] {
            let seeds = (start..start + 40).map(Seed);
            let pool: Vec<Scenario> =
                seeds.filter_map(|seed| generator.one(&Wish::default(), seed, &mut Refusals::default())).collect();
            let pool: Vec<&Scenario> = pool.iter().collect();
            let chosen = choose(&pool, &fields, 4, 2).unwrap();
            let terms: BTreeSet<&str> = pool.iter().flat_map(|one| terms_of(one)).collect();
            let skills: BTreeSet<&str> = pool.iter().flat_map(|one| skills_of(one)).collect();
            let of = |chosen: &[usize]| {
                let questions: Vec<&Scenario> = chosen.iter().map(|at| pool[*at]).collect();
                Balance::of(&questions, &fields, &terms, &skills)
            };
            let reached = of(&chosen);
            for place in 0..chosen.len() {
                for new in 0..pool.len() {
                    let mut other = chosen.clone();
                    other[place] = new;
                    let same_form = pool[new].form == pool[chosen[place]].form;
                    let paths: BTreeSet<_> = other.iter().map(|at| &pool[*at].path).collect();
                    let titles: BTreeSet<_> = other.iter().map(|at| &pool[*at].title).collect();
                    if same_form && paths.len() == other.len() && titles.len() == other.len() {
                        assert!(of(&other) >= reached, "{chosen:?} against {other:?}");
                    }
                }
            }
        }
    }

    #[test]
    fn too_few_are_counted() {
        assert_eq!(choose(&[], &[], 0, 2), Err(Short { form: "long", found: 0, needed: 2 }));
        assert_eq!(choose(&[], &[], 0, 0), Ok(Vec::new()));
    }
}
