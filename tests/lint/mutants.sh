#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Each row of tests/mutants/mutants.txt must still change its file: a row that no longer does tests nothing.
set -u
cd "$(dirname "$0")/../.." || exit 1
list=tests/mutants/mutants.txt
void=0
while IFS= read -r line; do
    case $line in '' | '#'*) continue ;; esac
    IFS='|' read -r file expression what <<<"$line"
    if [ ! -f "$file" ]; then
        echo "$list: no file $file (\"$what\")"
    elif sed -E "$expression" "$file" | cmp -s - "$file"; then
        echo "$list: nothing in $file fits \"$what\""
    else
        continue
    fi
    void=1
done <"$list"
exit $void
