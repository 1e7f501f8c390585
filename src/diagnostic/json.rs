//! A diagnostic as a program reads it: the facts of the terminal's view.

use serde_json::{Value, json};

use super::{Diagnostic, Severity};
use crate::source::{Sources, Span};

/// One diagnostic as a JSON object.
pub fn json(sources: &Sources, diagnostic: &Diagnostic) -> Value {
    let severity = match diagnostic.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
    };
    let mut object = json!({
        "code": diagnostic.code.name,
        "severity": severity,
        "message": diagnostic.message,
    });
    let related: Vec<Value> = diagnostic
        .related
        .iter()
        .map(|(span, message)| {
            let mut other = json!({ "message": message });
            place(sources, *span, &mut other);
            other
        })
        .collect();
    place(sources, diagnostic.primary, &mut object);
    if let Some(fields) = object.as_object_mut() {
        fields.insert("related".to_owned(), related.into());
        fields.insert("hints".to_owned(), diagnostic.hints.clone().into());
    }
    object
}

/// Adds path, both ends and the source line.
fn place(sources: &Sources, span: Span, object: &mut Value) {
    let start = sources.place(span.file, span.start);
    let end = sources.place(span.file, span.end.max(span.start));
    let line = sources.line_range(span.file, start.line);
    let excerpt: String = sources.text(span.file).get(line).unwrap_or_default().chars().take(400).collect();
    if let Some(fields) = object.as_object_mut() {
        fields.insert("path".to_owned(), sources.path(span.file).into());
        fields.insert("line".to_owned(), start.line.into());
        fields.insert("column".to_owned(), start.column.into());
        fields.insert("end_line".to_owned(), end.line.into());
        fields.insert("end_column".to_owned(), end.column.into());
        fields.insert("source_line".to_owned(), excerpt.into());
    }
}
