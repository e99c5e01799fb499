#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# --set, --save, --fire, --phase, --no-turndown.
. "$(dirname "$0")/lib.sh"
plant=$root/networks/four-bins.xml
cp "$plant" "$work/before.xml"

run flow "$plant" --format json
cp "$work/out" "$work/plain.json"
run flow "$plant" --format json --set boiler.output="15 kW" --set site.altitude="1500 m" --save "$work/changed.xml"
cp "$work/out" "$work/changed.json"
ok "a smaller boiler gives less" true_json "$work/changed.json" "d['audit']['heat_total_w'] <= 15000.1"
# 1500 m: 84.56 kPa (ISO 2533), boiling point 95.0 degC (IAPWS R7-97).
ok "a higher site boils lower" true_json "$work/changed.json" "abs(d['site']['boiling_point_k'] - 368.15) < 0.2"
ok "and the report says that values were changed" \
    true_json "$work/changed.json" "any(n['id'] == 'settings' for n in d['notes'])"
run flow "$work/changed.xml" --format json
cp "$work/out" "$work/again.json"
for key in vessels lines boilers joints holes turndown; do
    ok "the saved plant gives the same $key" test \
        "$(json "$work/changed.json" "d['$key']")" = "$(json "$work/again.json" "d['$key']")"
done
sed 's/<network /<network units="us" /' "$plant" > "$work/in-us.xml"
run flow "$work/in-us.xml" --units metric --save "$work/us.xml"
ok "units asked for on the way are not saved in place of the plant's" grep -q 'units="us"' "$work/us.xml"
ok "the plant itself is untouched" cmp -s "$plant" "$work/before.xml"

run check "$plant" --set s1.k=2 --format csv
ok "check lists the change" grep -q '^setting,hose,k,2,' "$work/out"
ok "and that a coefficient is fixed" grep -q '^fixed,hose,k,2,' "$work/out"

# A hose tried narrower than its barbs: said, and counted as it then is, without a step where the barb's bore is passed.
bench=$root/networks/far-bench.xml
steam_of() { # BORE: heat of bench1 in W
    run flow "$bench" --no-turndown --format json --set s1.bore="$1"
    json "$work/out" "v['bench1']['heat_w']"
}
at=$(steam_of "16 mm") just=$(steam_of "15.999 mm") less=$(steam_of "15 mm") least=$(steam_of "12 mm")
ok "a hose as narrow as its barb" test "$(python3 -c "print(abs($at - $just) < 1)")" = True
ok "narrower hoses feed the first vessel less" test "$(python3 -c "print($just > $less + 300 > $least + 1000)")" = True
run flow "$bench" --set s1.bore="15 mm"
ok "and the barb is said to be wider" says out "barb 2 of hose 's1': bore is 16 mm, wider than the line's 15 mm"
run flow "$bench" --set s1.roughness="17 mm"
ok "rougher than wide is refused" test "$code" -eq 2
ok "and says of what" says err "as much as its narrowest bore of 16 mm"

# A valve whose type is not said is a ball valve, as check says.
sed 's/<valve id="v1" type="ball-valve"/<valve id="v1"/' "$bench" >"$work/valve.xml"
for open in "100 %" "30 %"; do
    run flow "$bench" --format json --no-turndown --set v1.open="$open"
    json "$work/out" "d['vessels']" >"$work/typed"
    run flow "$work/valve.xml" --format json --no-turndown --set v1.open="$open"
    json "$work/out" "d['vessels']" >"$work/untyped"
    ok "a valve without type, $open open" cmp -s "$work/typed" "$work/untyped"
done
run check "$work/valve.xml" --format csv
ok "and check says which it is taken for" grep -q '^default,valve,type,,,-,ball-valve,' "$work/out"

# What a boiler loses while it stands does not go with its fire.
run flow "$plant" --set "boiler.loss=0 W" --format json
cp "$work/out" "$work/lossless.json"
run flow "$plant" --set "boiler.loss=0 W" --fire "50 %" --format json
ok "half the fire gives half the heat" true_json "$work/out" \
    "abs(d['audit']['heat_total_w'] / $(json "$work/lossless.json" "d['audit']['heat_total_w']") - 0.5) < 1e-6"
run flow "$plant" --fire 0
ok "no fire, no steam" says out "The fire is out"
run flow "$plant" --phase holding --format json
ok "holding vents what is not needed" true_json "$work/out" "all(v['vented_kg_s'] > 0 for v in d['vessels'])"
run flow "$root/networks/turndown-trap.xml" --phase holding --set boiler.fire=42% --format json
ok "what gets no steam vents none, whatever leaves it" true_json "$work/out" \
    "any(v['steam_kg_s'] == 0 and v['vented_kg_s'] == 0 < v['gas_out_kg_s'] for v in d['vessels']) and all(v['vented_kg_s'] <= max(v['steam_kg_s'], 0) for v in d['vessels']) and any(n['id'] == 'gives_up' for n in d['notes'])"
ok "and is said" true_json "$work/out" "d['question']['phase'] == 'holding'"
run flow "$plant" --no-turndown --format json
ok "no turn-down table" true_json "$work/out" "d['turndown'] == [] and d['dropout'] is None"
run flow "$plant" --no-turndown
ok "nor in the text" test "$(grep -c 'turned down' "$work/out")" -eq 0

# --do adds an action: the same as one in the file, by an event, by the clock, and on a valve without a name.
actions=(--do "bench1 core: v1 20 %" --do "bench2 core + 15 min: s2.fitting1 25 %" --do "3 h: boiler 80 %"
    --do "bench3 core: bench3 detach")
run heat "$bench" "${actions[@]}" --save "$work/actions.xml" --format csv --table vessels
ok "things are done in the course of the run" test "$code" -eq 0
cp "$work/out" "$work/typed"
ok "and saved" test "$(grep -c '<action ' "$work/actions.xml")" -eq 4
run heat "$work/actions.xml" --format csv --table vessels
ok "and the saved plant gives the same" cmp -s "$work/out" "$work/typed"
run heat "$bench" --format csv --table vessels
ok "which is not what it gives without" test "$(cmp -s "$work/out" "$work/typed"; echo $?)" -eq 1
for wrong in "bench1 core v1 20 %" "bench1 cor: v1 20 %" "bench1 cor + 5 min: v1 20 %" "3: v1 20 %" "2 h: v9 20 %" \
    "2 h: v1 120 %" "2 h: h1 50 %" "2 h: bench1 ajar" "2 h:"; do
    fails 2 "--do '$wrong' is refused" heat "$bench" --do "$wrong"
done
finish
