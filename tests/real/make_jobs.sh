#!/bin/sh
# SPDX-License-Identifier: MIT
# Usage: tests/real/make_jobs.sh RAILWRIGHT DIR
#
# Starts a job over the real terrain and one from a real track, plans both and leaves jobs and plans in DIR. Both must be sound (exit 0).
set -eu
railwright=$1
out=$2
root=$(cd "$(dirname "$0")/../.." && pwd)
"$root/tools/fetch_real_data.sh"
mkdir -p "$out"

"$railwright" new --walk "$root/tests/real/volcano-walk.csv" --ground "$root/build/real/volcano.asc" \
  --animals cattle --rails 3 --out "$out/volcano.json"
python3 "$root/tests/real/cut_track.py" "$root/build/real/run.gpx" "$out/track.gpx" 200
"$railwright" new --walk "$out/track.gpx" --animals donkey --rails 3 --out "$out/track.json"

for job in volcano track; do
  status=0
  "$railwright" plan "$out/$job.json" --json >"$out/$job-plan.json" || status=$?
  if [ "$status" -ne 0 ]; then
    echo "make_jobs: plan $job.json ended with $status" >&2
    exit 1
  fi
done
python3 "$root/tests/real/check_plans.py" "$out"
