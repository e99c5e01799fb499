#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Breaks one equation at a time (mutants.txt: file|sed expression|what is wrong then), builds, and runs the tests until one
# fails: first those of the file's own folder, then those above it, at last all the rest of `make test`. Works in a copy,
# build/mutants, and keeps each result there.
#   run.sh               all mutants; ends with the count of those caught, fails below 95 %
#   run.sh flow steady   those of src/flow and src/steady
#   run.sh 10 20         the tenth to the twentieth
#   NEAR=1 run.sh ...    without the rest of the tests, for a quick look
#   NEAR=own run.sh ...  with the tests of the file's own folder alone, for a quicker one
#   MORE=1 run.sh ...    only those that no run before has caught
#   run.sh table         the results so far as a table (reference/mutants.md)
set -u
root=$(cd "$(dirname "$0")/../.." && pwd)
copy=$root/build/mutants/tree
results=$root/build/mutants/results
list=$root/tests/mutants/mutants.txt
mkdir -p "$copy" "$results"

# Folders whose tests may notice, nearest first.
near() {
    case $1 in
    src/num/*) echo num props heat steady ;;
    src/props/*) echo props steady heatup ;;
    src/flow/*) echo flow steady robust ;;
    src/heat/*) echo heat heatup steady ;;
    src/steady/*) echo steady robust report example heatup ;;
    src/heatup/*) echo heatup example report study ;;
    src/study/week/* | src/study/cost/*) echo week cli ;;
    src/study/odds/* | src/study/fit/* | src/study/forecast/* | src/study/match_*) echo study logs cli ;;
    src/study/*) echo study advice cli ;;
    src/print/*) echo print report page cli ;;
    src/report/*) echo report page cli ;;
    src/page/*) echo page cli ;;
    src/units/*) echo units plantfile ;;
    *) echo model plantfile units steady heatup ;;
    esac
}
# All tests, those of the near folders first.
tests_for() {
    local folder folders_near
    folders_near=$(near "$1")
    [ "${NEAR:-}" != own ] || folders_near=${folders_near%% *}
    {
        for folder in $folders_near; do ls tests/"$folder"/test_*.c; done
        for folder in $folders_near; do ls tests/"$folder"/test_*.sh; done
        [ -n "${NEAR:-}" ] || ls tests/*/test_*.c tests/*/test_*.sh
    } 2>/dev/null | awk '!seen[$0]++'
}

# 0: the test passes; 2: it does not build. A test that hangs has noticed.
passes() {
    case $1 in
    *.sh) make -s all >/dev/null 2>"$copy/build/error" || return 2 ;;
    *) make -s "build/${1%.c}" >/dev/null 2>"$copy/build/error" || return 2 ;;
    esac
    case $1 in
    *.sh) BUILD=build timeout 300 bash "$1" >/dev/null 2>&1 ;;
    *) timeout 300 "build/${1%.c}" >/dev/null 2>&1 ;;
    esac || return 1
}

noticed() {
    local test
    for test in $(tests_for "$1"); do
        passes "$test"
        case $? in
        1) by=$test; return 0 ;;
        2) return 2 ;;
        esac
    done
    return 1
}

result_of() { printf '%s' "$1" | md5sum | cut -c1-12; }

table() {
    local file expression what line folder
    echo '# Equations broken on purpose'
    echo
    echo 'Each row is one change to one equation or correlation (sign, exponent, factor, an operand), and the first test that'
    echo 'failed. `make mutants` repeats it; the changes stand in `tests/mutants/mutants.txt`. A change that no test noticed'
    echo 'is marked **missed**.'
    echo
    while IFS= read -r line; do
        case $line in '' | '#'*) continue ;; esac
        [ -f "$results/$(result_of "$line")" ] || { echo "not run: $line" >&2; continue; }
        IFS='|' read -r file expression what <<<"$line"
        printf '%s|%s|%s\n' "$file" "$what" "$(cat "$results/$(result_of "$line")")"
    done <"$list" | awk -F'|' '
        { split($1, p, "/"); all[p[2]]++; caught[p[2]] += $3 == "caught"; row[NR] = $0; if (!(p[2] in seen)) { seen[p[2]] = 1; order[++n] = p[2] } }
        END {
            print "| folder | mutants | caught |"; print "|---|---|---|"
            for (i = 1; i <= n; i++) { printf "| %s | %d | %d |\n", order[i], all[order[i]], caught[order[i]]; a += all[order[i]]; c += caught[order[i]] }
            printf "| all | %d | %d (%.1f %%) |\n\n", a, c, 100 * c / a
            print "| file | what is wrong then | first noticed by |"; print "|---|---|---|"
            for (i = 1; i <= NR; i++) { split(row[i], f, "|"); printf "| %s | %s | %s |\n", f[1], f[2], f[3] == "caught" ? f[4] : "**" f[3] "**" }
        }'
}

if [ "${1:-}" = table ]; then
    table
    exit
fi
(cd "$root" && tar cf - Makefile include src tests networks reference README.md DEVELOPERS.md LICENSE .clang-format) | (cd "$copy" && tar xf -)
cd "$copy" || exit 1
mkdir -p build
make -s all >/dev/null || exit 1

first=1 last=9999 folders=
case ${1:-} in
[0-9]*) first=$1 last=${2:-$1} ;;
*) folders=" $* " ;;
esac
n=0 caught=0 missed=0 void=0
file=
# An end in the middle leaves nothing broken behind.
restore() {
    if [ -n "$file" ] && [ -e "$copy/$file.kept" ]; then
        mv "$copy/$file.kept" "$copy/$file"
        touch "$copy/$file"
        rm -f "$copy/build/${file%.c}.o"
    fi
}
trap restore EXIT
trap 'exit 1' INT TERM
declare -A sound # tests that pass with nothing broken
while IFS= read -r line; do
    case $line in '' | '#'*) continue ;; esac
    n=$((n + 1))
    IFS='|' read -r file expression what <<<"$line"
    [ $n -ge "$first" ] && [ $n -le "$last" ] || continue
    folder=$(basename "$(dirname "$file")")
    [ "${folders:-  }" = "  " ] || [[ $folders == *" $folder "* ]] || continue
    [ -z "${MORE:-}" ] || ! grep -qs '^caught' "$results/$(result_of "$line")" || continue
    cp "$copy/$file" "$copy/$file.kept"
    sed -i -E "$expression" "$copy/$file"
    if cmp -s "$copy/$file" "$copy/$file.kept"; then
        verdict=void by="the expression changes nothing"
    else
        by=
        noticed "$file"
        case $? in
        0) verdict=caught ;;
        1) verdict=missed ;;
        *) verdict=void by="does not compile: $(grep -m1 error "$copy/build/error")" ;;
        esac
    fi
    restore
    # What fails already would catch everything.
    if [ $verdict = caught ] && [ -z "${sound[$by]:-}" ]; then
        passes "$by" || {
            echo "$by fails with nothing broken"
            exit 1
        }
        sound[$by]=1
    fi
    case $verdict in
    caught) caught=$((caught + 1)) ;;
    missed) missed=$((missed + 1)) ;;
    void) void=$((void + 1)) ;;
    esac
    echo "$n $verdict $file: $what${by:+ ($by)}"
    [ $verdict = void ] || echo "$verdict|$by" >"$results/$(result_of "$line")"
done <"$list"
total=$((caught + missed))
echo "$caught of $total mutants caught, $void void"
[ $total -gt 0 ] && [ $void -eq 0 ] && [ $((caught * 100)) -ge $((total * 95)) ]
