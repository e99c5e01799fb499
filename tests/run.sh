#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Runs the given test programs and scripts, as many side by side as there are processors (JOBS=1: one by one), those that
# take longest first (tests/costs.txt). Prints, in the order given, a line for each and all rows of published checks, and
# ends with one line: "N passed, M failed". A program that crashes, or that says no count, is a failure. How many are done
# and how long the rest takes is said on standard error, in place on a terminal, else twice a minute.
set -u
export LC_ALL=C

# one NUMBER SUITE: runs it; leaves output, CPU seconds and exit code in $LOGS, then says that it is done.
if [ "${1:-}" = --one ]; then
    log=$LOGS/$2 test=$3
    TIMEFORMAT='%U %S'
    {
        time case $test in
        *.sh) bash "$test" >"$log" 2>&1 ;;
        *) "$test" >"$log" 2>&1 ;;
        esac
        echo $? >"$log.code"
    } 2>"$log.time"
    echo "$2"
    exit 0
fi

jobs=${JOBS:-$(nproc 2>/dev/null || echo 2)}
suites=("$@")
LOGS=$(mktemp -d)
export LOGS
trap 'rm -rf "$LOGS"' EXIT

# Milliseconds that each suite took elsewhere; those that are not listed are short.
declare -A known
while read -r seconds name; do
    [ "${seconds:0:1}" = "#" ] || known[$name]=$((seconds * 1000))
done <tests/costs.txt
cost=() all=0 finished=0
for i in "${!suites[@]}"; do
    name=${suites[i]#"${BUILD:-build}"/}
    cost[i]=${known[$name]:-300}
    all=$((all + cost[i]))
done

# Lines as cmocka writes them, or a script in its manner: "[  PASSED  ] 12 test(s)." and "[  FAILED  ] 1 test(s)".
count() {
    sed -nE "s/^\[  $1  \] ([0-9]+) test\(s\).*/\1/p" "$2" | awk '{ n += $1 } END { print n + 0 }'
}

# report NUMBER: what a suite that is done has to say.
report() {
    local log=$LOGS/$1 name=${suites[$1]#"${BUILD:-build}"/} code good bad user system
    code=$(<"$log.code") good=$(count PASSED "$log") bad=$(count FAILED "$log")
    # Whatever went wrong beyond the counted failures counts as one more.
    if [ "$code" -ne 0 ] && [ "$bad" -eq 0 ]; then
        bad=1
        echo "$name ended with code $code" >>"$log"
    elif [ "$code" -eq 0 ] && [ "$((good + bad))" -eq 0 ]; then
        bad=1
        echo "$name said no count" >>"$log"
    fi
    grep '^check |' "$log"
    [ "$bad" -eq 0 ] || sed 's/^/    /' "$log"
    read -r user system < <(tail -n 1 "$log.time")
    local ms=$((10#${user/./} + 10#${system/./}))
    printf 'suite %s: %d passed, %d failed, %d.%d s\n' "$name" "$good" "$bad" $((ms / 1000)) $((ms % 1000 / 100))
    passed=$((passed + good)) failed=$((failed + bad))
}

# How many are done, and how long the rest takes if it goes on as it went so far; the list's seconds for a start.
said=0
progress() {
    local left=$((all - finished)) seconds
    if [ "$SECONDS" -gt 10 ] && [ $((finished * 10)) -gt "$all" ]; then
        seconds=$((left * SECONDS / finished))
    else
        seconds=$((left / 1000 / jobs))
    fi
    local line="$done of ${#suites[@]} suites, about $((seconds / 60)):$(printf %02d $((seconds % 60))) min left"
    if [ -t 2 ]; then
        printf '\r\033[K%s' "$line" >&2
    elif [ $((SECONDS - said)) -ge 30 ]; then
        said=$SECONDS
        echo "$line" >&2
    fi
}
clear_line() { [ ! -t 2 ] || printf '\r\033[K' >&2; }

for i in "${!suites[@]}"; do
    printf '%d %d %s\n' "${cost[i]}" "$i" "${suites[i]}"
done | sort -srn -k 1,1 | cut -d ' ' -f 2- | xargs -P "$jobs" -L 1 bash "$0" --one | {
    passed=0 failed=0 done=0 next=0
    progress
    while read -r i; do
        done=$((done + 1)) finished=$((finished + cost[i]))
        clear_line
        while [ "$next" -lt "${#suites[@]}" ] && [ -e "$LOGS/$next.code" ]; do
            report "$next"
            next=$((next + 1))
        done
        progress
    done
    clear_line
    echo "$passed passed, $failed failed"
    [ "$failed" -eq 0 ] && [ "$next" -eq "${#suites[@]}" ]
}
