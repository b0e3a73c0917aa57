#!/usr/bin/env bash
# From a bare Debian 12 to the open window: installs what is missing, builds, makes the sample book once, opens it.
#   app/run.sh              opens the sample book
#   app/run.sh --headless   needs no display: prints the findings of the sample's trial 14 and writes its report
#                           to out/trial-14.pdf and out/trial-14.html
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
say() { printf '%s\n' "$*" >&2; }

headless=
case "$#:${1:-}" in
  0:) ;;
  1:--headless) headless=1 ;;
  1:--help | 1:-h) sed -n '3,5s/^# *//p' app/run.sh; exit ;;
  *) say "app/run.sh: takes nothing, or --headless"; exit 2 ;;
esac
if [ -z "$headless" ] && [ -z "${DISPLAY:-}${WAYLAND_DISPLAY:-}${QT_QPA_PLATFORM:-}" ]; then
  say "There is no display here to open a window on. app/run.sh --headless prints the findings and writes the report instead."
  exit 1
fi

app/packages.sh build
app/build.sh default

likeleaf=build/release/app/likeleaf
books=${XDG_DATA_HOME:-${HOME:?is not set, so there is no place for the sample book}/.local/share}/likeleaf
sample=$books/sample.leafbook
if [ ! -e "$sample" ]; then
  say "Making the sample book: $sample"
  mkdir -p "$books"
  making=$(mktemp -d "$books/making.XXXXXX")
  trap 'rm -rf "$making"' EXIT
  "$likeleaf" sample --out "$making/sample.leafbook"
  mv -n "$making/sample.leafbook" "$sample"
  rm -rf "$making"
  trap - EXIT
fi

if [ -z "$headless" ]; then
  exec "$likeleaf" "$sample"
fi
mkdir -p out
"$likeleaf" findings "$sample" --trial 14
for kind in pdf html; do
  "$likeleaf" report "$sample" --trial 14 --out "out/trial-14.$kind"
done
say "The report: out/trial-14.pdf and out/trial-14.html"
