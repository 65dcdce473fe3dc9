#!/usr/bin/env bash
# Builds Turnmark, unpacks the demo project if there is none, and opens the window on it. Without a display it prints
# the per-implement summary of the demo instead and says where it wrote the files.
# Usage: bash cmake/run.sh [project.turnmark]
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
bash "$root/cmake/build.sh" -DTURNMARK_TESTS=OFF
bin="$root/build/release/bin"
demo="${XDG_DATA_HOME:-$HOME/.local/share}/turnmark/demo"
project="${1:-$demo/stringing bench (invented).turnmark}"
if [ $# -eq 0 ] && [ ! -f "$project" ]; then
    "$bin/turnmark-cli" demo "$demo"
fi
if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
    exec "$bin/turnmark" "$project"
fi
"$bin/turnmark-cli" summary "$project"
"$bin/turnmark-cli" export "$project" --to "$(dirname "$project")/summary" --overwrite
