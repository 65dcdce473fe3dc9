#!/usr/bin/env bash
# One folder with the programs and every library that a base system does not have, as an archive that runs from any place.
# Usage: bash cmake/bundle.sh BUILD INTO
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
build=$1
into=$2
export LC_ALL=C.UTF-8
version=$("$build/bin/turnmark-cli" --version | sed -n '1s/.* //p')
name="turnmark-$version-$(uname -m)"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
folder="$work/$name"
mkdir -p "$folder/bin" "$folder/lib" "$folder/plugins" "$folder/share"

plugins=$(qmake6 -query QT_INSTALL_PLUGINS 2>/dev/null || echo "/usr/lib/$(dpkg-architecture -qDEB_HOST_MULTIARCH)/qt6/plugins")
for kind in platforms xcbglintegrations iconengines imageformats platforminputcontexts wayland-shell-integration; do
    [ -d "$plugins/$kind" ] && cp -r "$plugins/$kind" "$folder/plugins/"
done
# These draw on a bare screen or a phone's, and bring libraries that a desktop has no use for.
rm -f "$folder"/plugins/platforms/libq{eglfs,linuxfb,vnc,minimalegl}.so
install -s "$build/bin/turnmark" "$build/bin/turnmark-cli" "$folder/bin"

# Part of every base system, and bound to its kernel: the C library.
base='^(ld-linux.*|libc|libm|libdl|librt|libpthread|libresolv|libutil|libnss_.*|libanl)\.so'
{ ldd "$folder"/bin/*; find "$folder/plugins" -name '*.so' -exec ldd {} +; } |
    sed -n 's/.* => \(\/[^ ]*\) .*/\1/p' | sort -u | while read -r library; do
        [[ $(basename "$library") =~ $base ]] || cp -L "$library" "$folder/lib/"
    done
for file in "$folder"/bin/*; do patchelf --set-rpath '$ORIGIN/../lib' "$file"; done
for file in "$folder"/lib/*.so*; do patchelf --set-rpath '$ORIGIN' "$file"; done
find "$folder/plugins" -name '*.so' -exec patchelf --set-rpath '$ORIGIN/../../lib' {} +
printf '[Paths]\nPrefix = ..\nPlugins = plugins\n' >"$folder/bin/qt.conf"

for program in turnmark turnmark-cli; do
    printf '#!/bin/sh\nexec "$(dirname "$(readlink -f "$0")")/bin/%s" "$@"\n' $program >"$folder/$program"
    chmod 755 "$folder/$program"
done
cp "$root/LICENSE" "$folder/"
cp "$root/resources/desktop/turnmark.desktop" "$root/resources/icons/turnmark.svg" "$folder/share/"
# Whose libraries these are: the packages they came from, with their licences.
for library in "$folder"/lib/*.so*; do
    dpkg-query -S "*/$(basename "$library")" 2>/dev/null | sed -n '1s/:.*//p'
done | sort -u | while read -r package; do
    if [ -f "/usr/share/doc/$package/copyright" ]; then
        mkdir -p "$folder/share/licences"
        cp -L "/usr/share/doc/$package/copyright" "$folder/share/licences/$package"
    fi
done
cat >"$folder/README" <<'R'
Turnmark runs from this folder, wherever it lies: start ./turnmark (the window) or ./turnmark-cli (without one).
The libraries in lib/ are Debian's; share/licences says whose they are and where their sources come from.
R
tar --sort=name --owner=0 --group=0 --numeric-owner --mtime="@${SOURCE_DATE_EPOCH:-$(date +%s)}" -C "$work" -c "$name" |
    xz -T2 -6 >"$into/$name.tar.xz"
