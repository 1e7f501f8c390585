//! Properties of every scenario, over thousands of seeds.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use toehold::concepts::written::{TwistKind, WrongSign};
use toehold::concepts::{Graph, embedded, load_and_check};
use toehold::experiment::simulate;
use toehold::reasoning::{Direction, Sign, StepSign, Verdict, derive, necessary, verify};
use toehold::render::{Templates, json, markdown};
use toehold::scenario::{Generator, Run, Scenario, agree, generate};
use toehold::seed::Seed;
use toehold::technique::{Form, Refusals, Technique, TwistWish, Wish, contains_known};

/// Seeds over which properties are shown.
const SEEDS: u64 = 2000;

static GENERATOR: LazyLock<Generator> = LazyLock::new(|| {
    let graph = load_and_check(&embedded()).unwrap_or_else(|faults| panic!("{} faults in the concepts", faults.len()));
    Generator::new(graph)
});
static TEMPLATES: LazyLock<Templates> = LazyLock::new(|| Templates::new(&[]).expect("the templates work"));

/// One scenario a seed, made once for all tests of this file.
static SCENARIOS: LazyLock<Vec<Scenario>> = LazyLock::new(|| {
    let mut refusals = Refusals::default();
    let made: Vec<Scenario> = (0..SEEDS)
        .map(|seed| GENERATOR.one(&Wish::default(), Seed(seed), &mut refusals).expect("a scenario"))
        .collect();
    println!("{SEEDS} seeds; rejected draws:");
    for (reason, n) in refusals.iter() {
        println!("{n:>8}  {reason}");
    }
    made
});

fn technique(graph: &Graph, scenario: &Scenario) -> Technique {
    scenario.front.technique(graph).expect("the front matter names a technique")
}

#[test]
fn there_are_hundreds_of_techniques_and_every_act_has_some() {
    let catalogue = GENERATOR.catalogue();
    assert!(catalogue.n_paths() >= 300, "{} paths", catalogue.n_paths());
    for (ix, act) in GENERATOR.graph().acts() {
        assert!(catalogue.candidates().iter().any(|candidate| candidate.act == ix), "`{}` leads nowhere", act.id);
    }
}

#[test]
fn the_concepts_are_as_rich_as_promised() {
    let graph = GENERATOR.graph();
    assert!(graph.quantities().count() >= 45);
    assert!(graph.influences().count() >= 60);
    assert!(graph.principles().count() >= 35);
    assert!(graph.contexts().count() >= 12);
}

#[test]
fn signs_and_numbers_agree_at_every_level() {
    let graph = GENERATOR.graph();
    for scenario in SCENARIOS.iter() {
        let technique = technique(graph, scenario);
        let plain = derive(graph, &technique.path, &technique.settings, None);
        let twisted = technique.twist.map(|at| derive(graph, &technique.path, &technique.settings, Some(at)));
        let data = simulate(graph, &technique).expect("data");
        let (direction, _) = agree(&plain, twisted.as_ref(), &data).expect("both engines agree");
        let product = plain.path().iter().fold(Sign::Plus, |product, step| match step.sign {
            StepSign::Acts(sign) => product.times(sign),
            StepSign::Zero => panic!("a step of a plain path acts"),
        });
        assert_eq!(Direction::from(product), direction, "{}", scenario.id);
        assert_eq!(scenario.prediction.direction, direction.word());
        for (one, next) in data.plain.noiseless.iter().zip(data.plain.noiseless.iter().skip(1)) {
            assert_eq!(next > one, direction == Direction::Rises, "{}", scenario.id);
        }
        if let (Some(view), Some(run)) = (&scenario.twist, &data.twisted) {
            assert_ne!(view.prediction.direction, scenario.prediction.direction, "{}", scenario.id);
            for (one, next) in run.noiseless.iter().zip(run.noiseless.iter().skip(1)) {
                match view.prediction.direction {
                    "rises" => assert!(next > one, "{}", scenario.id),
                    "falls" => assert!(next < one, "{}", scenario.id),
                    _ => assert!(
                        (next - one).abs() < run.rows[0].two_sem.max(1e-9) + 1e-2 * one.abs(),
                        "{}",
                        scenario.id
                    ),
                }
            }
        }
    }
}

#[test]
fn what_is_not_there_changes_nothing() {
    // A twist that changes what the treatment does, and not what else is in the mix, shows only where there is some of it.
    let graph = GENERATOR.graph();
    let mut n = 0;
    let mut differing = BTreeSet::new();
    for scenario in SCENARIOS.iter() {
        let technique = technique(graph, scenario);
        let Some(at) = technique.twist else { continue };
        let twist = at.get(graph).expect("a twist");
        let dial = graph.act(technique.act).dial;
        // Something that is added: a time of nought may be spent by things that differ.
        let own = graph.influence(at.influence).from == dial && graph.quantity(dial).unit.code().ends_with("mol/L");
        if !own
            || technique.levels[0] != 0.0
            || !matches!(twist.kind, TwistKind::Cut | TwistKind::Reverse | TwistKind::RivalPath)
        {
            continue;
        }
        let data = simulate(graph, &technique).expect("a model");
        let (plain, twisted) = (data.plain.noiseless[0], data.twisted.expect("a second run").noiseless[0]);
        if (plain - twisted).abs() > 1e-9 * plain.abs() {
            differing.insert(twist.id.clone());
        }
        n += 1;
    }
    // Second strains with another repressor, and not the same strain with another agent.
    for strain in ["partner-of-repressor", "bent-repressor"] {
        assert!(differing.remove(strain), "`{strain}` was not met: it needs no exemption");
    }
    assert!(differing.is_empty(), "{differing:?} show where there is nothing of the agent");
    println!("{n} twists");
    assert!(n >= 20, "{n}");
}

#[test]
fn replies_name_beliefs_that_lead_to_the_wrong_answer() {
    let graph = GENERATOR.graph();
    let mut answered = BTreeSet::new();
    for scenario in SCENARIOS.iter() {
        for step in &scenario.scaffold {
            let ix = graph.find_influence(&step.influence).expect("an influence of the graph");
            let influence = graph.influence(ix);
            assert!(step.reply(step.direction).is_none(), "{}: a reply to the right direction", scenario.id);
            for reply in &step.replies {
                let held = |belief: &str| reply.text.starts_with(&format!("“{}”", belief.trim_end_matches('.')));
                let belief = graph.principle(influence.principle).misconceptions.iter().find(|one| held(&one.belief));
                let belief = belief.unwrap_or_else(|| panic!("{}: no belief of the principle", scenario.id));
                assert!(belief.at.is_empty() || belief.at.contains(&ix), "{}: {}", step.influence, belief.belief);
                // Of a step that is told with a rising cause; a falling one turns both round.
                let rises = step.step.contains("goes up:") == (reply.to == "rises");
                match belief.gives.expect("a belief with a sign") {
                    WrongSign::None => assert_eq!(reply.to, "unchanged"),
                    WrongSign::Flipped => assert_ne!(reply.to, "unchanged"),
                    WrongSign::Plus => assert!(rises, "{}: {}", scenario.id, step.step),
                    WrongSign::Minus => assert!(!rises, "{}: {}", scenario.id, step.step),
                }
                answered.insert(belief.belief.as_str());
            }
        }
    }
    println!("{} beliefs", answered.len());
    assert!(answered.len() >= 60, "{}", answered.len());
}

#[test]
fn derivations_are_proved_again_and_need_every_step() {
    let graph = GENERATOR.graph();
    for scenario in SCENARIOS.iter() {
        let technique = technique(graph, scenario);
        let plain = derive(graph, &technique.path, &technique.settings, None);
        verify(graph, &technique.path, &technique.settings, None, &plain).expect("the checker agrees");
        assert!(matches!(plain.verdict(), Verdict::Determined(_)));
        // Sufficient: the one way that there is is the path of the scaffold.
        let ways: Vec<Vec<_>> =
            plain.routes().iter().map(|route| route.steps.iter().map(|step| step.influence).collect()).collect();
        assert_eq!(ways, [technique.path.steps().to_vec()], "{}", scenario.id);
        assert_eq!(scenario.scaffold.len(), technique.path.steps().len());
        for step in technique.path.steps() {
            assert!(necessary(graph, &technique.path, &technique.settings, None, *step), "{}", scenario.id);
        }
        if let Some(at) = technique.twist {
            let twisted = derive(graph, &technique.path, &technique.settings, Some(at));
            verify(graph, &technique.path, &technique.settings, Some(at), &twisted).expect("the checker agrees");
        }
    }
}

#[test]
fn every_technique_is_physical_and_new() {
    let graph = GENERATOR.graph();
    for scenario in SCENARIOS.iter() {
        let technique = technique(graph, scenario);
        assert!((3..=7).contains(&technique.path.steps().len()));
        assert!(technique.fields(graph).len() >= 2, "{}", scenario.id);
        assert!(technique.settings.clash(graph).is_none(), "{}", scenario.id);
        assert!(!contains_known(graph, &technique.path), "{}", scenario.id);
        for step in technique.path.steps() {
            assert!(technique.settings.allow(graph.influence(*step)), "{}", scenario.id);
        }
    }
}

#[test]
fn points_and_sections_are_as_they_should_be() {
    for scenario in SCENARIOS.iter() {
        let total: u32 = scenario.parts.iter().map(|part| part.points).sum();
        match scenario.form {
            Form::Short => assert!((3..=4).contains(&total), "{}: {total}", scenario.id),
            Form::Long => assert_eq!(total, 10, "{}", scenario.id),
        }
        assert_eq!(u32::try_from(scenario.guide.len()).expect("few"), total, "{}", scenario.id);
        let text = markdown(&TEMPLATES, scenario).expect("Markdown");
        for section in [
            "## How it works",
            "## Data",
            "## Questions",
            "## What do you already know?",
            "## Scoring guide",
            "## Map",
            "## Cautions",
        ] {
            assert_eq!(text.matches(&format!("\n{section}\n")).count(), 1, "{}: {section}", scenario.id);
        }
        assert!(!scenario.purpose.is_empty() && !scenario.how.is_empty() && !scenario.title.is_empty());
        for part in &scenario.parts {
            assert!(part.text.contains("**"), "{}: no command term in ({})", scenario.id, part.label);
        }
    }
}

/// What no reader should see: unfilled places, marks, double spaces, an article that does not fit.
#[test]
fn no_seam_shows() {
    for scenario in SCENARIOS.iter() {
        let text = markdown(&TEMPLATES, scenario).expect("Markdown");
        let body = text.splitn(3, "---\n").nth(2).expect("a body");
        for seam in ["{{", "}}", "⟦", "⟧", " a a", " an a ", "the the ", "..", " ,", " .\n", "NaN", "inf "] {
            assert!(!body.contains(seam), "{}: `{seam}` in\n{body}", scenario.id);
        }
        for line in body.lines().filter(|line| !line.starts_with('|') && !line.trim_start().is_empty()) {
            assert!(!line.trim_start().contains("  "), "{}: two spaces in `{line}`", scenario.id);
        }
    }
}

#[test]
fn the_same_seed_gives_the_same_bytes_alone_or_in_a_run() {
    let wish = Wish::default();
    let mut run = Run::default();
    let mut refusals = Refusals::default();
    let again = Generator::new(GENERATOR.graph().clone());
    for index in 0..60 {
        let scenario = generate(&GENERATOR, &wish, Seed(5), index, &mut run, &mut refusals).expect("a scenario");
        let alone = again.one(&wish, Seed(scenario.seed), &mut Refusals::default()).expect("the same");
        assert_eq!(json(&TEMPLATES, &scenario).expect("JSON"), json(&TEMPLATES, &alone).expect("JSON"));
        let from_front = again.again(&scenario.front).expect("made again");
        assert_eq!(markdown(&TEMPLATES, &scenario).expect("text"), markdown(&TEMPLATES, &from_front).expect("text"));
    }
}

#[test]
fn a_run_repeats_nothing_and_no_answer_prevails() {
    let mut run = Run::default();
    let mut refusals = Refusals::default();
    let made: Vec<Scenario> = (0..150)
        .map(|index| generate(&GENERATOR, &Wish::default(), Seed(11), index, &mut run, &mut refusals).expect("one"))
        .collect();
    let keys: BTreeSet<_> = made
        .iter()
        .map(|one| {
            (one.path.clone(), one.front.twist.as_ref().map(|twist| twist.id.clone()), one.front.context.clone())
        })
        .collect();
    assert_eq!(keys.len(), made.len());
    let mut answers: BTreeMap<&str, usize> = BTreeMap::new();
    for twist in made.iter().filter_map(|one| one.twist.as_ref()) {
        *answers.entry(twist.prediction.direction).or_default() += 1;
    }
    let twists: usize = answers.values().sum();
    println!("twist answers of 150: {answers:?}; rejected: {:?}", refusals.iter().collect::<Vec<_>>());
    assert!(answers.values().all(|n| 2 * n <= twists + 1), "{answers:?}");
}

#[test]
fn wishes_are_met() {
    let graph = GENERATOR.graph();
    let mut refusals = Refusals::default();
    for (field, part) in graph.fields() {
        let wish = Wish { fields: vec![field], form: Some(Form::Long), ..Wish::default() };
        let scenario = GENERATOR.one(&wish, Seed(1), &mut refusals).expect("a scenario of each field");
        assert!(scenario.fields.contains(&part.id));
        assert_eq!(scenario.form, Form::Long);
    }
    let wish = Wish { twist: TwistWish::Without, ..Wish::default() };
    for seed in 0..20 {
        assert!(GENERATOR.one(&wish, Seed(seed), &mut refusals).expect("one").twist.is_none());
    }
}

#[test]
fn several_pages_are_not_written_into_one_output() {
    let run = crate::program::toehold(&["generate", "--seed", "1", "--format", "html", "--count", "2"]);
    assert_eq!((run.code, run.out.as_str()), (2, ""));
    assert!(
        run.err.contains("error: several pages") && run.err.contains("hint: give a folder with --out"),
        "{}",
        run.err
    );
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path().to_str().unwrap();
    let run = crate::program::toehold(&["generate", "--seed", "1", "--format", "html", "--count", "2", "--out", at]);
    assert_eq!((run.code, run.out.lines().count()), (0, 2), "{}", run.err);
}

#[test]
fn a_thing_that_is_handled_later_is_told_of_where_it_is_handled() {
    let graph = GENERATOR.graph();
    let mut shown = 0;
    for scenario in SCENARIOS.iter() {
        let technique = technique(graph, scenario);
        let steps = technique.path.steps().iter().map(|step| graph.influence(*step));
        let told = steps.flat_map(|step| step.told.iter().chain(&step.acts));
        for entity in told.filter_map(|fragment| fragment.brings).map(|ix| graph.entity(ix)) {
            let handles = format!("{{{{ {}.", entity.id);
            if graph.act(technique.act).text.iter().any(|text| text.contains(&handles)) {
                continue;
            }
            let place = |wanted: &str| scenario.how.iter().position(|text| text.contains(wanted));
            let mut names = technique.names.iter().filter(|(ix, _)| graph.entity(**ix).id == entity.id);
            let name = names.find_map(|(_, number)| entity.names.get(*number)).expect("a name");
            let met = place(&format!("“{}”", name.many)).expect("what is used is introduced");
            let level = (0..3).find_map(|places| place(&format!(" {:.places$} and ", technique.levels[3])));
            let treated = level.unwrap_or_else(|| panic!("{}: the levels are told", scenario.id));
            assert!(met > treated, "{}: {} is met before it is handled", scenario.id, name.many);
            shown += 1;
        }
    }
    assert!(shown >= 20, "{shown} scenarios bring something in");
}

#[test]
fn what_ends_a_treatment_is_told_when_its_time_is_over() {
    let graph = GENERATOR.graph();
    let mut shown = 0;
    for scenario in SCENARIOS.iter() {
        let technique = technique(graph, scenario);
        let after = &graph.act(technique.act).after;
        let Some(place) = scenario.how.iter().position(|text| after.iter().any(|end| text.contains(end))) else {
            assert!(after.is_empty(), "{}: nothing ends the treatment", scenario.id);
            continue;
        };
        let over = scenario.how.iter().position(|text| text.contains("terminated")).expect("reactions are stopped");
        assert!(over <= place, "{}: the treatment ends before its time is over", scenario.id);
        shown += 1;
    }
    assert!(shown >= 20, "{shown} scenarios end a treatment");
}
