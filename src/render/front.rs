//! Front matter as YAML that a person can read: one line a field, one line a record.

use serde_json::Value;

use super::RenderError;
use crate::scenario::Front;

/// The YAML between the `---` lines. JSON values are YAML flow values, so nothing needs quoting of its own.
pub(super) fn front_matter(front: &Front) -> Result<String, RenderError> {
    let value = serde_json::to_value(front).map_err(|error| RenderError(error.to_string()))?;
    let mut out = String::new();
    for (key, value) in value.as_object().into_iter().flatten() {
        match value {
            Value::Array(records) if records.iter().any(Value::is_object) => {
                out.push_str(&format!("{key}:\n"));
                for record in records {
                    out.push_str(&format!("  - {record}\n"));
                }
            }
            other => out.push_str(&format!("{key}: {other}\n")),
        }
    }
    Ok(out)
}
