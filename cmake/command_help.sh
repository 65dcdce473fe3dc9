#!/usr/bin/env bash
# Manual pages, bash completion and the change log, made of what the built programs say of themselves, into BUILD/help.
# Usage: bash cmake/command_help.sh BUILD
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
build=$1
bin="$build/bin"
help="$build/help"
rm -rf "$help"
mkdir -p "$help/man" "$help/completion" "$help/doc"
: "${SOURCE_DATE_EPOCH:=$(git -C "$root" log -1 --format=%ct 2>/dev/null || date +%s)}"
export SOURCE_DATE_EPOCH LC_ALL=C.UTF-8 QT_QPA_PLATFORM=offscreen
version=$("$bin/turnmark-cli" --version | sed -n '1s/.* //p')

# The commands as the help lists them.
mapfile -t commands < <("$bin/turnmark-cli" --help | sed -n '/^Subcommands:/,$s/^  \([a-z][a-z]*\) .*/\1/p')
[ ${#commands[@]} -gt 0 ] || { echo "turnmark-cli --help lists no commands" >&2; exit 1; }

page() {  # name, one line, program…
    local name=$1 line=$2
    shift 2
    printf '%s\n' '[SEE ALSO]' '.BR turnmark (1),' '.BR turnmark-cli (1)' >"$help/also"
    help2man --no-info --no-discard-stderr --name="$line" --version-string="$version" --source="Turnmark $version" \
        --manual="User Commands" --include="$help/also" "$*" | sed -e "1,/^\.TH/s/^\.TH [^ ]*/.TH ${name^^}/" \
        -e "/^\.SH NAME/{n;s/^.* \\\\-/$name \\\\-/}" >"$help/man/$name.1"
}
page turnmark "read the spin of a struck ball from video" "$bin/turnmark"
page turnmark-cli "Turnmark's work without a window" "$bin/turnmark-cli"
for command in "${commands[@]}"; do
    line=$("$bin/turnmark-cli" "$command" --help | sed -n '1s/\.$//p')
    page "turnmark-cli-$command" "${line:-a command of turnmark-cli}" "$bin/turnmark-cli" "$command"
done
rm "$help/also"
gzip -9n "$help"/man/*.1

{
    echo "# bash completion for turnmark-cli, made from its help"
    echo "_turnmark_cli() {"
    echo '    local word=${COMP_WORDS[COMP_CWORD]} words='
    echo '    if [ "$COMP_CWORD" -eq 1 ]; then'
    echo "        words='${commands[*]} --help --version'"
    echo '    elif [[ $word == -* ]]; then'
    echo '        case ${COMP_WORDS[1]} in'
    for command in "${commands[@]}"; do
        mapfile -t options < <("$bin/turnmark-cli" "$command" --help | grep -oE '(^|[ ,])--[a-z][a-z-]*' | tr -d ' ,' | sort -u)
        echo "            $command) words='${options[*]}' ;;"
    done
    echo '        esac'
    echo '    fi'
    echo '    [ -n "$words" ] && mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word")'
    echo '}'
    echo 'complete -o default -F _turnmark_cli turnmark-cli'
} >"$help/completion/turnmark-cli"

# Debian's form of a change log, which names the version; what changed is told beside it.
{
    printf 'turnmark (%s) unstable; urgency=medium\n\n  * What changed stands in changes.md beside this file.\n\n' "$version"
    printf ' -- The Turnmark authors <maintainers@example.org>  %s\n' "$(date -u -d "@$SOURCE_DATE_EPOCH" -R)"
} | gzip -9n >"$help/doc/changelog.gz"
cp "$root/resources/changes.md" "$help/doc/"
"$bin/turnmark-cli" guide --to "$help/doc/guide" --language en >/dev/null
"$bin/turnmark-cli" guide --to "$help/doc/guide/de" --language de >/dev/null
find "$help" -exec touch -d "@$SOURCE_DATE_EPOCH" {} +
