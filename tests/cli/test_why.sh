#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# why: text within 80 columns, JSON as its schema says, sums, CSV, a remedy run again through --set and through --save.
. "$(dirname "$0")/lib.sh"

# Shares, ideal time and small things make up the time of each vessel.
sums='all(abs(x["took_s"] - x["ideal_s"] - x["small_s"] - sum(s["share_s"] or 0 for s in d["shares"]
    if s["vessel"] == x["vessel"])) <= 1e-9 * x["took_s"] for x in d["vessels"])'
# The drops on the way to each vessel follow upon each other.
ways='all(a["vessel"] != b["vessel"] or abs(a["after_pa_gauge"] - b["before_pa_gauge"]) < 1e-6
    for a, b in zip(d["pressure"], d["pressure"][1:]))'

for name in far-bench mixed ring; do
    run why "$root/networks/$name.xml" --format json
    ok "why $name fits its schema" python3 "$validate" "$root/reference/why.schema.json" "$work/out"
    ok "why $name: shares add up" true_json "$work/out" "$sums"
    [ $name = far-bench ] && cp "$work/out" "$work/far.json"
done
for name in hand four-bins turndown-trap; do
    plant=$root/networks/$name.xml
    for units in metric us; do
        run why "$plant" --units $units
        ok "why $name in $units" test "$code" -eq 0 -a -s "$work/out"
        ok "why $name in $units keeps to 80 columns" narrow "$work/out"
    done
    ok "why $name in US units says no metric unit" \
        test "$(sed '/^Worth/,$d' "$work/out" | grep -v -- --set | grep -cE '[0-9] (kW|kg|mbar|degC|mm)( |$)')" -eq 0
    run why "$plant" --format json
    ok "why $name fits its schema" python3 "$validate" "$root/reference/why.schema.json" "$work/out"
    ok "why $name: shares add up" true_json "$work/out" "$sums"
    ok "why $name: pressures follow" true_json "$work/out" "$ways"
    ok "why $name: every run has a solution" true_json "$work/out" \
        "d['method']['runs_failed'] == 0 == d['method']['remedies_failed']"
done
run why "$plant" --no-remedies --brief
ok "a hold that breaks though the cores are in time is told" \
    grep -q 'In time as it is, but the hold of chest3 breaks then' <(tr -s '\n ' ' ' <"$work/out")
run why "$plant" --format json
ok "the trap's far chest is named with its cause" true_json "$work/out" "v['chest3']['cause'] in ('sag', 'boiler')"

plant=$root/networks/four-bins.xml
run why "$plant" --vessel bin2 --format json
ok "one vessel" true_json "$work/out" "list(v) == ['bin2'] and d['method']['target'] == 'bin2'"
run why "$plant" --vessel bin4 --no-remedies --set s4.sag="50 mm"
ok "a sag that was set is found" says out "water stands in a sag on"
ok "and without remedies there are none" test "$(grep -c 'What would help' "$work/out")" -eq 0
cp "$work/out" "$work/first"
run why "$plant" --vessel bin4 --no-remedies --set s4.sag="50 mm" --threads 1
ok "the same bytes with one thread" cmp -s "$work/first" "$work/out"
for table in vessels shares pressure remedies effects; do
    run why "$root/networks/hand.xml" --format csv --table $table
    ok "CSV, $table" even_csv "$work/out"
done

# The next step, saved and run: the same seconds as in the answer.
run why "$plant" --format json --save "$work/better.xml"
cp "$work/out" "$work/why.json"
ok "there is a next step" true_json "$work/why.json" "d['next_step'] and sum(r['next_step'] == 'yes' for r in d['remedies']) == 1"
run heat "$work/better.xml" --format json
cp "$work/out" "$work/saved.json"
eval "run heat \"$plant\" --format json $(json "$work/why.json" "next(r['command'] for r in d['remedies'] if r['next_step'] == 'yes')")"
same_cores() {
    python3 - "$work/why.json" "$1" <<'PY'
import json, sys
why, heat = (json.load(open(name, encoding="utf-8")) for name in sys.argv[1:])
step = next(r["number"] for r in why["remedies"] if r["next_step"] == "yes")
said = {e["vessel"]: e["core_s"] for e in why["effects"] if e["number"] == step}
run = {v["vessel"]: v["core_s"] for v in heat["vessels"]}
sys.exit(0 if said == run else f"{said} against {run}")
PY
}
ok "its cores are those of heat with --set" same_cores "$work/out"
ok "and those of the saved plant" same_cores "$work/saved.json"

# What hands may miss of the next step, typed: the core that is told.
slip=$(json "$work/far.json" "'%s.open=%.0f %%' % (d['slip']['part'], 100 * d['slip']['to'])")
eval "run heat \"$root/networks/far-bench.xml\" --format json $(json "$work/far.json" \
    "next(r['command'] for r in d['remedies'] if r['next_step'] == 'yes')") --set \"$slip\""
ok "the next step, its worst valve missed, is as late as it says" true_json "$work/out" \
    "[abs(v['core_s'] - s['core_s']) < 1 and v['verdict'] == 'starved' for s in [json.load(open('$work/far.json'))['slip']] for v in d['vessels'] if v['vessel'] == s['vessel']] == [True]"

# A vent of 1 mm keeps air and steam back: the chamber's pressure lifts the lid, and a vent that check works out for that
# vessel is told, is the next step (no vessel later than as it is, and no lid lifted), and keeps the limit in heat.
run new "$work/lid.xml" --defaults --boiler "20 kW" --header "35 mm, 3 m" --vessels "2, 2 m" --hose "25 mm, 2 m, 3 m" \
    --coil "21 mm, 1.5 m, 24, 3 mm" --load "grain, 18 x 30 cm, 40, 120 kg, loose" --walls "0.5 m3, plywood, 18 mm"
narrow_vent=(--set "vessel1.opening1.diameter=1 mm" --set "vessel1.opening2.diameter=1 mm")
run why "$work/lid.xml" "${narrow_vent[@]}" --save "$work/vented.xml"
ok "a chamber that lifts its lid is told with the vent that it needs" \
    grep -qE 'The pressure in the chamber of vessel1, up to [0-9.]+ mbar, lifts its lid: a vent of 28 mm keeps it to 2 mbar' <(tr -s '\n ' ' ' <"$work/out")
ok "which is the next step" says out "> vessel1: a vent of 28 mm"
run plan "$work/lid.xml" "${narrow_vent[@]}" --format json
ok "plan, too, lifts no lid where a vent can be had" true_json "$work/out" \
    "d['plans'][1]['chamber_pa_gauge'] <= 200 < d['plans'][0]['chamber_pa_gauge'] and any('a vent of 28 mm' in str(m) for m in d['plans'][1]['moves'])"
run why "$work/lid.xml" "${narrow_vent[@]}" --format json --no-remedies
ok "it fits the schema" python3 "$validate" "$root/reference/why.schema.json" "$work/out"
ok "and is what check says" true_json "$work/out" "[x['vent_m'] for x in d['vessels']] == [round(d['lids'][0]['vent_m'] + 0.0005, 3), None]"
ok "with the words by themselves" true_json "$work/out" \
    "d['safety'].endswith('keeps it to 2 mbar.') and 'lid' not in (d['next_step'] or '') and d['unheld'] is None"
run why "$work/lid.xml" --set "vessel1.opening1.diameter=18 mm" --set "vessel1.opening2.diameter=1 mm" --set "vessel1.hold=14 h" \
    --format json --no-remedies
ok "a lid that lifts only in the hold of the last vessel is told, too" true_json "$work/out" "'lifts its lid' in d['safety']"
run carry "$work/lid.xml" "${narrow_vent[@]}"
ok "carry repeats what check says of it" grep -qz "the vent is too small" "$work/out"
run report "$work/lid.xml" "${narrow_vent[@]}" --why --format md
ok "and stands in the answer of the page" grep -qE 'vessel1, up to [0-9.]+ mbar, lifts its lid: a vent of 28 mm' <(sed '/^## Tables/,$d' "$work/out")
# Of more than twelve vessels, check works out the first of a kind: its vent is that of all, told in one sentence.
run new "$work/many.xml" --defaults --boiler "90 kW" --header "53 mm, 3 m" --vessels "13, 1 m" --hose "19 mm, 2 m" \
    --coil "21 mm, 1 m, 16, 3 mm" --load "grain, 18 x 30 cm, 10, 45 kg, loose" --walls "0.3 m3, plywood, 18 mm"
run why "$work/many.xml" --set "vessel.opening1.diameter=10 mm" --set "vessel.opening2.diameter=1 mm" --no-remedies --format json
ok "twins have the vent of the first" true_json "$work/out" \
    "len({x['vent_m'] for x in d['vessels']}) == 1 and d['vessels'][0]['vent_m'] > 0.01 and d['safety'].count('lifts its lid') == 1 and 'vessel1 and of 12 more' in d['safety']"
run heat "$work/vented.xml" --format json
ok "with it no lid lifts" true_json "$work/out" "max(x['pressure_most_pa_gauge'] for x in d['vessels']) <= 200"

fails 2 "an unknown vessel" why "$plant" --vessel bin5
ok "is named with those that there are" says err "no vessel is called 'bin5'; did you mean 'bin1'? The vessels are: bin1, bin2"
fails 2 "a vessel that is shut" why "$plant" --vessel bin2 --set bin2.phase=shut
ok "is said to get no steam" says err "vessel 'bin2' gets no steam during the run"
fails 2 "an option of another verb" why "$plant" --every "1 min"
fails 2 "no such table" why "$plant" --format csv --table holes
finish
