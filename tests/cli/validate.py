#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Holds a JSON file against a JSON Schema: validate.py SCHEMA FILE. Knows the keywords that reference/*.schema.json
use and refuses any other, so that a mistyped keyword cannot pass unseen. Standard library only."""
import json
import os
import re
import sys

ANNOTATIONS = {"$schema", "$id", "title", "description", "$defs"}
TYPES = {"object": dict, "array": list, "string": str, "boolean": bool, "null": type(None)}


def is_type(value, name):
    if name == "number":
        return isinstance(value, (int, float)) and not isinstance(value, bool)
    if name == "integer":
        return isinstance(value, int) and not isinstance(value, bool)
    return isinstance(value, TYPES[name])


def check_object(root, schema, value, path):
    faults = [f"{path}: no \"{key}\"" for key in schema.get("required", []) if key not in value]
    properties = schema.get("properties", {})
    for key, inner in value.items():
        if key in properties:
            faults += check(root, properties[key], inner, f"{path}.{key}")
        elif schema.get("additionalProperties") is False:
            faults.append(f"{path}: \"{key}\" is not in the schema")
    return faults


def check(root, schema, value, path="$"):
    faults = []
    for keyword, rule in schema.items():
        if keyword in ANNOTATIONS or keyword in ("properties", "required", "additionalProperties"):
            continue
        if keyword == "$ref" and rule.endswith(".json"):
            other = load(rule)
            faults += check(other, other, value, path)
        elif keyword == "$ref":
            faults += check(root, root["$defs"][rule.removeprefix("#/$defs/")], value, path)
        elif keyword == "type":
            if not any(is_type(value, t) for t in ([rule] if isinstance(rule, str) else rule)):
                faults.append(f"{path}: {value!r} is no {rule}")
        elif keyword == "const" and value != rule or keyword == "enum" and value not in rule:
            faults.append(f"{path}: {value!r}, expected {rule!r}")
        elif keyword == "anyOf":
            if all(check(root, choice, value, path) for choice in rule):
                faults.append(f"{path}: fits none of the choices")
        elif keyword == "items" and isinstance(value, list):
            for i, inner in enumerate(value):
                faults += check(root, rule, inner, f"{path}[{i}]")
        elif keyword == "pattern" and isinstance(value, str) and not re.search(rule, value):
            faults.append(f"{path}: {value!r} does not match {rule}")
        elif keyword == "minimum" and is_type(value, "number") and value < rule:
            faults.append(f"{path}: {value} is below {rule}")
        elif keyword == "maximum" and is_type(value, "number") and value > rule:
            faults.append(f"{path}: {value} is above {rule}")
        elif keyword not in ("const", "enum", "items", "pattern", "minimum", "maximum"):
            faults.append(f"the schema's keyword {keyword} is not known here")
    if isinstance(value, dict) and "properties" in schema:
        faults += check_object(root, schema, value, path)
    return faults


def load(name):
    """A schema beside the one that was named."""
    with open(os.path.join(os.path.dirname(sys.argv[1]), name), encoding="utf-8") as file:
        return json.load(file)


def main():
    schema = load(os.path.basename(sys.argv[1]))
    with open(sys.argv[2], encoding="utf-8") as file:
        found = check(schema, schema, json.load(file, parse_constant=lambda c: sys.exit(f"{c} is no JSON")))
    for fault in found[:20]:
        print(fault)
    sys.exit(1 if found else 0)


main()
