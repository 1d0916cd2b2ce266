"""Holds the evaluation of every sample and of every good document of the reader's tests to the shipped schema, with Debian's
python3-jsonschema as the outside validator; and the schema to a few evaluations that it must refuse.
usage: evaluation_schema.py PROGRAM SOURCE_FOLDER
"""
import copy
import json
import pathlib
import subprocess
import sys
import tempfile

import jsonschema

program, source = sys.argv[1], pathlib.Path(sys.argv[2])
documents = sorted((source / "sample-results").glob("*.json")) + sorted((source / "tests/document/good").glob("*.json"))
faults = []

with tempfile.TemporaryDirectory() as folder:
    subprocess.run([program, folder, *map(str, documents)], check=True)
    schema_text = (pathlib.Path(folder) / "evaluation.schema.json").read_text()
    evaluations = {file.name: json.loads((pathlib.Path(folder) / file.name).read_text()) for file in documents}

if schema_text != (source / "render/evaluate/evaluation.schema.json").read_text():
    faults.append("the schema in the program is not the shipped file")
schema = json.loads(schema_text)
jsonschema.Draft7Validator.check_schema(schema)
validator = jsonschema.Draft7Validator(schema)

for name, evaluation in evaluations.items():
    for error in validator.iter_errors(evaluation):
        faults.append(f"{name}: /{'/'.join(map(str, error.absolute_path))}: {error.message[:300]}")


def refused(what, change):
    broken = copy.deepcopy(evaluations["short-axis.json"])
    change(broken)
    if validator.is_valid(broken):
        faults.append(f"the schema accepts an evaluation with {what}")


refused("an unknown key", lambda e: e.update(colour="red"))
refused("no series", lambda e: e.pop("series"))
refused("a parameter without unit", lambda e: e["series"][0]["parameters"]["A"].pop("unit"))
refused("null for a value", lambda e: e["series"][0]["targets"][0].update(mean=None))
refused("a unit of no known spelling", lambda e: e["series"][0].update(unit="micron"))
refused("a negative count", lambda e: e["series"][0]["targets"][0].update(n_positive=-1))

print(f"{len(evaluations)} evaluations, {len(faults)} faults")
for fault in faults[:50]:
    print(fault)
sys.exit(1 if faults or not evaluations else 0)
