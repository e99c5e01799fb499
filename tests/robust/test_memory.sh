#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Allocations of the whole program fail in turn, once and from then on: it ends with code 4 and a reason, writes
# nothing, and never crashes; or it did not need that memory, and the answer is the right one. EVERY=1: of the smaller
# questions, one for each verb, every allocation in turn, which takes some minutes; else a spread.
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

# Of a sweep the rows so far stay.
begins() { [ "$1" = sweep ] && cmp -s -n "$(stat -c %s "$2")" "$2" "$right"; }

# judge NAME OUT VERB: OUT is not there where the program ended with code 4, said why and wrote nothing.
judge() {
    tried=$((tried + 1))
    case $code in
    4) { [ ! -e "$2" ] || begins "$3" "$2"; } && refused=$((refused + 1)) || wrong="$wrong $1:$code-not-empty" ;;
    0) cmp -s <(answer "$2") <(answer "$right") || wrong="$wrong $1:other-answer" ;;
    *) wrong="$wrong $1:$code" ;;
    esac
}

# try RUNS ARGUMENTS...: about that many allocations fail, spread over all, the first 10 one by one. What runs on one
# thread has a '=' behind the number: the first 40 one by one, and all in children of one run, which saves the way to
# them; or, once for each verb, a '+': with EVERY=1 each allocation.
try() {
    local runs=${1%[+=]} each=$1 n how total first=10 right=$work/right wrong="" refused=0 tried=0
    shift
    with TROUBLE_COUNT="$work/count" -- "$@"
    cp "$work/out" "$right"
    total=$(cat "$work/count")
    ok "$1 works before" test "$code" -eq 0 -a -s "$right" -a "$total" -gt 5
    [ "$each" = "$runs" ] || first=40
    local step=$(((total - first) / runs + 1))
    [ "$each" != "$runs+" ] || [ -z "${EVERY:-}" ] || step=1
    if [ "$each" != "$runs" ]; then
        rm -rf "$work/each"
        mkdir "$work/each"
        with TROUBLE_EACH="$work/each" TROUBLE_FIRST=$first TROUBLE_STEP=$step -- "$@"
        while read -r n code; do
            judge "$n" "$work/each/$n" "$1"
        done <"$work/each/list"
        total=0
    fi
    for ((n = 0; n < total; n += n < first ? 1 : step)); do
        for how in TROUBLE_ALLOC TROUBLE_ALLOC_ALL; do
            [ $how = TROUBLE_ALLOC ] || [ $((n % 3)) -eq 0 ] || continue
            with $how=$n -- "$@"
            [ $code -ne 4 ] || [ -s "$work/out" ] || [ ! -s "$work/err" ] || rm "$work/out"
            judge $how=$n "$work/out" "$1"
        done
    done
    # Coverage asks for memory of its own at the end, and what it makes of none is not the program's.
    case ${BUILD:-build} in *coverage*) wrong="" refused=$tried ;; esac
    echo "$1: $(cat "$work/count") allocations, $tried runs, $refused refused"
    [ -z "$wrong" ] || echo "wrong:$wrong"
    ok "$*: no crash, no half answer" test -z "$wrong"
    ok "$*: most were refused" test $refused -gt $((tried / 2))
}
try 60+ check "$plant" --no-ranking
try 40 check "$plant"
try 120+ flow "$plant"
try 60= flow "$plant" --format json
try 60+ heat "$plant" --no-ranking
try 30 heat "$plant"
try 120+ report "$plant" --date 2031-03-14 --no-run
try 60= report "$plant" --date 2031-03-14 --no-run --format md
try 60 report "$plant" --date 2031-03-14 --only curves
try 40= why "$plant" --threads 1
try 20+ why "$plant" --no-remedies --threads 1
try 40+ size "$plant" --vary holes --threads 1
try 20= carry "$plant" --more 1 --threads 1
try 20 carry "$plant" --more 1 --threads 2
try 20+ carry "$plant" --more 0 --no-others --threads 1
try 30+ plan "$plant" --by 12:00 --plans 1 --no-buy --threads 1
try 30+ sweep "$plant" --vary "s1.bore = 19 mm, 25 mm" --threads 1
try 20= odds "$plant" --runs 64 --threads 1
try 30= check "$plant" --no-ranking --format json --set far.target=90degC
try 20+ help heat

# With people and prices, and with a probe and what it read.
sed 's|</network>|<work wish="100 kg"><crew days="mon" from="06:00" to="14:00"/></work></network>|' "$plant" >"$work/week.xml"
sed '/<hose id="s1"/,/<\/hose>/d; /id="near"/d; s|</network>|<probe id="p" vessel="far" at="core" column="CH 1"/></network>|' \
    "$plant" >"$work/probed.xml"
printf '%s\n' 'Time;CH 1 [degC]' '06:00;15,0' '06:30;15,1' '07:00;27,1' '07:30;52,6' '08:00;72,2' '08:30;84,0' >"$work/log.csv"
try 30+ week "$work/week.xml" --threads 1
try 30+ cost "$work/week.xml"
try 30+ log "$work/log.csv" --plant "$work/probed.xml"
try 10= fit "$work/probed.xml" --log "$work/log.csv" --threads 1
try 8= forecast "$work/probed.xml" --log "$work/log.csv" --threads 1

# Where the first least squares begins: no want of memory there is a log that no plant fits.
wrong="" refused=0
for ((n = 330; n < 480; n += 15)); do
    with TROUBLE_ALLOC=$n -- forecast "$work/probed.xml" --log "$work/log.csv" --threads 1
    case $code in
    4) refused=$((refused + 1)) ;;
    0) ;;
    *) wrong="$wrong $n:$code" ;;
    esac
done
case ${BUILD:-build} in *coverage*) wrong="" refused=10 ;; esac
ok "want of memory is not blamed on the log:$wrong" test -z "$wrong"
ok "and was felt there, $refused times of 10" test $refused -gt 4

# Where one of the runs of a sample begins: a run that gets no memory is no run without a solution. EVERY=1: all of one.
wrong="" refused=0 from=3064 to=3084
[ -z "${EVERY:-}" ] || from=3000 to=3260
with -- odds "$plant" --runs 64 --threads 1
cp "$work/out" "$work/right"
for ((n = from; n < to; n++)); do
    with TROUBLE_ALLOC=$n -- odds "$plant" --runs 64 --threads 1
    case $code in
    4) refused=$((refused + 1)) ;;
    0) cmp -s "$work/out" "$work/right" || wrong="$wrong $n:other-answer" ;;
    *) wrong="$wrong $n:$code" ;;
    esac
done
case ${BUILD:-build} in *coverage*) wrong="" refused=20 ;; esac
ok "no run of a sample is lost for want of memory:$wrong" test -z "$wrong"
ok "and want was felt there, $refused times" test $refused -gt 4

# written FILE ARGUMENTS...: the file is there whole, or not at all. About 60 allocations fail, with EVERY=1 each.
mkdir "$work/there"
written() {
    local file=$work/there/$1 wrong="" kept=0 total n
    shift
    rm -f "$work/there"/*
    with TROUBLE_COUNT="$work/count" -- "$@"
    cp "$file" "$work/whole.xml"
    total=$(cat "$work/count")
    for ((n = 0; n < total; n += ${EVERY:-$((total / 60 + 1))})); do
        rm -f "$work/there"/*
        with TROUBLE_ALLOC=$n -- "$@"
        if [ "$code" -eq 0 ]; then
            kept=$((kept + 1))
            cmp -s "$file" "$work/whole.xml" || wrong="$wrong $n:other-file"
        elif [ "$code" -ne 4 ] || [ -n "$(ls "$work/there")" ]; then
            wrong="$wrong $n:$code"
        fi
    done
    case ${BUILD:-build} in *coverage*) wrong="" ;; esac
    [ -z "$wrong" ] || echo "wrong:$wrong"
    ok "$1 without memory: the whole file or none ($kept of $total whole)" test -z "$wrong"
}
written copy.xml check "$plant" --no-ranking --set far.target=90degC --save "$work/there/copy.xml"
written new.xml new "$work/there/new.xml" --defaults
finish
