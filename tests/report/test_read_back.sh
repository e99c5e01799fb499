#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# What the drawings show is what the JSON says: curves read back from the SVG by the scales that stand in it.
. "$(dirname "$0")/../cli/lib.sh"
for set in four-bins:site.wind=1m/s far-bench:site.air=-12degC; do # scales from zero, and from below
    name=${set%%:*}
    plant=$root/networks/$name.xml
    "$program" flow "$plant" --format json --set "${set#*:}" >"$work/flow.json"
    "$program" heat "$plant" --format json --series --set "${set#*:}" >"$work/heat.json"
    ok "$name: numbers that follow from others" python3 "$root/tests/report/identities.py" "$work/flow.json" "$work/heat.json"
    for drawing in turndown:flow pressure:flow holes:flow coils:flow needs:flow drops:flow curves:heat demand:heat boilers:heat \
        timeline:heat heat:heat; do
        run report "$plant" --only "${drawing%:*}" --set "${set#*:}"
        cp "$work/out" "$work/drawing.svg"
        ok "$name: ${drawing%:*}" python3 "$root/tests/report/read_back.py" "${drawing%:*}" "$work/drawing.svg" \
            "$work/${drawing#*:}.json"
    done
done
# Of two places, for it is planned twice.
sed -e '/id="s3"/,/<\/hose>/d' -e '/id="h3"\|id="cart3"/d' -e 's/count="4"/count="2"/' "$root/networks/week-line.xml" >"$work/two.xml"
"$program" week "$work/two.xml" --format json >"$work/week.json"
run report "$work/two.xml" --only week
cp "$work/out" "$work/drawing.svg"
ok "the week" python3 "$root/tests/report/read_back.py" week "$work/drawing.svg" "$work/week.json"
finish
