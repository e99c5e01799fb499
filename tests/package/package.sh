#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# What is handed on: the hardened program, the shared library with its names and its headers, Debian's packages and the
# tarball. Everything is unpacked into a scratch folder; only INSTALL=1, as root, also installs the packages and removes
# them. Ends in cmocka's manner.
BUILD=build/release
export BUILD
make -s -C "$(dirname "$0")/../.." -j"$(nproc)" RELEASE=1 all >/dev/null || exit 1
. "$(dirname "$0")/../cli/lib.sh"
: >"$work/out" >"$work/err"
cd "$root" || exit 1
version=$(sed -nE 's/.*FV_VERSION "(.*)"/\1/p' include/farvessel/print.h)
shared=$BUILD/libfarvessel.so.$version

# ---- hardening, on the binaries ----
for binary in "$program" "$shared"; do
    name=$(basename "$binary")
    ok "$name stands anywhere (PIE)" grep -q 'DYN' <(readelf -h "$binary")
    ok "$name: relocations are read-only (RELRO)" grep -q GNU_RELRO <(readelf -lW "$binary")
    ok "$name: bound when it starts" grep -q 'NOW' <(readelf -dW "$binary")
    ok "$name: no stack is run" grep -qE 'GNU_STACK.* RW ' <(readelf -lW "$binary")
    ok "$name: stacks are guarded" grep -q __stack_chk_fail <(readelf -sW "$binary")
    ok "$name: copies are checked (fortify)" grep -qE '__[a-z]+_chk' <(nm -D "$binary")
    ok "$name has no path of its own" test -z "$(readelf -dW "$binary" | grep -E 'RPATH|RUNPATH')"
done

# ---- the library ----
ok "its soname" grep -q 'SONAME.*\[libfarvessel.so.0\]' <(readelf -dW "$shared")
nm -D --defined-only "$shared" | awk '{ print $3 }' | sort >"$work/names"
ok "only names that begin with fv_" test -z "$(grep -v '^fv_' "$work/names")"
missing=$(comm -13 "$work/names" <(grep -v '^#' tests/package/symbols.txt | sort))
ok "none of its names is gone: $missing" test -z "$missing"
comm -23 "$work/names" <(grep -v '^#' tests/package/symbols.txt | sort) | sed 's/^/new, to be added to symbols.txt: /'
make -s RELEASE=1 install DESTDIR="$work/there" PREFIX=/usr >"$work/out" 2>"$work/err"
code=$?
ok "make install" test "$code" -eq 0
ours() { PKG_CONFIG_PATH=$work/there/usr/lib/pkgconfig PKG_CONFIG_SYSROOT_DIR=$work/there pkg-config "$1" farvessel; }
for header in "$work/there"/usr/include/farvessel/*.h; do
    echo "#include <farvessel/$(basename "$header")>" >"$work/one.c"
    ok "$(basename "$header") compiles alone in C11" \
        ${CC:-gcc} -std=c11 -Wall -Wextra -Werror -fsyntax-only -I"$work/there/usr/include" "$work/one.c"
    ok "$(basename "$header") compiles alone in C++17" \
        ${CXX:-g++} -std=c++17 -pedantic -Wall -Wextra -Werror -fsyntax-only -I"$work/there/usr/include" -x c++ "$work/one.c"
done
cat >"$work/main.c" <<'C'
#include "embed.h"
#include <stdio.h>
int main(void)
{
    fv_faults *faults = fv_faults_new();
    example_answer answer;
    bool good = example_run(12, &answer, faults);
    printf("%d %d\n", good, answer.core[0] < answer.core[1]);
    fv_faults_free(faults);
    return good ? 0 : 1;
}
C
for way in shared static; do
    libraries=$(ours --libs)
    [ $way = shared ] || libraries="$work/there/usr/lib/libfarvessel.a $(make -s print-libs)"
    # shellcheck disable=SC2046,SC2086
    ${CC:-gcc} -std=c11 $(ours --cflags) -Itests/example "$work/main.c" tests/example/embed.c $libraries \
        -o "$work/embed" 2>"$work/err"
    LD_LIBRARY_PATH=$work/there/usr/lib "$work/embed" >"$work/out" 2>>"$work/err"
    code=$?
    ok "the example on the $way library" test "$code" -eq 0 -a "$(cat "$work/out")" = "1 1"
done
# From C++ its names are C's.
cat >"$work/main.cpp" <<'CPP'
#include <farvessel/farvessel.h>
int main()
{
    fv_plant *plant = fv_plant_new(nullptr);
    const bool good = fv_plant_add_probe(plant, "p1", fv_loc{nullptr, 0}) != nullptr && fv_given(2.0).v == 2.0;
    fv_plant_free(plant);
    return good ? 0 : 1;
}
CPP
# shellcheck disable=SC2046
${CXX:-g++} -std=c++17 $(ours --cflags) "$work/main.cpp" $(ours --libs) -o "$work/cpp" 2>"$work/err"
ok "a program in C++ on the shared library" env LD_LIBRARY_PATH="$work/there/usr/lib" "$work/cpp"

# ---- packages ----
src/package/deb.sh "$version" >"$work/out" 2>"$work/err"
code=$?
ok "make deb" test "$code" -eq 0 -a "$(wc -l <"$work/out")" -eq 3
sha256sum build/deb/*.deb >"$work/first"
src/package/deb.sh "$version" >"$work/out" 2>"$work/err"
ok "the same bytes again" cmp -s "$work/first" <(sha256sum build/deb/*.deb)
for deb in build/deb/*.deb; do dpkg-deb -x "$deb" "$work/system" || exit 1; done
LD_LIBRARY_PATH=$(dirname "$(find "$work/system" -name 'libfarvessel.so.0')") \
    "$work/system/usr/bin/farvessel" flow "$work/system/usr/share/farvessel/networks/hand.xml" >"$work/out" 2>"$work/err"
code=$?
ok "the program out of its package works" test "$code" -eq 0 -a -s "$work/out"
for page in man1/farvessel.1 man1/farvessel-flow.1 man5/farvessel-plant.5; do
    ok "$page is in it" test -s "$work/system/usr/share/man/$page.gz"
done
ok "its copyright file says GPL-3" grep -q GPL-3 "$work/system/usr/share/doc/farvessel/copyright"
if command -v lintian >/dev/null; then
    lintian --tag-display-limit 0 --fail-on error --allow-root build/deb/*.deb >"$work/out" 2>"$work/err"
    code=$?
    cat "$work/out"
    ok "lintian finds no error" test "$code" -eq 0
fi

# ---- installed for real, used and removed: with INSTALL=1, for it changes the system while it runs ----
if [ "${INSTALL:-0}" = 1 ] && [ "$(id -u)" = 0 ] && ! dpkg -s farvessel libfarvessel0 libfarvessel-dev >/dev/null 2>&1; then
    dpkg -i build/deb/*.deb >"$work/out" 2>"$work/err"
    code=$?
    ok "dpkg -i" test "$code" -eq 0
    dpkg -L farvessel libfarvessel0 libfarvessel-dev | sort -u | grep farvessel >"$work/paths"
    (cd / && farvessel flow /usr/share/farvessel/networks/far-bench.xml) >"$work/out" 2>"$work/err"
    code=$?
    ok "it answers for a bundled plant" test "$code" -eq 0 -a -s "$work/out"
    if command -v man >/dev/null; then
        ok "man farvessel" test "$(MANPAGER=cat man farvessel 2>"$work/err" | grep -c starved)" -ge 1
        ok "man farvessel-plant" test "$(MANPAGER=cat man 5 farvessel-plant 2>"$work/err" | grep -c drill)" -ge 1
    fi
    # shellcheck disable=SC2046
    ${CC:-gcc} -std=c11 $(pkg-config --cflags farvessel) -Itests/example "$work/main.c" tests/example/embed.c \
        $(pkg-config --libs farvessel) -o "$work/embed" 2>"$work/err"
    "$work/embed" >"$work/out" 2>>"$work/err"
    ok "a program of one's own" test "$(cat "$work/out")" = "1 1"
    dpkg -P farvessel libfarvessel-dev libfarvessel0 >"$work/out" 2>"$work/err"
    code=$?
    left=$(while read -r path; do [ -e "$path" ] && echo "$path"; done <"$work/paths")
    ok "dpkg -P leaves nothing: $left" test "$code" -eq 0 -a -z "$left"
fi

# ---- the tarball ----
if git rev-parse HEAD >/dev/null 2>&1; then
    make -s dist >/dev/null && sha256sum build/farvessel-"$version".tar.gz >"$work/first"
    make -s dist >/dev/null
    ok "make dist gives the same bytes again" cmp -s "$work/first" <(sha256sum build/farvessel-"$version".tar.gz)
    tar -xf build/farvessel-"$version".tar.gz -C "$work"
    (cd "$work/farvessel-$version" && env -u BUILD make -j"$(nproc)" all) >"$work/out" 2>"$work/err"
    ok "and builds without git" test -x "$work/farvessel-$version/build/farvessel"
fi
finish
