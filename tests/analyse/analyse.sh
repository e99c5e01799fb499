#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Three static analysers over src/: gcc -fanalyzer, cppcheck, clang-tidy. Any finding fails. What is switched off, and why:
#   -Wanalyzer-malloc-leak, -Wanalyzer-use-of-uninitialized-value, ...: see the reasons beside each below.
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
    # gcc 12 takes every call that may set errno, and every flexible array in an arena, for a leak's source; its value
    # analysis of floating point is not there. Nothing is switched off but what the note in the code names.
    for file in src/*/*.c; do
        # shellcheck disable=SC2086
        gcc $flags -O1 -fanalyzer -c "$file" -o /dev/null
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
