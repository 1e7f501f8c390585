//! The page to practise on: self-contained, under a strict policy, and silent about the outcome before the lock.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde_json::Value;
use sha2::{Digest, Sha256};
use toehold::render::{Document, Practice, practice};

use super::{SCENARIOS, TEMPLATES};

/// The page of a scenario whose file has this text.
fn page(place: usize, text: &str) -> String {
    let scenario = &SCENARIOS[place].0;
    let document = Document::read(text).unwrap();
    let parts = Practice { scenario, document: &document, principles: &[], pages: &[], reviewer: None };
    practice(&TEMPLATES, &parts).unwrap()
}

fn between<'a>(text: &'a str, start: &str, end: &str) -> &'a str {
    let (_, rest) = text.split_once(start).unwrap_or_else(|| panic!("`{start}` is missing"));
    rest.split_once(end).unwrap_or_else(|| panic!("`{end}` is missing")).0
}

fn data(page: &str) -> Value {
    serde_json::from_str(between(page, "id=\"page-data\">", "</script>")).unwrap()
}

/// What a browser lays out before the script runs: no styles, no data, no templates.
fn laid_out(page: &str) -> String {
    let mut rest = page.to_owned();
    for name in ["style", "template", "script"] {
        while let Some((before, after)) = rest.split_once(&format!("<{name}")) {
            let (_, after) = after.split_once(&format!("</{name}>")).unwrap();
            rest = format!("{before}{after}");
        }
    }
    let mut words = String::new();
    let mut in_tag = false;
    for letter in rest.chars() {
        match letter {
            '<' => in_tag = true,
            '>' => in_tag = false,
            _ if !in_tag => words.push(letter),
            _ => {}
        }
    }
    words.replace('\u{a0}', " ").split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn the_policy_names_the_one_script_by_its_hash() {
    for place in 0..40 {
        let page = page(place, &SCENARIOS[place].1);
        let policy = between(&page, "Content-Security-Policy\" content=\"", "\"").replace("&#39;", "'");
        let directives: Vec<&str> = policy.split("; ").collect();
        let script = between(page.rsplit_once("<script>").map(|(_, rest)| rest).unwrap(), "", "</script>");
        let hash = STANDARD.encode(Sha256::digest(script.as_bytes()));
        assert_eq!(
            directives,
            [
                "default-src 'none'",
                format!("script-src 'sha256-{hash}'").as_str(),
                "style-src 'unsafe-inline'",
                "img-src data:",
                "base-uri 'none'",
                "form-action 'none'",
            ]
        );
        assert_eq!(page.matches("<script>").count(), 1);
    }
}

#[test]
fn a_page_loads_nothing() {
    for place in 0..40 {
        let page = page(place, &SCENARIOS[place].1);
        // The name of a namespace is no address.
        let page = page.replace("http://www.w3.org/2000/svg", "");
        assert!(!page.contains("http:") && !page.contains("https:") && !page.contains("//cdn"), "{place}");
        for mark in
            ["src=\"", "url(", "@import", "fetch(", "XMLHttpRequest", "sendBeacon", "WebSocket", "innerHTML", "eval("]
        {
            assert!(!page.contains(mark), "{place}: {mark}");
        }
        assert!(page.split(" href=\"").skip(1).all(|rest| rest.starts_with('#')), "{place}");
    }
}

#[test]
fn nothing_laid_out_before_the_lock_tells_the_outcome() {
    for (place, (scenario, text)) in SCENARIOS.iter().enumerate() {
        let page = page(place, text);
        let words = laid_out(&page);
        assert!(words.contains("How it works") && words.contains("Local safety rules"), "{}", scenario.id);
        for word in ["±", "SEM", "Data plot", "the mean falls", "the mean rises"] {
            assert!(!words.contains(word), "{}: {word}", scenario.id);
        }
        let secrets = scenario.guide.iter().map(|point| &point.statement);
        let secrets = secrets.chain(scenario.scaffold.iter().map(|step| &step.answer));
        for secret in secrets.filter(|secret| secret.chars().count() > 60) {
            assert!(!words.contains(secret.as_str()), "{}: {secret}", scenario.id);
        }
    }
}

#[test]
fn parts_that_may_be_read_early_quote_no_reading() {
    let mut n_early = 0;
    for (place, (scenario, text)) in SCENARIOS.iter().enumerate() {
        let page = page(place, text);
        for part in page.split("data-early=\"\">").skip(1) {
            n_early += 1;
            let part = part.split_once("</template>").unwrap().0;
            for word in ["±", "The reading is", "in the table", "this time"] {
                // The graph is asked for from the table without a word on what it shows.
                assert!(!part.contains(word), "{}: {part}", scenario.id);
            }
        }
    }
    assert!(n_early > SCENARIOS.len(), "some parts can be read early");
}

#[test]
fn the_curve_is_dense_enough_to_be_followed_in_straight_lines() {
    for (scenario, _) in SCENARIOS.iter() {
        let runs = [Some(&scenario.data), scenario.twist.as_ref().and_then(|twist| twist.data.as_ref())];
        for table in runs.into_iter().flatten() {
            assert!(table.curve.len() > 60, "{}", scenario.id);
            let values = || table.curve.iter().map(|(_, value)| *value);
            let range = values().fold(f64::MIN, f64::max) - values().fold(f64::MAX, f64::min);
            for ((level, ..), noiseless) in table.rows.iter().zip(&table.noiseless) {
                let pair = table.curve.windows(2).find(|pair| pair[1].0 >= *level - 1e-9).unwrap();
                let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
                let on_the_line = y0 + (y1 - y0) * (level - x0) / (x1 - x0);
                // A kink between two points (where a law saturates) is off by at most a hundredth of the height.
                assert!((on_the_line - noiseless).abs() <= 0.01 * range + 1e-9, "{} at {level}", scenario.id);
            }
        }
    }
}

#[test]
fn times_are_those_of_a_sitting_by_points() {
    // 10 minutes' reading and 80 minutes' writing for 44 points (common practice, no source), worked by hand.
    let minutes = |points: u32| match points {
        3 => (1, 6),
        4 => (1, 8),
        10 => (3, 19),
        _ => panic!("{points} points"),
    };
    for place in 0..40 {
        let data = data(&page(place, &SCENARIOS[place].1));
        let points = u32::try_from(data["scenario"]["points"].as_u64().unwrap()).unwrap();
        let (reading, writing) = minutes(points);
        assert_eq!(data["minutes"], serde_json::json!({ "reading": reading, "writing": writing }));
    }
}

#[test]
fn a_hostile_file_stays_text() {
    let bad = "</script><script>alert(1)</script><!--<script>";
    let (scenario, text) = &SCENARIOS[0];
    let plain = page(0, text);
    let step = &scenario.scaffold[0];
    let point = &scenario.guide[0];
    let changed = text
        .replace(&format!("\n# {}", scenario.title), &format!("\n# {} {bad}", scenario.title))
        .replace(&scenario.purpose, &format!("{} {bad}", scenario.purpose))
        .replace(&step.role, &format!("{} {bad}", step.role))
        .replace(&point.statement, &format!("{} {bad}", point.statement));
    assert!(changed.matches(bad).count() >= 4);
    let page = page(0, &changed);
    for mark in ["<script", "</script", "<!--", "<template"] {
        assert_eq!(page.matches(mark).count(), plain.matches(mark).count(), "{mark}");
    }
    let data = data(&page);
    assert!(data["steps"][0]["role"].as_str().unwrap().contains("alert(1)"));
    assert!(data["points"][0]["statement"].as_str().unwrap().contains("alert(1)"));
}

#[test]
fn edits_reach_the_page() {
    let (scenario, text) = &SCENARIOS[0];
    let step = &scenario.scaffold[0];
    let point = &scenario.guide[0];
    let changed = text
        .replacen(&step.role, "Which of my words stands here?", 1)
        .replace(&point.statement, "My own statement.")
        .replacen(&scenario.parts[0].text, "**Name** my own question.", 1);
    let page = page(0, &changed);
    let data = data(&page);
    assert_eq!(data["steps"][0]["role"], "Which of my words stands here?");
    assert_eq!(data["points"][0]["statement"], "My own statement.");
    assert!(page.contains("my own question"));
    // A step more would put the words of one beside the direction of another: then the scenario's own stand.
    let fewer = text.replacen("\n1. ", "\n", 1);
    let steps = self::data(&self::page(0, &fewer))["steps"].clone();
    assert_eq!(steps[0]["role"], step.role.as_str());
}

#[test]
fn every_step_of_the_page_is_the_scenarios() {
    for (place, (scenario, text)) in SCENARIOS.iter().enumerate() {
        let data = data(&page(place, text));
        for (shown, step) in data["steps"].as_array().unwrap().iter().zip(&scenario.scaffold) {
            assert_eq!(shown["direction"], step.direction);
            assert_eq!(shown["role_answer"], step.role_answer.as_str(), "{}", scenario.id);
            assert_eq!(shown["answer"], step.answer.as_str(), "{}", scenario.id);
            assert_eq!(shown["step"], step.step.as_str(), "{}", scenario.id);
        }
        assert_eq!(data["points"].as_array().unwrap().len(), scenario.guide.len());
        assert_eq!(data["prediction"], scenario.prediction.direction);
    }
}
