//! Files leave here: whole or not at all, and never over another without leave.

use std::fs;
use std::io::{self, ErrorKind, Write};
use std::path::Path;

use tempfile::NamedTempFile;

use super::Failure;

/// Makes sure that a folder is there to write into.
///
/// # Errors
/// A path that is no folder or cannot be made.
pub(super) fn folder(path: &Path) -> Result<(), Failure> {
    fs::create_dir_all(path)
        .map_err(|error| Failure::new(format!("`{}` cannot be used as a folder: {error}", path.display())))
}

/// Writes a file in one move.
///
/// # Errors
/// A file that exists (without `force`), a folder that is not there, a full disk.
pub(super) fn write(path: &Path, text: &str, force: bool) -> Result<(), Failure> {
    if !force && path.symlink_metadata().is_ok() {
        return Err(exists(path));
    }
    match replace(path, text, force) {
        Ok(()) => Ok(()),
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Err(exists(path)),
        Err(error) => {
            let hint = match error.kind() {
                ErrorKind::StorageFull => "the disk is full; nothing was half-written",
                ErrorKind::PermissionDenied => "the folder cannot be written to",
                _ => "nothing was half-written",
            };
            Err(Failure::new(format!("`{}` could not be written: {error}", path.display())).hint(hint))
        }
    }
}

fn exists(path: &Path) -> Failure {
    Failure::new(format!("`{}` exists", path.display())).hint("give --force to replace it, or another folder")
}

fn replace(path: &Path, text: &str, force: bool) -> io::Result<()> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut draft = NamedTempFile::new_in(folder)?;
    draft.write_all(text.as_bytes())?;
    draft.as_file().sync_all()?;
    // The draft is private to its owner; what is handed out should be readable like any other file.
    set_readable(&draft)?;
    if force {
        draft.persist(path)?
    } else {
        draft.persist_noclobber(path)?
    };
    Ok(())
}

#[cfg(unix)]
fn set_readable(draft: &NamedTempFile) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    draft.as_file().set_permissions(fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn set_readable(_draft: &NamedTempFile) -> io::Result<()> {
    Ok(())
}
