#!/bin/sh
# Runs a command on a display, session bus and window manager of its own, with a home that is empty,
# so that no test sees a desktop's settings or another test's windows.
# Usage: in-display.sh WIDTHxHEIGHT COMMAND …
set -eu
size=$1
shift
home=$(mktemp -d)
trap 'rm -rf "$home"' EXIT INT TERM
export HOME="$home" XDG_RUNTIME_DIR="$home/run" XDG_STATE_HOME="$home/state" \
    XDG_DATA_HOME="$home/data" XDG_CONFIG_HOME="$home/config" XDG_CACHE_HOME="$home/cache" G_SLICE=always-malloc
mkdir -p "$XDG_RUNTIME_DIR"
chmod 700 "$XDG_RUNTIME_DIR"
unset WAYLAND_DISPLAY
export GDK_BACKEND=x11 GSK_RENDERER=cairo GTK_THEME=${GTK_THEME-Adwaita} LC_ALL=${LC_ALL-C.UTF-8} \
    LIBGL_ALWAYS_SOFTWARE=1
xvfb-run -a -s "-screen 0 ${size}x24" dbus-run-session -- sh -c '
    openbox >/dev/null 2>&1 &
    manager=$!
    "$@" >&3
    status=$?
    kill $manager 2>/dev/null
    exit $status' sh "$@" 3>&1 >/dev/null 2>"$home/noise" || { status=$?; cat "$home/noise" >&2; exit $status; }
