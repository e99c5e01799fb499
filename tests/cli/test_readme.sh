#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# README.md tells the truth: its plant is short and runs, its commands work, its answer is the program's.
. "$(dirname "$0")/lib.sh"
cd "$work" || exit 1
readme=$root/README.md

# The first block of a kind in README.md.
block() { sed -n "/^\`\`\`$1\$/,/^\`\`\`\$/p" "$readme" | sed '1d;$d'; }

block xml >plant.xml
ok "the first plant has at most 25 lines" test "$(wc -l <plant.xml)" -le 25 -a "$(wc -l <plant.xml)" -ge 10
block sh >commands
ok "there are commands" test "$(grep -c '^farvessel ' commands)" -ge 4
while IFS= read -r line; do
    if [[ $line == "farvessel try "* ]]; then # goes on until Ctrl-C
        eval "timeout -k 5 -s INT 2 \"$program\" ${line#farvessel }" >"$work/out" 2>"$work/err"
        code=$(($? == 124 ? 0 : 1))
    else
        eval "run ${line#farvessel }"
    fi
    written=$(sed -nE 's/.* -o ([^ ]+).*/\1/p' <<<"$line")
    ok "$line" test "$code" -eq 0 -a -s "${written:-out}"
done < <(grep '^farvessel ' commands)

run flow plant.xml
block text >shown
ok "the answer shown is the answer" cmp -s shown <(head -n "$(wc -l <shown)" out)
# The cautions in full are those of the program.
run flow plant.xml --cautions
sed -n '/^Cautions$/,/^[A-Z][a-z]*$/p' out | sed 's/^ *//;s/^! //' | tr -s ' \n' ' ' >said
tr -s ' \n' ' ' <"$readme" | sed 's/ - / /g' >read
for caution in "local codes and licensed" "steam and its condensate" "never close or block" "steam that condenses" "a relief valve that" \
    "only hose and couplings" "enough air to burn" "steam at the air"; do
    sentence=$(grep -oE "$caution[^.]*\." said | head -1)
    ok "README has the caution: $caution" test -n "$sentence" -a "$(grep -cF "$sentence" read)" -gt 0
done
run help flow
ok "the help that it names" test "$code" -eq 0
run check --list attributes
ok "the list that it names" test "$code" -eq 0
for path in $(grep -oE '`(networks|reference|include/farvessel|tests)/[^` ]*`' "$readme" | tr -d '`' | sort -u) \
    DEVELOPERS.md LICENSE; do
    ok "README names $path" test -e "$root/$path"
done
ok "the commands of make are there" grep -qE '^demo:|^test:' "$root/Makefile"
finish
