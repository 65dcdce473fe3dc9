#!/usr/bin/env bash
# Makes the Debian package and the portable bundle into build/release/packages.
# Usage: bash cmake/package.sh
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$root"
bash cmake/install_packages.sh packages.txt packages-package.txt
# Before the build: Qt writes the times of embedded files into the program.
SOURCE_DATE_EPOCH=$(git log -1 --format=%ct)
export SOURCE_DATE_EPOCH
bash cmake/build.sh -DTURNMARK_TESTS=OFF
build="$root/build/release"
packages="$build/packages"
rm -rf "$packages"
mkdir -p "$packages"
bash cmake/command_help.sh "$build"
cpack -B "$packages" --config "$build/CPackConfig.cmake"
rm -rf "$packages/_CPack_Packages"
bash cmake/bundle.sh "$build" "$packages"

deb=$(echo "$packages"/turnmark_*.deb)
desktop-file-validate resources/desktop/turnmark.desktop
appstreamcli validate --no-net resources/desktop/turnmark.metainfo.xml
lintian --fail-on error "$deb"
ls -l "$packages"
