#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Breaks one equation at a time (mutants.txt: file|sed expression|what is wrong then), builds, and runs the tests until one
# fails: first those of the file's own folder, then of the folders above. Ends with the count of those caught. In a copy,
# build/mutants. Some only: run.sh 10 20 for the tenth to the twentieth.
set -u
first=${1:-1} last=${2:-9999}
root=$(cd "$(dirname "$0")/../.." && pwd)
copy=$root/build/mutants
mkdir -p "$copy"
(cd "$root" && tar cf - Makefile include src tests networks reference README.md) | (cd "$copy" && tar xf -)
cd "$copy" || exit 1
list=$root/tests/mutants/mutants.txt
make -s all >/dev/null || exit 1

# Folders whose tests may notice, nearest first.
tests_for() {
    case $1 in
    src/props/*) echo props steady heatup ;;
    src/flow/*) echo flow steady ;;
    src/heat/*) echo heat heatup steady ;;
    src/steady/*) echo steady robust report heatup ;;
    src/heatup/*) echo heatup example report ;;
    *) echo num model units steady heatup ;;
    esac
}

# Builds and runs one test after the other; 0: one failed. A mutant that hangs is caught, too.
noticed() {
    local folder test
    for folder in $(tests_for "$1"); do
        for test in tests/"$folder"/test_*.c; do
            [ -e "$test" ] || continue
            make -s "build/${test%.c}" >/dev/null 2>"$copy/build/mutant.err" || return 2
            timeout 120 "build/${test%.c}" >/dev/null 2>&1 || { by=${test%.c}; return 0; }
        done
    done
    make -s all >/dev/null 2>&1
    for test in tests/steady/test_*.sh tests/heatup/test_*.sh tests/cli/test_formats.sh; do
        [ -e "$test" ] || continue
        timeout 120 bash "$test" >/dev/null 2>&1 || { by=$test; return 0; }
    done
    return 1
}

# What fails already would catch everything.
for test in tests/{num,props,flow,heat,steady,robust,report,heatup,example,model,units}/test_*.c; do
    [ -e "$test" ] || continue
    make -s "build/${test%.c}" >/dev/null && timeout 120 "build/${test%.c}" >/dev/null 2>&1 || {
        echo "$test fails with nothing broken"
        exit 1
    }
done

n=0 caught=0 missed=0 void=0
while IFS='|' read -r file expression what; do
    case $file in '' | '#'*) continue ;; esac
    n=$((n + 1))
    [ $n -ge "$first" ] && [ $n -le "$last" ] || continue
    cp "$root/$file" "$copy/$file.kept"
    sed -i -E "$expression" "$copy/$file"
    if cmp -s "$copy/$file" "$copy/$file.kept"; then
        void=$((void + 1))
        echo "$n VOID $file: $what: the expression changes nothing"
    else
        by=
        noticed "$file"
        case $? in
        0) caught=$((caught + 1)); echo "$n caught $file: $what ($by)" ;;
        1) missed=$((missed + 1)); echo "$n MISSED $file: $what" ;;
        *) void=$((void + 1)); echo "$n VOID $file: $what: does not compile: $(grep -m1 error "$copy/build/mutant.err")" ;;
        esac
    fi
    mv "$copy/$file.kept" "$copy/$file"
    touch "$copy/$file"
done <"$list"
total=$((caught + missed))
echo "$caught of $total mutants caught, $void void"
[ $total -gt 0 ] && [ $void -eq 0 ] && [ $((caught * 100)) -ge $((total * 95)) ]
