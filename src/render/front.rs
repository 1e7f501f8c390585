//! Front matter as YAML that a person can read: one line a field, one line a record.

use serde_json::Value;

use super::RenderError;
use crate::scenario::Front;

/// The YAML between the `---` lines. JSON values are YAML flow values, so nothing needs quoting of its own.
pub(super) fn front_matter(front: &Front) -> Result<String, RenderError> {
    let value = serde_json::to_value(front).map_err(|error| RenderError(error.to_string()))?;
    let fields = value.as_object().into_iter().flatten().map(|(key, value)| match value {
        Value::Array(records) if records.iter().any(Value::is_object) => {
            let records = records.iter().map(|record| format!("  - {record}\n"));
            format!("{key}:\n{}", records.collect::<String>())
        }
        other => format!("{key}: {other}\n"),
    });
    Ok(fields.collect())
}
