//! The concepts that come with the program.

use include_dir::{Dir, include_dir};

use crate::source::Sources;

static CONCEPTS: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/concepts");

/// The concept files inside the program, in the order of their names.
pub fn embedded() -> Sources {
    let mut sources = Sources::new();
    let mut files = Vec::new();
    collect(&CONCEPTS, &mut files);
    files.sort_unstable();
    for (name, bytes) in files {
        sources.add_named(format!("concepts/{name}"), name, bytes.to_vec());
    }
    sources
}

fn collect<'a>(dir: &'a Dir<'a>, files: &mut Vec<(&'a str, &'a [u8])>) {
    for file in dir.files() {
        if let Some(name) = file.path().to_str().filter(|name| is_concept_file(name)) {
            files.push((name, file.contents()));
        }
    }
    for inner in dir.dirs() {
        collect(inner, files);
    }
}

/// Whether a file of this name is read as concepts.
pub fn is_concept_file(name: &str) -> bool {
    let name = name.rsplit(['/', '\\']).next().unwrap_or_default();
    let (stem, extension) = name.rsplit_once('.').unwrap_or((name, ""));
    !stem.is_empty() && !stem.starts_with('.') && (extension == "yaml" || extension == "yml")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn concept_files_by_name() {
        for (name, is) in [("a.yaml", true), ("b/a.yml", true), (".a.yaml", false), ("a.md", false), ("yaml", false)] {
            assert_eq!(is_concept_file(name), is, "{name}");
        }
    }
}
