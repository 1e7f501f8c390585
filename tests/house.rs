//! The plan of the house, kept true: who may know whom, what every file opens with, and that the guide names real paths.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// Rooms in order, each with those that it knows: all of them stand before it.
const ROOMS: &[(&str, &[&str])] = &[
    ("source", &[]),
    ("diagnostic", &["source"]),
    ("quantity", &[]),
    ("laws", &["quantity"]),
    ("concepts", &["source", "diagnostic", "quantity", "laws"]),
    ("reasoning", &["concepts"]),
    ("seed", &[]),
    ("technique", &["concepts", "reasoning", "seed"]),
    ("plan", &["source", "diagnostic", "concepts", "technique"]),
    ("experiment", &["laws", "concepts", "seed", "technique"]),
    (
        "scenario",
        &["source", "diagnostic", "quantity", "laws", "concepts", "reasoning", "seed", "technique", "experiment"],
    ),
    ("render", &["source", "quantity", "technique", "scenario"]),
    ("review", &["quantity"]),
    ("guide", &["quantity", "concepts", "scenario", "render", "review"]),
    ("proof", &["source", "diagnostic", "quantity", "concepts", "plan", "scenario", "render"]),
    ("paper", &["quantity", "laws", "concepts", "seed", "technique", "scenario", "render"]),
    ("progress", &[]),
    ("coverage", &["concepts", "technique", "render", "review"]),
    ("atlas", &["concepts", "render"]),
    ("author", &["source", "diagnostic", "laws", "concepts", "technique"]),
    (
        "cli",
        &[
            "source",
            "diagnostic",
            "quantity",
            "laws",
            "concepts",
            "reasoning",
            "seed",
            "technique",
            "plan",
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
        ],
    ),
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

/// A file without its tests, which may look anywhere, and without comments.
fn code(text: &str) -> String {
    let mark = "#[cfg(test)]";
    let is_file = |at: &usize| text[at + mark.len()..].trim_start().starts_with("mod tests;");
    let end = text.match_indices(mark).map(|(at, _)| at).find(|at| !is_file(at)).unwrap_or(text.len());
    let own = &text[..end];
    own.lines().map(|line| line.split("//").next().unwrap()).collect::<Vec<_>>().join("\n")
}

/// How many `super` lead from a file to the whole house: one from the file at the root of a room.
fn depth(path: &Path) -> usize {
    let inside = path.strip_prefix(root().join("src")).unwrap();
    inside.components().count() - usize::from(inside.ends_with("mod.rs"))
}

/// Rooms that a file names, each with its line; so many `super` are the whole house.
fn named(text: &str, depth: usize) -> Vec<(usize, String)> {
    let code = code(text);
    let mut found = Vec::new();
    for way in ["crate::".to_owned(), "super::".repeat(depth)] {
        for (at, _) in code.match_indices(&way) {
            let (before, after) = (&code[..at], &code[at + way.len()..]);
            // More of them would lead out of the house: what is inside a module of the file's own.
            if before.ends_with("super::") || after.starts_with("super::") {
                continue;
            }
            // A list of rooms in braces, or one room.
            let names = after.strip_prefix('{').map_or(after, |list| list.split('}').next().unwrap());
            let parts: Vec<&str> = if after.starts_with('{') { names.split(',').collect() } else { vec![names] };
            for part in parts {
                let room: String = part.trim().chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                found.push((before.matches('\n').count() + 1, room));
            }
        }
    }
    found
}

#[test]
fn every_way_to_name_a_room_is_seen() {
    let text = "use crate::laws;\n// crate::cli\nuse crate::{\n    graph,\n    seed::Seed,\n};\nuse super::proof;\n#[cfg(test)]\nmod \
                tests;\nfn x() { crate::paper::y() }\n#[cfg(test)]\nmod tests {\n    use crate::atlas;\n}\n";
    let rooms = |text: &str, depth| named(text, depth).into_iter().map(|(_, room)| room).collect::<Vec<_>>();
    assert_eq!(rooms(text, 2), ["laws", "graph", "seed", "", "paper"]);
    assert_eq!(rooms(text, 1), ["laws", "graph", "seed", "", "paper", "proof"]);
    assert_eq!(named(text, 2)[4], (10, "paper".to_owned()));
    let upwards = "use super::one;\nuse super::super::{two, three::X};\nuse super::super::super::four;\n";
    assert_eq!(rooms(upwards, 1), ["one"]);
    assert_eq!(rooms(upwards, 2), ["two", "three"]);
    assert_eq!(rooms(upwards, 3), ["four"]);
    let at = |path: &str| depth(&root().join("src").join(path));
    assert_eq!([at("plan.rs"), at("laws/mod.rs"), at("laws/row.rs"), at("cli/laws/show.rs")], [1, 1, 2, 3]);
}

#[test]
fn every_room_knows_what_the_plan_says_and_no_more() {
    let order: Vec<&str> = ROOMS.iter().map(|(room, _)| *room).collect();
    let mut met: BTreeMap<(String, String), String> = BTreeMap::new();
    for (path, room, text) in rooms() {
        if ["lib", "main"].contains(&room.as_str()) {
            continue;
        }
        assert!(order.contains(&room.as_str()), "`{room}` is not in the plan: add it to ROOMS");
        for (line, other) in named(&text, depth(&path)) {
            if other != room && order.contains(&other.as_str()) {
                met.insert((room.clone(), other), format!("{}:{line}", path.display()));
            }
        }
    }
    for (place, (room, known)) in ROOMS.iter().enumerate() {
        assert!(known.iter().all(|other| order[..place].contains(other)), "`{room}` would know a later room");
        let used: Vec<&str> =
            order.iter().copied().filter(|other| met.contains_key(&((*room).into(), (*other).into()))).collect();
        let places: Vec<&String> = met.iter().filter(|((own, _), _)| own == room).map(|(_, at)| at).collect();
        assert_eq!(used, *known, "`{room}`: {places:?}");
    }
}

/// The table in the guide is the plan: the same rooms in the same order.
#[test]
fn the_guide_lists_the_rooms_in_order() {
    let guide = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let rows = guide.lines().filter_map(|line| line.strip_prefix("| `src/")?.split('|').next());
    let listed: Vec<String> = rows
        .flat_map(|rooms| rooms.split('`').step_by(2).map(|room| room.trim_start_matches("src/").to_owned()))
        .map(|room| room.trim_end_matches(".rs").to_owned())
        .filter(|room| !room.trim().is_empty())
        .collect();
    assert_eq!(listed, ROOMS.iter().map(|(room, _)| *room).collect::<Vec<_>>());
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
