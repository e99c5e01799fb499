#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The manual: a page for each verb, each with all of its options; the plant file's page has every element and attribute;
# mandoc finds nothing to say; every example of the help and of the guide works on a bundled plant.
. "$(dirname "$0")/lib.sh"
pages=$work/pages
mkdir "$pages"
"$program" help pages >"$work/list"
while read -r page name; do
    # shellcheck disable=SC2086
    run help $name --format man -o "$pages/$page"
    ok "$page is written" test "$code" -eq 0 -a -s "$pages/$page"
done <"$work/list"
verbs=$("$program" help | sed -n '/^Verbs/,/^$/s/^  \([a-z]*\) .*/\1/p' | sort -u)
for verb in $verbs; do
    ok "there is farvessel-$verb(1)" test -s "$pages/farvessel-$verb.1"
    wrong=
    for option in $("$program" help "$verb" | grep -oE -- '^  (-[a-z], )?--[a-z-]+' | grep -oE -- '--[a-z-]+'); do
        grep -qF -- "${option//-/\\-}" "$pages/farvessel-$verb.1" || wrong="$wrong $option"
    done
    ok "farvessel-$verb(1) has all options:$wrong" test -z "$wrong"
done
run check --list attributes --format json
wrong=$(python3 - "$work/out" "$pages/farvessel-plant.5" <<'PY'
import json, re, sys
sections = {}
for line in open(sys.argv[2], encoding="utf-8"):
    if line.startswith(".SH"):
        name = re.match(r'\.SH "<([\w-]+)>( in (<stock>|))?', line)
        here = sections.setdefault((name[2] and name[3] == "<stock>" and "stock/" or "") + name[1] if name else "", set())
    elif line.startswith("\\fB"):
        here.add(line[3:].replace("\\-", "-").replace("\\fR", "").split(" (")[0].strip())
for row in json.load(open(sys.argv[1], encoding="utf-8"))["attributes"]:
    if row["attribute"] not in sections.get(row["element"], ()):
        print(row["element"], row["attribute"])
PY
)
ok "farvessel-plant(5) has every attribute: $wrong" test -z "$wrong"
if command -v mandoc >/dev/null; then
    mandoc -Tlint "$pages"/* >"$work/out" 2>"$work/err"
    ok "mandoc has nothing to say" test ! -s "$work/out" -a ! -s "$work/err"
else
    ok "there is no mandoc; nothing is tried" true
fi
for page in measuring reading probes turning-down thermostats cautions left-out plant log-file limits; do
    run help "$page"
    ok "help $page" test "$code" -eq 0 -a -s "$work/out"
    grep -v '^  [<f]' "$work/out" >"$work/prose" # lines to be typed are not wrapped
    ok "help $page keeps to 80 columns" narrow "$work/prose"
done

# ---- examples: those of the verbs on README's first plant, with a probe, and a log that its own run made ----
here=$work/here
mkdir "$here"
sed -n '/^```xml$/,/^```$/p' "$root/README.md" | sed '1d;$d' >"$work/plant.xml"
sed 's|</network>|<probe id="p" vessel="far" at="core" column="CH 1"/></network>|' "$work/plant.xml" >"$here/plant.xml"
"$program" heat "$here/plant.xml" --start 06:48 --every "30 min" --until "5 h" --format csv --table series |
    awk -F, 'NR == 1 { print "Time,CH 1 [degC]" } $3 == "far" { printf "%s,%.1f\n", $2, $4 - 273.15 }' >"$here/run.csv"
ln -s "$root/networks" "$here/networks"
# Two of three places, for a week of three takes long.
sed -e '/id="s3"/,/<\/hose>/d' -e '/id="h3"\|id="cart3"/d' -e 's/count="4"/count="2"/' "$root/networks/week-line.xml" >"$here/week.xml"
cd "$here" || exit 1
# example LINE: as a shell reads it; `week` asks for people, and a fit of the far bench takes half a minute.
example() {
    local line=${1#farvessel } written
    case $line in
    new*)
        mkdir -p fresh && cd fresh || exit 1
        line="${line/ --boiler/ --defaults --boiler}"
        ;;
    week*) line=${line/plant.xml/week.xml} ;;
    fit*far-bench* | forecast*far-bench*)
        line=$(sed 's|networks/far-bench.xml|plant.xml|; s|networks/far-bench-log.csv|run.csv|; s|06:00|06:48|; s|12:00|11:00|' <<<"$line")
        ;;
    try*) return ;; # answers until it is stopped: its own tests
    esac
    case $'\n'$seen in
    *$'\n'"$line"$'\n'*) return ;; # once is enough
    esac
    seen+=$line$'\n'
    eval "run $line"
    written=$(sed -nE 's/.* -o ([^ ]+).*/\1/p' <<<"$line")
    case $line in new*) written=plant.xml ;; esac
    ok "$1" test "$code" -eq 0 -a -s "${written:-$work/out}"
    cd "$here" || exit 1
    rm -rf fresh
}
for page in $verbs measuring reading probes turning-down thermostats cautions left-out; do
    "$program" help "$page" | sed -nE 's/^  (farvessel .*)/\1/p'
done >"$work/examples"
# Bundled plants are asked these by test_screens.sh.
seen=$(for plant in networks/*.xml; do printf '%s\n' "check $plant" "flow $plant" "heat $plant"; done)$'\n'
while IFS= read -r line; do example "$line"; done <"$work/examples"
ok "there are examples" test "$(wc -l <"$work/examples")" -gt 30
finish
