"""Compares tables that a spreadsheet program made from the workbook with the published CSV files.

Texts must be the same, numbers to the 15 digits that such a program keeps; it writes them without an
exponent, so those near zero to about 19 decimals. Prints the rows of every
table as JSON. A text that a spreadsheet would run stands behind an apostrophe in the CSV only.
"""
import csv
import json
import os
import sys

published, converted = sys.argv[1:]


def rows(path):
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.reader(file))


def same(ours, theirs):
    if ours[:1] == "'" and ours[1:2] in "=+-@":
        ours = ours[1:]
    if ours.lower() == theirs.lower():
        return True
    try:
        return abs(float(ours) - float(theirs)) <= max(1e-14 * abs(float(ours)), 1e-18)
    except ValueError:
        return False


counts = {}
for name in ["shots", "readings", "summary", "ranking", "pairs"]:
    ours = rows(os.path.join(published, name + ".csv"))
    theirs = rows(os.path.join(converted, "findings-" + name + ".csv"))
    assert len(ours) == len(theirs), name
    for number, (a, b) in enumerate(zip(ours, theirs), 1):
        b += [""] * (len(a) - len(b))
        for ours_cell, theirs_cell in zip(a, b):
            assert same(ours_cell, theirs_cell), (name, number, ours_cell, theirs_cell)
    counts[name] = len(ours) - 1
print(json.dumps(counts))
