#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# reference/practice.md says what the program predicts of its ten plants: our own output, so a guard and no source. What
# moves by more than a tenth must be written there again.
here=$(dirname "$0")
. "$here/lib.sh"

# hours, hours, kWh/kg, kg/h/m, kg/m3 of a plant, as the table writes them
predicted() {
    python3 - "$1" "$work/out" <<'PY'
import json, re, sys
plant, answer = open(sys.argv[1]).read(), json.load(open(sys.argv[2]))
v, b, l = answer['vessels'][0], answer['boilers'][0], answer['lines'][0]
mass = float(re.search(r' mass="([\d.]+) kg"', plant).group(1))
bed = re.search(r'depth="([\d.]+) m" area="([\d.]+) m2"', plant)
steam = f"{v['steam_kg'] / (float(bed.group(1)) * float(bed.group(2))):.0f}" if bed else '-'
print(f"{(v['core_s'] - v['steam_on_s']) / 3600:.1f} | {(v['cool_s'] - v['hold_s']) / 3600:.0f} | "
      f"{b['fuel_j'] / 3.6e6 / mass:.2f} | "
      f"{l['condensate_kg'] / 4 / ((answer['steam_end_s'] - v['steam_on_s']) / 3600):.2f} | {steam}")
PY
}

for plant in "$root"/reference/practice/*.xml; do
    name=$(basename "$plant" .xml)
    run heat "$plant" --format json --no-ranking
    ok "$name is answered" test "$code" -eq 0
    now=$(predicted "$plant")
    said=$(sed -n "s/^| $name | [^|]* | \(.*\) |$/\1/p" "$root/reference/practice.md")
    echo "check | $name: core, cooling, fuel, hose, steam | $said | got $now | guard: our own output"
    ok "$name: practice.md says what comes out" python3 -c '
import sys
now, said = (a.split(" | ") for a in sys.argv[1:])
sys.exit(not all(n == s or abs(float(n) - float(s)) <= 0.1 * float(s) for n, s in zip(now, said, strict=True)))
' "$now" "$said"
done
finish
