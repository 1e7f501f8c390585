//! What the checks look at: all parts with their file, found by id.

use std::collections::{BTreeMap, BTreeSet};

use serde_yaml::Spanned;

use super::super::graph::LawUse;
use super::super::load::Written;
use super::super::written::{
    Act, Context, Entity, Field, File, Gloss, Influence, Known, Principle, Quantity, Rig, Setting, Text,
};
use crate::quantity::Unit;
use crate::source::{FileId, Sources, Span};

/// A part and the file that it stands in.
#[derive(Debug)]
pub(super) struct Located<'a, T> {
    pub(super) file: FileId,
    /// Place of the file's field in the list of fields.
    pub(super) field: Option<usize>,
    pub(super) part: &'a T,
}

impl<T> Located<'_, T> {
    /// Where a value of this part stands.
    pub(super) fn span<V>(&self, value: &Spanned<V>) -> Span {
        span(self.file, value)
    }
}

/// Where a value stands.
pub(super) fn span<V>(file: FileId, value: &Spanned<V>) -> Span {
    let place = value.referenced.span();
    let at = |offset: Option<u64>| offset.and_then(|offset| usize::try_from(offset).ok()).unwrap_or(0);
    let start = at(place.byte_offset());
    Span { file, start, end: start.saturating_add(at(place.byte_len())) }
}

/// All parts of a kind.
#[derive(Debug)]
pub(super) struct List<'a, T> {
    pub(super) parts: Vec<Located<'a, T>>,
    /// The id of each part.
    pub(super) id: fn(&T) -> &Text,
    /// First part of each id.
    ids: BTreeMap<&'a str, usize>,
    /// Ids of parts that could not be read.
    broken: BTreeSet<&'a str>,
}

impl<'a, T> List<'a, T> {
    fn new(
        written: &'a Written,
        fields: &BTreeMap<FileId, usize>,
        key: &str,
        parts: fn(&File) -> &[T],
        id: fn(&T) -> &Text,
    ) -> Self {
        let located = written.files.iter().flat_map(|(file, content)| {
            let field = fields.get(file).copied();
            parts(content).iter().map(move |part| Located { file: *file, field, part })
        });
        let parts: Vec<Located<'a, T>> = located.collect();
        let mut ids = BTreeMap::new();
        for (n, located) in parts.iter().enumerate() {
            ids.entry(id(located.part).value.as_str()).or_insert(n);
        }
        let broken = written.broken.iter().filter(|(list, _)| list == key).map(|(_, id)| id.as_str()).collect();
        Self { parts, id, ids, broken }
    }

    /// Place of the part of this id.
    pub(super) fn place(&self, id: &str) -> Option<usize> {
        self.ids.get(id).copied()
    }

    /// The index of the part that a reference leads to.
    pub(super) fn index(&self, id: &Text) -> Option<u32> {
        u32::try_from(self.place(&id.value)?).ok()
    }

    /// The part of this id.
    pub(super) fn find(&self, id: &str) -> Option<&Located<'a, T>> {
        self.parts.get(self.place(id)?)
    }

    /// Whether the id stands for something, be it only a part that could not be read.
    pub(super) fn knows(&self, id: &str) -> bool {
        self.ids.contains_key(id) || self.broken.contains(id)
    }

    /// Every id, in alphabetical order.
    pub(super) fn ids(&self) -> impl Iterator<Item = &'a str> {
        self.ids.keys().copied()
    }
}

/// All parts of all files.
#[derive(Debug)]
pub(super) struct Scope<'a> {
    pub(super) sources: &'a Sources,
    /// Fields where they are declared: with their names.
    pub(super) fields: Vec<(FileId, &'a Field, &'a Text)>,
    /// Files that name a field by an id that no file declares.
    pub(super) lost_fields: Vec<(FileId, &'a Field)>,
    pub(super) entities: List<'a, Entity>,
    pub(super) quantities: List<'a, Quantity>,
    pub(super) principles: List<'a, Principle>,
    pub(super) settings: List<'a, Setting>,
    pub(super) influences: List<'a, Influence>,
    pub(super) acts: List<'a, Act>,
    pub(super) rigs: List<'a, Rig>,
    pub(super) contexts: List<'a, Context>,
    pub(super) known: List<'a, Known>,
    pub(super) gloss: List<'a, Gloss>,
    /// Unit of each quantity, where it can be read.
    pub(super) units: Vec<Option<Unit>>,
    /// The law of each influence with a source for every symbol, where all is in order.
    pub(super) uses: Vec<Option<LawUse>>,
}

impl<'a> Scope<'a> {
    /// Sorts the parts.
    pub(super) fn new(sources: &'a Sources, written: &'a Written) -> Self {
        let with_field = || written.files.iter().filter_map(|(file, content)| Some((*file, content.field.as_ref()?)));
        let declared = with_field().filter_map(|(file, field)| Some((file, field, field.name.as_ref()?)));
        let fields: Vec<(FileId, &Field, &Text)> = declared.collect();
        let place = |file: FileId, field: &Field| {
            let own = fields.iter().position(|(other, ..)| *other == file);
            own.or_else(|| fields.iter().position(|(_, other, _)| other.id.value == field.id.value))
        };
        let (found, lost): (Vec<_>, Vec<_>) = with_field().partition(|(file, field)| place(*file, field).is_some());
        let of = found.into_iter().filter_map(|(file, field)| Some((file, place(file, field)?))).collect();
        let mut scope = Self {
            sources,
            entities: List::new(written, &of, "entities", |file| &file.entities, |part| &part.id),
            quantities: List::new(written, &of, "quantities", |file| &file.quantities, |part| &part.id),
            principles: List::new(written, &of, "principles", |file| &file.principles, |part| &part.id),
            settings: List::new(written, &of, "settings", |file| &file.settings, |part| &part.id),
            influences: List::new(written, &of, "influences", |file| &file.influences, |part| &part.id),
            acts: List::new(written, &of, "acts", |file| &file.acts, |part| &part.id),
            rigs: List::new(written, &of, "rigs", |file| &file.rigs, |part| &part.id),
            contexts: List::new(written, &of, "contexts", |file| &file.contexts, |part| &part.id),
            known: List::new(written, &of, "known", |file| &file.known, |part| &part.id),
            gloss: List::new(written, &of, "gloss", |file| &file.gloss, |part| &part.id),
            lost_fields: lost,
            fields,
            units: Vec::new(),
            uses: Vec::new(),
        };
        scope.units =
            scope.quantities.parts.iter().map(|quantity| super::units::read(&quantity.part.unit).ok()).collect();
        let uses = scope.influences.parts.iter().map(|influence| super::law_use::bind(&scope, influence));
        scope.uses = uses.map(|bound| bound.law).collect();
        scope
    }

    /// Unit of the quantity of this id.
    pub(super) fn unit(&self, quantity: &str) -> Option<&Unit> {
        self.units.get(self.quantities.place(quantity)?)?.as_ref()
    }
}
