//! What a disk says when it refuses, in plain words, and what to do about it.

use std::io::ErrorKind;

/// What was to be done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Doing {
    Reading,
    Writing,
}

/// Why it was not done, and a hint. Nothing is ever half-written.
pub(super) fn told(kind: ErrorKind, doing: Doing) -> (String, &'static str) {
    let (why, hint) = match (kind, doing) {
        (ErrorKind::NotFound, Doing::Reading) => ("it is not there", "check the path"),
        (ErrorKind::NotFound, Doing::Writing) => {
            ("its folder is not there", "make the folder first, or check the path")
        }
        (ErrorKind::PermissionDenied, Doing::Reading) => ("it may not be read by you", "check its permissions"),
        (ErrorKind::PermissionDenied, Doing::Writing) => {
            ("you may not write there", "name another place, or change the permissions of the folder")
        }
        (ErrorKind::ReadOnlyFilesystem, _) => ("what it stands on can only be read", "name another place"),
        (ErrorKind::StorageFull | ErrorKind::QuotaExceeded, _) => {
            ("there is no room left", "make room and try again; nothing was half-written")
        }
        (ErrorKind::NotADirectory, _) => ("a part of the path is not a folder", "check the path"),
        (ErrorKind::AlreadyExists, _) => ("it is there and is no folder", "name another folder"),
        (ErrorKind::IsADirectory, _) => ("it is a folder", "name a file in it"),
        (ErrorKind::InvalidFilename, _) => {
            ("its name is too long, or none that this disk takes", "take a shorter, plainer name")
        }
        (kind, Doing::Reading) => return (format!("the system says “{kind}”"), "check the path and its permissions"),
        (kind, Doing::Writing) => {
            return (format!("the system says “{kind}”"), "check the path; nothing was half-written");
        }
    };
    (why.to_owned(), hint)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(kind: ErrorKind, read: &str, written: &str) {
        assert_eq!((told(kind, Doing::Reading).0.as_str(), told(kind, Doing::Writing).0.as_str()), (read, written));
    }

    #[test]
    fn what_the_system_says_is_put_into_plain_words() {
        case(ErrorKind::NotFound, "it is not there", "its folder is not there");
        case(ErrorKind::PermissionDenied, "it may not be read by you", "you may not write there");
        case(ErrorKind::StorageFull, "there is no room left", "there is no room left");
        case(ErrorKind::IsADirectory, "it is a folder", "it is a folder");
        let on_read_only = "what it stands on can only be read";
        case(ErrorKind::ReadOnlyFilesystem, on_read_only, on_read_only);
        // Not every command that writes has an option for the place.
        assert!(!told(ErrorKind::PermissionDenied, Doing::Writing).1.contains("--"));
    }
}
