#!/usr/bin/env bash
# From a bare Debian 12 to the tests' verdict: installs what is missing, builds, runs every test. Exit status: ctest's.
#   tests/run.sh [-- CTEST OPTIONS]              Release, in build/tests
#   tests/run.sh --sanitize [-- CTEST OPTIONS]   all of it under the address and undefined-behaviour sanitizers
#   tests/run.sh --bench [-- BENCHMARK OPTIONS]  builds and runs the benchmarks instead
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
say() { printf '%s\n' "$*" >&2; }

preset=tests
while [ $# -gt 0 ]; do
  case $1 in
    --sanitize) preset=sanitize ;;
    --bench) preset=bench ;;
    --help | -h) sed -n '3,5s/^# *//p' tests/run.sh; exit ;;
    --) shift; break ;;
    *) say "tests/run.sh: takes --sanitize or --bench, and -- before options for ctest or the benchmarks"; exit 2 ;;
  esac
  shift
done

app/packages.sh build tests

if [ "$preset" = bench ]; then
  app/build.sh bench --target tests/bench/all
  found=
  for bench in build/bench/tests/bench/bench_*; do
    if [ -f "$bench" ] && [ -x "$bench" ]; then
      found=1
      QT_QPA_PLATFORM=offscreen "$bench" "$@"
    fi
  done
  [ -n "$found" ] || { say "No benchmark was built in build/bench/tests/bench."; exit 1; }
  exit
fi

app/build.sh "$preset"
build=$PWD/build/$preset

# A locale with a decimal comma, made here so that it needs no root: number texts must not change under it.
if [ ! -d "$build/locale/de_DE.utf8" ]; then
  mkdir -p "$build/locale"
  localedef --no-archive -i de_DE -f UTF-8 "$build/locale/de_DE.utf8"
fi

# The tests keep off the user's settings, books, desktop and display.
export QT_QPA_PLATFORM=offscreen LOCPATH="$build/locale" DBUS_SESSION_BUS_ADDRESS=disabled:
export XDG_CONFIG_HOME="$build/home/config" XDG_DATA_HOME="$build/home/data" XDG_RUNTIME_DIR="$build/home/run"
mkdir -p "$XDG_CONFIG_HOME" "$XDG_DATA_HOME"
install -d -m 700 "$XDG_RUNTIME_DIR"
if [ "$preset" = sanitize ]; then
  export ASAN_OPTIONS=detect_leaks=1:detect_stack_use_after_return=1 UBSAN_OPTIONS=print_stacktrace=1
  export LSAN_OPTIONS="suppressions=$PWD/tests/leaks.txt:print_suppressions=0"
fi
ctest --test-dir "$build" --output-on-failure --no-tests=error -j2 "$@"
