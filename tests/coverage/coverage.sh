#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Line and branch coverage of all tests by gcov, summed by folder; then the files that are covered least. Lines that no
# test reached stand in build/coverage/<file>.c.gcov, marked #####.
set -u
build=${BUILD:-build/coverage}
mkdir -p "$build"
find "$build" -name '*.gcda' -delete 2>/dev/null
make BUILD="$build" CC=gcc CPPFLAGS=-DUNFENCED_FILES OPT="-O0 --coverage -Wno-format-truncation" LDFLAGS=--coverage run-tests >"$build.log" 2>&1
tail -n 1 "$build.log"
here=$PWD
cd "$build" || exit 1
for notes in src/*/*.gcno src/*/*/*.gcno; do
    echo "object $notes"
    (cd "$here" && gcov -b -n -o "$build/$(dirname "$notes")" "$build/${notes%.gcno}.o") 2>/dev/null
done | awk '
    /^object / { wanted = $2; sub(/\.gcno$/, ".c", wanted); split(wanted, part, "/"); folder = part[2]; take = 0 }
    /^File / { take = index($0, wanted) > 0 }
    take && /^Lines executed:/ { split($0, a, /[:% ]+/); lines = $NF; hit = lines * a[3] / 100; all[folder] += lines; got[folder] += hit; name[++n] = wanted; share[n] = a[3]; count[n] = lines }
    take && /^Branches executed:/ { branches[folder] += $NF }
    take && /^Taken at least once:/ { split($0, a, /[:% ]+/); taken[folder] += $NF * a[5] / 100; take = 0 }
    END {
        printf "| folder | lines | covered | branches | taken |\n|---|---|---|---|---|\n"
        for (f in all) {
            printf "| %s | %d | %.1f %% | %d | %.1f %% |\n", f, all[f], 100 * got[f] / all[f], branches[f], branches[f] ? 100 * taken[f] / branches[f] : 100
            lines += all[f]; hits += got[f]; b += branches[f]; t += taken[f]
        }
        printf "| all | %d | %.1f %% | %d | %.1f %% |\n\nBelow 85 %% of lines:\n", lines, 100 * hits / lines, b, 100 * t / b
        for (i = 1; i <= n; i++) if (share[i] < 85) printf "%s: %.0f %% of %d\n", name[i], share[i], count[i]
    }'
