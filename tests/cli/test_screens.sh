#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Every screen of every bundled plant, in metric and in US units: 80 columns, no number that is none or beyond
# all measure, and in US units no metric one but in what is to be typed as it is in the file.
. "$(dirname "$0")/lib.sh"
cd "$root" || exit 1

has_numbers() { ! grep -nE '(^|[ (])-?(nan|inf)([ ,.)]|$)|(^| )-0(\.0+)?( |$)|[0-9]e\+[0-9]' "$work/out"; }
is_us() {
    # Lines with --set, and what a shell line goes on with, are commands; kv is a metric coefficient by its nature.
    ! grep -vE -- '--set|="| kv ' "$work/out" | grep -nE '[0-9] (mm|cm|m|mbar|bar|degC|K|kW|kWh|kg|L|m/s|kg/h|m2|m3|Pa|kJ)([ ,.;:)]|$)'
}

screen() {
    local units
    for units in metric us; do
        run "$@" --units "$units"
        ok "$* --units $units: runs" test "$code" -eq 0
        ok "$* --units $units: 80 columns" narrow "$work/out"
        ok "$* --units $units: numbers" has_numbers
        [ "$units" = metric ] || ok "$* --units us: no metric units" is_us
    done
}

for plant in networks/*.xml; do
    screen check "$plant"
    ok "check $plant: no words are cut" test "$(grep -cF '.. ' "$work/out")" -eq 0
    screen flow "$plant"
    screen flow "$plant" --fire "20 %"
    screen flow "$plant" --phase holding
    # Where the ranking of what is assumed takes seconds, check alone shows it.
    case $plant in */mixed.xml | */straw-hold.xml) quick=--no-ranking ;; *) quick= ;; esac
    screen heat "$plant" --start 06:00 $quick
done
screen why networks/hand.xml
screen why networks/turndown-trap.xml
screen carry networks/hand.xml
screen carry networks/turndown-trap.xml --more 1 --fewer 0
screen size networks/four-bins.xml

# Where nothing comes out of the holes nothing is compared.
run flow networks/turndown-trap.xml --fire "25 %"
ok "no evenness without flow" grep -qE '^  chest3 +0 +0 +0 .* starved +0 +- +0$' "$work/out"
ok "none is said to drop out" says out "None has enough even now"
run flow networks/turndown-trap.xml --fire "0 %"
ok "a fire that is out is not turned down" test "$code" -eq 0 -a "$(grep -c 'turned down' "$work/out")" -eq 0
# Cautions of the site stand in every answer.
for verb in flow heat check; do
    run "$verb" networks/hand.xml --set "far.target=99.5 degC"
    ok "$verb: a target near the boiling point" says out "within 2 K of the boiling"
done
# A time is no clearance to open.
run heat networks/hand.xml
ok "what must be true before it is opened" test "$(tr -s '\n ' ' ' <"$work/out" | grep -c 'cool, to inoculate: all of its load at 30 degC. Safe to open is what no time tells: its steam shut, no pressure, the gas at its lid below 60 degC, and you behind a face shield')" -eq 1
ok "and no time is called so" test "$(grep -ciE 'may be( |$)|opened *$' "$work/out")" -eq 0
# A target that no steam reaches is the first thing said, with the hold that would do, and no failure.
for verb in check flow heat "why --no-remedies" "size --vary drill" "carry --more 1 --fewer 0 --no-others"; do
    for units in metric us; do
        # shellcheck disable=SC2086
        run $verb networks/four-bins.xml --set site.altitude="1900 m" --units $units
        ok "$verb in $units: a target out of reach is answered" test "$code" -eq 0
        hold='target="91.5 degC" hold="9.0 h"'
        [ $units = metric ] || hold='target="196.7 degF" hold="9.0 h"'
        ok "$verb in $units: first, with the hold that does as much" test "$(head -3 "$work/out" | tr -s '\n' ' ' |
            grep -cE "^No steam brings any vessel to .* water boils at .* here, .*$hold")" -eq 1
    done
done
run flow networks/four-bins.xml --set site.altitude="1900 m" --format csv
ok "and such a vessel is starved" grep -q '^bin1,.*,starved,' "$work/out"
run flow networks/four-bins.xml --set site.altitude="1900 m" --set bin1.target="80 degC"
ok "beside what else there is to say" test "$(head -6 "$work/out" | tr -s '\n' ' ' | grep -cE '^No steam brings bin2, bin3, bin4 to .* bin1 is fed at this moment: it gets ')" -eq 1
# Steam that goes the other way.
run flow networks/ring.xml
ok "what a negative flow means" says out 'below 0: the other way, from `to` to `from`'
run flow networks/hand.xml
ok "only where there is one" test "$(grep -c 'below 0' "$work/out")" -eq 0
# A page in Markdown: commands as code, each happening once, fires as they were set.
run report networks/turndown-trap.xml --format md
ok "commands are code" says out '`farvessel check networks/turndown-trap.xml` lists them'
ok "a hold and the valve that it shuts are one row" test "$(grep -c '^| 18 h 53 min |' "$work/out")" -eq 1
ok "fires have no digits that nobody set" says out "| fire | 100 %, kW | 75 %, kW |"
# Nothing is less than nothing.
run flow networks/turndown-trap.xml --format csv --table lines
ok "no -0 in CSV" test "$(grep -cE '(^|,)-0(,|$)' "$work/out")" -eq 0
run flow networks/turndown-trap.xml --format json
ok "no -0.0 in JSON" test "$(grep -cE -- '-0\.0*,?$' "$work/out")" -eq 0
# A size that is derived has no more digits than it deserves.
run carry networks/turndown-trap.xml --more 2 --fewer 0
ok "a twin is the first second boiler" says out "a second boiler of 30 kW"
finish
