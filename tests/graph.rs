//! The graph in open formats, read back by libraries that are no part of the program, and as a page.

use std::collections::BTreeSet;
use std::process::Command;

use toehold::concepts::{embedded, load_and_check};

use crate::program::{tests, toehold};

#[test]
fn every_influence_is_in_every_format() {
    let graph = load_and_check(&embedded()).unwrap();
    let ids: BTreeSet<&str> = graph.influences().map(|(_, one)| one.id.as_str()).collect();
    let xml = toehold(&["graph", "--format", "graphml"]).out;
    let document = roxmltree::Document::parse(&xml).unwrap();
    let edges: Vec<_> = document
        .descendants()
        .filter(|node| node.has_tag_name(("http://graphml.graphdrawing.org/xmlns", "edge")))
        .collect();
    assert_eq!(edges.iter().map(|edge| edge.attribute("id").unwrap()).collect::<BTreeSet<_>>(), ids);
    let nodes: BTreeSet<&str> = document
        .descendants()
        .filter(|node| node.tag_name().name() == "node")
        .map(|node| node.attribute("id").unwrap())
        .collect();
    for edge in edges {
        assert!(nodes.contains(edge.attribute("source").unwrap()) && nodes.contains(edge.attribute("target").unwrap()));
    }
    let linked: serde_json::Value = serde_json::from_str(&toehold(&["graph", "--format", "jsonld"]).out).unwrap();
    let parts = linked["@graph"].as_array().unwrap();
    let named: BTreeSet<&str> = parts.iter().map(|part| part["@id"].as_str().unwrap()).collect();
    assert_eq!(named.len(), parts.len());
    let of_kind = |kind: &str| parts.iter().filter(|part| part["@type"] == kind).count();
    assert_eq!(of_kind("Influence"), ids.len());
    for part in parts.iter().filter(|part| part["@type"] == "Influence") {
        for end in ["from", "to", "principle"] {
            assert!(named.contains(part[end].as_str().unwrap()), "{part}");
        }
    }
    let dot = toehold(&["graph", "--format", "dot"]).out;
    assert_eq!(dot.matches(" -> ").count(), ids.len());
    let json: serde_json::Value = serde_json::from_str(&toehold(&["graph", "--format", "json"]).out).unwrap();
    assert_eq!((json["version"].as_u64(), json["influences"].as_array().unwrap().len()), (Some(1), ids.len()));
}

#[test]
fn libraries_outside_the_project_read_the_exports() {
    let folder = tempfile::tempdir().unwrap();
    for format in ["graphml", "jsonld", "dot"] {
        let path = folder.path().join(format!("graph.{format}"));
        assert_eq!(toehold(&["graph", "--format", format, "--out", path.to_str().unwrap()]).code, 0);
    }
    let schemas = folder.path().join("schemas");
    assert_eq!(toehold(&["schema", "--out", schemas.to_str().unwrap()]).code, 0);
    let plan = folder.path().join("plan.md");
    assert_eq!(toehold(&["new", "scenario", "--out", plan.to_str().unwrap()]).code, 0);
    let script = tests().join("reference/read_back.py");
    let run = Command::new("python3").arg(script).arg(folder.path()).arg(tests().parent().unwrap()).output();
    let Ok(run) = run else {
        crate::program::skipped("there is no python3");
        return;
    };
    let said = String::from_utf8_lossy(&run.stdout).into_owned();
    println!("{said}");
    assert!(run.status.success(), "{said}{}", String::from_utf8_lossy(&run.stderr));
}

#[test]
fn pictures_stand_alone_and_say_what_they_show() {
    for what in [["--field", "membranes"], ["--principle", "osmosis"]] {
        let svg = toehold(&["graph", what[0], what[1]]).out;
        let document = roxmltree::Document::parse(&svg).unwrap();
        let names: Vec<&str> = document
            .root_element()
            .children()
            .filter(roxmltree::Node::is_element)
            .map(|node| node.tag_name().name())
            .take(2)
            .collect();
        assert_eq!(names, ["title", "desc"]);
        assert!(svg.contains("lowers") || svg.contains("raises"));
    }
}

#[test]
fn every_link_of_the_page_leads_somewhere() {
    let scenario = std::fs::read_dir(tests().join("../scenarios"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .find(|path| path.extension().is_some_and(|ending| ending == "md") && !path.ends_with("README.md"))
        .unwrap();
    let page = toehold(&["graph", "--format", "html", "--scenario", scenario.to_str().unwrap()]).out;
    assert!(page.contains("default-src 'none'") && !page.contains("<script"));
    let after = |mark: &str| -> BTreeSet<String> {
        page.split(mark).skip(1).map(|rest| rest.split('"').next().unwrap().to_owned()).collect()
    };
    let (ids, links) = (after(" id=\""), after("href=\"#"));
    let lost: Vec<&String> = links.difference(&ids).collect();
    assert!(lost.is_empty(), "{lost:?}");
    assert!(links.len() > 300 && links.contains("scenario-1"));
}
