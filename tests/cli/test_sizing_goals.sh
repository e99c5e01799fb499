#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# size by each goal and against each limit: what is best by the goal is best of those in its own list, and a limit that
# nothing keeps is named.
. "$(dirname "$0")/lib.sh"
plant=$root/networks/four-bins.xml

# best PLANT GOAL:KEY OPTIONS...
best() {
    local plant=$1 goal=$2
    shift 2
    run size "$plant" --vary drill,hose --for "${goal%:*}" --format json "$@"
    ok "size for ${goal%:*}" test "$code" -eq 0
    ok "its best is the best of the list" python3 - "$work/out" "${goal#*:}" <<'PY'
import json
import sys

answer, key = json.load(open(sys.argv[1])), sys.argv[2]
rows = [r for r in answer["choices"] if r["keeps"]]
best = next(r for r in answer["choices"] if r["choice"] == answer["best"])
sys.exit(not (best["keeps"] and all(best[key] <= r[key] * 1.03 for r in rows)))
PY
    run size "$plant" --vary drill,hose --for "${goal%:*}" --no-hands
    ok "and its sentence says so" test "$code" -eq 0 -a -s "$work/out"
}
best "$plant" time:last_core_s
best "$plant" spread:spread
best "$plant" fuel:fuel_j --no-hands # with hands it takes ten seconds
sed 's/<boiler /<boiler fuel="propane" /' "$root/networks/hand.xml" >"$work/two.xml"
best "$work/two.xml" fuel:fuel_j

# broken LIMIT WORDS: a limit that the plant breaks already and no size in stock keeps is named.
broken() {
    run size "$plant" --vary drill,hose "--${1%% *}" "${1#* }"
    ok "--$1: gives an answer" grep -qE '^(Take|Buy nothing|Leave)' "$work/out"
    tr '\n' ' ' <"$work/out" | tr -s ' ' >"$work/line"
    ok "--$1: says what stays broken" grep -qE "Still .*$2" "$work/line"
    ok "--$1: and why the limit is what it is" grep -q "Why the limit" "$work/line"
}
broken "evenness 0.9999" "the weakest hole passes"
broken "velocity 1m/s" "steam runs at .* at most 1.00 m/s is wanted"
broken "coil-velocity 0.1m/s" "steam runs at"
broken "hole-area 0.01" "add up to .* of the bore"
broken "lid-pressure 0.1mbar" "all steam sent to"
broken "boiler-share 0.001" "stands at"
run size "$plant" --vary drill,hose --each --no-hands
ok "each for itself" test "$code" -eq 0
ok "how many in words" says out "choices of sizes"
finish
