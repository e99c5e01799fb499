#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# new: a plant from eight questions, by options and as typed in a terminal; what it writes reads well, is somebody's own,
# and is never written over.
. "$(dirname "$0")/lib.sh"
cd "$work" || exit 1

run new plain.xml --defaults
ok "without an answer it is a plant of guesses" test "$code" -eq 0 -a -s plain.xml
run check plain.xml
ok "that reads well" grep -q "reads well" "$work/out"
for verb in flow heat; do
    run $verb plain.xml
    ok "and answers $verb" test "$code" -eq 0
done
run new half.xml --defaults --walls "0.5 m3, plywood, 18 mm"
ok "guesses are round figures" grep -q 'wall area="3.8 m2"' half.xml # 6 x (0.5 m3)^(2/3) = 3.78 m2, by hand
run new us.xml --defaults --units us --vessels "4, 6 ft" --hose "3/4 in, 10 ft" \
    --walls "35 ft3, plywood, 3/4 in, mineral-wool, 2 in" --title 'A "<shed>" & more'
ok "in US units" test "$code" -eq 0
ok "as they were typed" grep -q 'length="10 ft" bore="3/4 in" known="tape"' us.xml
run check us.xml
ok "it reads well, title and all" test "$code" -eq 0
ok "four vessels" test "$(grep -c '<vessel ' us.xml)" -eq 4
ok "what is guessed is in inches and feet, too" test -z "$(grep -E '"[0-9.]+ (mm|m|m2)"' us.xml)"
ok "two layers" test "$(grep -c '<layer ' us.xml)" -eq 2
cp us.xml before.xml
fails 2 "a file that is there is left alone" new us.xml --defaults
ok "to the byte" cmp -s us.xml before.xml
for wrong in "--boiler=24 degC" "--header=27 mm" "--vessels=0" "--vessels=30" "--hose=19 mm, 3 parsec" "--coil=25 mm, 2 m, 24, 3 mm, 5" \
    "--load=custard, 13 x 13 x 20 cm, 130, 300 kg, loose" "--load=wood, 13 cm, 130, 300 kg, loose" \
    "--load=soil, 120 x 80 x 40 cm, 2, 450 kg, bed" "--load=soil, 80 x 40 cm, 1, 450 kg, bed" "--load=wood, 13 x 13 x 20 cm, 130, 300 kg, heaped" "--walls=1 m3, cheese, 18 mm" "--units=cubits"; do
    fails 2 "refused: $wrong" new wrong.xml --defaults "$wrong"
    ok "and nothing is written" test ! -e wrong.xml
done
fails 2 "which file?" new

# A bed, round bags, and what each medium is usually heated to: soil 82 degC for 30 min kills weed seeds (Baker 1957,
# Manual 23, from a copy of its table), the rest common practice, no source.
run new bed.xml --defaults --load "soil, 120 x 80 x 40 cm, 1, 450 kg, bed"
ok "a bed has its depth and its area" grep -q 'form="bed" depth="40 cm" area="0.96 m2" mass="450 kg" known="tape"' bed.xml
ok "soil is held 30 min" grep -q 'target="82 degC" hold="30 min"' bed.xml
run new round.xml --defaults --load "straw, 15 x 30 cm, 60, 150 kg, loose"
ok "two sides are a round piece" grep -q 'form="cylinder" diameter="15 cm" height="30 cm" count="60"' round.xml
ok "straw is not boiled" grep -q 'target="65 degC" hold="8 h"' round.xml
for plant in bed round; do
    run heat $plant.xml
    ok "heat answers a $plant" test "$code" -eq 0
done

# README's plant with its two hoses, typed in a terminal: how many keys, and the same answer as from the options.
cat >type.py <<'PY'
import os, pty, sys
program, path, answers = sys.argv[1], sys.argv[2], sys.argv[3:]
child, terminal = pty.fork()
if child == 0:
    os.execv(program, [program, "new", path])
seen = b""
for answer in answers:
    while not seen.endswith(b"  > "):
        seen += os.read(terminal, 1)
    os.write(terminal, answer.encode() + b"\n")
    seen = b""
try:
    while os.read(terminal, 1024):
        pass
except OSError:
    pass
code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
print(sum(len(answer) + 1 for answer in answers))
sys.exit(code)
PY
keys=$(python3 type.py "$program" typed.xml "" "24" "27 2.5" "2 6" "19 3 9" "25 2 24 3" "" "1 plywood 18")
code=$?
ok "typed in a terminal" test "$code" -eq 0 -a -s typed.xml
echo "check | keys from nothing to a plant file | 60 | $keys | the goal; with every default taken it is fewer"
ok "in at most 60 keys" test "$keys" -le 60
run new given.xml --defaults --units metric --boiler "24 kW" --header "27 mm, 2.5 m" --vessels "2, 6 m" --hose "19 mm, 3 m, 9 m" \
    --coil "25 mm, 2 m, 24, 3 mm" --walls "1 m3, plywood, 18 mm"
run flow given.xml --format csv
cp "$work/out" given.csv
run flow typed.xml --format csv
ok "a bare number has the question's unit" cmp -s "$work/out" given.csv
python3 type.py "$program" again.xml "" "24 parsec" "24 kW" "" "" "" "" "" "" >/dev/null
ok "a wrong answer is asked again" test $? -eq 0 -a -s again.xml

# Whoever measures in inches is answered so; and what is said of five headers is said once.
run new inches.xml --units us --defaults --vessels "5, 4 ft" --header "0.75 in, 5 ft" --hose "0.75 in, 6 ft"
ok "a barb in sixteenths of an inch" says inches.xml "barb bore=\"5/8 in\""
run flow inches.xml
ok "in the units of the tape" says out "degF"
run flow inches.xml --units metric
ok "or in those asked for" says out "degC"
sed -i "s/ units=\"us\"/ units=\"metric\"/" inches.xml
run check inches.xml
ok "the plant says which" says out "degC"
ok "a mark for five parts is one" test "$(grep -c "header 'h1', 'h2', 'h3', 'h4', 'h5': bore is 19 mm" "$work/out")" -eq 1
ok "with its place" says out "and 4 more: header"
finish
