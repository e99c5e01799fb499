#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# NULL given to each public function, for each of its pointers, is an error or does nothing: no call ends the process. A
# function that is added is called, too, for the calls are made from the headers.
. "$(dirname "$0")/../cli/lib.sh"
build=$(dirname "$program")
flags=(-std=c11 -D_POSIX_C_SOURCE=200809L -w -I"$root/include" -isystem /usr/include/suitesparse)
case $build in *san*) flags+=(-fsanitize=address,undefined -fno-sanitize-recover=all) ;; esac
python3 "$root/tests/hostile/null_calls.py" "$root/include/farvessel" >"$work/calls.c"
read -ra libraries <<<"$(make -s -C "$root" print-libs CC="${CC:-gcc}")"
${CC:-gcc} "${flags[@]}" "$work/calls.c" "$build/libfarvessel.a" "${libraries[@]}" -o "$work/calls" 2>"$work/err"
code=$?
: >"$work/out"
ok "the calls are built" test "$code" -eq 0
(cd "$work" && ASAN_OPTIONS=detect_leaks=0 ./calls "$root/networks/hand.xml") >"$work/out" 2>"$work/err"
code=$?
cat "$work/out"
ok "no call crashes" test "$code" -eq 0
ok "of more than 400" test "$(sed -n 's/ calls, .*//p' "$work/out")" -gt 400
finish
