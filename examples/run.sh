#!/bin/sh
# Builds Pinplate, checks the example plate, writes its prints, and opens the editor where there is
# a screen.
set -eu
cd "$(dirname "$0")/.."
. tests/packages.sh

echo "== What is needed"
install_missing "$build_packages"

echo "== Building"
mkdir -p build
if [ ! -f build/build.ninja ]; then
    meson setup build --buildtype=release >build/setup.log 2>&1 || { cat build/setup.log; exit 1; }
fi
ninja -C build src/pinplate

program=build/src/pinplate
plate=examples/grafting-blades.plate
prints=build/prints
mkdir -p "$prints"

echo "== Checking $plate"
"$program" check "$plate"

echo "== Drawing it"
"$program" draw "$plate" --to "$prints/grafting-blades.pdf"
"$program" draw "$plate" --to "$prints/grafting-blades.svg"
"$program" holes "$plate" --to "$prints/grafting-blades.csv"
echo "The prints are in $PWD/$prints:"
ls "$prints"

if [ -n "${WAYLAND_DISPLAY-}" ] || [ -n "${DISPLAY-}" ]; then
    echo "== Opening the editor"
    exec "$program" edit "$plate"
fi
echo "There is no screen here; with one, the editor opens with: $program edit $plate"
