#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Where the answer goes: pipes that close, full disks, files written whole.
. "$(dirname "$0")/lib.sh"
plant=$root/networks/four-bins.xml

run flow "$plant"
cp "$work/out" "$work/answer"
"$program" flow "$plant" -o "$work/file.txt" >"$work/out" 2>"$work/err"
code=$?
ok "-o says nothing" test "$code" -eq 0 -a ! -s "$work/out" -a ! -s "$work/err"
ok "and writes the same bytes" cmp -s "$work/answer" "$work/file.txt"
ok "and leaves nothing else behind" test "$(find "$work" -name 'file.txt*' | wc -l)" -eq 1
run flow "$plant" --output="$work/file2.txt"
ok "--output=FILE is the same" cmp -s "$work/answer" "$work/file2.txt"
run flow "$plant" -o"$work/file3.txt"
ok "-oFILE is the same" cmp -s "$work/answer" "$work/file3.txt"
(cd "$work" && run flow "$plant" -o - && cp "$work/out" "$work/dash")
ok "-o - is standard output" test ! -e "$work/-" -a -s "$work/dash" -a -z "$(cmp "$work/answer" "$work/dash")"
(cd "$work" && "$program" check "$plant" --save - >"$work/out" 2>"$work/err")
ok "--save - would mix plant and answer" test $? -eq 2 -a ! -e "$work/-" -a ! -s "$work/out" -a -s "$work/err"
run flow --units=metric -- "$plant"
ok "-- ends the options" cmp -s "$work/answer" "$work/out"
"$program" flow - <"$plant" >"$work/out" 2>"$work/err"
ok "a plant on standard input gives the same tables" \
    cmp -s <(sed -n '/^Vessels/,/^Worth/p' "$work/answer") <(sed -n '/^Vessels/,/^Worth/p' "$work/out")
run flow "$plant"
ok "the same input gives the same bytes" cmp -s "$work/answer" "$work/out"

# A reader that closes early: no message, no failure.
for format in text json csv; do
    for ((i = 0; i < 3; i++)); do
        "$program" flow "$plant" --format $format 2>"$work/err" | head -c 10 >"$work/out"
        code=${PIPESTATUS[0]}
        [ "$code" -eq 0 ] && [ ! -s "$work/err" ] || break
    done
    ok "$format into a pipe that closes" test "$code" -eq 0 -a ! -s "$work/err"
done
"$program" flow "$plant" >&- 2>"$work/err"
code=$?
ok "a closed standard output is a system failure" test "$code" -eq 4 -a -s "$work/err"
if [ -w /dev/full ]; then
    "$program" flow "$plant" >/dev/full 2>"$work/err"
    code=$?
    ok "so is a full disk" test "$code" -eq 4 -a -s "$work/err"
    run flow "$plant" -o /dev/full
    ok "with -o, too" test "$code" -eq 4 -a -s "$work/err"
fi
run flow "$plant" -o /dev/null
ok "a device can take the answer" test "$code" -eq 0

# A locale with a decimal comma changes nothing.
LC_ALL=de_DE.UTF-8 LANG=de_DE.UTF-8 "$program" flow "$plant" >"$work/out" 2>"$work/err"
ok "the locale does not matter" cmp -s "$work/answer" "$work/out"
mkdir "$work/a folder with ünïcode"
cp "$plant" "$work/a folder with ünïcode/a plant.xml"
run flow "$work/a folder with ünïcode/a plant.xml" -o "$work/a folder with ünïcode/an answer.txt"
ok "blanks and other letters in names" test "$code" -eq 0 -a -s "$work/a folder with ünïcode/an answer.txt"
finish
