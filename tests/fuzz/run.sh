#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Fuzzes targets for SECONDS_EACH seconds each (default 60) with libFuzzer under ASan and UBSan: run.sh, all of them;
# run.sh quantity flow, those. FUZZ_SEED fixes what chance does (default 0: another every time). Ends with a line of how
# many held. Whatever is found is kept in build/fuzz/<target>/ and fails the run; move a find, as small as it gets, to
# tests/fuzz/seeds/<target>/, which every later run tries first.
set -u
seconds=${SECONDS_EACH:-60}
build=${BUILD:-build/fuzz}
mkdir -p "$build"
flags="-std=c11 -O1 -g -Iinclude -Isrc -D_POSIX_C_SOURCE=200809L -isystem /usr/include/suitesparse $(pkg-config --cflags libxml-2.0 gsl jansson)"
# Zero division of floats is defined (IEEE 754) and used on purpose; everything else of UBSan is on.
sanitize="-fsanitize=address,undefined -fno-sanitize-recover=all"
inside="-fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=all -fsanitize-coverage-ignorelist=tests/fuzz/uncounted"
make -s BUILD="$build/lib" CC=clang OPT="-O1 $inside" "$build/lib/libfarvessel.a" >/dev/null || exit 1
bad=0 good=0
for name in ${*:-quantity set plantfile flow heat desk}; do
    mkdir -p "$build/$name/corpus"
    # shellcheck disable=SC2086
    clang $flags -fsanitize=fuzzer $sanitize "tests/fuzz/fuzz_$name.c" "$build/lib/libfarvessel.a" $(make -s print-libs) -o "$build/fuzz_$name" || exit 1
    seeds=tests/fuzz/seeds/$name longest=400
    case $name in
    plantfile) seeds="tests/fuzz/seeds/flow networks tests/bad" longest=20000 ;;
    flow | heat) seeds="tests/fuzz/seeds/flow networks" longest=6000 ;;
    esac
    # shellcheck disable=SC2086
    if ASAN_OPTIONS=detect_leaks=1 "$build/fuzz_$name" -max_total_time="$seconds" -seed="${FUZZ_SEED:-0}" -timeout=60 \
        -rss_limit_mb=4096 -max_len=$longest -dict="tests/fuzz/words/$name" -artifact_prefix="$build/$name/" \
        "$build/$name/corpus" $seeds >"$build/$name/log" 2>&1; then
        good=$((good + 1))
        echo "fuzz $name: $(grep -E '^Done' "$build/$name/log" | tail -1)"
    else
        bad=$((bad + 1))
        echo "fuzz $name: FOUND SOMETHING"
        tail -40 "$build/$name/log"
    fi
done
echo "$good of $((good + bad)) targets held"
[ "$bad" -eq 0 ]
