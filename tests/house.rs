//! The plan of the house, kept true: who may know whom, what every file opens with, and that the guide names real paths.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// Rooms in order: each may use only those before it.
const ORDER: &[&str] = &[
    "source",
    "diagnostic",
    "quantity",
    "laws",
    "concepts",
    "reasoning",
    "seed",
    "technique",
    "plan",
    "experiment",
    "scenario",
    "render",
    "review",
    "guide",
    "proof",
    "paper",
    "progress",
    "coverage",
    "atlas",
    "author",
    "cli",
];

/// Rooms that a room must not know although they come before it.
const NEVER: &[(&str, &[&str])] = &[
    ("quantity", &["source", "diagnostic"]),
    ("laws", &["source", "diagnostic"]),
    ("reasoning", &["source", "diagnostic", "quantity", "laws", "seed"]),
    ("seed", &["source", "diagnostic", "quantity", "laws", "concepts", "reasoning"]),
    ("technique", &["source", "diagnostic", "laws"]),
    ("plan", &["quantity", "laws", "reasoning", "seed"]),
    ("experiment", &["source", "diagnostic", "reasoning", "plan"]),
    ("render", &["concepts", "seed", "laws", "experiment"]),
    (
        "review",
        &[
            "source",
            "diagnostic",
            "laws",
            "concepts",
            "reasoning",
            "seed",
            "technique",
            "experiment",
            "scenario",
            "render",
        ],
    ),
    ("guide", &["source", "diagnostic", "laws", "reasoning", "seed", "technique", "experiment"]),
    ("paper", &["source", "diagnostic", "reasoning", "experiment", "proof"]),
    (
        "progress",
        &[
            "source",
            "diagnostic",
            "quantity",
            "laws",
            "concepts",
            "reasoning",
            "seed",
            "technique",
            "experiment",
            "scenario",
            "render",
            "proof",
            "paper",
        ],
    ),
    ("coverage", &["source", "diagnostic", "laws", "reasoning", "seed", "experiment", "proof", "paper"]),
    ("atlas", &["source", "diagnostic", "laws", "reasoning", "seed", "technique", "experiment", "proof", "paper"]),
    ("author", &["reasoning", "seed", "experiment", "proof", "paper", "coverage", "atlas"]),
];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn rust_files(folder: &Path, into: &mut Vec<PathBuf>) {
    let mut entries: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    for entry in entries {
        if entry.is_dir() {
            rust_files(&entry, into);
        } else if entry.extension().is_some_and(|ending| ending == "rs") {
            into.push(entry);
        }
    }
}

/// Every file of `src` with the room that it belongs to.
fn rooms() -> Vec<(PathBuf, String, String)> {
    let source = root().join("src");
    let mut files = Vec::new();
    rust_files(&source, &mut files);
    let room = |path: &Path| {
        let first = path.strip_prefix(&source).unwrap().components().next().unwrap();
        first.as_os_str().to_string_lossy().trim_end_matches(".rs").to_owned()
    };
    files.into_iter().map(|path| (path.clone(), room(&path), fs::read_to_string(&path).unwrap())).collect()
}

/// Rooms that a file names, its tests left out: those may look anywhere.
fn named(text: &str) -> Vec<(usize, String)> {
    let code = text.split("#[cfg(test)]").next().unwrap();
    let mut found = Vec::new();
    for (line, number) in code.lines().zip(1..) {
        let line = line.split("//").next().unwrap();
        for after in line.split("crate::").skip(1) {
            // A list of rooms in braces, or one room.
            let names = after.strip_prefix('{').map_or(after, |list| list.split('}').next().unwrap());
            let parts: Vec<&str> = if after.starts_with('{') { names.split(',').collect() } else { vec![names] };
            for part in parts {
                let room: String = part.trim().chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                found.push((number, room));
            }
        }
    }
    found
}

#[test]
fn no_room_knows_a_later_one() {
    let place: BTreeMap<&str, usize> = ORDER.iter().copied().zip(0..).collect();
    let mut faults = Vec::new();
    for (path, room, text) in rooms() {
        let Some(own) = place.get(room.as_str()) else {
            assert!(["lib", "main"].contains(&room.as_str()), "`{room}` is not in the plan: add it to ORDER");
            continue;
        };
        let forbidden = NEVER.iter().find(|(name, _)| *name == room).map_or(&[] as &[&str], |(_, list)| list);
        for (line, other) in named(&text) {
            let Some(theirs) = place.get(other.as_str()) else { continue };
            if theirs > own || forbidden.contains(&other.as_str()) {
                faults.push(format!("{}:{line} knows `{other}`", path.display()));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_file_says_what_it_is_for() {
    let mut files = Vec::new();
    for folder in ["src", "tests", "benches"] {
        rust_files(&root().join(folder), &mut files);
    }
    let silent: Vec<String> = files
        .iter()
        .filter(|path| !fs::read_to_string(path).unwrap().starts_with("//!"))
        .map(|path| path.display().to_string())
        .collect();
    assert!(silent.is_empty(), "{silent:?}");
}

#[test]
fn no_file_is_long() {
    let long: Vec<String> = rooms()
        .into_iter()
        // The table of codes is a table.
        .filter(|(path, _, _)| !path.ends_with("diagnostic/code.rs"))
        .filter(|(_, _, text)| text.split("#[cfg(test)]").next().unwrap().lines().count() > 600)
        .map(|(path, _, text)| format!("{} {}", path.display(), text.lines().count()))
        .collect();
    assert!(long.is_empty(), "{long:?}");
}

#[test]
fn every_path_in_the_guide_is_there() {
    for guide in ["DEVELOPERS.md", "README.md"] {
        let text = fs::read_to_string(root().join(guide)).unwrap();
        for quoted in text.split('`').skip(1).step_by(2) {
            let is_path = ["src/", "tests/", "concepts/", "templates/", "benches/", "scenarios/", ".ci/"]
                .iter()
                .any(|folder| quoted.starts_with(folder));
            if is_path && !quoted.contains(['*', ' ']) {
                assert!(root().join(quoted).exists(), "{guide} names `{quoted}`, which is not there");
            }
        }
    }
}

#[test]
fn the_top_level_is_as_planned() {
    for name in [
        "Cargo.toml",
        "README.md",
        "DEVELOPERS.md",
        "CHANGELOG.md",
        "LICENSE",
        "src",
        "concepts",
        "scenarios",
        "templates",
        "tests",
        "benches",
    ] {
        assert!(root().join(name).exists(), "`{name}` is missing");
    }
}
