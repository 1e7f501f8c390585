//! Every text that reaches a reader, with what its placeholders may refer to.

use super::super::written::{Act, Context, Entity, Fragment, Influence, Name, Principle, Quantity, Recall, Rig, Text};
use super::scope::{Located, Scope};
use crate::laws::{self, Law};
use crate::source::FileId;

/// A text in its surroundings.
#[derive(Clone, Copy)]
pub(super) struct Prose<'a> {
    pub(super) file: FileId,
    pub(super) text: &'a Text,
    /// The law whose parameters it may name (`p.time`): that of its influence.
    pub(super) law: Option<&'static Law>,
    /// Whether it stands in a twist, and may name what that sets (`t.time`).
    pub(super) twist: bool,
}

/// Hands every text to the visitor.
pub(super) fn visit<'a>(scope: &Scope<'a>, see: &mut dyn FnMut(Prose<'a>)) {
    let mut plain = |file, text| see(Prose { file, text, law: None, twist: false });
    for (file, _, name) in &scope.fields {
        plain(*file, name);
    }
    each(&scope.entities.parts, entity, &mut plain);
    each(&scope.quantities.parts, quantity, &mut plain);
    each(&scope.principles.parts, principle, &mut plain);
    for setting in &scope.settings.parts {
        plain(setting.file, &setting.part.holds);
        for text in setting.part.told.iter().flat_map(fragment).chain(&setting.part.hazards) {
            plain(setting.file, text);
        }
    }
    each(&scope.acts.parts, act, &mut plain);
    each(&scope.rigs.parts, rig, &mut plain);
    each(&scope.contexts.parts, context, &mut plain);
    for word in &scope.gloss.parts {
        for text in word.part.forms.iter().chain([&word.part.means]) {
            plain(word.file, text);
        }
    }
    for known in &scope.known.parts {
        for text in std::iter::once(&known.part.name).chain(&known.part.other_names) {
            plain(known.file, text);
        }
    }
    for influence in &scope.influences.parts {
        let law = laws::find(&influence.part.law.name.value);
        for text in influence_texts(influence.part) {
            see(Prose { file: influence.file, text, law, twist: false });
        }
        for twist in &influence.part.twists {
            for text in [&twist.agent, &twist.because, &twist.trap]
                .into_iter()
                .chain(&twist.fault)
                .chain(&twist.accept)
                .chain(&twist.hazards)
            {
                see(Prose { file: influence.file, text, law, twist: true });
            }
        }
    }
}

fn each<'a, T>(parts: &[Located<'a, T>], texts: fn(&'a T) -> Vec<&'a Text>, see: &mut dyn FnMut(FileId, &'a Text)) {
    for located in parts {
        for text in texts(located.part) {
            see(located.file, text);
        }
    }
}

fn name(name: &Name) -> [&Text; 2] {
    [&name.one, &name.many]
}

fn recall(recall: &Recall) -> [&Text; 2] {
    [&recall.ask, &recall.answer]
}

fn fragment(fragment: &Fragment) -> impl Iterator<Item = &Text> {
    fragment.text.iter()
}

fn entity(entity: &Entity) -> Vec<&Text> {
    let names = entity.names.iter().flat_map(name);
    std::iter::once(&entity.intro).chain(names).chain(&entity.hazards).collect()
}

fn quantity(quantity: &Quantity) -> Vec<&Text> {
    let mut texts = vec![&quantity.name, &quantity.the, &quantity.symbol, &quantity.more, &quantity.less];
    texts.push(&quantity.at_the_bench);
    texts.extend(&quantity.supplied);
    texts.extend(quantity.supplied_where.iter().map(|one| &one.supplied));
    texts.extend(&quantity.spell);
    texts.extend(quantity.called.iter().map(|called| &called.the));
    texts
        .extend(quantity.counted.iter().flat_map(|counted| [&counted.how, &counted.things, &counted.yes, &counted.no]));
    texts.extend(&quantity.hazards);
    if let Some(reading) = &quantity.reading {
        texts.push(&reading.instrument);
        texts.extend(&reading.relative_name);
    }
    texts
}

fn principle(principle: &Principle) -> Vec<&Text> {
    let mut texts = vec![&principle.name, &principle.statement, &principle.source];
    texts.extend(principle.recall.iter().flat_map(recall));
    texts.extend(&principle.terms);
    texts.extend(principle.misconceptions.iter().flat_map(|wrong| [&wrong.belief, &wrong.fails]));
    texts.extend(&principle.elsewhere);
    texts
}

fn influence_texts(influence: &Influence) -> Vec<&Text> {
    let mut texts = vec![&influence.because, &influence.up, &influence.down];
    texts.extend(recall(&influence.role));
    texts.extend(influence.told.iter().chain(&influence.acts).flat_map(fragment));
    texts.extend(influence.law.fixed.iter().filter_map(|fixed| fixed.means.as_ref()));
    for list in [&influence.never, &influence.accept, &influence.reject, &influence.name_words] {
        texts.extend(list);
    }
    texts
}

fn act(act: &Act) -> Vec<&Text> {
    let mut texts = vec![&act.doing, &act.sought, &act.control];
    for list in [&act.text, &act.after, &act.limitation, &act.name_words, &act.hazards] {
        texts.extend(list);
    }
    texts
}

fn rig(rig: &Rig) -> Vec<&Text> {
    let mut texts = vec![&rig.picture];
    texts.extend(name(&rig.container));
    for list in [&rig.name_words, &rig.read, &rig.repeat] {
        texts.extend(list);
    }
    texts
}

fn context(context: &Context) -> Vec<&Text> {
    let purposes = context.purposes.iter().flat_map(|purpose| {
        [&purpose.text, &purpose.unknown].into_iter().chain(&purpose.brief).chain(&purpose.hazards)
    });
    std::iter::once(&context.group).chain(purposes).collect()
}
