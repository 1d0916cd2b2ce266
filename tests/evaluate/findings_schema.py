"""Holds what check finds in every sample, good, awkward and broken document to the shipped schema, with Debian's python3-jsonschema as
the outside validator; the schema's list of codes to the program's; and the schema to a few findings that it must refuse.
usage: findings_schema.py PROGRAM SOURCE_FOLDER
"""
import copy
import json
import pathlib
import re
import subprocess
import sys
import tempfile

import jsonschema

program, source = sys.argv[1], pathlib.Path(sys.argv[2])
folders = ["sample-results", "tests/document/good", "tests/golden/awkward", "tests/document/broken"]
documents = [file for folder in folders for file in sorted((source / folder).glob("*.json"))]
faults = []

with tempfile.TemporaryDirectory() as folder:
    subprocess.run([program, folder, *map(str, documents)], check=True)
    schema_text = (pathlib.Path(folder) / "findings.schema.json").read_text()
    codes = (pathlib.Path(folder) / "codes.txt").read_text().split()
    findings = {file.name: json.loads((pathlib.Path(folder) / file.name).read_text()) for file in documents}

if schema_text != (source / "render/evaluate/findings.schema.json").read_text():
    faults.append("the schema in the program is not the shipped file")
schema = json.loads(schema_text)
jsonschema.Draft7Validator.check_schema(schema)
validator = jsonschema.Draft7Validator(schema)

for name, found in findings.items():
    for error in validator.iter_errors(found):
        faults.append(f"{name}: /{'/'.join(map(str, error.absolute_path))}: {error.message[:300]}")

listed = schema["definitions"]["code"]["enum"]
if listed != codes:
    faults.append(f"codes of schema and program differ: {sorted(set(listed) ^ set(codes)) or 'in their order'}")
for code in codes:
    if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", code):
        faults.append(f"{code} is not kebab-case")


def refused(what, change):
    broken = copy.deepcopy(findings["short-axis.json"])
    change(broken)
    if validator.is_valid(broken):
        faults.append(f"the schema accepts findings with {what}")


refused("an unknown key", lambda f: f.update(colour="red"))
refused("no sentence at the end", lambda f: f.pop("last_line"))
refused("a finding without code", lambda f: f["before_leaving"][0].pop("code"))
refused("a code that is none", lambda f: f["before_leaving"][0].update(code="misc"))
refused("a sentence beside a fault", lambda f: f["faults"].append(
    {"file": "a", "line": 1, "column": 1, "pointer": "", "found": "a", "expected": "b"}))

with_faults = sum(bool(found["faults"]) for found in findings.values())
if not 0 < with_faults < len(findings):
    faults.append(f"{with_faults} of {len(findings)} documents have faults: both kinds are wanted")
print(f"{len(findings)} documents, {len(faults)} faults")
for fault in faults[:50]:
    print(fault)
sys.exit(1 if faults else 0)
