#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Debian's packages, without network: farvessel, libfarvessel0, libfarvessel-dev, in build/deb. The same revision gives the
# same bytes: times come from SOURCE_DATE_EPOCH, else from the version's date.
set -euo pipefail
cd "$(dirname "$0")/../.."
version=$1
out=$PWD/build/deb stage=$PWD/build/deb/stage
triplet=$(dpkg-architecture -qDEB_HOST_MULTIARCH) arch=$(dpkg-architecture -qDEB_HOST_ARCH)
SOURCE_DATE_EPOCH=${SOURCE_DATE_EPOCH:-$(date -u -d "$(sed -nE 's/.*FV_DATE "([^"]*)".*/\1/p' include/farvessel/print.h)" +%s)}
export SOURCE_DATE_EPOCH
umask 022
rm -rf "$out"
mkdir -p "$out" "$stage"
make --no-print-directory RELEASE=1 DESTDIR="$stage" PREFIX=/usr LIBDIR="/usr/lib/$triplet" install >/dev/null

# move PACKAGE PATH...: out of the stage.
move() {
    local tree=$out/$1 path
    shift
    for path in "$@"; do
        mkdir -p "$tree/$(dirname "$path")"
        mv "$stage/$path" "$tree/$(dirname "$path")/"
    done
}
(cd "$stage" && find usr/share/man -type f -exec gzip -n9 {} +)
mkdir -p "$stage/usr/share/zsh/vendor-completions"
mv "$stage/usr/share/zsh/site-functions/_farvessel" "$stage/usr/share/zsh/vendor-completions/"
rmdir "$stage/usr/share/zsh/site-functions"
strip --strip-unneeded "$stage/usr/bin/farvessel" "$stage/usr/lib/$triplet/libfarvessel.so.$version"
strip --strip-debug --enable-deterministic-archives "$stage/usr/lib/$triplet/libfarvessel.a"
move libfarvessel0 "usr/lib/$triplet/libfarvessel.so.0" "usr/lib/$triplet/libfarvessel.so.$version"
move libfarvessel-dev "usr/lib/$triplet/libfarvessel.so" "usr/lib/$triplet/libfarvessel.a" \
    "usr/lib/$triplet/pkgconfig/farvessel.pc" usr/include/farvessel
move farvessel usr/bin/farvessel usr/share
rm -rf "$stage"

mkdir -p "$out/debian"
printf 'Source: farvessel\n\nPackage: farvessel\nArchitecture: any\n' >"$out/debian/control"
# depends FILE: packages with the shared libraries that it needs.
depends() { (cd "$out" && dpkg-shlibdeps -O "$1" 2>/dev/null | sed 's/^shlibs:Depends=//'); }

# package NAME SECTION DEPENDS DESCRIPTION LONG
package() {
    local tree=$out/$1 doc=$out/$1/usr/share/doc/$1
    mkdir -p "$tree/DEBIAN" "$doc"
    cp src/package/copyright "$doc/copyright"
    printf 'farvessel (%s) unstable; urgency=medium\n\n  * First version.\n\n -- the farvessel contributors <farvessel@example.org>  %s\n' \
        "$version" "$(date -u -R -d "@$SOURCE_DATE_EPOCH")" | gzip -n9 >"$doc/changelog.gz"
    find "$tree" -exec touch -h -d "@$SOURCE_DATE_EPOCH" {} +
    {
        printf 'Package: %s\nSource: farvessel\nVersion: %s\nArchitecture: %s\nMaintainer: the farvessel contributors <farvessel@example.org>\n' \
            "$1" "$version" "$arch"
        printf 'Installed-Size: %s\nDepends: %s\nSection: %s\nPriority: optional\nMulti-Arch: %s\n' \
            "$(find "$tree" -path '*/DEBIAN' -prune -o -type f -printf '%s\n' | awk '{ n += int(($1 + 1023) / 1024) } END { print n + 0 }')" \
            "$3" "$2" "$(case $1 in farvessel) echo foreign ;; *) echo same ;; esac)"
        printf 'Description: %s\n %s\n' "$4" "$5"
    } >"$tree/DEBIAN/control"
    (cd "$tree" && find usr -type f -print0 | LC_ALL=C sort -z | xargs -0 md5sum) >"$tree/DEBIAN/md5sums"
    if [ "$1" = libfarvessel0 ]; then
        echo "libfarvessel 0 libfarvessel0 (>= $version)" >"$tree/DEBIAN/shlibs"
        echo "activate-noawait ldconfig" >"$tree/DEBIAN/triggers"
    fi
    find "$tree" -exec touch -h -d "@$SOURCE_DATE_EPOCH" {} +
    dpkg-deb --root-owner-group -Zxz --build "$tree" "$out/${1}_${version}_$arch.deb" >/dev/null
}
about="Steam distribution in vented vessels that treat growing media: which
 vessel gets how much steam, when its core is done, and what helps."
package farvessel science "$(depends farvessel/usr/bin/farvessel)" "calculator for low-pressure steam treatment lines" "$about"
package libfarvessel0 libs "$(depends "libfarvessel0/usr/lib/$triplet/libfarvessel.so.0")" \
    "calculator for low-pressure steam treatment lines (library)" "$about"
package libfarvessel-dev libdevel "libfarvessel0 (= $version), libxml2-dev, libjansson-dev, libical-dev, nettle-dev, libgsl-dev, libudunits2-dev, libsuitesparse-dev, libcsv-dev, libmicrohttpd-dev" \
    "calculator for low-pressure steam treatment lines (development)" "$about"
rm -rf "$out/debian" "$out"/farvessel "$out"/libfarvessel0 "$out"/libfarvessel-dev
ls "$out"/*.deb
