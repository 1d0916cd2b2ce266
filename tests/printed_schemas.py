"""Holds what catalogue, history, verify and conformance print as JSON to the shipped schemas, with Debian's python3-jsonschema as the outside
validator, over records of six visits and one on which the machine was out of its limits, sound files and damaged ones; and each schema to
JSON that it must refuse.
usage: printed_schemas.py PROGRAM SOURCE_FOLDER
"""
import copy
import json
import pathlib
import subprocess
import sys
import tempfile

import jsonschema

program, source = sys.argv[1], pathlib.Path(sys.argv[2])
samples, awkward = source / "sample-results", source / "tests/golden/awkward"
faults, counts = [], {}


def validator_of(name):
    text = subprocess.run([program, "schema", name], check=True, capture_output=True, text=True).stdout
    schema = json.loads(text)
    jsonschema.Draft7Validator.check_schema(schema)
    return jsonschema.Draft7Validator(schema)


def printed(name, validator, *arguments):
    """The JSON that a command prints, whatever its verdict; faults are noted."""
    ran = subprocess.run([program, *map(str, arguments), "--json"], capture_output=True, text=True)
    if ran.returncode not in (0, 1):
        faults.append(f"{' '.join(map(str, arguments))}: exit {ran.returncode}: {ran.stderr[:300]}")
        return {}
    said = json.loads(ran.stdout)
    counts[name] = counts.get(name, 0) + 1
    for error in validator.iter_errors(said):
        faults.append(f"{name}: /{'/'.join(map(str, error.absolute_path))}: {error.message[:300]}")
    return said


def must_refuse(name, validator, said, **changes):
    for what, change in changes.items():
        broken = copy.deepcopy(said)
        change(broken)
        if validator.is_valid(broken):
            faults.append(f"the schema of {name} accepts: {what}")


def wants(what, held):
    if not held:
        faults.append(f"no case has {what}")


with tempfile.TemporaryDirectory() as name:
    folder = pathlib.Path(name)
    documents = [*sorted((samples / "visits").glob("*.json")), samples / "short-axis.json", samples / "rotary-axis.json",
                 awkward / "outcomes-guard-band.json", awkward / "stated-only.json"]
    for document in documents:
        subprocess.run([program, "record", document, "-o", folder / "records" / document.stem], check=True, capture_output=True)
    pdf = folder / "smallest.pdf"
    subprocess.run([program, "report", samples / "smallest.json", "-o", pdf], check=True, capture_output=True)
    changed = folder / "records" / "stated-only"

    validator = validator_of("catalogue")
    listing = printed("catalogue", validator, "catalogue", folder / "records")
    wants("a visit as found and left", any(visit["as_found"] for visit in listing["visits"]))
    wants("a visit in one state", any(visit["as_found"] is None for visit in listing["visits"]))
    must_refuse("catalogue", validator, listing, another_word=lambda j: j["visits"][0].update(verdict="fail"),
                no_day=lambda j: j["visits"][0].pop("day"), another_key=lambda j: j["visits"][0].update(colour="red"))

    validator = validator_of("history")
    history = printed("history", validator, "history", folder / "records", "--serial", "D-0007")
    printed("history", validator, "history", folder / "records", "--serial", "D-0007", "--axis", "X", "--parameter", "A")
    for visit in listing["visits"]:
        if visit["serial"] not in ("", "D-0007"):
            printed("history", validator, "history", folder / "records", "--serial", visit["serial"])
    wants("a trend", any("slope_per_year" in line["trend"] for line in history["lines"]))
    wants("a warning", any(line["warnings"] for line in history["lines"]))
    must_refuse("history", validator, history, null_for_a_value=lambda j: j["lines"][0]["points"][0].update(value=None),
                value_and_reason=lambda j: j["lines"][0]["points"][0].update(value=1, not_evaluated="one run"),
                no_trend=lambda j: j["lines"][0].pop("trend"))

    validator = validator_of("verification")
    sound = printed("verification", validator, "verify", pdf)
    printed("verification", validator, "verify", folder / "records" / "short-axis")
    printed("verification", validator, "verify", pdf, "--against", sound["fingerprint"])
    (changed / "bagit.txt").write_text("BagIt-Version: 1.0\n")
    wants("a changed record", not printed("verification", validator, "verify", changed)["sound"])
    must_refuse("verification", validator, sound, no_answer=lambda j: j.pop("sound"), short_fingerprint=lambda j: j.update(fingerprint="ab"),
                another_outcome=lambda j: j["checks"][0].update(outcome="maybe"))

    validator = validator_of("conformance")
    keeps = printed("conformance", validator, "conformance", pdf)
    wants("a PDF that keeps all rules", keeps["faults"] == [])
    (folder / "cut.pdf").write_bytes(pdf.read_bytes()[:1000])
    breaks = printed("conformance", validator, "conformance", folder / "cut.pdf")
    wants("a PDF that breaks a rule", breaks["faults"])
    must_refuse("conformance", validator, breaks, no_place=lambda j: j["faults"][0].pop("where"), no_rules=lambda j: j.update(rules=0))

print(f"{counts}, {len(faults)} faults")
print("\n".join(faults[:50]))
sys.exit(1 if faults else 0)
