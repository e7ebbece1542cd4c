#!/bin/sh
# Usage: tests/real/make_jobs.sh RAILWRIGHT DIR
#
# Starts a job over the real terrain and one from the real track, plans both and leaves them in DIR. A plan may have findings that stop work
# (exit 1: a recorded run is no fence line), but never bad input (exit 2) and never a crash.
set -eu
railwright=$1
out=$2
root=$(cd "$(dirname "$0")/../.." && pwd)
"$root/tools/fetch_real_data.sh"
mkdir -p "$out"

"$railwright" new --walk "$root/tests/real/volcano-walk.csv" --ground "$root/build/real/volcano.asc" \
  --animals cattle --rails 3 --out "$out/volcano.json"
"$railwright" new --walk "$root/build/real/track.gpx" --animals donkey --rails 3 --out "$out/track.json"

for job in volcano track; do
  status=0
  "$railwright" plan "$out/$job.json" --json >"$out/$job-plan.json" 2>"$out/$job-findings.txt" || status=$?
  if [ "$status" -gt 1 ]; then
    echo "make_jobs: plan $job.json ended with $status; see $out/$job-findings.txt" >&2
    exit 1
  fi
  echo "$job: exit $status"
done
