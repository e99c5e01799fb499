#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Exit codes, and that nothing is written when anything is wrong.
. "$(dirname "$0")/lib.sh"
plant=$root/networks/four-bins.xml

run flow "$plant"
ok "a good plant ends with 0" test "$code" -eq 0 -a -s "$work/out" -a ! -s "$work/err"
run check "$plant"
ok "so does its check" test "$code" -eq 0 -a -s "$work/out" -a ! -s "$work/err"
run check - <"$plant"
ok "check without input on standard input fails" test "$code" -eq 2

fails 2 "no arguments"
ok "and it shows the way" says err "farvessel flow PLANT.xml"
fails 2 "an unknown verb" flwo "$plant"
ok "and names the nearest" says err 'did you mean `farvessel flow`?'
fails 2 "a plant where a verb should be" "$plant"
ok "and shows what to write" says err "farvessel flow $plant"
fails 2 "a plant whose name a shell would take apart" "a plant's.xml"
ok "and the command can be pasted" says err "farvessel flow 'a plant'\\''s.xml'"
fails 2 "help on a verb that is none" help haet
ok "and names the nearest" says err 'did you mean `farvessel help heat`?'
for near in "bni1 core: boiler 50 %|bin1 core" "bin1 coer: boiler 50 %|bin1 core" "bin1 core: boilre 50 %|boiler"; do
    fails 2 "a wrong name in --do" heat "$plant" --do "${near%|*}"
    ok "and names the nearest" says err "did you mean '${near#*|}'?"
done
fails 2 "copies of what is not there" carry "$plant" --like bin22 --at t1
ok "and names the nearest" says err "did you mean 'bin2'?"
fails 2 "an unknown option" flow "$plant" --untis us
ok "and names the nearest" says err "did you mean --units?"
fails 2 "an option of another verb" check "$plant" --fire "50 %"
ok "and says which verb refuses it" says err '`farvessel check` takes no --fire'
fails 2 "a missing value" flow "$plant" --format
fails 2 "a wrong word" flow "$plant" --format xml
ok "and lists the words" says err "text|json|csv"
fails 2 "a value where none belongs" flow "$plant" --no-turndown=yes
fails 2 "a log where none is read" flow "$plant" some-log.csv
fails 2 "two logs" fit "$plant" some-log.csv --log other-log.csv
mkfifo "$work/pipe"
fails 2 "a pipe that nobody writes into is no log" log "$work/pipe"
truncate -s 65M "$work/long.csv"
fails 2 "nor is more than 64 MiB" log "$work/long.csv"
ok "and says so" says err "longer than the limit"
fails 2 "a log beside the plant is read as with --log" fit "$root/networks/far-bench.xml" not-there.csv
ok "and so is missed by its name" says err "not-there.csv: "
fails 2 "an option given twice" flow "$plant" --units us --units metric
fails 2 "two plants" flow "$plant" "$plant"
fails 2 "no plant" flow
fails 2 "a fire over full" flow "$plant" --fire "120 %"
fails 2 "a fire that is no share" flow "$plant" --fire "24 kW"
fails 2 "a fire with no meaning" flow "$plant" --fire "-5 %"
fails 2 "a run of years" heat "$plant" --until "3000 d"
fails 2 "an evenness over one" size "$plant" --vary holes --evenness 1.5
fails 2 "a velocity of nothing" size "$plant" --vary holes --velocity "0 m/s"
fails 2 "a spread that is no number" size "$plant" --vary holes --spread wide
fails 2 "a goal that is none" size "$plant" --vary holes --for glory
fails 2 "a date that is none" report "$plant" --no-run --date 2031-13-01
fails 2 "a time of day that is none" heat "$plant" --start 25:00
for verb in plan carry size; do
    fails 2 "$verb with all vessels shut" $verb "$plant" --set bin.phase=shut
    ok "and says so" says err "no vessel is open to the steam"
done
fails 2 "a vessel that is none" why "$plant" --vessel nobody
fails 2 "a table without csv" flow "$plant" --table lines
fails 2 "a table of the other verb" check "$plant" --format csv --table lines
fails 2 "a list with a plant" check "$plant" --list fittings
fails 2 "help on an unknown verb" help frobnicate
fails 2 "an empty verb" ""
fails 2 "a lone dash option" flow "$plant" -z

fails 2 "no such file" flow "$work/none.xml"
fails 2 "a folder" flow "$work"
printf 'not xml' >"$work/bad.xml"
fails 2 "no XML" flow "$work/bad.xml"
ok "and it names file and line" says err "$work/bad.xml:1:"
sed 's/id="s1"/id="s1" bore2="3"/; s/at="c2"/at="c99"/' "$plant" >"$work/bad.xml"
fails 2 "two faults" check "$work/bad.xml"
ok "are both said" test "$(grep -c "^$work/bad.xml:" "$work/err")" -ge 2

echo old >"$work/old.txt"
fails 2 "a fault with -o" flow "$work/bad.xml" -o "$work/old.txt"
ok "leaves the old answer" test "$(cat "$work/old.txt")" = old
fails 2 "a bad change" flow "$plant" --set s1.bore=3 --save "$work/saved.xml"
ok "saves nothing" test ! -e "$work/saved.xml"
fails 4 "an answer into a folder that is not there" flow "$plant" -o "$work/none/out.txt"
fails 4 "a plant saved where it cannot be" flow "$plant" --save "$work/none/out.xml"
cp "$plant" "$work/plant.xml"
fails 2 "an answer over the plant itself" flow "$work/plant.xml" -o "$work/plant.xml"
fails 2 "a plant saved over itself" flow "$work/plant.xml" --save "$work/../$(basename "$work")/plant.xml"
ok "leaves the plant as it was" cmp -s "$plant" "$work/plant.xml"
finish
