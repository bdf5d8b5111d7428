#!/bin/sh
# Runs each fuzz target: sh tests/fuzz/run.sh BUILD-FOLDER [SECONDS]. Without SECONDS the same bytes
# are tried each time, so that a change is judged by what it changed; with them each run looks
# elsewhere. The build is one by clang with -Dc_args=-fsanitize=fuzzer-no-link. Speaks TAP; what was
# found is left in the build folder under fuzz/ and shown.
set -u
cd "$(dirname "$0")/../.."
build=$1
seconds=${2:-}
if [ -n "$seconds" ]; then
    effort="-max_total_time=$seconds"
else
    effort="-runs=60000 -seed=1 -max_total_time=60"
fi
targets="csv journal measured part paste plate rack svg typed"
export LSAN_OPTIONS="suppressions=$PWD/tests/leaks.supp:print_suppressions=0"
export UBSAN_OPTIONS=halt_on_error=1:print_stacktrace=1

names=
for target in $targets; do
    names="$names tests/fuzz/fuzz-$target"
done
ninja -C "$build" $names >&2 || exit 1

failed=0
number=0
echo "1..$(echo $targets | wc -w)"
for target in $targets; do
    number=$((number + 1))
    found=$build/fuzz/$target
    [ -n "$seconds" ] || rm -rf "$found/new"
    mkdir -p "$found/new"
    if "$build/tests/fuzz/fuzz-$target" $effort -timeout=20 -rss_limit_mb=4096 \
        -max_len=65536 -print_final_stats=1 -artifact_prefix="$found/" \
        "$found/new" "tests/fuzz/corpus/$target" >"$found/log" 2>&1; then
        runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$found/log")
        echo "ok $number - fuzz $target, $runs runs"
    else
        failed=1
        echo "not ok $number - fuzz $target"
        tail -40 "$found/log" | sed 's/^/# /'
        tail -40 "$found/log" >&2
    fi
done
exit $failed
