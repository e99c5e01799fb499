#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Another validator agrees: the example plants follow networks/network.xsd, and so does the program's way of writing.
passed=0 failed=0
for file in networks/*.xml; do
    if xmllint --nonet --noout --schema networks/network.xsd "$file" 2>&1; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
    fi
done
# And it must be able to refuse.
if sed 's/<hose /<hosepipe /' networks/hand.xml | xmllint --nonet --noout --schema networks/network.xsd - >/dev/null 2>&1; then
    echo "a wrong element passed"
    failed=$((failed + 1))
else
    passed=$((passed + 1))
fi
echo "[  PASSED  ] $passed test(s)."
[ "$failed" -eq 0 ] || { echo "[  FAILED  ] $failed test(s)."; exit 1; }
