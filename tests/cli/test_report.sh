#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# report from the command line: whole pages or none, drawings, dates and clocks.
. "$(dirname "$0")/lib.sh"
plant=$root/networks/hand.xml

run report "$plant" --date 2031-03-14
ok "a page on standard output" test "$code" -eq 0 -a -s "$work/out"
cp "$work/out" "$work/page.html"
ok "is well-formed" xmllint --nonet --noout "$work/page.html"
sum=$(sha256sum "$plant" | cut -d ' ' -f 1)
ok "names the digest of the file" says out "$sum"
ok "and the date" says out 2031-03-14
run report "$plant" --date 2031-03-14 -o "$work/page2.html"
ok "comes out the same again" cmp -s "$work/page.html" "$work/page2.html"
"$program" report - --date 2031-03-14 <"$plant" >"$work/out" 2>"$work/err"
ok "a plant on standard input has the same digest" says out "$sum"
run report "$plant"
ok "today's date where none is given" says out "$(date +%Y)-"

for only in drawing curves pressure holes demand heat turndown; do
    run report "$plant" --only $only
    ok "--only $only is one SVG" test "$code" -eq 0 -a "$(xmllint --nonet --xpath 'local-name(/*)' "$work/out")" = svg
done
run report "$plant" --format md --date 2031-03-14
ok "Markdown begins with the title" test "$code" -eq 0 -a "$(head -c 2 "$work/out")" = "# "
ok "and has the cautions" says out "## Cautions"
run report "$plant" --no-run
ok "--no-run leaves the run out" test "$code" -eq 0 -a "$(grep -c 'Vessels over the run' "$work/out")" -eq 0
run report "$plant" --why
ok "--why names what would make it earlier" says out "In time as it is; to be earlier"
run report networks/far-bench.xml --why --format md
ok "and the next step where a vessel is late" says out "What to do next"
run report networks/four-bins.xml --format md
ok "without --why, too, where it is soon known" says out 'To try it: `'
run new "$work/ten.xml" --defaults --vessels "10, 2 m" --boiler "50 kW" --header "35 mm, 3 m"
run report "$work/ten.xml" --format md
ok "else the command that tells it" says out 'What would help: `farvessel why '
run report "$plant" --plan --start 06:30
ok "--plan says what to do and when" says out "What to do, and when"
run report networks/week-line.xml --only week
ok "the week is a picture of its own" test "$code" -eq 0 -a "$(grep -c '>vessel 7</text>' "$work/out")" -eq 1
fails 2 "there is no week without who is there" report "$plant" --only week
run report networks/week-line.xml --why
ok "prices give a section about money" says out "Which changes pay"
run report "$plant"
ok "and without prices there is none" test "$code" -eq 0 -a "$(grep -c 'What a batch costs' "$work/out")" -eq 0
fails 2 "--plan is for the whole page" report "$plant" --plan --no-run
fails 2 "--why is for the whole page" report "$plant" --why --only drawing
run report "$plant" --start 06:30
ok "--start puts times on the clock" says out "time of day"

# Nothing is written where there is nothing right to write, and an old report stays as it was.
echo old >"$work/old.html"
sed 's/bore="40 mm"/bore="40"/' "$plant" >"$work/wrong.xml"
fails 2 "a wrong plant gives no page" report "$work/wrong.xml" -o "$work/old.html"
ok "and leaves the old one" test "$(cat "$work/old.html")" = old
fails 2 "a date that is none" report "$plant" --date 2031-02-30
fails 2 "a clock that is none" report "$plant" --start 25:00
fails 2 "no drawing of that name" report "$plant" --only map
fails 2 "curves need the run" report "$plant" --only curves --no-run
fails 2 "--only and --format together" report "$plant" --only drawing --format md
fails 4 "a folder that is not there" report "$plant" -o "$work/nowhere/page.html"
# A disk that fills up: no file may grow past a few blocks.
(
    trap '' XFSZ
    ulimit -f 8
    "$program" report "$plant" -o "$work/old.html" >"$work/out" 2>"$work/err"
)
code=$?
ok "a full disk is a system failure" test "$code" -eq 4 -a -s "$work/err"
ok "and leaves the old report" test "$(cat "$work/old.html")" = old
ok "and nothing beside it" test "$(find "$work" -name 'old.html*' | wc -l)" -eq 1
fails 2 "the plant is not overwritten by its report" report "$plant" -o "$plant"
finish
