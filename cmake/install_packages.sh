#!/usr/bin/env bash
# Installs the packages that are missing of the named lists of this folder. Debian 12 only; elsewhere says what is needed.
# Usage: bash cmake/install_packages.sh packages.txt [packages-test.txt]
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
mapfile -t wanted < <(cd "$here" && sed -e 's/#.*//' -e '/^[[:space:]]*$/d' "$@")

if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
    echo "This is not a Debian system. Turnmark needs what these Debian 12 packages hold:" >&2
    printf '  %s\n' "${wanted[@]}" >&2
    echo "Install their counterparts, then build with: cmake --preset release && cmake --build --preset release" >&2
    exit 1
fi

missing=()
for package in "${wanted[@]}"; do
    state=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null || true)
    [ "$state" = installed ] || missing+=("$package")
done
[ ${#missing[@]} -eq 0 ] && exit 0

echo "Installing ${#missing[@]} packages: ${missing[*]}"
as_root=()
if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null || {
        echo "These packages are missing, and neither root nor sudo is at hand: ${missing[*]}" >&2
        exit 1
    }
    as_root=(sudo)
fi
export DEBIAN_FRONTEND=noninteractive
"${as_root[@]}" apt-get update -qq
"${as_root[@]}" apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
