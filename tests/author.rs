//! The author's path: from skeletons to a question that uses the new influence, plans, and looking again at every change.

use std::fs;
use std::io::{BufRead as _, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::Duration;

use crate::program::{Run, tests, toehold};

/// What is waited for comes within this time, or the test fails: it can not hang.
const PATIENCE: Duration = Duration::from_mins(1);

/// Runs the program with a folder put in the place of `DIR` in each argument.
fn run(folder: &Path, arguments: &[&str]) -> Run {
    let folder = folder.to_str().unwrap();
    let arguments: Vec<String> = arguments.iter().map(|argument| argument.replace("DIR", folder)).collect();
    toehold(&arguments.iter().map(String::as_str).collect::<Vec<_>>())
}

#[track_caller]
fn done(folder: &Path, arguments: &[&str]) -> Run {
    let run = run(folder, arguments);
    assert_eq!(run.code, 0, "{arguments:?}\n{}{}", run.out, run.err);
    run
}

/// Puts words in the place of others of a file; each must be there.
#[track_caller]
fn fill(path: &Path, changes: &[(&str, &str)]) {
    let mut text = fs::read_to_string(path).unwrap();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}\n{text}");
        text = text.replacen(from, to, 1);
    }
    fs::write(path, text).unwrap();
}

const NAMES: &str = "FILL IN: Here: which particles are added to those that the bath holds?";
const ANSWER: &str = "FILL IN: Sucrose molecules are added, one particle each.";
const UP: &str = "FILL IN: more sucrose adds particles, so the total concentration rises";
const DOWN: &str = "FILL IN: less sucrose leaves fewer particles, so the total concentration falls";
const BECAUSE: &str = "FILL IN: Every dissolved molecule adds one particle.";
const FREE: &str = "# free: [{ symbol: base, low: 0.06, high: 0.1, step: 0.02 }]";

/// What the author writes into each skeleton.
const FILLS: &[(&str, &[(&str, &str)])] = &[
    (
        "trapped-dye",
        &[
            ("FILL IN: Sucrose outside", "Dye inside"),
            ("FILL IN: the sucrose concentration outside", "the dye concentration inside"),
            ("unit: mol/L", "unit: mmol/L"),
            ("entity: fill-in", "entity: vesicle"),
            ("range: [0, 1]", "range: [1, 200]"),
            ("FILL IN: no probe", "no probe"),
        ],
    ),
    (
        "self-quenching",
        &[
            ("FILL IN: solute potential", "self-quenching"),
            (
                "FILL IN: Dissolved particles lower the potential of water.",
                "A crowded dye glows less than a sparse one.",
            ),
            ("FILL IN: What do dissolved particles do to the potential of water?", "What does crowding do to a dye?"),
            ("FILL IN: They lower it.", "It weakens its glow."),
            ("FILL IN: water potential", "crowded dye"),
            ("FILL IN: textbook, section", "common practice, no source"),
        ],
    ),
    (
        "shrinking-crowds-dye",
        &[
            ("fill-in-from", "vesicle-volume"),
            ("fill-in-to", "trapped-dye"),
            ("\"+\"\n", "\"-\"\n"),
            ("fill-in-principle", "amount-over-volume"),
            ("fill-in-law", "contained-concentration"),
            ("fill-in-symbol", "relative_volume"),
            (FREE, "free: [{ symbol: start, low: 10, high: 30, step: 5 }]"),
            (BECAUSE, "The trapped dye cannot leave, so its amount stays the same."),
            ("acts: []", "acts: [{ slot: prepare, text: [\"The {{ vesicle.many }} enclose dye at {{ p.start }}.\"] }]"),
            (NAMES, "Here: whose amount stays the same?"),
            (ANSWER, "That of the trapped dye."),
            (UP, "a larger volume holds the same amount of dye, so its concentration falls"),
            (DOWN, "a smaller volume holds the same amount of dye, so its concentration rises"),
        ],
    ),
    (
        "crowded-dye-dims",
        &[
            ("fill-in-from", "trapped-dye"),
            ("fill-in-to", "quenched-brightness"),
            ("\"+\"\n", "\"-\"\n"),
            ("fill-in-principle", "self-quenching"),
            ("fill-in-law", "quenching"),
            ("fill-in-symbol", "quencher"),
            (FREE, "free: [{ symbol: constant, low: 0.04, high: 0.1, step: 0.02 }]"),
            ("# transfer: contact", "transfer: contact"),
        ],
    ),
    (
        "lantern-keepers",
        &[
            ("FILL IN: the wardens of an invented reef", "the keepers of the Orlay lanterns"),
            ("- act: fill-in", "- act: raise-sucrose"),
            (
                "FILL IN: The wardens want to know how warm the pools become. Loggers are torn out by the waves.",
                "The keepers of the Orlay lanterns want to know how much sugar their lamp syrup holds. It clogs every gauge.",
            ),
            (
                "FILL IN: The wardens want to know how warm the pools become.",
                "The keepers of the Orlay lanterns want to know how much sugar their lamp syrup holds.",
            ),
            ("FILL IN: liquid from a bath as warm as the highest pool", "syrup from a lantern"),
        ],
    ),
];

/// What is still open in the second influence when its curve is looked at.
const LAST: &[(&str, &str)] = &[
    (BECAUSE, "Dye molecules that stand close together take up one another's energy."),
    (NAMES, "Here: what takes up the energy of the dye?"),
    (ANSWER, "Other molecules of the dye."),
    (UP, "more dye in the same space dims each molecule, so the brightness falls"),
    (DOWN, "less dye in the same space spares each molecule, so the brightness rises"),
];

/// An author adds self-quenching to the program's concepts: a dye that shrinking vesicles crowd dims itself.
fn self_quenching(folder: &Path) {
    done(folder, &["new", "concepts", "--out", "DIR/mine"]);
    let kinds = ["quantity", "principle", "influence", "influence", "context"];
    for (kind, (id, _)) in kinds.iter().zip(FILLS) {
        let path = format!("DIR/mine/{id}.yaml");
        done(folder, &["new", kind, id, "--field", "light", "--concepts", "DIR/mine", "--out", &path]);
    }
    let file = |id: &str| folder.join("mine").join(format!("{id}.yaml"));
    for (id, changes) in FILLS {
        fill(&file(id), changes);
    }
    // As it is edited the curve can be seen, though much is still to be filled in.
    let seen = done(folder, &["explain", "--influence", "crowded-dye-dims", "--concepts", "DIR/mine"]);
    assert!(seen.out.contains("F/F0 = 1/(1 + K·Q)") && seen.out.contains("   - at "), "{}", seen.out);
    assert!(seen.err.starts_with("note: the concepts have "), "{}", seen.err);
    fill(&file("crowded-dye-dims"), LAST);
}

const PATH: &str =
    "[sucrose-adds-solute, solute-lowers-potential, water-follows-potential, shrinking-crowds-dye, crowded-dye-dims]";

#[test]
fn from_skeletons_to_a_question_that_uses_the_new_influence() {
    let folder = tempfile::tempdir().unwrap();
    let here = folder.path();
    self_quenching(here);
    assert!(done(here, &["check", "DIR/mine"]).out.starts_with("No fault."));
    let asked = ["generate", "--concepts", "DIR/mine", "--influence", "crowded-dye-dims", "--seed", "3"];
    assert!(done(here, &asked).out.contains("\"crowded-dye-dims\"]"));
    // The same with a plan.
    done(here, &["new", "scenario", "my-plan", "--concepts", "DIR/mine", "--out", "DIR/plan.md"]);
    let unfilled = run(here, &["generate", "--concepts", "DIR/mine", "--from", "DIR/plan.md"]);
    assert!(unfilled.code == 2 && unfilled.err.contains("error[to-be-filled]"), "{}", unfilled.err);
    fill(&here.join("plan.md"), &[("[fill-in]", PATH), ("# context: fill-in", "context: lantern-keepers")]);
    let check = run(here, &["check", "DIR/plan.md", "--concepts", "DIR/mine"]);
    assert!(check.code == 1 && check.out.contains("this is a plan"), "{}", check.out);
    let made = ["generate", "--concepts", "DIR/mine", "--from", "DIR/plan.md", "--seed", "4", "--out", "DIR/made"];
    let made = done(here, &made).out;
    let text = fs::read_to_string(made.trim()).unwrap();
    assert!(
        text.contains("lamp syrup") && text.contains("crowded-dye-dims") && text.contains("self-quenching"),
        "{text}"
    );
    let checked = done(here, &["check", "DIR/made", "--concepts", "DIR/mine"]).out;
    assert!(checked.starts_with("1 scenario, no fault"), "{checked}");
    let mapped = done(here, &["map", "DIR/made", "--concepts", "DIR/mine", "--principle", "self-quenching"]).out;
    assert!(mapped.contains("self-quenching") && mapped.contains("■"), "{mapped}");
}

#[track_caller]
fn plan(lines: &str, expected: &[&str]) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("plan.md");
    fs::write(&path, format!("---\ntoehold: 1\nplan: 1\n{lines}\n---\n")).unwrap();
    let run = run(folder.path(), &["generate", "--from", "DIR/plan.md", "--seed", "1"]);
    assert_eq!((run.code, run.out.as_str()), (2, ""), "{}", run.err);
    for part in expected {
        assert!(run.err.contains(part), "{part}\n{}", run.err);
    }
}

#[test]
fn plans_that_cannot_be_followed_say_where_and_why() {
    plan(
        "path: [sucrose-adds-solut]",
        &["error[unknown-influence]", "plan.md:4:8", "did you mean `sucrose-adds-solute`?"],
    );
    plan("path: [sucrose-adds-solute, osmosis]", &["error[unknown-influence]", "plan.md:4:29"]);
    plan("path: [sucrose-adds-solute, water-follows-potential]", &["error[broken-path]", "plan.md:4:29"]);
    plan(
        "path: [solute-lowers-potential, water-follows-potential]",
        &["error[not-a-treatment]", "error[not-a-readout]"],
    );
    plan("form: middling", &["error[unknown-choice]", "plan.md:4:7", "`short`, `long`"]);
    plan("pith: []", &["error[unknown-field]", "plan.md:4:1", "did you mean `path`?"]);
    plan("twist: { at: dye-absorbs, id: gone }", &["error[unknown-twist]"]);
    plan("twist: { id: gone }", &["error[missing-field]", "plan.md:4:14"]);
    plan(
        "path: [detergent-opens-bilayer, permeability-speeds-leak, leak-frees-dye, dye-absorbs]",
        &["no technique takes the path of the plan", "hint: it is a textbook technique with too little added"],
    );
    plan("plan: 2", &["error[duplicate-key]"]);
    let folder = tempfile::tempdir().unwrap();
    let here = folder.path();
    // The comments of a begun plan speak of plans too; a fault points at the number.
    for (versions, places) in [
        ("toehold: 1\nplan: 2", vec!["newer.md:4:7"]),
        ("toehold: 2\nplan: 1", vec!["newer.md:3:10"]),
        ("toehold: 2\nplan: 3", vec!["newer.md:3:10", "newer.md:4:7"]),
    ] {
        fs::write(here.join("newer.md"), format!("---\n# A plan for a scenario of your own.\n{versions}\n---\n"))
            .unwrap();
        let newer = run(here, &["generate", "--from", "DIR/newer.md", "--seed", "1"]);
        assert_eq!((newer.code, newer.err.matches("error[newer-format]").count()), (2, places.len()), "{}", newer.err);
        for place in places {
            assert!(newer.err.contains(place), "{place}\n{}", newer.err);
        }
    }
    // What does not say that it is a plan is none, and is told how to say so.
    fs::write(here.join("unsaid.md"), format!("---\ntoehold: 1\npath: {PATH}\n---\n")).unwrap();
    let unsaid = run(here, &["generate", "--from", "DIR/unsaid.md", "--seed", "1"]);
    assert!(unsaid.code == 2 && unsaid.err.contains("field `plan` is missing"), "{}", unsaid.err);
    assert!(unsaid.err.contains("unsaid.md:2:1") && unsaid.err.contains("`plan: 1`"), "{}", unsaid.err);
    let checked = run(here, &["check", "DIR/unsaid.md"]);
    assert!(checked.code == 1 && checked.out.contains("unsaid.md:3:1"), "{}", checked.out);
    assert!(
        checked.out.contains("neither a scenario nor a plan") && checked.out.contains("`plan: 1`"),
        "{}",
        checked.out
    );
    let run = toehold(&["generate", "--from", "main.rs"]);
    assert!(run.code == 2 && run.err.contains("error[front-matter-missing]"), "{}", run.err);
    let run = toehold(&["generate", "--from", "nowhere.md"]);
    assert!(run.code == 2 && run.err.contains("it is not there"), "{}", run.err);
}

#[test]
fn what_was_begun_and_not_filled_in_is_not_begun_again() {
    let folder = tempfile::tempdir().unwrap();
    let here = folder.path();
    for (kind, name) in [("scenario", "plan.md"), ("influence", "new.yaml")] {
        let place = format!("DIR/{name}");
        done(here, &["new", kind, "my-part", "--out", &place]);
        let text = fs::read_to_string(here.join(name)).unwrap();
        let again = run(here, &["new", kind, "my-part", "--out", &place]);
        assert_eq!(again.code, 2);
        assert!(again.err.contains("was begun before and is still to be filled in"), "{}", again.err);
        assert!(again.err.contains("--force"), "{}", again.err);
        assert_eq!(fs::read_to_string(here.join(name)).unwrap(), text);
        done(here, &["new", kind, "my-part", "--out", &place, "--force"]);
    }
    // What is finished is an ordinary file that exists.
    fs::write(here.join("plan.md"), "---\ntoehold: 1\nplan: 1\n---\n").unwrap();
    let finished = run(here, &["new", "scenario", "--out", "DIR/plan.md"]);
    assert!(finished.code == 2 && finished.err.contains("plan.md` exists"), "{}", finished.err);
}

#[test]
fn a_file_may_join_the_field_of_another() {
    let folder = tempfile::tempdir().unwrap();
    for name in ["bench.yaml", "separation.yaml"] {
        fs::copy(tests().join("graphs/tiny").join(name), folder.path().join(name)).unwrap();
    }
    let principle = |field: &str| {
        let rest = "name: x\n    statement: X.\n    recall: [{ ask: \"What?\", answer: X. }]\n    terms: [x]\n    source: none\n";
        fs::write(folder.path().join("more.yaml"), format!("{field}\nprinciples:\n  - id: x\n    {rest}")).unwrap();
        run(folder.path(), &["check", "DIR"])
    };
    let joined = principle("field: { id: separation }");
    assert!(joined.code == 0 && joined.out.contains("3 influences, 3 principles)"), "{}", joined.out);
    let lost = principle("field: { id: seperation }");
    assert!(
        lost.out.contains("error[missing-field]") && lost.out.contains("did you mean `separation`?"),
        "{}",
        lost.out
    );
    let twice = principle("field: { id: separation, name: Again }");
    assert!(twice.out.contains("error[duplicate-id]") && twice.out.contains("leave its name out"), "{}", twice.out);
}

/// A run that goes on; it ends with this value.
struct Watching {
    child: Child,
    lines: Receiver<String>,
    notes: Receiver<String>,
}

/// The lines of a stream as they come.
fn lines_of(stream: impl std::io::Read + Send + 'static) -> Receiver<String> {
    let (sender, lines) = channel();
    std::thread::spawn(move || {
        BufReader::new(stream).lines().map_while(Result::ok).try_for_each(|line| sender.send(line))
    });
    lines
}

/// Reads on to a line that holds these words.
#[track_caller]
fn await_line(lines: &Receiver<String>, words: &str) {
    let mut seen = Vec::new();
    while !seen.last().is_some_and(|line: &String| line.contains(words)) {
        match lines.recv_timeout(PATIENCE) {
            Ok(line) => seen.push(line),
            Err(RecvTimeoutError::Timeout) => panic!("no `{words}` in time after\n{}", seen.join("\n")),
            Err(RecvTimeoutError::Disconnected) => panic!("it ended before `{words}`:\n{}", seen.join("\n")),
        }
    }
}

impl Watching {
    fn new(arguments: &[&str]) -> Self {
        let mut command = Command::new(env!("CARGO_BIN_EXE_toehold"));
        let mut child = command.args(arguments).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        let (lines, notes) = (lines_of(child.stdout.take().unwrap()), lines_of(child.stderr.take().unwrap()));
        Self { child, lines, notes }
    }

    /// Reads results on to a line that holds these words.
    #[track_caller]
    fn until(&self, words: &str) {
        await_line(&self.lines, words);
    }

    /// The same of what is said on standard error.
    #[track_caller]
    fn noted(&self, words: &str) {
        await_line(&self.notes, words);
    }
}

impl Drop for Watching {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

#[test]
fn every_change_is_checked_until_it_is_stopped() {
    let folder = tempfile::tempdir().unwrap();
    let file = |name: &str| folder.path().join(name);
    for name in ["bench.yaml", "separation.yaml"] {
        fs::copy(tests().join("graphs/tiny").join(name), file(name)).unwrap();
    }
    let good = fs::read_to_string(file("separation.yaml")).unwrap();
    let watching = Watching::new(&["check", folder.path().to_str().unwrap(), "--watch"]);
    watching.until("No fault.");
    watching.noted("== watching");
    fs::write(file("separation.yaml"), good.replacen("principle: ", "principle: un", 1)).unwrap();
    watching.noted("separation.yaml` changed");
    watching.until("error[unknown-principle]");
    watching.until("1 fault in 1 file");
    fs::write(file("separation.yaml"), "influences: [").unwrap();
    watching.until("error[yaml-syntax]");
    fs::write(file("separation.yaml"), &good).unwrap();
    watching.until("No fault.");
    fs::write(file("more.yaml"), "settings: [{ id: dark, holds: the room is dark }]\n").unwrap();
    watching.noted("more.yaml` is new");
    watching.until("No fault.");
    fs::remove_file(file("separation.yaml")).unwrap();
    watching.noted("separation.yaml` is gone");
    watching.until("error[");
    // A folder that is gone is said, and looked for on.
    let aside = folder.path().with_extension("aside");
    fs::rename(folder.path(), &aside).unwrap();
    watching.noted("error: `");
    fs::rename(&aside, folder.path()).unwrap();
    watching.until("error[");
    fs::write(file("separation.yaml"), &good).unwrap();
    watching.until("No fault.");
    interrupted(watching);
}

/// A signal ends it at once. Not that of ctrl-c: one who starts the tests in the background has it ignored.
#[cfg(unix)]
fn interrupted(mut watching: Watching) {
    use std::os::unix::process::ExitStatusExt as _;
    let sent = Command::new("kill").arg("-TERM").arg(watching.child.id().to_string()).status();
    if !sent.is_ok_and(|status| status.success()) {
        crate::program::skipped("there is no `kill` to send the signal with");
        return;
    }
    match watching.lines.recv_timeout(PATIENCE) {
        Err(RecvTimeoutError::Disconnected) => assert_eq!(watching.child.wait().unwrap().signal(), Some(15)),
        other => panic!("{other:?}"),
    }
}

#[cfg(not(unix))]
fn interrupted(_watching: Watching) {}

#[test]
fn nothing_to_watch_is_refused_and_a_first_look_that_fails_ends_it() {
    for arguments in [
        &["check", "--watch"] as &[&str],
        &["check", "nowhere", "--watch"],
        &["explain", "--influence", "dye-absorbs", "--watch"],
        &["explain", "--influence", "dye-absorbd", "--concepts", "../concepts", "--watch"],
    ] {
        let run = toehold(arguments);
        assert!(run.code == 2 && run.err.contains("hint: "), "{arguments:?} {}", run.err);
    }
}

#[test]
fn an_influence_is_shown_again_as_it_is_edited() {
    let folder = tempfile::tempdir().unwrap();
    for name in ["bench.yaml", "separation.yaml"] {
        fs::copy(tests().join("graphs/tiny").join(name), folder.path().join(name)).unwrap();
    }
    let path = folder.path().join("separation.yaml");
    let good = fs::read_to_string(&path).unwrap();
    let at = folder.path().to_str().unwrap();
    let id = good.split("influences:").nth(1).unwrap().split("id: ").nth(1).unwrap().lines().next().unwrap();
    // What is not yet written is waited for.
    fs::write(&path, "influences: [").unwrap();
    let watching = Watching::new(&["explain", "--influence", id, "--concepts", at, "--watch"]);
    watching.noted("== watching");
    fs::write(&path, &good).unwrap();
    watching.until("sign of the difference");
    fs::write(&path, good.replace("because: ", "because: \"FILL IN\" # ")).unwrap();
    watching.noted("separation.yaml` changed");
    watching.until("sign of the difference");
}
