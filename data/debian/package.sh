#!/bin/sh
# Makes pinplate_VERSION_ARCHITECTURE.deb from the tree, in build/ or in the folder named:
#   sh data/debian/package.sh [FOLDER]
# The same tree makes the same bytes: times are the last commit's.
set -eu
cd "$(dirname "$0")/../.."
. tests/packages.sh
folder=$(mkdir -p "${1-build}" && cd "${1-build}" && pwd)
build=build/package
root=$PWD/build/package-root

echo "== What is needed"
install_missing "$build_packages dpkg-dev"

echo "== Building"
mkdir -p build
rm -rf "$build" "$root" build/package-control
meson setup "$build" --prefix=/usr --libdir=lib --buildtype=release -Dstrip=true >"$build.log" 2>&1 ||
    { cat "$build.log"; exit 1; }
ninja -C "$build" src/pinplate
DESTDIR=$root meson install -C "$build" --no-rebuild --quiet

echo "== Packing"
version=$(meson introspect "$build" --projectinfo | python3 -c 'import json, sys; print(json.load(sys.stdin)["version"])')
architecture=$(dpkg --print-architecture)
mkdir -p build/package-control/debian "$root/DEBIAN" "$root/usr/share/doc/pinplate"
printf 'Source: pinplate\n\nPackage: pinplate\nArchitecture: any\n' >build/package-control/debian/control
depends=$(cd build/package-control && dpkg-shlibdeps -O "$root/usr/bin/pinplate" | sed 's/^shlibs:Depends=//')
sed -e "s/@VERSION@/$version/; s/@ARCHITECTURE@/$architecture/; s/@DEPENDS@/$depends/" \
    -e "s/@SIZE@/$(du -sk "$root/usr" | cut -f1)/" data/debian/control.in >"$root/DEBIAN/control"
install -m 644 LICENSE "$root/usr/share/doc/pinplate/copyright"
SOURCE_DATE_EPOCH=$(git log -1 --format=%ct 2>/dev/null || stat -c %Y meson.build)
export SOURCE_DATE_EPOCH
find "$root" -newermt "@$SOURCE_DATE_EPOCH" -exec touch -h -d "@$SOURCE_DATE_EPOCH" {} +
deb=$folder/pinplate_${version}_$architecture.deb
dpkg-deb --root-owner-group --build "$root" "$deb" >/dev/null
echo "Made $deb"
