//! Stores that are something else, newer, damaged or out of reach are named and left as they are.

use std::fs;
use std::path::Path;

use rusqlite::Connection;
use toehold::progress::{Store, record, write_file};

use super::{Place, attempt, started};

/// A store with some attempts.
fn filled(place: &Place) {
    let mut store = Store::open(&place.store()).expect("a store");
    for n in 0..20 {
        record(&mut store, &attempt(&format!("id-{n}"), n)).expect("recorded");
    }
}

fn sql(path: &Path, text: &str) {
    Connection::open(path).and_then(|connection| connection.execute_batch(text)).expect("SQL");
}

#[track_caller]
fn refused(place: &Place, says: &str) {
    let before = fs::read(place.store()).ok();
    for arguments in [&["progress"][..], &["progress", "export", "-"], &["practise", "--seed", "3"]] {
        let run = place.run(arguments, "\n");
        assert!(run.code == 2 && run.err.contains(says), "{arguments:?}: {} {}", run.code, run.err);
        assert!(run.err.contains("hint: "), "{}", run.err);
        assert_eq!(fs::read(place.store()).ok(), before, "the file was changed");
    }
}

#[test]
fn a_file_of_another_kind_is_left_as_it_is() {
    for bytes in [&b"hello"[..], &[0; 5000], b"SQLite format 3\0 and no more"] {
        let place = Place::new();
        fs::write(place.store(), bytes).expect("a file");
        refused(&place, "is no file of attempts");
    }
    let place = Place::new();
    sql(&place.store(), "CREATE TABLE recipe (name TEXT)");
    refused(&place, "is no file of attempts");
}

#[test]
fn a_newer_store_is_left_as_it_is() {
    let place = Place::new();
    filled(&place);
    sql(&place.store(), "PRAGMA user_version = 2");
    refused(&place, "was written by a newer version of this program (tables of version 2, here 1)");
}

#[test]
fn a_damaged_store_is_left_as_it_is() {
    for damage in ["DROP TABLE correction", "ALTER TABLE score ADD COLUMN more TEXT", "DROP TRIGGER score_stays"] {
        let place = Place::new();
        filled(&place);
        sql(&place.store(), damage);
        refused(&place, "is damaged: its tables are not those that this program makes");
    }
    let place = Place::new();
    filled(&place);
    let bytes = fs::read(place.store()).expect("bytes");
    fs::write(place.store(), &bytes[..bytes.len() / 2]).expect("a file");
    refused(&place, "is damaged");
    // A word that means nothing, put in where the checks of the table do not look.
    let place = Place::new();
    filled(&place);
    sql(
        &place.store(),
        "INSERT INTO attempt VALUES ('strange', NULL, 0, 'full', 'x', 'x', 0, 'short', 1, 'no list', NULL)",
    );
    let run = place.run(&["progress"], "");
    assert!(run.code == 2 && run.err.contains("is damaged: expected ident"), "{}", run.err);
}

/// Bytes changed anywhere: a message or the attempts, never a panic, never a changed file.
#[test]
fn no_damage_panics_or_spreads() {
    let place = Place::new();
    filled(&place);
    let sound = fs::read(place.store()).expect("bytes");
    let (mut refused, mut read) = (0, 0);
    for n in 0..300 {
        let mut bytes = sound.clone();
        for k in 0..4 {
            let at = (n * 7919 + k * 104_729) % bytes.len();
            bytes[at] ^= u8::try_from(1 + (n * 31 + k) % 255).expect("a byte");
        }
        fs::write(place.store(), &bytes).expect("a file");
        match Store::open(&place.store()).and_then(|store| store.attempts(None)) {
            Ok(_) => read += 1,
            Err(error) => {
                assert!(!error.to_string().is_empty());
                refused += 1;
            }
        }
        assert!(fs::read(place.store()).expect("bytes") == bytes, "the file was changed");
    }
    println!("of 300 damaged stores {refused} were refused and {read} read");
    assert!(refused > 50, "{refused} of 300");
}

#[test]
fn an_empty_file_becomes_a_store_and_a_place_out_of_reach_is_named() {
    let place = Place::new();
    fs::write(place.store(), "").expect("a file");
    assert_eq!(place.run(&["progress", "list"], "").code, 0);
    let place = Place::new();
    fs::create_dir(place.store()).expect("a folder");
    refused(&place, "it is a folder");
    let place = Place::new();
    fs::write(place.path("file"), "").expect("a file");
    let under = place.path("file").join("attempts.sqlite");
    let run = place.run(&["practise", "--data", under.to_str().expect("a path")], "");
    assert!(run.code == 2 && run.err.contains("cannot be opened: a part of the path is not a folder"), "{}", run.err);
    // A name that no disk takes is no matter of permissions: these are only one thing to look at.
    let long = place.path(&"x".repeat(300));
    let run = place.run(&["practise", "--data", long.to_str().expect("a path")], "");
    assert!(run.code == 2 && run.err.contains("cannot be opened: unable to open database file\n"), "{}", run.err);
    assert!(run.err.contains("hint: check the path and its permissions"), "{}", run.err);
    let run = place.run(&["progress", "--data", "no-such.sqlite"], "");
    assert!(run.code == 2 && run.err.contains("it is not there"), "{}", run.err);
    let run = place.run(&["progress"], "");
    assert_eq!((run.code, run.out.as_str()), (0, "Nothing recorded yet: `toehold practise` begins.\n"));
    assert!(!place.store().exists(), "a report makes no store");
}

/// A limit on the size of files stands in for a full disk: both fail in the middle of a write.
#[cfg(unix)]
#[test]
fn a_disk_that_is_full_takes_nothing_of_what_was_saved() {
    let place = Place::new();
    let many: Vec<_> = (0..200).map(|n| attempt(&format!("id-{n}"), n)).collect();
    let file = place.path("page.json");
    fs::write(&file, write_file(&many)).expect("a file");
    let script =
        format!("trap '' XFSZ; ulimit -f 96; exec {} progress add {}", env!("CARGO_BIN_EXE_toehold"), file.display());
    let output = std::process::Command::new("sh")
        .args(["-c", &script])
        .env("TOEHOLD_DATA", place.store())
        .output()
        .expect("a shell");
    let (out, err) = (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    assert_eq!(output.status.code(), Some(2), "{out}{err}");
    assert!(err.starts_with("error: `") && err.contains("hint: "), "{err}");
    let saved: Vec<&str> = out.lines().filter_map(|line| line.strip_prefix("saved ")).collect();
    assert!((1..200).contains(&saved.len()), "{} saved", saved.len());
    let there = Store::open(&place.store()).expect("a sound store").attempts(None).expect("attempts");
    let whole =
        |id: &&str| many.iter().find(|one| one.id.as_str() == *id) == there.iter().find(|one| one.id.as_str() == *id);
    assert!(saved.iter().all(whole));
}

/// Makes a folder read-only; nothing to see where permissions do not bind, as for the superuser.
#[cfg(unix)]
#[test]
fn a_folder_that_may_not_be_written_is_named() {
    use std::os::unix::fs::PermissionsExt as _;
    let place = Place::new();
    let folder = place.path("locked");
    fs::create_dir(&folder).expect("a folder");
    fs::set_permissions(&folder, fs::Permissions::from_mode(0o555)).expect("permissions");
    if fs::write(folder.join("probe"), "").is_ok() {
        crate::program::skipped("permissions do not bind this user");
        return;
    }
    let data = folder.join("attempts.sqlite");
    let run = place.run(&["practise", "--data", data.to_str().expect("a path")], "");
    assert!(run.code == 2 && run.err.contains("hint: check the p"), "{}", run.err);
}

#[test]
fn entries_are_neither_changed_nor_taken_out() {
    let place = Place::new();
    filled(&place);
    let connection = Connection::open(place.store()).expect("a connection");
    for table in ["attempt", "answer", "score", "correction"] {
        if table == "correction" {
            let add = "INSERT INTO correction (attempt, point, verdict, at) VALUES ('id-1', 'b1', 'void', 1)";
            connection.execute(add, []).expect("a correction");
        }
        let column = if table == "attempt" { "started" } else { "at" };
        for change in [format!("DELETE FROM {table}"), format!("UPDATE {table} SET {column} = 0")] {
            let error = connection.execute(&change, []).expect_err("refused").to_string();
            assert!(error.contains("append-only"), "{error}");
        }
    }
}

#[test]
fn several_processes_at_once_lose_nothing() {
    let place = Place::new();
    let mut children = Vec::new();
    for writer in 0..4 {
        let file = place.path(&format!("page-{writer}.json"));
        // Each adds attempts of its own and one that all share.
        let mut own: Vec<_> = (0..25).map(|n| attempt(&format!("w{writer}-{n}"), n)).collect();
        own.push(attempt("shared", 99));
        fs::write(&file, write_file(&own)).expect("a file");
        let mut command = place.command(&["progress", "add", file.to_str().expect("a path")]);
        children.push(started(command.stdout(std::process::Stdio::null())));
    }
    for mut child in children {
        assert!(child.wait().expect("an end").success());
    }
    let there = Store::open(&place.store()).expect("a sound store").attempts(None).expect("attempts");
    assert_eq!(there.len(), 4 * 25 + 1);
    assert!(there.iter().all(|one| one.answers.len() == 3 && one.scores.len() == 2));
}
