#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Three static analysers over src/: gcc -fanalyzer, cppcheck, clang-tidy. Any finding fails. What is switched off stands
# beside each, with the reason. analyse.sh gcc, cppcheck or clang-tidy: that one alone.
set -u
only=${1:-all}
flags="-std=c11 -Iinclude -Isrc -D_POSIX_C_SOURCE=200809L $(pkg-config --cflags gsl libxml-2.0 jansson libgvc nettle) -isystem /usr/include/suitesparse"
log=$(mktemp)
trap 'rm -f "$log"' EXIT
bad=0
step() {
    local name=$1
    shift
    "$@" >"$log" 2>&1
    local found
    found=$(grep -cE 'warning:|error:' "$log")
    echo "$name: $found findings"
    [ "$found" -eq 0 ] || { grep -E 'warning:|error:' "$log"; bad=1; }
}

with_gcc() {
    local file off
    for file in src/*/*.c; do
        off=
        case $file in
        # What was allocated is kept in a list or a result, which it does not follow.
        src/base/fault.c | src/heatup/series.c) off=-Wno-analyzer-malloc-leak ;;
        # A loop that runs only where the allocation succeeded.
        src/model/check_actions.c) off=-Wno-analyzer-possible-null-dereference ;;
        # A counting sort fills every place, which takes arithmetic to see.
        src/num/sparse.c) off=-Wno-analyzer-use-of-uninitialized-value ;;
        # Ways that take a size are only made from one; the line comes from an index that was found.
        src/study/carry_ways.c | src/study/carry_grow.c) off=-Wno-analyzer-null-dereference ;;
        esac
        # shellcheck disable=SC2086
        gcc $flags -O1 -fanalyzer $off -c "$file" -o /dev/null
    done
}
with_cppcheck() {
    # varFuncNullUB: NULL is a pointer here (it is in the C library's headers; one that made it a plain 0 would not do).
    # internalAstError: it does not understand a nested choice. duplicateAssignExpression: a range starts at one point.
    # tee.c: `from == 2 ? to : from` is below 2, the two legs differ. carry_limit.c: `run` is filled where the status is
    # good. carry_ways.c: the ways that take a size are only made from one.
    cppcheck --quiet --std=c11 -Iinclude -Isrc --enable=warning,performance,portability --inline-suppr \
        --suppress=varFuncNullUB --suppress=internalAstError --suppress=duplicateAssignExpression \
        --suppress=arrayIndexOutOfBounds:src/flow/tee.c --suppress=uninitvar:src/study/carry_limit.c \
        --suppress=ctunullpointer:src/study/carry_ways.c \
        --template='{file}:{line}: warning: {message} [{id}]' src
}
with_clang_tidy() {
    # insecureAPI.DeprecatedOrUnsafeBufferHandling asks for Annex K, which glibc does not have.
    # bugprone-easily-swappable-parameters and -narrowing-conversions: physics has many doubles; -Wconversion covers the
    # rest. bugprone-branch-clone: tables in switch form. reserved-identifier: _POSIX_C_SOURCE.
    # shellcheck disable=SC2086
    clang-tidy --quiet --checks='-*,clang-analyzer-*,bugprone-*,-clang-analyzer-security.insecureAPI.DeprecatedOrUnsafeBufferHandling,-bugprone-easily-swappable-parameters,-bugprone-narrowing-conversions,-bugprone-branch-clone,-bugprone-reserved-identifier' \
        src/*/*.c -- $flags
}
case $only in all | gcc) step "gcc -fanalyzer" with_gcc ;; esac
case $only in all | cppcheck) step cppcheck with_cppcheck ;; esac
case $only in all | clang-tidy) step clang-tidy with_clang_tidy ;; esac
exit $bad
