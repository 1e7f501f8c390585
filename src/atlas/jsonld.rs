//! A view as JSON-LD: fields, principles and quantities as SKOS concepts, influences as statements of their own.
//!
//! # Source
//! SKOS Reference, W3C Recommendation 18 August 2009; JSON-LD 1.1, W3C Recommendation 16 July 2020 (both from memory).
//! What principles require is `dcterms:requires` (DCMI Metadata Terms). Names of this project's own are URNs.

use std::collections::BTreeSet;

use serde_json::{Value, json};

use super::graphml::role;
use super::{View, sign_word};
use crate::concepts::PrincipleIx;
use crate::concepts::graph::Graph;

/// The view as one JSON-LD document.
pub fn jsonld(graph: &Graph, view: &View) -> Value {
    let used: BTreeSet<PrincipleIx> = view.influences.iter().map(|ix| graph.influence(*ix).principle).collect();
    let principles = graph.with_prerequisites(&used);
    let mut parts: Vec<Value> = Vec::new();
    let fields: BTreeSet<_> = principles.iter().map(|ix| graph.principle(*ix).field).collect();
    parts.extend(fields.iter().map(|ix| {
        let field = graph.field(*ix);
        let top: Vec<String> = principles
            .iter()
            .map(|ix| graph.principle(*ix))
            .filter(|one| one.field == *ix && one.requires.is_empty())
            .map(|one| urn("principle", &one.id))
            .collect();
        json!({ "@id": urn("field", &field.id), "@type": "ConceptScheme", "prefLabel": english(&field.name), "hasTopConcept": top })
    }));
    parts.extend(principles.iter().map(|ix| of_principle(graph, *ix)));
    let scheme = urn("scheme", "quantities");
    parts.push(json!({ "@id": scheme, "@type": "ConceptScheme", "prefLabel": english("quantities") }));
    parts.extend(view.quantities.iter().map(|ix| {
        let quantity = graph.quantity(*ix);
        json!({
            "@id": urn("quantity", &quantity.id),
            "@type": "Concept",
            "prefLabel": english(&quantity.name),
            "notation": quantity.symbol,
            "inScheme": scheme,
            "unit": quantity.unit.code(),
            "role": role(quantity.role),
            "scopeNote": english(&quantity.at_the_bench),
        })
    }));
    parts.extend(view.influences.iter().map(|ix| {
        let one = graph.influence(*ix);
        json!({
            "@id": urn("influence", &one.id),
            "@type": "Influence",
            "from": urn("quantity", &graph.quantity(one.from).id),
            "to": urn("quantity", &graph.quantity(one.to).id),
            "sign": sign_word(one),
            "principle": urn("principle", &graph.principle(one.principle).id),
            "law": one.law.law.id,
            "note": english(&one.because),
        })
    }));
    json!({ "@context": context(), "@graph": parts })
}

fn of_principle(graph: &Graph, ix: PrincipleIx) -> Value {
    let one = graph.principle(ix);
    let requires: Vec<String> =
        one.requires.iter().map(|other| urn("principle", &graph.principle(*other).id)).collect();
    let is_top = one.requires.is_empty();
    let field = urn("field", &graph.field(one.field).id);
    let terms: BTreeSet<&String> = one.terms.iter().filter(|term| **term != one.name).collect();
    let terms: Vec<Value> = terms.into_iter().map(|term| english(term)).collect();
    let mut object = json!({
        "@id": urn("principle", &one.id),
        "@type": "Concept",
        "prefLabel": english(&one.name),
        "altLabel": terms,
        "definition": english(&one.statement),
        "inScheme": field,
        "requires": requires,
        "source": one.source,
    });
    if let (true, Some(fields)) = (is_top, object.as_object_mut()) {
        fields.insert("topConceptOf".to_owned(), field.into());
    }
    object
}

fn urn(kind: &str, id: &str) -> String {
    format!("urn:toehold:{kind}:{id}")
}

fn english(text: &str) -> Value {
    json!({ "@value": text, "@language": "en" })
}

fn context() -> Value {
    let link = |id: &str| json!({ "@id": id, "@type": "@id" });
    json!({
        "skos": "http://www.w3.org/2004/02/skos/core#",
        "dcterms": "http://purl.org/dc/terms/",
        "th": "urn:toehold:term:",
        "Concept": "skos:Concept",
        "ConceptScheme": "skos:ConceptScheme",
        "Influence": "th:Influence",
        "prefLabel": "skos:prefLabel",
        "altLabel": "skos:altLabel",
        "definition": "skos:definition",
        "notation": "skos:notation",
        "scopeNote": "skos:scopeNote",
        "note": "skos:note",
        "inScheme": link("skos:inScheme"),
        "topConceptOf": link("skos:topConceptOf"),
        "hasTopConcept": link("skos:hasTopConcept"),
        "requires": link("dcterms:requires"),
        "source": "dcterms:source",
        "from": link("th:from"),
        "to": link("th:to"),
        "principle": link("th:principle"),
        "sign": "th:sign",
        "law": "th:law",
        "unit": "th:unit",
        "role": "th:role",
    })
}
