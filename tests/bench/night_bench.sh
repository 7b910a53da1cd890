#!/usr/bin/env bash
# What nights cost on a project of some size, each beside its reference in the same run: the first night, one in which
# nothing has changed, one in which one panel in a hundred has. Prints CPU seconds and peak memory of all processes
# together (what they share counted once, looked at five times a second), the peak of the largest, and the ratios.
# Usage: tests/bench/night_bench.sh [PANELS]; needs build/release.
set -euo pipefail
root=$(cd "$(dirname "$0")/../.." && pwd)
panels=${1:-240}
program=$root/build/release/bin/panel-dossier
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/logs"

watch_memory() { # PID FILE: the peak of all processes of its session in KiB, until it ends
  local peak=0 now process
  echo 0 >"$2"
  while [[ -d /proc/$1 ]]; do
    now=$(for process in $(pgrep -s "$1"); do
      cat "/proc/$process/smaps_rollup" 2>/dev/null || true # it may have ended
    done | awk '/^Pss:/ { sum += $2 } END { print sum + 0 }')
    if ((now > peak)); then
      peak=$now
      echo "$peak" >"$2"
    fi
    sleep 0.2
  done
}

measure() { # NAME COMMAND...
  local name=$1 status=0 session
  shift
  setsid /usr/bin/time -o "$work/logs/$name" -f '%e %U %S %M' "$@" >"$work/logs/$name.out" 2>&1 &
  session=$!
  watch_memory "$session" "$work/logs/$name.peak" &
  wait "$session" || status=$?
  wait
  case $status in 0 | 1 | 4) ;; *) tail "$work/logs/$name.out"; exit 1 ;; esac
}
wall() { tail -n 1 "$work/logs/$1" | cut -d' ' -f1; }
cpu() { tail -n 1 "$work/logs/$1" | awk '{ print $2 + $3 }'; }
all_mb() { awk '{ printf "%.0f", $1 / 1024 }' "$work/logs/$1.peak"; }
peak_mb() { tail -n 1 "$work/logs/$1" | awk '{ printf "%.0f", $4 / 1024 }'; }
ratio() { awk -v a="$1" -v b="$2" 'BEGIN { printf "%.2f", a / b }'; }

"$root/build/release/bin/sample-export" --panels "$panels" --project "$work/project" >/dev/null
export_file=$(ls "$work"/project/*.ifcxml)
export_mb=$(awk -v b="$(stat -c %s "$export_file")" 'BEGIN { printf "%.0f", b / 1e6 }')
build() { measure "$1" "$program" build "$export_file" --out "$work/out" --keep-logs 0 "${@:2}"; }

build first
build unchanged
measure sha256 find "$work/project" -type f -exec openssl sha256 {} +
# Their serial numbers.
perl -i -pe 'if (/Name="SerialNumber"/) { $hit = $n++ % 100 == 0 } elsif ($hit && s/(<IfcIdentifier-wrapper>)/$1X/) { $hit = 0 }' \
  "$export_file"
build hundredth
grep -h 'from the store' "$work/logs/hundredth.out" || true
build whole --no-store
build in_process --no-store --in-process

echo "$panels panels, export $export_mb MB"
printf '%-28s %8s %8s %9s %12s\n' night 'wall s' 'CPU s' 'peak MB' 'largest MB'
for night in first unchanged sha256 hundredth whole in_process; do
  printf '%-28s %8s %8s %9s %12s\n' "$night" "$(wall $night)" "$(cpu $night)" "$(all_mb $night)" "$(peak_mb $night)"
done
echo "unchanged night against sha256 of its inputs: $(ratio "$(cpu unchanged)" "$(cpu sha256)") (goal 3)"
echo "unchanged night against the first: $(ratio "$(wall unchanged)" "$(wall first)") (goal 0.1)"
echo "one panel in a hundred changed against all computed, wall: $(ratio "$(wall hundredth)" "$(wall whole)")"
echo "peak memory against the export: $(ratio "$(all_mb whole)" "$export_mb") in workers, $(ratio "$(all_mb in_process)" "$export_mb") in one process (goal 4)"
