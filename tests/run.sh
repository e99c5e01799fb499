#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Runs the given test programs and scripts, prints a line for each and all rows of published checks, and ends with one
# line: "N passed, M failed". A program that crashes, or that says no count, is a failure.
set -u
export LC_ALL=C

passed=0 failed=0
output=$(mktemp)
trap 'rm -f "$output"' EXIT

# Lines as cmocka writes them, or a script in its manner: "[  PASSED  ] 12 test(s)." and "[  FAILED  ] 1 test(s)".
count() {
    sed -nE "s/^\[  $1  \] ([0-9]+) test\(s\).*/\1/p" "$output" | awk '{ n += $1 } END { print n + 0 }'
}

for test in "$@"; do
    name=${test#"${BUILD:-build}"/}
    case $test in
    *.sh) bash "$test" >"$output" 2>&1 ;;
    *) "$test" >"$output" 2>&1 ;;
    esac
    code=$?
    good=$(count PASSED) bad=$(count FAILED)
    # Whatever went wrong beyond the counted failures counts as one more.
    if [ "$code" -ne 0 ] && [ "$bad" -eq 0 ]; then
        bad=1
        echo "$name ended with code $code" >>"$output"
    elif [ "$code" -eq 0 ] && [ "$((good + bad))" -eq 0 ]; then
        bad=1
        echo "$name said no count" >>"$output"
    fi
    grep '^check |' "$output"
    [ "$bad" -eq 0 ] || sed 's/^/    /' "$output"
    printf '%s: %d passed, %d failed\n' "$name" "$good" "$bad" | sed 's/^/suite /'
    passed=$((passed + good)) failed=$((failed + bad))
done

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
