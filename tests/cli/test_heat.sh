#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# heat: JSON as its schema says, equal numbers in both, CSV, options, the turn-down trap, Ctrl-C.
. "$(dirname "$0")/lib.sh"
trap_plant=$root/networks/turndown-trap.xml

# The clock times of the text are the seconds of the JSON, from 06:00 on.
same_times() {
    python3 - "$1" "$2" <<'PY'
import json, re, sys
text = open(sys.argv[1], encoding="utf-8").read().split("\nWhen\n")[1].split("\n  starved:")[0].splitlines()
vessels = json.load(open(sys.argv[2], encoding="utf-8"))["vessels"]
rows = [line for line in text if re.match(r"  \S+ +(day \d+ )?(\d\d:\d\d|- )", line)]
for row, vessel in zip(rows, vessels, strict=True):
    times = re.findall(r"(?:day (\d+) )?(\d\d):(\d\d)|(?<= )(-)(?= )", row)
    for (day, hour, minute, never), key in zip(times, ("steam_on_s", "full_s", "core_s", "hold_s", "cool_s"), strict=True):
        value = vessel[key]
        if never or value is None:
            if not (never and value is None):
                sys.exit(f"{vessel['vessel']} {key}: {row} against {value}")
        elif abs((int(hour) * 60 + int(minute) + 1440 * (int(day or 1) - 1)) * 60 - 21600 - value) > 31:
            sys.exit(f"{vessel['vessel']} {key}: {row} against {value}")
PY
}

for plant in "$root"/networks/*.xml; do
    name=$(basename "$plant")
    run heat "$plant" --start 06:00 --no-ranking # what a screen must be: test_screens.sh
    cp "$work/out" "$work/text"
    run heat "$plant" --format json --start 06:00
    ok "heat $name fits its schema" python3 "$validate" "$root/reference/heat.schema.json" "$work/out"
    ok "heat $name: text and JSON agree" same_times "$work/text" "$work/out"
    ok "heat $name: the books close to 1e-6 of the heat" true_json "$work/out" "d['audit']['relative'] < 1e-6"
    ok "heat $name: the split is all the fuel's heat" \
        true_json "$work/out" "abs(sum(s['share'] for s in d['split']) - 1) < 1e-9"
    ok "heat $name: every core arrives" true_json "$work/out" "all(x['arrival'] == 'arrived' for x in d['vessels'])"
done

run heat "$root/networks/hand.xml"
ok "what burns loses heat up the flue" says out "up the flue"
run heat "$root/networks/hand.xml" --set boiler.fuel=electricity
ok "what does not burn has no flue" test "$code" -eq 0 -a "$(grep -c flue "$work/out")" -eq 0
run heat "$trap_plant" --start 06:00
ok "the trap is in the first sentence" says out "chest3 is fed while heating but starved in the hold"
ok "and named with fire and hose" test "$(tr -s '\n ' ' ' <"$work/out" |
    grep -c 'turn-down trap: fed while heating.* starved when the fire of boiler is set to 42.0 %.* the sag of s3')" -eq 1
run heat "$trap_plant" --format json
ok "as a note for programs" true_json "$work/out" \
    "[n['parts'] for n in d['notes'] if n['id'] == 'turndown_trap'] == [['chest3']]"
ok "it got steam before and none after" true_json "$work/out" \
    "v['chest3']['steam_least_in_hold_kg_s'] == 0 and v['chest3']['hold_broken_s'] > v['chest3']['core_s']"
ok "while its neighbours hold" true_json "$work/out" "v['chest1']['fate'] == v['chest2']['fate'] != 'unheld'"
run heat "$trap_plant" --set s3.sag="0 mm" --format json
ok "without the sag there is no trap" true_json "$work/out" \
    "all(n['id'] != 'turndown_trap' for n in d['notes']) and v['chest3']['hold_broken_s'] is None"

plant=$root/networks/four-bins.xml
run heat "$plant" --format json
cp "$work/out" "$work/plain.json"
run heat "$plant" --format json --set site.altitude="1800 m"
ok "a target above the boiling point is never reached" \
    true_json "$work/out" "all(x['arrival'] == 'boiling-point' and x['fate'] == 'never' for x in d['vessels'])"
run heat "$plant" --set site.altitude="1800 m"
ok "and that is said" says out "(1800 m above the sea)"
run heat "$plant" --fire "20 %" --until "10 d" --format json
ok "too little fire never brings a core there" true_json "$work/out" "any(x['fate'] == 'never' for x in d['vessels'])"
run heat "$plant" --until "3 h" --every "1 min" --format json --series
ok "--until ends the run" true_json "$work/out" "d['end_s'] == 10800 and all(x['fate'] == 'pending' for x in d['vessels'])"
ok "--every sets the samples" true_json "$work/out" "d['series']['time_s'][:3] == [0, 60, 120] and len(d['series']['time_s']) >= 180"
ok "and lists are as long as their times" true_json "$work/out" \
    "all(len(x['core_k']) == len(d['series']['time_s']) for x in d['series']['vessels'])"
run heat "$plant" --fire 0
ok "no fire, no steam" says out "No boiler gives steam"
for table in series vessels happenings split boilers lines firing plant; do
    run heat "$plant" --format csv --table $table --start "6 pm"
    ok "CSV, $table" even_csv "$work/out"
done
run heat "$plant" --start "6:00 am"
ok "am and pm as they are said" says out "6:18 am"
run heat "$plant"
ok "without a start, times since it" says out "0:18  boiler: gives steam"
cp "$work/out" "$work/first"
run heat "$plant"
ok "the same input gives the same bytes" cmp -s "$work/first" "$work/out"

run heat "$root/networks/straw-hold.xml" --brief
ok "a thermostat's plant is answered" says out "crate is done after"
run heat "$root/networks/straw-hold.xml" --format json
ok "its cycles and its share of the time" true_json "$work/out" \
    "d['thermostats'][0]['cycles'] > 100 and 0.1 < d['thermostats'][0]['on'] < 0.6"
run heat "$root/networks/straw-hold.xml" --format json --set crate.target="90 degC"
ok "one that keeps a chamber below its target is named as the cause" true_json "$work/out" \
    "d['vessels'][0]['arrival'] == 'thermostat' and abs(d['vessels'][0]['settles_k'] - 345.15) < 1e-6"
run heat "$root/networks/straw-hold.xml" --format csv --table thermostats
ok "CSV, thermostats" even_csv "$work/out"
run flow "$root/networks/straw-hold.xml" --format json
ok "flow says that it knows of none" true_json "$work/out" "any(n['id'] == 'thermostat' for n in d['notes'])"

fails 2 "a start that is no time of day" heat "$plant" --start 25:00
fails 2 "a start without minutes" heat "$plant" --start 6
fails 2 "no time to run" heat "$plant" --until "0 h"
fails 2 "a run without unit" heat "$plant" --until 48
fails 2 "too long a run" heat "$plant" --until "3 a"
fails 2 "too many samples" heat "$plant" --until "7 d" --every "0.1 s"
fails 2 "a table of another verb" heat "$plant" --format csv --table holes

# Ctrl-C in the midst of the work: 130, nothing written, the old answer left alone. Sixty vessels take a while.
python3 - >"$work/long.xml" <<'PY'
print('<network xmlns="urn:farvessel:network:1"><site/><boiler id="b" at="t0" output="400 kW" relief="0.5 bar"/>')
for i in range(1, 61):
    print(f'<header id="h{i}" from="t{i - 1}" to="t{i}" length="2 m" bore="100 mm"/>'
          f'<hose id="s{i}" from="t{i}" to="c{i}" length="3 m" bore="25 mm"/>'
          f'<vessel id="v{i}" at="c{i}"><coil bore="27 mm" length="2 m" holes="20" drill="2.5 mm"/>'
          f'<load a="13 cm" b="13 cm" c="20 cm" count="{100 + i}" mass="{230 + 2 * i} kg" packing="loose"/>'
          f'<vent diameter="25 mm" height="1 m"/><drain diameter="30 mm"/></vessel>')
print('</network>')
PY
echo old >"$work/answer"
for after in 0.3 0.6 1.2 2.4; do # a program that has not begun is ended without a word
    "$program" heat "$work/long.xml" --every "2 s" -o "$work/answer" >"$work/out" 2>"$work/err" &
    pid=$!
    sleep $after
    kill -INT $pid
    wait $pid
    code=$?
    [ ! -s "$work/err" ] || break
done
ok "Ctrl-C ends with 130" test "$code" -eq 130
ok "says so" says err "stopped; nothing was written"
ok "and leaves the old answer" test "$(cat "$work/answer")" = old -a "$(find "$work" -name 'answer*' | wc -l)" -eq 1
run heat "$work/long.xml" --start 06:00
ok "sixty vessels fit the screen" narrow "$work/out"
ok "and fewer than 400 lines" test "$(wc -l <"$work/out")" -lt 400

# The chamber over a bed fills when the steam breaks through: that says nothing of why it is slow.
run heat "$root/networks/mixed.xml" --set "bed.within=1 h"
ok "a bed's reason is its front" says out "its bed condenses all that comes"
ok "and what mends it" grep -qzE "only a larger[[:space:]]+boiler" "$work/out"
finish
