"""Checks a published workbook: a sound archive, well-formed parts, no formula. Prints the texts of all cells as JSON."""
import json
import sys
import xml.etree.ElementTree as tree
import zipfile

book = zipfile.ZipFile(sys.argv[1])
assert book.testzip() is None
space = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
sheets = {}
for name in book.namelist():
    root = tree.fromstring(book.read(name))
    if name.startswith("xl/worksheets/sheet"):
        assert not list(root.iter(space + "f")), "a formula"
        sheets[name] = len(list(root.iter(space + "row")))
assert "[Content_Types].xml" in book.namelist(), "ECMA-376, part 2, 10.1.2.2"
shared = tree.fromstring(book.read("xl/sharedStrings.xml"))
texts = ["".join(part.text or "" for part in item.iter(space + "t")) for item in shared]
names = [sheet.get("name") for sheet in tree.fromstring(book.read("xl/workbook.xml")).iter(space + "sheet")]
print(json.dumps({"rows": sheets, "texts": texts, "sheets": names}))
