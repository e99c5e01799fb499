#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# sweep: each row is what heat or flow says of that plant; parts put together are the whole byte for byte; what was
# stopped goes on; whatever cannot be answered is a row with its reason; the scripts beside the plants do what they say.
. "$(dirname "$0")/lib.sh"
plant=$root/networks/hand.xml
cd "$work" || exit 1

# A cell of sweep.csv by row (from 1) and heading.
cell() {
    python3 -c 'import csv, sys
print(list(csv.DictReader(open(sys.argv[1])))[int(sys.argv[2]) - 1][sys.argv[3]])' "$@"
}
same_flow() {
    run flow "$plant" --set bin3.phase=shut --set bin4.phase=shut --set "boiler.output=30 kW" --format json &&
        agrees count.csv 1 "$work/out"
}
agrees() {
    python3 - "$@" <<'PY'
import csv, json, sys
row = list(csv.DictReader(open(sys.argv[1])))[int(sys.argv[2]) - 1]
answer = json.load(open(sys.argv[3]))
for vessel in answer["vessels"]:
    name = vessel["vessel"]
    for key in ("core_s", "hold_s", "steam_kg_s", "heat_w"):
        column = f"{name}.{key}"
        if column not in row:
            continue
        here, there = row[column], vessel.get(key)
        if (here == "") != (there is None) or (here and abs(float(here) - there) > 1e-12 * abs(there)):
            sys.exit(f"{column}: {here} against {there}")
PY
}

boiler=$(sed -n 's/.*<boiler id="\([^"]*\)".*/\1/p' "$plant" | head -n 1)
run sweep "$plant" --vary "$boiler.output = 20 kW .. 30 kW in 3" --vary "site.air = 5 degC, 68 degF" -o all.csv
ok "a grid is written" test "$code" -eq 0 -a "$(wc -l <all.csv)" -eq 7
ok "the last axis runs fastest" test "$(cell all.csv 2 site.air_k)" = 293.15 -a "$(cell all.csv 2 "$boiler.output_w")" = 20000
run heat "$plant" --set "$boiler.output=25 kW" --set "site.air=68 degF" --format json
ok "a row says what heat says" agrees all.csv 4 "$work/out"
run sweep "$plant" --ask flow --vary "$boiler.output = 20 kW .. 30 kW in 3" -o flow.csv
run flow "$plant" --set "$boiler.output=30 kW" --format json
ok "a row says what flow says" agrees flow.csv 3 "$work/out"

vary=("--vary" "$boiler.output = 20 kW .. 30 kW in 7" "--ask" flow)
run sweep "$plant" "${vary[@]}" --threads 1 -o one.csv
run sweep "$plant" "${vary[@]}" --threads 3 -o three.csv
ok "any number of threads" cmp one.csv three.csv
for k in 1 2 3; do "$program" sweep "$plant" "${vary[@]}" --part $k/3; done >parts.csv
ok "parts put together are the whole" cmp one.csv parts.csv
run sweep "$plant" --vary "$boiler.output = 20 kW .. 30 kW" --ask flow --random 16 -o r1.csv
run sweep "$plant" --vary "$boiler.output = 20 kW .. 30 kW" --ask flow --random 16 -o r2.csv
run sweep "$plant" --vary "$boiler.output = 20 kW .. 30 kW" --ask flow --random 16 --seed 2 -o r3.csv
ok "a draw is the same each time" cmp r1.csv r2.csv
ok "and another with another seed" test "$(cmp r1.csv r3.csv >/dev/null 2>&1; echo $?)" -eq 1
# Sixteen Sobol' points, shifted, put one in each sixteenth of the range (a property of the sequence).
ok "draws are spread evenly" test "$(python3 -c 'import csv
print(len({int((float(r[1]) - 20000) / 10000 * 16 // 1) for r in list(csv.reader(open("r1.csv")))[1:]}))')" -ge 15

head -n 4 one.csv >again.csv.part
printf '4,2666' >>again.csv.part
run sweep "$plant" "${vary[@]}" -o again.csv --resume
ok "a stopped sweep goes on, a broken row is made anew" cmp one.csv again.csv
ok "and leaves no part behind" test ! -e again.csv.part
head -n 4 flow.csv | sed 1s/row/raw/ >other.csv.part
fails 2 "another sweep's rows are not gone on with" sweep "$plant" "${vary[@]}" -o other.csv --resume
run sweep "$plant" --ask flow --vary "$boiler.output = 30 kW, -1 kW" -o bad.csv
ok "what cannot be answered is a row" test "$code" -eq 0 -a "$(cell bad.csv 2 answered)" = false -a -n "$(cell bad.csv 2 reason)"

# How many vessels take part: the plant with the others shut; more than it has cannot be answered.
plant=$root/networks/four-bins.xml
run sweep "$plant" --vary "vessels = 2 .. 5" --vary "boiler.output = 30 kW, 36 kW" --ask flow -o count.csv
ok "a row for each number of vessels and each output" test "$code" -eq 0 -a "$(wc -l <count.csv)" -eq 9
ok "as the plant with the rest shut" same_flow
ok "five of four is a row with its reason" test "$(cell count.csv 8 reason)" = "5 vessels: the plant has 4"
fails 2 "no number of vessels" sweep "$plant" --vary "vessels = many"
fails 2 "a number, then none" sweep "$plant" --vary "vessels = 2, x"
fails 2 "from more to fewer" sweep "$plant" --vary "vessels = 6 .. 2"
plant=$root/networks/hand.xml

fails 2 "nothing to vary" sweep "$plant"
fails 2 "no such part" sweep "$plant" --vary "nothing.bore = 1 mm, 2 mm"
fails 2 "no such unit" sweep "$plant" --vary "$boiler.output = 20 kW, 30 parsec"
fails 2 "no number of values" sweep "$plant" --vary "$boiler.output = 20 kW .. 30 kW"
fails 2 "no value" sweep "$plant" --vary "$boiler.output = "
fails 2 "one value in a range" sweep "$plant" --vary "$boiler.output = 20 kW .. 30 kW in 1"
fails 2 "no such part of the whole" sweep "$plant" "${vary[@]}" --part 4/3
fails 2 "too many rows" sweep "$plant" --vary "$boiler.output = 1 kW .. 30 kW in 1000000" --vary "site.air = 0 degC .. 9 degC in 1000000"
fails 2 "resume without a file" sweep "$plant" "${vary[@]}" --resume

# Scripts that stand beside the plants.
ln -s "$program" farvessel
if command -v parallel >/dev/null 2>&1; then
    PATH=$PWD:$PATH sh "$root/networks/sweep-parallel.sh" "$plant" "$boiler.output = 20 kW .. 30 kW in 20" >p.csv 2>/dev/null
    run sweep "$plant" --vary "$boiler.output = 20 kW .. 30 kW in 20" -o w.csv
    ok "GNU parallel puts the whole together" cmp p.csv w.csv
fi
for k in $(seq 16); do
    PATH=$PWD:$PATH SLURM_ARRAY_TASK_ID=$k sh "$root/networks/sweep-slurm.sh" "$plant" "$boiler.output = 20 kW .. 30 kW in 20"
done >a.csv
run sweep "$plant" --vary "$boiler.output = 20 kW .. 30 kW in 20" -o w.csv
ok "the job array's parts are the whole" cmp a.csv w.csv

# And as a real job array, on a Slurm of one node, where there is one (root, slurm-wlm and munge).
. "$root/tests/cli/one_node.sh"
if start_node; then
    PATH=$PWD:$PATH timeout 300 sbatch --quiet --wait "$root/networks/sweep-slurm.sh" "$plant" \
        "$boiler.output = 20 kW .. 30 kW in 20" >sbatch.out 2>&1
    for k in $(seq 16); do cat "sweep-$k.csv"; done >slurm.csv
    ok "Slurm's job array is the whole" cmp slurm.csv w.csv
else
    echo "# Slurm's job array was not run: no munged, slurmctld and slurmd that start here"
fi
stop_node

finish
