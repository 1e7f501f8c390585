//! Concept files as written: the YAML shapes, before anything is resolved.
//!
//! Comes in: one YAML file. Goes out: lists of parts whose ids and references are text with a place.
//! **Must not know**: whether a reference leads anywhere; that is what `check` finds out.
//!
//! Every list is optional in a file. Ids are kebab-case. Lists of records with an `id` rather than maps, so that a
//! repeated id can be reported.

use serde::Deserialize;
use serde_yaml::Spanned;

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
    /// The instrument, with article (`a plate camera`).
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
    /// The wrong sign that it produces for a step of this principle: `flipped` or `none`; absent where it is not
    /// about a direction.
    pub gives: Option<Spanned<WrongSign>>,
}

/// The wrong sign that a misconception produces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum WrongSign {
    /// The opposite direction.
    Flipped,
    /// No change where there is one.
    None,
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
    /// Wordings; placeholders `{{ vesicle.many }}` (entities), `{{ p.start }}` (this law's parameters with unit).
    pub text: Vec<Text>,
}

/// The sign of an influence as declared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub enum SignWritten {
    /// Raising `from` raises `to`.
    #[serde(rename = "+")]
    Plus,
    /// Raising `from` lowers `to`.
    #[serde(rename = "-")]
    Minus,
    /// Raises below `turns_at`, lowers above.
    #[serde(rename = "turning")]
    Turning,
}

/// How specimen and compartment change hands between `from` and `to`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Transfer {
    /// `from` acts where `to` is: they touch, or the light falls on it.
    Contact,
    /// A portion is taken out; what it left behind no longer acts on it.
    Sample,
    /// It is put into another apparatus.
    Load,
}

/// A signed, lawful arrow.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Influence {
    /// Kebab-case id (`solute-lowers-potential`).
    pub id: Text,
    /// Quantity that acts.
    pub from: Text,
    /// Quantity acted on.
    pub to: Text,
    /// Direction.
    pub sign: Spanned<SignWritten>,
    /// Where a turning sign turns, in the unit of `from`.
    pub turns_at: Option<Spanned<f64>>,
    /// The principle that a student must know.
    pub principle: Text,
    /// The law that gives `to`.
    pub law: LawUse,
    /// Why, in one true sentence.
    pub because: Text,
    /// Settings under which it acts.
    #[serde(default)]
    pub needs: Vec<Text>,
    /// Settings under which it does not.
    #[serde(default)]
    pub excludes: Vec<Text>,
    /// How `from`'s entity reaches `to`'s, where they differ.
    pub transfer: Option<Spanned<Transfer>>,
    /// Narrower range of `from` in which it is used.
    pub over: Option<Spanned<[f64; 2]>>,
    /// What `to` cannot exceed: the reaction ends before its substrate runs short, say.
    pub limit: Option<Limit>,
    /// Time in seconds after which `to` has settled; or, for a rate, the time over which it builds up.
    pub time_s: f64,
    /// Whether `to` builds up for as long as it is allowed to (a rate), rather than settling.
    #[serde(default)]
    pub builds_up: bool,
    /// Told to the student because nobody could know it; a step that is told asks for no recall.
    pub told: Option<Fragment>,
    /// Bench facts that make the step real.
    #[serde(default)]
    pub acts: Vec<Fragment>,
    /// Words that would hand the step over; they may not stand in the stimulus.
    #[serde(default)]
    pub never: Vec<Text>,
    /// "What plays its part here?"
    pub role: Recall,
    /// What happens when `from` rises: a whole clause, no capital, no full stop. Of a turning influence two clauses, for
    /// below and for above the turning point, parted by ` // `.
    pub up: Text,
    /// What happens when `from` falls.
    pub down: Text,
    /// Also earns.
    #[serde(default)]
    pub accept: Vec<Text>,
    /// Does not earn.
    #[serde(default)]
    pub reject: Vec<Text>,
    /// Adjectives for a technique that uses it (`packed`).
    #[serde(default)]
    pub name_words: Vec<Text>,
    /// Second questions that touch this step.
    #[serde(default)]
    pub twists: Vec<TwistWritten>,
}

/// How an influence uses a law.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LawUse {
    /// The law's id.
    pub name: Text,
    /// The symbol that `from` gives.
    pub input: Text,
    /// Symbols with one value always.
    #[serde(default)]
    pub fixed: Vec<FixedSymbol>,
    /// Symbols drawn once a scenario.
    #[serde(default)]
    pub free: Vec<FreeSymbol>,
    /// Letter symbols: one of these is drawn.
    #[serde(default)]
    pub letters: Vec<LettersSymbol>,
    /// Symbols that take the value `from` has at the first level (the state in which a thing was made).
    #[serde(default)]
    pub at_first: Vec<Text>,
}

/// A symbol with one value.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FixedSymbol {
    /// The law's symbol.
    pub symbol: Text,
    /// Its value in the law's unit (`.inf` where the law allows it).
    pub value: Spanned<f64>,
}

/// A symbol drawn from a range.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FreeSymbol {
    /// The law's symbol.
    pub symbol: Text,
    /// Least value.
    pub low: f64,
    /// Greatest value.
    pub high: f64,
    /// Step: drawn values are `low + k·step`.
    pub step: f64,
}

/// A letter symbol.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LettersSymbol {
    /// The law's symbol.
    pub symbol: Text,
    /// What may be drawn.
    pub any_of: Vec<Text>,
}

/// A share of another quantity.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Limit {
    /// The quantity; where nothing on the way gives it, nothing is limited.
    pub of: Text,
    /// The share.
    pub share: f64,
}

/// Kinds of twist.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum TwistKind {
    /// A blocker: `to` no longer follows `from`.
    Cut,
    /// `to` is supplied directly: nothing upstream matters.
    Bypass,
    /// A condition flips the sign.
    Reverse,
    /// The step no longer limits.
    Saturate,
    /// Something the step needs is taken away.
    RemoveSetting,
    /// A second path of opposite sign opens; which wins is a matter of magnitude.
    RivalPath,
    /// The reading is made at the end instead of early.
    RateOrEndPoint,
}

/// A second question out of the same path.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TwistWritten {
    /// Kebab-case id, unique within the influence.
    pub id: Text,
    /// What is done to the path.
    pub kind: Spanned<TwistKind>,
    /// The bench fact, one or two whole sentences (`A second batch of {{ vesicle.many }} holds …`).
    pub agent: Text,
    /// Why the step now behaves otherwise: a whole clause, no capital, no full stop.
    pub because: Text,
    /// What a student who misses the point writes.
    pub trap: Text,
    /// Numerical engine: parameters of this influence's law that change.
    #[serde(default)]
    pub set: Vec<FixedSymbol>,
    /// Numerical engine: the value at which `to` is held (bypass) or `from` is seen (cut), in that quantity's unit.
    pub held_at: Option<Spanned<f64>>,
    /// Of a bypass: the value held lies below that of the plain run at every level, so that it limits what follows.
    #[serde(default)]
    pub limiting: bool,
    /// Setting taken away.
    pub remove: Option<Text>,
    /// Setting brought in.
    pub add: Option<Text>,
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
    /// Level sets in the dial's unit, rising; one is drawn.
    pub levels: Vec<Spanned<Vec<f64>>>,
    /// Sentences for slot treat; placeholders `{{ levels }}`, `{{ containers }}`, entities.
    pub text: Vec<Text>,
    /// What the first level is, as a comparison (`the {{ containers }} in plain buffer`).
    pub control: Text,
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
    /// The unknown that a calibration would be read for, with article (`a drop of the snail's body fluid`).
    pub unknown: Text,
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
