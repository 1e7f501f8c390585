//! The table of fault codes: name, meaning, an example of the fault and one without it.
//!
//! A code never changes its meaning and is never used again for another. The manual's list is made from this table.

/// One kind of fault.
#[derive(Debug, PartialEq, Eq)]
pub struct Code {
    /// Kebab-case; stable.
    pub name: &'static str,
    /// What is wrong, as a clause.
    pub meaning: &'static str,
    /// An example of the fault.
    pub wrong: &'static str,
    /// The same without it.
    pub right: &'static str,
}

/// The code of this name.
pub fn find(name: &str) -> Option<&'static Code> {
    ALL.iter().copied().find(|code| code.name == name)
}

/// Every code, in the order of the manual: reading, ids and references, laws, the graph, prose.
pub static ALL: &[&Code] = &[
    &FILE_TOO_LARGE,
    &NOT_UTF8,
    &EMPTY_FILE,
    &YAML_SYNTAX,
    &YAML_TOO_BIG,
    &NESTED_TOO_DEEP,
    &SEVERAL_DOCUMENTS,
    &UNKNOWN_ANCHOR,
    &DUPLICATE_KEY,
    &UNKNOWN_FIELD,
    &MISSING_FIELD,
    &EMPTY_VALUE,
    &WRONG_TYPE,
    &UNKNOWN_CHOICE,
    &ILL_FORMED_ID,
    &DUPLICATE_ID,
    &EMPTY_GRAPH,
    &PRINCIPLE_WITHOUT_FIELD,
    &UNKNOWN_ENTITY,
    &UNKNOWN_QUANTITY,
    &UNKNOWN_PRINCIPLE,
    &UNKNOWN_SETTING,
    &UNKNOWN_INFLUENCE,
    &UNKNOWN_ACT,
    &BELIEF_ELSEWHERE,
    &PREREQUISITE_CYCLE,
    &UNKNOWN_LAW,
    &UNKNOWN_SYMBOL,
    &MISSING_SYMBOL,
    &SYMBOL_GIVEN_TWICE,
    &VALUE_OUTSIDE_LAW,
    &WRONG_KIND_OF_SYMBOL,
    &BAD_RANGE,
    &BAD_NUMBER,
    &LAW_HAS_NO_VALUE,
    &SIGN_DISAGREES_WITH_LAW,
    &NO_EFFECT,
    &TURNING_POINT,
    &UNKNOWN_UNIT,
    &UNIT_DOES_NOT_MATCH,
    &CONTRADICTORY_SETTINGS,
    &UNREACHED_QUANTITY,
    &DEAD_END_QUANTITY,
    &ACT_OMITS_CHANGE,
    &ACT_CLAIMS_CHANGE,
    &NOT_A_TREATMENT,
    &BAD_LEVELS,
    &NOT_A_READOUT,
    &READING_MISSING,
    &READING_UNEXPECTED,
    &TRANSFER_MISSING,
    &REPEATED_PURPOSE,
    &TWIST_FIELDS,
    &LAWS_DISAGREE,
    &EMPTY_TEXT,
    &TO_BE_FILLED,
    &UNKNOWN_PLACEHOLDER,
    &BROKEN_PLACEHOLDER,
    &BROKEN_PATH,
    &FRONT_MATTER_MISSING,
    &FRONT_MATTER_MALFORMED,
    &FRONT_MATTER_UNFIT,
    &NEWER_FORMAT,
    &OTHER_CONCEPTS,
    &UNKNOWN_RIG,
    &UNKNOWN_CONTEXT,
    &UNKNOWN_TWIST,
    &UNKNOWN_NAME,
    &SECTION_MISSING,
    &SECTION_REPEATED,
    &TABLE_MISSING,
    &COLUMN_MISSING,
    &ROW_MISSING,
    &ROW_REPEATED,
    &PART_MISSING,
    &PART_REPEATED,
    &STEP_MISSING,
    &STEP_REPEATED,
    &NUMBER_DIFFERS,
    &NUMBER_MISSING,
    &NUMBER_UNKNOWN,
    &UNIT_DIFFERS,
    &SIGN_DIFFERS,
    &ORDER_DIFFERS,
    &DIRECTION_DIFFERS,
    &POINTS_DIFFER,
    &COMMAND_TERM_DIFFERS,
    &NO_ARROWS,
    &HEADER_INCOMPLETE,
    &BAD_NAME,
    &UNKNOWN_SIGN,
    &SIGN_GIVEN_BOTH_WAYS,
    &TOO_MANY_THINGS,
];

/// The file is larger than an author file can be.
pub static FILE_TOO_LARGE: Code = Code {
    name: "file-too-large",
    meaning: "the file is larger than an author file can be",
    wrong: "a file of 100 MB",
    right: "split it, one file a field",
};
/// The file is not UTF-8 text.
pub static NOT_UTF8: Code = Code {
    name: "not-utf8",
    meaning: "the file is not UTF-8 text",
    wrong: "a file saved as Latin-1",
    right: "the same file saved as UTF-8",
};
/// The file holds nothing, or nothing but comments.
pub static EMPTY_FILE: Code = Code {
    name: "empty-file",
    meaning: "the file holds nothing, or nothing but comments",
    wrong: "# nothing but comments",
    right: "field: { id: light, name: Light and labels }",
};
/// The text is not YAML: a tab as indentation, a quotation mark that stays open, a bracket too many.
pub static YAML_SYNTAX: Code = Code {
    name: "yaml-syntax",
    meaning: "the text is not YAML: a tab as indentation, a quotation mark that stays open, a bracket too many",
    wrong: "name: \"Osmosis",
    right: "name: \"Osmosis\"",
};
/// The text unfolds into more values than any author file has, as nested aliases do.
pub static YAML_TOO_BIG: Code = Code {
    name: "yaml-too-big",
    meaning: "the text unfolds into more values than any author file has, as nested aliases do",
    wrong: "a: &a [*b, *b, *b, *b]",
    right: "write the values out",
};
/// Lists or mappings lie within one another deeper than any part needs.
pub static NESTED_TOO_DEEP: Code = Code {
    name: "nested-too-deep",
    meaning: "lists or mappings lie within one another deeper than any part needs",
    wrong: "[[[[[[…]]]]]]",
    right: "a list of parts",
};
/// The file holds more than one YAML document.
pub static SEVERAL_DOCUMENTS: Code = Code {
    name: "several-documents",
    meaning: "the file holds more than one YAML document",
    wrong: "---",
    right: "one document a file",
};
/// An alias refers to an anchor that is not there, or to one around itself.
pub static UNKNOWN_ANCHOR: Code = Code {
    name: "unknown-anchor",
    meaning: "an alias refers to an anchor that is not there, or to one around itself",
    wrong: "unit: *litre",
    right: "unit: L",
};
/// A mapping has the same key twice.
pub static DUPLICATE_KEY: Code = Code {
    name: "duplicate-key",
    meaning: "a mapping has the same key twice",
    wrong: "{ id: a, id: b }",
    right: "{ id: a }",
};
/// A part has a field that parts of its kind do not have.
pub static UNKNOWN_FIELD: Code = Code {
    name: "unknown-field",
    meaning: "a part has a field that parts of its kind do not have",
    wrong: "prinicple: osmosis",
    right: "principle: osmosis",
};
/// A part, or front matter, lacks a field that its kind needs.
pub static MISSING_FIELD: Code = Code {
    name: "missing-field",
    meaning: "a part, or front matter, lacks a field that its kind needs",
    wrong: "- { id: vesicle }",
    right: "- { id: vesicle, intro: …, names: … }",
};
/// A field has no value.
pub static EMPTY_VALUE: Code =
    Code { name: "empty-value", meaning: "a field has no value", wrong: "id:", right: "id: vesicle" };
/// A value is of the wrong kind: text for a number, a mapping for a list.
pub static WRONG_TYPE: Code = Code {
    name: "wrong-type",
    meaning: "a value is of the wrong kind: text for a number, a mapping for a list",
    wrong: "time_s: soon",
    right: "time_s: 60",
};
/// A value is none of the words that its field takes.
pub static UNKNOWN_CHOICE: Code = Code {
    name: "unknown-choice",
    meaning: "a value is none of the words that its field takes",
    wrong: "role: reader",
    right: "role: readout",
};
/// An id is not kebab-case: lower-case letters and digits, words joined by single hyphens.
pub static ILL_FORMED_ID: Code = Code {
    name: "ill-formed-id",
    meaning: "an id is not kebab-case: lower-case letters and digits, words joined by single hyphens",
    wrong: "id: Trapped_Dye",
    right: "id: trapped-dye",
};
/// Two parts of a kind have the same id.
pub static DUPLICATE_ID: Code = Code {
    name: "duplicate-id",
    meaning: "two parts of a kind have the same id",
    wrong: "two quantities `dye`",
    right: "`dye-inside` and `dye-outside`",
};
/// The files hold no influence, so there is nothing to compose.
pub static EMPTY_GRAPH: Code = Code {
    name: "empty-graph",
    meaning: "the files hold no influence, so there is nothing to compose",
    wrong: "a folder of contexts only",
    right: "at least one quantity, principle and influence",
};
/// A file declares principles but no field.
pub static PRINCIPLE_WITHOUT_FIELD: Code = Code {
    name: "principle-without-field",
    meaning: "a file declares principles but no field",
    wrong: "principles: …",
    right: "field: { id: …, name: … }\nprinciples: …",
};
/// No entity has this id.
pub static UNKNOWN_ENTITY: Code = Code {
    name: "unknown-entity",
    meaning: "no entity has this id",
    wrong: "entity: vesicel",
    right: "entity: vesicle",
};
/// No quantity has this id.
pub static UNKNOWN_QUANTITY: Code = Code {
    name: "unknown-quantity",
    meaning: "no quantity has this id",
    wrong: "from: sucrose",
    right: "from: sucrose-outside",
};
/// No principle has this id.
pub static UNKNOWN_PRINCIPLE: Code = Code {
    name: "unknown-principle",
    meaning: "no principle has this id",
    wrong: "principle: osmosi",
    right: "principle: osmosis",
};
/// No setting has this id.
pub static UNKNOWN_SETTING: Code = Code {
    name: "unknown-setting",
    meaning: "no setting has this id",
    wrong: "needs: [membrane]",
    right: "needs: [intact-membrane]",
};
/// No influence has this id.
pub static UNKNOWN_INFLUENCE: Code = Code {
    name: "unknown-influence",
    meaning: "no influence has this id",
    wrong: "path: [field-moves]",
    right: "path: [field-moves-dye]",
};
/// A misconception is said to be held at an influence of another principle.
pub static BELIEF_ELSEWHERE: Code = Code {
    name: "belief-elsewhere",
    meaning: "a misconception is said to be held at an influence of another principle",
    wrong: "at: [dye-absorbs] under the principle transmittance",
    right: "at: [absorbance-dims-light]",
};
/// No act has this id.
pub static UNKNOWN_ACT: Code =
    Code { name: "unknown-act", meaning: "no act has this id", wrong: "act: sugar", right: "act: more-sucrose" };
/// Principles rest on one another in a circle.
pub static PREREQUISITE_CYCLE: Code = Code {
    name: "prerequisite-cycle",
    meaning: "principles rest on one another in a circle",
    wrong: "a requires b, b requires a",
    right: "a requires b",
};
/// No law has this name.
pub static UNKNOWN_LAW: Code = Code {
    name: "unknown-law",
    meaning: "no law has this name",
    wrong: "name: migration",
    right: "name: migration-distance",
};
/// The law has no input of this name.
pub static UNKNOWN_SYMBOL: Code = Code {
    name: "unknown-symbol",
    meaning: "the law has no input of this name",
    wrong: "{ symbol: duration, value: 60 }",
    right: "{ symbol: time, value: 60 }",
};
/// An input of the law gets no value.
pub static MISSING_SYMBOL: Code = Code {
    name: "missing-symbol",
    meaning: "an input of the law gets no value",
    wrong: "input: field with time left out",
    right: "fixed: [{ symbol: time, value: 60 }]",
};
/// An input of the law gets two values.
pub static SYMBOL_GIVEN_TWICE: Code = Code {
    name: "symbol-given-twice",
    meaning: "an input of the law gets two values",
    wrong: "time both fixed and free",
    right: "time fixed",
};
/// A value or range leaves the range in which the law holds.
pub static VALUE_OUTSIDE_LAW: Code = Code {
    name: "value-outside-law",
    meaning: "a value or range leaves the range in which the law holds",
    wrong: "{ symbol: time, value: -5 }",
    right: "{ symbol: time, value: 5 }",
};
/// A number is given where the law takes letters or a list, or the other way round.
pub static WRONG_KIND_OF_SYMBOL: Code = Code {
    name: "wrong-kind-of-symbol",
    meaning: "a number is given where the law takes letters or a list, or the other way round",
    wrong: "{ symbol: sequence, value: 3 }",
    right: "letters: [{ symbol: sequence, any_of: [ATGC] }]",
};
/// A range does not run from a smaller to a larger number, or its step does not fit.
pub static BAD_RANGE: Code = Code {
    name: "bad-range",
    meaning: "a range does not run from a smaller to a larger number, or its step does not fit",
    wrong: "range: [5, 1]",
    right: "range: [1, 5]",
};
/// A number that must be positive or finite is not.
pub static BAD_NUMBER: Code = Code {
    name: "bad-number",
    meaning: "a number that must be positive or finite is not",
    wrong: "time_s: -1",
    right: "time_s: 60",
};
/// The law gives no value somewhere in the believable range.
pub static LAW_HAS_NO_VALUE: Code = Code {
    name: "law-has-no-value",
    meaning: "the law gives no value somewhere in the believable range",
    wrong: "over: [0, 10] where the law divides by it",
    right: "over: [0.1, 10]",
};
/// The declared sign is not that of the law's finite difference over the whole range.
pub static SIGN_DISAGREES_WITH_LAW: Code = Code {
    name: "sign-disagrees-with-law",
    meaning: "the declared sign is not that of the law's finite difference over the whole range",
    wrong: "sign: '-' with x = μ·E·t",
    right: "sign: '+' with x = μ·E·t",
};
/// The law's value does not change over the whole range, or stands still in the midst of it.
pub static NO_EFFECT: Code = Code {
    name: "no-effect",
    meaning: "the law's value does not change over the whole range, or stands still in the midst of it",
    wrong: "a field that is cancelled by a fixed mobility of 0",
    right: "a mobility above 0",
};
/// A turning sign has no turning point within its range, or another sign has one.
pub static TURNING_POINT: Code = Code {
    name: "turning-point",
    meaning: "a turning sign has no turning point within its range, or another sign has one",
    wrong: "sign: turning",
    right: "sign: turning\nturns_at: 7",
};
/// A unit is not a UCUM code that is known here.
pub static UNKNOWN_UNIT: Code = Code {
    name: "unknown-unit",
    meaning: "a unit is not a UCUM code that is known here",
    wrong: "unit: furlong",
    right: "unit: cm",
};
/// The unit of a quantity measures something else than the law's symbol.
pub static UNIT_DOES_NOT_MATCH: Code = Code {
    name: "unit-does-not-match",
    meaning: "the unit of a quantity measures something else than the law's symbol",
    wrong: "unit: s for a distance",
    right: "unit: cm for a distance",
};
/// Settings that are needed together exclude one another.
pub static CONTRADICTORY_SETTINGS: Code = Code {
    name: "contradictory-settings",
    meaning: "settings that are needed together exclude one another",
    wrong: "needs: [in-gel, free-solution]",
    right: "needs: [in-gel]",
};
/// Nothing can change a quantity: no act sets it and no influence leads to it from one that is set.
pub static UNREACHED_QUANTITY: Code = Code {
    name: "unreached-quantity",
    meaning: "nothing can change a quantity: no act sets it and no influence leads to it from one that is set",
    wrong: "a readout with no influence to it",
    right: "an influence to it",
};
/// No readout can be reached from a quantity.
pub static DEAD_END_QUANTITY: Code = Code {
    name: "dead-end-quantity",
    meaning: "no readout can be reached from a quantity",
    wrong: "an intermediate with no influence from it",
    right: "an influence from it",
};
/// An act does not list a quantity that an influence leads to from its dial.
pub static ACT_OMITS_CHANGE: Code = Code {
    name: "act-omits-change",
    meaning: "an act does not list a quantity that an influence leads to from its dial",
    wrong: "changes: [sucrose-outside]",
    right: "changes: [sucrose-outside, solute-potential-outside]",
};
/// An act lists a quantity that no influence leads to from its dial.
pub static ACT_CLAIMS_CHANGE: Code = Code {
    name: "act-claims-change",
    meaning: "an act lists a quantity that no influence leads to from its dial",
    wrong: "changes: [field, brightness]",
    right: "changes: [field, distance]",
};
/// An act's dial is not a treatment, or the path of a plan begins where no act sets anything.
pub static NOT_A_TREATMENT: Code = Code {
    name: "not-a-treatment",
    meaning: "an act's dial is not a treatment, or the path of a plan begins where no act sets anything",
    wrong: "dial: brightness",
    right: "dial: sucrose-outside",
};
/// An act's levels are fewer than three, do not rise, or leave the dial's range.
pub static BAD_LEVELS: Code = Code {
    name: "bad-levels",
    meaning: "an act's levels are fewer than three, do not rise, or leave the dial's range",
    wrong: "levels: [[0, 5]]",
    right: "levels: [[0, 5, 10]]",
};
/// A rig reads a quantity that is not a readout, or the path of a plan ends where no rig reads.
pub static NOT_A_READOUT: Code = Code {
    name: "not-a-readout",
    meaning: "a rig reads a quantity that is not a readout, or the path of a plan ends where no rig reads",
    wrong: "readout: field",
    right: "readout: distance",
};
/// A readout does not say how it is read.
pub static READING_MISSING: Code = Code {
    name: "reading-missing",
    meaning: "a readout does not say how it is read",
    wrong: "role: readout",
    right: "role: readout\nreading: { … }",
};
/// A quantity that is not a readout says how it is read.
pub static READING_UNEXPECTED: Code = Code {
    name: "reading-unexpected",
    meaning: "a quantity that is not a readout says how it is read",
    wrong: "role: treatment\nreading: { … }",
    right: "role: treatment",
};
/// An influence leads from one entity to another and does not say how they meet.
pub static TRANSFER_MISSING: Code = Code {
    name: "transfer-missing",
    meaning: "an influence leads from one entity to another and does not say how they meet",
    wrong: "from: sucrose-outside (of the solution), to: volume (of the vesicle)",
    right: "transfer: contact",
};
/// A context has two purposes for one act.
pub static REPEATED_PURPOSE: Code = Code {
    name: "repeated-purpose",
    meaning: "a context has two purposes for one act",
    wrong: "two purposes for `more-sucrose`",
    right: "one purpose for each act",
};
/// A twist lacks a field that its kind needs, or has one that its kind cannot use.
pub static TWIST_FIELDS: Code = Code {
    name: "twist-fields",
    meaning: "a twist lacks a field that its kind needs, or has one that its kind cannot use",
    wrong: "kind: bypass",
    right: "kind: bypass\nheld_at: 3",
};
/// Influences that give one quantity by one law differ in a value that they share.
pub static LAWS_DISAGREE: Code = Code {
    name: "laws-disagree",
    meaning: "influences that give one quantity by one law differ in a value that they share",
    wrong: "time 60 in one and 90 in the other",
    right: "time 60 in both",
};
/// A text, or a list that needs an entry, is empty.
pub static EMPTY_TEXT: Code = Code {
    name: "empty-text",
    meaning: "a text, or a list that needs an entry, is empty",
    wrong: "terms: []",
    right: "terms: [osmosis]",
};
/// A text or an id of a skeleton was left as it was, or a plan is checked as if it were a scenario.
pub static TO_BE_FILLED: Code = Code {
    name: "to-be-filled",
    meaning: "a text or an id of a skeleton was left as it was, or a plan is checked as if it were a scenario",
    wrong: "because: \"FILL IN: Every dissolved molecule adds one particle.\"",
    right: "because: Every dissolved molecule adds one particle.",
};
/// A placeholder in a text refers to nothing that can stand there.
pub static UNKNOWN_PLACEHOLDER: Code = Code {
    name: "unknown-placeholder",
    meaning: "a placeholder in a text refers to nothing that can stand there",
    wrong: "{{ vesicel.many }}",
    right: "{{ vesicle.many }}",
};
/// A placeholder's braces do not close, or hold more than a name.
pub static BROKEN_PLACEHOLDER: Code = Code {
    name: "broken-placeholder",
    meaning: "a placeholder's braces do not close, or hold more than a name",
    wrong: "{{ vesicle.many }",
    right: "{{ vesicle.many }}",
};
/// The influences of a textbook technique or of a plan do not follow on one another.
pub static BROKEN_PATH: Code = Code {
    name: "broken-path",
    meaning: "the influences of a textbook technique or of a plan do not follow on one another",
    wrong: "path: [a-to-b, c-to-d]",
    right: "path: [a-to-b, b-to-c]",
};
/// A scenario or a plan does not begin with front matter.
pub static FRONT_MATTER_MISSING: Code = Code {
    name: "front-matter-missing",
    meaning: "a scenario or a plan does not begin with front matter",
    wrong: "# Packed-lantern wells",
    right: "---\ntoehold: 1\n…\n---",
};
/// The front matter of a scenario file is empty, or does not end.
pub static FRONT_MATTER_MALFORMED: Code = Code {
    name: "front-matter-malformed",
    meaning: "the front matter of a scenario file is empty, or does not end",
    wrong: "---\ntoehold: 1\n# Title",
    right: "---\ntoehold: 1\n…\n---\n# Title",
};
/// The front matter names parts or values that do not go together.
pub static FRONT_MATTER_UNFIT: Code = Code {
    name: "front-matter-unfit",
    meaning: "the front matter names parts or values that do not go together",
    wrong: "levels: [0.2, 0.7]",
    right: "a level set of the act, as it was generated",
};
/// The file is of a newer format than the program reads.
pub static NEWER_FORMAT: Code = Code {
    name: "newer-format",
    meaning: "the file is of a newer format than the program reads",
    wrong: "toehold: 9",
    right: "toehold: 1",
};
/// The file was made from other concepts than these.
pub static OTHER_CONCEPTS: Code = Code {
    name: "other-concepts",
    meaning: "the file was made from other concepts than these",
    wrong: "graph: 00000000",
    right: "the version that `check` shows for the concepts",
};
/// Front matter names a rig that the concepts do not have.
pub static UNKNOWN_RIG: Code = Code {
    name: "unknown-rig",
    meaning: "front matter names a rig that the concepts do not have",
    wrong: "rig: wels",
    right: "rig: wells",
};
/// Front matter names a context that the concepts do not have.
pub static UNKNOWN_CONTEXT: Code = Code {
    name: "unknown-context",
    meaning: "front matter names a context that the concepts do not have",
    wrong: "context: reef-warden",
    right: "context: reef-wardens",
};
/// Front matter names a twist that its influence does not have.
pub static UNKNOWN_TWIST: Code = Code {
    name: "unknown-twist",
    meaning: "front matter names a twist that its influence does not have",
    wrong: "twist: { at: osmosis, id: dilute }",
    right: "twist: { at: osmosis, id: dilute-dye }",
};
/// Front matter gives an entity a name that it does not have.
pub static UNKNOWN_NAME: Code = Code {
    name: "unknown-name",
    meaning: "front matter gives an entity a name that it does not have",
    wrong: "{ entity: vesicle, name: pouch }",
    right: "{ entity: vesicle, name: pouchlet }",
};
/// A section of a scenario is gone.
pub static SECTION_MISSING: Code = Code {
    name: "section-missing",
    meaning: "a section of a scenario is gone",
    wrong: "no “Scoring guide”",
    right: "## Scoring guide",
};
/// A section of a scenario is there twice.
pub static SECTION_REPEATED: Code = Code {
    name: "section-repeated",
    meaning: "a section of a scenario is there twice",
    wrong: "## Data … ## Data",
    right: "## Data",
};
/// A section of a scenario has lost its table.
pub static TABLE_MISSING: Code = Code {
    name: "table-missing",
    meaning: "a section of a scenario has lost its table",
    wrong: "0.20, 100, 4, 6",
    right: "| 0.20 | 100 | 4 | 6 |",
};
/// A column of a table is gone.
pub static COLUMN_MISSING: Code = Code {
    name: "column-missing",
    meaning: "a column of a table is gone",
    wrong: "| Sucrose (mol/L) | Mean brightness (%) |",
    right: "| Sucrose (mol/L) | Mean brightness (%) | ±2 SEM (%) | n |",
};
/// A row of the data or of the guide is gone.
pub static ROW_MISSING: Code = Code {
    name: "row-missing",
    meaning: "a row of the data or of the guide is gone",
    wrong: "a guide with b1 and b3",
    right: "a guide with b1, b2 and b3",
};
/// A row of the data or of the guide is there once too often.
pub static ROW_REPEATED: Code = Code {
    name: "row-repeated",
    meaning: "a row of the data or of the guide is there once too often",
    wrong: "two rows for 0.30 mol/L",
    right: "one row for each level",
};
/// A question is gone, or goes by another letter.
pub static PART_MISSING: Code = Code {
    name: "part-missing",
    meaning: "a question is gone, or goes by another letter",
    wrong: "(a) … (c) …",
    right: "(a) … (b) … (c) …",
};
/// A question is there twice, or is none of the scenario's.
pub static PART_REPEATED: Code = Code {
    name: "part-repeated",
    meaning: "a question is there twice, or is none of the scenario's",
    wrong: "(b) … (b) …",
    right: "(a) … (b) …",
};
/// A step of the scaffold, or its answer, is gone.
pub static STEP_MISSING: Code = Code {
    name: "step-missing",
    meaning: "a step of the scaffold, or its answer, is gone",
    wrong: "1. … 3. …",
    right: "1. … 2. … 3. …",
};
/// A step of the scaffold, or its answer, is there twice.
pub static STEP_REPEATED: Code = Code {
    name: "step-repeated",
    meaning: "a step of the scaffold, or its answer, is there twice",
    wrong: "1. … 1. …",
    right: "1. … 2. …",
};
/// A number is not the one that follows from the front matter.
pub static NUMBER_DIFFERS: Code = Code {
    name: "number-differs",
    meaning: "a number is not the one that follows from the front matter",
    wrong: "| 0.30 | 73 |",
    right: "| 0.30 | 72 |",
};
/// A number that the scenario needs is gone.
pub static NUMBER_MISSING: Code = Code {
    name: "number-missing",
    meaning: "a number that the scenario needs is gone",
    wrong: "Setup: Ψs = −iCRT.",
    right: "Setup: Ψs = −(1)(0.30 mol/L)(0.0831 L·bar/(mol·K))(295 K).",
};
/// A number is none of this scenario's.
pub static NUMBER_UNKNOWN: Code = Code {
    name: "number-unknown",
    meaning: "a number is none of this scenario's",
    wrong: "stirred for 40 min, where nothing says so",
    right: "a number from the text, the table or the guide",
};
/// A number or a header has another unit than follows from the front matter.
pub static UNIT_DIFFERS: Code = Code {
    name: "unit-differs",
    meaning: "a number or a header has another unit than follows from the front matter",
    wrong: "−7.4 mbar",
    right: "−7.4 bar",
};
/// A number or an expression has another sign than follows from the front matter.
pub static SIGN_DIFFERS: Code = Code {
    name: "sign-differs",
    meaning: "a number or an expression has another sign than follows from the front matter",
    wrong: "7.4 bar",
    right: "−7.4 bar",
};
/// Numbers or directions have changed places.
pub static ORDER_DIFFERS: Code = Code {
    name: "order-differs",
    meaning: "numbers or directions have changed places",
    wrong: "(100 − 84)/100",
    right: "(84 − 100)/100",
};
/// A stated direction is not the one that follows from the path.
pub static DIRECTION_DIFFERS: Code = Code {
    name: "direction-differs",
    meaning: "a stated direction is not the one that follows from the path",
    wrong: "the volume **goes up**",
    right: "the volume **goes down**",
};
/// Points of a question, or the total, are not those of the guide.
pub static POINTS_DIFFER: Code = Code {
    name: "points-differ",
    meaning: "points of a question, or the total, are not those of the guide",
    wrong: "*(4)* with three rows in the guide",
    right: "*(3)*",
};
/// A question no longer asks with its command term.
pub static COMMAND_TERM_DIFFERS: Code = Code {
    name: "command-term-differs",
    meaning: "a question no longer asks with its command term",
    wrong: "(a) Tell how …",
    right: "(a) **Describe** how …",
};
/// A diagram has a header and no row below it.
pub static NO_ARROWS: Code = Code {
    name: "no-arrows",
    meaning: "a diagram has a header and no row below it",
    wrong: "from,sign,to",
    right: "from,sign,to\ngrass,+,hare",
};
/// A diagram's first row does not name a column that is needed.
pub static HEADER_INCOMPLETE: Code = Code {
    name: "header-incomplete",
    meaning: "a diagram's first row does not name a column that is needed",
    wrong: "from,effect,to",
    right: "from,sign,to",
};
/// A name in a diagram is empty or cannot stand in the answer.
pub static BAD_NAME: Code = Code {
    name: "bad-name",
    meaning: "a name in a diagram is empty or cannot stand in the answer",
    wrong: "hare>fox,+,grass",
    right: "hare,+,grass",
};
/// A sign in a diagram is neither + nor -.
pub static UNKNOWN_SIGN: Code = Code {
    name: "unknown-sign",
    meaning: "a sign in a diagram is neither + nor -",
    wrong: "grass,up,hare",
    right: "grass,+,hare",
};
/// Two rows of a diagram give an arrow opposite signs.
pub static SIGN_GIVEN_BOTH_WAYS: Code = Code {
    name: "sign-given-both-ways",
    meaning: "two rows of a diagram give an arrow opposite signs",
    wrong: "grass,+,hare\ngrass,-,hare",
    right: "grass,+,hare",
};
/// A diagram holds more things than can be reasoned about.
pub static TOO_MANY_THINGS: Code = Code {
    name: "too-many-things",
    meaning: "a diagram holds more things than can be reasoned about",
    wrong: "101 names",
    right: "the names that the question needs",
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_code_is_in_the_table_once() {
        let declared = include_str!("code.rs")
            .lines()
            .filter(|line| line.starts_with("pub static") && line.contains(": Code ="))
            .count();
        assert_eq!(declared, ALL.len());
        for (n, code) in ALL.iter().enumerate() {
            assert!(ALL.iter().skip(n + 1).all(|other| other.name != code.name), "{}", code.name);
            assert!(!code.meaning.is_empty() && !code.wrong.is_empty() && !code.right.is_empty(), "{}", code.name);
        }
    }
}
