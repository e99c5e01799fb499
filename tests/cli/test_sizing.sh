#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# size and carry: formats, widths, exit codes, and that what they save is what they say.
. "$(dirname "$0")/lib.sh"
plant=$work/plant.xml
cat >"$plant" <<'XML'
<network xmlns="urn:farvessel:network:1" title="Two drums">
  <site altitude="120 m" air="12 degC" wind="0 m/s" tees="none"/>
  <stock currency="EUR">
    <hose bore="15 mm" price="10"/>
    <drill size="2 mm" price="1.5"/>
    <drill size="4 mm" price="3"/>
    <boiler output="9 kW" price="1500"/>
    <lagging thickness="25 mm" price="20"/>
  </stock>
  <boiler id="boiler" at="b0" output="5 kW" holds="0.1 bar" relief="0.5 bar" fuel="propane" loss="0 W" dryness="100 %"/>
  <header id="h1" from="b0" to="t1" length="3 m" bore="27 mm" lagging="20 mm"/>
  <header id="h2" from="t1" to="t2" length="9 m" bore="27 mm" lagging="20 mm"/>
  <hose id="s1" from="t1" to="c1" length="2 m" bore="19 mm"><barb bore="15 mm" count="2"/></hose>
  <hose id="s2" like="s1" from="t2" to="c2"/>
  <kind id="drum" volume="210 L" target="80 degC" hold="1 h" within="4 h" cool="60 degC">
    <coil bore="27 mm" length="0.9 m" holes="10" drill="3 mm"/>
    <load form="cylinder" medium="straw" diameter="12 cm" height="30 cm" count="24" mass="70 kg" moisture="70 %"/>
    <wall area="2 m2"><layer material="mineral-wool" thickness="30 mm"/></wall>
    <drain diameter="30 mm"/>
    <vent diameter="15 mm" height="0.8 m"/>
  </kind>
  <vessel id="d1" like="drum" at="c1"/>
  <vessel id="d2" like="drum" at="c2"/>
</network>
XML

run size "$root/networks/far-bench.xml" --vary drill --no-hands --units us
ok "size answers" test "$code" -eq 0 -a -s "$work/out"
ok "size keeps to 80 columns" narrow "$work/out"
ok "size says first what to take" grep -qE '^(Take|Buy nothing|Leave)' "$work/out"
run size "$plant" --vary drill --set boiler.output="1.5 kW" --set boiler.loss="0.8 kW"
ok "size says it where no core gets there" grep -q 'not all cores get' "$work/out"
ok "and has a word for each figure" test -z "$(grep -iE '\b(nan|inf)\b' "$work/out")"
run size "$plant" --vary drill --format json --save "$work/sized.xml"
cp "$work/out" "$work/size.json"
ok "its JSON fits the schema" python3 "$validate" "$root/reference/size.schema.json" "$work/size.json"
run heat "$work/sized.xml" --format json
ok "the plant saved has its last core when size says" true_json "$work/out" \
    "max(v['core_s'] for v in d['vessels']) == $(json "$work/size.json" \
        "next(c for c in d['choices'] if 'answer' in c['marks'])['last_core_s']")"
mapfile -t settings < <(json "$work/size.json" \
    "'\n'.join(o + '\n' + s for c in d['choices'] if 'answer' in c['marks']
              for o, k in (('--set', 'settings'), ('--do', 'actions')) for s in c[k])")
run heat "$plant" --format json "${settings[@]}"
ok "and so has the plant with its settings" true_json "$work/out" \
    "max(v['core_s'] for v in d['vessels']) == $(json "$work/size.json" \
        "next(c for c in d['choices'] if 'answer' in c['marks'])['last_core_s']")"
for table in choices sizes limits coils settings; do
    run size "$plant" --vary drill --format csv --table $table
    ok "size --table $table" even_csv "$work/out"
done
# Barbs far narrower than their hose: full-bore ones at all three break the limit of speed in the coils, so those of the
# far vessel alone are the small work, where one limit that all break alike is no reason to leave it as it is.
run new "$work/barbs.xml" --defaults --boiler "60 kW" --header "35 mm, 3 m" --vessels "3, 2 m" --hose "13 mm, 3 m, 3 m, 12 m" \
    --coil "21 mm, 1.5 m, 24, 3 mm" --load "wood, 13 x 13 x 20 cm, 60, 150 kg, loose" --walls "0.5 m3, plywood, 18 mm"
sed -i 's/<barb bore="[0-9.]* mm" count="2"/<barb bore="8 mm" count="6"/' "$work/barbs.xml"
run size "$work/barbs.xml" --vary hose
ok "small work that breaks a limit hides none that does not" says out "s3: full-bore barbs and unions"
# A wider hose has other barbs: never both in one choice.
run size "$work/barbs.xml" --vary hose --each --format json --set boiler.output="30 kW" --set boiler.holds="0.3 bar" \
    --set s1.bore="16 mm" --set s2.bore="16 mm" --set s3.bore="10 mm" --set s3.fitting2.bore="6 mm" \
    --set s1.fitting2.bore="14 mm" --set s2.fitting2.bore="14 mm"
ok "no choice sets the same barbs twice" true_json "$work/out" \
    "all(len(set(s.split('=')[0] for s in c['settings'])) == len(c['settings']) for c in d['choices']) and len(d['choices']) > 2"
fails 2 "an unknown part" size "$plant" --vary drill,lamp
ok "lists the parts" says err "drill|holes|spacing|coil|hose|header"
fails 2 "an unknown goal" size "$plant" --for beauty
fails 2 "a spread below 1" size "$plant" --spread 0.5
fails 2 "no number" size "$plant" --evenness much

run carry "$plant" --more 1 --fewer 0
ok "carry answers" test "$code" -eq 0 -a -s "$work/out"
ok "carry keeps to 80 columns" narrow "$work/out"
ok "carry says yes or no first" grep -qE '^(Yes|No), ' "$work/out"
run carry "$root/networks/ring.xml" --more 1 --fewer 0 --no-others
ok "a sixth vessel" says out "a sixth vessel"
run carry "$root/networks/ring.xml" --more 3 --fewer 0 --no-others
ok "an eighth vessel" says out "an eighth vessel"
run carry "$plant" --more 1 --fewer 0 --format json --save "$work/grown.xml"
cp "$work/out" "$work/carry.json"
ok "its JSON fits the schema" python3 "$validate" "$root/reference/carry.schema.json" "$work/carry.json"
run heat "$plant" --format json
ok "its own number is the plain run" true_json "$work/out" \
    "[v['core_s'] for v in d['vessels']] == $(json "$work/carry.json" \
        "[v['core_s'] for v in d['counts'][0]['together']['vessels']]")"
run heat "$work/grown.xml" --format json
ok "the plant saved is the one asked about, with what is done for it" true_json "$work/out" \
    "[v['core_s'] for v in d['vessels']] == $(json "$work/carry.json" \
        "[v['core_s'] for c in d['counts'] if c['count'] == d['asked_count'] for v in c[d['asked_does'].replace(' ', '_')]['vessels']]")"
for table in counts vessels holding ways; do
    run carry "$plant" --more 1 --fewer 0 --format csv --table $table
    ok "carry --table $table" even_csv "$work/out"
done
fails 2 "an unknown vessel" carry "$plant" --like bin9
ok "lists those that there are" says err "drum, d1, d2"
fails 2 "an unknown joint" carry "$plant" --at t99
fails 2 "nothing to change" carry "$plant" --more 0 --fewer 0
fails 2 "no count" carry "$plant" --more some
fails 2 "too many" carry "$plant" --more 1000

# Every bundled plant: an answer as the schema says, or a refusal that says why. Holes can be varied in all of them; what hands
# do has been asked above, and takes long where there are many valves.
for file in "$root"/networks/*.xml; do
    name=$(basename "$file" .xml)
    run size "$file" --vary holes --no-hands --format json
    ok "size $name fits its schema" python3 "$validate" "$root/reference/size.schema.json" "$work/out"
    run carry "$file" --more 1 --fewer 0 --no-others --format json
    ok "carry $name fits its schema" python3 "$validate" "$root/reference/carry.schema.json" "$work/out"
done

# One drum: the question is a second; a bucket of water under each drain carries a third, where hands carry none.
run new "$work/one.xml" --boiler "9 kW" --header "21 mm, 1 m" --vessels 1 --hose "13 mm, 2 m" --coil "21 mm, 1 m, 16, 2.5 mm" \
    --load "straw, 25 x 40 cm, 20, 160 kg, loose" --walls "0.5 m3, steel, 2 mm, pur, 40 mm" --defaults
run carry "$work/one.xml" --brief
ok "small work carries one more" grep -q "^Yes, a third vessel is carried with .* drains under 50 mm of$" "$work/out"
run carry "$work/one.xml" --brief --set "vessel1.opening2.seal=50 mm"
ok "and one that no work carries comes after those that are carried" \
    grep -qE "^Yes, a (second|third) vessel is carried; but a (third|fourth) vessel is not" "$work/out"

# Three boxes: a fourth in turns treats less a day than three do, but with its drains under water more than three with
# theirs; so does a fifth. What is saved is the plant that the answer is about.
run new "$work/three.xml" --units us --boiler "60000 Btu/h" --header "1 in, 6 ft" --vessels "3, 5 ft" --hose "3/4 in, 8 ft" \
    --coil "3/4 in, 6 ft, 16, 1/8 in" --load "wood, 5 x 8 x 8 in, 60, 300 lb, loose" \
    --walls "60 ft3, plywood, 3/4 in, mineral-wool, 2 in" --defaults
run carry "$work/three.xml" --format json --save "$work/four.xml"
cp "$work/out" "$work/carry.json"
ok "a fourth with work, for four without treat less than three" python3 - "$work/carry.json" <<'PYTHON'
import json, sys
a = json.load(open(sys.argv[1]))
rows = {row["count"]: row for row in a["counts"]}
day = lambda count, manner: rows[count][manner]["treated_a_day_kg"]
assert a["asked_count"] == 4 and a["asked_does"] == "with_work" and a["better_count"] is None
assert day(4, rows[4]["best"]) < day(3, "together")
assert day(3, "with_work") < day(4, "with_work") < day(5, "with_work")
assert a["answer"].startswith("Yes, a fourth vessel is carried with ") and "even 5 are carried" in a["answer"], a["answer"]
PYTHON
run carry "$work/three.xml"
ok "the work is named under the table, and what is held with it undone is told" \
    grep -qzE "with work: started together, with .*that work not done" "$work/out"
run heat "$work/four.xml" --format json
ok "heat keeps what carry promised with the work" python3 - "$work/carry.json" "$work/out" <<'PYTHON'
import json, sys
promised = [row for row in json.load(open(sys.argv[1]))["counts"] if row["count"] == 4][0]["with_work"]["last_core_s"]
kept = max(v["core_s"] for v in json.load(open(sys.argv[2]))["vessels"])
assert abs(kept - promised) < 60, (kept, promised)
PYTHON
finish
