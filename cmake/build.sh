#!/usr/bin/env bash
# Installs what is missing, then configures and builds the release preset. Used by run.sh and test.sh.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
bash "$root/cmake/install_packages.sh" packages.txt
cd "$root"
# In a folder that another compiler made CMake would begin anew without what the preset says.
grep -qs '^CMAKE_CXX_COMPILER:.*clang++$' build/release/CMakeCache.txt || rm -f build/release/CMakeCache.txt
cmake --preset release "$@"
cmake --build --preset release
