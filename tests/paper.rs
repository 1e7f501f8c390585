//! Papers: points, times, balance, versions, bytes, pages, JSON, and wrong use.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

use serde_json::Value;
use toehold::concepts::{embedded, load_and_check};
use toehold::paper::{Balance, Holds, Look, Paper, Plan, Size, Vary, Version, assemble, copies, json, page};
use toehold::render::Templates;
use toehold::scenario::{Generator, PartKind, Scenario};
use toehold::seed::Seed;
use toehold::technique::Form;

use crate::program::{in_threads, toehold};

/// Seeds over which properties are shown.
const SEEDS: u64 = 20;
/// Seeds over which properties of three versions are shown.
const SEEDS_OF_THREE: u64 = 4;

static GENERATOR: LazyLock<Generator> = LazyLock::new(|| {
    let graph = load_and_check(&embedded()).unwrap_or_else(|faults| panic!("{} faults in the concepts", faults.len()));
    Generator::new(graph)
});
static TEMPLATES: LazyLock<Templates> = LazyLock::new(|| Templates::new(&[]).expect("the templates work"));

/// One paper a seed, made once for all tests of this file.
static PAPERS: LazyLock<Vec<Paper>> = LazyLock::new(|| {
    let seeds: Vec<u64> = (0..SEEDS).collect();
    in_threads(&seeds, |seed| paper(&plan(*seed, 1)))
});

fn plan(seed: u64, n_versions: usize) -> Plan {
    Plan {
        seed: Seed(seed),
        n_short: 6,
        n_long: 2,
        reading_minutes: 10,
        writing_minutes: 80,
        extended_percent: 0,
        names: ('A'..='Z').take(n_versions).map(String::from).collect(),
        vary: Vary::Technique,
        fields: Vec::new(),
    }
}

fn paper(plan: &Plan) -> Paper {
    assemble(&GENERATOR, &TEMPLATES, plan, &[]).expect("a paper")
}

fn scenarios(version: &Version) -> Vec<&Scenario> {
    version.questions.iter().map(|question| &question.scenario).collect()
}

#[test]
fn points_and_minutes_add_up() {
    for paper in PAPERS.iter() {
        let version = &paper.versions[0];
        let of_form = |form| version.questions.iter().filter(move |question| question.scenario.form == form);
        assert_eq!(of_form(Form::Short).count(), 6);
        assert_eq!(of_form(Form::Long).count(), 2);
        assert!(of_form(Form::Short).all(|question| (3..=4).contains(&question.points())));
        assert!(of_form(Form::Long).all(|question| question.points() == 10));
        for question in &version.questions {
            let of_guide = u32::try_from(question.scenario.guide.len()).expect("few");
            assert_eq!(question.points(), of_guide, "{}", question.scenario.id);
        }
        assert!((38..=44).contains(&version.points()));
        assert_eq!((paper.reading_minutes, paper.writing_minutes), (10, 80));
        let minutes = paper.minutes_per_point(version) * f64::from(version.points());
        assert!((minutes - 80.0).abs() < 1e-9);
    }
}

#[test]
fn papers_are_balanced() {
    let fields: Vec<String> = GENERATOR.graph().fields().map(|(_, field)| field.id.clone()).collect();
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    for paper in PAPERS.iter() {
        let chosen = scenarios(&paper.versions[0]);
        let balance = Balance::of(&chosen, &fields, &BTreeSet::new(), &BTreeSet::new());
        *seen.entry(format!("spread {} contexts {}", balance.field_spread, balance.repeated_contexts)).or_default() +=
            1;
        assert_eq!(balance.missing_fields, 0, "seed {}", paper.seed.0);
        let paths: BTreeSet<_> = chosen.iter().map(|one| &one.path).collect();
        let titles: BTreeSet<_> = chosen.iter().map(|one| &one.title).collect();
        assert_eq!((paths.len(), titles.len()), (chosen.len(), chosen.len()), "seed {}", paper.seed.0);
        let terms: BTreeSet<&str> =
            chosen.iter().flat_map(|one| &one.parts).map(|part| part.command_term.as_str()).collect();
        assert!(terms.len() >= 7, "seed {}: {terms:?}", paper.seed.0);
    }
    println!("{seen:?}");
}

#[test]
fn versions_share_no_technique() {
    for seed in 0..SEEDS_OF_THREE {
        let paper = paper(&plan(seed, 3));
        let all: Vec<&Scenario> = paper.versions.iter().flat_map(scenarios).collect();
        let paths: BTreeSet<_> = all.iter().map(|one| &one.path).collect();
        let titles: BTreeSet<_> = all.iter().map(|one| &one.title).collect();
        assert_eq!((paths.len(), titles.len()), (24, 24), "seed {seed}");
        // Version A is the same whatever others there are.
        let alone: Vec<_> = scenarios(&PAPERS[usize::try_from(seed).expect("few")].versions[0]);
        assert_eq!(alone, scenarios(&paper.versions[0]));
    }
}

#[test]
fn versions_share_techniques_with_other_parameters() {
    for seed in 0..SEEDS_OF_THREE {
        let paper = paper(&Plan { vary: Vary::Parameters, ..plan(seed, 3) });
        for at in 0..8 {
            let same: Vec<&Scenario> = paper.versions.iter().map(|version| &version.questions[at].scenario).collect();
            for (place, one) in same.iter().enumerate() {
                assert_eq!(one.path, same[0].path);
                assert_eq!(one.front.settings, same[0].front.settings);
                assert_eq!(one.front.context, same[0].front.context);
                assert_eq!(one.front.twist, same[0].front.twist);
                assert_eq!(one.title, same[0].title);
                let asked = |one: &Scenario| one.parts.iter().map(|part| (part.kind, part.points)).collect::<Vec<_>>();
                assert_eq!(asked(one), asked(same[0]), "{}", one.id);
                assert!(same[..place].iter().all(|other| other.data.printed != one.data.printed), "{}", one.id);
                // A file of it makes it again.
                assert_eq!(&&GENERATOR.again(&one.front).expect("made again"), one);
            }
        }
    }
}

#[test]
fn the_same_seed_gives_the_same_bytes() {
    let generator = Generator::new(GENERATOR.graph().clone());
    for seed in 0..6 {
        let again = assemble(&generator, &TEMPLATES, &plan(seed, 1), &[]).expect("a paper");
        let first = &PAPERS[usize::try_from(seed).expect("few")];
        assert_eq!(json(&again).expect("JSON"), json(first).expect("JSON"));
        let text = |paper| copies(&TEMPLATES, GENERATOR.graph(), paper).expect("Markdown");
        assert_eq!(text(&again), text(first));
        assert_eq!(both(&again), both(first));
    }
}

fn both(paper: &Paper) -> String {
    let look = Look { size: Size::A4, large_type: false };
    page(&TEMPLATES, GENERATOR.graph(), paper, &paper.versions, Holds::Both, look).expect("a page")
}

/// Tags that have no content.
const VOID: &[&str] = &["meta", "br", "hr", "img"];

/// Every tag is closed where it should be, every id is there once, every reference leads to one.
#[track_caller]
fn well_formed(html: &str) {
    let mut open: Vec<&str> = Vec::new();
    let mut ids: BTreeSet<&str> = BTreeSet::new();
    let body = html.split_once("<!DOCTYPE html>").expect("a doctype").1;
    for tag in body.split('<').skip(1) {
        let (tag, _) = tag.split_once('>').expect("a tag ends");
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name), "closed");
            continue;
        }
        let name = tag.split_whitespace().next().expect("a name").trim_end_matches('/');
        if let Some((_, rest)) = tag.split_once(" id=\"") {
            assert!(ids.insert(rest.split('"').next().expect("an id")), "twice: {tag}");
        }
        if !tag.ends_with('/') && !VOID.contains(&name) {
            open.push(name);
        }
    }
    assert!(open.is_empty(), "left open: {open:?}");
    for mark in [" aria-labelledby=\"", " aria-describedby=\"", "url(#"] {
        for rest in html.split(mark).skip(1) {
            let id = rest.split(['"', ')']).next().expect("an id");
            assert!(ids.contains(id), "`{id}` leads nowhere");
        }
    }
}

#[test]
fn pages_are_well_formed_and_need_nothing_else() {
    for paper in PAPERS.iter().take(20) {
        let html = both(paper);
        well_formed(&html);
        for outside in
            ["<script", "<link", "<iframe", "<img", " src=", "@import", "url(h", "href=", "javascript:", "onload"]
        {
            assert!(!html.contains(outside), "{outside}");
        }
        assert!(html.contains("default-src 'none'"));
    }
}

#[test]
fn students_get_no_answers_and_space_to_write() {
    let look = Look { size: Size::Letter, large_type: true };
    for paper in PAPERS.iter().take(20) {
        let version = &paper.versions[0];
        let student =
            page(&TEMPLATES, GENERATOR.graph(), paper, &paper.versions, Holds::Student, look).expect("a page");
        let written = &copies(&TEMPLATES, GENERATOR.graph(), paper).expect("Markdown")[0].student;
        for question in &version.questions {
            let scenario = &question.scenario;
            for text in [&student, written] {
                assert!(!text.contains(&scenario.seed.to_string()), "the seed of {}", scenario.id);
                for point in scenario.guide.iter().filter(|point| point.statement.len() > 60) {
                    assert!(!text.contains(&point.statement), "{}: {}", scenario.id, point.point);
                }
            }
            // A graph that is to be drawn is not there, and the grid is.
            if scenario.figure.to_draw {
                assert!(!student.contains(&scenario.figure.alternative), "{}", scenario.id);
                assert!(!written.contains(&scenario.figure.alternative), "{}", scenario.id);
                assert!(question.sheet.drawn.is_some());
            }
        }
        // A chain of steps takes more words than a name.
        let lines = |kind| match kind {
            PartKind::Explain | PartKind::PredictAndJustify => 4,
            PartKind::Identify => 2,
            PartKind::Construct => 0,
            _ => 3,
        };
        let parts = version.questions.iter().flat_map(|one| &one.scenario.parts);
        let wanted: u32 = parts.map(|part| lines(part.kind) * part.points).sum();
        let n_grids = version.questions.iter().filter(|one| one.scenario.figure.to_draw).count();
        assert_eq!(student.matches("<div class=\"grid\">").count(), n_grids);
        let n_lines = student.matches("<div class=\"line\">").count();
        assert_eq!(u32::try_from(n_lines).expect("few"), wanted);
        assert!(student.contains("size: letter") && student.contains("class=\"large\""));
        assert!(student.contains("counter(page)"));
    }
}

#[test]
fn the_guide_marks_every_point() {
    for paper in PAPERS.iter().take(20) {
        let version = &paper.versions[0];
        let guide = &copies(&TEMPLATES, GENERATOR.graph(), paper).expect("Markdown")[0].guide;
        assert_eq!(guide.matches("### Scoring guide").count(), 8);
        assert_eq!(guide.matches("### Sample answers").count(), 2);
        // A sitting has no steps to answer.
        assert!(!guide.contains("Answers to the steps"));
        for question in &version.questions {
            for part in &question.sheet.parts {
                assert!(guide.contains(&format!("| {}{} | {} |", question.number, part.label, part.points)));
            }
            for id in &question.scenario.principles {
                let graph = GENERATOR.graph();
                assert!(guide.contains(&graph.principle(graph.find_principle(id).expect("known")).name));
            }
        }
        assert!(guide.contains(&format!("| **Total** | **{}** |", version.points())));
    }
}

#[test]
fn the_formula_sheet_has_the_laws_that_are_reckoned_with() {
    for paper in PAPERS.iter().take(20) {
        let student = &copies(&TEMPLATES, GENERATOR.graph(), paper).expect("Markdown")[0].student;
        let sheet = student.split_once("## Formulas and constants").expect("a sheet").1;
        assert!(!sheet.contains('`'), "words of the command line");
        let tested = paper.versions[0].questions.iter().flat_map(|question| &question.scenario.parts);
        let tested = tested.into_iter().any(|part| part.text.contains("chi-square"));
        assert_eq!(sheet.contains("χ² = Σ(O − E)²/E"), tested);
        for question in &paper.versions[0].questions {
            for id in &question.scenario.path {
                let graph = GENERATOR.graph();
                let law = graph.influence(graph.find_influence(id).expect("known")).law.law;
                // Laws that no class works by hand have no setup.
                assert!(law.setup.is_empty() || sheet.contains(law.formula), "{}", law.id);
                if law.setup.contains("(8.314 ") {
                    assert!(sheet.contains("| molar gas constant | R | 8.314 J/(mol·K) |"), "{}", law.id);
                }
            }
        }
    }
}

#[test]
fn json_has_its_shape() {
    let run = toehold(&["paper", "--seed", "3", "--format", "json", "--versions", "Left,Right", "--extended", "25"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let value: Value = serde_json::from_str(&run.out).expect("JSON");
    assert_eq!(value["version"], 1);
    assert_eq!(value["seed"], 3);
    assert_eq!((&value["reading_minutes"], &value["writing_minutes"]), (&13.into(), &100.into()));
    assert_eq!(value["name"], "Left");
    assert_eq!(value["questions"].as_array().map(Vec::len), Some(8));
    assert_eq!(value["versions"].as_array().map(Vec::len), Some(1));
    assert_eq!(value["versions"][0]["name"], "Right");
    assert_eq!(value["versions"][0]["questions"].as_array().map(Vec::len), Some(8));
    let points = |questions: &Value| -> u64 {
        let parts =
            questions.as_array().into_iter().flatten().flat_map(|one| one["parts"].as_array().into_iter().flatten());
        parts.map(|part| part["points"].as_u64().unwrap_or(0)).sum()
    };
    assert_eq!(Some(points(&value["questions"])), value["points"].as_u64());
    let first = &value["questions"][0];
    let seed = first["seed"].to_string();
    let form = first["form"].as_str().expect("a form");
    let field = toehold(&[
        "generate",
        "--seed",
        &seed,
        "--form",
        form,
        "--field",
        first["fields"][0].as_str().expect("a field"),
        "--format",
        "json",
    ]);
    let keys = |value: &Value| value.as_object().map(|object| object.keys().cloned().collect::<Vec<_>>());
    assert_eq!(keys(first), keys(&serde_json::from_str(&field.out).expect("JSON")));
}

/// A folder of scenarios: so many short and so many long ones.
fn folder(short: &str, long: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().to_str().expect("a path");
    for (form, count, seed) in [("short", short, "11"), ("long", long, "12")] {
        let run = toehold(&["generate", "--form", form, "--count", count, "--seed", seed, "--out", path]);
        assert_eq!(run.code, 0, "{}", run.err);
    }
    folder
}

fn scenario_files(folder: &Path) -> Vec<String> {
    let files = fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("a file").path());
    let mut names: Vec<String> = files.filter_map(|path| path.to_str().map(str::to_owned)).collect();
    names.retain(|name| name.split('.').next_back() == Some("md"));
    names.sort();
    names
}

#[test]
fn files_keep_their_edits() {
    let folder = folder("2", "1");
    let path = folder.path().to_str().expect("a path");
    let files = scenario_files(folder.path());
    let edited = files.iter().find(|name| name.contains("-short-")).expect("a short one");
    let text = fs::read_to_string(edited).expect("a text");
    let before = text.matches("*(1)*").count();
    fs::write(
        edited,
        text.replacen("*(1)*", "Use your own words. *(2)*", 1)
            .replace("\n## How it works", "\nA word of mine.\n\n## How it works"),
    )
    .expect("written");
    assert!(before > 0);
    let arguments = ["paper", path, "--short", "2", "--long", "1", "--seed", "1"];
    let run = toehold(&arguments);
    assert_eq!(run.code, 0, "{}", run.err);
    for kept in ["A word of mine.", "Use your own words. *(2)*"] {
        assert!(run.out.contains(kept), "{kept}");
    }
    let made = toehold(&[&arguments[..], &["--format", "json"]].concat());
    let value: Value = serde_json::from_str(&made.out).expect("JSON");
    let of_parts: u64 = value["questions"]
        .as_array()
        .into_iter()
        .flatten()
        .flat_map(|one| one["parts"].as_array().into_iter().flatten())
        .filter_map(|part| part["points"].as_u64())
        .sum();
    assert_eq!(value["points"].as_u64(), Some(of_parts + 1), "the text's points count");
    // Other versions of an edited file are made anew, and that is said.
    let varied = toehold(&[&arguments[..], &["--versions", "2", "--vary", "parameters"]].concat());
    assert_eq!(varied.code, 0, "{}", varied.err);
    assert!(varied.err.contains("has been edited"), "{}", varied.err);
}

#[test]
fn files_are_written_whole_and_not_over_others() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("sitting");
    let path = out.to_str().expect("a path");
    let arguments = ["paper", "--seed", "4", "--short", "1", "--long", "1", "--versions", "A,B", "--out", path];
    let run = toehold(&arguments);
    assert_eq!(run.code, 0, "{}", run.err);
    for name in ["paper-A-student.html", "paper-A-guide.html", "paper-B-student.html", "paper-B-guide.html"] {
        well_formed(&fs::read_to_string(out.join(name)).expect(name));
    }
    let again = toehold(&arguments);
    assert_eq!(again.code, 2);
    assert!(again.err.contains("exists"), "{}", again.err);
    assert_eq!(toehold(&[&arguments[..], &["--force"]].concat()).code, 0);
    let text = toehold(&[&arguments[..], &["--format", "md"]].concat());
    assert_eq!(text.code, 0, "{}", text.err);
    for copy in ["paper-A-student.md", "paper-B-guide.md"] {
        let text = fs::read_to_string(out.join(copy)).expect(copy);
        for address in text
            .split("](")
            .skip(1)
            .filter_map(|rest| rest.split(')').next())
            .filter(|name| name.split('.').next_back() == Some("svg"))
        {
            assert!(out.join(address).exists(), "{copy} names {address}");
        }
    }
}

#[track_caller]
fn refused(arguments: &[&str], words: &[&str]) {
    let run = toehold(arguments);
    assert_eq!(run.code, 2, "{arguments:?}: {}", run.out);
    for word in words {
        assert!(run.err.contains(word), "{arguments:?}: `{word}` is not in\n{}", run.err);
    }
    assert!(run.out.is_empty());
}

#[test]
fn wrong_use_is_told_clearly() {
    refused(&["paper", "--field", "membrane"], &["no field is called `membrane`", "did you mean `membranes`?"]);
    refused(&["paper", "--short", "0", "--long", "0"], &["0 questions"]);
    refused(&["paper", "--versions", "0"], &["1 to 26"]);
    refused(&["paper", "--versions", "A,a"], &["two versions are called `a`"]);
    refused(&["paper", "--versions", "A,../b"], &["letters or digits"]);
    refused(&["paper", "--writing", "0"], &["--writing"]);
    refused(&["paper", "--pdf"], &["--out"]);
    refused(&["paper", "no-such-folder"], &["could not be read", "it is not there"]);
    refused(&["paper", "graphs"], &["no scenario"]);
    let few = folder("3", "1");
    let path = few.path().to_str().expect("a path");
    refused(&["paper", path], &["only 1 different long questions", "2 are needed", "--short"]);
    refused(&["paper", path, "--long", "1"], &["only 3 different short questions", "6 are needed"]);
    let file = scenario_files(few.path()).remove(0);
    let (short, long) = if file.contains("-short-") { ("2", "0") } else { ("0", "2") };
    refused(&["paper", &file, &file, "--short", short, "--long", long], &["are the same question"]);
    let text = fs::read_to_string(&file).expect("a text");
    let without: Vec<&str> = text.lines().filter(|line| !line.starts_with('(')).collect();
    fs::write(&file, without.join("\n")).expect("written");
    let (short, long) = if file.contains("-short-") { ("1", "0") } else { ("0", "1") };
    refused(&["paper", &file, "--short", short, "--long", long], &["no part that is worth points"]);
    fs::write(&file, text.replacen("graph: \"", "graph: \"0", 1)).expect("written");
    refused(&["paper", &file, "--short", short, "--long", long], &["cannot be made again", "--concepts"]);
}

#[test]
fn fields_can_be_chosen() {
    let run =
        toehold(&["paper", "--field", "enzymes", "--seed", "2", "--short", "2", "--long", "2", "--format", "json"]);
    let value: Value = serde_json::from_str(&run.out).expect("JSON");
    for question in value["questions"].as_array().expect("questions") {
        assert!(question["fields"].as_array().is_some_and(|fields| fields.contains(&"enzymes".into())));
    }
}

/// The program with this search path.
fn with_path(path: &str, arguments: &[&str]) -> std::process::Output {
    let mut program = std::process::Command::new(env!("CARGO_BIN_EXE_toehold"));
    program.args(arguments).env("PATH", path).output().expect("the program runs")
}

#[test]
fn a_pdf_needs_chromium() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("sitting");
    let path = out.to_str().expect("a path");
    let arguments = ["paper", "--seed", "4", "--short", "1", "--long", "0", "--out", path, "--pdf"];
    let without = with_path("", &arguments);
    assert_eq!(without.status.code(), Some(2));
    let err = String::from_utf8_lossy(&without.stderr).into_owned();
    assert!(err.contains("needs Chromium") && err.contains("hint:"), "{err}");
    assert!(!out.exists(), "nothing is written");
    refused(&[&arguments[..], &["--format", "md"]].concat(), &["`--pdf` prints pages"]);
    let search = std::env::var_os("PATH").unwrap_or_default();
    let is_there = std::env::split_paths(&search).any(|folder| folder.join("chromium").is_file());
    if !is_there {
        crate::program::skipped("no Chromium is installed");
        return;
    }
    let with = with_path(search.to_str().expect("a path"), &arguments);
    assert!(with.status.success(), "{}", String::from_utf8_lossy(&with.stderr));
    for name in ["paper-A-student.pdf", "paper-A-guide.pdf"] {
        assert!(fs::read(out.join(name)).expect(name).starts_with(b"%PDF-"), "{name}");
    }
}
