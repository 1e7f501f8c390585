//! Checked parts as written into parts as meant: references become indices.

use std::collections::BTreeSet;

use super::super::graph::{
    Act, Context, Counted, DeclaredSign, Entity, Field, Fragment, Gloss, Influence, Known, Misconception, Name, Parts,
    Principle, Purpose, Quantity, Reading, Recall, Rig, Setting, Twist,
};
use super::super::ids::{ActIx, EntityIx, FieldIx, InfluenceIx, PrincipleIx, QuantityIx, SettingIx};
use super::super::least_words;
use super::super::written::{self, SignWritten, Text};
use super::scope::{Located, Scope};
use crate::laws::Law;

/// All parts. `None` where a reference leads nowhere, which the checks have excluded.
pub(super) fn parts(scope: &Scope<'_>) -> Option<Parts> {
    let fields =
        scope.fields.iter().map(|(_, field, name)| Field { id: field.id.value.clone(), name: name.value.clone() });
    let known = scope.known.parts.iter().map(|known| {
        Some(Known {
            id: own(&known.part.id),
            name: own(&known.part.name),
            other_names: texts(&known.part.other_names),
            path: known
                .part
                .path
                .iter()
                .map(|id| scope.influences.index(id).map(InfluenceIx))
                .collect::<Option<_>>()?,
        })
    });
    Some(Parts {
        fields: fields.collect(),
        entities: scope.entities.parts.iter().map(|entity| self::entity(entity.part)).collect(),
        quantities: (0..scope.quantities.parts.len()).map(|place| quantity(scope, place)).collect::<Option<_>>()?,
        principles: scope.principles.parts.iter().map(|part| principle(scope, part)).collect::<Option<_>>()?,
        settings: settings(scope)?,
        influences: (0..scope.influences.parts.len()).map(|place| influence(scope, place)).collect::<Option<_>>()?,
        acts: scope.acts.parts.iter().map(|part| act(scope, part.part)).collect::<Option<_>>()?,
        rigs: scope.rigs.parts.iter().map(|part| rig(scope, part.part)).collect::<Option<_>>()?,
        contexts: scope.contexts.parts.iter().map(|part| context(scope, part.part)).collect::<Option<_>>()?,
        known: known.collect::<Option<_>>()?,
        gloss: scope.gloss.parts.iter().map(|word| gloss(word.part)).collect(),
    })
}

fn own(text: &Text) -> String {
    text.value.clone()
}

fn texts(texts: &[Text]) -> Vec<String> {
    texts.iter().map(own).collect()
}

fn name(name: &written::Name) -> Name {
    Name { one: own(&name.one), many: own(&name.many), coined: name.coined }
}

fn gloss(word: &written::Gloss) -> Gloss {
    Gloss { word: own(&word.id), forms: texts(&word.forms), means: own(&word.means) }
}

fn recall(recall: &written::Recall) -> Recall {
    Recall { ask: own(&recall.ask), answer: own(&recall.answer) }
}

fn fragment(scope: &Scope<'_>, fragment: &written::Fragment) -> Option<Fragment> {
    let brings = match &fragment.brings {
        Some(id) => Some(scope.entities.index(id).map(EntityIx)?),
        None => None,
    };
    Some(Fragment { slot: fragment.slot.value, only_long: fragment.only_long, brings, text: texts(&fragment.text) })
}

fn needs(scope: &Scope<'_>, ids: &[Text]) -> Option<BTreeSet<SettingIx>> {
    ids.iter().map(|id| setting_ix(scope, id)).collect()
}

fn setting_ix(scope: &Scope<'_>, id: &Text) -> Option<SettingIx> {
    scope.settings.index(id).map(SettingIx)
}

fn quantity_ix(scope: &Scope<'_>, id: &Text) -> Option<QuantityIx> {
    scope.quantities.index(id).map(QuantityIx)
}

fn entity(entity: &written::Entity) -> Entity {
    Entity {
        id: own(&entity.id),
        intro: own(&entity.intro),
        names: entity.names.iter().map(name).collect(),
        hazards: texts(&entity.hazards),
    }
}

fn quantity(scope: &Scope<'_>, place: usize) -> Option<Quantity> {
    let located = scope.quantities.parts.get(place)?;
    let part = located.part;
    let standard = match part.reading.as_ref().and_then(|reading| reading.standard.as_ref()) {
        Some(standard) => Some((scope.quantities.index(&standard.of).map(QuantityIx)?, standard.at.clone())),
        None => None,
    };
    let reading = part.reading.as_ref().map(|reading| Reading {
        instrument: own(&reading.instrument),
        resolution: reading.resolution,
        relative_sd: reading.relative_sd,
        absolute_sd: reading.absolute_sd,
        relative_name: reading.relative_name.as_ref().map(own),
        standard,
    });
    let [low, high] = part.range.value;
    Some(Quantity {
        id: own(&part.id),
        field: located.field.and_then(|place| u32::try_from(place).ok()).map(FieldIx),
        name: own(&part.name),
        the: own(&part.the),
        called: part
            .called
            .iter()
            .map(|called| Some((setting_ix(scope, &called.setting)?, own(&called.the))))
            .collect::<Option<_>>()?,
        spell: part.spell.as_ref().map(own),
        symbol: own(&part.symbol),
        unit: scope.units.get(place)?.clone()?,
        entity: scope.entities.index(&part.entity).map(EntityIx)?,
        more: own(&part.more),
        less: own(&part.less),
        supplied: part.supplied.as_ref().map(own),
        supplied_where: part
            .supplied_where
            .iter()
            .map(|one| Some((setting_ix(scope, &one.setting)?, own(&one.supplied))))
            .collect::<Option<_>>()?,
        range: (low, high),
        role: part.role.value,
        at_the_bench: own(&part.at_the_bench),
        counted: part.counted.as_ref().map(|counted| Counted {
            how: own(&counted.how),
            things: own(&counted.things),
            yes: own(&counted.yes),
            no: own(&counted.no),
        }),
        reading,
        hazards: texts(&part.hazards),
    })
}

fn principle(scope: &Scope<'_>, located: &Located<'_, written::Principle>) -> Option<Principle> {
    let part = located.part;
    let misconceptions = part.misconceptions.iter().map(|wrong| {
        Some(Misconception {
            belief: own(&wrong.belief),
            fails: own(&wrong.fails),
            gives: wrong.gives.as_ref().map(|gives| gives.value),
            at: wrong.at.iter().map(|id| scope.influences.index(id).map(InfluenceIx)).collect::<Option<_>>()?,
        })
    });
    Some(Principle {
        id: own(&part.id),
        field: FieldIx(u32::try_from(located.field?).ok()?),
        name: own(&part.name),
        statement: own(&part.statement),
        recall: part.recall.iter().map(recall).collect(),
        terms: texts(&part.terms),
        requires: part.requires.iter().map(|id| scope.principles.index(id).map(PrincipleIx)).collect::<Option<_>>()?,
        misconceptions: misconceptions.collect::<Option<_>>()?,
        elsewhere: texts(&part.elsewhere),
        source: own(&part.source),
    })
}

/// Settings; what one excludes excludes it.
fn settings(scope: &Scope<'_>) -> Option<Vec<Setting>> {
    let mut settings: Vec<Setting> = scope
        .settings
        .parts
        .iter()
        .map(|located| {
            let told = match &located.part.told {
                Some(told) => Some(fragment(scope, told)?),
                None => None,
            };
            Some(Setting {
                id: own(&located.part.id),
                holds: own(&located.part.holds),
                excludes: BTreeSet::new(),
                told,
                hazards: texts(&located.part.hazards),
            })
        })
        .collect::<Option<_>>()?;
    for (place, located) in scope.settings.parts.iter().enumerate() {
        let this = SettingIx(u32::try_from(place).ok()?);
        for other in &located.part.excludes {
            let other = setting_ix(scope, other)?;
            settings.get_mut(place)?.excludes.insert(other);
            settings.get_mut(other.0 as usize)?.excludes.insert(this);
        }
    }
    Some(settings)
}

fn influence(scope: &Scope<'_>, place: usize) -> Option<Influence> {
    let part = scope.influences.parts.get(place)?.part;
    let law = scope.uses.get(place)?.clone()?;
    let from = scope.quantities.find(&part.from.value)?;
    let limit = match &part.limit {
        Some(limit) => Some((scope.quantities.index(&limit.of).map(QuantityIx)?, limit.share)),
        None => None,
    };
    let [low, high] = part.over.as_ref().map_or(from.part.range.value, |over| over.value);
    let sign = match part.sign.value {
        SignWritten::Plus => DeclaredSign::Plus,
        SignWritten::Minus => DeclaredSign::Minus,
        SignWritten::Turning => DeclaredSign::Turning { at: part.turns_at.as_ref()?.value },
    };
    let told = match &part.told {
        Some(told) => Some(fragment(scope, told)?),
        None => None,
    };
    let twists = part.twists.iter().map(|twist| self::twist(scope, law.law, twist)).collect::<Option<_>>()?;
    Some(Influence {
        id: own(&part.id),
        from: quantity_ix(scope, &part.from)?,
        to: quantity_ix(scope, &part.to)?,
        sign,
        principle: scope.principles.index(&part.principle).map(PrincipleIx)?,
        law,
        because: own(&part.because),
        needs: needs(scope, &part.needs)?,
        excludes: needs(scope, &part.excludes)?,
        transfer: part.transfer.as_ref().map(|transfer| transfer.value),
        over: (low, high),
        limit,
        time_s: part.time_s,
        builds_up: part.builds_up,
        liquid: part.liquid.as_ref().map(own),
        told,
        acts: part.acts.iter().map(|act| fragment(scope, act)).collect::<Option<_>>()?,
        never: texts(&part.never),
        role: recall(&part.role),
        up: own(&part.up),
        down: own(&part.down),
        accept: texts(&part.accept),
        reject: texts(&part.reject),
        name_words: texts(&part.name_words),
        twists,
    })
}

fn twist(scope: &Scope<'_>, law: &Law, twist: &written::TwistWritten) -> Option<Twist> {
    let set = twist.set.iter().map(|set| Some((law.input(&set.symbol.value)?.0, set.value.value)));
    let setting = |id: &Option<Text>| match id {
        Some(id) => setting_ix(scope, id).map(Some),
        None => Some(None),
    };
    Some(Twist {
        id: own(&twist.id),
        kind: twist.kind.value,
        agent: own(&twist.agent),
        because: own(&twist.because),
        trap: own(&twist.trap),
        fault: twist.fault.as_ref().map(own),
        accept: texts(&twist.accept),
        hazards: texts(&twist.hazards),
        set: set.collect::<Option<_>>()?,
        held_at: twist.held_at.as_ref().map(|held| held.value),
        limiting: twist.limiting,
        remove: setting(&twist.remove)?,
        add: setting(&twist.add)?,
    })
}

fn act(scope: &Scope<'_>, act: &written::Act) -> Option<Act> {
    Some(Act {
        id: own(&act.id),
        dial: quantity_ix(scope, &act.dial)?,
        changes: act.changes.iter().map(|id| quantity_ix(scope, id)).collect::<Option<_>>()?,
        doing: own(&act.doing),
        sought: own(&act.sought),
        limitation: texts(&act.limitation),
        levels: act.levels.iter().map(|levels| levels.value.clone()).collect(),
        text: texts(&act.text),
        after: texts(&act.after),
        control: own(&act.control),
        needs: needs(scope, &act.needs)?,
        categories: act.categories,
        name_words: texts(&act.name_words),
        hazards: texts(&act.hazards),
    })
}

fn rig(scope: &Scope<'_>, rig: &written::Rig) -> Option<Rig> {
    Some(Rig {
        id: own(&rig.id),
        readout: quantity_ix(scope, &rig.readout)?,
        needs: needs(scope, &rig.needs)?,
        container: name(&rig.container),
        name_words: texts(&rig.name_words),
        read: texts(&rig.read),
        repeat: texts(&rig.repeat),
        picture: own(&rig.picture),
    })
}

fn context(scope: &Scope<'_>, context: &written::Context) -> Option<Context> {
    let purposes = context.purposes.iter().map(|purpose| {
        Some(Purpose {
            act: scope.acts.index(&purpose.act).map(ActIx)?,
            text: own(&purpose.text),
            brief: purpose.brief.as_ref().map(own),
            least_words: least_words(&purpose.brief.as_ref().unwrap_or(&purpose.text).value),
            unknown: own(&purpose.unknown),
            hazards: texts(&purpose.hazards),
        })
    });
    Some(Context { id: own(&context.id), group: own(&context.group), purposes: purposes.collect::<Option<_>>()? })
}
