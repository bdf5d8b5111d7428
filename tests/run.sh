#!/bin/sh
# Builds Pinplate with sanitizers and runs every test without a screen. Ends with a line
# "N passed, N failed". With --long the long suites run too (hours).
set -eu
cd "$(dirname "$0")/.."
. tests/packages.sh

long=
[ "${1-}" = --long ] && long=1
[ -n "$long" ] && export PINPLATE_LONG=1

echo "== What is needed"
install_missing "$test_packages"

# Sets a build folder up, or anew when it was set up by another meson or with other options.
set_up()
{
    folder=$1
    shift
    if [ -f "$folder/build.ninja" ]; then
        meson setup --reconfigure "$folder" "$@" >"$folder.log" 2>&1 && return 0
        rm -rf "$folder"
    fi
    mkdir -p build
    meson setup "$folder" "$@" >"$folder.log" 2>&1 || { cat "$folder.log"; exit 1; }
}

echo "== Building with gcc, warnings as errors, address and undefined-behaviour sanitizers"
CC=gcc set_up build/tests -Db_sanitize=address,undefined -Dwerror=true
ninja -C build/tests

echo "== Building with clang, warnings as errors"
CC=clang set_up build/clang -Dwerror=true -Db_sanitize=address,undefined -Db_lundef=false \
    -Dc_args=-fsanitize=fuzzer-no-link
ninja -C build/clang

echo "== Running the tests"
status=0
multiplier=1
left_out="--no-suite tours"
[ -n "$long" ] && multiplier=100 left_out=
meson test -C build/tests --no-rebuild --print-errorlogs -t "$multiplier" $left_out || status=1

echo "== Fuzzing each reader for a while"
sh tests/fuzz/run.sh build/clang "${long:+3600}" >build/fuzz.tap || status=1

python3 tests/tally.py build/tests/meson-logs/testlog.json build/fuzz.tap || status=1
exit $status
