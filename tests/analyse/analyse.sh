#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Three static analysers over src/: gcc -fanalyzer, cppcheck, clang-tidy. Any finding fails, and a tool that fails. What is switched off stands
# beside each, or in known.txt, with the reason. analyse.sh gcc, cppcheck or clang-tidy: that one alone.
set -uo pipefail
only=${1:-all}
jobs=$(nproc 2>/dev/null || echo 2)
flags="-std=c11 -Iinclude -Isrc -D_POSIX_C_SOURCE=200809L -DUDUNITS_VERSION=\"2\" $(pkg-config --cflags gsl libxml-2.0 jansson nettle) -isystem /usr/include/suitesparse"
log=$(mktemp)
trap 'rm -f "$log"' EXIT
bad=0
step() {
    local name=$1
    shift
    "$@" >"$log" 2>&1 || { echo "$name: did not come to its end"; tail -5 "$log"; bad=1; }
    local found
    found=$(grep -cE 'warning:|error:' "$log")
    echo "$name: $found findings"
    [ "$found" -eq 0 ] || { grep -E 'warning:|error:' "$log"; bad=1; }
}

# gcc_file FILE
gcc_file() {
    local file=$1 off=
    case $file in
    # What was allocated is kept in a list or a result, which it does not follow.
    src/base/fault.c | src/datafile/channels.c | src/heatup/series.c | src/heatup/run_open.c) off=-Wno-analyzer-malloc-leak ;;
    # A descriptor, not memory, and it is closed.
    src/plantfile/encoding.c) off=-Wno-analyzer-malloc-leak ;;
    # Lists that are there wherever something is in them; a colon that the piece before was ended at.
    src/heatup/chamber_open.c | src/page/svg_boilers.c | src/page/svg_remedy.c | src/plantfile/spread.c)
        off=-Wno-analyzer-null-dereference ;;
    # Filled by the function that is handed them.
    src/study/match_draw.c) off=-Wno-analyzer-use-of-uninitialized-value ;;
    # Loops that run only where the allocation succeeded.
    src/study/match_defects.c | src/study/plan/moves.c) off=-Wno-analyzer-possible-null-dereference ;;
    src/study/match_solve.c) off=-Wno-analyzer-possible-null-argument ;;
    # A loop that runs only where the allocation succeeded.
    src/model/check_actions.c) off=-Wno-analyzer-possible-null-dereference ;;
    # A counting sort fills every place, which takes arithmetic to see.
    src/num/sparse.c) off=-Wno-analyzer-use-of-uninitialized-value ;;
    # Ways that take a size are only made from one; the line comes from an index that was found.
    src/study/carry/ways.c | src/study/carry/grow.c) off=-Wno-analyzer-null-dereference ;;
    esac
    # shellcheck disable=SC2086
    gcc $flags -O1 -fanalyzer $off -c "$file" -o /dev/null
}
with_gcc() {
    printf '%s\n' src/*/*.c src/*/*/*.c | xargs -P "$jobs" -L 8 bash "$0" --files
}
with_cppcheck() {
    # varFuncNullUB: NULL is a pointer here (it is in the C library's headers; one that made it a plain 0 would not do).
    # internalAstError: it does not understand a nested choice. duplicateAssignExpression: a range starts at one point.
    # tee.c: `from == 2 ? to : from` is below 2, the two legs differ. carry_limit.c: `run` is filled where the status is
    # good. carry_ways.c: the ways that take a size are only made from one. root.c: a structure that is initialised whole.
    # odds.c: two different arrays. moves.c: the loop is empty without a base. search.c: what realloc gave is kept at once.
    # preprocessorErrorDirective in fence.c: it does not know __has_include.
    # Side by side it follows calls from file to file only with a folder for what it found in each.
    mkdir -p build/cppcheck
    cppcheck --quiet -j "$jobs" --cppcheck-build-dir=build/cppcheck --std=c11 -Iinclude -Isrc --enable=warning,performance,portability --suppress=preprocessorErrorDirective:src/cli/fence.c --inline-suppr \
        --suppress=varFuncNullUB --suppress=internalAstError --suppress=duplicateAssignExpression \
        --suppress=arrayIndexOutOfBounds:src/flow/tee.c --suppress=legacyUninitvar:src/num/root.c --suppress=uninitvar:src/study/carry/limit.c \
        --suppress=arrayIndexThenCheck:src/study/odds/odds.c --suppress=nullPointer:src/study/plan/moves.c \
        --suppress=memleak:src/study/search.c \
        --suppress=ctunullpointer:src/study/carry/ways.c \
        --template='{file}:{line}: warning: {message} [{id}]' src
}
with_clang_tidy() {
    # Switched off: insecureAPI.DeprecatedOrUnsafeBufferHandling asks for Annex K, which glibc does not have.
    # valist.Uninitialized does not know va_start in this version. optin.*: order of members, and a size that is never 0.
    # FloatLoopCounter: leaps of time and places on a page, not sums that must come out even. deadcode.DeadStores: values
    # that a declaration gives first. bugprone-easily-swappable-parameters and -narrowing-conversions: physics has many
    # doubles; -Wconversion covers the rest. -branch-clone: tables in switch form. -reserved-identifier: _POSIX_C_SOURCE.
    # -integer-division: rows and bins are whole on purpose, with a cast that says so. -implicit-widening and
    # -misplaced-widening: products of small counts. -sizeof-expression: arrays of pointers are of pointers.
    # -macro-parentheses: macros of initialisers. -suspicious-missing-comma: UTF-8 bytes before a letter.
    # -suspicious-string-compare: strcmp as a truth value.
    local checks='-*,clang-analyzer-*,bugprone-*' off
    for off in clang-analyzer-security.insecureAPI.DeprecatedOrUnsafeBufferHandling clang-analyzer-valist.Uninitialized \
        'clang-analyzer-optin.*' clang-analyzer-security.FloatLoopCounter clang-analyzer-deadcode.DeadStores \
        bugprone-easily-swappable-parameters bugprone-narrowing-conversions bugprone-branch-clone \
        bugprone-reserved-identifier bugprone-integer-division bugprone-implicit-widening-of-multiplication-result \
        bugprone-misplaced-widening-cast bugprone-sizeof-expression bugprone-macro-parentheses \
        bugprone-suspicious-missing-comma bugprone-suspicious-string-compare; do
        checks="$checks,-$off"
    done
    # shellcheck disable=SC2086
    clang-tidy --quiet --checks="$checks" src/*/*.c src/*/*/*.c -- $flags 2>&1 | awk -F' *[|] *' -v root="$PWD/" '
        FNR == NR { if ($0 !~ /^#/ && NF > 2) known[$1 " " $2] = 1; next }
        /warning:|error:/ {
            at = index($0, root); line = at == 1 ? substr($0, length(root) + 1) : $0
            file = line; sub(/:.*/, "", file)
            check = line; sub(/.*\[/, "", check); sub(/\]$/, "", check)
            if (!((file " " check) in known)) print line
        }' tests/analyse/known.txt -
}
if [ "$only" = --files ]; then
    shift
    for file; do gcc_file "$file" 2>&1 || bad=1; done
    exit $bad
fi
case $only in all | gcc) step "gcc -fanalyzer" with_gcc ;; esac
case $only in all | cppcheck) step cppcheck with_cppcheck ;; esac
case $only in all | clang-tidy) step clang-tidy with_clang_tidy ;; esac
exit $bad
