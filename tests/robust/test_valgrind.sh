#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# All verbs on the smallest plant under valgrind: no wrong access, nothing read before it is written, nothing lost.
. "$(dirname "$0")/../cli/lib.sh"
case ${BUILD:-build} in
*san*) skip="the sanitizers look already" ;;
*) skip= ;;
esac
command -v valgrind >/dev/null || skip="there is no valgrind"
if [ -n "$skip" ]; then
    ok "nothing is tried: $skip" true
    finish
    exit
fi
for verb in "check --no-ranking" flow heat "report --no-run" "why --no-remedies" "size --vary holes"; do
    # UDUNITS' and libxml2's tables that live to the end are `still reachable` or `possibly lost`, which are not asked for.
    # shellcheck disable=SC2086
    valgrind -q --error-exitcode=99 --leak-check=full --errors-for-leak-kinds=definite \
        "$program" $verb -- "$root/networks/hand.xml" >"$work/out" 2>"$work/err"
    code=$?
    ok "'$verb' is clean under valgrind" test "$code" -eq 0 -a -s "$work/out"
done
finish
