#!/usr/bin/env bash
# Configures and builds one preset of CMakePresets.json: app/build.sh PRESET [options of cmake --build].
# Progress goes to standard error; configuring is silent unless it fails.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
preset=${1:?app/build.sh: name a preset of CMakePresets.json}
shift

# One compiler a processor, but no more than there is memory for: a heavy file takes about a gigabyte.
jobs=$(nproc)
free_gb=$(awk '$1 == "MemAvailable:" { print int($2 / 1048576) }' /proc/meminfo 2>/dev/null) || true
if [ "${free_gb:-$jobs}" -lt "$jobs" ]; then jobs=$((free_gb > 0 ? free_gb : 1)); fi

log=$(mktemp)
trap 'rm -f "$log"' EXIT
cmake --preset "$preset" >"$log" 2>&1 || {
  cat "$log" >&2
  printf '\n%s\n' "CMake could not configure the preset '$preset' (above is what it said)." >&2
  exit 1
}
cmake --build --preset "$preset" --parallel "$jobs" "$@" >&2
