#!/usr/bin/env bash
# What core says to people, as a template for translators, and what a catalogue lacks of it.
# Usage: bash cmake/catalogue.sh TEMPLATE.pot          writes the template
#        bash cmake/catalogue.sh --check LANGUAGE      fails on what resources/words/LANGUAGE lacks or has wrongly, and names it
#        bash cmake/catalogue.sh --missing LANGUAGE    writes what it lacks, as a PO file to be filled in
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$root"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

template() {
    find core ui app \( -name '*.cpp' -o -name '*.h' \) | grep -v '^core/base/words.h$' | sort |
        xgettext --files-from=- --language=C++ --from-code=UTF-8 --no-location --sort-output --omit-header \
            --keyword --keyword=said:1 --keyword=saidOf:2,3 --keyword=counted:2,3 --keyword=toSay:1 --output="$1"
}

case "${1:-}" in
--check | --missing)
    template "$work/all.pot"
    msgcat --use-first resources/words/"$2"/*.po -o "$work/catalogue.po"
    msgfmt --check-domain -o /dev/null "$work/catalogue.po"
    if [ "$1" = --missing ]; then
        msgmerge --quiet --no-fuzzy-matching --no-location "$work/catalogue.po" "$work/all.pot" |
            msgattrib --untranslated --no-obsolete --no-location
    else
        msgcmp "$work/catalogue.po" "$work/all.pot"
        python3 tests/architecture/catalogue.py "$work/catalogue.po" "$work/all.pot"
    fi
    ;;
*)
    template "$1"
    ;;
esac
