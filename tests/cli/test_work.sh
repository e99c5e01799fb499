#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# week and cost: schemas, columns, a calendar that a second reader takes, money by hand, wrong input.
. "$(dirname "$0")/lib.sh"
plant=$root/networks/week-line.xml
cd "$work" || exit 1

run week "$plant"
ok "week answers" test "$code" -eq 0
ok "in 80 columns" narrow "$work/out"
# With two places a week is planned in an eighth of the time.
sed -e '/id="s3"/,/<\/hose>/d' -e '/id="h3"\|id="cart3"/d' -e 's/count="4"/count="2"/' "$plant" >two.xml
run week two.xml --units us
ok "in US units, too" narrow "$work/out"
ok "in units of the tape, when it is safe, too" test "$(tr -s '\n ' ' ' <"$work/out" | grep -c 'at its lid below 140 degF')" -eq 1
run week two.xml --format json --threads 1
cp "$work/out" week.json
ok "its JSON fits the schema" python3 "$validate" "$root/reference/week.schema.json" week.json
grep -v 'what="take-off"' two.xml >bare.xml
run week two.xml --format csv --table timetable
cp "$work/out" hands.csv
run week bare.xml --format csv --table timetable --set cart.changeover="10 min"
ok "what taking off takes is the changeover where no task says it" cmp -s "$work/out" hands.csv
run week bare.xml --format csv --table timetable
ok "and nothing without one" test "$code" -eq 0 -a "$(cmp -s "$work/out" hands.csv; echo $?)" -eq 1
run week two.xml --format json --threads 3
ok "for any number of threads" cmp -s "$work/out" week.json
run week two.xml --format csv --table batches
ok "batches as CSV" test "$(wc -l <"$work/out")" -eq 3
run week two.xml --format csv
ok "the timetable as CSV" test "$(head -n 1 "$work/out")" = day,begins_s,what,vessels,people,takes_s,which
cp "$work/out" week.csv

# The calendar, read by another reader: as many events as the CSV has rows, the first where the CSV has it.
run week two.xml --format ics --monday 2031-03-17
cp "$work/out" week.ics
cat >calendar.py <<'PY'
import csv, datetime, icalendar
events = icalendar.Calendar.from_ical(open("week.ics", "rb").read()).walk("VEVENT")
rows = list(csv.DictReader(open("week.csv")))
assert len(events) == len(rows), (len(events), len(rows))
for event, row in zip(events, rows):
    day = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"].index(row["day"])
    begins = datetime.datetime(2031, 3, 17) + datetime.timedelta(days=day, seconds=float(row["begins_s"]))
    assert event.decoded("dtstart") == begins, (event, row)
    assert event.decoded("duration").total_seconds() == float(row["takes_s"])
    assert str(event["summary"]).lower().startswith(row["what"])
    assert event["rrule"]["freq"] == ["WEEKLY"] and event["uid"] and event["dtstamp"]
PY
if /usr/bin/python3 -c 'import icalendar' 2>/dev/null; then
    ok "another reader takes the calendar" /usr/bin/python3 calendar.py
fi
# Odds: planned later, never more; the same for any number of threads; another sample is another.
treated() { python3 -c 'import json,sys; print(json.load(open(sys.argv[1]))["treated_kg"])' "$1"; }
run week two.xml --odds --runs 32 --format json --threads 1
cp "$work/out" odds.json
ok "a week with odds answers" test "$code" -eq 0
ok "its JSON fits the schema" python3 "$validate" "$root/reference/week.schema.json" odds.json
ok "and treats no more than one without" test "$(printf '%.0f' "$(treated odds.json)")" -le "$(printf '%.0f' "$(treated week.json)")"
ok "nine of ten are later than half" python3 -c '
import json
odds = json.load(open("odds.json"))
assert 0 < odds["holds"] <= 1 and odds["weeks"] >= 1000
for row in odds["spread"]:
    assert row["steam_low_s"] < row["steam_middle_s"] < row["steam_high_s"], row'
run week two.xml --odds --runs 32 --format json --threads 3
ok "for any number of threads" cmp -s "$work/out" odds.json
# From its midst: a probe in the second cart, whose log is a run of the same plant with less fire, lit half an hour late.
sed 's|  <work|  <probe id="p2" vessel="cart2" at="core" column="CH 1" type="K" class="2"/>\n&|' two.xml >probed.xml
run heat probed.xml --set 'boiler.output=38 kW' --no-ranking --format csv --table series
python3 - "$work/out" <<'PY'
import csv, datetime, sys
rows = [r for r in csv.DictReader(open(sys.argv[1])) if r["vessel"] == "cart2" and float(r["time_s"]) <= 4 * 3600]
for name, day, lit in ("morning", 20, 8), ("evening", 20, 18), ("sunday", 23, 20):
    with open(name + ".csv", "w") as out:
        print("Time,CH 1 (degC)", file=out)
        for r in rows[::2]:
            at = datetime.datetime(2031, 3, day, lit) + datetime.timedelta(seconds=float(r["time_s"]))
            print(f"{at:%Y-%m-%d %H:%M:%S},{float(r['core_k']) - 273.15:.1f}", file=out)
PY
run week probed.xml --at "thu 12:00" --log morning.csv --format json
cp "$work/out" rest.json
ok "a rest's JSON fits the schema" python3 "$validate" "$root/reference/week.schema.json" rest.json
run heat probed.xml --set 'boiler.output=38 kW' --no-ranking --format json
ok "it goes on when the batch is done" python3 -c '
import json, sys
rest, truth = json.load(open("rest.json")), json.load(open(sys.argv[1]))
done = 3 * 86400 + 8 * 3600 + max(v["hold_s"] for v in truth["vessels"])
assert done - 600 < rest["on_steam_until_s"] < done + 1800, (done, rest["on_steam_until_s"])
assert rest["on_steam_vessels"] == 2 and rest["usual_kg"] == 552 and rest["left_alone_s"] is None
first = rest["timetable"][0]
assert first["day"] == "Thu" and first["what"] == "take off" and done < 3 * 86400 + first["begins_s"] < done + 2700' "$work/out"
run week probed.xml --at "thu 22:00" --log evening.csv
ok "nobody stays with a fire in the night" says out "Nobody is there from Thu 22:00 on"
ok "in 80 columns" narrow "$work/out"
# Lit on Sunday at 20:00. On Monday all of the week is to come; in Sunday's last quarter of an hour nothing is.
run week probed.xml --at "mon 00:30" --log sunday.csv --odds --runs 32 --format json
ok "after Monday's midnight the usual is all of the week, and the odds are of its rest" python3 -c '
import json, sys
rest, week = json.load(open(sys.argv[1])), json.load(open("odds.json"))
assert rest["usual_kg"] == week["treated_kg"] and 0 < rest["holds"] < 1' "$work/out"
run week probed.xml --at "sun 23:50" --log sunday.csv --odds --runs 32 --format json
ok "no next week is planned" test "$code" -eq 0 -a "$(treated "$work/out")" = 0.0
ok "and where nothing is left to be done there are no odds of it" python3 -c '
import json, sys
assert json.load(open(sys.argv[1])).get("holds") is None' "$work/out"
run week probed.xml --at "sun 23:50" --log sunday.csv --odds --runs 32
ok "nor a word of them" test "$(grep -c "in 100" "$work/out")" -eq 0
run week probed.xml --at "thu 12:00" --log morning.csv --odds --runs 32 --format json
ok "what is taken off at the time that 9 of 10 keep slips once in ten at most" python3 -c '
import json, sys
rest = json.load(open(sys.argv[1]))
lit = [r for r in rest["timetable"] if r["what"] == "light"]
assert len(lit) == 1 and 0.7 < rest["holds"] < 1 and rest["slips_hot"] <= 0.2' "$work/out"
cut -d' ' -f2- morning.csv | sed '1s/.*/Elapsed,CH 1 (degC)/' >elapsed.csv
fails 2 "a log without a clock" week probed.xml --at "thu 12:00" --log elapsed.csv
ok "which is said" says err "needs a log with a clock"
fails 2 "how to read no log" week "$plant" --unit degC
fails 2 "another day" week probed.xml --at "wed 12:00" --log morning.csv
ok "which one is said" says err "2031-03-20"
fails 2 "--at without a log" week probed.xml --at "thu 12:00"
fails 2 "a log without --at" week probed.xml --log morning.csv
fails 2 "a time that is none" week probed.xml --at "thu noon" --log morning.csv
fails 2 "a calendar of a rest" week probed.xml --at "thu 12:00" --log morning.csv --format ics
fails 2 "--runs without --odds" week "$plant" --runs 64
fails 2 "a Tuesday is no Monday" week "$plant" --format ics --monday 2031-03-18
fails 2 "no such date" week "$plant" --format ics --monday 2031-02-31
fails 2 "--monday without a calendar" week "$plant" --monday 2031-03-17
fails 2 "a grid that divides no day" week "$plant" --grid "7 min"
fails 2 "nobody is said to be there" week "$root/networks/hand.xml"

# Money by hand from the amounts: propane 50.3 MJ/kg at 2.10 a kg, water 4.50 a m3, 0.09 a kg of medium, 0.18 a bag; the
# mean wage of 80 h at 19 (two people, five days), 40 h at 21, 16 h at 24; annuity of 10 years at 5 % is 7.7217 (tables of
# engineering economics, from memory).
run cost "$plant" --set 'h1.lagging=50 mm' --spend 120 --batches 150 --format json
ok "cost answers" test "$code" -eq 0
ok "its JSON fits the schema" python3 "$validate" "$root/reference/cost.schema.json" "$work/out"
cat >money.py <<'PY'
import json
d = json.load(open("out"))
now = {r["what"]: r for r in d["items"] if r["plant"] == "as it is"}
wage = (80 * 19 + 40 * 21 + 16 * 24) / 136
prices = {"fuel": 2.10 / 50.3e6, "water": 4.50 / 1000, "hours": wage / 3600, "medium": 0.09, "bags": 0.18}
for what, row in now.items():
    assert abs(row["money"] - prices[what] * row["amount"]) < 1e-9 * row["money"], (what, row)
# Tasks: fill 40, hang on 10, take off 10, empty 30 min for each of three; light 15 min; looks of 5 min every 2 h.
batch = d["batches"][0]
assert now["hours"]["amount"] == 60 * (3 * 90 + 15 + 5 * (batch["steam_end_s"] // 7200)), now["hours"]
assert abs(batch["money"] - sum(r["money"] for r in now.values())) < 1e-9
assert abs(d["present_value"] - (7.7217 * d["saved_a_year"] - 120)) < 1e-3 * abs(120)
assert abs(d["payback_years"] * d["saved_a_year"] - 120) < 1e-9
assert d["saved_a_batch"] > 0 and abs(batch["worth"] - 0.95 * batch["treated_kg"]) < 1e-9 * batch["worth"]
PY
ok "its money is right by hand" python3 money.py
# Wood of 60 % water by hand: dry 1.37 kJ/kg/K (Wood Handbook, equation 4-16, from memory), water 4.19, mixed by mass:
# 3.06; 6 x 320 kg from 12 to 95 degC: 135 kWh, though the first vessels cool while the last one is still steamed.
run cost "$root/networks/far-bench.xml" --format json
ok "least fuel is what the loads take" python3 -c 'import json, sys
least = json.load(open(sys.argv[1]))["batches"][0]["least_fuel_j"] / 3.6e6
by_hand = 6 * 320 * (0.4 * 1.37 + 0.6 * 4.19) * 83 / 3600
sys.exit(abs(least / by_hand - 1) > 0.02)' "$work/out"
run cost "$root/networks/four-bins.xml"
ok "what has no price is said" grep -q "No price is said for: fuel, water, hours" "$work/out"
ok "in 80 columns" narrow "$work/out"
fails 2 "--spend without a change" cost "$plant" --spend 120
# Nobody is there for a whole batch: what an hour more would bring is said, and is what a day of an hour more brings.
run new short.xml --defaults --vessels 1
for to in 17:00 18:00; do
    sed "s#</network>#<work><crew days=\"mon-fri\" from=\"07:00\" to=\"$to\"/></work></network>#" short.xml >until-$to.xml
done
run week until-18:00.xml --format json
kg=$(printf '%.0f' "$(treated "$work/out")")
run week until-17:00.xml
ok "what would do is said of a week without a batch" \
    test "$(tr -s '\n ' ' ' <"$work/out" | grep -c "With an hour more in the evening it would be $kg kg a week")" -eq 1
finish
