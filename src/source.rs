//! Source texts and places in them.
//!
//! Comes in: names and bytes. Goes out: [`FileId`]s, [`Span`]s in bytes, and lines and columns as a reader counts them.
//! **Must not know**: files on disk, YAML, biology.

use std::ops::Range;

/// The largest author file that is read, in bytes. All concept files together come to a twentieth of it.
pub const LIMIT: usize = 10 * 1024 * 1024;

/// The newest version of the format of files with front matter that is read and written: their field `toehold`.
pub const FILE_FORMAT: u32 = 1;

/// One of the files of a [`Sources`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FileId(u32);

/// A stretch of a file, in bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// First byte.
    pub start: usize,
    /// The byte after the last.
    pub end: usize,
}

/// A place as an editor shows it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// Counted from 1.
    pub line: usize,
    /// In characters, counted from 1.
    pub column: usize,
}

/// Why the bytes of a file are not a text that can be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// More than [`LIMIT`].
    TooLarge {
        /// How many bytes it has.
        bytes: u64,
    },
    /// Not UTF-8.
    NotUtf8 {
        /// Offset of the first byte that is wrong, in the bytes and in the text that is kept of them.
        at: usize,
    },
}

/// One file.
#[derive(Debug, Clone)]
struct Source {
    path: String,
    name: String,
    // INVARIANT: where `fault` is set, only what stands before the fault, for excerpts.
    text: String,
    fault: Option<Fault>,
    // INVARIANT: rising, starts with 0, each within `text`.
    line_starts: Vec<usize>,
}

/// The files of a run.
#[derive(Debug, Clone, Default)]
pub struct Sources {
    files: Vec<Source>,
}

impl Sources {
    /// No files yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Takes a file in. Bytes that are not a text are noted as a [`Fault`], which loading reports with its place.
    pub fn add(&mut self, path: impl Into<String>, bytes: Vec<u8>) -> FileId {
        let path = path.into();
        self.add_named(path.clone(), path, bytes)
    }

    /// The same, where the name that identifies the file (relative to its folder) differs from the path shown.
    pub fn add_named(&mut self, path: impl Into<String>, name: impl Into<String>, bytes: Vec<u8>) -> FileId {
        if bytes.len() > LIMIT {
            return self.add_too_large(path, name, bytes.len() as u64);
        }
        match String::from_utf8(bytes) {
            Ok(text) => self.push(path.into(), name.into(), text, None),
            Err(error) => {
                let at = error.utf8_error().valid_up_to();
                let mut bytes = error.into_bytes();
                bytes.truncate(at);
                let mut text = String::from_utf8(bytes).unwrap_or_default();
                text.push(char::REPLACEMENT_CHARACTER);
                self.push(path.into(), name.into(), text, Some(Fault::NotUtf8 { at }))
            }
        }
    }

    /// Notes a file that is too large to be read at all.
    pub fn add_too_large(&mut self, path: impl Into<String>, name: impl Into<String>, bytes: u64) -> FileId {
        self.push(path.into(), name.into(), String::new(), Some(Fault::TooLarge { bytes }))
    }

    /// Puts one of these files among other sources.
    pub fn copy_to(&self, id: FileId, others: &mut Self) {
        others.files.extend(self.file(id).cloned());
    }

    fn push(&mut self, path: String, name: String, text: String, fault: Option<Fault>) -> FileId {
        let line_starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        let id = FileId(u32::try_from(self.files.len()).unwrap_or(u32::MAX));
        self.files.push(Source { path, name, text, fault, line_starts });
        id
    }

    /// All files, in the order they came.
    pub fn ids(&self) -> impl Iterator<Item = FileId> + use<> {
        (0..u32::try_from(self.files.len()).unwrap_or(u32::MAX)).map(FileId)
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.files.is_empty()
    }

    fn file(&self, id: FileId) -> Option<&Source> {
        self.files.get(id.0 as usize)
    }

    /// The path as shown to the user.
    pub fn path(&self, id: FileId) -> &str {
        self.file(id).map_or("", |file| &file.path)
    }

    /// The name that identifies the file, whatever folder it was read from.
    pub fn name(&self, id: FileId) -> &str {
        self.file(id).map_or("", |file| &file.name)
    }

    /// The text; where there is a fault, what stands before it.
    pub fn text(&self, id: FileId) -> &str {
        self.file(id).map_or("", |file| &file.text)
    }

    /// Why the file cannot be read, if so.
    pub fn fault(&self, id: FileId) -> Option<Fault> {
        self.file(id).and_then(|file| file.fault)
    }

    /// Where a byte of the file stands; past the end, where the file ends.
    pub fn place(&self, id: FileId, offset: usize) -> Place {
        let text = self.text(id);
        let line = self.line_of(id, offset);
        let start = self.line_range(id, line).start;
        let before = text.get(start..text.floor_char_boundary(offset)).unwrap_or_default();
        Place { line, column: before.chars().count() + 1 }
    }

    /// The number of the line that holds this byte, counted from 1.
    fn line_of(&self, id: FileId, offset: usize) -> usize {
        self.file(id).map_or(1, |file| file.line_starts.partition_point(|start| *start <= offset).max(1))
    }

    /// Bytes of a line (counted from 1) without its line break.
    pub fn line_range(&self, id: FileId, line: usize) -> Range<usize> {
        let Some(file) = self.file(id) else { return 0..0 };
        let start = file.line_starts.get(line.saturating_sub(1)).copied().unwrap_or(file.text.len());
        let end = file.line_starts.get(line).map_or(file.text.len(), |next| next - 1);
        start..end.max(start)
    }
}

/// Where front matter stands in a text: YAML between two lines of three hyphens, before everything else.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FrontMatter {
    /// The first byte of the opening line.
    pub opening: usize,
    /// What stands between the two lines.
    pub yaml: Range<usize>,
    /// Where the page begins.
    pub body: usize,
}

/// Why a text has no front matter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoFrontMatter {
    /// It begins with something else.
    Missing,
    /// Nothing closes it.
    Open {
        /// The first byte of the opening line.
        opening: usize,
    },
}

/// Finds the front matter of a text.
///
/// # Errors
/// It has none, or none that ends.
pub fn front_matter(text: &str) -> Result<FrontMatter, NoFrontMatter> {
    let opening = text.len() - text.trim_start_matches('\u{feff}').trim_start().len();
    let mut lines = text.get(opening..).unwrap_or_default().split_inclusive('\n');
    let first = lines.next().filter(|line| line.trim_end() == "---").ok_or(NoFrontMatter::Missing)?;
    let start = opening + first.len();
    let mut end = start;
    for line in lines {
        if matches!(line.trim_end(), "---" | "...") {
            return Ok(FrontMatter { opening, yaml: start..end, body: end + line.len() });
        }
        end += line.len();
    }
    Err(NoFrontMatter::Open { opening })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(text: &str, offset: usize, line: usize, column: usize) {
        let mut sources = Sources::new();
        let id = sources.add("a.yaml", text.as_bytes().to_vec());
        assert_eq!(sources.place(id, offset), Place { line, column }, "{text:?} at {offset}");
    }

    #[test]
    fn lines_and_columns_count_characters_from_one() {
        case("", 0, 1, 1);
        case("abc", 2, 1, 3);
        case("abc", 99, 1, 4);
        case("a\nb", 1, 1, 2);
        case("a\nb", 2, 2, 1);
        case("a\n", 2, 2, 1);
        case("µ = 1", 3, 1, 3);
        case("µ = 1", 1, 1, 1);
        case("π\nµx", 5, 2, 2);
    }

    #[test]
    fn bytes_that_are_no_text_are_noted_with_their_place() {
        let mut sources = Sources::new();
        let id = sources.add("a.yaml", b"ok\nbad \xff here".to_vec());
        assert_eq!(sources.fault(id), Some(Fault::NotUtf8 { at: 7 }));
        assert_eq!(sources.place(id, 7), Place { line: 2, column: 5 });
        let large = sources.add("b.yaml", vec![b' '; LIMIT + 1]);
        assert_eq!(sources.fault(large), Some(Fault::TooLarge { bytes: LIMIT as u64 + 1 }));
    }

    #[test]
    fn front_matter_stands_between_two_lines_of_hyphens() {
        let found = front_matter("\u{feff}\n---\na: 1\n---\nPage\n");
        assert_eq!(found, Ok(FrontMatter { opening: 4, yaml: 8..13, body: 17 }));
        assert_eq!(front_matter("---\n...\n"), Ok(FrontMatter { opening: 0, yaml: 4..4, body: 8 }));
        assert_eq!(front_matter("---\na: 1\n"), Err(NoFrontMatter::Open { opening: 0 }));
        assert_eq!(front_matter("Page\n---\n---\n"), Err(NoFrontMatter::Missing));
        assert_eq!(front_matter(""), Err(NoFrontMatter::Missing));
    }
}
