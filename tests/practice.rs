//! Pages to practise on: the commands that write them.

use std::fs;

use tempfile::TempDir;

use crate::program::toehold;

#[test]
fn a_folder_of_pages_has_an_index_that_leads_to_each() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("pages");
    let out = out.to_str().unwrap();
    let run = toehold(&["practise", "--page", out, "--count", "3", "--seed", "5"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let written: Vec<&str> = run.out.lines().collect();
    assert_eq!(written.len(), 4);
    let index = fs::read_to_string(format!("{out}/index.html")).unwrap();
    for path in &written[..3] {
        let name = path.rsplit('/').next().unwrap();
        assert!(index.contains(&format!("href=\"{name}\"")), "{name}");
        assert!(fs::read_to_string(path).unwrap().contains("href=\"index.html\""));
    }
    let again = toehold(&["practise", "--page", out, "--count", "3", "--seed", "5"]);
    assert_eq!(again.code, 2);
    assert!(again.err.contains("exists") && again.err.contains("--force"), "{}", again.err);
    let before: Vec<String> = written.iter().map(|path| fs::read_to_string(path).unwrap()).collect();
    assert_eq!(toehold(&["practise", "--page", out, "--count", "3", "--seed", "5", "--force"]).code, 0);
    let after: Vec<String> = written.iter().map(|path| fs::read_to_string(path).unwrap()).collect();
    assert!(before == after, "the same seed gives the same bytes");
}

#[test]
fn nothing_is_written_where_one_page_is_in_the_way() {
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join("index.html"), "mine").unwrap();
    let run = toehold(&["practise", "--page", folder.path().to_str().unwrap(), "--count", "2", "--seed", "5"]);
    assert_eq!(run.code, 2);
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    assert_eq!(fs::read_to_string(folder.path().join("index.html")).unwrap(), "mine");
}

#[test]
fn files_become_pages_alone_or_in_a_folder() {
    let folder = TempDir::new().unwrap();
    let made = toehold(&["generate", "--seed", "9", "--form", "short", "--out", folder.path().to_str().unwrap()]);
    let file = made.out.trim();
    let alone = toehold(&["render", file, "--to", "page"]);
    assert_eq!(alone.code, 0, "{}", alone.err);
    assert!(alone.out.contains("'wasm-unsafe-eval'".replace('\'', "&#39;").as_str()));
    assert!(!alone.out.contains("index.html"), "a page alone leads to no index");
    assert_eq!(toehold(&["render", file, "--to", "page", "--student"]).code, 2);
    let pages = folder.path().join("pages");
    let run = toehold(&["practise", "--page", pages.to_str().unwrap(), file]);
    assert_eq!((run.code, run.out.lines().count()), (0, 2), "{}", run.err);
    let twice = toehold(&["practise", "--page", pages.to_str().unwrap(), file, file, "--force"]);
    assert_eq!(twice.code, 2);
    assert!(twice.err.contains("named twice"), "{}", twice.err);
    let none = toehold(&["practise", "--page", pages.to_str().unwrap(), "reference"]);
    assert_eq!(none.code, 2);
    assert!(none.err.contains("no scenario"), "{}", none.err);
}

#[test]
fn what_cannot_be_practised_leaves_no_attempts_behind() {
    let folder = TempDir::new().unwrap();
    let data = folder.path().join("attempts.sqlite");
    let data = data.to_str().unwrap();
    for wish in [&["no-such-file.md"][..], &["--resume"], &["--field", "no-such-field"]] {
        let run = toehold(&[&["practise", "--data", data], wish].concat());
        assert_eq!(run.code, 2, "{wish:?}: {}", run.out);
        assert!(run.err.contains("hint: "), "{wish:?}: {}", run.err);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0, "{wish:?}");
    }
}
