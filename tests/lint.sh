#!/bin/sh
# Reads the code with cppcheck and clang-tidy; part of the long suite. Ends with 0 when neither has
# anything to say. clang's analyzer is left out: it does not see that error_set is always false, and
# so takes each early return for a path that goes on.
#   sh tests/lint.sh [BUILD-FOLDER by clang]
set -eu
cd "$(dirname "$0")/.."
. tests/packages.sh
build=${1-build/clang}
install_missing "cppcheck clang-tidy"
status=0
echo "== cppcheck"
cppcheck -q --std=c11 --enable=warning,performance,portability --library=gtk -Isrc '-DG_GNUC_PRINTF(a,b)=' \
    --suppressions-list=tests/cppcheck.supp --suppress=missingInclude --error-exitcode=1 src || status=1
echo "== clang-tidy"
checks='-*,bugprone-*,-bugprone-easily-swappable-parameters,-bugprone-narrowing-conversions'
checks="$checks,-bugprone-reserved-identifier,-bugprone-implicit-widening-of-multiplication-result"
checks="$checks,-bugprone-macro-parentheses,-bugprone-branch-clone,-bugprone-sizeof-expression"
find src -name '*.c' | sort | xargs -n 20 clang-tidy -p "$build" --quiet --checks="$checks" \
    --warnings-as-errors="bugprone-*" --extra-arg=-Wno-format-nonliteral 2>/dev/null || status=1
exit $status
