//! Markdown of a section as safe HTML: no markup of the file passes, only what this program writes.
//!
//! Links lead to the web or within the page; pictures are the page's own figures or their words.

use pulldown_cmark::{CodeBlockKind, CowStr, Event, Parser, Tag, TagEnd, html};

use super::document::{Kind, options};
use super::glue::glue;
use super::table::{self, Cell, Table};

/// Where the Markdown of a section asks for a picture: by the end of its address.
pub(super) trait Pictures {
    /// The figure's HTML, with this caption; `None` where the page has no such figure.
    fn figure(&self, address: &str, caption: &str) -> Option<String>;
}

/// A section's Markdown as HTML.
pub(super) fn html(text: &str, kind: Kind, pictures: &dyn Pictures) -> String {
    let events = safe(Parser::new_ext(text, options()));
    let mut writer = Writer::default();
    let mut at = 0;
    while let Some(event) = events.get(at) {
        let rest = events.get(at..).unwrap_or_default();
        let (length, whole) = match (event, figure(rest, pictures)) {
            (_, Some(figure)) => figure,
            (Event::Start(Tag::Table(_)), None) => {
                let (length, table) = table::collect(rest);
                (length, table_html(&table))
            }
            _ => (0, String::new()),
        };
        if length > 0 {
            writer.put(&whole);
            at += length;
            continue;
        }
        if let Some(label) = part_label(rest).filter(|_| writer.depth == 0 && kind == Kind::Questions) {
            writer.open_part(label);
        }
        writer.take(event);
        at += 1;
    }
    writer.end()
}

/// HTML in the making.
#[derive(Default)]
struct Writer<'a> {
    out: String,
    pending: Vec<Event<'a>>,
    depth: usize,
    in_part: bool,
}

impl<'a> Writer<'a> {
    fn take(&mut self, event: &Event<'a>) {
        match event {
            Event::Start(_) => self.depth += 1,
            Event::End(_) => self.depth = self.depth.saturating_sub(1),
            _ => {}
        }
        self.pending.push(event.clone());
    }

    /// Markup of our own, after everything so far.
    fn put(&mut self, markup: &str) {
        html::push_html(&mut self.out, self.pending.drain(..));
        self.out.push_str(markup);
    }

    fn open_part(&mut self, label: char) {
        self.close_part();
        self.put(&format!("<div class=\"part\" id=\"part-{label}\">\n"));
        self.in_part = true;
    }

    fn close_part(&mut self) {
        self.put(if self.in_part { "</div>\n" } else { "" });
        self.in_part = false;
    }

    fn end(mut self) -> String {
        self.close_part();
        self.out
    }
}

/// A run of text as HTML, escaped.
pub(super) fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

/// The events with everything taken out that a file must not put on a page.
pub(super) fn safe<'a>(parser: Parser<'a>) -> Vec<Event<'a>> {
    let mut events: Vec<Event<'a>> = Vec::new();
    let mut links: Vec<bool> = Vec::new();
    let mut emphasis_follows = false;
    for event in parser {
        // "*Here.*" on a line of its own stays there: the lines of a step are not one paragraph to a reader.
        if emphasis_follows && matches!(event, Event::Start(Tag::Emphasis)) {
            events.pop();
            events.push(Event::HardBreak);
        }
        emphasis_follows = matches!(event, Event::SoftBreak);
        match event {
            Event::Start(Tag::HtmlBlock) => events.push(Event::Start(Tag::Paragraph)),
            Event::End(TagEnd::HtmlBlock) => events.push(Event::End(TagEnd::Paragraph)),
            Event::Html(markup) | Event::InlineHtml(markup) => events.push(Event::Text(printable(&markup).into())),
            Event::Code(words) => events.push(Event::Code(printable(&words).into())),
            // The language of a code block would become a class of the page.
            Event::Start(Tag::CodeBlock(_)) => events.push(Event::Start(Tag::CodeBlock(CodeBlockKind::Indented))),
            Event::Start(Tag::Link { link_type, dest_url, id, .. }) => {
                let passes = is_safe(&dest_url);
                links.push(passes);
                if passes {
                    events.push(Event::Start(Tag::Link { link_type, dest_url, title: CowStr::Borrowed(""), id }));
                }
            }
            Event::End(TagEnd::Link) => {
                if links.pop() == Some(true) {
                    events.push(event);
                }
            }
            Event::Text(words) => events.push(Event::Text(glue(&printable(&words)).into())),
            other => events.push(other),
        }
    }
    pictures_as_words(&mut events);
    keep_points(&mut events);
    events
}

/// "*(2)*" at the end of a part stays on the line of the last word.
fn keep_points(events: &mut [Event<'_>]) {
    for at in 0..events.len() {
        let [Event::Text(before), Event::Start(Tag::Emphasis), Event::Text(points), ..] =
            events.get(at..).unwrap_or_default()
        else {
            continue;
        };
        let is_points = points.strip_prefix('(').is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()));
        if let Some(before) = before.strip_suffix(' ').filter(|_| is_points) {
            let kept = format!("{before}\u{a0}");
            if let Some(event) = events.get_mut(at) {
                *event = Event::Text(kept.into());
            }
        }
    }
}

/// Pictures that are not a paragraph of their own become their words: the page loads nothing.
fn pictures_as_words(events: &mut [Event<'_>]) {
    let mut open: Vec<usize> = Vec::new();
    let mut within: Vec<(usize, usize)> = Vec::new();
    for (at, event) in events.iter().enumerate() {
        match event {
            Event::Start(Tag::Image { .. }) => open.push(at),
            Event::End(TagEnd::Image) => {
                let Some(start) = open.pop() else { continue };
                let before = start.checked_sub(1).and_then(|before| events.get(before));
                let alone = matches!(before, Some(Event::Start(Tag::Paragraph)))
                    && matches!(events.get(at + 1), Some(Event::End(TagEnd::Paragraph)));
                if !alone {
                    within.push((start, at));
                }
            }
            _ => {}
        }
    }
    for (start, end) in within {
        for (at, words) in [(start, "[Picture: "), (end, "]")] {
            if let Some(event) = events.get_mut(at) {
                *event = Event::Text(CowStr::Borrowed(words));
            }
        }
    }
}

/// A text without the characters that no page can hold.
pub(super) fn printable(text: &str) -> String {
    let holds = |c: &char| matches!(c, '\n' | '\t') || !(c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}'));
    text.chars().filter(holds).collect()
}

/// Whether a link may lead there: to the web, or within the page.
fn is_safe(address: &str) -> bool {
    let address = address.to_ascii_lowercase();
    let plain = address.chars().all(|c| !c.is_control() && !c.is_whitespace());
    plain && (address.starts_with("https://") || address.starts_with("http://") || address.starts_with('#'))
}

/// A paragraph that is one picture, with the paragraph of its caption; a picture within a text becomes its words.
fn figure(events: &[Event<'_>], pictures: &dyn Pictures) -> Option<(usize, String)> {
    let [Event::Start(Tag::Paragraph), Event::Start(Tag::Image { dest_url, .. }), rest @ ..] = events else {
        return None;
    };
    let end = rest.iter().position(|event| matches!(event, Event::End(TagEnd::Image)))?;
    if !matches!(rest.get(end + 1), Some(Event::End(TagEnd::Paragraph))) {
        return None;
    }
    let length = end + 4;
    let (caption_length, caption) = caption(events.get(length..).unwrap_or_default());
    let alternative: String = words(rest.get(..end).unwrap_or_default());
    let drawn = pictures.figure(dest_url, &caption);
    let html =
        drawn.unwrap_or_else(|| format!("<p class=\"missing\">[Picture: {}]</p>\n{caption}", escape(&alternative)));
    Some((length + caption_length, html))
}

/// A paragraph that begins with "**Figure", as the HTML of a caption.
fn caption(events: &[Event<'_>]) -> (usize, String) {
    let is_caption = matches!(
        events,
        [Event::Start(Tag::Paragraph), Event::Start(Tag::Strong), Event::Text(first), ..] if first.starts_with("Figure")
    );
    let end = events.iter().position(|event| matches!(event, Event::End(TagEnd::Paragraph)));
    let Some(end) = end.filter(|_| is_caption) else { return (0, String::new()) };
    let mut html = String::new();
    html::push_html(&mut html, events.get(1..end).unwrap_or_default().iter().cloned());
    (end + 1, html)
}

fn words(events: &[Event<'_>]) -> String {
    let text = events.iter().map(|event| match event {
        Event::Text(words) | Event::Code(words) => words.clone(),
        Event::SoftBreak | Event::HardBreak => CowStr::Borrowed(" "),
        _ => CowStr::Borrowed(""),
    });
    text.collect::<Vec<_>>().concat()
}

/// The label of a part that begins here: "(a) …".
fn part_label(events: &[Event<'_>]) -> Option<char> {
    let [Event::Start(Tag::Paragraph), Event::Text(first), ..] = events else { return None };
    let mut letters = first.chars();
    match (letters.next(), letters.next(), letters.next()) {
        (Some('('), Some(label @ 'a'..='z'), Some(')')) => Some(label),
        _ => None,
    }
}

/// A table; the guide's is marked, so that a phone can show it as a list of cards.
fn table_html(table: &Table) -> String {
    let is_guide = table.head.first().is_some_and(|cell| cell.text.trim().eq_ignore_ascii_case("point"));
    let class = if is_guide { "guide" } else { "plain" };
    let heads =
        table.head.iter().zip(&table.aligned).map(|(cell, align)| {
            format!("<th role=\"columnheader\" scope=\"col\" class=\"{align}\">{}</th>", cell.html)
        });
    let row = |row: &Vec<Cell>| {
        let cells = row.iter().zip(&table.aligned).zip(&table.head).map(|((cell, align), head)| {
            let empty = if cell.text.trim().is_empty() { " empty" } else { "" };
            let label = escape(&head.text);
            format!("<td role=\"cell\" class=\"{align}{empty}\" data-label=\"{label}\">{}</td>", cell.html)
        });
        format!("<tr role=\"row\">{}</tr>\n", cells.collect::<String>())
    };
    let cut =
        if table.is_cut { "<p class=\"missing\">[The table goes on; only its beginning is shown.]</p>\n" } else { "" };
    format!(
        "<div class=\"table\"><table class=\"{class}\" role=\"table\">\n\
         <thead role=\"rowgroup\"><tr role=\"row\">{}</tr></thead>\n\
         <tbody role=\"rowgroup\">\n{}</tbody></table></div>\n{cut}",
        heads.collect::<String>(),
        table.rows.iter().map(row).collect::<String>(),
    )
}
