#!/usr/bin/env bash
# What core says to people, and what the window counts, as a template for translators, and what a catalogue lacks of it; the
# command line speaks English.
# Usage: bash cmake/catalogue.sh TEMPLATE.pot          writes the template
#        bash cmake/catalogue.sh --check LANGUAGE      fails on what resources/words/LANGUAGE lacks or has wrongly, and names it
#        bash cmake/catalogue.sh --missing LANGUAGE    writes what it lacks, as a PO file to be filled in
#        bash cmake/catalogue.sh --whole LANGUAGE PO   writes all files of the language as one; the header is that of base.po alone
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$root"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

template() {
    find core ui \( -name '*.cpp' -o -name '*.h' \) | grep -v '^core/base/\(kept_\)\?words.h$' | sort >"$work/sources"
    # The same word alone and as the noun of a count has one entry.
    xgettext --files-from="$work/sources" --language=C++ --from-code=UTF-8 --no-location --sort-output --output="$1" --keyword \
        --keyword=said:1 --keyword=saidOf:2,3 --keyword=counted:2,3 --keyword=countToKeep:2,3 --keyword=toSay:1 \
        2> >(grep -v "with plural\|without plural\|Here is\|Workaround" >&2)
    # What is kept in English (core/base/kept_words.h), or was by earlier versions, has a context of its own.
    xgettext --files-from="$work/sources" --language=C++ --from-code=UTF-8 --no-location --no-wrap --output="$work/kept.pot" \
        --keyword --keyword=toKeep:1 --keyword=wasKept:1
    sed -i 's/charset=CHARSET/charset=UTF-8/; s/^msgid "[^"]/msgctxt "kept"\n&/' "$work/kept.pot"
    msgcat --use-first --no-location "$1" "$work/kept.pot" -o "$work/together.pot"
    mv "$work/together.pot" "$1"
}

whole() {
    (cd "resources/words/$1" && cat base.po && for each in *.po; do [ "$each" = base.po ] || { echo && cat "$each"; }; done) |
        msguniq --use-first -o "$2"
}

case "${1:-}" in
--whole)
    whole "$2" "$3"
    ;;
--check | --missing)
    template "$work/all.pot"
    whole "$2" "$work/catalogue.po"
    msgfmt --check-header --check-domain -o /dev/null "$work/catalogue.po"
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
