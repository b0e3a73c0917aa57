#!/usr/bin/env bash
# Installs what is missing of the named sets of Debian 12 packages, and nothing else. Nothing missing: apt is not called.
#   app/packages.sh build                to build and run Likeleaf
#   app/packages.sh build tests          to build and run the tests and benchmarks as well
#   app/packages.sh --list build tests   prints the names, installs nothing
# LIKELEAF_SKIP_PACKAGES=1 skips it all, for systems that have the libraries under other names.
set -euo pipefail

build=(
  g++ cmake ninja-build ccache
  qt6-base-dev qt6-charts-dev qt6-svg-dev
  libqt6opengl6-dev # qt6-charts-dev needs it and does not say so
  libsqlitecpp-dev libsqlite3-dev libssl-dev
  libboost-dev libfmt-dev libexpected-dev nlohmann-json3-dev libcli11-dev
)
tests=(
  libgtest-dev libgmock-dev # libgtest-dev alone has no GTest::gmock
  librapidcheck-dev libvalijson-dev libbenchmark-dev
  poppler-utils # reads the PDFs back
  locales       # core is run under a locale with a decimal comma
)
lint=(clang clang-tidy clang-format) # the second compiler, the linter and the layout

say() { printf '%s\n' "$@" >&2; }
stop() {
  say "$@"
  exit 1
}

list=
[ "${1:-}" != --list ] || { list=1; shift; }
wanted=()
for name in "$@"; do
  case $name in
    build) wanted+=("${build[@]}") ;;
    tests) wanted+=("${tests[@]}") ;;
    lint) wanted+=("${lint[@]}") ;;
    *) say "packages.sh: no set of packages is called '$name'; there are build, tests and lint"; exit 2 ;;
  esac
done
[ ${#wanted[@]} -gt 0 ] || { say "packages.sh: name at least one of build, tests, lint"; exit 2; }
[ -z "$list" ] || { printf '%s\n' "${wanted[@]}"; exit; }
[ -z "${LIKELEAF_SKIP_PACKAGES:-}" ] || exit 0

if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
  say "This system has no apt, so the Debian packages that Likeleaf is built with cannot be installed."
  stop "Install their like (app/packages.sh --list $* names them), then run again with LIKELEAF_SKIP_PACKAGES=1."
fi

# dpkg-query also fails, and complains, for a package it has never heard of: that one is missing too.
here=$(dpkg-query -W -f='${db:Status-Status} ${Package}\n' "${wanted[@]}" 2>/dev/null | sed -n 's/^installed //p') || true
missing=()
for package in "${wanted[@]}"; do
  grep -qxF -- "$package" <<<"$here" || missing+=("$package")
done
[ ${#missing[@]} -gt 0 ] || exit 0

as_root=()
if [ "$(id -u)" != 0 ]; then
  command -v sudo >/dev/null || stop \
    "Debian packages are missing (${#missing[@]}). Installing them takes root or sudo, and here is neither." \
    "Ask someone who may do this, then run again what you ran:" \
    "  apt-get install --no-install-recommends ${missing[*]}"
  as_root=(sudo)
fi

log=$(mktemp)
trap 'rm -f "$log"' EXIT
apt() {
  ${as_root[@]+"${as_root[@]}"} env DEBIAN_FRONTEND=noninteractive apt-get -y -q -o DPkg::Lock::Timeout=300 "$@" </dev/null >>"$log" 2>&1
}
failed() {
  tail -n 40 "$log" >&2
  stop "" "$1"
}

if [ ${#missing[@]} = 1 ]; then say "Installing 1 missing package: ${missing[0]}"; else say "Installing ${#missing[@]} missing packages…"; fi
apt update || failed "The list of Debian packages could not be fetched (above is what apt said). Is there a network?"
apt install --no-install-recommends "${missing[@]}" ||
  failed "apt could not install ${missing[*]} (above is what it said)."
