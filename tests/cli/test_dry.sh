#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# A boiler that is fed by hand runs dry long before two boxes of soil and a tank of straw are through: each verb says so,
# a bed without steam cools, and what mends it is found with the hands that go with it.
. "$(dirname "$0")/lib.sh"

plant=$work/dry.xml
cat >"$plant" <<'XML'
<?xml version="1.0"?>
<!-- Invented. -->
<network xmlns="urn:farvessel:network:1" title="Two boxes of soil and a tank of straw">
  <site altitude="450 m" air="12 degC"/>
  <boiler id="kettle" at="b" output="36 kW" fuel="propane" holds="0.3 bar" feeding="by-hand" water="60 L" usable="40 L"/>
  <header id="main1" from="b" to="t1" bore="36 mm" length="4 m"/>
  <header id="main2" from="t1" to="t2" bore="36 mm" length="3 m"/>
  <header id="main3" from="t2" to="t3" bore="27 mm" length="6 m"/>
  <hose id="h1" from="t1" to="n1" bore="19 mm" length="2 m"><valve id="v1"/></hose>
  <hose id="h2" from="t2" to="n2" bore="19 mm" length="2.5 m"><valve id="v2"/></hose>
  <hose id="h3" from="t3" to="n3" bore="19 mm" length="5 m"><valve id="v3"/></hose>
  <kind id="box" target="82 degC" hold="30 min" within="5 h">
    <wall area="4.5 m2"><layer material="plywood" thickness="18 mm"/></wall>
    <drain diameter="20 mm"/><vent diameter="30 mm" height="0.6 m"/>
    <load form="bed" medium="soil" depth="0.45 m" area="1.4 m2" mass="700 kg" moisture="18 %"/>
    <coil bore="21 mm" length="1.5 m" holes="30" drill="3 mm"/>
  </kind>
  <vessel id="box1" like="box" at="n1" volume="1 m3"/>
  <vessel id="box2" like="box" at="n2" volume="1 m3"/>
  <vessel id="tank" at="n3" volume="1 m3" target="68 degC" hold="8 h" within="10 h">
    <wall area="5.5 m2"><layer material="steel" thickness="2 mm"/><layer material="mineral-wool" thickness="50 mm"/></wall>
    <drain diameter="20 mm"/><vent diameter="40 mm" height="1 m"/>
    <load form="cylinder" medium="straw" diameter="35 cm" height="45 cm" count="10" mass="180 kg" packing="loose"/>
    <coil bore="21 mm" length="1.5 m" holes="24" drill="3 mm"/>
  </vessel>
</network>
XML

run heat "$plant" --format json
cp "$work/out" "$work/dry.json"
dry=$(python3 -c 'import json, sys; print(json.load(open(sys.argv[1]))["boilers"][0]["dry_s"])' "$work/dry.json")
run heat "$plant" --set kettle.feeding=automatic --do "$dry s: box1 shut" --do "$dry s: box2 shut" --do "$dry s: tank shut" \
    --format json
ok "a bed that gets no more steam cools as one whose steam is shut" python3 - "$work/dry.json" "$work/out" <<'PY'
import json, sys
left, shut = ({v["vessel"]: v for v in json.load(open(f))["vessels"]} for f in sys.argv[1:])
for box in "box1", "box2":
    a, b = left[box]["over_s"], shut[box]["over_s"]
    assert 0 < b < 4 * 3600 and abs(a - b) < 1200, (box, a, b)
PY
run heat "$plant" --no-ranking
ok "the curves end soon after the boiler has run dry" grep -qE "0:00 +2:00 +4:00 +0:00" "$work/out"
run heat "$plant" --no-ranking --set kettle.feeding=automatic
ok "soil and straw have limits of their own" grep -qzE "box1, box2: up to [0-9]+ % of the load passes 82.*tank: up to [0-9]+ % of the load passes 80" "$work/out"
run flow "$plant" --brief
ok "flow names the water, not the heat" grep -qz "but kettle is dry after 42 min" "$work/out"
run plan "$plant" --format json
ok "plan feeds it and brings all in time with nothing bought" python3 - "$work/out" <<'PY'
import json, sys
best = min(json.load(open(sys.argv[1]))["plans"], key=lambda p: p["late"])
assert best["late"] == 0 and best["last_core_s"] <= 1.01 * (10 * 3600 + 13 * 60), best
PY
for off in 0 9 11 20; do
    run heat "$plant" --set kettle.feeding=automatic --set box2.phase=shut --set tank.phase=shut --format json \
        --do "30 min: kettle 0 %" --do "$((30 + off)) min: kettle 100 %"
    python3 -c 'import json, sys; print(json.load(open(sys.argv[1]))["vessels"][0]["core_s"])' "$work/out"
done >"$work/cores"
ok "a bed's front that is broken off brings its core no earlier" sort -gc "$work/cores"
run cost "$plant"
ok "a batch that does not get there has fuel, but no price a kg" grep -qz "^The batch does not get there: .* It takes [0-9.]* kWh" "$work/out"
run cost "$plant" --set kettle.feeding=automatic --set box.target="99 degC"
ok "nor has a change that brings no core there" grep -qz "With the change some core never arrives" "$work/out"
run cost "$plant" --set kettle.feeding=automatic
ok "one that is a cure is told as that, not as a saving" grep -qz "With the change all cores arrive; it takes" "$work/out"
sed 's|^</network>|  <work><crew days="mon-fri" people="1" from="07:00" to="17:00"/></work>\n&|' "$plant" >"$work/week.xml"
run week "$work/week.xml" --set kettle.feeding=automatic
ok "week says which vessel is in no batch" grep -qz "tank: in no batch of this week" "$work/out"
finish
