#!/bin/sh
# A hundred and more real drawings from a public icon set, read by us and by librsvg. The set is
# installed by npm into a temporary folder and never kept.
#
#     icons.sh CHECK-DRAWINGS
set -eu
check=$(realpath "$1")

skip() {
    echo "1..0 # SKIP $1"
    exit 0
}

[ -n "${PINPLATE_LONG-}" ] || skip 'only in the long suite: it installs the icons anew'
command -v npm >/dev/null || skip 'npm is not here'
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
(cd "$folder" && npm install --no-audit --no-fund --ignore-scripts --loglevel=error \
    @mdi/svg@7.4.47 >npm.log 2>&1) || skip 'npm could not install the icon set'
cd "$folder/node_modules/@mdi/svg/svg"
# Every third one: some 540 of them are a single shape.
ls ./*.svg | awk "NR % 3 == 0" | xargs "$check" 100
