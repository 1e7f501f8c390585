//! JSON Schemas (draft 2020-12) of concept files and of the front matter of scenarios, so that editors complete and check.
//!
//! They say what a file may hold, with the words of the manual; whether a reference leads anywhere and whether the numbers
//! are right only `check` knows.

use serde_json::{Map, Value, json};

use crate::laws;
use crate::technique::Form;

/// The dialect.
const DIALECT: &str = "https://json-schema.org/draft/2020-12/schema";

/// A field of a record: its name, its schema, whether it must be there.
type Entry = (&'static str, Value, bool);

/// The schema of a concept file.
pub fn concepts() -> Value {
    let parts: [(&'static str, Value, &str); 10] = [
        ("entities", entity(), "Things that quantities are properties of"),
        ("quantities", quantity(), "Things that can be more or less"),
        ("principles", principle(), "What is known: the units of the map"),
        ("settings", setting(), "What holds of the apparatus"),
        ("influences", influence(), "Signed, lawful arrows"),
        ("acts", act(), "Bench acts that set a treatment"),
        ("rigs", rig(), "Bench arrangements that read a readout"),
        ("contexts", context(), "Invented people, places and reasons to investigate"),
        ("known", known(), "Textbook techniques, as paths"),
        ("gloss", gloss(), "Rare words that are not the biology asked for"),
    ];
    let mut entries: Vec<Entry> = vec![(
        "field",
        with(
            record(vec![("id", id(), true), ("name", text(), false)]),
            "The field that the file's principles belong to; its name stands in one file of the field",
        ),
        false,
    )];
    entries.extend(parts.into_iter().map(|(name, part, words)| (name, with(list(part), words), false)));
    let mut schema = record(entries);
    head(&mut schema, "concepts", "A concept file");
    schema
}

/// The schema of the front matter of a scenario.
pub fn scenario() -> Value {
    let side = record(vec![("influence", id(), true), ("side", one_of(&["below", "above"]), true)]);
    let twist = record(vec![("at", id(), true), ("id", id(), true)]);
    let name = record(vec![("entity", id(), true), ("name", text(), true)]);
    let parameter = record(vec![("influence", id(), true), ("symbol", text(), true), ("value", text(), true)]);
    let entries = vec![
        ("toehold", with(whole(1), "Version of the file format"), true),
        ("graph", with(text(), "Version of the concepts"), true),
        ("seed", whole(0), true),
        ("attempt", whole(0), true),
        ("title", text(), true),
        ("form", one_of(&Form::ALL.map(Form::word)), true),
        ("act", id(), true),
        ("levels", list(json!({ "type": "number" })), true),
        ("rig", id(), true),
        ("context", id(), true),
        ("path", with(list(id()), "Influences in order"), true),
        ("settings", list(id()), true),
        ("sides", list(side), true),
        ("twist", json!({ "anyOf": [twist, { "type": "null" }] }), true),
        ("replicates", json!({ "type": "integer", "minimum": 2, "maximum": 20 }), true),
        ("names", list(name), true),
        ("parameters", list(parameter), true),
        ("noiseless", list(json!({ "type": "number" })), true),
        ("noiseless_twisted", list(json!({ "type": "number" })), true),
        ("plot", json!({ "type": "object" }), false),
        ("apparatus", list(json!({ "type": "object" })), false),
    ];
    let mut schema = record(entries);
    head(&mut schema, "scenario", "The front matter of a scenario");
    schema
}

/// The schema of the front matter of a plan for a scenario.
pub fn plan() -> Value {
    let twist = record(vec![
        ("at", with(id(), "The influence that it touches"), false),
        ("id", with(id(), "The twist's id there, or none"), true),
    ]);
    let entries = vec![
        ("toehold", with(whole(1), "Version of the file format"), true),
        ("plan", with(whole(1), "Version of the format of plans: what says that this is one"), true),
        ("path", with(list(id()), "Influences in order"), false),
        ("form", one_of(&Form::ALL.map(Form::word)), false),
        ("act", id(), false),
        ("rig", id(), false),
        ("context", id(), false),
        ("twist", twist, false),
    ];
    let mut schema = record(entries);
    head(&mut schema, "plan", "A plan for a scenario");
    schema
}

fn head(schema: &mut Value, name: &str, title: &str) {
    if let Some(fields) = schema.as_object_mut() {
        fields.insert("$schema".to_owned(), DIALECT.into());
        fields.insert("$id".to_owned(), format!("urn:toehold:schema:{name}:1").into());
        fields.insert("title".to_owned(), title.into());
    }
}

fn record(entries: Vec<Entry>) -> Value {
    let required: Vec<&str> = entries.iter().filter(|(_, _, must)| *must).map(|(name, _, _)| *name).collect();
    let properties: Map<String, Value> =
        entries.into_iter().map(|(name, schema, _)| (name.to_owned(), schema)).collect();
    json!({ "type": "object", "additionalProperties": false, "required": required, "properties": properties })
}

fn with(mut schema: Value, description: &str) -> Value {
    if let Some(fields) = schema.as_object_mut() {
        fields.insert("description".to_owned(), description.into());
    }
    schema
}

/// YAML writes some texts like numbers (`name: 5`); the reader takes them as text.
fn text() -> Value {
    json!({ "type": ["string", "number"], "minLength": 1 })
}

fn id() -> Value {
    json!({ "type": "string", "pattern": "^[a-z][a-z0-9]*(-[a-z0-9]+)*$", "maxLength": 80 })
}

#[expect(clippy::needless_pass_by_value, reason = "schemas are made in the call")]
fn list(of: Value) -> Value {
    json!({ "type": "array", "items": of })
}

#[expect(clippy::needless_pass_by_value, reason = "schemas are made in the call")]
fn some(of: Value) -> Value {
    json!({ "type": "array", "items": of, "minItems": 1 })
}

fn number() -> Value {
    json!({ "type": "number" })
}

fn whole(least: u32) -> Value {
    json!({ "type": "integer", "minimum": least })
}

fn pair() -> Value {
    json!({ "type": "array", "items": { "type": "number" }, "minItems": 2, "maxItems": 2 })
}

fn yes_or_no() -> Value {
    json!({ "type": "boolean" })
}

fn one_of(words: &[&str]) -> Value {
    json!({ "enum": words })
}

fn name() -> Value {
    record(vec![("one", text(), true), ("many", text(), true), ("coined", yes_or_no(), false)])
}

fn entity() -> Value {
    record(vec![
        ("id", id(), true),
        ("intro", with(text(), "What it is, for its first mention"), true),
        ("names", some(name()), true),
        ("hazards", list(text()), false),
    ])
}

fn quantity() -> Value {
    let reading = record(vec![
        ("instrument", text(), true),
        ("resolution", number(), true),
        ("relative_sd", number(), true),
        ("absolute_sd", number(), true),
        ("relative", yes_or_no(), false),
        ("relative_name", text(), false),
        ("standard", record(vec![("of", id(), true), ("at", some(number()), true)]), false),
    ]);
    let counted =
        record(vec![("how", text(), true), ("things", text(), true), ("yes", text(), true), ("no", text(), true)]);
    record(vec![
        ("id", id(), true),
        ("name", with(text(), "For headers and axes, no article"), true),
        ("the", with(text(), "In running text, with article"), true),
        ("called", list(record(vec![("setting", id(), true), ("the", text(), true)])), false),
        ("spell", text(), false),
        ("symbol", text(), true),
        ("unit", with(text(), "UCUM code"), true),
        ("entity", id(), true),
        ("more", text(), true),
        ("less", text(), true),
        ("supplied", text(), false),
        ("supplied_where", list(record(vec![("setting", id(), true), ("supplied", text(), true)])), false),
        ("range", with(pair(), "Least and greatest believable value"), true),
        ("role", one_of(&["treatment", "intermediate", "readout"]), true),
        ("at_the_bench", text(), true),
        ("reading", reading, false),
        ("counted", counted, false),
        ("hazards", list(text()), false),
    ])
}

fn recall() -> Value {
    record(vec![("ask", text(), true), ("answer", text(), true)])
}

fn principle() -> Value {
    let misconception = record(vec![
        ("belief", text(), true),
        ("fails", text(), true),
        ("gives", one_of(&["flipped", "none", "+", "-"]), false),
        ("at", with(list(id()), "Influences at which it leads there; all of the principle where none is given"), false),
    ]);
    record(vec![
        ("id", id(), true),
        ("name", text(), true),
        ("statement", with(text(), "One or two sentences, true as they stand"), true),
        ("recall", some(recall()), true),
        ("terms", with(some(text()), "Words by which a text speaks of it"), true),
        ("requires", list(id()), false),
        ("misconceptions", list(misconception), false),
        ("elsewhere", list(text()), false),
        ("source", text(), true),
    ])
}

fn fragment() -> Value {
    let slots = ["specimen", "prepare", "treat", "wait", "transfer", "vessel", "run", "read"];
    let only_long = json!({ "type": "boolean" });
    record(vec![
        ("slot", one_of(&slots), true),
        ("only_long", only_long, false),
        ("brings", id(), false),
        ("text", some(text()), true),
    ])
}

fn setting() -> Value {
    record(vec![
        ("id", id(), true),
        ("holds", text(), true),
        ("excludes", list(id()), false),
        ("told", fragment(), false),
        ("hazards", list(text()), false),
    ])
}

fn law_use() -> Value {
    let names: Vec<&str> = laws::all().map(|law| law.id).collect();
    // An endless value is written `.inf`, which some readers of YAML take for text.
    let value = json!({ "anyOf": [{ "type": "number" }, { "enum": [".inf", "-.inf"] }] });
    let fixed = record(vec![("symbol", text(), true), ("value", value, true), ("means", text(), false)]);
    let free = record(vec![
        ("symbol", text(), true),
        ("low", number(), true),
        ("high", number(), true),
        ("step", number(), true),
    ]);
    let letters = record(vec![("symbol", text(), true), ("any_of", some(text()), true)]);
    record(vec![
        ("name", json!({ "enum": names, "description": "A law of the library" }), true),
        ("input", with(text(), "The symbol that `from` gives"), true),
        ("fixed", list(fixed), false),
        ("free", list(free), false),
        ("letters", list(letters), false),
        ("at_first", list(text()), false),
    ])
}

fn twist() -> Value {
    let kinds = ["cut", "bypass", "reverse", "saturate", "remove-setting", "rival-path", "rate-or-end-point"];
    let set = record(vec![("symbol", text(), true), ("value", number(), true)]);
    record(vec![
        ("id", id(), true),
        ("kind", one_of(&kinds), true),
        ("agent", text(), true),
        ("because", text(), true),
        ("trap", text(), true),
        ("fault", text(), false),
        ("accept", list(text()), false),
        ("hazards", list(text()), false),
        ("set", list(set), false),
        ("held_at", number(), false),
        ("limiting", yes_or_no(), false),
        ("remove", id(), false),
        ("add", id(), false),
    ])
}

fn influence() -> Value {
    record(vec![
        ("id", id(), true),
        ("from", id(), true),
        ("to", id(), true),
        ("sign", one_of(&["+", "-", "turning"]), true),
        ("turns_at", number(), false),
        ("principle", id(), true),
        ("law", law_use(), true),
        ("because", with(text(), "Why, in one true sentence"), true),
        ("needs", list(id()), false),
        ("excludes", list(id()), false),
        ("transfer", one_of(&["contact", "sample", "load"]), false),
        ("over", pair(), false),
        ("limit", record(vec![("of", id(), true), ("share", number(), true)]), false),
        ("time_s", number(), true),
        ("builds_up", yes_or_no(), false),
        ("liquid", text(), false),
        ("told", fragment(), false),
        ("acts", list(fragment()), false),
        ("never", list(text()), false),
        ("role", recall(), true),
        ("up", with(text(), "What happens when `from` rises"), true),
        ("down", with(text(), "What happens when `from` falls"), true),
        ("accept", list(text()), false),
        ("reject", list(text()), false),
        ("name_words", list(text()), false),
        ("twists", list(twist()), false),
    ])
}

fn act() -> Value {
    record(vec![
        ("id", id(), true),
        ("dial", id(), true),
        ("changes", list(id()), true),
        ("doing", text(), true),
        ("sought", text(), true),
        ("limitation", list(text()), false),
        ("levels", some(list(number())), true),
        ("text", some(text()), true),
        ("after", list(text()), false),
        ("control", text(), true),
        ("needs", list(id()), false),
        ("categories", yes_or_no(), false),
        ("name_words", list(text()), false),
        ("hazards", list(text()), false),
    ])
}

fn rig() -> Value {
    record(vec![
        ("id", id(), true),
        ("readout", id(), true),
        ("needs", list(id()), false),
        ("container", name(), true),
        ("name_words", some(text()), true),
        ("read", some(text()), true),
        ("repeat", some(text()), true),
        ("picture", text(), true),
    ])
}

fn context() -> Value {
    let purpose = record(vec![
        ("act", id(), true),
        ("text", text(), true),
        ("brief", text(), false),
        ("unknown", text(), true),
        ("hazards", list(text()), false),
    ]);
    record(vec![("id", id(), true), ("group", text(), true), ("purposes", list(purpose), true)])
}

fn gloss() -> Value {
    record(vec![("id", id(), true), ("forms", list(text()), false), ("means", text(), true)])
}

fn known() -> Value {
    record(vec![
        ("id", id(), true),
        ("name", text(), true),
        ("other_names", list(text()), false),
        ("path", list(id()), true),
    ])
}
