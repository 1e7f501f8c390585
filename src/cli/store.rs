//! Files leave here: whole or not at all, and never over another without leave.

use std::fs;
use std::io::{self, ErrorKind, Write};
use std::path::Path;

use tempfile::NamedTempFile;

use super::Failure;
use super::disk::{Doing, told};

/// Makes sure that a folder is there to write into.
///
/// # Errors
/// A path that is no folder or cannot be made.
pub(super) fn folder(path: &Path) -> Result<(), Failure> {
    fs::create_dir_all(path).map_err(|error| {
        let (why, hint) = told(error.kind(), Doing::Writing);
        Failure::new(format!("`{}` cannot be used as a folder: {why}", path.display())).hint(hint)
    })
}

/// Writes a file in one move.
///
/// # Errors
/// A file that exists (without `force`), a folder that is not there, a full disk.
pub(super) fn write(path: &Path, text: &str, force: bool) -> Result<(), Failure> {
    write_bytes(path, text.as_bytes(), force)
}

/// Makes sure that a file may be written, before others are.
///
/// # Errors
/// A file that exists (without `force`).
pub(super) fn free(path: &Path, force: bool) -> Result<(), Failure> {
    if !force && path.symlink_metadata().is_ok() { Err(exists(path)) } else { Ok(()) }
}

/// Writes a file that is no text in one move.
///
/// # Errors
/// As [`write`].
pub(super) fn write_bytes(path: &Path, bytes: &[u8], force: bool) -> Result<(), Failure> {
    free(path, force)?;
    match replace(path, bytes, force) {
        Ok(()) => Ok(()),
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Err(exists(path)),
        Err(error) => {
            let (why, hint) = told(error.kind(), Doing::Writing);
            Err(Failure::new(format!("`{}` could not be written: {why}", path.display())).hint(hint))
        }
    }
}

fn exists(path: &Path) -> Failure {
    Failure::new(format!("`{}` exists", path.display())).hint("give --force to replace it, or another folder")
}

fn replace(path: &Path, bytes: &[u8], force: bool) -> io::Result<()> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut draft = NamedTempFile::new_in(folder)?;
    draft.write_all(bytes)?;
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_system_says_is_put_into_plain_words() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("file");
        write(&file, "text", false).unwrap();
        let below = write(&file.join("inner.md"), "text", false).unwrap_err();
        assert!(below.message.ends_with("a part of the path is not a folder"), "{}", below.message);
        let nowhere = write(&folder.path().join("no/where.md"), "text", false).unwrap_err();
        assert!(nowhere.message.ends_with("its folder is not there"), "{}", nowhere.message);
        let no_folder = super::folder(&file).unwrap_err();
        assert!(no_folder.message.ends_with("it is there and is no folder"), "{}", no_folder.message);
        assert!([below, nowhere, no_folder].iter().all(|failure| failure.hint.is_some()));
    }
}
