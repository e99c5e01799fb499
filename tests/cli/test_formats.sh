#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# JSON as the schemas say, CSV with one heading and equal rows, for every bundled plant; what is short, and lists.
. "$(dirname "$0")/lib.sh"
schemas=$root/reference

# The numbers of the text's vessel table are those of the JSON, in the text's units.
same_numbers() {
    python3 - "$1" "$2" <<'PY'
import json, sys
text = open(sys.argv[1], encoding="utf-8").read().split("\nVessels\n")[1].split("\n  need:")[0].splitlines()
vessels = json.load(open(sys.argv[2], encoding="utf-8"))["vessels"]
rows = [line.split() for line in text[3:]]
for row, vessel in zip(rows, vessels, strict=True):
    for shown, value in ((row[1], vessel["steam_kg_s"] * 3600), (row[2], vessel["share"] * 100),
                         (row[3], vessel["heat_w"] / 1e3), (row[4], vessel["need_w"] / 1e3),
                         (row[6], vessel["coil_pressure_pa_gauge"] / 100)):
        if abs(float(shown) - value) > 0.006 * max(1, abs(value)):
            sys.exit(f"{vessel['vessel']}: {shown} against {value}")
    if row[0] != vessel["vessel"] or row[5] != vessel["verdict"]:
        sys.exit(f"{row} against {vessel['vessel']} {vessel['verdict']}")
PY
}

for plant in "$root"/networks/*.xml; do
    name=$(basename "$plant")
    run flow "$plant" # its screens, and those of check: test_screens.sh
    cp "$work/out" "$work/text"
    run flow "$plant" --format json
    ok "flow $name fits its schema" python3 "$validate" "$schemas/flow.schema.json" "$work/out"
    ok "flow $name: text and JSON agree" same_numbers "$work/text" "$work/out"
    # What matters most is asked where its ranking is quick; the far bench has it in JSON, too.
    ranking='' matters=matters
    case $name in far-bench.xml) matters='' ;; mixed.xml | straw-hold.xml) ranking=--no-ranking matters='' ;; esac
    run check "$plant" --format json $ranking
    ok "check $name fits its schema" python3 "$validate" "$schemas/check.schema.json" "$work/out"
    for table in vessels lines boilers joints holes turndown plant; do
        run flow "$plant" --format csv --table $table
        ok "flow $name as CSV, $table" even_csv "$work/out"
    done
    for table in values vessels joints $matters; do
        run check "$plant" --format csv --table $table
        ok "check $name as CSV, $table" even_csv "$work/out"
    done
done

# One row for the plant, and its figures are those of the JSON.
plant_row() { # PLANT.csv ANSWER.json, condition on `p` and `d`
    python3 -c 'import csv, json, sys
p, = csv.DictReader(open(sys.argv[1])); d = json.load(open(sys.argv[2]))
sys.exit(not eval(sys.argv[3]))' "$@"
}
run flow "$root/networks/far-bench.xml" --format json
cp "$work/out" "$work/flow.json"
run flow "$root/networks/far-bench.xml" --format csv --table plant
ok "flow: a row for the plant" plant_row "$work/out" "$work/flow.json" \
    "float(p['steam_kg_s']) == d['audit']['steam_total_kg_s'] and int(p['starved']) == sum(v['verdict'] == 'starved' for v in d['vessels'])"
run heat "$root/networks/far-bench.xml" --format json
cp "$work/out" "$work/heat.json"
ok "heat: samples only where they are asked for" plant_row <(printf 'a\n1\n') "$work/heat.json" "'series' not in d"
run heat "$root/networks/far-bench.xml" --format csv --table plant
ok "heat: a row for the plant" plant_row "$work/out" "$work/heat.json" \
    "float(p['last_core_s']) == max(v['core_s'] for v in d['vessels']) and float(p['fuel_j']) == sum(b['fuel_j'] for b in d['boilers'])"
run heat "$root/networks/far-bench.xml" --series
ok "--series is for JSON" test "$code" -eq 2
run heat "$root/networks/far-bench.xml" --format json --brief
ok "--brief is for text" test "$code" -eq 2

# Brief: the answer and its table, never more than 20 lines; cautions a line each, or all of their words.
for verb in check flow heat; do
    run $verb "$root/networks/far-bench.xml"
    cp "$work/out" "$work/$verb.text"
    run $verb "$root/networks/far-bench.xml" --brief
    ok "$verb --brief is brief" test "$code" -eq 0 -a "$(wc -l <"$work/out")" -le 20
    ok "$verb --brief begins with the answer" cmp -s <(head -1 "$work/out") <(head -1 "$work/$verb.text")
done
ok "and has the table" says out "bench6"
run why "$root/networks/far-bench.xml" --brief
ok "why --brief has the next step" says out "Next step:"
cp "$work/flow.text" "$work/out"
ok "cautions a line each" says out "  ! Steam scalds, and a jet is invisible at the hole."
ok "above what is only detail" test "$(grep -n '^Cautions' "$work/out" | cut -d: -f1)" -lt "$(grep -n '^Lines' "$work/out" | cut -d: -f1)"
run flow "$root/networks/far-bench.xml" --cautions
ok "--cautions: all of their words" says out "Wherever there is steam: steam and its condensate scald at once"

# What matters most of what is assumed stands in check, and the first three in heat.
cp "$work/check.text" "$work/out"
ok "check ranks assumptions" test "$(sed -n '/^What matters most/,/^$/p' "$work/out" | sed -n 4p | grep -cE '^  load +packing .* loose +packed +over 10 times$')" -eq 1
run check "$root/networks/four-bins.xml" --no-ranking
ok "not where nobody wants it" test "$(grep -c 'What matters' "$work/out")" -eq 0
cp "$work/heat.text" "$work/out"
ok "heat names the first three" test "$(sed -n '/What matters most/,/^  - Doc/p' "$work/out" | tr -s ' \n' ' ' | grep -cE 'packing of load is taken as loose .*; sag .*; tees ')" -eq 1

# The validator itself can fail.
run flow "$root/networks/four-bins.xml" --format json
sed 's/"steam_kg_s"/"steam_kg_h"/' "$work/out" >"$work/wrong.json"
ok "a wrong key is found" test "$(python3 "$validate" "$schemas/flow.schema.json" "$work/wrong.json" | wc -l)" -gt 0
sed 's/"verdict": "[a-z]*"/"verdict": "happy"/' "$work/out" >"$work/wrong.json"
ok "a wrong word is found" test "$(python3 "$validate" "$schemas/flow.schema.json" "$work/wrong.json" | wc -l)" -gt 0

for list in materials fittings media attributes; do
    run check --list $list
    ok "the list of $list" test "$code" -eq 0 -a -s "$work/out"
    ok "the list of $list keeps to 80 columns" narrow "$work/out"
    run check --list $list --format csv
    ok "the list of $list as CSV" even_csv "$work/out"
    run check --list $list --format json
    ok "the list of $list as JSON" python3 -m json.tool "$work/out" "$work/pretty"
done
run check --list attributes
ok "how values are known is listed" test "$(grep -c '^Any element: \(known\|spread\): ' "$work/out")" -eq 2
for name in bore within moisture regain; do
    ok "attribute $name is listed" grep -q "^    $name (" "$work/out"
done

# The verdict on lid and vacuum: the flags are those of the cautions, in JSON and CSV alike.
sed 's/<drain diameter="25 mm"/<drain diameter="12 mm"/' "$root/networks/hand.xml" >"$work/tight.xml"
for verb in check flow heat; do
    run $verb "$work/tight.xml" --format csv --table lids
    ok "$verb: lids as CSV" test "$(cut -d, -f1-4 "$work/out" | tail -n +2 | sort -u | tr '\n' ' ')" = \
        "far,worked_out,true,true near,worked_out,true,true "
    run $verb "$work/tight.xml" --format json
    cp "$work/out" "$work/lids.json"
    ok "$verb: lids as JSON, as the cautions have it" python3 - "$work/lids.json" <<'PY'
import json, math, sys
answer = json.load(open(sys.argv[1]))
rows = answer["lids"]
said = sum("vent is too small" in r["text"] or "too little air" in r["text"] for r in answer["remarks"])
# One sharp hole, all the steam through it: (m / Cd A)^2 / 2 rho, saturated steam at 1 atm.
by_hand = (rows[0]["steam_kg_s"] / (0.62 * math.pi / 4 * 0.012**2)) ** 2 / (2 * 0.5977)
sys.exit(not (said == 2 and all(r["vent_too_small"] and r["air_too_little"] and r["vent_m"] > 0.012 for r in rows)
              and abs(rows[0]["pressure_pa_gauge"] / by_hand - 1) < 0.03))
PY
    ok "$verb: it fits its schema" python3 "$validate" "$root/reference/$verb.schema.json" "$work/lids.json"
done

# What known= and spread= of single values are checked against: words of the file's own grammar.
run check --list attributes --format json
ok "known= and spread= of single values are listed" python3 - "$work/out" <<'PY'
import json, sys
rows = {(r["element"], r["attribute"]): (r["known"], r["spread"]) for r in json.load(open(sys.argv[1]))["attributes"]}
words = "tape|nameplate|probe|guess"
wanted = {("hose", "bore"): (words, "%|factor"), ("site", "air"): (words, "K"), ("load", "form"): (words, ""),
          ("hose", "id"): ("", "")}
sys.exit([k for k in wanted if rows[k] != wanted[k]] != [])
PY

for topic in "" check flow help; do
    run help $topic
    ok "help $topic" test "$code" -eq 0 -a -s "$work/out"
    ok "help $topic keeps to 80 columns" narrow "$work/out"
done
run flow --help
cp "$work/out" "$work/long"
run help flow
ok "flow --help is help flow" cmp -s "$work/long" "$work/out"
run --version
ok "--version" grep -qE '^farvessel [0-9]+\.[0-9]+\.[0-9]+$' "$work/out"
finish
