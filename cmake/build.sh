#!/usr/bin/env bash
# Installs what is missing, then configures and builds the release preset. Used by run.sh and test.sh.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
bash "$root/cmake/install_packages.sh" packages.txt
cd "$root"
cmake --preset release "$@"
cmake --build --preset release
