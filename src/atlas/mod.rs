//! The graph to look at: a part of it as a picture, in open formats, and as a page to walk through.
//!
//! Comes in: the graph and what to show. Goes out: text. **Must not know**: laws, seeds, files on disk.

mod dot;
mod graphml;
mod json;
mod jsonld;
mod list;
mod page;
mod view;

pub use dot::dot;
pub use graphml::graphml;
pub use json::{VERSION, json};
pub use jsonld::jsonld;
pub use list::list;
pub use page::{Named, page};
pub use view::View;

use crate::concepts::graph::{DeclaredSign, Influence};

/// The sign of an influence as printed.
pub(crate) fn sign(influence: &Influence) -> &'static str {
    match influence.sign {
        DeclaredSign::Plus => "+",
        DeclaredSign::Minus => "−",
        DeclaredSign::Turning { .. } => "±",
    }
}

/// What a rise of the one does to the other.
fn verb(influence: &Influence) -> &'static str {
    match influence.sign {
        DeclaredSign::Plus => "raises",
        DeclaredSign::Minus => "lowers",
        DeclaredSign::Turning { .. } => "raises, then lowers",
    }
}

/// The sign as a word for programs.
fn sign_word(influence: &Influence) -> &'static str {
    match influence.sign {
        DeclaredSign::Plus => "plus",
        DeclaredSign::Minus => "minus",
        DeclaredSign::Turning { .. } => "turning",
    }
}

/// Text with the five signs that XML keeps for itself written out, and without characters that it cannot hold.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&apos;"),
            letter if letter.is_control() => out.push(' '),
            letter => out.push(letter),
        }
    }
    out
}
