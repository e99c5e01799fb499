#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# size by each goal and against each limit: what is best by the goal is best of those in its own list, and a limit that
# nothing keeps is named.
. "$(dirname "$0")/lib.sh"
plant=$root/networks/four-bins.xml

for goal in time:last_core_s spread:spread fuel:fuel_j; do
    run size "$plant" --vary drill,hose --for "${goal%:*}" --format json
    ok "size for ${goal%:*}" test "$code" -eq 0
    ok "its best is the best of the list" python3 - "$work/out" "${goal#*:}" <<'PY'
import json
import sys

answer, key = json.load(open(sys.argv[1])), sys.argv[2]
rows = [r for r in answer["choices"] if r["keeps"]]
best = next(r for r in answer["choices"] if r["choice"] == answer["best"])
sys.exit(not (best["keeps"] and all(best[key] <= r[key] * (1 + 1e-3) for r in rows)))
PY
    run size "$plant" --vary drill,hose --for "${goal%:*}"
    ok "and its sentence says so" test "$code" -eq 0 -a -s "$work/out"
done

# broken LIMIT WORDS: no size in stock keeps it, and the first lines say which limit.
broken() {
    run size "$plant" --vary drill,hose "--${1%% *}" "${1#* }"
    head -n 4 "$work/out" | tr '\n' ' ' >"$work/head"
    ok "--$1: nothing keeps it" grep -q "No size in stock does it" "$work/head"
    ok "--$1: says why" grep -q "$2" "$work/head"
}
broken "evenness 0.9999" "the weakest hole passes"
broken "velocity 1m/s" "steam runs at .* at most 1.00 m/s is wanted"
broken "hole-area 0.01" "add up to .* of the bore"
broken "spread 1.0001" "the slowest vessel takes"
run size "$plant" --vary drill,hose --each
ok "each for itself" says out "holes in bin"
finish
