//! Practice and progress: nothing that was shown as saved is lost, nothing counts twice, and a sitting goes on where it stopped.

mod files;
mod kill;
mod sitting;
mod stores;

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use toehold::progress::{
    Answer, Attempt, AttemptId, Check, CommandTerm, Estimate, Form, HabitId, Moment, PartLabel, PointLabel, Practised,
    PrincipleId, ScenarioId, Score, StepKey, Support,
};

use crate::program::{Run, tests};

/// A store of its own, in a folder that goes when the test ends.
struct Place(tempfile::TempDir);

impl Place {
    fn new() -> Self {
        Self(tempfile::tempdir().expect("a folder"))
    }

    /// In memory where the system has such a folder: a kill asks nothing of the disk, and two hundred do not wait for it.
    fn in_memory() -> Self {
        tempfile::tempdir_in("/dev/shm").map_or_else(|_| Self::new(), Self)
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    fn store(&self) -> PathBuf {
        self.path("attempts.sqlite")
    }

    /// Runs the program with this store and these lines on standard input.
    fn run(&self, arguments: &[&str], input: &str) -> Run {
        let mut command = self.command(arguments);
        let mut child = started(command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()));
        // The program may end before it has read everything.
        let _ = child.stdin.take().expect("its input").write_all(input.as_bytes());
        let output = child.wait_with_output().expect("its output");
        Run {
            out: String::from_utf8(output.stdout).expect("text"),
            err: String::from_utf8(output.stderr).expect("text"),
            code: output.status.code().unwrap_or(-1),
        }
    }

    fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_toehold"));
        command.args(arguments).env("TOEHOLD_DATA", self.store()).env("NO_COLOR", "1").current_dir(tests());
        command
    }
}

fn started(command: &mut Command) -> std::process::Child {
    command.spawn().expect("the program starts")
}

/// A finished attempt with three answers and two scores; `n` tells it from others.
fn attempt(id: &str, n: u64) -> Attempt {
    let at = |after: i64| Moment::from_ms(1_788_280_200_000 + i64::try_from(n).expect("small") * 60_000 + after);
    let answer = |step: &str, text: &str, check: Option<Check>, after: i64| Answer {
        step: StepKey::new(step).expect("a name"),
        text: text.into(),
        check,
        at: at(after),
    };
    let osmosis = PrincipleId::new("osmosis").expect("a name");
    let score = |point: &str, earned: bool, after: i64| Score {
        part: PartLabel::new("b").expect("a name"),
        point: PointLabel::new(point).expect("a name"),
        earned,
        principles: vec![osmosis.clone()],
        command_term: CommandTerm::new("explain").expect("a name"),
        habits: if earned { vec![] } else { vec![HabitId::new("no-reason").expect("a name")] },
        at: at(after),
    };
    let check = Check { right: n.is_multiple_of(2), principle: Some(osmosis.clone()) };
    Attempt {
        id: AttemptId::new(id).expect("a name"),
        student: None,
        started: at(0),
        support: Support::Full,
        scenario: Practised {
            id: ScenarioId::new(format!("hasty-plate-short-{n}")).expect("a name"),
            title: "Hasty plate".into(),
            seed: n,
            form: Form::Short,
            points: 2,
            principles: vec![osmosis.clone()],
            front: None,
        },
        answers: vec![
            answer("plan", "two lines\nof it", None, 1),
            answer("step-1/direction", "falls", Some(check), 2),
            answer("part-b", "Water leaves, so the vesicles shrink.", None, 3),
        ],
        scores: vec![score("b1", true, 4), score("b2", false, 5)],
        corrections: Vec::new(),
    }
}

fn reference(name: &str) -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference").join(name)).expect("a file")
}

/// Against scipy and statsmodels (`tests/reference/progress_intervals.py`). Both compute quantiles of the beta
/// distribution by iteration, so they agree to far more digits than are shown.
#[test]
fn estimates_are_as_other_libraries_compute_them() {
    let mut n = 0;
    let text = reference("progress_intervals.csv");
    for line in text.lines().filter(|line| !line.starts_with(['#', 'e'])) {
        let values: Vec<f64> = line.split(',').map(|cell| cell.parse().expect("a number")).collect();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "small whole numbers")]
        let estimate = Estimate::of(values[0] as u32, values[1] as u32);
        for (ours, theirs) in [estimate.mean, estimate.low, estimate.high].iter().zip(&values[2..]) {
            assert!((ours - theirs).abs() < 1e-8, "{line}: {estimate:?}");
        }
        n += 1;
    }
    assert!(n >= 40, "{n} values");
}
