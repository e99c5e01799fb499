#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# A changed header rebuilds what reads it and nothing else; a changed Makefile rebuilds all (but src/web: make web).
set -u
cd "$(dirname "$0")/../.." || exit 1
build=${BUILD:-build}
passed=0 failed=0

# rebuilt FILE: what make would compile if FILE were new.
rebuilt() {
    MAKEFLAGS='' make -n -W "$1" BUILD="$build" CC="${CC:-gcc}" all | sed -n 's/.*echo "cc \(.*\)"/\1/p'
}

check() {
    if eval "$2"; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "not so: $1"
    fi
}

if [ ! -e "$build/farvessel" ]; then
    echo "$build/farvessel is not built"
    exit 1
fi
link=$(rebuilt src/model/link.h)
readers=$(grep -l '"model/link.h"' src/*/*.c src/*/*/*.c)
check "a private header rebuilds those that include it" '[ -n "$readers" ] && ! grep -qvxF "$link" <<<"$readers"'
check "and leaves other folders alone" '! grep -qv "^src/model/" <<<"$link"'
carry=$(rebuilt include/farvessel/carry.h)
check "a public header rebuilds what reads it by way of others" 'grep -q src/study/carry/grow.c <<<"$carry"'
check "a public header leaves lower floors alone" '! grep -Eq "src/(base|flow|steady|model)/" <<<"$carry"'
check "the Makefile rebuilds all" '[ "$(rebuilt Makefile | wc -l)" -eq "$(ls src/*/*.c src/*/*/*.c | grep -vc "^src/web/")" ]'
check "nothing changed, nothing to do" '[ -z "$(rebuilt README.md)" ]'

echo "[  PASSED  ] $passed test(s)."
[ "$failed" -eq 0 ] || echo "[  FAILED  ] $failed test(s)"
[ "$failed" -eq 0 ]
