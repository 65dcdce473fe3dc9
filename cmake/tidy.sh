#!/usr/bin/env bash
# Looks over the sources that changed with clang-tidy (.clang-tidy), for three minutes at most: those that differ from where
# this branch left origin/main, on origin/main itself those of the last commit. A changed header stands for its source.
# Usage: bash cmake/tidy.sh [--all | FILE…]; these take as long as they take.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$root"
limit=0
if [ "${1:-}" = --all ]; then
    mapfile -t named < <(find app core ui tests -name '*.cpp')
elif [ $# -gt 0 ]; then
    named=("$@")
else
    limit=180
    base=$(git merge-base HEAD origin/main 2>/dev/null || true)
    if [ -z "$base" ] || [ "$base" = "$(git rev-parse HEAD)" ]; then
        base=$(git rev-parse --verify --quiet HEAD~1 || true)
    fi
    if [ -z "$base" ]; then
        echo "clang-tidy: no earlier commit to compare with, nothing is looked over"
        exit 0
    fi
    mapfile -t named < <(git diff --name-only --diff-filter=d "$base" -- app core ui tests)
fi
mapfile -t sources < <(printf '%s\n' "${named[@]}" | sed -n 's/\.\(h\|cpp\)$/.cpp/p' | sort -u)

cmake --preset tidy >/dev/null
mapfile -t known < <(sed -n "s#^ *\"file\": \"$root/\(.*\)\",\?#\1#p" build/tidy/compile_commands.json | sort -u)
mapfile -t sources < <(comm -12 <(printf '%s\n' "${sources[@]}") <(printf '%s\n' "${known[@]}"))
[ ${#sources[@]} -eq 0 ] && exit 0
echo "clang-tidy: ${#sources[@]} files"
status=0
printf '%s\0' "${sources[@]}" |
    timeout $limit xargs -0 -P "$(nproc)" -n 1 clang-tidy -p build/tidy --quiet --extra-arg=-w \
        >build/tidy/findings.txt 2>build/tidy/errors.txt || status=$?
cat build/tidy/findings.txt
if grep -q ': error: ' build/tidy/findings.txt; then
    exit 1
elif [ $status -eq 124 ]; then
    echo "clang-tidy: stopped after three minutes, nothing found so far; bash cmake/tidy.sh FILE… looks over the rest"
elif [ $status -ne 0 ]; then
    cat build/tidy/errors.txt
    exit $status
fi
