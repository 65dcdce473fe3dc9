"""Whether every text of the window stands in the other language too.

    python3 translations.py ROOT LUPDATE

Fails on: a text of ui or app for people that does not pass through Qt's translation; a text that resources/words/turnmark_de.ts
lacks, has no longer, or has unfinished; a translation with other places for values (%1), line ends or with a mnemonic (&) on one
side alone; a text that the program would look up under another name than the one lupdate writes it under.
"""
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET
from pathlib import Path

from texts import TOKEN, is_for_people, plain, sources

WORDS = "resources/words/turnmark_de.ts"
# core::counted() speaks for itself; core carries the words of it.
SPOKEN = {"tr", "translate", "words", "QT_TR_NOOP", "QT_TRANSLATE_NOOP", "counted", "toSay", "toKeep", "countToKeep", "said", "saidOf"}
NAMES = {"setObjectName", "setProperty", "property", "value", "setValue", "QLatin1String", "#include"}
NOT_SAID = {  # texts that are names: of objects, settings, pages and files, and what is kept in the project as it was said
    "app/turnmark.cpp": {"plan", "footage", "reading", "doubts", "findings", "publish", "DISPLAY", "turnmark", "Turnmark",
                         "project", "[project.turnmark]", "look", "name", "en", "de", "language", "appearance", "screen",
                         "turnmark: %s\n"},
    "ui/doubts/doubts_screen.cpp": {"doubtReasonFilter", "doubtClipFilter", "doubtCellFilter", "replay", "keep", "blind"},
    "ui/models/clip_words.cpp": {"lens"},
    "ui/plan/advice_panel.cpp": {"advice", "cautions"},
    "ui/plan/plan_screen.cpp": {"paste", "remove"},
    "ui/plan/settings_panel.cpp": {"session", "hitters", "order", "seed", "control", "swings", "rest", "ball", "marking",
                                   "exposure", "expected", "scatter", "step"},
    "ui/plan/tally_questions.cpp": {"implement", "hitter"},
    "ui/plan/tally_dialog.cpp": {"Imported frame counts."},
    "ui/publish/publish_screen.cpp": {"*.csv, findings.xlsx, findings.json", "figures", "author", "licence"},
    "ui/reading/pictures/kept_switch.h": {"on", "off"},
    "ui/reading/reading_actions.cpp": {"start", "beside", "return", "bracket", "dial", "compare", "replay", "keys", "keep", "doubtful"},
    "ui/shell/appearance.cpp": {"light", "dark", "system"},
    "ui/shell/language.cpp": {"language", "en"},
    "ui/shell/main_window.cpp": {"Turnmark", "undo", "redo", "one-day", "clips-and-shots", "read-a-shot", "doubts", "results",
                                 "publishing", "first-shot"},
    "ui/shell/main_window_menus.cpp": {"English", "Deutsch", "en", "de"},
    "ui/shell/main_window_project.cpp": {"Turnmark", "reader", "demo"},
    "ui/shell/project_files.cpp": {" saved.turnmark"},
    "ui/shell/recent_projects.cpp": {"file", "words", "on"},
    "ui/shell/start_art.cpp": {"Turnmark"},
    "ui/style/button_parts.cpp": {"rank", "isWrong"},
    "ui/style/text_font.cpp": {"Bold", "Semibold", "Regular"},
    "ui/style/window_style.cpp": {"Fusion"},
}
NOT_SAID_AT_ALL = (  # a copied table speaks as the CSV does; sockets; style of pictures
    "ui/models/ranked_sheet.cpp", "ui/models/table_copy.cpp", "ui/models/local_time.h", "ui/shell/running_window.cpp", "ui/shell/guide_viewer.cpp")
FORM_OF_A_TIME = re.compile(r"yyyy-MM-dd.*")


def calls_around(source):
    """(line, text, names of the calls that it stands in) of every literal."""
    found, pending, line, stack, before = [], None, 1, [], ""
    for token in TOKEN.finditer(source):
        kind, value = token.lastgroup, token.group()
        kind = "raw" if token["raw"] else kind
        if kind in ("raw", "text"):
            inner = token["inner"] if kind == "raw" else plain(value[1:-1])
            pending = (pending[0], pending[1] + inner, pending[2]) if pending else (line, inner, tuple(stack))
        elif kind not in ("comment", "space"):
            if pending:
                found.append(pending)
            pending = None
            if value in "({[":
                stack.append(before if value == "(" else "")
            elif value in ")}]" and stack:
                stack.pop()
            before = value
        line += value.count("\n")
    return found + ([pending] if pending else [])


def unspoken(root):
    for name, source in sources(root):
        if name.startswith("core/") or name.startswith("app/cli") or name == "app/turnmark_cli.cpp" or name in NOT_SAID_AT_ALL:
            continue
        for line, text, calls in calls_around(source):
            if not is_for_people(text) or SPOKEN & set(calls) or text in NOT_SAID.get(name, ()) or FORM_OF_A_TIME.fullmatch(text):
                continue
            if NAMES & set(calls[-2:]) and re.fullmatch(r"[A-Za-z]+", text):
                continue
            yield f'{name}:{line}: not translated: "{text}"'


def messages(file):
    """(context, source, comment) -> (translation, whether it is finished)."""
    found = {}
    for context in ET.parse(file).getroot().findall("context"):
        for message in context.findall("message"):
            translation = message.find("translation")
            key = (context.findtext("name"), message.findtext("source"), message.findtext("comment") or "")
            found[key] = (translation.text or "", translation.get("type") is None)
    return found


def extracted(root, lupdate):
    """What lupdate finds now, and what it complains of."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "now.ts"
        folders = [each for each in ("ui", "app") if (root / each).is_dir()]
        done = subprocess.run([lupdate, "-I", ".", "-locations", "none", *folders, "-ts", str(file)], cwd=root,
                              capture_output=True, text=True, check=True)
        complaints = []
        for line in (done.stdout + done.stderr).splitlines():
            lacks = re.search(r"Class '(.*)' lacks Q_OBJECT", line)
            # Words of a whole folder: ui/FOLDER/tr.h looks them up under the name of its namespace.
            if (lacks and not re.fullmatch(r"ui::[a-z]+", lacks[1])) or "without context" in line or "unknown namespace" in line:
                complaints.append(line)
        return messages(file), complaints


def places(text):
    return sorted(re.findall(r"%L?\d|%n", text))


def has_mnemonic(text):
    return bool(re.search(r"&(?![&\s])", text))


def faults(root, lupdate):
    yield from unspoken(root)
    now, complaints = extracted(root, lupdate)
    yield from complaints
    spoken = messages(root / WORDS)
    for key in now.keys() - spoken.keys():
        yield f'{WORDS} lacks "{key[1]}" of {key[0]}'
    for key in spoken.keys() - now.keys():
        yield f'{WORDS} has "{key[1]}" of {key[0]}, which nothing says any more'
    for (context, source, _), (translation, is_finished) in spoken.items():
        if not is_finished or not translation:
            yield f'unfinished: "{source}" of {context}'
        elif places(source) != places(translation) or source.count("\n") != translation.count("\n"):
            yield f'other places or line ends: "{source}" and "{translation}"'
        elif has_mnemonic(source) != has_mnemonic(translation):
            yield f'a mnemonic in one language alone: "{source}" and "{translation}"'


def main():
    found = sorted(faults(Path(sys.argv[1]).resolve(), sys.argv[2]))
    print("\n".join(found) or "no fault")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
