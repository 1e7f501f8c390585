//! Putting a page together: styles, data and script within one file, under a policy that names the script by its hash.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde::Serialize;
use sha2::{Digest, Sha256};
use tera::Context;

use super::super::templates::asset;
use super::super::{RenderError, Templates};

/// The scripts of a scenario's page, in order: each uses those before it.
pub(super) const PRACTICE: &[&str] = &[
    "dom.js",
    "store.js",
    "mastery.js",
    "clock.js",
    "steps.js",
    "plot.js",
    "reviewer.js",
    "scoring.js",
    "practice.js",
];
/// The scripts of the index.
pub(super) const INDEX: &[&str] = &["dom.js", "store.js", "mastery.js", "index.js"];

/// The review engine as WebAssembly in base64, where this build has it.
pub(super) fn reviewer() -> Option<String> {
    asset("page/reviewer.wasm").map(|bytes| STANDARD.encode(bytes))
}

/// Fills in a template with styles, data, script and the policy that goes with them.
pub(super) fn finish(
    templates: &Templates,
    name: &str,
    mut context: Context,
    data: &impl Serialize,
    scripts: &[&str],
    reviewer: Option<String>,
) -> Result<String, RenderError> {
    let script = script(scripts);
    let hash = STANDARD.encode(Sha256::digest(script.as_bytes()));
    let wasm = if reviewer.is_some() { " 'wasm-unsafe-eval'" } else { "" };
    context.insert(
        "policy",
        &format!(
            "default-src 'none'; script-src 'sha256-{hash}'{wasm}; style-src 'unsafe-inline'; img-src data:; \
             base-uri 'none'; form-action 'none'"
        ),
    );
    context.insert("style", &text("page/practice.css"));
    context.insert("script", &script);
    context.insert("data", &in_script(&serde_json::to_string(data)?));
    context.insert("reviewer", &reviewer.unwrap_or_default());
    Ok(templates.tera.render(name, &context)?)
}

/// All scripts as one, in a scope of its own.
fn script(names: &[&str]) -> String {
    let files: Vec<String> = names.iter().map(|name| text(&format!("page/{name}"))).collect();
    format!("\"use strict\";\n(() => {{\n{}}})();\n", files.join("\n"))
}

fn text(name: &str) -> String {
    asset(name).and_then(|bytes| std::str::from_utf8(bytes).ok()).unwrap_or_default().to_owned()
}

/// JSON within a script element: nothing in it can end the element or begin a comment.
fn in_script(json: &str) -> String {
    json.replace('<', "\\u003c").replace('>', "\\u003e").replace('\u{2028}', "\\u2028").replace('\u{2029}', "\\u2029")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn data_cannot_leave_its_element() {
        let json = serde_json::to_string("</script><!--<script>\u{2028}").unwrap();
        let safe = in_script(&json);
        assert!(!safe.contains(['<', '>', '\u{2028}']));
        assert_eq!(serde_json::from_str::<String>(&safe).unwrap(), "</script><!--<script>\u{2028}");
    }

    #[test]
    fn every_script_is_there() {
        for name in PRACTICE.iter().chain(INDEX).chain(&["practice.css"]) {
            assert!(!text(&format!("page/{name}")).is_empty(), "{name}");
        }
    }
}
