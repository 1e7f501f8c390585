//! The stimulus: what a student reads before the questions, from the fragments of one technique in bench order.
//!
//! Comes in: the voice of a technique. Goes out: its purpose and its procedure, short enough for the form or not at all.
//! **Must not know**: questions, guides, answers.

use std::collections::BTreeSet;

use super::generate::one_text;
use super::join::join;
use super::mention;
use super::proofread::{self, Manuscript};
use super::text::{Voice, key};
use crate::concepts::graph::{Fragment, Graph, Purpose};
use crate::concepts::written::Slot;
use crate::concepts::{EntityIx, InfluenceIx, SettingIx, least_words};
use crate::experiment::Data;
use crate::seed::Stream;
use crate::technique::{Candidate, Form, SHORT_STEPS, Technique};

/// Which visit to the bench a sentence belongs to: a path may come back to waiting after it has taken a sample.
#[derive(Debug, Default)]
struct Rounds {
    number: u8,
    last: Option<Slot>,
}

impl Rounds {
    /// What is used and made ready is told at the start, what is read at the end; between them each step back along the
    /// slots opens a new round.
    fn of(&mut self, slot: Slot) -> u8 {
        match slot {
            Slot::Specimen | Slot::Prepare | Slot::Treat => 0,
            Slot::Read => u8::MAX,
            Slot::Vessel => self.number,
            Slot::Wait | Slot::Transfer | Slot::Run => {
                if self.last.is_some_and(|last| slot < last) {
                    self.number = self.number.saturating_add(1);
                }
                self.last = Some(slot);
                self.number
            }
        }
    }
}

/// The purpose, and the procedure in reading order.
pub(super) fn stimulus(voice: &Voice<'_>) -> (String, Vec<String>) {
    draft(voice).joined()
}

/// A sentence, and where it stands.
#[derive(Debug)]
struct Said {
    round: u8,
    slot: Slot,
    text: String,
    brings: Option<EntityIx>,
}

/// What is told, sentence by sentence.
struct Draft {
    purpose: String,
    how: Vec<(String, (u8, Slot))>,
}

impl Draft {
    fn is_too_long(&self, form: Form) -> bool {
        let how = self.how.iter().map(|(sentence, _)| sentence.clone()).collect();
        is_too_long(form, &self.purpose, how)
    }

    fn joined(self) -> (String, Vec<String>) {
        let how = join(&self.purpose, self.how);
        (self.purpose, how)
    }
}

fn is_too_long(form: Form, purpose: &str, how: Vec<String>) -> bool {
    let manuscript = Manuscript { form: Some(form), purpose: purpose.to_owned(), how, ..Manuscript::default() };
    proofread::is_too_long(&manuscript)
}

/// A short question takes wordings at most this many words longer than the tersest.
const TERSE_SLACK: usize = 3;

/// A short question that would be too long has its purpose in brief, and then the tersest wordings.
fn draft(voice: &Voice<'_>) -> Draft {
    let form = voice.technique.form;
    let slack = if form == Form::Short { TERSE_SLACK } else { usize::MAX };
    let full = told(voice, voice.purpose(), slack);
    if !full.is_too_long(form) {
        return full;
    }
    let Some(brief) = voice.brief_purpose() else { return full };
    let briefly = told(voice, brief.clone(), slack);
    if briefly.is_too_long(form) { told(voice, brief, 0) } else { briefly }
}

/// A purpose, and the sentences of the procedure in bench order.
fn told(voice: &Voice<'_>, purpose: String, slack: usize) -> Draft {
    let technique = voice.technique;
    let mut teller = Teller {
        voice,
        stream: technique.seed.stream(&format!("words/{}", technique.attempt)),
        slack,
        round: Rounds::default(),
        said: Vec::new(),
        settings: Vec::new(),
        ends: None,
    };
    for step in technique.path.steps() {
        teller.step(*step);
    }
    for setting in &technique.settings.holds {
        teller.merely_holds(*setting);
    }
    teller.treatment();
    teller.reading();
    let mut said = teller.said;
    // A stable sort keeps the order of the path within a slot. The same sentence from two steps is said once.
    said.sort_by_key(|one| (one.round, one.slot));
    let mut texts: Vec<String> = vec![purpose];
    let mut groups = Vec::new();
    for one in bring(voice.graph, said) {
        if !texts.contains(&one.text) {
            texts.push(one.text);
            groups.push((one.round, one.slot));
        }
    }
    let mut introduced = voice.introduce(&texts);
    Draft { purpose: introduced.remove(0), how: introduced.into_iter().zip(groups).collect() }
}

/// Draws wordings along the path and puts each where it belongs.
struct Teller<'t, 'v> {
    voice: &'t Voice<'v>,
    stream: Stream,
    slack: usize,
    round: Rounds,
    said: Vec<Said>,
    /// Those that have had their say.
    settings: Vec<SettingIx>,
    /// Behind which sentence the first run that takes time is over, and its round.
    ends: Option<(usize, u8)>,
}

impl Teller<'_, '_> {
    fn drawn(&mut self, wordings: &[String], ix: Option<InfluenceIx>) -> String {
        let wording = one_of_these(&mut self.stream, wordings, self.slack);
        self.voice.fill(wording, ix, None)
    }

    /// A fragment's sentence, where the form has room for it.
    fn fragment(&mut self, fragment: &Fragment, ix: Option<InfluenceIx>) -> Option<Said> {
        if fragment.only_long && self.voice.technique.form == Form::Short {
            return None;
        }
        let text = self.drawn(&fragment.text, ix);
        Some(Said { round: self.round.of(fragment.slot), slot: fragment.slot, text, brings: fragment.brings })
    }

    fn step(&mut self, ix: InfluenceIx) {
        let graph = self.voice.graph;
        let influence = graph.influence(ix);
        for setting in &influence.needs {
            if !self.settings.contains(setting) {
                self.settings.push(*setting);
                let told = graph.setting(*setting).told.as_ref().and_then(|told| self.fragment(told, None));
                self.said.extend(told);
            }
        }
        for fragment in influence.told.iter().chain(&influence.acts) {
            let one = self.fragment(fragment, Some(ix));
            self.said.extend(one);
        }
        if let Some(one) = self.said.last().filter(|one| influence.builds_up && one.slot == Slot::Run) {
            self.ends.get_or_insert((self.said.len(), one.round));
        }
    }

    /// What merely holds is told on the first visit that comes to its slot or passes it.
    fn merely_holds(&mut self, setting: SettingIx) {
        if self.settings.contains(&setting) {
            return;
        }
        let told = self.voice.graph.setting(setting).told.as_ref();
        if let Some(one) = told.and_then(|told| self.fragment(told, None)) {
            let passing = self.said.iter().filter(|other| (one.slot..Slot::Read).contains(&other.slot));
            let first = passing.map(|other| other.round).min();
            self.said.push(Said { round: first.unwrap_or(one.round), ..one });
        }
    }

    fn treatment(&mut self) {
        let act = self.voice.graph.act(self.voice.technique.act);
        let text = self.drawn(&act.text, None);
        self.said.push(Said { round: 0, slot: Slot::Treat, text, brings: None });
        if let Some((place, round)) = self.ends.filter(|_| !act.after.is_empty()) {
            let text = self.drawn(&act.after, None);
            self.said.insert(place, Said { round, slot: Slot::Run, text, brings: None });
        }
    }

    fn reading(&mut self) {
        let rig = self.voice.graph.rig(self.voice.technique.rig);
        // A short question has no room for the number of repeats: its table says how many there were.
        let repeat = Some(&rig.repeat).filter(|_| self.voice.technique.form == Form::Long);
        for wordings in [Some(&rig.read), repeat].into_iter().flatten() {
            let text = self.drawn(wordings, None);
            self.said.push(Said { round: u8::MAX, slot: Slot::Read, text, brings: None });
        }
    }
}

/// What is used and made ready of a thing that is first handled later is told there.
fn bring(graph: &Graph, mut said: Vec<Said>) -> Vec<Said> {
    let bringers: Vec<EntityIx> = said.iter().filter_map(|one| one.brings).collect();
    for entity in bringers {
        let key = key(&graph.entity(entity).id);
        let names = |one: &Said| one.text.contains(&mention::many(&key)) || one.text.contains(&mention::one(&key));
        // Where the treatment handles it, it belongs to the start.
        if said.iter().any(|one| one.slot == Slot::Treat && names(one)) {
            continue;
        }
        let starts = |one: &Said| one.round == 0 && one.slot <= Slot::Prepare && names(one);
        let (starting, rest): (Vec<Said>, Vec<Said>) = said.into_iter().partition(starts);
        said = rest;
        let Some(place) = said.iter().position(|one| one.brings == Some(entity)) else { continue };
        let Some((round, slot)) = said.get(place).map(|one| (one.round, one.slot)) else { continue };
        said.splice(place..place, starting.into_iter().map(|one| Said { round, slot, ..one }));
    }
    said
}

/// One of several wordings, at most `slack` words longer than the tersest.
fn one_of_these<'t>(stream: &mut Stream, wordings: &'t [String], slack: usize) -> &'t str {
    let shortest = wordings.iter().map(|text| least_words(text)).min().unwrap_or(0);
    let most = shortest.saturating_add(slack);
    let fitting: Vec<&String> = wordings.iter().filter(|text| least_words(text) <= most).collect();
    stream.pick(&fitting).map_or("", |text| text.as_str())
}

/// What a student would read before the questions; none where it has more words than the form allows.
pub(super) fn stimulus_within_load(graph: &Graph, technique: &Technique, data: &Data) -> Option<String> {
    // Joining takes no word away: what is too long before it is so after it.
    let draft = draft(&Voice::new(graph, technique, data));
    if draft.is_too_long(technique.form) {
        return None;
    }
    let (purpose, how) = draft.joined();
    let text = one_text(&purpose, &how);
    (!is_too_long(technique.form, &purpose, how)).then_some(text)
}

/// Words that the tersest wordings of a technique leave for its purpose in a short question. A thing's first mention counts
/// as many words as tell what it is.
pub(super) fn room_for_purpose(graph: &Graph, candidate: &Candidate) -> usize {
    if candidate.path.steps().len() > SHORT_STEPS {
        return 0;
    }
    let tersest =
        |wordings: &'_ [String]| wordings.iter().min_by_key(|text| least_words(text)).cloned().unwrap_or_default();
    let act = graph.act(candidate.act);
    let steps = || candidate.path.steps().iter().map(|step| graph.influence(*step));
    let settings: BTreeSet<SettingIx> =
        steps().flat_map(|step| &step.needs).chain(&candidate.settings.holds).copied().collect();
    let told = settings.into_iter().filter_map(|ix| graph.setting(ix).told.as_ref());
    let fragments: BTreeSet<&[String]> = told
        .chain(steps().flat_map(|step| step.told.iter().chain(&step.acts)))
        .filter(|said| !said.only_long)
        .map(|said| said.text.as_slice())
        .collect();
    let rest = [&act.text, &act.after, &graph.rig(candidate.rig).read].map(|wordings| tersest(wordings));
    let said: Vec<String> = fragments.into_iter().map(tersest).chain(rest).collect();
    let meets = |id: &str| {
        let mention = format!("{{{{ {}.many }}}}", id.replace('-', "_"));
        said.iter().any(|text| text.contains(&mention))
    };
    let met = graph.entities().filter(|(_, entity)| meets(&entity.id));
    let introduced = met.map(|(_, entity)| {
        let coined = entity.names.iter().any(|name| name.coined);
        (least_words(&entity.intro) + usize::from(coined)).saturating_sub(1)
    });
    let n_words: usize = said.iter().map(|text| least_words(text)).chain(introduced).sum();
    proofread::MOST_SHORT.saturating_sub(n_words)
}

impl<'a> Voice<'a> {
    /// Why this group carries out this act.
    pub(super) fn reason(&self) -> Option<&'a Purpose> {
        let context = self.graph.context(self.technique.context);
        context.purpose_for(self.technique.act)
    }

    fn purpose(&self) -> String {
        self.reason().map_or_else(String::new, |reason| self.fill(&reason.text, None, None))
    }

    /// The same for a short question that has no room for more.
    fn brief_purpose(&self) -> Option<String> {
        let brief = self.reason()?.brief.as_ref().filter(|_| self.technique.form == Form::Short)?;
        Some(self.fill(brief, None, None))
    }
}
