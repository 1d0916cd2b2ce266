"""Holds the reader and the JSON Schema against each other, with Debian's python3-jsonschema as the outside validator.

Every file of the corpora is given to both. Where the schema can express the rule that a broken file breaks (its index says so),
both must refuse it; where it cannot, the schema must accept it and the reader refuse it. Good files and samples are accepted by both.
usage: schema_parity.py PROGRAM SOURCE_FOLDER
"""
import json
import pathlib
import subprocess
import sys
import tempfile

import jsonschema

program, source = sys.argv[1], pathlib.Path(sys.argv[2])
faults = []


def fail(text):
    faults.append(text)


def load_schemas():
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([program, "schema", folder], check=True)
        texts = {kind: (pathlib.Path(folder) / f"{kind}.schema.json").read_text() for kind in ("document", "facts", "layout", "mapping")}
    shipped = {"document": source / "render/document/result-document.schema.json", "layout": source / "layouts/layout.schema.json",
               "facts": source / "render/document/facts.schema.json",
               "mapping": source / "render/gather/mapping.schema.json"}
    schemas = {}
    for kind, text in texts.items():
        if text != shipped[kind].read_text():
            fail(f"the {kind} schema in the program is not the shipped file")
        schema = json.loads(text)
        jsonschema.Draft7Validator.check_schema(schema)
        # Facts refer to the schema of documents, which lies beside theirs.
        beside = {"file:///schemas/result.schema.json": json.loads(texts["document"])}
        schemas[kind] = jsonschema.Draft7Validator(schema, resolver=jsonschema.RefResolver("file:///schemas/this", schema, store=beside))
    return schemas


def reader_says(kind, files):
    output = subprocess.run([program, kind, *map(str, files)], check=True, capture_output=True, text=True).stdout
    return [line.split("\t") for line in output.splitlines()]


def schema_accepts(validator, file):
    return validator.is_valid(json.loads(file.read_text(encoding="utf-8-sig")))


def check_good(kind, files, validator):
    for file, said in zip(files, reader_says(kind, files), strict=True):
        if said[0] != "accept":
            fail(f"{file.name}: good, but the reader refuses {said[1:]}")
        if not schema_accepts(validator, file):
            fail(f"{file.name}: good, but the schema refuses it")


def check_broken(kind, folder, validator):
    index = json.loads((folder / "index.json").read_text())
    files = sorted(file for file in folder.glob("*.json") if file.name != "index.json")
    if {file.name for file in files} != set(index):
        fail(f"{folder}: the index and the files differ: {sorted({file.name for file in files} ^ set(index))}")
    for file, said in zip(files, reader_says(kind, files), strict=True):
        entry = index[file.name]
        if said[0] != "reject":
            fail(f"{file.name}: broken, but the reader accepts it")
        elif entry["pointer"] not in said[1:]:
            fail(f"{file.name}: the reader finds {said[1:]}, the index says {entry['pointer']}")
        try:
            accepted = schema_accepts(validator, file)
        except ValueError:  # no JSON at all: nothing that a schema could be asked about
            accepted = not entry["schema_can_tell"]
        if accepted == entry["schema_can_tell"]:
            fail(f"{file.name}: the schema {'accepts' if accepted else 'refuses'} it, against the index")
    return len(files)


schemas = load_schemas()
good = sorted((source / "tests/document/good").glob("*.json"))
samples = sorted((source / "sample-results").glob("*.json"))
layouts = sorted(file for file in (source / "layouts").glob("*.json") if not file.name.endswith(".schema.json"))
check_good("document", good + samples, schemas["document"])
check_good("layout", layouts, schemas["layout"])
mappings = sorted((source / "tests/gather/mappings/good").glob("*.json"))
check_good("mapping", mappings, schemas["mapping"])
facts = sorted((source / "tests/document/facts/good").glob("*.json")) + sorted((source / "sample-results/exports/facts").glob("*.json"))
check_good("facts", facts, schemas["facts"])
broken = check_broken("document", source / "tests/document/broken", schemas["document"])
broken += check_broken("facts", source / "tests/document/facts/broken", schemas["facts"])
broken += check_broken("layout", source / "tests/layouts/broken", schemas["layout"])
broken += check_broken("mapping", source / "tests/gather/mappings/broken", schemas["mapping"])
print(f"{len(good)} good documents, {len(samples)} samples, {len(layouts)} layouts, {len(mappings)} mappings, {len(facts)} facts, {broken} broken files: {len(faults)} disagreements")
for text in faults:
    print(text)
sys.exit(1 if faults else 0)
