//! The broken scenarios under `broken/scenario`: each the same scenario of the graph `graphs/tiny`, broken in one place.
//!
//! A change of layout or wording makes them out of date. The test below then writes them anew and fails once; look at
//! the difference, run the tests again, and review the snapshots.

use toehold::concepts::load_and_check;
use toehold::render::{Templates, markdown};
use toehold::scenario::{Front, Generator};
use toehold::source::Sources;

use super::edits::{Line, Place, lines, numbers, replaced};
use super::{Desk, Found};
use crate::program::tests;

/// What a person would choose; values are filled in from the seed.
const FRONT: &str = r#"
toehold: 1
graph: ""
seed: 7
attempt: 0
title: "Mesh-run lanes"
form: "long"
act: "choose-length"
levels: [500, 1000, 2000, 4000]
rig: "gel-picture"
context: "reed-snails"
path: ["length-slows", "mobility-carries"]
settings: ["in-gel"]
sides: []
twist: { at: "length-slows", id: "no-gel" }
replicates: 5
names:
  - { entity: "strand", name: "fragment" }
  - { entity: "gel-bed", name: "gel" }
parameters: []
noiseless: []
noiseless_twisted: []
"#;

type Edit = fn(&str) -> String;

/// File name, code, edit.
const EDITS: &[(&str, &str, Edit)] = &[
    ("number-differs-table", "number-differs", |text| cell(text, 1, 2, "1.5")),
    ("number-differs-guide", "number-differs", |text| on(text, Place::GuideRow, "Answer: −", |_| "Answer: −1")),
    ("number-differs-all", "number-differs", |text| text.replace("replicates: 5", "replicates: 8")),
    ("number-differs-front", "number-differs", |text| {
        let at = text.find("noiseless: [").unwrap() + "noiseless: [".len();
        replaced(text, at..at, "1")
    }),
    ("number-missing", "number-missing", |text| {
        let line = line(text, Place::GuideRow, "Setup: ");
        let start = line.range.start + line.text.find("Setup: ").unwrap() + 7;
        let end = line.range.start + line.text.find(". Earns").unwrap();
        replaced(text, start..end, "as in the formula")
    }),
    ("number-unknown", "number-unknown", |text| {
        on(text, Place::Prose, "The current is left on", |old| leak(format!("It is stirred for 41 min. {old}")))
    }),
    ("unit-differs-header", "unit-differs", |text| on(text, Place::DataHeader, "(bp)", |_| "(kbp)")),
    ("unit-differs-prose", "unit-differs", |text| {
        let line = line(text, Place::Prose, " min");
        let at = line.range.start + line.text.find(" min").unwrap();
        replaced(text, at..at + 4, " h")
    }),
    ("sign-differs", "sign-differs", |text| {
        let row = line(text, Place::DataRow, "| 4000");
        let range = numbers(&row)[1].clone();
        replaced(text, range.start..range.start, "−")
    }),
    ("order-differs", "order-differs", |text| {
        let line = line(text, Place::Figure, "From ");
        let range = numbers(&line);
        let (one, other) = (range[range.len() - 2].clone(), range[range.len() - 1].clone());
        let late = replaced(text, other.clone(), &text[one.clone()]);
        replaced(&late, one, &text[other])
    }),
    ("direction-differs-answer", "direction-differs", |text| {
        on(text, Place::Answer, "**goes down**", |_| "**goes up**")
    }),
    ("direction-differs-guide", "direction-differs", |text| on(text, Place::GuideRow, "more slowly", |_| "faster")),
    ("direction-differs-gone", "direction-differs", |text| {
        on(text, Place::Answer, "**goes down**", |_| "**is what it is**")
    }),
    ("points-differ-part", "points-differ", |text| on(text, Place::Question, "*(1)*", |_| "*(2)*")),
    ("points-differ-total", "points-differ", |text| on(text, Place::Subtitle, "10 points", |_| "9 points")),
    ("row-missing-data", "row-missing", |text| without(text, Place::DataRow, "| 2000")),
    ("row-missing-guide", "row-missing", |text| without(text, Place::GuideRow, "| b2")),
    ("row-repeated", "row-repeated", |text| twice(text, Place::DataRow, "| 2000")),
    ("column-missing", "column-missing", |text| {
        let mut out = text.to_owned();
        for line in lines(text)
            .iter()
            .rev()
            .filter(|line| matches!(line.place, Place::DataHeader | Place::DataRow) || line.text.starts_with("| ---: "))
        {
            let cut = line.text.trim_end_matches('|').rfind('|').unwrap() + 1;
            out = replaced(&out, line.range.start + cut..line.range.end, "");
        }
        out
    }),
    ("table-missing", "table-missing", |text| {
        let all = lines(text);
        let mut rows = all.iter().filter(|line| matches!(line.place, Place::DataHeader | Place::DataRow));
        let start = rows.next().unwrap().range.start;
        replaced(text, start..rows.next_back().unwrap().range.end + 1, "The table is on the board.\n")
    }),
    ("section-missing", "section-missing", |text| {
        let (start, end) = (text.find("## Scoring guide").unwrap(), text.find("## Map").unwrap());
        replaced(text, start..end, "")
    }),
    ("section-repeated", "section-repeated", |text| {
        let (start, end) = (text.find("## How it works").unwrap(), text.find("## Data").unwrap());
        replaced(text, end..end, &text[start..end])
    }),
    ("part-missing", "part-missing", |text| without(text, Place::Question, "(c) ")),
    ("part-repeated", "part-repeated", |text| twice(text, Place::Question, "(c) ")),
    ("step-missing", "step-missing", |text| without(text, Place::Answer, "2. ")),
    ("step-repeated", "step-repeated", |text| twice(text, Place::Answer, "2. ")),
    ("command-term-differs", "command-term-differs", |text| {
        on(text, Place::Question, "**Describe** how", |_| "Say something about how")
    }),
    ("several-faults", "points-differ", |text| {
        let text = on(text, Place::Subtitle, "10 points", |_| "12 points");
        let text = cell(&text, 3, 3, "77");
        on(&text, Place::Answer, "goes up: ", |_| "goes down: ")
    }),
    ("front-matter-missing", "front-matter-missing", |text| {
        format!("<!-- PLACE -->\n{}", text.split_once("\n---\n").unwrap().1)
    }),
    ("front-matter-malformed", "front-matter-malformed", |text| text.replacen("\n---\n", "\n", 1)),
    ("front-matter-unfit", "front-matter-unfit", |text| text.replace("levels: [500.0,", "levels: [600.0,")),
    ("front-matter-unfit-seed", "front-matter-unfit", |text| text.replace("\nseed: ", "\nseed: 9")),
    ("front-matter-unfit-path", "front-matter-unfit", |text| {
        text.replace("[\"length-slows\",\"mobility-carries\"]", "[\"mobility-carries\",\"length-slows\"]")
    }),
    ("newer-format", "newer-format", |text| text.replace("toehold: 1", "toehold: 2\ncolour: red")),
    ("other-concepts", "other-concepts", |text| {
        let at = text.find("graph: \"").unwrap() + 8;
        // The points are still held against each other.
        on(&replaced(text, at..at + 8, "0badcafe"), Place::Subtitle, "10 points", |_| "11 points")
    }),
    ("unknown-rig", "unknown-rig", |text| text.replace("gel-picture", "gel-pictures")),
    ("unknown-context", "unknown-context", |text| text.replace("\"reed-snails\"", "\"moon-snails\"")),
    ("unknown-twist", "unknown-twist", |text| text.replace("\"no-gel\"", "\"no-gels\"")),
    ("unknown-name", "unknown-name", |text| text.replace("\"name\":\"fragment\"", "\"name\":\"fragmint\"")),
    ("unknown-influence-in-path", "unknown-influence", |text| text.replace("[\"length-slows\"", "[\"lenght-slows\"")),
    ("unknown-act-in-front", "unknown-act", |text| text.replace("choose-length", "choose-lengths")),
    ("unknown-field-in-front", "unknown-field", |text| text.replace("\nrig:", "\nrigg:")),
    ("missing-field-in-front", "missing-field", |text| {
        let start = text.find("replicates:").unwrap();
        let end = start + text[start..].find('\n').unwrap() + 1;
        replaced(text, start..end, "")
    }),
    ("yaml-syntax-in-front", "yaml-syntax", |text| text.replace("settings: [", "settings: [[")),
    ("truncated", "section-missing", |text| {
        let row = line(text, Place::DataRow, "| 2000");
        text[..row.range.start + 9].to_owned()
    }),
];

fn leak(text: String) -> &'static str {
    Box::leak(text.into_boxed_str())
}

fn line<'a>(text: &'a str, place: Place, with: &str) -> Line<'a> {
    let found = lines(text).into_iter().find(|line| line.place == place && line.text.contains(with));
    found.unwrap_or_else(|| panic!("no {place:?} with {with:?} in\n{text}"))
}

/// Replaces a word of a line.
fn on(text: &str, place: Place, old: &str, new: impl Fn(&str) -> &'static str) -> String {
    let line = line(text, place, old);
    let at = line.range.start + line.text.find(old).unwrap();
    replaced(text, at..at + old.len(), new(old))
}

/// Replaces a cell of the data.
fn cell(text: &str, row: usize, column: usize, new: &str) -> String {
    let all = lines(text);
    let row = all.iter().filter(|line| line.place == Place::DataRow).nth(row).unwrap();
    replaced(text, numbers(row)[column].clone(), new)
}

fn without(text: &str, place: Place, start: &str) -> String {
    let line = line(text, place, start);
    replaced(text, line.range.start..line.range.end + 1, "")
}

fn twice(text: &str, place: Place, start: &str) -> String {
    let line = line(text, place, start);
    let copy = format!("{}{}", line.text, if place == Place::Question { "\n\n" } else { "\n" });
    replaced(text, line.range.start..line.range.start, &copy)
}

fn tiny() -> Desk {
    let mut sources = Sources::new();
    for name in ["bench.yaml", "separation.yaml"] {
        sources.add_named(name, name, std::fs::read(tests().join("graphs/tiny").join(name)).unwrap());
    }
    let graph = load_and_check(&sources).unwrap_or_else(|faults| panic!("{} faults", faults.len()));
    Desk { generator: Generator::new(graph), templates: Templates::new(&[]).unwrap() }
}

/// The scenario before it is broken, with a line of its own for what is broken.
fn whole(desk: &Desk) -> String {
    let mut front: Front = serde_yaml::from_str(FRONT).unwrap();
    front.graph = desk.generator.graph().version().to_owned();
    // The first seed whose questions make ten points of a path of two steps, one of them the calculation of a fall.
    let mut texts = (7..).filter_map(|seed| {
        front.seed = seed;
        let scenario = desk.generator.again(&front).ok()?;
        markdown(&desk.templates, &scenario).ok()
    });
    let text = texts.by_ref().take(200).find(|text| text.contains("10 points") && text.contains("Answer: −")).unwrap();
    text.replacen("---\n", "---\n# PLACE\n", 1)
}

fn first(found: &Found, code: &str, name: &str) -> String {
    let fault = found.diagnostics.iter().find(|fault| fault.code.name == code);
    let fault = fault.unwrap_or_else(|| panic!("{name}: no {code} in\n{}", found.text()));
    let place = found.sources.place(fault.primary.file, fault.primary.start);
    format!("{code} {}:{}", place.line, place.column)
}

fn broken(desk: &Desk) -> Vec<(String, String)> {
    let whole = whole(desk);
    let found = desk.proof(whole.clone().into_bytes());
    assert!(found.diagnostics.is_empty(), "{whole}\n{}", found.text());
    let mut files = Vec::new();
    for (name, code, edit) in EDITS {
        let text = edit(&whole);
        assert_ne!(text, whole, "{name}");
        let place = first(&desk.proof(text.clone().into_bytes()), code, name);
        files.push((format!("{name}.md"), text.replacen("PLACE", &place, 1)));
    }
    files
}

#[test]
fn broken_scenarios_are_up_to_date() {
    let folder = tests().join("broken/scenario");
    std::fs::create_dir_all(&folder).unwrap();
    let mut stale = Vec::new();
    for (name, text) in broken(&tiny()) {
        let path = folder.join(&name);
        if std::fs::read_to_string(&path).unwrap_or_default() != text {
            std::fs::write(&path, text).unwrap();
            stale.push(name);
        }
    }
    assert!(stale.is_empty(), "written anew: look at the difference, run the tests again: {stale:?}");
}
