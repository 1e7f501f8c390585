//! The page of a scenario: one file, whole, folded, and true to the teacher's edits.

use toehold::render::{Copy, Document, Practice, Sheet, Templates, page, student_markdown};

use super::{SCENARIOS, TEMPLATES, all, ids_hold, tree, words};

#[test]
fn every_page_is_well_formed_and_needs_nothing_else() {
    for (scenario, text) in SCENARIOS.iter() {
        for copy in [Copy::Teacher, Copy::Student] {
            let page = page(&TEMPLATES, text, copy).unwrap();
            let document = tree(&page);
            assert_eq!(document.root_element().attribute("lang"), Some("en"));
            assert_eq!(all(&document, "h1").map(words).collect::<Vec<_>>(), [scenario.title.as_str()]);
            assert_eq!(all(&document, "script").count() + all(&document, "img").count(), 0);
            assert!(!page.contains("http:") && !page.contains("https:") && !page.contains("<script"));
            assert!(page.contains("default-src 'none'"));
            let figures = all(&document, "figure").count();
            // A student is to draw the plot where a question asks for it.
            let hidden = scenario.figure.to_draw && matches!(copy, Copy::Student);
            let expected = 2 + usize::from(scenario.figure.readings.is_some()) - usize::from(hidden);
            assert_eq!(figures, expected, "{}", scenario.id);
            ids_hold(&document);
            headings_step_by_one(&document);
        }
    }
}

/// No level of headings is left out on the way down.
fn headings_step_by_one(document: &roxmltree::Document<'_>) {
    let levels = document.descendants().filter_map(|node| match node.tag_name().name() {
        "h1" => Some(1),
        "h2" => Some(2),
        "h3" => Some(3),
        "h4" => Some(4),
        _ => None,
    });
    let levels: Vec<i32> = levels.collect();
    assert!(levels.windows(2).all(|pair| pair[1] <= pair[0] + 1), "{levels:?}");
}

#[test]
fn answers_are_folded_away_and_all_there() {
    for (scenario, text) in SCENARIOS.iter() {
        let page = page(&TEMPLATES, text, Copy::Teacher).unwrap();
        let document = tree(&page);
        let folded: Vec<String> = all(&document, "details").map(words).collect();
        assert!(all(&document, "details").all(|details| details.attribute("open").is_none()));
        let joined = folded.join(" ");
        for point in &scenario.guide {
            assert!(joined.contains(&point.statement), "{} lacks {}", scenario.id, point.point);
        }
        let whole: String = all(&document, "main").map(words).collect();
        for step in &scenario.scaffold {
            let answer = step.answer.trim();
            assert!(whole.contains(answer), "{}", scenario.id);
        }
    }
}

#[test]
fn a_students_copy_holds_no_answer() {
    for (scenario, text) in SCENARIOS.iter() {
        let page = page(&TEMPLATES, text, Copy::Student).unwrap();
        let markdown = student_markdown(text).unwrap();
        for copy in [page, markdown] {
            let copy = copy.replace('\u{a0}', " ");
            for heading in ["Answers to the steps", "Scoring guide", "Exercises", "noiseless"] {
                assert!(!copy.contains(heading), "{}: {heading}", scenario.id);
            }
            let secrets = scenario.guide.iter().map(|point| &point.statement);
            let secrets = secrets.chain(scenario.scaffold.iter().map(|step| &step.answer));
            // Short ones name things that the text names too.
            for secret in secrets.filter(|secret| secret.chars().count() > 60) {
                assert!(!copy.contains(secret.as_str()), "{}: {secret}", scenario.id);
            }
            assert!(copy.contains("How it works") && copy.contains("What do you already know?"));
        }
    }
}

#[test]
fn a_plot_to_be_drawn_is_in_no_students_copy_wherever_a_teacher_moves_it() {
    let to_draw = SCENARIOS.iter().filter(|(scenario, _)| scenario.figure.to_draw);
    let mut n = 0;
    for (scenario, text) in to_draw.take(5) {
        n += 1;
        let caption = "**Figure 9.** As the readings have it.";
        for place in ["## Data\n", "## How it works\n", "## Questions\n"] {
            let moved = format!("{place}\n![Here is how it goes](my-own-name.svg)\n\n{caption}\n");
            let text = text.replacen(place, &moved, 1);
            let kept = page(&TEMPLATES, &text, Copy::Teacher).unwrap();
            assert!(kept.contains("As the readings have it."), "{}", scenario.id);
            let sheet = Sheet::of(&Document::read(&text).unwrap(), "q");
            let sheet: String = sheet.stimulus.iter().map(|stretch| stretch.markdown.as_str()).collect();
            let copies = [page(&TEMPLATES, &text, Copy::Student).unwrap(), student_markdown(&text).unwrap(), sheet];
            for copy in copies {
                assert!(!copy.contains("my-own-name") && !copy.contains("Here is how it goes"), "{}", scenario.id);
                assert!(!copy.contains("As the readings have it."), "{}", scenario.id);
                assert!(copy.contains("apparatus"), "{}", scenario.id);
            }
        }
    }
    assert_eq!(n, 5, "scenarios with a graph to draw");
}

/// The first scenario's text with one thing changed.
fn edited(from: &str, to: &str) -> String {
    let text = &SCENARIOS[0].1;
    assert!(text.contains(from), "the scenario has `{from}`");
    text.replacen(from, to, 1)
}

#[test]
fn a_renamed_guide_does_not_reach_students() {
    for name in ["Mark scheme", "My key", "Rubric", "Notes of mine", "Erwartungshorizont"] {
        let text = edited("## Scoring guide", &format!("## {name}"));
        let page = page(&TEMPLATES, &text, Copy::Student).unwrap();
        assert!(!page.contains(name), "{name}");
        assert!(!page.contains("does not earn"), "{name}");
    }
}

#[test]
fn edits_are_kept_and_the_plot_follows_the_table() {
    let scenario = &SCENARIOS[0].0;
    let text = edited("## Questions", "## Before you start\n\nRead **everything** twice.\n\n## Questions");
    let page_before = page(&TEMPLATES, &SCENARIOS[0].1, Copy::Student).unwrap();
    let page_after = page(&TEMPLATES, &text, Copy::Student).unwrap();
    assert!(page_after.contains("Before you start") && page_after.contains("<strong>everything</strong>"));
    let row = &scenario.data.printed[1];
    let cells = format!("| {} | {} |", row[0], row[1]);
    let changed = text.replacen(&cells, &format!("| {} | 123456 |", row[0]), 1);
    let page_changed = page(&TEMPLATES, &changed, Copy::Student).unwrap();
    assert!(page_changed.contains("123456 ±"), "the description of the plot follows");
    assert_ne!(page_before, page_changed);
}

#[test]
fn without_a_table_the_page_stands_without_a_plot() {
    let text = &SCENARIOS[0].1;
    let kept: Vec<&str> = text.lines().filter(|line| !line.starts_with('|')).collect();
    let page = page(&TEMPLATES, &kept.join("\n"), Copy::Student).unwrap();
    let document = tree(&page);
    assert!(page.contains("[Picture: Data plot"));
    assert_eq!(all(&document, "figure").count(), 1, "the apparatus is left");
}

#[test]
fn a_document_knows_its_lines() {
    let (scenario, text) = &SCENARIOS[0];
    let document = Document::read(text).unwrap();
    assert_eq!(document.title, scenario.title);
    assert_eq!(document.front, scenario.front);
    let lines: Vec<&str> = text.lines().collect();
    for section in document.sections.iter().skip(1) {
        let line = lines[section.line - 1];
        assert_eq!(line.trim_start_matches('#').trim(), section.heading);
        let Some(first) = section.text.lines().next() else { continue };
        assert_eq!(lines[section.text_line - 1], first, "{}", section.heading);
    }
    let (line, table) = toehold::render::table::of_data(&document).unwrap();
    assert!(lines[line - 1].starts_with('|') && table.rows.len() == scenario.data.rows.len());
}

#[test]
fn every_template_renders() {
    let names = TEMPLATES.names();
    // Those of papers, maps and the atlas are rendered by tests of their own.
    let elsewhere = [
        "atlas.html",
        "map.html",
        "paper-guide.html",
        "paper-guide.md",
        "paper-student.html",
        "paper-student.md",
        "paper.css",
        "paper.html",
    ];
    let names: Vec<&str> = names.into_iter().filter(|name| !elsewhere.contains(name)).collect();
    assert_eq!(
        names,
        ["page.css", "page.html", "practice-index.html", "practice.html", "scenario.md"],
        "a new template needs a render here"
    );
    let (_, text) = &SCENARIOS[0];
    for name in ["page.css", "page.html"] {
        let replaced = Templates::new(&[(name.into(), "mark of the template".into())]).unwrap();
        assert!(page(&replaced, text, Copy::Teacher).unwrap().contains("mark of the template"), "{name}");
    }
    let replaced = Templates::new(&[("practice.html".into(), "mark".into())]).unwrap();
    let document = Document::read(text).unwrap();
    let parts =
        Practice { scenario: &SCENARIOS[0].0, document: &document, principles: &[], pages: &[], reviewer: None };
    assert_eq!(toehold::render::practice(&replaced, &parts).unwrap(), "mark");
    let replaced = Templates::new(&[("practice-index.html".into(), "mark".into())]).unwrap();
    assert_eq!(toehold::render::practice_index(&replaced, &[], &[]).unwrap(), "mark");
    let replaced = Templates::new(&[("scenario.md".into(), "mark".into())]).unwrap();
    assert_eq!(toehold::render::markdown(&replaced, &SCENARIOS[0].0).unwrap(), "mark");
}

#[test]
fn a_page_by_hand() {
    let page = page(&TEMPLATES, include_str!("small.md"), Copy::Teacher).unwrap();
    let document = tree(&page);
    let main = all(&document, "main").next().unwrap();
    insta::assert_snapshot!("page", outline(main, 0));
}

/// The elements and words of a page, a line each; pictures by their title only.
fn outline(node: roxmltree::Node<'_, '_>, depth: usize) -> String {
    let indent = "  ".repeat(depth);
    let lines = node.children().map(|inner| {
        let name = inner.tag_name().name();
        match (inner.is_element(), inner.text().unwrap_or_default().trim()) {
            (true, _) if name == "svg" => {
                let title = inner.first_element_child().map(words).unwrap_or_default();
                format!("{indent}svg {title}\n")
            }
            (true, _) => {
                let shown = ["id", "class", "data-label"];
                let attributes = inner.attributes().filter(|attribute| shown.contains(&attribute.name()));
                let attributes: Vec<String> = attributes.map(|a| format!(" {}={}", a.name(), a.value())).collect();
                format!("{indent}{name}{}\n{}", attributes.concat(), outline(inner, depth + 1))
            }
            (false, "") => String::new(),
            (false, words) => format!("{indent}“{words}”\n"),
        }
    });
    lines.collect()
}
