#!/usr/bin/env bash
# Makes the pictures of the window that pages of the guide show, in every language: the demo project on a screen of its own.
# Usage: bash resources/guide/pictures.sh [BUILD_FOLDER [LANGUAGE…]]     (build/release en de; needs Xvfb, xdotool and ImageMagick)
set -euo pipefail
guide=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
bin="$(cd "${1:-$guide/../../build/release}" && pwd)/bin"
languages=("${@:2}")
[ ${#languages[@]} -gt 0 ] || languages=(en de)
size=1180x720
longest_s=180

work=$(mktemp -d)
screen_id=""
window_id=""
end() {
    if [ -n "$1" ]; then
        kill "$1" 2>/dev/null || true
        wait "$1" 2>/dev/null || true
    fi
}
leave() {
    end "$window_id"
    end "$screen_id"
    rm -rf "$work"
}
trap leave EXIT

# No settings, recent projects or copies of the person who runs this, and none of them changed.
export HOME="$work" XDG_CONFIG_HOME="$work/config" XDG_DATA_HOME="$work/data" XDG_CACHE_HOME="$work/cache" XDG_RUNTIME_DIR="$work"
export QT_QPA_PLATFORM=xcb LANG=C.UTF-8
unset WAYLAND_DISPLAY LANGUAGE LC_ALL LC_MESSAGES

exec 3>"$work/display"
Xvfb -displayfd 3 -screen 0 "${size}x24" -nolisten tcp 2>"$work/xvfb.log" &
screen_id=$!
for ((i = 0; i < 50; i++)); do
    [ -s "$work/display" ] && break
    sleep 0.2
done
DISPLAY=":$(cat "$work/display")"
export DISPLAY

# The window when it changes no more: what it computes is there.
settled() {
    local last=none now
    for ((i = 0; i < longest_s; i++)); do
        sleep 1
        now=$(import -window root rgba:- | sha256sum)
        [ "$now" = "$last" ] && ((i > 8)) && return
        last=$now
    done
    echo "The window still changes after $longest_s s: $1" >&2
    return 1
}

picture() {
    local language=$1 screen=$2 folder=$guide/pictures
    [ "$language" = en ] || folder=$guide/$language/pictures
    mkdir -p "$folder"
    rm -rf "$work/demo"
    "$bin/turnmark-cli" demo "$work/demo" >/dev/null
    LC_MESSAGES=${language}_${language^^}.UTF-8 "$bin/turnmark" --appearance light --screen "$screen" "$work"/demo/*.turnmark \
        >"$work/turnmark.log" 2>&1 &
    window_id=$!
    local window
    window=$(timeout "$longest_s" xdotool search --sync --onlyvisible --class turnmark | head -1)
    xdotool windowmove "$window" 0 0 windowsize "$window" "${size%x*}" "${size#*x}" mousemove "${size%x*}" "${size#*x}"
    settled "$screen"
    import -window root -strip -depth 8 -colors 128 "png8:$folder/$screen.png"
    end "$window_id"
    window_id=""
    echo "wrote $folder/$screen.png"
}

for language in "${languages[@]}"; do
    for screen in plan footage reading doubts findings publish; do
        picture "$language" "$screen"
    done
done
