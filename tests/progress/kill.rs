//! Killed at any moment: what was shown as saved is there.

use std::collections::BTreeMap;
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::process::Stdio;
use std::thread::sleep;
use std::time::Duration;

use toehold::progress::{Attempt, Store, write_file};

use super::{Place, attempt, started};

/// Kills while saving.
const KILLS: usize = 200;
/// Attempts that each run would save, more than it has time for.
const MANY: u64 = 400;

/// A small generator of delays (xorshift, Marsaglia 2003): which moments are hit does not matter, only that they vary.
struct Delays(u64);

impl Delays {
    fn below(&mut self, n: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % n
    }
}

#[test]
fn two_hundred_kills_while_saving_lose_nothing_that_was_shown_as_saved() {
    let place = Place::in_memory();
    let mut delays = Delays(0x9e37_79b9_7f4a_7c15);
    let (mut saved, mut kills, mut runs) = (Vec::new(), 0, 0_u64);
    let mut meant: BTreeMap<String, Attempt> = BTreeMap::new();
    while kills < KILLS {
        assert!(runs < 2 * KILLS as u64, "{kills} of {runs} runs were still saving when they were killed");
        let attempts: Vec<Attempt> = (0..MANY).map(|n| attempt(&format!("run{runs}-{n}"), runs * MANY + n)).collect();
        let file = place.path("page.json");
        std::fs::write(&file, write_file(&attempts)).expect("a file");
        let mut command = place.command(&["progress", "add", file.to_str().expect("a path")]);
        let mut child = started(command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped()));
        let mut output = BufReader::new(child.stdout.take().expect("its output"));
        let mut out = String::new();
        // Most kills fall between the first attempt and the last, some between the start and the first.
        if runs % 8 != 7 {
            output.read_line(&mut out).expect("a first line");
        }
        sleep(Duration::from_micros(delays.below(12_000)));
        // SIGKILL: no handler runs, nothing is flushed.
        let was_saving = child.try_wait().expect("its state").is_none();
        child.kill().expect("it ends");
        output.read_to_string(&mut out).expect("text");
        let mut err = String::new();
        child.stderr.take().expect("its errors").read_to_string(&mut err).expect("text");
        child.wait().expect("it has ended");
        assert_eq!(err, "", "a store that a kill left is opened again");
        // A line counts once it is whole.
        let whole = out.rfind('\n').map_or("", |end| &out[..end]);
        saved.extend(whole.lines().filter_map(|line| line.strip_prefix("saved ")).map(str::to_owned));
        meant.extend(attempts.into_iter().map(|attempt| (attempt.id.to_string(), attempt)));
        kills += usize::from(was_saving);
        runs += 1;
    }
    let store = Store::open(&place.store()).expect("a sound store");
    let there: BTreeMap<String, Attempt> =
        store.attempts(None).expect("attempts").into_iter().map(|attempt| (attempt.id.to_string(), attempt)).collect();
    println!("{kills} kills in {runs} runs: {} attempts shown as saved, {} there", saved.len(), there.len());
    assert!(saved.len() > KILLS, "{} attempts were saved", saved.len());
    for id in &saved {
        assert_eq!(there.get(id), meant.get(id), "{id} was shown as saved");
    }
    // What was not shown is there whole, or not at all.
    assert!(there.iter().all(|(id, attempt)| meant.get(id) == Some(attempt)));
}

#[test]
fn a_sitting_that_is_killed_keeps_every_answer_that_was_shown_as_saved() {
    const KILLS: u32 = 6;
    let mut place = Place::new();
    let mut delays = Delays(77);
    let (mut kills, mut shown, mut in_all) = (0, 0, 0);
    // A sitting that ends before it is killed gives way to one of another question.
    let mut seed = 3;
    while kills < KILLS {
        assert!(seed < 13, "{kills} kills in ten sittings");
        let number = seed.to_string();
        let mut command = place.command(&["practise", "--seed", &number, "--form", "long", "--support", "full"]);
        if place.store().exists() {
            command = place.command(&["practise", "--resume"]);
        }
        let mut child = started(command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::null()));
        let mut input = child.stdin.take().expect("its input");
        let mut output = BufReader::new(child.stdout.take().expect("its output"));
        // Words that any question takes: a direction, an answer, the end of one, a score.
        input.write_all(&b"rises\n\ny\n".repeat(60)).expect("lines");
        // Until the first answer is saved, so that the kill falls into the sitting and not into its preparations.
        let mut out = String::new();
        while !out.ends_with("  (saved)\n") && output.read_line(&mut out).expect("a line") > 0 {}
        if !out.ends_with("  (saved)\n") {
            child.wait().expect("it has ended");
            (place, shown, seed) = (Place::new(), 0, seed + 1);
            continue;
        }
        sleep(Duration::from_micros(delays.below(60_000)));
        child.kill().expect("it ends");
        drop(input);
        let mut rest = Vec::new();
        output.read_to_end(&mut rest).expect("its output");
        child.wait().expect("it has ended");
        let new = 1 + String::from_utf8_lossy(&rest).matches("  (saved)\n").count();
        (kills, shown, in_all) = (kills + 1, shown + new, in_all + new);
        let store = Store::open(&place.store()).expect("a sound store");
        let there: Vec<Attempt> = store.attempts(None).expect("attempts");
        // One attempt all along, with a mark that its support stays and drafts beside the answers.
        assert_eq!(there.len(), 1);
        let kept = there[0].answers.iter().filter(|answer| {
            !answer.step.as_str().ends_with("/draft") && !["support-steady", "outcome"].contains(&answer.step.as_str())
        });
        let kept = kept.count() + there[0].scores.len();
        assert!(kept >= shown, "{shown} shown as saved, {kept} there");
    }
    println!("{kills} kills, {} sittings, {in_all} answers shown as saved", seed - 2);
}
