#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# odds, log, fit and forecast on the invented log of the far bench: formats, the same answer for any number of threads,
# and logs that are not of this plant.
. "$(dirname "$0")/lib.sh"
schemas=$root/reference
cd "$root" || exit 1
plant=networks/far-bench.xml log=networks/far-bench-log.csv

run odds $plant --runs 64
ok "odds answers within 80 columns" test "$code" -eq 0
ok "odds keeps to 80 columns" narrow "$work/out"
ok "odds says what it leaves out" says out "What they leave out"
run odds $plant --runs 64 --format json --threads 1
cp "$work/out" "$work/one"
ok "odds fits its schema" python3 "$validate" "$schemas/odds.schema.json" "$work/out"
ok "a load that is nearly too full to be loose stays loose in every draw" true_json "$work/out" 'd["method"]["runs_failed"] == 0'
ok "bands in order" true_json "$work/out" 'all(x["core_10_s"] < x["core_50_s"] < x["core_90_s"] for x in d["vessels"])'
ok "chances add up to one" true_json "$work/out" \
    'all(abs(x["chance_fed"] + x["chance_lagging"] + x["chance_starved"] - 1) < 1e-9 for x in d["vessels"])'
run odds $plant --runs 64 --format json --threads 3
ok "the same for any number of threads" cmp -s "$work/one" "$work/out"
for table in vessels inputs places runs; do
    run odds networks/hand.xml --runs 64 --format csv --table $table
    ok "odds as CSV, $table" even_csv "$work/out"
done
fails 2 "too few runs" odds $plant --runs 8

# --odds beside other answers: the same sample as odds has, and what is a tie.
run heat $plant --runs 64 --odds --format json
ok "heat with --odds fits its schema" python3 "$validate" "$schemas/heat.schema.json" "$work/out"
ok "its bands are those of odds" python3 -c 'import json, sys
heat, odds = (json.load(open(f))for f in sys.argv[1:])
sys.exit(any(abs(a["core_10_s"] - b["core_10_s"]) > 1e-3 or abs(a["core_90_s"] - b["core_90_s"]) > 1e-3
             for a, b in zip(heat["odds"]["vessels"], odds["vessels"], strict=True)))' "$work/out" "$work/one"
run size networks/four-bins.xml --vary drill --runs 64 --odds --format json
ok "size with --odds fits its schema" python3 "$validate" "$schemas/size.schema.json" "$work/out"
ok "a tie is one whose band takes in nought" true_json "$work/out" \
    'all(c["tie"] == (c["behind_10_s"] is not None and c["behind_10_s"] <= 0 <= c["behind_90_s"]) for c in d["odds"]["choices"])'
run why networks/hand.xml --runs 64 --odds
ok "why with --odds keeps to 80 columns" narrow "$work/out"
ok "why with --odds says what is left out" says out "Not counted"
for table in odds odds_vessels; do
    run heat networks/hand.xml --runs 64 --odds --format csv --table $table
    ok "heat as CSV, $table" even_csv "$work/out"
done
fails 2 "a table of --odds without it" heat $plant --format csv --table odds
fails 2 "--runs without --odds" why $plant --runs 64

run log $log
ok "log finds the plant beside it" says out "bench6"
ok "log keeps to 80 columns" narrow "$work/out"
run log $log --format json
ok "log fits its schema" python3 "$validate" "$schemas/log.schema.json" "$work/out"
ok "the low end is never longer" true_json "$work/out" \
    'all(p["longest_low_s"] <= p["longest_s"] <= p["longest_high_s"] for p in d["probes"])'
for table in probes rules readings; do
    run log $log --format csv --table $table
    ok "log as CSV, $table" even_csv "$work/out"
done
run log $log --target "60 degC" --hold "30 min"
ok "log without a plant" test "$code" -eq 0
ok "nothing is called sterile" test "$(grep -ci 'is sterile\|sterilised' "$work/out")" -eq 0
fails 2 "no log" log
fails 2 "log of a plant" log $plant

# A log that another model of the physics made, with its truth beside it; of the last core, within 6.5 % of its time.
kettle=$root/tests/logs/01-kettle-fen
run forecast "$kettle/plant.xml" --log "$kettle/log.csv" --lit 07:46 --now 09:00 --format json
ok "forecast fits its schema" python3 "$validate" "$schemas/forecast.schema.json" "$work/out"
ok "what comes is after what was" true_json "$work/out" 'd["last_done_10_s"] > 74 * 60'
ok "the truth is near" python3 -c 'import json, sys
got, truth = (json.load(open(x)) for x in sys.argv[1:])
name, true = max(((k, x["core_target_s"]) for k, x in truth["vessels"].items()), key=lambda x: x[1])
said = next(v["core_50_s"] for v in got["vessels"] if v["vessel"] == name)
sys.exit(abs(said - true) > 0.065 * true)' "$work/out" "$kettle/truth.json"
fails 2 "fit without a log" fit $plant
fails 2 "action on what is not there" fit $plant --log $log --lit 06:00 --did "07:00 v9 open 50 %"
fails 2 "lit after the log" fit $plant --log $log --lit "2031-02-17 06:00"
fails 2 "a log of another plant" fit networks/four-bins.xml --log $log --lit 06:00

# The page with both: the bands, the readings against the plant fitted to them.
sed 's|</network>|<probe id="p" vessel="far" at="core" column="CH 1"/></network>|' \
    networks/hand.xml >"$work/probed.xml"
printf '%s\n' 'Time;CH 1 [degC]' '06:00;15,0' '06:30;15,1' '07:00;27,1' '07:30;52,6' '08:00;72,2' '08:30;84,0' >"$work/log.csv"
run report "$work/probed.xml" --start 06:00 --odds --runs 64 --log "$work/log.csv" --lit 06:00 --now 08:30
ok "the page says how sure that is" says out "How sure that is"
ok "and shows the log" says out "last reading used"
fails 2 "--log is for the whole page" report $plant --log $log --only curves
fails 2 "--lit of no log" report $plant --lit 06:00

# Two columns exchanged.
sed 's/column="CH 1"/column="CH 9"/; s/column="CH 3"/column="CH 1"/; s/column="CH 9"/column="CH 3"/' $plant >"$work/swapped.xml"
fails 2 "columns exchanged" fit "$work/swapped.xml" --log $log --lit 06:00 --now 07:30
ok "which ones is said" says err "fit better the other way round"
# A depth instead of the core: half of a block's least side is its middle, so the fit is that of the core.
sed 's/vessel="chest2" at="core"/vessel="chest2" depth="64 mm"/' "$kettle/plant.xml" >"$work/deep.xml"
run fit "$work/deep.xml" --log "$kettle/log.csv" --lit 07:46 --now 09:30 --format json
cp "$work/out" "$work/deep"
run fit "$kettle/plant.xml" --log "$kettle/log.csv" --lit 07:46 --now 09:30 --format json
ok "fit fits its schema" python3 "$validate" "$schemas/fit.schema.json" "$work/out"
ok "half way through a block is its core" python3 -c 'import json, sys
a, b = (json.load(open(x))["vessels"] for x in sys.argv[1:])
sys.exit(0 if all(abs(x["core_50_s"] - y["core_50_s"]) < 120 for x, y in zip(a, b)) else 1)' "$work/deep" "$work/out"
sed 's|</network>|<gauge id="g1" at="b0" column="mbar"/></network>|' "$kettle/plant.xml" >"$work/gauge.xml"
fails 2 "a gauge whose column is not there" fit "$work/gauge.xml" --log "$kettle/log.csv" --lit 07:46 --now 08:40
ok "which is said" says err "gauge 'g1': $kettle/log.csv has no column"
sed -i 's/column="mbar"/& error="0 mbar"/' "$work/gauge.xml"
fails 2 "a gauge without an error" check "$work/gauge.xml"
sed 's|</network>|<meter what="water" boiler="boiler" value="30 L"/></network>|' "$work/probed.xml" >"$work/meter.xml"
run forecast "$work/meter.xml" --log "$work/log.csv" --lit 06:00
ok "a meter of the whole run waits for its end" says out "the meter of 'boiler' is of the whole run"
run fit "$work/probed.xml" --log "$work/log.csv" --lit 06:00 --save "$work/fitted.xml"
ok "a row of temperatures has all its cells" grep -qE '^  start temperature of .*[a-z]( +[-+][0-9.]+ K){5}$' "$work/out"
# What was saved is as sure as the log made it: of what it taught a part is open, of what it did not all.
width() { python3 -c 'import json,sys; v = json.load(open(sys.argv[1]))["vessels"][0]; print(v["core_90_s"] - v["core_10_s"])' "$work/out"; }
run odds "$work/probed.xml" --runs 64 --format json
before=$(width)
run odds "$work/fitted.xml" --runs 64 --format json
ok "the band of a fitted plant is narrower, and a band" python3 -c 'import sys; a, b = map(float, sys.argv[1:])
sys.exit(0 if 0.15 * a < b < 0.8 * a else 1)' "$before" "$(width)"
sed -i 's/depth="64 mm"/depth="65 mm"/' "$work/deep.xml"
fails 2 "a depth beyond the middle" fit "$work/deep.xml" --log "$kettle/log.csv" --lit 07:46
ok "which lies where" says err "which lies 64 mm deep"

# A log of another plant whose cores are followed to 1 K: only by a plant that nobody would believe.
sed 's/"CH 1"/"Ch01"/; s/"CH 3"/"Ch02"/; s/"CH 2"/"Ch03"/; /"CH 4"/d' "$root/tests/logs/08-drift-bank/plant.xml" >"$work/other.xml"
fails 2 "a log that is followed by an unbelievable plant" fit "$work/other.xml" --log "$kettle/log.csv" --lit 07:46 --now 09:22
ok "which is said" says err "this log is not of this plant"

# An hour off: all of it, said by the first log of tests/logs, whose errors had been taken for large ones; or from 07:30 on,
# as by a clock that was set forward.
fails 2 "lit an hour early" fit "$kettle/plant.xml" --log "$kettle/log.csv" --lit 06:46 --now 10:00
ok "which is said" says err "say --lit an hour later"
awk -F';' -v OFS=';' '/^14\/02/ { split($2, t, ":"); if (t[1] * 60 + t[2] >= 450) $2 = sprintf("%02d:%s:%s", t[1] + 1, t[2], t[3]) } 1' \
    "$root/$log" | head -30 >"$work/forward.csv"
fails 2 "a clock set forward on the way" fit $plant --log "$work/forward.csv" --lit 06:00
ok "what would put it right is said" says err "say --clock forward"
# Ctrl-C: what the runs so far say, marked. A million runs take hours; 64 of them are enough, however long they take here.
for after in 4 8 16 32 64; do
    "$program" odds "$root/networks/hand.xml" --runs 1000000 >"$work/out" 2>"$work/err" &
    pid=$!
    sleep $after
    kill -INT $pid
    wait $pid
    code=$?
    [ "$code" -ne 0 ] || break
done
ok "odds that are stopped answer all the same" test "$code" -eq 0
ok "and say from how many runs" grep -qE "^Stopped early, after [0-9]+ of 1000000 runs" "$work/out"
finish
