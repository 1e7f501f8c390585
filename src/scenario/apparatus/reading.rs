//! The last panel: what is read, and with what.

use super::tables::entity;
use super::{Bench, item};
use crate::scenario::figure::{Item, Scene, Shape};

impl Bench<'_, '_> {
    pub(super) fn read(&self) -> (&'static str, Scene, Vec<Item>) {
        let rig = self.voice.graph.rig(self.voice.technique.rig);
        let instrument = self.voice.readout().reading.as_ref().map_or("", |reading| reading.instrument.as_str());
        let named = instrument.trim_start_matches("an ").trim_start_matches("a ");
        let container = |many: bool| {
            let shape = match rig.picture.as_str() {
                "wells" => Shape::Wells,
                "cuvette" => Shape::Cuvette,
                "tank" => Shape::Trough,
                "chamber" => Shape::Chamber,
                "syringe" => Shape::Syringe,
                _ => Shape::Tube,
            };
            item(shape, if many { &rig.container.many } else { &rig.container.one })
        };
        let has = |word: &str| instrument.contains(word);
        let title = "The reading";
        if has("probe") || has("fibre") {
            return (title, Scene::Chamber, self.chamber(container(false), named));
        }
        if has("capillary") {
            return (
                title,
                Scene::Gas,
                vec![container(false), item(Shape::Liquid, "mix"), item(Shape::Capillary, named)],
            );
        }
        if has("camera") {
            let lamp = item(Shape::Lamp, "lamp (blue light)");
            // The camera for plates is a camera for tubes as well, but is not called so.
            let named = if rig.picture == "wells" { named } else { "camera" };
            return (title, Scene::Above, vec![item(Shape::Camera, named), container(true), lamp]);
        }
        if has("counter") {
            let items = vec![item(Shape::Counter, named), item(Shape::DarkBox, "light-tight box"), container(false)];
            return (title, Scene::Above, items);
        }
        let items = vec![
            item(Shape::Lamp, "lamp"),
            container(false),
            item(Shape::Liquid, self.voice.liquid()),
            item(Shape::Meter, named),
        ];
        (title, Scene::Through, items)
    }

    /// Leaves in a closed chamber, and what reads their oxygen.
    fn chamber(&self, container: Item, instrument: &str) -> Vec<Item> {
        let reader = if instrument.contains("fibre") { Shape::Camera } else { Shape::Probe };
        vec![
            item(Shape::Lamp, "lamp"),
            container,
            Item { shape: Shape::Leaf, label: self.noun(entity::LEAF, true) },
            item(reader, instrument),
        ]
    }
}
