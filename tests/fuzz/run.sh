#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Fuzzes each target for SECONDS_EACH seconds (default 60) with libFuzzer under ASan and UBSan. Whatever is found is kept in
# build/fuzz/<target>/ and fails the run; move a minimised find to tests/fuzz/seeds/<target>/, where every later run tries it first.
set -u
seconds=${SECONDS_EACH:-60}
build=${BUILD:-build/fuzz}
mkdir -p "$build"
flags="-std=c11 -O1 -g -Iinclude -Isrc -D_POSIX_C_SOURCE=200809L -isystem /usr/include/suitesparse $(pkg-config --cflags libxml-2.0 gsl jansson)"
# Zero division of floats is defined (IEEE 754) and used on purpose; everything else of UBSan is on.
sanitize="-fsanitize=address,undefined -fno-sanitize-recover=all"
make -s BUILD="$build/lib" CC=clang OPT="-O1 -fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=all" "$build/lib/libfarvessel.a" >/dev/null || exit 1
bad=0 good=0
for source in tests/fuzz/fuzz_*.c; do
    target=$(basename "$source" .c)
    name=${target#fuzz_}
    # shellcheck disable=SC2086
    clang $flags -fsanitize=fuzzer $sanitize "$source" "$build/lib/libfarvessel.a" $(make -s print-libs) -o "$build/$target" || exit 1
    mkdir -p "$build/$name/corpus"
    seeds="$build/$name/corpus"
    [ -d "tests/fuzz/seeds/$name" ] && seeds="$seeds tests/fuzz/seeds/$name"
    case $name in plantfile | flow) seeds="$seeds networks tests/bad" ;; esac
    # shellcheck disable=SC2086
    if ASAN_OPTIONS=detect_leaks=1 "$build/$target" -max_total_time="$seconds" -timeout=25 -rss_limit_mb=4096 -max_len=20000 \
        -artifact_prefix="$build/$name/" $seeds >"$build/$name/log" 2>&1; then
        good=$((good + 1))
        echo "fuzz $name: $(grep -E '^Done' "$build/$name/log" | tail -1)"
    else
        bad=$((bad + 1))
        echo "fuzz $name: FOUND SOMETHING"
        tail -40 "$build/$name/log"
    fi
done
echo "$good passed, $bad failed"
[ "$bad" -eq 0 ]
