"""Holds what `compare --json` prints to the shipped schema, with Debian's python3-jsonschema as the outside validator; and the schema to a
few comparisons that it must refuse.
usage: compare_schema.py PROGRAM SOURCE_FOLDER
"""
import copy
import json
import pathlib
import subprocess
import sys

import jsonschema

program, source = sys.argv[1], pathlib.Path(sys.argv[2])
schema = json.loads((source / "render/compare/comparison.schema.json").read_text())
jsonschema.Draft7Validator.check_schema(schema)
validator = jsonschema.Draft7Validator(schema)
samples, awkward = source / "sample-results", source / "tests/golden/awkward"
pairs = [(samples / "short-axis.json", samples / "long-axis.json"), (samples / "two-axes.json", samples / "short-axis.json"),
         (samples / "rotary-axis.json", samples / "rotary-axis.json"), (awkward / "two-axes-and-square.json", samples / "two-axes.json"),
         (awkward / "stated-only.json", samples / "smallest.json"), (awkward / "two-axes-and-square.json", awkward / "angle-steps.json")]
faults, comparisons = [], []
for was, now in pairs:
    said = subprocess.run([program, "compare", str(was), str(now), "--json"], check=True, capture_output=True, text=True).stdout
    comparisons.append(json.loads(said))
    for error in validator.iter_errors(comparisons[-1]):
        faults.append(f"{was.name} and {now.name}: /{'/'.join(map(str, error.absolute_path))}: {error.message[:300]}")
for part in ("changes", "readings", "parameters", "only_was", "only_now"):
    if not any(comparison[part] for comparison in comparisons):
        faults.append(f"no pair has anything under {part}")


def refused(what, change):
    broken = copy.deepcopy(comparisons[0])
    change(broken)
    if validator.is_valid(broken):
        faults.append(f"the schema accepts a comparison with {what}")


refused("an unknown key", lambda c: c.update(colour="red"))
refused("no answer", lambda c: c.pop("same"))
refused("a parameter without unit", lambda c: c["parameters"].append({"error": "EXX", "parameter": "A"}))
print(f"{len(pairs)} comparisons, {len(faults)} faults")
print("\n".join(faults[:50]))
sys.exit(1 if faults else 0)
