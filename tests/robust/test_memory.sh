#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Allocations of the whole program fail in turn, once and from then on: it ends with code 4 and a reason, writes
# nothing, and never crashes; or it did not need that memory, and the answer is the right one.
. "$(dirname "$0")/lib.sh"
if [ -z "$trouble" ]; then
    ok "another allocator stands in the way; nothing is tried" true
    finish
    exit
fi
plant=$root/networks/hand.xml
export G_SLICE=always-malloc

# Without the audit's rounding noise: KLU that gets no memory for its first factors is asked again, from another start.
answer() { tr -s ' \n' ' ' <"$1" | sed -E 's/to 0 of it/to of it/g; s/[0-9.]+e-[0-9]+//g; s/after [0-9]+ steps//; s/"iterations": [0-9]+//; s/[0-9]+ states//' | tr -s ' '; }

# try RUNS ARGUMENTS...: about that many allocations fail, spread over all, the first 40 one by one.
try() {
    local runs=$1 n how total right=$work/right wrong="" refused=0 tried=0
    shift
    with TROUBLE_COUNT="$work/count" -- "$@"
    cp "$work/out" "$right"
    total=$(cat "$work/count")
    ok "$1 works before" test "$code" -eq 0 -a -s "$right" -a "$total" -gt 5
    local step=$(((total - 40) / runs + 1))
    for ((n = 0; n < total; n += n < 40 ? 1 : step)); do
        for how in TROUBLE_ALLOC TROUBLE_ALLOC_ALL; do
            [ $how = TROUBLE_ALLOC ] || [ $((n % 3)) -eq 0 ] || continue
            with $how=$n -- "$@"
            tried=$((tried + 1))
            case $code in
            4) [ ! -s "$work/out" ] && [ -s "$work/err" ] && refused=$((refused + 1)) || wrong="$wrong $how=$n:$code-not-empty" ;;
            0) cmp -s <(answer "$work/out") <(answer "$right") || wrong="$wrong $how=$n:other-answer" ;;
            *) wrong="$wrong $how=$n:$code" ;;
            esac
        done
    done
    # Coverage asks for memory of its own at the end, and what it makes of none is not the program's.
    case ${BUILD:-build} in *coverage*) wrong="" refused=$tried ;; esac
    echo "$1: $total allocations, $tried runs, $refused refused"
    [ -z "$wrong" ] || echo "wrong:$wrong"
    ok "$*: no crash, no half answer" test -z "$wrong"
    ok "$*: most were refused" test $refused -gt $((tried / 2))
}
try 120 check "$plant"
try 120 flow "$plant"
try 60 flow "$plant" --format json
try 120 heat "$plant"
try 120 report "$plant" --date 2031-03-14 --no-run
try 60 report "$plant" --date 2031-03-14 --no-run --format md
try 60 report "$plant" --date 2031-03-14 --only curves
try 60 why "$plant" --threads 1
try 40 size "$plant" --vary holes --threads 1
try 30 carry "$plant" --more 1 --threads 1
try 20 carry "$plant" --more 1 --threads 2
try 60 check "$plant" --format json --set far.target=90degC
try 20 help heat

# --save: the file is there whole, or not at all.
mkdir "$work/there"
wrong="" kept=0
with TROUBLE_COUNT="$work/count" -- check "$plant" --set far.target=90degC --save "$work/there/copy.xml"
cp "$work/there/copy.xml" "$work/whole.xml"
total=$(cat "$work/count")
for ((n = 0; n < total; n += total / 60 + 1)); do
    rm -f "$work/there"/*
    with TROUBLE_ALLOC=$n -- check "$plant" --set far.target=90degC --save "$work/there/copy.xml"
    if [ "$code" -eq 0 ]; then
        kept=$((kept + 1))
        cmp -s "$work/there/copy.xml" "$work/whole.xml" || wrong="$wrong $n:other-file"
    elif [ "$code" -ne 4 ] || [ -n "$(ls "$work/there")" ]; then
        wrong="$wrong $n:$code"
    fi
done
case ${BUILD:-build} in *coverage*) wrong="" ;; esac
[ -z "$wrong" ] || echo "wrong:$wrong"
ok "--save without memory: the whole file or none ($kept of $total whole)" test -z "$wrong"
finish
