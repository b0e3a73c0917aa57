#!/usr/bin/env bash
# Plants small faults, one at a time, and counts how many of them the tests notice.
#   tests/faults/planted/run.sh [--seed N] [--count N] [FOLDER OR FILE…]    1, 50; core ui
# Works in build/planted, on a copy of the tree. A fault that does not compile, and one that leaves the compiled program
# as it was, is drawn again. The tests' packages must be there: tests/run.sh sees to that.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../../.."

seed=1 count=50
while [ $# -gt 0 ]; do
  case $1 in
    --seed) seed=$2; shift 2 ;;
    --count) count=$2; shift 2 ;;
    --help | -h) sed -n '2,5s/^# *//p' tests/faults/planted/run.sh; exit ;;
    -*) printf '%s\n' "planted/run.sh: takes --seed N, --count N and folders" >&2; exit 2 ;;
    *) break ;;
  esac
done
within=("$@")

home=$PWD/build/planted
tree=$home/tree build=$home/build log=$home/log
mkdir -p "$home"
export CCACHE_BASEDIR=$tree CCACHE_NOHASHDIR=1
# A test program is asked after those of the areas that its own leans on; the window's takes longest.
programs=(base stats domain codec planning acts design evidence wording store exchange report faults ui)

program_of() { # area → path below the build folder
  case $1 in ui | faults) echo "tests/$1/test_$1" ;; *) echo "tests/test_$1" ;; esac
}

# --- the copy; what a run that was cut short had planted is compiled anew
interrupted=$(cat "$home/planted" 2>/dev/null || true)
rm -rf "$tree" "$home/sound"
mkdir -p "$tree" "$home/sound"
git ls-files -z --cached --others --exclude-standard | tar --null --ignore-failed-read -cf - -T - 2>/dev/null | tar -xf - -C "$tree"
[ -z "$interrupted" ] || [ ! -f "$tree/$interrupted" ] || touch "$tree/$interrupted"
rm -f "$home/planted"
cp -r "$tree/core" "$tree/ui" "$home/sound"

restore() {
  local file
  file=$(cat "$home/planted" 2>/dev/null) || return 0
  cp "$home/sound/$file" "$tree/$file" # with a new time: it is compiled anew
  rm -f "$home/planted"
}
trap restore EXIT

# Warnings are off: the compiler should not be the one that notices.
cmake -G Ninja -S "$tree" -B "$build" -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG="-O0 -w" >"$log" 2>&1 || { cat "$log" >&2; exit 1; }
known=()
for area in "${programs[@]}"; do
  [ -z "$(ninja -C "$build" -t query "$(program_of "$area")" 2>/dev/null)" ] || known+=("$area")
done
targets=(tests/faults/planted_fault)
for area in "${known[@]}"; do targets+=("$(program_of "$area")"); done
ninja -C "$build" "${targets[@]}" >"$log" 2>&1 || { tail -n 40 "$log" >&2; exit 1; }
plant=$home/planted_fault
cp "$build/tests/faults/planted_fault" "$plant"

# --- the tests keep off the user's settings, books, desktop and display
if [ ! -d "$home/locale/de_DE.utf8" ]; then
  mkdir -p "$home/locale"
  localedef --no-archive -i de_DE -f UTF-8 "$home/locale/de_DE.utf8"
fi
export QT_QPA_PLATFORM=offscreen LOCPATH="$home/locale" DBUS_SESSION_BUS_ADDRESS=disabled:
export XDG_CONFIG_HOME="$home/home/config" XDG_DATA_HOME="$home/home/data" XDG_RUNTIME_DIR="$home/home/run"
mkdir -p "$XDG_CONFIG_HOME" "$XDG_DATA_HOME"
install -d -m 700 "$XDG_RUNTIME_DIR"

# once AREA LIMIT FILTER: runs tests up to the first that fails, crashes or hangs, and prints it.
once() {
  local outcome=0 failed
  (cd "$build/$(dirname "$(program_of "$1")")" &&
    timeout -k 5 "$2" "./test_$1" --gtest_fail_fast --gtest_color=no --gtest_filter="$3") >"$log" 2>&1 || outcome=$?
  [ $outcome != 0 ] || return 0
  failed=$(sed -n '/^\[  FAILED  \]/{s/^\[  FAILED  \] \([^ ,]*\).*/\1/p;q}' "$log")
  [ -n "$failed" ] || failed=$(sed -n 's/^\[ RUN      \] //p' "$log" | tail -n 1)
  echo "${failed:-test_$1}"
}

# run AREA LIMIT [FILTER]: the same, but a test that fails among others and passes alone has not noticed anything.
run() {
  local filter=${3:-*} failed
  while true; do
    failed=$(once "$1" "$2" "$filter")
    [ -n "$failed" ] || return 0
    if [ "$failed" = "test_$1" ] || [ -n "$(once "$1" "$2" "$failed")" ]; then break; fi
    [[ $filter == *-* ]] && filter+=":$failed" || filter+="-$failed"
  done
  echo "$failed"
}

# --- without a fault all tests pass, and this is how long they take; asked once for the same programs
declare -A seconds
sound=$(cd "$build" && sha256sum app/likeleaf "${targets[@]}" | sha256sum)
if [ "$sound" = "$(head -n 1 "$home/sound-times" 2>/dev/null)" ]; then
  while read -r area took; do seconds[$area]=$took; done < <(tail -n +2 "$home/sound-times")
else
  for area in "${known[@]}"; do
    started=$SECONDS
    failed=$(run "$area" 1800)
    [ -z "$failed" ] || { printf '%s\n' "Without any fault $failed does not pass:" >&2; tail -n 40 "$log" >&2; exit 1; }
    seconds[$area]=$((SECONDS - started))
  done
  { echo "$sound"; for area in "${known[@]}"; do echo "$area ${seconds[$area]}"; done; } >"$home/sound-times"
fi

compile_to() { # FILE OBJECT, optimised: what no compiler tells apart is the same program
  local command
  command=$(ninja -C "$build" -t commands "$tree/$1^" | tail -n 1 | sed -E 's/ -M(D|T [^ ]+|F [^ ]+)//g; s/ -o [^ ]+//')
  (cd "$build" && eval "$command -O2 -o '$2'") >/dev/null 2>&1 && strip "$2"
}

same_program() { # FILE, which is sound afterwards; headers are never called the same
  [[ $1 == *.cpp ]] || return 1
  compile_to "$1" "$home/turned.o"
  restore
  compile_to "$1" "$home/sound.o"
  cmp -s "$home/turned.o" "$home/sound.o"
}

judge() { # FILE → "compiles not", "noticed by …" or nothing
  local file=$1 area object failed own others near
  area=$(cut -d/ -f2 <<<"$file")
  [[ $file == core/* ]] || area=ui
  object=
  if [[ $file == *.cpp ]]; then
    ninja -C "$build" "$tree/$file^" >"$log" 2>&1 || { echo "compiles not"; return; }
    object=$(ninja -C "$build" -t query "$tree/$file" | sed -n '/outputs:/,$s/^ *\([^ ]*\.o\)$/\1/p')
  fi
  others=()
  own=()
  for one in "${known[@]}"; do
    if [ "$one" = "$area" ]; then own=("$one"); else others+=("$one"); fi
  done
  for one in ${own[@]+"${own[@]}"} "${others[@]}"; do
    if [ -n "$object" ] && ! ninja -C "$build" -t inputs "$(program_of "$one")" | grep -xF "$object" >/dev/null; then continue; fi
    ninja -C "$build" "$(program_of "$one")" >"$log" 2>&1 || { echo "compiles not"; return; }
    local limit=$((3 * seconds[$one] + 60)) failed=
    if [ "$one" = ui ] && [ "$area" = ui ]; then
      near=$(cut -d/ -f2 <<<"$file")
      near="*${near^}*"
      failed=$(run ui "$limit" "$near")
      [ -n "$failed" ] || failed=$(run ui "$limit" "*-$near")
    else
      failed=$(run "$one" "$limit")
    fi
    [ -z "$failed" ] || { echo "noticed by $failed"; return; }
  done
}

noticed=0 planted=0 drawn=0 began=$SECONDS unnoticed=()
while [ $planted -lt "$count" ]; do
  drawn=$((drawn + 1))
  started=$SECONDS
  place=$("$plant" "$tree" "$seed" "$drawn" ${within[@]+"${within[@]}"}) || break # all places are used up
  IFS=$'\t' read -r file line was is <<<"$place"
  echo "$file" >"$home/planted"
  said=$(judge "$file")
  if [ -z "$said" ] && same_program "$file"; then said="the same program"; fi
  restore
  case $said in
    "compiles not" | "the same program") continue ;;
    "noticed by "*) noticed=$((noticed + 1)) ;;
    *) said="NOT NOTICED" unnoticed+=("$file:$line: $was  to  $is") ;;
  esac
  planted=$((planted + 1))
  printf '%3d  %s:%s: %s  to  %s: %s (%d s)\n' "$planted" "$file" "$line" "$was" "$is" "$said" $((SECONDS - started))
done

printf '\nSeed %s: %d of %d noticed; %d drawn, %d seconds.\n' "$seed" "$noticed" "$planted" "$drawn" $((SECONDS - began))
[ ${#unnoticed[@]} = 0 ] || printf 'Not noticed: %s\n' "${unnoticed[@]}"
