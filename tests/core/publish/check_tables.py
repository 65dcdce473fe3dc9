"""Reads a published folder's tables with the types that datapackage.json gives them.

Data Package and Table Schema, version 1, specs.frictionlessdata.io: what must be there and how
values are written. CSV as RFC 4180. Prints the number of rows of every table as JSON.
"""
import csv
import datetime
import hashlib
import io
import json
import os
import re
import sys

folder = sys.argv[1]
package = json.load(open(os.path.join(folder, "datapackage.json"), encoding="utf-8"))
assert package["profile"] == "tabular-data-package"
assert re.fullmatch(r"[-a-z0-9._/]+", package["name"]), "Data Package: name"
assert package["resources"], "Data Package: at least one resource"
counts = {}
columns = {}
for resource in package["resources"]:
    path = resource["path"]
    assert not path.startswith("/") and ".." not in path, "Data Package: url-or-path"
    data = open(os.path.join(folder, path), "rb").read()
    assert len(data) == resource["bytes"], path
    assert "sha256:" + hashlib.sha256(data).hexdigest() == resource["hash"], path
    text = data.decode(resource["encoding"])
    assert text.endswith("\r\n"), "RFC 4180, 2.1 and 2.2"
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    fields = resource["schema"]["fields"]
    assert rows[0] == [field["name"] for field in fields], path
    assert resource["schema"]["missingValues"] == [""]
    for row in rows[1:]:
        assert len(row) == len(fields), "RFC 4180, 2.4"
        for value, field in zip(row, fields):
            if value == "":
                continue
            kind = field["type"]
            if kind == "integer":
                int(value)
            elif kind == "number":
                assert re.fullmatch(r"-?\d+(\.\d+)?([eE][-+]?\d+)?", value), value
            elif kind == "boolean":
                assert value in field["trueValues"] + field["falseValues"], value
            elif kind == "datetime":
                datetime.datetime.strptime(value, "%Y-%m-%dT%H:%M:%SZ")
            else:
                assert kind == "string", kind
                assert value[0] not in "=+-@\t\r", "a spreadsheet would run it: " + value
            if "constraints" in field:
                assert value in field["constraints"]["enum"], value
            if field["name"].endswith("_rpm"):
                assert field["unit"] == "rpm"
    counts[resource["name"]] = len(rows) - 1
    columns[resource["name"]] = {
        field["name"]: [row[i] for row in rows[1:]] for i, field in enumerate(fields)}
for resource in package["resources"]:
    schema = resource["schema"]
    keys = [columns[resource["name"]][key] for key in schema.get("primaryKey", [])]
    if keys:
        rows = list(zip(*keys))
        assert len(set(rows)) == len(rows) and not any("" in row for row in rows), "Table Schema: primaryKey"
    for key in schema.get("foreignKeys", []):
        known = set(columns[key["reference"]["resource"]][key["reference"]["fields"]])
        named = set(columns[resource["name"]][key["fields"]]) - {""}
        assert named <= known, ("Table Schema: foreignKeys", resource["name"], key, named - known)
print(json.dumps(counts))
