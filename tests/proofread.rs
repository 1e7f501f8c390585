//! Proofreading: what each lint finds, that it finds it in no generated scenario, and that names and texts are new.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use toehold::concepts::{embedded, load_and_check};
use toehold::diagnostic::Severity;
use toehold::experiment::simulate;
use toehold::reasoning::derive;
use toehold::scenario::proofread::{
    Answer, LINTS, Manuscript, Question, grade, is_too_long, proofread, read, syllables,
};
use toehold::scenario::{Generator, NounView, Run, Scenario, Texts, generate, write};
use toehold::seed::Seed;
use toehold::technique::{Form, Refusal, Refusals, Wish, compose, known_name, real_name};

/// Seeds over which the lints are measured.
const SEEDS: u64 = 1000;

static GENERATOR: LazyLock<Generator> = LazyLock::new(|| {
    let graph = load_and_check(&embedded()).unwrap_or_else(|faults| panic!("{} faults in the concepts", faults.len()));
    Generator::new(graph)
});

static SCENARIOS: LazyLock<Vec<Scenario>> = LazyLock::new(|| {
    let mut refusals = Refusals::default();
    let made = (0..SEEDS)
        .map(|seed| GENERATOR.one(&Wish::default(), Seed(seed), &mut refusals).expect("a scenario"))
        .collect();
    println!("{SEEDS} seeds; rejected draws:");
    for (reason, n) in refusals.iter() {
        println!("{n:>8}  {reason}");
    }
    made
});

fn purpose(text: &str) -> Manuscript {
    Manuscript { purpose: text.into(), ..Manuscript::default() }
}

fn how(slots: &[&str]) -> Manuscript {
    Manuscript { how: slots.iter().map(|text| (*text).into()).collect(), ..Manuscript::default() }
}

fn asks(text: &str, points: u32, earns: &[&str]) -> Manuscript {
    let answers = earns.iter().zip(1..).map(|(statement, number)| Answer {
        part: "a".into(),
        point: format!("a{number}"),
        statement: (*statement).into(),
        others: Vec::new(),
    });
    let question = Question { label: "a".into(), text: text.into(), points };
    Manuscript { questions: vec![question], answers: answers.collect(), ..Manuscript::default() }
}

fn never(words: &[&str], text: &str) -> Manuscript {
    Manuscript { never: words.iter().map(|word| (*word).into()).collect(), ..how(&[text]) }
}

fn with_podkins(text: &str) -> Manuscript {
    let podkin = NounView {
        intro: "tiny sacs".into(),
        one: "podkin".into(),
        many: "podkins".into(),
        coined: true,
        others: vec!["satchlet".into(), "satchlets".into()],
    };
    Manuscript { nouns: vec![podkin], ..how(&[text]) }
}

fn long_stimulus(form: Form, n_words: usize) -> Manuscript {
    Manuscript { form: Some(form), ..purpose(&format!("{}.", ["word"; 400][..n_words].join(" "))) }
}

/// For each lint a text that trips it and one, much like it, that does not.
fn cases() -> Vec<(&'static str, Manuscript, Manuscript)> {
    let mut all = prose_cases();
    all.extend(item_cases());
    all
}

fn prose_cases() -> Vec<(&'static str, Manuscript, Manuscript)> {
    let hard = "Notwithstanding considerable methodological heterogeneity, investigators unanimously characterised \
                extracellular osmoregulatory perturbations quantitatively.";
    let fair = "Ecologists who investigate rock pools intend to determine the temperature that each pool reaches during a \
                summer day. Ordinary thermometers are too large for them.";
    vec![
        ("stray-space", purpose("Dye is added  to each well."), purpose("Dye is added to each well … and read.")),
        ("wrong-article", purpose("They use a enzyme."), purpose("A unit of an enzyme, an RNA, an 8 mm rod, a DNA.")),
        ("repeated-word", purpose("Dye leaves the the sacs."), purpose("They say that that cell is the one.")),
        ("unbalanced", purpose("Tiny sacs (“podkins) hold dye."), purpose("Tiny sacs (“podkins”) hold “dye” (red).")),
        ("placeholder", how(&["Each {{ container }} is read."]), how(&["Each well is read."])),
        ("broken-sentence", purpose("Dye is added. it is red"), purpose("Dye is added. pH 7 holds. 5 mL is used.")),
        (
            "same-opening",
            how(&["Each bath is stirred.", "Each bath is kept warm."]),
            how(&[
                "Each bath is stirred.",
                "The wells are read.",
                "Each mean rests on six wells.",
                "The end comes soon.",
            ]),
        ),
        (
            "dangling-opening",
            how(&["They are stirred."]),
            how(&["The baths are stirred. They are warm.", "This bath is read."]),
        ),
        ("false-precision", how(&["Dye is at 38.6172 mmol/L."]), how(&["Dye is at 38.62 mmol/L, DNA 23000 bp long."])),
        (
            "missing-unit",
            how(&["A bath at 0.25 mol/L is read first.", "Another stands at 0.25, too."]),
            how(&["Baths at 0.25 and 0.5 mol/L are read.", "A fraction 0.25 of the volume is dye."]),
        ),
        (
            "mixed-tense",
            how(&["Dye is added.", "The baths were stirred."]),
            how(&["Dye is added.", "The bath in which they were made is stirred."]),
        ),
        (
            "unintroduced",
            with_podkins("Podkins are stirred in. Tiny sacs (“podkins”) hold dye."),
            with_podkins("Tiny sacs (“podkins”) hold dye. Each podkin is small."),
        ),
        (
            "two-names",
            with_podkins("Tiny sacs (“podkins”) hold dye. The satchlets are stirred in."),
            with_podkins("Tiny sacs (“podkins”) hold dye. The podkins are stirred in."),
        ),
        (
            "giveaway",
            never(&["leak", "inactiv"], "Dye leaked from the sacs."),
            never(&["yellower", "gaps", "slower"], "A yellow dye from Morrow Gap is poured slowly."),
        ),
        (
            "explained",
            explained("Warm molecules move faster, so they collide."),
            explained("Each rack is warm, so that it is dry."),
        ),
        ("reading-ease", purpose(hard), purpose(fair)),
        ("reading-load", long_stimulus(Form::Short, 131), long_stimulus(Form::Short, 130)),
    ]
}

fn explained(text: &str) -> Manuscript {
    let question = asks("**Explain** how the rate changes.", 1, &["Molecules move faster and collide more often."]);
    Manuscript { how: vec![text.into()], ..question }
}

fn item_cases() -> Vec<(&'static str, Manuscript, Manuscript)> {
    vec![
        ("no-command-term", asks("What about the control?", 1, &[]), asks("**Identify** the control.", 1, &[])),
        (
            "two-questions",
            asks("**Identify** the control and explain why it is needed.", 2, &[]),
            asks("**Predict and justify** how the glow changes.", 2, &[]),
        ),
        (
            "how-many",
            asks("**Identify** some factors.", 1, &[]),
            asks("**Identify** the wells that are compared.", 1, &[]),
        ),
        (
            "negative-stem",
            asks("**Identify** the variable that is not kept the same.", 1, &[]),
            asks("They do not glow at 5 °C. **Identify** the variable that is NOT kept the same.", 1, &[]),
        ),
        (
            "vague-word",
            asks("**Explain** why the glow usually falls.", 2, &[]),
            asks("**Explain** why the glow falls.", 2, &[]),
        ),
        (
            "cued-answer",
            asks("**Identify** the wells without sugar, the control.", 1, &["The wells without sugar."]),
            asks("**Identify** the wells with which all others are compared.", 1, &["The wells without sugar."]),
        ),
        (
            "points-mismatch",
            asks("**Calculate** the rate.", 1, &["2 mm."]),
            asks("**Calculate** the rate.", 2, &["Setup.", "2 mm."]),
        ),
        (
            "thin-explain",
            asks("**Explain** why.", 1, &["A; b; c; d."]),
            asks("**Explain** why.", 2, &["A; b.", "C; d."]),
        ),
    ]
}

#[test]
fn every_lint_has_a_text_that_trips_it_and_one_that_does_not() {
    let cases = cases();
    let tried: BTreeSet<&str> = cases.iter().map(|(code, ..)| *code).collect();
    let all: BTreeSet<&str> = LINTS.iter().map(|lint| lint.code.name).collect();
    assert_eq!(tried, all, "each lint needs its two texts");
    assert_eq!(all.len(), LINTS.len(), "no code twice");
    let codes = |text: &Manuscript| read(text).iter().map(|flaw| flaw.code.name).collect::<Vec<_>>();
    let mut faults = Vec::new();
    for (code, bad, good) in &cases {
        if !codes(bad).contains(code) {
            faults.push(format!("`{code}` does not see its fault"));
        }
        if codes(good).contains(code) {
            faults.push(format!("`{code}` marks a sound text: {:?}", read(good)));
        }
        for flaw in read(bad) {
            let passages = bad.passages();
            let stands = flaw.quote.is_empty() || passages.iter().any(|passage| passage.text.contains(&flaw.quote));
            if !stands {
                faults.push(format!("`{}` quotes what is not there: {}", flaw.code.name, flaw.quote));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn lints_are_documented() {
    for lint in LINTS {
        let code = &lint.code;
        assert!(!code.meaning.is_empty() && !code.wrong.is_empty() && !code.right.is_empty() && !lint.hint.is_empty());
        assert!(code.name.chars().all(|c| c.is_ascii_lowercase() || c == '-'), "{}", code.name);
        assert!(toehold::diagnostic::code::find(code.name).is_none(), "`{}` is used elsewhere", code.name);
    }
}

/// One scenario a seed, as first written: what the lints then let through is what is given out.
static DRAFTS: LazyLock<Vec<Scenario>> = LazyLock::new(|| {
    let graph = GENERATOR.graph();
    let draft = |seed: u64| {
        (0..400).find_map(|attempt| {
            let drawn = compose(graph, GENERATOR.catalogue(), &Wish::default(), Seed(seed), attempt).ok()?;
            let plain = derive(graph, &drawn.path, &drawn.settings, None);
            let twisted = drawn.twist.map(|at| derive(graph, &drawn.path, &drawn.settings, Some(at)));
            let data = simulate(graph, &drawn).ok()?;
            write(graph, &drawn, &plain, twisted.as_ref(), &data).ok()
        })
    };
    (0..SEEDS).map(|seed| draft(seed).expect("a draft")).collect()
});

/// How many of these scenarios have each flaw, with the commonest places.
#[expect(clippy::type_complexity, reason = "a table of counts with examples")]
fn flagged(scenarios: &[Scenario]) -> BTreeMap<&'static str, (usize, Vec<(String, usize)>)> {
    let mut found: BTreeMap<&str, (usize, BTreeMap<String, usize>)> = BTreeMap::new();
    for scenario in scenarios {
        let flaws = proofread(scenario);
        for code in flaws.iter().map(|flaw| flaw.code.name).collect::<BTreeSet<_>>() {
            found.entry(code).or_default().0 += 1;
        }
        for flaw in &flaws {
            let example = format!("{} | {} | {}", flaw.place, flaw.quote, flaw.message);
            *found.entry(flaw.code.name).or_default().1.entry(example).or_default() += 1;
        }
    }
    let sorted = |examples: BTreeMap<String, usize>| {
        let mut examples: Vec<_> = examples.into_iter().collect();
        examples.sort_by_key(|(_, n)| std::cmp::Reverse(*n));
        examples
    };
    found.into_iter().map(|(code, (n, examples))| (code, (n, sorted(examples)))).collect()
}

#[test]
fn no_scenario_is_given_out_with_a_grave_flaw() {
    let (drafts, given) = (flagged(&DRAFTS), flagged(&SCENARIOS));
    let n = |of: &BTreeMap<&str, (usize, Vec<_>)>, code: &str| of.get(code).map_or(0, |(n, _)| *n);
    println!("of {SEEDS} scenarios, drafts and given out, with each flaw:");
    for lint in LINTS {
        let code = lint.code.name;
        println!("{:>6} {:>6}  {:?}  {code}", n(&drafts, code), n(&given, code), lint.severity);
        for (example, n) in drafts.get(code).into_iter().flat_map(|(_, examples)| examples).take(12) {
            println!("               {n:>4} × {example}");
        }
        assert!(lint.severity != Severity::Error || n(&given, code) == 0, "`{code}` was given out");
    }
    for scenario in SCENARIOS.iter() {
        assert!(!is_too_long(&Manuscript::from(scenario)), "{}", scenario.id);
    }
    let text = |one: &Scenario| format!("{} {}", one.purpose, one.how.join(" "));
    let mut grades: Vec<f64> = SCENARIOS.iter().filter_map(|one| grade(&text(one))).collect();
    grades.sort_by(f64::total_cmp);
    println!("grade: {:.1} to {:.1}, half below {:.1}", grades[0], grades[grades.len() - 1], grades[grades.len() / 2]);
}

/// Proofreading shuts out no treatment and no step.
#[test]
fn every_act_and_step_still_comes_up() {
    let acts = |all: &[Scenario]| -> BTreeMap<String, usize> {
        all.iter().fold(BTreeMap::new(), |mut acts, one| {
            *acts.entry(one.front.act.clone()).or_default() += 1;
            acts
        })
    };
    let (drafted, given) = (acts(&DRAFTS), acts(&SCENARIOS));
    println!("drafts and scenarios of each act:");
    for (ix, act) in GENERATOR.graph().acts() {
        let n = |of: &BTreeMap<String, usize>| of.get(&act.id).copied().unwrap_or(0);
        let ways = GENERATOR.catalogue().candidates().iter().filter(|candidate| candidate.act == ix).count();
        println!("{:>6} {:>6}  {} ({ways} candidates)", n(&drafted), n(&given), act.id);
        // A fragment that opens like another may cost an act some of its share, never most of it.
        assert!(5 * n(&given) >= n(&drafted), "proofreading leaves out `{}`", act.id);
    }
    let steps = |all: &[Scenario]| all.iter().flat_map(|one| one.path.clone()).collect::<BTreeSet<String>>();
    let (drafted, given) = (steps(&DRAFTS), steps(&SCENARIOS));
    println!(
        "{} steps in drafts, {} given out; gone: {:?}",
        drafted.len(),
        given.len(),
        drafted.difference(&given).collect::<Vec<_>>()
    );
    assert!(20 * given.len() >= 19 * drafted.len());
}

/// # Source
/// Counts from the CMU Pronouncing Dictionary: see the head of the file.
#[test]
fn syllables_agree_with_a_dictionary() {
    let file = include_str!("reference/english_syllables.csv");
    let (mut right, mut words, mut heard, mut spoken) = (0, 0, 0, 0);
    let mut wrong = Vec::new();
    for line in file.lines().filter(|line| !line.starts_with('#')) {
        let columns: Vec<&str> = line.split(',').collect();
        let n: usize = columns[2].parse().expect("a number");
        let counts: Vec<usize> = columns[1].split('|').map(|count| count.parse().expect("a number")).collect();
        words += 1;
        spoken += n;
        if counts.contains(&syllables(columns[0])) {
            right += 1;
            heard += n;
        } else {
            wrong.push((n, columns[0], syllables(columns[0]), counts));
        }
    }
    wrong.sort();
    println!(
        "{right} of {words} words, {heard} of {spoken} uses; commonest slips: {:?}",
        wrong.iter().rev().take(60).collect::<Vec<_>>()
    );
    assert!(100 * right >= 95 * words && 100 * heard >= 98 * spoken);
}

/// # Source
/// Grades worked by hand from counts by hand: 0.39 × words/sentences + 11.8 × syllables/words − 15.59.
#[test]
fn grades_follow_the_formula() {
    // 6 words, 6 syllables, one sentence; 13 words, 24 syllables, one sentence (an often-quoted example).
    let case = |text: &str, words: f64, syllables: f64| {
        let expected = 0.39 * words + 11.8 * syllables / words - 15.59;
        let found = grade(text).expect("a grade");
        assert!((found - expected).abs() < 1e-9, "{text}: {found} instead of {expected}");
    };
    case("The cat sat on the mat.", 6.0, 6.0);
    case("The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.", 13.0, 24.0);
    case("At 0.25 mol/L the DNA glows.", 6.0, 6.0);
    assert_eq!(grade(""), None);
}

#[test]
fn no_title_is_the_name_of_a_real_technique() {
    let graph = GENERATOR.graph();
    for name in [
        "Western blot",
        "Gel electrophoresis",
        "Flow cytometry",
        "Comet assays",
        "Patch-clamp assay",
        "Enzyme linked immunosorbent assay",
    ] {
        assert!(known_name(graph, name).is_some(), "{name}");
    }
    for title in ["Packed-lantern wells", "Moored-button strand wells", "Tinted-purseling cuvettes"] {
        assert_eq!(real_name(title), None);
    }
    for scenario in SCENARIOS.iter() {
        assert_eq!(known_name(graph, &scenario.title), None);
    }
}

/// Spelling within a letter, word order, plural and hyphens are no disguise, for any name of the list.
#[test]
fn a_listed_name_is_known_in_disguise() {
    let list = include_str!("../src/technique/technique-names.txt");
    let names: Vec<&str> = list.lines().filter(|line| !line.starts_with('#')).collect();
    assert!(names.len() > 12_000 && list.contains("Attribution 4.0"));
    for name in names.iter().step_by(101) {
        let turned: Vec<&str> = name.split(' ').rev().collect();
        let mut disguises = vec![(*name).to_owned(), turned.join(" "), name.replace(' ', "-"), name.to_uppercase()];
        if let Some(long) = name.split(' ').find(|word| word.len() >= 7 && word.chars().all(|c| c.is_ascii_lowercase()))
        {
            let swapped = format!("{}{}{}{}", &long[..2], &long[3..4], &long[2..3], &long[4..]);
            disguises.push(name.replacen(long, &swapped, 1));
            disguises.push(name.replacen(long, &format!("{}{}", &long[..3], &long[4..]), 1));
        }
        if name.contains(' ') {
            disguises.push(format!("Sugared {name} lanterns"));
        }
        for disguise in disguises {
            assert!(real_name(&disguise).is_some(), "`{disguise}` is `{name}`");
        }
    }
}

/// No two scenarios of a run share more than a third of their sentences.
#[test]
fn the_texts_of_a_run_differ() {
    for seed in [3, 14, 159, 2653] {
        let (mut run, mut refusals) = (Run::default(), Refusals::default());
        let made: Vec<Scenario> = (0..100)
            .map(|index| {
                generate(&GENERATOR, &Wish::default(), Seed(seed), index, &mut run, &mut refusals).expect("one")
            })
            .collect();
        let text = |one: &Scenario| format!("{} {}", one.purpose, one.how.join(" "));
        let mut met = Texts::default();
        let mut most = Vec::new();
        for one in &made {
            most.extend(met.most_alike(&text(one)));
            met.add(&text(one));
        }
        let too_much = most.iter().filter(|alike| alike.is_too_much()).count();
        let n = |reason| refusals.iter().find(|(other, _)| *other == reason).map_or(0, |(_, n)| n);
        println!(
            "run {seed} of 100: {too_much} too alike; refused: {} alike, {} repeated",
            n(Refusal::TooAlike),
            n(Refusal::Repeated)
        );
        assert_eq!(too_much, 0);
    }
}
