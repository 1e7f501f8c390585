//! A whole sitting through standard input: the loop in its order, left in the middle and taken up again.

use serde_json::Value;
use toehold::concepts::{embedded, load_and_check};
use toehold::progress::{Store, read_file};
use toehold::render::Templates;
use toehold::scenario::{Generator, Scenario};
use toehold::seed::Seed;
use toehold::technique::{Form, Refusals, Wish};

use super::Place;

/// The scenario of `toehold practise --seed S`.
fn scenario(seed: u64) -> (Generator, Scenario) {
    let generator = Generator::new(load_and_check(&embedded()).expect("a graph"));
    let wish = Wish { form: Some(Form::Short), ..Wish::default() };
    let scenario = generator.one(&wish, Seed(seed), &mut Refusals::default()).expect("a scenario");
    (generator, scenario)
}

fn opposite(direction: &str) -> &'static str {
    if direction == "rises" { "falls" } else { "rises" }
}

/// Lines for the steps, each with this direction first; at full support.
fn steps(scenario: &Scenario, wrong: &[usize]) -> String {
    let mut lines = Vec::new();
    for (step, number) in scenario.scaffold.iter().zip(1..) {
        if !step.told {
            lines.push(format!("recall of {number}"));
        }
        lines.push(format!("role of {number}"));
        if wrong.contains(&number) {
            lines.push(opposite(step.direction).to_owned());
        }
        lines.push(step.direction.to_owned());
    }
    lines.join("\n") + "\nit follows because of all that\n"
}

/// An answer to each part.
fn answers(scenario: &Scenario) -> String {
    let answers: Vec<String> =
        scenario.parts.iter().map(|part| format!("my answer to {}\nin two lines\n\n", part.label)).collect();
    answers.concat()
}

#[test]
fn a_sitting_goes_through_the_loop_and_is_taken_up_where_it_was_left() {
    let (_, scenario) = scenario(3);
    let means: Vec<&str> = scenario.data.printed.iter().map(|row| row[1].as_str()).collect();
    let place = Place::new();
    // Left in the middle of a step, with a wrong sign on the first.
    let all = steps(&scenario, &[1]);
    let all: Vec<&str> = all.lines().collect();
    let (first, rest) = all.split_at(all.len() / 2);
    let input = format!("\nmy plan\n\n{}\n", first.join("\n"));
    let run = place.run(&["practise", "--seed", "3", "--support", "full"], &input);
    assert_eq!(run.code, 0, "{}", run.err);
    for says in [&scenario.title, "local safety", "my plan", "Not so. ", "goes on at this place", "(covered)"] {
        assert!(run.out.to_lowercase().contains(&says.to_lowercase()), "`{says}` is not in\n{}", run.out);
    }
    let step = &scenario.scaffold[0];
    if let Some(reply) = step.reply(opposite(step.direction)) {
        let beginning: String = reply.chars().take(30).collect();
        assert!(run.out.contains(&beginning), "no reply to the wrong sign in\n{}", run.out);
    }
    // Taken up: nothing is asked again, and no mean is seen before the prediction.
    let wrong = opposite(scenario.prediction.direction);
    let input = format!("{}\n{wrong}\n\nit turned at one step\n{}", rest.join("\n"), answers(&scenario));
    let run = place.run(&["practise", "--resume"], &input);
    assert_eq!(run.code, 0, "{}", run.err);
    let (before, after) = run.out.split_once("== The outcome ==").expect("an outcome");
    assert!(!before.contains("my plan") && before.contains("Your prediction"), "{before}");
    for mean in &means {
        let cell = |text: &str| text.split_whitespace().any(|word| word == *mean);
        assert!(cell(after), "{mean} is not in the outcome");
        let told_in_text = cell(&scenario.how.join(" ")) || scenario.data.printed.iter().any(|row| row[0] == *mean);
        assert!(told_in_text || !cell(before), "{mean} is seen before the prediction");
    }
    assert!(after.contains(&format!("You predicted: {wrong}. Computed: {}.", scenario.prediction.direction)));
    // The prediction is locked: lines that would change it go into the scoring, where they are no scores.
    let run = place.run(&["practise", "--resume"], &format!("{}\n", scenario.prediction.direction));
    assert!(run.out.contains("Points are whole: write y or n."), "{}", run.out);
    let n = scenario.guide.len();
    let scores = "y\n".repeat(n - 1) + "n\n4 9\n";
    let run = place.run(&["practise", "--resume"], &scores);
    assert!(run.out.contains(&format!("{} of {n} points.", n - 1)) && run.out.contains("\nNext: "), "{}", run.out);
    let exported = read_file(&place.run(&["progress", "export", "-"], "").out).expect("a progress file");
    let attempt = &exported[0];
    assert!(exported.len() == 1 && attempt.is_finished());
    assert_eq!(attempt.answer("prediction").expect("a prediction").text, wrong);
    assert_eq!(attempt.answer("part-a").expect("an answer").text, "my answer to a\nin two lines");
    assert_eq!(attempt.points(), (u32::try_from(n - 1).expect("few"), u32::try_from(n).expect("few")));
    let habits: Vec<&str> = attempt.scores[n - 1].habits.iter().map(toehold::progress::HabitId::as_str).collect();
    assert_eq!(habits, ["no-reason", "not-known"]);
    assert_eq!(place.run(&["practise", "--resume"], "").code, 2);
}

#[test]
fn an_answer_that_was_cut_off_goes_on_with_its_lines() {
    let place = Place::new();
    place.run(&["practise", "--seed", "3"], "\nfirst line of a plan\n");
    let run = place.run(&["practise", "--resume"], "second line\n\n");
    assert!(run.out.contains("Written so far:\n    first line of a plan\n"), "{}", run.out);
    let store = Store::open(&place.store()).expect("a store");
    let attempts = store.attempts(None).expect("attempts");
    assert_eq!(attempts[0].answer("plan").expect("a plan").text, "first line of a plan\nsecond line");
}

#[test]
fn support_fades_within_a_sitting_and_stays_where_it_is_asked_for() {
    let (_, scenario) = scenario(3);
    let directions = |lines_a_step: &[usize]| {
        let mut lines = "\n\n".to_owned();
        for (step, n) in scenario.scaffold.iter().zip(lines_a_step) {
            lines += &"x\n".repeat(if step.told { n.saturating_sub(1) } else { *n });
            lines.extend([step.direction, "\n"]);
        }
        lines
    };
    let n = scenario.scaffold.len();
    let fading: Vec<usize> = (0..n).map(|step| [2, 2, 1, 1, 0, 0, 0][step]).collect();
    let run = Place::new().run(&["practise", "--seed", "3"], &directions(&fading));
    assert!(run.out.contains("Step 1 of") && run.out.contains("(support: completion)"), "{}", run.out);
    assert!(run.out.contains("The chain: "), "{}", run.out);
    let run = Place::new().run(&["practise", "--seed", "3", "--support", "prompts"], &directions(&vec![0; n]));
    assert_eq!(run.out.matches("(support: prompts)").count(), n, "{}", run.out);
    assert!(!run.out.contains(&scenario.scaffold[0].answer), "an answer is shown before the prediction");
    let run = Place::new().run(&["practise", "--seed", "3", "--support", "none"], "\n\n");
    assert!(run.out.contains("Your prediction") && !run.out.contains("Step 1"), "{}", run.out);
}

#[test]
fn a_file_is_practised_and_taken_up_by_its_name() {
    let (_, scenario) = scenario(5);
    let place = Place::new();
    let file = place.path("one.md");
    let text = toehold::render::markdown(&Templates::new(&[]).expect("templates"), &scenario).expect("Markdown");
    std::fs::write(&file, &text).expect("a file");
    let path = file.to_str().expect("a path");
    let run = place.run(&["practise", path], "\nthe plan\n\n");
    assert!(run.code == 0 && run.err.is_empty(), "{}", run.err);
    let run = place.run(&["practise", path], "");
    assert!(run.err.starts_with("going on with attempt ") && !run.out.contains("the plan"), "{}", run.err);
    std::fs::write(&file, text.replace("## How it works", "## How it works\n\nMore.")).expect("a file");
    assert!(place.run(&["practise", path], "").err.contains("has been edited"));
    std::fs::write(&file, "# no front matter\n").expect("a file");
    let run = place.run(&["practise", path], "");
    assert!(run.code == 2 && run.err.contains("one.md:1:1: "), "{}", run.err);
    let other = text.replacen("graph: \"", "graph: \"0", 1);
    std::fs::write(&file, other).expect("a file");
    let run = place.run(&["practise", path], "");
    assert!(run.code == 2 && run.err.contains("it was made from concepts "), "{}", run.err);
}

#[test]
fn the_weakest_principle_is_practised() {
    let (generator, scenario) = scenario(3);
    let place = Place::new();
    let n = scenario.guide.len();
    // Everything right but the points of one principle.
    let of = |label: &str| {
        scenario.guide.iter().find(|point| point.point == label).and_then(|point| point.principle.clone())
    };
    let missed = scenario.guide.iter().find_map(|point| point.principle.clone()).expect("a principle");
    let mut input = format!("\n\n{}\n\n", scenario.prediction.direction);
    input += &"\n".repeat(scenario.parts.len());
    for point in &scenario.guide {
        input += if of(&point.point).as_ref() == Some(&missed) { "n\n\n" } else { "y\n" };
    }
    let run = place.run(&["practise", "--seed", "3", "--support", "none"], &input);
    assert!(run.out.contains(&format!(" of {n} points.")), "{}", run.out);
    let report: Value = serde_json::from_str(&place.run(&["progress", "--format", "json"], "").out).expect("JSON");
    assert_eq!(report["next"]["principle"], missed.as_str());
    let run = place.run(&["practise", "--weakest", "--seed", "8"], "");
    let graph = generator.graph();
    let name = &graph.principle(graph.find_principle(&missed).expect("a principle")).name;
    assert!(run.err.contains(&format!("practising {name}. ")), "{}", run.err);
    let store = Store::open(&place.store()).expect("a store");
    let attempts = store.attempts(None).expect("attempts");
    let last = attempts.iter().find(|attempt| !attempt.is_finished()).expect("a new attempt");
    assert!(last.scenario.principles.iter().any(|id| id.as_str() == missed));
}

#[test]
fn wrong_use_and_lines_of_any_kind_end_well() {
    let place = Place::new();
    for (arguments, says) in [
        (&["practise", "--field", "cookery"][..], "no field is called `cookery`"),
        (&["practise", "--principle", "osmosi"], "did you mean `osmosis`?"),
        (&["practise", "no-such.md"], "it is not there"),
        (&["practise", "--student", "a\tb"], "cannot be a student's code"),
        (&["practise", "--resume"], "there is no attempt to go on with"),
        (&["practise", "--resume", "--weakest"], "cannot be used with"),
    ] {
        let run = place.run(arguments, "");
        assert!(run.code == 2 && run.err.contains(says), "{arguments:?}: {}", run.err);
    }
    let hostile = format!("\u{1b}[2J\u{7}\n{}\n\n\0\0\nrises\n\u{202e}\n", "x".repeat(100_000));
    let run = place.run(&["practise", "--seed", "4", "--timed", "--student", "K7"], &hostile);
    assert!(run.code == 0 && !run.out.contains('\u{1b}') && run.out.contains("[reading 0:00 of "), "{}", run.err);
    let run = place.run(&["progress", "list", "--student", "K7"], "");
    assert!(run.out.contains("unfinished") && run.out.contains("K7"), "{}", run.out);
}
