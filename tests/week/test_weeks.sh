#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# No timetable breaks a rule: random weeks, by an independent checker in Python. WEEKS=10000 for the long run.
. "$(dirname "$0")/../cli/lib.sh"
weeks=$root/${BUILD:-build}/tests/week/test_search
WEEKS=${WEEKS:-500} WEEKS_TO=$work/weeks.csv "$weeks" >"$work/out" 2>"$work/err"
code=$?
ok "weeks are written" test "$code" -eq 0 -a -s "$work/weeks.csv"
ok "and keep their rules" python3 "$root/tests/week/check_weeks.py" "$work/weeks.csv"
python3 "$root/tests/week/check_weeks.py" "$work/weeks.csv"
# The checker notices: a boiler that is lit while it burns, a task with nobody there, a vessel that is not there.
first=$(grep -n '^entry,.*,light,' "$work/weeks.csv" | head -n 1)
awk -v at="${first%%:*}" '{ print } NR == at { print }' "$work/weeks.csv" >"$work/twice.csv"
ok "a batch lit twice is noticed" test "$(python3 "$root/tests/week/check_weeks.py" "$work/twice.csv" >/dev/null 2>&1; echo $?)" -eq 1
sed -E '/^people/s/,[12]/,0/g' "$work/weeks.csv" >"$work/nobody.csv"
ok "nobody there is noticed" test "$(python3 "$root/tests/week/check_weeks.py" "$work/nobody.csv" >/dev/null 2>&1; echo $?)" -eq 1
grep -v ',fill,' "$work/weeks.csv" >"$work/unfilled.csv"
ok "a vessel that was not filled is noticed" test "$(python3 "$root/tests/week/check_weeks.py" "$work/unfilled.csv" >/dev/null 2>&1; echo $?)" -eq 1
finish
