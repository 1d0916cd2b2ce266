"""Walks every shipped JSON Schema from its root: each key that a file may have is described, and has examples that its own schema
accepts. What stands behind "if", "then", "allOf" and the like narrows keys that are declared elsewhere, and is not walked.
usage: schema_keys.py SOURCE_FOLDER
"""
import json
import pathlib
import sys

import jsonschema

source = pathlib.Path(sys.argv[1])
beside = {"file:///schemas/result.schema.json": json.loads((source / "render/document/result-document.schema.json").read_text())}
files = sorted(source.glob("render/*/*.schema.json")) + sorted(source.glob("layouts/*.schema.json"))


class Walk:
    def __init__(self, schema):
        self.root, self.faults, self.keys, self.seen = schema, [], 0, set()
        self.resolver = jsonschema.RefResolver("file:///schemas/this", schema, store=beside)

    def resolved(self, schema):
        """What a reference means, under what the key itself says: an editor shows the nearer description."""
        if "$ref" not in schema:
            return schema
        with self.resolver.resolving(schema["$ref"]) as target:
            return {**self.resolved(target), **{word: said for word, said in schema.items() if word != "$ref"}}

    def key(self, path, schema):
        self.keys += 1
        whole = self.resolved(schema)
        if not isinstance(whole.get("description"), str) or not whole["description"].strip():
            self.faults.append(f"{path}: no description")
        examples = whole.get("examples")
        if not isinstance(examples, list) or not examples:
            self.faults.append(f"{path}: no example")
        for example in examples or []:
            for error in jsonschema.Draft7Validator(schema, resolver=self.resolver).iter_errors(example):
                self.faults.append(f"{path}: its own schema refuses the example: {error.message[:120]}")

    def visit(self, path, schema):
        if "$ref" in schema:
            # What another file defines is walked there.
            if schema["$ref"].startswith("#") and schema["$ref"] not in self.seen:
                self.seen.add(schema["$ref"])
                self.visit("definitions/" + schema["$ref"].rsplit("/", 1)[-1], self.resolver.resolve(schema["$ref"])[1])
            return
        for name, member in schema.get("properties", {}).items():
            self.key(f"{path}/{name}", member)
            self.visit(f"{path}/{name}", member)
        for word in ("items", "additionalProperties"):
            if isinstance(schema.get(word), dict):
                self.visit(f"{path}/{word}", schema[word])


def walked(schema):
    walk = Walk(schema)
    walk.visit("", schema)
    return walk


def must_fault(what, schema):
    if not walked(schema).faults:
        sys.exit(f"the walk passes over {what}")


described = {"type": "number", "description": "a number", "examples": [1]}
must_fault("a key without description", {"properties": {"a": {k: v for k, v in described.items() if k != "description"}}})
must_fault("a key without example", {"properties": {"a": {"items": {"properties": {"b": {"type": "number", "description": "b"}}}, **described}}})
must_fault("an example of another type", {"properties": {"a": {**described, "examples": ["one"]}}})

total, faults = 0, []
for file in files:
    walk = walked(json.loads(file.read_text()))
    total += walk.keys
    faults += [f"{file.name}: {fault}" for fault in walk.faults]
print(f"{len(files)} schemas, {total} keys, {len(faults)} faults")
print("\n".join(faults))
sys.exit(1 if faults or len(files) < 5 or total < 500 else 0)
