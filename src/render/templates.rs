//! The templates: embedded in the program, replaceable one by one from a folder.

use include_dir::{Dir, include_dir};
use tera::Tera;

use super::RenderError;

static EMBEDDED: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/templates");

/// A file beside the templates that is no template: a script, a style, the review engine.
pub(super) fn asset(name: &str) -> Option<&'static [u8]> {
    EMBEDDED.get_file(name).map(include_dir::File::contents)
}

/// All templates, parsed: their faults have been reported.
#[derive(Debug, Clone)]
pub struct Templates {
    pub(super) tera: Tera,
}

impl Templates {
    /// The embedded templates, with those of the given names replaced.
    ///
    /// # Errors
    /// The fault, with template, line and column.
    pub fn new(replaced: &[(String, String)]) -> Result<Self, RenderError> {
        let mut tera = Tera::default();
        // Only pages and pictures are escaped by name; Markdown is escaped cell by cell on our side.
        tera.autoescape_on(vec![".html", ".svg", ".xml"]);
        let mut sources: Vec<(String, String)> = EMBEDDED
            .files()
            .filter_map(|file| Some((file.path().to_str()?.to_owned(), file.contents_utf8()?.to_owned())))
            .collect();
        for (name, text) in replaced {
            sources.retain(|(known, _)| known != name);
            sources.push((name.clone(), text.clone()));
        }
        sources.sort();
        tera.add_raw_templates(sources)?;
        Ok(Self { tera })
    }

    /// Names of all templates.
    pub fn names(&self) -> Vec<&str> {
        let mut names: Vec<&str> = self.tera.get_template_names().collect();
        names.sort_unstable();
        names
    }
}
