//! A view as JSON.

use serde_json::{Value, json};

use super::graphml::role;
use super::{View, sign_word};
use crate::concepts::graph::Graph;

/// Version of this shape.
pub const VERSION: u32 = 1;

/// `{version, graph, title, quantities: [{id, name, role, ...}], influences: [{id, from, to, sign, principle, ...}]}`.
pub fn json(graph: &Graph, view: &View) -> Value {
    let quantities: Vec<Value> = view
        .quantities
        .iter()
        .map(|ix| {
            let quantity = graph.quantity(*ix);
            json!({
                "id": quantity.id,
                "name": quantity.name,
                "symbol": quantity.symbol,
                "unit": quantity.unit.code(),
                "entity": graph.entity(quantity.entity).id,
                "role": role(quantity.role),
                "range": [quantity.range.0, quantity.range.1],
            })
        })
        .collect();
    let influences: Vec<Value> = view
        .influences
        .iter()
        .map(|ix| {
            let one = graph.influence(*ix);
            json!({
                "id": one.id,
                "from": graph.quantity(one.from).id,
                "to": graph.quantity(one.to).id,
                "sign": sign_word(one),
                "principle": graph.principle(one.principle).id,
                "law": one.law.law.id,
                "because": one.because,
                "marked": view.marked.contains(ix),
            })
        })
        .collect();
    json!({
        "version": VERSION,
        "graph": graph.version(),
        "title": view.title,
        "quantities": quantities,
        "influences": influences,
    })
}
