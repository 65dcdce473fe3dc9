#!/usr/bin/env bash
# Builds Turnmark, runs every test and looks over what changed with clang-tidy; the last line is the summary.
# Every case with its time stands in build/release/tests/*.xml.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$root"
bash cmake/install_packages.sh packages.txt packages-test.txt
bash cmake/build.sh -DTURNMARK_TESTS=ON
rm -rf build/release/tests/*.xml
ctest --preset release -j "$(nproc)" --output-junit "$root/build/release/tests.xml"
bash cmake/tidy.sh
sed -n 's/^<testsuites tests="\([0-9]*\)".*/\1/p' build/release/tests/*.xml | awk '{all += $1} END {print all " test cases passed"}'
