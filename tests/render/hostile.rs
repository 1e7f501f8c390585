//! Files that mean harm: nothing of theirs becomes markup, a request or a script.

use std::time::Instant;

use proptest::prelude::*;
use toehold::render::{Copy, page};

use super::{SCENARIOS, TEMPLATES, tree};

/// Elements that a page may have.
const ELEMENTS: &[&str] = &[
    "html",
    "head",
    "meta",
    "title",
    "style",
    "body",
    "main",
    "header",
    "section",
    "div",
    "span",
    "p",
    "h1",
    "h2",
    "h3",
    "h4",
    "h5",
    "h6",
    "em",
    "strong",
    "code",
    "pre",
    "a",
    "ul",
    "ol",
    "li",
    "br",
    "hr",
    "blockquote",
    "table",
    "thead",
    "tbody",
    "tr",
    "th",
    "td",
    "figure",
    "figcaption",
    "details",
    "summary",
    "footer",
    "svg",
    "desc",
    "g",
    "path",
    "line",
    "circle",
    "ellipse",
    "rect",
    "text",
    "defs",
    "pattern",
];

/// Attributes that a page may have, of which none loads or runs anything.
const ATTRIBUTES: &[&str] = &[
    "lang",
    "charset",
    "http-equiv",
    "content",
    "name",
    "id",
    "class",
    "aria-labelledby",
    "aria-describedby",
    "aria-hidden",
    "role",
    "scope",
    "data-label",
    "href",
    "title",
    "start",
    "viewBox",
    "font-family",
    "x",
    "y",
    "x1",
    "y1",
    "x2",
    "y2",
    "cx",
    "cy",
    "r",
    "rx",
    "ry",
    "d",
    "width",
    "height",
    "fill",
    "fill-opacity",
    "stroke",
    "stroke-width",
    "stroke-opacity",
    "stroke-linejoin",
    "stroke-linecap",
    "stroke-dasharray",
    "font-size",
    "font-weight",
    "font-style",
    "text-anchor",
    "transform",
    "patternTransform",
    "patternUnits",
];

/// A scenario file with this in its purpose, in a table, in a heading and in a list.
fn poisoned(text: &str) -> String {
    let (scenario, file) = &SCENARIOS[0];
    let in_a_cell = text.replace('\n', " ").replace('|', "\\|");
    file.replacen(&scenario.purpose, &format!("{text}\n\n- {text}\n\n> {text}\n"), 1).replacen(
        "## Questions",
        &format!("### {}\n\n| a | b |\n| --- | --- |\n| {in_a_cell} | x |\n\n## Questions", in_a_cell.trim()),
        1,
    )
}

#[track_caller]
fn harmless(file: &str) -> String {
    let made = page(&TEMPLATES, file, Copy::Teacher).unwrap();
    let document = tree(&made);
    for node in document.descendants().filter(roxmltree::Node::is_element) {
        let name = node.tag_name().name();
        assert!(ELEMENTS.contains(&name), "`{name}` came through");
        for attribute in node.attributes() {
            assert!(ATTRIBUTES.contains(&attribute.name()), "`{}` came through on `{name}`", attribute.name());
        }
        if let Some(address) = node.attribute("href") {
            let leads = ["http://", "https://", "#"].iter().any(|start| address.to_lowercase().starts_with(start));
            assert!(leads, "a link leads to `{address}`");
        }
        if let Some(fill) = node.attribute("fill") {
            assert!(!fill.contains("url(") || fill.starts_with("url(#"), "{fill}");
        }
    }
    made
}

#[test]
fn markup_and_links_of_a_file_do_no_harm() {
    let cases = [
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "text <b onclick=\"alert(1)\">bold</b> text",
        "<svg onload=alert(1)><script>alert(1)</script></svg>",
        "</style></title><script>alert(1)</script>",
        "</main></body></html><iframe src=\"//evil.example\"></iframe>",
        "<!-- --><script>alert(1)</script>",
        "<div\nstyle=\"background:url(//evil.example)\">\n\nx\n\n</div>",
        "[link](javascript:alert(1))",
        "[link](JaVaScRiPt:alert(1))",
        "[link](<javascript:alert(1)>)",
        "[link](\tjavascript:alert(1))",
        "[link](&#106;avascript:alert(1))",
        "[link](data:text/html;base64,PHNjcmlwdD4=)",
        "[link](vbscript:x \"title\")",
        "[link](//evil.example/x)",
        "[link](file:///etc/passwd)",
        "[link][ref]\n\n[ref]: javascript:alert(1) 'x'",
        "<javascript:alert(1)>",
        "<mailto:someone@example.org>",
        "![pixel](https://evil.example/pixel.png)",
        "text ![pixel](https://evil.example/pixel.png) text",
        "![a ![b](https://evil.example/b.svg) c](https://evil.example/c.svg)",
        "[![pixel](https://evil.example/pixel.png)](javascript:alert(1))",
        "\"quotes\" 'and' <angles> & ampersands &lt;script&gt;",
        "`<script>alert(1)</script>`",
        "```html\n<script>alert(1)</script>\n```",
        "**<i>nested</i>** *[a](javascript:b)*",
        "\u{0}\u{1}\u{8}\u{b} control",
        "{{ seed }} {% include \"page.css\" %} {{ 1 + 1 }}",
    ];
    for case in cases {
        let page = harmless(&poisoned(case));
        assert!(!page.contains("<script") && !page.contains("<img") && !page.contains("<iframe"), "{case}");
    }
}

#[test]
fn links_to_the_web_stay() {
    let page = harmless(&poisoned("[more](https://example.org/x?a=1&b=2) and [here](#top)"));
    assert!(page.contains("href=\"https://example.org/x?a=1&amp;b=2\"") && page.contains("href=\"#top\""));
}

#[test]
fn front_matter_does_no_harm() {
    let (_, file) = &SCENARIOS[0];
    let evil = r#""</title><script>alert(1)</script>\u0001]]>""#;
    let title = file.lines().find(|line| line.starts_with("title: ")).unwrap();
    harmless(&file.replacen("\n# ", "\n", 1).replacen(title, &format!("title: {evil}"), 1));
    let labels = file.replace("\"label\":\"", "\"label\":\"</text><script>x</script> &amp; ");
    let page = harmless(&labels.replacen("plot: {\"title\":\"", "plot: {\"title\":\"<script>", 1));
    assert!(!page.contains("<script>"));
}

#[test]
#[expect(clippy::disallowed_methods, reason = "a test may look at the clock")]
fn very_large_and_very_deep_texts_end_in_good_time() {
    let wide = format!("{}\n{}\n{}", "| a ".repeat(2000), "| --- ".repeat(2000), "| x\n".repeat(20_000));
    let cases = [
        ("a wide table", wide),
        ("a long table", format!("| a | b |\n| --- | --- |\n{}", "| 1 | 2 |\n".repeat(100_000))),
        ("deep quotations", format!("{}x", "> ".repeat(20_000))),
        ("deep lists", (0..2000).map(|depth| "  ".repeat(depth) + "- x\n").collect()),
        ("brackets", "[".repeat(100_000)),
        ("pictures", "![".repeat(50_000) + &"](x)".repeat(50_000)),
        ("emphasis", "*a **b ".repeat(50_000)),
        ("headings", "## x\n\n".repeat(20_000)),
        ("figures", "![x](a.svg)\n\n".repeat(200)),
    ];
    for (name, text) in cases {
        let start = Instant::now();
        let file = SCENARIOS[0].1.replacen("## Questions", &format!("{text}\n\n## Questions"), 1);
        let page = page(&TEMPLATES, &file, Copy::Teacher).unwrap();
        let seconds = start.elapsed().as_secs_f64();
        println!("{name}: {} bytes, {} bytes of page, {seconds:.2} s", file.len(), page.len());
        assert!(seconds < 20.0, "{name} took {seconds} s");
        assert!(page.len() < 40_000_000, "{name} made {} bytes", page.len());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn no_text_becomes_markup(text in r#"([a-z ]{0,6}|[<>&"'`*_\[\]()!|#\n-]|<[a-z]{1,6}( [a-z]+=[a-z"]*)?/?>|!?\[[a-z]*\]\([a-z:/.#]*\)|\PC){0,40}"#) {
        harmless(&poisoned(&text));
    }
}
