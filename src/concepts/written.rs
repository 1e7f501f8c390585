//! Concept files as written: the YAML shapes, before anything is resolved.
//!
//! Comes in: one YAML file. Goes out: lists of parts whose ids and references are text with a place.
//! **Must not know**: whether a reference leads anywhere; that is what `check` finds out.
//!
//! Every list is optional. Ids are kebab-case. Lists of records with an `id`, not maps, so that a repeated id is found.

mod influence;

use serde::Deserialize;
use serde_yaml::Spanned;

pub use influence::{
    FixedSymbol, FreeSymbol, Influence, LawUse, LettersSymbol, Limit, SignWritten, Transfer, TwistKind, TwistWritten,
};

/// Text with its place in the file.
pub type Text = Spanned<String>;

/// One concept file.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct File {
    /// The field that the file's principles belong to; a file of contexts or rigs needs none.
    pub field: Option<Field>,
    /// Things that quantities are properties of.
    #[serde(default)]
    pub entities: Vec<Entity>,
    /// Things that can be more or less.
    #[serde(default)]
    pub quantities: Vec<Quantity>,
    /// What is known: the units of the map.
    #[serde(default)]
    pub principles: Vec<Principle>,
    /// What holds of the apparatus.
    #[serde(default)]
    pub settings: Vec<Setting>,
    /// The signed arrows.
    #[serde(default)]
    pub influences: Vec<Influence>,
    /// Bench acts that set a treatment.
    #[serde(default)]
    pub acts: Vec<Act>,
    /// Bench arrangements that read a readout.
    #[serde(default)]
    pub rigs: Vec<Rig>,
    /// Invented places, people and reasons to investigate.
    #[serde(default)]
    pub contexts: Vec<Context>,
    /// Textbook techniques, as paths.
    #[serde(default)]
    pub known: Vec<Known>,
    /// Rare words that are not the biology asked for.
    #[serde(default)]
    pub gloss: Vec<Gloss>,
}

/// A field of biology.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Field {
    /// Kebab-case id.
    pub id: Text,
    /// As a reader sees it; once among all files of the field, the others give the id alone.
    pub name: Option<Text>,
}

/// A thing that quantities belong to.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entity {
    /// Kebab-case id; fragments refer to it with `_` for `-`.
    pub id: Text,
    /// What it is, for its first mention, with an article where it needs one
    /// (`tiny hollow spheres of phospholipid bilayer`).
    pub intro: Text,
    /// What it is then called; one is drawn a scenario.
    pub names: Vec<Name>,
    /// Hazards of what it names, each a whole sentence.
    #[serde(default)]
    pub hazards: Vec<Text>,
}

/// A name in its two numbers.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Name {
    /// Singular, without article (`lantern`).
    pub one: Text,
    /// Plural or mass noun, without article (`lanterns`).
    pub many: Text,
    /// A name made up by the investigators: introduced in quotation marks after the intro, and usable in a title.
    #[serde(default)]
    pub coined: bool,
}

/// What a quantity is for at the bench.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// An investigator can set it.
    Treatment,
    /// Neither set nor read.
    Intermediate,
    /// An instrument or an eye can read it.
    Readout,
}

/// A thing that can be more or less.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Quantity {
    /// Kebab-case id.
    pub id: Text,
    /// For headers and axes, sentence case, no article (`Sucrose outside`).
    pub name: Text,
    /// In running text, with article (`the sucrose concentration outside the {{ vesicle.many }}`).
    pub the: Text,
    /// Other ways to call it, each where a setting holds.
    #[serde(default)]
    pub called: Vec<Called>,
    /// For a time that is a treatment: one spell of it, with article (`a soak`), so that its levels are not read as
    /// times at which the reading was taken.
    pub spell: Option<Text>,
    /// Symbol as printed.
    pub symbol: Text,
    /// UCUM code.
    pub unit: Text,
    /// The entity it is a property of.
    pub entity: Text,
    /// Word for more (`higher`, `longer`, `brighter`).
    pub more: Text,
    /// Word for less.
    pub less: Text,
    /// How it is raised directly, as a positive control: a relative clause (`to which ready-made product has been added`).
    pub supplied: Option<Text>,
    /// The same where a setting holds.
    #[serde(default)]
    pub supplied_where: Vec<Supplied>,
    /// Least and greatest believable value, in `unit`.
    pub range: Spanned<[f64; 2]>,
    /// Treatment, intermediate or readout.
    pub role: Spanned<Role>,
    /// How it is set, or read, or why neither is possible: one clause.
    pub at_the_bench: Text,
    /// Instrument, for a readout.
    pub reading: Option<Reading>,
    /// For a share of things that can be looked at one by one: what is counted.
    pub counted: Option<Counted>,
    /// Hazards, each a whole sentence.
    #[serde(default)]
    pub hazards: Vec<Text>,
}

/// How a quantity is called where a setting holds.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Called {
    /// The setting.
    pub setting: Text,
    /// In running text, with article.
    pub the: Text,
}

/// How a quantity is raised directly where a setting holds.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Supplied {
    /// The setting.
    pub setting: Text,
    /// A relative clause.
    pub supplied: Text,
}

/// Things that make up a share, looked at one by one.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Counted {
    /// How a single thing is seen, one whole sentence without numbers.
    pub how: Text,
    /// The things, plural, without article (`single pairs of strands`).
    pub things: Text,
    /// What those are that make up the share (`paired`).
    pub yes: Text,
    /// What the others are (`apart`).
    pub no: Text,
}

/// How a readout is read.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// The instrument, with article (`an overhead camera`).
    pub instrument: Text,
    /// Smallest step that it shows, in the quantity's unit (or in per cent where `relative`).
    pub resolution: f64,
    /// Standard deviation between replicates as a share of the value.
    pub relative_sd: f64,
    /// Standard deviation between replicates that is always there, in the unit shown.
    pub absolute_sd: f64,
    /// Shown as a percentage of the value at the first level.
    #[serde(default)]
    pub relative: bool,
    /// Name of the relative reading for headers (`Relative brightness`), where `relative`.
    pub relative_name: Option<Text>,
    /// What is read beside the samples to compare them with: bands of known size, say.
    pub standard: Option<Standard>,
}

/// Samples of known size that are read beside the others.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Standard {
    /// The quantity in which they differ.
    pub of: Text,
    /// Its values, in that quantity's unit.
    pub at: Vec<f64>,
}

/// The unit of knowing.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Principle {
    /// Kebab-case id.
    pub id: Text,
    /// Short name, lower case (`solute potential`).
    pub name: Text,
    /// One or two sentences, true as they stand.
    pub statement: Text,
    /// Questions that call it to mind, each with a model answer.
    pub recall: Vec<Recall>,
    /// Words by which a text speaks of it.
    pub terms: Vec<Text>,
    /// Principles that it rests on.
    #[serde(default)]
    pub requires: Vec<Text>,
    /// What is wrongly believed.
    #[serde(default)]
    pub misconceptions: Vec<Misconception>,
    /// Real laboratory techniques that rest on it, for the debrief.
    #[serde(default)]
    pub elsewhere: Vec<Text>,
    /// Textbook section, handbook or paper.
    pub source: Text,
}

/// A recall prompt.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Recall {
    /// The question.
    pub ask: Text,
    /// The model answer.
    pub answer: Text,
}

/// A wrong belief.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Misconception {
    /// As a student would write it.
    pub belief: Text,
    /// Why it fails.
    pub fails: Text,
    /// The wrong sign that it produces for a step of this principle; absent where it is not about a direction.
    pub gives: Option<Spanned<WrongSign>>,
    /// Influences of the principle at which it leads there; all of them where none is given.
    #[serde(default)]
    pub at: Vec<Text>,
}

/// The wrong sign that a misconception produces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum WrongSign {
    /// The opposite direction.
    Flipped,
    /// No change where there is one.
    None,
    /// Raising one raises the other, whatever holds here: wrong on the falling side of a turning influence.
    #[serde(rename = "+")]
    Plus,
    /// Raising one lowers the other, whatever holds here: wrong on the rising side of a turning influence.
    #[serde(rename = "-")]
    Minus,
}

/// What holds of the apparatus.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Setting {
    /// Kebab-case id.
    pub id: Text,
    /// What holds, as a clause without capital or full stop (`the strands run through an agarose gel`).
    pub holds: Text,
    /// Settings that cannot hold together with it.
    #[serde(default)]
    pub excludes: Vec<Text>,
    /// The sentence that tells it, and where; none where the influences say it already.
    pub told: Option<Fragment>,
    /// Hazards of what it brings to the bench, each a whole sentence.
    #[serde(default)]
    pub hazards: Vec<Text>,
}

/// A place in the procedure, in reading order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Slot {
    /// What is used.
    Specimen,
    /// What is made ready.
    Prepare,
    /// The treatment.
    Treat,
    /// What happens while it acts, and how long.
    Wait,
    /// What is moved on to the next stage (a sample, an extract, a load).
    Transfer,
    /// What the stage that follows takes place in.
    Vessel,
    /// What is run or developed after the transfer.
    Run,
    /// What is read.
    Read,
}

/// One or two sentences for a slot, in several wordings of which one is drawn.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fragment {
    /// Where it stands.
    pub slot: Spanned<Slot>,
    /// Left out of short questions: nothing that they ask rests on it.
    #[serde(default)]
    pub only_long: bool,
    /// The entity that is first handled here: what is used and made ready of it is told just before, and not at the start.
    #[serde(default)]
    pub brings: Option<Text>,
    /// Wordings; placeholders `{{ vesicle.many }}` (entities), `{{ p.start }}` (this law's parameters with unit).
    pub text: Vec<Text>,
}

/// A bench act that sets a treatment.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Act {
    /// Kebab-case id.
    pub id: Text,
    /// The treatment quantity.
    pub dial: Text,
    /// Every quantity that the act changes at once: the dial, and what influences lead to from it.
    pub changes: Vec<Text>,
    /// Gerund phrase for questions (`raising the sucrose concentration outside`).
    pub doing: Text,
    /// What a calibration by it would tell of an unknown sample, up to that word (`the sucrose concentration of`).
    pub sought: Text,
    /// Level sets in the dial's unit, rising; one is drawn.
    pub levels: Vec<Spanned<Vec<f64>>>,
    /// Sentences for slot treat; placeholders `{{ levels }}`, `{{ containers }}`, entities.
    pub text: Vec<Text>,
    /// Sentences for what ends the treatment, told once the first run that takes time is over.
    #[serde(default)]
    pub after: Vec<Text>,
    /// What the first level is, as a comparison (`the {{ containers }} in plain buffer`).
    pub control: Text,
    /// What else a sample may hold that would be read as this treatment, each a whole sentence.
    #[serde(default)]
    pub limitation: Vec<Text>,
    /// Settings that the act brings.
    #[serde(default)]
    pub needs: Vec<Text>,
    /// Levels are categories or amounts: bars or a line.
    #[serde(default)]
    pub categories: bool,
    /// Adjectives for a technique that starts here.
    #[serde(default)]
    pub name_words: Vec<Text>,
    /// Hazards, each a whole sentence.
    #[serde(default)]
    pub hazards: Vec<Text>,
}

/// A bench arrangement that reads a readout.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rig {
    /// Kebab-case id.
    pub id: Text,
    /// The readout quantity.
    pub readout: Text,
    /// Settings that it brings.
    #[serde(default)]
    pub needs: Vec<Text>,
    /// The container (`well`, `wells`).
    pub container: Name,
    /// Nouns for a title (`wells`, `plate`).
    pub name_words: Vec<Text>,
    /// The reading: sentences, several wordings; placeholders `{{ n }}` (how many, in words), `{{ reference }}`.
    pub read: Vec<Text>,
    /// The repeats: one sentence, several wordings.
    pub repeat: Vec<Text>,
    /// What the figure shows: `wells`, `cuvette`, `strip`, `tank`, `syringe`, `chamber`, `tube`.
    pub picture: Text,
}

/// Invented people, place, organism and reasons.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Context {
    /// Kebab-case id.
    pub id: Text,
    /// Who investigates, with article (`a group studying drought in reed-bed snails`); invented.
    pub group: Text,
    /// One purpose for each act that the context can carry.
    pub purposes: Vec<Purpose>,
}

/// Why this group wants to know this.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Purpose {
    /// The act whose dial is what they want to know about.
    pub act: Text,
    /// Two or three whole sentences: who wants to know what, and why the direct way fails. Names the group in full.
    pub text: Text,
    /// The same in one sentence of at most twenty words, for a short question that has no room for more.
    pub brief: Option<Text>,
    /// The unknown that a calibration would be read for, with article (`a drop of the snail's body fluid`).
    pub unknown: Text,
    /// Hazards of what the story names, each a whole sentence.
    #[serde(default)]
    pub hazards: Vec<Text>,
}

/// A textbook technique.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Known {
    /// Kebab-case id.
    pub id: Text,
    /// Its usual name.
    pub name: Text,
    /// Other names.
    #[serde(default)]
    pub other_names: Vec<Text>,
    /// Its influences, in order.
    pub path: Vec<Text>,
}

/// A rare word that a text may use without asking for it.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gloss {
    /// The word, in lower case.
    pub id: Text,
    /// Its other forms: the plural, say.
    #[serde(default)]
    pub forms: Vec<Text>,
    /// What it means, as a phrase without a full stop.
    pub means: Text,
}
