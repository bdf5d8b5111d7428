# What the program is built and tested with, by Debian's names; sourced by the two run scripts.
# Installs what is missing, and says nothing when nothing is.

build_packages="gcc libc6-dev meson ninja-build pkg-config python3 gettext
 libgtk-4-dev libjson-c-dev libxml2-dev libcmocka-dev libgeos-dev libfontconfig-dev fonts-osifont"

test_packages="$build_packages clang libclang-rt-14-dev units librsvg2-bin librsvg2-dev
 poppler-utils libpoppler-glib-dev libxml2-utils xvfb xauth openbox xdotool x11-utils dbus
 dbus-x11 imagemagick locales libgsl-dev at-spi2-core adwaita-icon-theme desktop-file-utils"

install_missing()
{
    missing=
    for package in $1; do
        dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' ||
            missing="$missing $package"
    done
    [ -z "$missing" ] && return 0
    echo "Installing with apt:$missing"
    as_root=
    [ "$(id -u)" -eq 0 ] || as_root=sudo
    $as_root apt-get update -qq &&
        $as_root env DEBIAN_FRONTEND=noninteractive \
            apt-get install -y -qq --no-install-recommends $missing >/dev/null
}
