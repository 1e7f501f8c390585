//! A diagnostic as a person reads it: code, message, `path:line:col`, excerpt with a caret, hints.

use std::ops::Range;

use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Element, Group, Level, Origin, Renderer, Snippet};

use super::{Diagnostic, Severity, folded};
use crate::source::{Sources, Span};

/// Longest line that is quoted, in bytes.
const LONGEST_QUOTED: usize = 10_000;
/// Longest line of a hint, in characters.
const LONGEST_HINT: usize = 110;
/// Longest stretch that is marked, in bytes.
const LONGEST_MARKED: usize = 80;

/// The whole text of one diagnostic, with a line break at the end.
pub fn terminal(sources: &Sources, diagnostic: &Diagnostic, colour: bool) -> String {
    let level = match diagnostic.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
    };
    let mut first = level.primary_title(diagnostic.message.as_str()).id(diagnostic.code.name).element(excerpt(
        sources,
        diagnostic.primary,
        AnnotationKind::Primary,
    ));
    if diagnostic.related.is_empty() {
        first = hints(first, diagnostic);
    }
    let mut groups = vec![first];
    for (n, (span, message)) in diagnostic.related.iter().enumerate() {
        let mut group =
            Level::NOTE.secondary_title(message.as_str()).element(excerpt(sources, *span, AnnotationKind::Primary));
        if n + 1 == diagnostic.related.len() {
            group = hints(group, diagnostic);
        }
        groups.push(group);
    }
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    let mut text = renderer.decor_style(DecorStyle::Ascii).render(&groups);
    text.push('\n');
    text
}

fn hints<'a>(group: Group<'a>, diagnostic: &'a Diagnostic) -> Group<'a> {
    // A long hint, such as a list of ids, stands on several lines.
    let lines = |hint| folded(hint, LONGEST_HINT, 0).join("\n");
    diagnostic.hints.iter().fold(group, |group, hint| group.element(Level::HELP.with_name("hint").message(lines(hint))))
}

/// The line that holds the start of the span, marked; only the place where the line is too long to quote.
fn excerpt(sources: &Sources, span: Span, kind: AnnotationKind) -> Element<'_> {
    let place = sources.place(span.file, span.start);
    let path = sources.path(span.file);
    let line = sources.line_range(span.file, place.line);
    let text = sources.text(span.file).get(line.clone()).unwrap_or_default();
    if text.is_empty() || text.len() > LONGEST_QUOTED {
        return Origin::path(path).line(place.line).char_column(place.column).into();
    }
    let marked = within(span, &line, text);
    Snippet::source(text).path(path).line_start(place.line).annotation(kind.span(marked)).into()
}

/// The part of the span that lies in the line, relative to its start, cut where it is long.
fn within(span: Span, line: &Range<usize>, text: &str) -> Range<usize> {
    let start = span.start.clamp(line.start, line.end) - line.start;
    let end = span.end.clamp(line.start, line.end).min(span.start.saturating_add(LONGEST_MARKED)).max(line.start);
    let (start, end) = (text.floor_char_boundary(start), text.floor_char_boundary(end - line.start));
    start..end.max(start)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::code;

    #[test]
    fn text_has_place_excerpt_caret_and_hint_and_colour_on_request_only() {
        let mut sources = Sources::new();
        let file = sources.add("a.yaml", "acts:\n  - id: µ-x\n".as_bytes().to_vec());
        let other = sources.add("b.yaml", b"x: y".to_vec());
        let fault = Diagnostic::error(&code::ILL_FORMED_ID, Span { file, start: 14, end: 18 }, "`µ-x` is odd")
            .related(Span { file: other, start: 3, end: 4 }, "as here")
            .hint("write `m`");
        let plain = terminal(&sources, &fault, false);
        for part in [
            "error[ill-formed-id]: `µ-x` is odd",
            "a.yaml:2:9",
            "  - id: µ-x",
            "^^^",
            "as here",
            "b.yaml:1:4",
            "hint: write `m`",
        ] {
            assert!(plain.contains(part), "{part}\n{plain}");
        }
        let ids: Vec<String> = (0..40).map(|n| format!("`a-long-id-{n}`")).collect();
        let list = ids.join(", ");
        let folded = terminal(&sources, &fault.clone().hint(list), false);
        assert!(folded.lines().all(|line| line.chars().count() <= LONGEST_HINT + 20), "{folded}");
        assert!(ids.iter().all(|id| folded.contains(id)), "{folded}");
        assert!(!plain.contains('\u{1b}'));
        assert!(terminal(&sources, &fault, true).contains('\u{1b}'));
    }
}
