//! Which of the program's drawings a scenario file asks for where, and a text without one of them.
//!
//! A drawing goes by the end of its address, here and nowhere else: what a page would draw as the plot is what is taken
//! out where the reader is to draw it.

use std::ops::Range;

use pulldown_cmark::{Event, Parser, Tag, TagEnd};

use super::document::options;

/// A drawing that the Markdown of a scenario may ask for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Drawing {
    /// The data plot.
    Plot,
    /// The apparatus, stage by stage.
    Apparatus,
    /// What is seen at each level.
    Readings,
}

impl Drawing {
    /// What its file name adds to the scenario's id.
    pub fn ending(self) -> &'static str {
        match self {
            Self::Plot => "",
            Self::Apparatus => "-apparatus",
            Self::Readings => "-readings",
        }
    }

    /// The drawing at an address; `None` for a picture of another kind.
    pub(super) fn at(address: &str) -> Option<Self> {
        let address = address.to_ascii_lowercase();
        let name = address.strip_suffix(".svg")?;
        let named = [Self::Apparatus, Self::Readings].into_iter().find(|drawing| name.ends_with(drawing.ending()));
        Some(named.unwrap_or(Self::Plot))
    }
}

/// The text without a drawing and its caption: a paragraph right after it that begins in bold.
pub(super) fn without(text: &str, drawing: Drawing) -> String {
    let events: Vec<(Event<'_>, Range<usize>)> = Parser::new_ext(text, options()).into_offset_iter().collect();
    let mut kept = String::new();
    let mut at = 0;
    for range in (0..events.len()).filter_map(|place| range(events.get(place..)?, drawing)) {
        kept.push_str(text.get(at..range.start.max(at)).unwrap_or_default());
        at = range.end.max(at);
    }
    kept + text.get(at..).unwrap_or_default()
}

/// The bytes of a drawing that begins with these events: its paragraph and caption, or itself alone within a text.
fn range(events: &[(Event<'_>, Range<usize>)], drawing: Drawing) -> Option<Range<usize>> {
    let is_it = |event: &Event<'_>| matches!(event, Event::Start(Tag::Image { dest_url, .. }) if Drawing::at(dest_url) == Some(drawing));
    match events {
        [(Event::Start(Tag::Paragraph), paragraph), (image, whole), ..] if is_it(image) => {
            let end = events.iter().position(|(event, _)| matches!(event, Event::End(TagEnd::Image)))?;
            if !matches!(events.get(end + 1), Some((Event::End(TagEnd::Paragraph), _))) {
                return Some(whole.clone());
            }
            match events.get(end + 2..).unwrap_or_default() {
                [(Event::Start(Tag::Paragraph), caption), (Event::Start(Tag::Strong), _), ..] => {
                    Some(paragraph.start..caption.end)
                }
                _ => Some(paragraph.clone()),
            }
        }
        [(image, whole), ..] if is_it(image) => Some(whole.clone()),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(text: &str, expected: &str) {
        assert_eq!(without(text, Drawing::Plot), expected);
    }

    #[test]
    fn a_plot_goes_with_its_caption_whatever_the_file_is_called() {
        case("Before.\n\n![Plot](x-31.svg)\n\n**Figure 2.** It rises.\n\nAfter.\n", "Before.\n\n\nAfter.\n");
        case("![Plot](mine.SVG)\n\n**The graph.** It rises.\n\nAfter.\n", "\nAfter.\n");
        case("![Plot](mine.svg)\n\nAfter.\n", "\nAfter.\n");
        case("See ![the plot](mine.svg) here.\n", "See  here.\n");
        case("![Plot][p]\n\nAfter.\n\n[p]: mine.svg\n", "\nAfter.\n\n[p]: mine.svg\n");
    }

    #[test]
    fn other_pictures_stay() {
        for text in ["![A](x-apparatus.svg)\n\n**Figure 1.** B.\n", "![A](x-readings.svg)\n", "![A](photo.png)\n"] {
            case(text, text);
        }
    }
}
