#!/bin/sh
# SPDX-License-Identifier: MIT
# Takes the sources of the libraries that the live page needs, by apt, with its checks of signatures and hashes, from
# where this machine has its packages; the machine's own lists stay as they are. Then writes the headers that their
# configure would make. Argument: the folder that all of it comes into.
set -eu
sources="gsl libxml2 jansson suitesparse"
mkdir -p "$1/from/lists/partial" "$1/from/cache/archives/partial" "$1/include/libxml" "$1/include/gsl"
cd "$1/from"
apt-cache madison libgsl-dev libxml2-dev libjansson-dev libsuitesparse-dev |
    awk -F '|' '{ split($3, from, " "); sub("/", " ", from[2]); print "deb-src " from[1] " " from[2] }' | sort -u >sources.list
own() {
    apt-get -q -o Dir::Etc::SourceList="$PWD/sources.list" -o Dir::Etc::SourceParts=/dev/null \
        -o Dir::State::Lists="$PWD/lists" -o Dir::Cache="$PWD/cache" -o APT::Sandbox::User= "$@"
}
{ own update && own source --only-source $sources; } >log.txt 2>&1 || { tail -n 5 log.txt; exit 1; }
for name in $sources; do
    ln -sfn "$(find . -maxdepth 1 -type d -name "$name-*" | sort | tail -n 1)" $name
done

cd ../include
for has in STDLIB_H STRING_H UNISTD_H STDINT_H CTYPE_H ERRNO_H STDARG_H MATH_H LIMITS_H FLOAT_H SYS_TYPES_H SYS_STAT_H FCNTL_H STAT VA_COPY \
    EXIT_SUCCESS_AND_FAILURE IEEE_COMPARISONS IEEE_DENORMALS DECL_HYPOT DECL_LOG1P DECL_EXPM1 DECL_ACOSH DECL_ASINH \
    DECL_ATANH DECL_LDEXP DECL_FREXP DECL_ISINF DECL_ISFINITE DECL_FINITE DECL_ISNAN; do
    echo "#define HAVE_$has 1"
done >config.h
echo '#define GSL_COERCE_DBL(x) (x)
#define RETURN_IF_NULL(x) if (!x) return;' >>config.h
(cd gsl && ln -sf ../../from/gsl/gsl*.h ../../from/gsl/*/gsl*.h .)
cp config.h jansson_private_config.h
sed 's/@json_inline@/inline/; s/@json_have_[a-z_]*@/1/' ../from/jansson/src/jansson_config.h.in >jansson_config.h
sed -E "s/@VERSION@/$(basename "$(readlink ../from/libxml2)" | sed 's/[^0-9]*[0-9]*-//; s/[+-].*//')/; s/@LIBXML_VERSION_NUMBER@/20914/
    s/@WITH_(TREE|OUTPUT|WRITER|SAX1|PUSH|VALID)@/1/; s/@WITH_[A-Z0-9_]*@?/0/; s/@[A-Z_]*@//" \
    ../from/libxml2/include/libxml/xmlversion.h.in >libxml/xmlversion.h
touch made
