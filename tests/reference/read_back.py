"""Reads the exports and schemas with libraries that are no part of the project, as far as they are installed.

Arguments: the folder of the exports (graph.graphml, graph.jsonld, graph.dot, plan.md, schemas/), the folder of the project.
Libraries: networkx (GraphML), rdflib (JSON-LD, SKOS), Graphviz `dot`, jsonschema with PyYAML (schemas). Each that is
missing is said to be passed over. Exit code 1 where one of those present finds a fault.
"""

import json
import pathlib
import re
import shutil
import subprocess
import sys

exports, project = map(pathlib.Path, sys.argv[1:3])
faults = []


def check(what, holds):
    print(("ok: " if holds else "FAULT: ") + what)
    if not holds:
        faults.append(what)


linked = json.loads((exports / "graph.jsonld").read_text())
n_influences = sum(part["@type"] == "Influence" for part in linked["@graph"])

try:
    import networkx
except ImportError:
    print("skipped: networkx is not installed")
else:
    graph = networkx.read_graphml(exports / "graph.graphml")
    check(f"networkx reads {graph.number_of_edges()} influences", graph.number_of_edges() == n_influences)
    check("each has a sign", all(d["sign"] in {"plus", "minus", "turning"} for *_, d in graph.edges(data=True)))

try:
    import rdflib
    from rdflib.namespace import SKOS
except ImportError:
    print("skipped: rdflib is not installed")
else:
    triples = rdflib.Graph().parse(exports / "graph.jsonld", format="json-ld")
    concepts = set(triples.subjects(rdflib.RDF.type, SKOS.Concept))
    n_concepts = sum(part["@type"] == "Concept" for part in linked["@graph"])
    check(f"rdflib reads {len(concepts)} concepts", len(concepts) == n_concepts)
    check("each has a label and a scheme", all(triples.value(c, SKOS.prefLabel) and triples.value(c, SKOS.inScheme) for c in concepts))

if shutil.which("dot"):
    run = subprocess.run(["dot", "-Tplain", exports / "graph.dot"], capture_output=True, text=True)
    n_edges = sum(line.startswith("edge ") for line in run.stdout.splitlines())
    check(f"dot lays out {n_edges} influences", run.returncode == 0 and n_edges == n_influences)
else:
    print("skipped: Graphviz is not installed")

try:
    import jsonschema
    import yaml
except ImportError:
    print("skipped: jsonschema or PyYAML is not installed")
else:

    class Yaml12(yaml.SafeLoader):
        """YAML 1.2 has `true` and `false`, not `yes` and `no`."""

    Yaml12.yaml_implicit_resolvers = {
        letter: [(tag, match) for tag, match in found if tag != "tag:yaml.org,2002:bool"]
        for letter, found in yaml.SafeLoader.yaml_implicit_resolvers.items()
    }
    for letter in "tTfF":
        Yaml12.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile("^(true|false)$"), [letter])

    def read(text):
        return yaml.load(text, Loader=Yaml12)

    schema = json.loads((exports / "schemas/concepts.schema.json").read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    for path in sorted((project / "concepts").glob("*.yaml")):
        errors = [f"{list(e.absolute_path)}: {e.message[:100]}" for e in validator.iter_errors(read(path.read_text()))]
        check(f"{path.name} holds to the schema {errors[:3]}", not errors)
    # Broken files whose fault is one of shape, by the code in their first line.
    shape = {"missing-field", "unknown-field", "unknown-choice", "wrong-type", "ill-formed-id", "unknown-law"}
    for path in sorted((project / "tests/broken").glob("*/*.yaml")):
        code = path.read_bytes().split(b"\n")[0].decode(errors="replace").removeprefix("# ").split(" ")[0]
        if code in shape:
            try:
                content = read(path.read_text())
            except yaml.YAMLError:
                print(f"skipped: PyYAML cannot read {path.name}")
                continue
            check(f"{path.name} ({code}) is refused", not validator.is_valid(content))
    front = json.loads((exports / "schemas/scenario.schema.json").read_text())
    jsonschema.Draft202012Validator.check_schema(front)
    validator = jsonschema.Draft202012Validator(front)
    for path in sorted((project / "scenarios").glob("*.md")):
        text = path.read_text()
        if text.startswith("---\n"):
            errors = [e.message[:100] for e in validator.iter_errors(read(text.split("---\n")[1]))]
            check(f"front matter of {path.name} holds to the schema {errors[:3]}", not errors)
    plan = json.loads((exports / "schemas/plan.schema.json").read_text())
    jsonschema.Draft202012Validator.check_schema(plan)
    validator = jsonschema.Draft202012Validator(plan)
    skeleton = read((exports / "plan.md").read_text().split("---\n")[1])
    check("the skeleton of a plan holds to the schema", validator.is_valid(skeleton))
    check("an unknown field in a plan is refused", not validator.is_valid(skeleton | {"pith": []}))
    broken = read((project / "tests/broken/scenario/unknown-field-in-front.md").read_text().split("---\n")[1])
    check("an unknown field in front matter is refused", not validator.is_valid(broken))

sys.exit(1 if faults else 0)
