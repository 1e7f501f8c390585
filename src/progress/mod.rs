//! Progress: attempts, kept so that nothing shown as saved is lost, and what they say of where to go next.
//!
//! Comes in: an [`Attempt`] and its entries, one by one. Goes out: attempts again, a [`Report`], what comes [`next`].
//! Entries are only ever added: a correction stands beside what it corrects. **Must not know**: prose, the web, the clock;
//! a scenario's front matter is carried unread.

mod attempt;
mod estimate;
mod file;
mod moment;
mod names;
mod recall;
mod record;
mod report;
mod store;
mod support;

pub use attempt::{Answer, Attempt, Check, Correction, Form, Practised, Score, Standing, Verdict};
pub use estimate::{Estimate, MODEL, SOURCE, WINDOW};
pub use file::{FILE_VERSION, FileError, read_file, write_file};
pub use moment::{Moment, MomentError};
pub use names::{
    AttemptId, CommandTerm, HabitId, NameError, PartLabel, PointLabel, PrincipleId, ScenarioId, StepKey, StudentCode,
};
pub use record::{Recorded, record};
pub use report::{Known, Next, OfPrinciple, Report, Why, next, ranked, report};
pub use store::{SCHEMA_VERSION, Store, StoreError};
pub use support::Support;
