#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# What comes of an answer when writing goes wrong: short writes, a full disk, a limit on file sizes, a kill in the middle.
# A file that was there is whole afterwards, old or new.
. "$(dirname "$0")/lib.sh"
plant=$root/networks/four-bins.xml

run flow "$plant"
cp "$work/out" "$work/new"
size=$(stat -c %s "$work/new")
echo "the old answer" >"$work/old"
mkdir "$work/there"
file=$work/there/answer.txt

if [ -n "$trouble" ]; then
    for most in 1 7 1000; do
        with TROUBLE_WRITE_MOST=$most -- flow "$plant"
        ok "writes of at most $most bytes to a pipe lose nothing" cmp -s "$work/out" "$work/new"
    done
    with TROUBLE_WRITE_MOST=13 -- flow "$plant" -o "$file"
    ok "nor do they to a file" cmp -s "$file" "$work/new"
    for n in 0 1 100 $((size / 2)) $((size - 1)); do
        cp "$work/old" "$file"
        with TROUBLE_WRITE_FULL="$n" -- flow "$plant" -o "$file"
        ok "a disk full after $n bytes: a system failure that says so" test "$code" -eq 4 -a -s "$work/err"
        ok "the old file is whole after $n bytes" cmp -s "$file" "$work/old"
        ok "nothing else is left after $n bytes" test "$(find "$work/there" -type f | wc -l)" -eq 1
        with TROUBLE_WRITE_FULL="$n" -- flow "$plant"
        ok "standard output full after $n bytes: said, too" test "$code" -eq 4 -a -s "$work/err"
        with TROUBLE_WRITE_KILL="$n" -- flow "$plant" -o "$file"
        ok "killed after $n bytes" test "$code" -eq 137
        ok "the old file is whole after the kill at $n bytes" cmp -s "$file" "$work/old"
        rm -f "$work/there"/*
    done
    with TROUBLE_WRITE_FULL=500 -- check "$plant" --set bin1.target=90degC --save "$work/there/copy.xml"
    ok "--save on a full disk writes nothing" test "$code" -eq 4 -a "$(find "$work/there" -type f | wc -l)" -eq 0
fi

# The real thing, without any preload: a limit of 1 KiB on files.
cp "$work/old" "$file"
(ulimit -f 1 && exec "$program" flow "$plant" -o "$file") >"$work/out" 2>/dev/null
code=$?
ok "a limit on file sizes is no success" test "$code" -ne 0
ok "and leaves the old file whole" cmp -s "$file" "$work/old"
rm -f "$work/there"/*

# Killed at any time, the file is one or the other.
wrong=0
for delay in 0.000 0.004 0.008 0.012 0.016 0.02 0.03 0.05; do
    cp "$work/old" "$file"
    "$program" flow "$plant" -o "$file" 2>"$work/err" &
    victim=$!
    sleep $delay
    kill -9 $victim 2>"$work/err"
    wait $victim 2>"$work/err"
    cmp -s "$file" "$work/old" || cmp -s "$file" "$work/new" || wrong=$((wrong + 1))
    rm -f "$work/there"/*
done
ok "killed at some moment: the old file or the new, never half of one" test "$wrong" -eq 0

# Killed at any time while the larger page and the plant itself are written: as before.
hand=$root/networks/hand.xml
wrong=0
for delay in 0.002 0.006 0.01 0.015 0.02 0.03 0.04 0.06; do
    for what in "report $hand --no-run -o $file" "check $hand --set far.target=90degC --save $file"; do
        cp "$work/old" "$file"
        # shellcheck disable=SC2086
        "$program" $what >"$work/out" 2>"$work/err" &
        victim=$!
        sleep $delay
        kill -9 $victim 2>"$work/err"
        wait $victim 2>"$work/err"
        cmp -s "$file" "$work/old" || tail -c 20 "$file" | grep -qE '</(html|network)>' || wrong=$((wrong + 1))
        rm -f "$work/there"/*
    done
done
ok "killed while a page or a plant is written: the old file or a whole one" test "$wrong" -eq 0

# A device that is always full.
all=("help" "check $hand" "flow $hand" "heat $hand" "why $hand --no-remedies" "size $hand --vary holes"
    "carry $hand --more 0 --no-others" "report $hand --no-run" "flow $plant --format json" "heat $hand --format csv"
    "check $hand --format json" "report $hand --no-run --format md")
if [ -w /dev/full ]; then
    for verb in "${all[@]}"; do
        # shellcheck disable=SC2086
        "$program" $verb >/dev/full 2>"$work/err"
        code=$?
        : >"$work/out"
        ok "'$verb' to a full device: code 4 and a reason" test "$code" -eq 4 -a -s "$work/err"
    done
fi

# Standard output that is closed.
for verb in "${all[@]}"; do
    # shellcheck disable=SC2086
    "$program" $verb >&- 2>"$work/err"
    code=$?
    : >"$work/out"
    ok "'$verb' to nowhere: code 4 and a reason" test "$code" -eq 4 -a -s "$work/err"
done

# Readers that leave early.
for verb in "${all[@]}"; do
    # shellcheck disable=SC2086
    "$program" $verb 2>"$work/err" | head -n 1 >"$work/out"
    code=${PIPESTATUS[0]}
    ok "'$verb | head -n 1' is no failure" test "$code" -eq 0 -a ! -s "$work/err" -a "$(wc -l <"$work/out")" -eq 1
done

run flow "$plant" -o "$work/there"
ok "a folder as the target" test "$code" -eq 4 -a -s "$work/err" -a -d "$work/there"
run flow "$plant" -o "$work/no-such-folder/answer.txt"
ok "a folder that is not there" test "$code" -eq 4 -a -s "$work/err"
run flow "$plant" -o "$work/there/$(printf '%0300d' 0)"
ok "a name that is too long" test "$code" -eq 4 -a -s "$work/err"
ln -s "$work/there/real.txt" "$work/there/link.txt"
echo old >"$work/there/real.txt"
run flow "$plant" -o "$work/there/link.txt"
ok "a link as the target gives a whole answer" cmp -s "$work/there/link.txt" "$work/new"
finish
