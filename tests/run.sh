#!/usr/bin/env bash
# From a bare Debian 12 to the tests' verdict: installs what is missing, builds, runs every test. Exit status: ctest's.
#   tests/run.sh [-- CTEST OPTIONS]              Release, in build/tests
#   tests/run.sh --sanitize [-- CTEST OPTIONS]   all of it under the address and undefined-behaviour sanitizers
#   tests/run.sh --lint                          all of it by clang, each changed file looked over by clang-tidy
#   tests/run.sh --bench [-- BENCHMARK OPTIONS]  builds and runs the benchmarks instead
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
say() { printf '%s\n' "$*" >&2; }

preset=tests
while [ $# -gt 0 ]; do
  case $1 in
    --sanitize) preset=sanitize ;;
    --lint) preset=lint ;;
    --bench) preset=bench ;;
    --help | -h) sed -n '3,6s/^# *//p' tests/run.sh; exit ;;
    --) shift; break ;;
    *) say "tests/run.sh: takes --sanitize, --lint or --bench, and -- before options for ctest or the benchmarks"; exit 2 ;;
  esac
  shift
done

app/packages.sh build tests $([ "$preset" != lint ] || echo lint)

if [ "$preset" = lint ]; then
  app/build.sh lint -- -k 0
  exit
fi
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
# The program's own preset compiles a folder as one file, the tests' does not: it must go through too.
if [ "$preset" = tests ] && [ $# = 0 ]; then app/build.sh default; fi
ctest --preset "$preset" "$@"
