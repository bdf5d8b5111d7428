#!/bin/sh
# Makes the package twice, which must give the same bytes, then installs, runs and removes it on a
# clean root of Debian 12. Must run as root, and takes some minutes: part of the long suite.
#   sh tests/debian.sh [FOLDER]
set -eu
cd "$(dirname "$0")/.."
. tests/packages.sh
folder=$(mkdir -p "${1-build/debian}" && cd "${1-build/debian}" && pwd)
install_missing debootstrap

sh data/debian/package.sh "$folder/once"
sh data/debian/package.sh "$folder/twice"
cmp "$folder"/once/*.deb "$folder"/twice/*.deb
echo "The same bytes twice"

root=$folder/root
rm -rf "$root"
debootstrap --variant=minbase bookworm "$root" >"$folder/debootstrap.log" 2>&1 ||
    { tail -5 "$folder/debootstrap.log"; exit 1; }
cp "$folder"/once/*.deb examples/*.plate examples/*.platepart "$root/root/"
cp -rL /etc/apt/apt.conf.d/. "$root/etc/apt/apt.conf.d/" 2>/dev/null || true

cat >"$root/root/try" <<'END'
set -eu
cd /root
export DEBIAN_FRONTEND=noninteractive LC_ALL=C
apt-get update -qq
apt-get install -y -qq --no-install-recommends ./pinplate_*.deb xvfb xauth dbus-daemon >/dev/null
find / -xdev -name '*pinplate*' -not -path '/proc/*' -not -path '/root/*' | sort >/root/installed
pinplate check grafting-blades.plate
pinplate draw grafting-blades.plate --to prints.pdf
test "$(head -c 5 prints.pdf)" = %PDF-
pinplate figure thread M8x1.25
# The editor comes up, and goes when it is told to.
xvfb-run -a dbus-run-session -- sh -c 'GTK_A11Y=none GSK_RENDERER=cairo pinplate grafting-blades.plate & sleep 8
    kill -0 $! && kill $!' 2>/root/said
if grep -i "critical\|warning" /root/said; then
    exit 1
fi
apt-get remove --purge -y -qq pinplate >/dev/null
if find / -xdev -name '*pinplate*' -not -path '/proc/*' -not -path '/root/*' -not -path '/var/*' |
    grep .; then
    echo "left behind by the removal"
    exit 1
fi
END
mount -t proc proc "$root/proc" 2>/dev/null || true
status=0
chroot "$root" sh /root/try || status=1
umount "$root/proc" 2>/dev/null || true
[ "$status" -eq 0 ] || exit 1
rm -rf "$root"
echo "Installed, run and removed on a clean root"
