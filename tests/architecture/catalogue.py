"""Fails on a translation whose placeholders are not those of the English text.

    python3 catalogue.py CATALOGUE.po TEMPLATE.pot

A placeholder of fmt is {} or {0}, with a format ("{:.1f}", "{0:.1Lf}"): a translation has each value of the English text once at
least, in its format; a number with decimals asks for the sign of the language (L). What the template does not have is not said any more.
"""
import re
import sys
from pathlib import Path

PLACE = re.compile(r"\{\{|\}\}|\{(\d*)(?::([^{}]*))?\}")


def entries(path):
    """(msgid, [translations]) of a PO file without comments that matter; a plural's English text is its singular."""
    found, field = [], None
    for line in Path(path).read_text(encoding="utf-8").splitlines() + [""]:
        start = re.match(r'(msgid_plural|msgid|msgstr(?:\[\d\])?) (".*")$', line)
        if start:
            field = start[1]
            if field == "msgid":
                found.append({})
            found[-1][field] = ""
        quoted = start[2] if start else line if line.startswith('"') else None
        if quoted:
            found[-1][field] += re.sub(r'\\(.)', lambda each: {"n": "\n", "t": "\t"}.get(each[1], each[1]), quoted[1:-1])
    return [each for each in found if each["msgid"]]


def places(text):
    values, next_one = set(), 0
    for found in PLACE.finditer(text):
        if found[0] in ("{{", "}}"):
            continue
        number = int(found[1]) if found[1] else next_one
        next_one += 0 if found[1] else 1
        values.add((number, (found[2] or "").replace("L", "")))
    return values


def faults(entry):
    english = places(entry["msgid"]) | places(entry.get("msgid_plural", ""))
    for field, text in entry.items():
        if not field.startswith("msgstr"):
            continue
        left = re.sub(PLACE, "", text)
        if "{" in left or "}" in left:
            yield f"a brace alone: {text!r}"
        numbered = [bool(found[1]) for found in PLACE.finditer(text) if found[0] not in ("{{", "}}")]
        if any(numbered) and not all(numbered):
            yield f"some places are numbered, some are not: {text!r}"
        of_one = field == "msgstr[0]"
        have = places(text)
        if have != english and not (of_one and have < english):
            yield f"other places than {entry['msgid']!r}: {text!r}"
        for found in PLACE.finditer(text):
            if found[2] and re.search(r"\.\d*[fge]?$", found[2]):
                yield f"a number without the sign of the language (L before f): {text!r}"


def main():
    catalogue, template = (entries(path) for path in sys.argv[1:3])
    said = {each["msgid"] for each in template}
    wrong = [fault for each in catalogue for fault in faults(each)]
    wrong += [f"not said any more: {each['msgid']!r}" for each in catalogue if each["msgid"] not in said]
    print("\n".join(wrong), end="\n" if wrong else "")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
