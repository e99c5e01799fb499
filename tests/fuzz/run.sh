#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Fuzzes targets for SECONDS_EACH seconds each (default 60) with libFuzzer under ASan and UBSan, as many side by side as there
# are processors (JOBS=1: one by one): run.sh, all of them; run.sh quantity flow, those. FUZZ_SEED fixes what chance does
# (default 0: another every time). Ends with a line of how many held. Whatever is found is kept in build/fuzz/<target>/ and
# fails the run; move a find, as small as it gets, to tests/fuzz/seeds/<target>/, which every later run tries first.
# KEEP=1: afterwards tests/fuzz/corpus/<target>/ becomes the fewest inputs that reach what the seeds do not, up to a size.
set -u
export SECONDS_EACH=${SECONDS_EACH:-60} FUZZ_SEED=${FUZZ_SEED:-0}
export BUILD=${BUILD:-build/fuzz}
most_kept=30000 # bytes for each target

# describe NAME: where its inputs begin, and how long they get.
describe() {
    seeds="tests/fuzz/seeds/$1" longest=400
    case $1 in
    plantfile) seeds="tests/fuzz/seeds/flow networks tests/bad" longest=20000 ;;
    flow | heat) seeds="tests/fuzz/seeds/flow networks" longest=6000 ;;
    esac
}

if [ "${1:-}" = --one ]; then
    name=$2
    describe "$name"
    mkdir -p "$BUILD/$name/corpus"
    [ ! -d "tests/fuzz/corpus/$name" ] || seeds+=" tests/fuzz/corpus/$name"
    # shellcheck disable=SC2086
    if ASAN_OPTIONS=detect_leaks=1 "$BUILD/fuzz_$name" -max_total_time="$SECONDS_EACH" -seed="$FUZZ_SEED" -timeout=60 \
        -rss_limit_mb=4096 -max_len=$longest -dict="tests/fuzz/words/$name" -artifact_prefix="$BUILD/$name/" \
        "$BUILD/$name/corpus" $seeds >"$BUILD/$name/log" 2>&1; then
        # Edges of our code, of those that there are.
        reached=$(grep -oE 'cov: [0-9]+' "$BUILD/$name/log" | tail -1)
        all=$(sed -nE 's/^INFO: Loaded .* \(([0-9]+) inline.*/\1/p' "$BUILD/$name/log")
        echo "fuzz $name: $(grep -E '^Done' "$BUILD/$name/log" | tail -1), ${reached#cov: } of $all edges"
    else
        echo "fuzz $name: FOUND SOMETHING"
        tail -40 "$BUILD/$name/log"
    fi
    exit 0
fi

# keep NAME: what its corpus reaches beyond the seeds, smallest inputs first.
keep() {
    local name=$1 merged=$BUILD/$1/merged kept=tests/fuzz/corpus/$1 bytes=0 file size
    describe "$name"
    rm -rf "$merged"
    mkdir -p "$merged/seeds" "$merged/kept" "$kept"
    # shellcheck disable=SC2086
    find $seeds -type f -size "-$((longest + 1))c" -exec cp {} "$merged/seeds/" \;
    "$BUILD/fuzz_$name" -merge=1 -use_counters=0 -timeout=60 -rss_limit_mb=4096 -max_len=$longest "$merged/seeds" \
        "$BUILD/$name/corpus" "$kept" >"$BUILD/$name/merge.log" 2>&1 ||
        { echo "kept $name: as it was, for the merge failed: $BUILD/$name/merge.log"; return 1; }
    while read -r size file; do
        bytes=$((bytes + size))
        [ $bytes -le $most_kept ] || break
        cp "$file" "$merged/kept/" || return 1
    done < <(cd "$merged/seeds" && find "$PWD" -type f -regextype egrep -regex '.*/[0-9a-f]{40}' -printf '%s %p\n' | sort -n)
    rm -rf "$kept"
    mv "$merged/kept" "$kept"
    echo "kept $name: $(find "$kept" -type f | wc -l) inputs"
}

flags="-std=c11 -O1 -g -Iinclude -Isrc -D_POSIX_C_SOURCE=200809L -isystem /usr/include/suitesparse $(pkg-config --cflags libxml-2.0 gsl jansson)"
# Zero division of floats is defined (IEEE 754) and used on purpose; everything else of UBSan is on.
sanitize="-fsanitize=address,undefined -fno-sanitize-recover=all"
inside="-fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=all -fsanitize-coverage-ignorelist=tests/fuzz/uncounted"
jobs=${JOBS:-$(nproc 2>/dev/null || echo 2)}
targets=${*:-heat flow plantfile desk set quantity}
mkdir -p "$BUILD"
make -s -j"$jobs" BUILD="$BUILD/lib" CC=clang OPT="-O1 $inside" "$BUILD/lib/libfarvessel.a" >/dev/null || exit 1
for name in $targets; do
    # shellcheck disable=SC2086
    clang $flags -fsanitize=fuzzer $sanitize "tests/fuzz/fuzz_$name.c" "$BUILD/lib/libfarvessel.a" $(make -s print-libs) \
        -o "$BUILD/fuzz_$name" || exit 1
done
# shellcheck disable=SC2086
printf '%s\n' $targets | xargs -P "$jobs" -L 1 bash "$0" --one | tee "$BUILD/said"
unkept=0
[ -z "${KEEP:-}" ] || for name in $targets; do keep "$name" || unkept=1; done
# Counted are those that got to their end: one that died has said nothing.
all=$(wc -w <<<"$targets") good=$(grep -c '^fuzz [a-z]*: Done' "$BUILD/said")
echo "$good of $all targets held"
[ "$good" -eq "$all" ] && [ $unkept -eq 0 ]
