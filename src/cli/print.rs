//! Printing a page as PDF with a Chromium that is installed.

use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use super::Failure;

/// Names under which it is known.
const NAMES: &[&str] = &["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
/// No window, no network, nothing of the user's own profile.
const FLAGS: &[&str] = &[
    "--headless",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-extensions",
    "--no-pdf-header-footer",
];

/// An installed Chromium.
#[derive(Debug)]
pub(super) struct Chromium(PathBuf);

impl Chromium {
    /// The first that the search path leads to.
    ///
    /// # Errors
    /// There is none.
    pub(super) fn find() -> Result<Self, Failure> {
        let folders = std::env::var_os("PATH").unwrap_or_default();
        let found = std::env::split_paths(&folders)
            .flat_map(|folder| NAMES.iter().map(move |name| folder.join(name)))
            .find(|program| program.is_file());
        found.map(Self).ok_or_else(|| {
            Failure::new("a PDF needs Chromium, and none was found")
                .hint(format!("install one of {}; or open the pages in a browser and print them", NAMES.join(", ")))
        })
    }

    /// The bytes of a page's PDF.
    ///
    /// # Errors
    /// It does not print.
    pub(super) fn pdf(&self, page: &Path) -> Result<Vec<u8>, Failure> {
        let place = tempfile::tempdir().map_err(|error| Failure::new(format!("no temporary folder: {error}")))?;
        let page = fs::canonicalize(page).map_err(|error| Failure::new(format!("`{}`: {error}", page.display())))?;
        let target = place.path().join("page.pdf");
        // Its sandbox does not work everywhere; the pages hold no script and may load nothing.
        let tried = [None, Some("--no-sandbox")];
        let mut said = String::new();
        for sandbox in tried {
            let mut profile = OsString::from("--user-data-dir=");
            profile.push(place.path().join("profile"));
            let mut to = OsString::from("--print-to-pdf=");
            to.push(&target);
            let mut command = Command::new(&self.0);
            command.args(FLAGS).args(sandbox).arg(profile).arg(to).arg(&page).stdin(Stdio::null());
            let output = command.output();
            match (output, fs::metadata(&target)) {
                (Ok(output), Ok(about)) if output.status.success() && about.len() > 0 => {
                    return read(&target);
                }
                (Ok(output), _) => String::from_utf8_lossy(&output.stderr).trim().clone_into(&mut said),
                (Err(error), _) => said = error.to_string(),
            }
        }
        let last = said.lines().last().unwrap_or("it said nothing");
        Err(Failure::new(format!("`{}` could not print `{}`: {last}", self.0.display(), page.display()))
            .hint("the page itself is written; open it in a browser and print it"))
    }
}

fn read(path: &Path) -> Result<Vec<u8>, Failure> {
    fs::read(path).map_err(|error| Failure::new(format!("`{}` could not be read: {error}", path.display())))
}
