//! The store: one `SQLite` file to which entries are only ever added.
//!
//! What was shown as saved is on the disk: each entry is a transaction of its own, with the journal synchronised before and
//! after (`synchronous = EXTRA`, <https://www.sqlite.org/pragma.html#pragma_synchronous>). Triggers refuse to change or
//! take out a row. A file that this program does not understand is left as it is.

use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::{Connection, ErrorCode, OpenFlags, TransactionBehavior};
use thiserror::Error;

use super::names::{AttemptId, PointLabel};

/// Marks our files, in the header that `SQLite` keeps for that: "toeh".
const APPLICATION: i64 = 0x746f_6568;
/// Version of the tables that this program writes.
pub const SCHEMA_VERSION: i64 = 1;
/// How long another process that writes is waited for.
const PATIENCE: Duration = Duration::from_secs(10);
const SCHEMA: &str = include_str!("schema.sql");

/// Attempts on disk.
#[derive(Debug)]
pub struct Store {
    // INVARIANT: the tables are those of `schema.sql`.
    pub(super) connection: Connection,
    path: PathBuf,
}

/// Why attempts cannot be read or saved.
#[derive(Debug, Error)]
pub enum StoreError {
    /// The file is something else.
    #[error("`{}` is no file of attempts", .0.display())]
    Foreign(PathBuf),
    /// A later program made it.
    #[error("`{}` was written by a newer version of this program (tables of version {version}, here {SCHEMA_VERSION})", path.display())]
    Newer {
        /// The file.
        path: PathBuf,
        /// Its version.
        version: i64,
    },
    /// It does not hold together.
    #[error("`{}` is damaged: {what}", path.display())]
    Damaged {
        /// The file.
        path: PathBuf,
        /// What `SQLite` says.
        what: String,
    },
    /// Another process writes and does not end.
    #[error("`{}` is in use by another process", .0.display())]
    Busy(PathBuf),
    /// No room.
    #[error("`{}` could not be written: the disk is full", .0.display())]
    Full(PathBuf),
    /// The file or its folder.
    #[error("`{}` may not be written", .0.display())]
    ReadOnly(PathBuf),
    /// It cannot be opened or made.
    #[error("`{}` cannot be opened: {what}", path.display())]
    Unopened {
        /// The file.
        path: PathBuf,
        /// Why.
        what: String,
    },
    /// Anything else that the disk or `SQLite` say.
    #[error("`{}` could not be used: {what}", path.display())]
    Failed {
        /// The file.
        path: PathBuf,
        /// Why.
        what: String,
    },
    /// The same id stands for something else.
    #[error("attempt `{0}` is there already, of another scenario")]
    OtherAttempt(AttemptId),
    /// There is no such attempt.
    #[error("there is no attempt `{0}`")]
    NoAttempt(String),
    /// Several attempts begin like this.
    #[error("`{0}` is the beginning of {1} attempts")]
    Several(String, usize),
    /// The attempt has no score of this point.
    #[error("attempt `{attempt}` has no scored point `{point}`")]
    NoPoint {
        /// The attempt.
        attempt: AttemptId,
        /// As asked for.
        point: PointLabel,
    },
}

impl StoreError {
    /// What to do about it.
    pub fn hint(&self) -> Option<&'static str> {
        Some(match self {
            Self::Foreign(_) => "name another file with --data; this one was left as it is",
            Self::Newer { .. } => "use the newer version, or name another file with --data; this one was left as it is",
            Self::Damaged { .. } => {
                "put back a copy of it, or move it away to begin anew; it was left as it is, and \
                 `toehold progress add` takes in what was exported before"
            }
            Self::Busy(_) => "end the other one, then try again",
            Self::Full(_) => "make room and try again; what was shown as saved is safe",
            Self::ReadOnly(_) => "check the permissions of the file and its folder, or name another file with --data",
            Self::Unopened { .. } => "check the path and its permissions, or name another file with --data",
            Self::Failed { .. } => "what was shown as saved is safe",
            Self::NoAttempt(_) | Self::Several(..) => "`toehold progress list` shows the attempts",
            Self::NoPoint { .. } => "`toehold progress list ATTEMPT` shows its points",
            Self::OtherAttempt(_) => return None,
        })
    }
}

impl Store {
    /// Opens a file of attempts, or makes it where there is none.
    ///
    /// # Errors
    /// A file that is none of ours, newer or damaged; a place that cannot be written.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        let unopened = |what: String| StoreError::Unopened { path: path.into(), what };
        match fs::metadata(path) {
            Ok(about) if about.is_dir() => return Err(unopened("it is a folder".into())),
            Ok(about) if !about.is_file() => return Err(unopened("it is no regular file".into())),
            _ => {}
        }
        if let Some(folder) = path.parent().filter(|folder| !folder.as_os_str().is_empty()) {
            fs::create_dir_all(folder).map_err(|error| match error.kind() {
                ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => StoreError::ReadOnly(path.into()),
                ErrorKind::StorageFull => StoreError::Full(path.into()),
                ErrorKind::NotADirectory | ErrorKind::AlreadyExists => {
                    unopened("a part of the path is not a folder".into())
                }
                kind => unopened(format!("its folder cannot be made: the system says “{kind}”")),
            })?;
        }
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let connection = Connection::open_with_flags(path, flags).map_err(|error| fault(path, &error))?;
        let mut store = Self { connection, path: path.into() };
        store.begin()?;
        Ok(store)
    }

    /// The file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// An id that no attempt has.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn new_id(&self) -> Result<AttemptId, StoreError> {
        let random = self.connection.query_row("SELECT lower(hex(randomblob(10)))", [], |row| row.get::<_, String>(0));
        let random = random.map_err(|error| self.fault(&error))?;
        AttemptId::new(random).map_err(|error| self.damaged(error.to_string()))
    }

    fn begin(&mut self) -> Result<(), StoreError> {
        self.connection.busy_timeout(PATIENCE).map_err(|error| fault(&self.path, &error))?;
        let settings = "PRAGMA synchronous = EXTRA; PRAGMA foreign_keys = ON; PRAGMA trusted_schema = OFF; \
                        PRAGMA cell_size_check = ON;";
        self.connection.execute_batch(settings).map_err(|error| fault(&self.path, &error))?;
        if self.is_blank()? {
            return self.make();
        }
        self.know()
    }

    fn number(&self, pragma: &str) -> Result<i64, StoreError> {
        self.connection.query_row(pragma, [], |row| row.get(0)).map_err(|error| self.fault(&error))
    }

    fn is_blank(&self) -> Result<bool, StoreError> {
        let marked = self.number("PRAGMA application_id")? != 0 || self.number("PRAGMA user_version")? != 0;
        Ok(!marked && self.number("SELECT count(*) FROM sqlite_schema")? == 0)
    }

    /// Makes the tables, unless another process was faster.
    fn make(&mut self) -> Result<(), StoreError> {
        let path = self.path.clone();
        let fault = |error: rusqlite::Error| fault(&path, &error);
        let change = self.connection.transaction_with_behavior(TransactionBehavior::Immediate).map_err(fault)?;
        let n: i64 = change.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0)).map_err(fault)?;
        if n == 0 {
            change.execute_batch(SCHEMA).map_err(fault)?;
            change.pragma_update(None, "application_id", APPLICATION).map_err(fault)?;
            change.pragma_update(None, "user_version", SCHEMA_VERSION).map_err(fault)?;
        }
        change.commit().map_err(fault)?;
        self.know()
    }

    /// Whether the file is one of ours, of a version that is understood, and sound.
    fn know(&self) -> Result<(), StoreError> {
        if self.number("PRAGMA application_id")? != APPLICATION {
            return Err(StoreError::Foreign(self.path.clone()));
        }
        let version = self.number("PRAGMA user_version")?;
        if version > SCHEMA_VERSION {
            return Err(StoreError::Newer { path: self.path.clone(), version });
        }
        let said = self.connection.query_row("PRAGMA quick_check(1)", [], |row| row.get::<_, String>(0));
        let said = said.map_err(|error| self.fault(&error))?;
        if said != "ok" {
            return Err(self.damaged(said.lines().last().unwrap_or_default().to_owned()));
        }
        let ours = Connection::open_in_memory().and_then(|fresh| {
            fresh.execute_batch(SCHEMA)?;
            tables(&fresh)
        });
        let ours = ours.map_err(|error| self.fault(&error))?;
        if version < SCHEMA_VERSION || tables(&self.connection).map_err(|error| self.fault(&error))? != ours {
            return Err(self.damaged("its tables are not those that this program makes".into()));
        }
        Ok(())
    }

    pub(super) fn fault(&self, error: &rusqlite::Error) -> StoreError {
        fault(&self.path, error)
    }

    pub(super) fn damaged(&self, what: String) -> StoreError {
        StoreError::Damaged { path: self.path.clone(), what }
    }
}

/// Everything that a file declares.
fn tables(connection: &Connection) -> rusqlite::Result<Vec<(String, Option<String>)>> {
    let mut query = connection.prepare("SELECT type || ' ' || name, sql FROM sqlite_schema ORDER BY 1")?;
    query.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?.collect()
}

/// What `SQLite` says, in plain words.
pub(super) fn fault(path: &Path, error: &rusqlite::Error) -> StoreError {
    let path = path.to_path_buf();
    let what = error.to_string();
    match error.sqlite_error_code() {
        Some(ErrorCode::NotADatabase) => StoreError::Foreign(path),
        Some(ErrorCode::DatabaseCorrupt) => StoreError::Damaged { path, what },
        Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => StoreError::Busy(path),
        Some(ErrorCode::DiskFull) => StoreError::Full(path),
        Some(ErrorCode::ReadOnly | ErrorCode::PermissionDenied) => StoreError::ReadOnly(path),
        Some(ErrorCode::CannotOpen) => {
            // The path is told already.
            let what = what.split_once(": ").map_or(what.as_str(), |(what, _)| what).to_owned();
            StoreError::Unopened { path, what }
        }
        _ => StoreError::Failed { path, what },
    }
}
