#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# 500 wrong plant files of all kinds (wrong_files.py): each is refused at its line, at once, and nothing is written. The
# seed of chance stays the same; WRONG_FILES=5000 WRONG_FROM=2 for more and others.
. "$(dirname "$0")/../cli/lib.sh"
mkdir "$work/in"
python3 "$root/tests/hostile/wrong_files.py" "$program" "$root" "$work/in" "${WRONG_FILES:-500}" "${WRONG_FROM:-1}" \
    >"$work/out" 2>"$work/err"
code=$?
cut -c 1-300 "$work/out"
ok "wrong files are answered as they should" test "$code" -eq 0
ok "of at least 60 kinds" test "$(sed -nE 's/^[0-9]+ files in ([0-9]+) kinds.*/\1/p' "$work/out")" -ge 60
# The examiner notices: a program that crashes, one that takes what is wrong, one that speaks without file and line.
for answer in 'kill -SEGV $$' 'exit 0' 'echo wrong >&2; exit 2'; do
    printf '#!/bin/sh\ncase "$*" in *--list*) exec "%s" "$@" ;; esac\n%s\n' "$program" "$answer" >"$work/other"
    chmod +x "$work/other"
    mkdir -p "$work/other_in"
    ok "'$answer' is noticed" test "$(python3 "$root/tests/hostile/wrong_files.py" "$work/other" "$root" "$work/other_in" \
        3 1 not_a_number 2>&1 | tail -n 1)" = "3 files in 1 kinds, 3 answered wrongly"
done
finish
