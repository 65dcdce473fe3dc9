"""All texts of the product that a person can meet, collected from the sources, and what words they must not hold.

    python3 texts.py ROOT [LANGUAGE]      writes every text with its place, folder by folder, and below it what is said in LANGUAGE
    python3 texts.py ROOT --check         fails on a text that breaks a rule (RULES below)
    python3 texts.py ROOT --labels GUIDE  fails on a **label** in the Markdown files of GUIDE that no text of the program bears; in
                                          those of a language (GUIDE/de), that no translation in resources/words bears
"""
import re
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

from catalogue import entries

FOLDERS = ("ui", "core", "app")
# Texts of others' languages (SQL, style sheets), of footage made for tests, and of messages for developers.
NOT_FOR_PEOPLE = (
    "core/project/file/", "core/project/store/kinds.cpp", "core/project/store/tables.h", "core/project/store/migrations.cpp",
    "core/publish/page/page_style.cpp", "core/publish/drawing/", "core/base/expects.h", "core/synthesis/")

TOKEN = re.compile(r'''
    (?P<comment>//[^\n]*|/\*.*?\*/)
  | (?P<directive>^[ \t]*\#[^\n]*)
  | (?P<raw>R"(?P<mark>[^(\s]*)\((?P<inner>.*?)\)(?P=mark)")
  | (?P<text>"(?:[^"\\\n]|\\.)*")
  | (?P<character>'(?:[^'\\\n]|\\.)+')
  | (?P<space>\s+)
  | (?P<other>[A-Za-z0-9_]+|.)
''', re.VERBOSE | re.DOTALL | re.MULTILINE)
ESCAPES = {"n": "\n", "t": "\t", '"': '"', "\\": "\\", "'": "'", "0": "\0", "r": "\r"}


def plain(literal):
    text = re.sub(r'\\(?:u([0-9A-Fa-f]{4})|x([0-9A-Fa-f]{2})|(.))',
                  lambda found: chr(int(found[1] or found[2], 16)) if found[1] or found[2] else ESCAPES.get(found[3], ""), literal)
    return text


def texts_of(source):
    """(line, text) of every literal; literals side by side are one text."""
    found, pending, line = [], None, 1
    for token in TOKEN.finditer(source):
        kind, value = token.lastgroup, token.group()
        kind = "raw" if token["raw"] else kind
        if kind in ("raw", "text"):
            inner = token["inner"] if kind == "raw" else plain(value[1:-1])
            pending = (pending[0], pending[1] + inner) if pending else (line, inner)
        elif kind not in ("comment", "space"):
            if pending:
                found.append(pending)
            pending = None
        line += value.count("\n")
    return found + ([pending] if pending else [])


def sources(root):
    for folder in FOLDERS:
        for path in sorted((root / folder).rglob("*")):
            name = path.relative_to(root).as_posix()
            if path.suffix in (".cpp", ".h") and not name.startswith(NOT_FOR_PEOPLE):
                yield name, path.read_text(encoding="utf-8")


def is_for_people(text):
    """Words, not a name in a file, a key of a setting or a piece of a format."""
    if not re.search(r"[A-Za-z]{2,}", text):
        return False
    is_label = re.fullmatch(r"[A-Z][a-z]+:", text)
    return bool(is_label) or not re.fullmatch(r"[\w./:+%-]*[_/.:][\w./:+%-]*|[A-Z]{2,5}", text)


def all_texts(root):
    for name, source in sources(root):
        for line, text in texts_of(source):
            if is_for_people(text):
                yield name, line, text


COUNTED = ("shots|clips|frames|turns|readings|implements|hitters|cells|files|rows|columns|pairs|cards|swings|doubts|marks|copies|"
           "minutes|seconds|hours|days|pictures|strips|figures|sessions|attributes|bytes|strikes|returns|names|places|lines|films")
RETIRED = (  # in brackets what is said instead
    r"held against\b",  # (compared with)
    r"\bcomes? home\b", r"\blets? it count\b", r"\bfor good\b", r"\bwhose shots\b", r"\bthe word of\b", r"\bcounts? from now on\b",
    r"slower than the world\b",  # (slower than real time)
    r"speed of the world\b", r"\bsampled the world\b", r"\bdecision back\b",  # (Reopen)
    r"\bdoubts? the cell\b", r"\bpacked project apart\b", r"\bfiles of others\b", r"\b(?:is|are) not shown\b(?! on)",
    r"\byour word\b", r"\blook the same in every frame\b", r"\bin the place of a project\b",
    r"\bunread\b",  # (to read)
    r"\bpictures' (?:own )?reading\b", r"\brotation fit (?!\d)", r"\bthe fit\b",  # (from the pictures)
    r"\battitudes?\b",  # (orientation)
    r"\breviewer\b",  # (reader)
    r"\b(?:says? |said |of )whose\b", r"\bwhose (?:they|it|the|shot)\b", r"\btallies\b(?= made|\.)",
    r"\b(?:somebody lets|goes along whole)\b",
    r"\bbackups?\b(?! of|…)(?<! backups)",  # (copy)
    r"\bthe session\b(?! \{:s\})", r"\bfps\b")
RULES = (
    ("a plural in brackets", re.compile(r"[a-z]\(s\)")),
    ("a number before a plural that nothing counts (core::counted, %n)",
     re.compile(r"(?<!of )(?<!to )(?:\{\d?\}|%[1-9L]) (?:" + COUNTED + r")\b(?! (?:per|a|once) ?|/)")),
    ("a name of ours in a sentence", re.compile(r"(?<![\w/.=\"-])[a-z][a-z0-9]*(?:_[a-z0-9]+)+(?![\w/.=(-])")),
    ("a phrase that is not ours any more", re.compile("|".join(RETIRED), re.IGNORECASE)))
DATABASE = re.compile(r"^ ?(?:SELECT|INSERT|UPDATE|DELETE|CREATE|DROP|ALTER|PRAGMA|WHERE)\b")
# What is said of one and of more: core::words chooses between the two.
STRING = r'"(?:[^"\\\n]|\\.)*"'
SAID_OF = re.compile(rf'\bsaidOf(\((?:[^()"]|{STRING}|\((?:[^()"]|{STRING}|\([^()]*\))*\))*\))')
TABLE_OR_LIST = re.compile(r"^[\w,\n]+$")  # heads of columns


def faults(root):
    of_more = {text for _, source in sources(root) for call in SAID_OF.findall(source) for _, text in texts_of(call)}
    for name, line, text in all_texts(root):
        if DATABASE.match(text) or TABLE_OR_LIST.match(text):
            continue
        for wrong, rule in RULES:
            found = rule.search(text)
            # Descriptions of columns name the words that stand in them.
            if rule is RULES[1][1] and text in of_more:
                continue
            if found and not (rule is RULES[2][1] and name.startswith("core/publish/tables/")):
                yield f'{name}:{line}: {wrong}: "{found.group()}" in "{text}"'


def bare(label):
    return re.sub(r"&(?!&)", "", label).replace("…", "").rstrip(". :").strip().lower()


def translations(words, language):
    """(English, translation) of what the window says (Qt's .ts) and of what core says (.po)."""
    window = words / f"turnmark_{language}.ts"
    if window.exists():
        for message in ElementTree.parse(window).iter("message"):
            translation = message.find("translation")
            for text in [form.text for form in translation] or [translation.text]:
                yield message.find("source").text or "", text or ""
    for catalogue in (words / language).glob("*.po"):
        for entry in entries(catalogue):
            for field, text in entry.items():
                if field.startswith("msgstr"):
                    yield entry["msgid" if field in ("msgstr", "msgstr[0]") else "msgid_plural"], text


def unknown_labels(root, guide):
    known = {guide: {bare(text) for _, _, text in all_texts(root)}}
    for folder in sorted(each.parent for each in guide.glob("*/*.md")):
        known[folder] = {bare(text) for _, text in translations(root / "resources" / "words", folder.name)}
    for folder, texts in known.items():
        for page in sorted(folder.glob("*.md")):
            for number, line in enumerate(page.read_text(encoding="utf-8").splitlines(), 1):
                for label in re.findall(r"\*\*([^*]+)\*\*", line):
                    if bare(label) not in texts:
                        yield f'{page.relative_to(guide)}:{number}: no text of the program is "{label}"'


def main():
    root = Path(sys.argv[1])
    if "--check" in sys.argv:
        found = list(faults(root))
    elif "--labels" in sys.argv:
        found = list(unknown_labels(root, Path(sys.argv[sys.argv.index("--labels") + 1])))
    else:
        said = dict(translations(root / "resources" / "words", sys.argv[2])) if len(sys.argv) > 2 else {}
        last = None
        for name, line, text in all_texts(root):
            if name != last:
                print(f"\n{name}")
            last = name
            print(f"{line:5} " + text.replace("\n", "⏎"))
            if said.get(text):
                print("      " + said[text].replace("\n", "⏎"))
        return 0
    print("\n".join(found) or "no fault")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
