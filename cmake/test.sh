#!/usr/bin/env bash
# Builds Turnmark and runs every test; the last line is the summary.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
bash "$root/cmake/build.sh" -DTURNMARK_TESTS=ON
cd "$root"
ctest --preset release -j "$(nproc)" --quiet --output-log build/release/tests.log --output-junit "$root/build/release/tests.xml" || {
    status=$?
    sed -n '/The following tests FAILED/,$p' build/release/tests.log
    ctest --preset release --rerun-failed || true
    exit $status
}
grep 'tests passed' build/release/tests.log
