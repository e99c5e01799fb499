#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# All that is linked, as an archive or when the program starts, is in licences.txt; --version names what the program uses
# itself, with the same licence; the copyright files of Debian's packages, where they are installed, agree.
. "$(dirname "$0")/../cli/lib.sh"
list=$root/tests/lint/licences.txt
licence_of() { sed -nE "s/^$1 \| ([^|]*) \| .*/\1/p" "$list"; }

# A sanitizer's build keeps libraries that nothing calls, and is not handed on.
case ${BUILD:-build} in
*san*)
    ok "a sanitizer's build is not handed on" true
    finish
    exit
    ;;
esac
# Names of libraries as the list has them: libgsl.so.27 and /usr/lib/libgsl.a are libgsl.
plain() { sed -E 's|.*/||; s/\.(so|a)(\..*)?$//' | sort -u; }
shared=$(ldd "$program" | sed -nE 's/^[[:space:]]*([^ ]+) .*/\1/p' | grep -v vdso | grep -vE 'lib(a|ub|t)san' | plain)
archives=$(make -s -C "$root" print-libs CC="${CC:-gcc}" | tr ' ' '\n' | grep '\.a$' | plain)
run --version
cp "$work/out" "$work/version"
ok "--version works" test "$code" -eq 0
for library in $shared $archives; do
    ok "$library may be linked" test -n "$(licence_of "${library//+/\\+}")"
done
ok "libraries are seen" test "$(wc -w <<<"$shared $archives")" -gt 10
# SPDX names as the copyright files write them.
said() {
    case $1 in
    GPL-3.0-or-later) echo 'GPL' ;;
    LGPL-2.1-or-later) echo 'LGPLv?2\.1\+|Lesser' ;;
    LGPL-3.0-or-later*) echo 'LGPL-3\+ or GPL-2\+|GPL-2\+ or LGPL-3\+' ;;
    LGPL-2.1-only*) echo 'LGPL-2\.1 or MPL-2\.0' ;;
    MIT) echo 'License: (MIT|Expat)' ;;
    BSD-3-Clause) echo 'BSD-3-[Cc]lause' ;;
    Zlib) echo 'License: Zlib' ;;
    0BSD) echo 'License: PD' ;;
    UDUNITS-2) echo 'for any purpose whatsoever, provided that this entire' ;;
    *WITH*) echo 'RUNTIME LIBRARY EXCEPTION|Runtime Library Exception' ;;
    esac
}
while IFS='|' read -r library licence package; do
    copyright=/usr/share/doc/${package// /}/copyright
    [ "${library:0:1}" != "#" ] && [ -e "$copyright" ] || continue
    licence=$(sed 's/^ *//;s/ *$//' <<<"$licence")
    ok "Debian's ${package// /} says '$licence'" grep -qE "$(said "$licence")" "$copyright"
done <"$list"
for pair in GSL:libgsl KLU:libklu BTF:libbtf libxml2:libxml2 UDUNITS-2:libudunits2 Jansson:libjansson libcsv:libcsv \
    libical:libical Nettle:libnettle libmicrohttpd:libmicrohttpd; do
    ok "--version has ${pair%:*} with its licence" \
        grep -qE "^  ${pair%:*} +[^ ].* $(licence_of "${pair#*:}")\$" "$work/version"
done
ok "README says it" grep -q "GPL, version 3 or later" "$root/README.md"
# The examiner notices a library that is not listed.
ok "Graphviz' would be noticed" test -z "$(licence_of libgvc)"
finish
