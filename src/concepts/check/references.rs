//! Every reference leads to a part.

use super::super::written::{Fragment, Influence, Text};
use super::scope::{List, Located, Scope, span};
use crate::diagnostic::{Code, Diagnostic, code};
use crate::source::FileId;

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    parts(scope, faults);
    influences(scope, faults);
    bench(scope, faults);
}

/// One kind of target.
struct Target<'s, 'a, T> {
    list: &'s List<'a, T>,
    code: &'static Code,
    noun: &'static str,
}

impl<T> Target<'_, '_, T> {
    fn must_know<'t>(&self, file: FileId, ids: impl IntoIterator<Item = &'t Text>, faults: &mut Vec<Diagnostic>) {
        for id in ids {
            if !self.list.knows(&id.value) {
                if super::fill::is_open(&id.value) {
                    faults.push(super::fill::open(span(file, id), self.noun, self.list.ids()));
                    continue;
                }
                let message = format!("there is no {} `{}`", self.noun, id.value);
                let fault = Diagnostic::error(self.code, span(file, id), message);
                faults.push(fault.did_you_mean(&id.value, self.list.ids()));
            }
        }
    }
}

fn parts(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    let entity = Target { list: &scope.entities, code: &code::UNKNOWN_ENTITY, noun: "entity" };
    let principle = Target { list: &scope.principles, code: &code::UNKNOWN_PRINCIPLE, noun: "principle" };
    let setting = setting(scope);
    for located in &scope.quantities.parts {
        entity.must_know(located.file, [&located.part.entity], faults);
        let standard = located.part.reading.iter().filter_map(|reading| reading.standard.as_ref());
        quantity(scope).must_know(located.file, standard.map(|standard| &standard.of), faults);
        setting.must_know(located.file, located.part.called.iter().map(|called| &called.setting), faults);
        setting.must_know(located.file, located.part.supplied_where.iter().map(|one| &one.setting), faults);
    }
    let influence = Target { list: &scope.influences, code: &code::UNKNOWN_INFLUENCE, noun: "influence" };
    for located in &scope.principles.parts {
        principle.must_know(located.file, &located.part.requires, faults);
        let beliefs = || located.part.misconceptions.iter().flat_map(|wrong| &wrong.at);
        influence.must_know(located.file, beliefs(), faults);
        for id in beliefs() {
            let own = |known: &Located<'_, Influence>| known.part.principle.value == located.part.id.value;
            if scope.influences.find(&id.value).is_some_and(|known| !own(known)) {
                let message = format!("`{}` does not rest on the principle `{}`", id.value, located.part.id.value);
                let fault = Diagnostic::error(&code::BELIEF_ELSEWHERE, located.span(id), message);
                faults.push(fault.hint("a misconception is held at influences of its own principle"));
            }
        }
    }
    for located in &scope.settings.parts {
        setting.must_know(located.file, &located.part.excludes, faults);
        entity.must_know(located.file, brought(&located.part.told), faults);
    }
}

/// The entities that fragments bring in.
fn brought<'w>(told: impl IntoIterator<Item = &'w Fragment>) -> impl Iterator<Item = &'w Text> {
    told.into_iter().filter_map(|fragment| fragment.brings.as_ref())
}

fn influences(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    let entity = Target { list: &scope.entities, code: &code::UNKNOWN_ENTITY, noun: "entity" };
    let principle = Target { list: &scope.principles, code: &code::UNKNOWN_PRINCIPLE, noun: "principle" };
    let (quantity, setting) = (quantity(scope), setting(scope));
    for located in &scope.influences.parts {
        let (file, influence) = (located.file, located.part);
        quantity.must_know(file, [&influence.from, &influence.to], faults);
        quantity.must_know(file, influence.limit.iter().map(|limit| &limit.of), faults);
        principle.must_know(file, [&influence.principle], faults);
        setting.must_know(file, influence.needs.iter().chain(&influence.excludes), faults);
        entity.must_know(file, brought(influence.told.iter().chain(&influence.acts)), faults);
        for twist in &influence.twists {
            setting.must_know(file, twist.remove.iter().chain(&twist.add), faults);
        }
    }
}

fn bench(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    let act = Target { list: &scope.acts, code: &code::UNKNOWN_ACT, noun: "act" };
    let influence = Target { list: &scope.influences, code: &code::UNKNOWN_INFLUENCE, noun: "influence" };
    let (quantity, setting) = (quantity(scope), setting(scope));
    for located in &scope.acts.parts {
        quantity.must_know(located.file, std::iter::once(&located.part.dial).chain(&located.part.changes), faults);
        setting.must_know(located.file, &located.part.needs, faults);
    }
    for located in &scope.rigs.parts {
        quantity.must_know(located.file, [&located.part.readout], faults);
        setting.must_know(located.file, &located.part.needs, faults);
    }
    for located in &scope.contexts.parts {
        act.must_know(located.file, located.part.purposes.iter().map(|purpose| &purpose.act), faults);
    }
    for located in &scope.known.parts {
        influence.must_know(located.file, &located.part.path, faults);
    }
}

fn quantity<'s, 'a>(scope: &'s Scope<'a>) -> Target<'s, 'a, super::super::written::Quantity> {
    Target { list: &scope.quantities, code: &code::UNKNOWN_QUANTITY, noun: "quantity" }
}

fn setting<'s, 'a>(scope: &'s Scope<'a>) -> Target<'s, 'a, super::super::written::Setting> {
    Target { list: &scope.settings, code: &code::UNKNOWN_SETTING, noun: "setting" }
}
