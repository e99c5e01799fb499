#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# What people feed it: names with anything in them, line ends and encodings of other systems, folders, nothing, too much,
# and a machine that counts with a decimal comma.
. "$(dirname "$0")/lib.sh"
plant=$root/networks/hand.xml
tables() { sed -n '/^Vessels/,/^Worth/p' "$1"; }
run flow "$plant"
tables "$work/out" >"$work/right"
same() { [ "$code" -eq 0 ] && [ -s "$work/right" ] && cmp -s <(tables "$work/out") "$work/right"; }

for name in "a plant.xml" "pflänzchen ✿ Baumschule.xml" "with'quote\".xml" "per%cent %s.xml" "-o.xml" $'line\nbreak.xml' "&<>.xml"; do
    mkdir -p "$work/names"
    cp "$plant" "$work/names/$name"
    (cd "$work/names" && "$program" flow -- "$name" >"$work/out" 2>"$work/err")
    code=$?
    ok "a file named '$name'" same
    (cd "$work/names" && "$program" flow --format json -- "$name" >"$work/out" 2>"$work/err")
    ok "its JSON is JSON" python3 -m json.tool "$work/out" "$work/json"
    (cd "$work/names" && "$program" flow --set far.nothing=1 -- "$name" >"$work/out" 2>"$work/err")
    code=$?
    ok "and an error in it is said" test "$code" -eq 2 -a -s "$work/err"
done

# A name that is no UTF-8, which file systems allow.
name=$(printf 'pl\344nt.xml')
if cp "$plant" "$work/names/$name" 2>"$work/err"; then
    (cd "$work/names" && "$program" flow -- "$name" >"$work/out" 2>"$work/err")
    code=$?
    ok "a file whose name is Latin-1" same
    for verb in "check --format json" "flow --format json" "heat --format json" "report --no-run"; do
        # shellcheck disable=SC2086
        (cd "$work/names" && "$program" $verb -- "$name" >"$work/out" 2>"$work/err")
        code=$?
        ok "'$verb' of it is UTF-8" iconv -f UTF-8 -t UTF-8 -o "$work/point" "$work/out"
        ok "'$verb' of it works" test "$code" -eq 0
    done
    (cd "$work/names" && "$program" flow --set far.nothing=1 -- "$name" >"$work/out" 2>"$work/err")
    code=$?
    ok "an error in it is said" test "$code" -eq 2 -a -s "$work/err"
fi

feed() { # feed WHAT: the plant in $work/fed.xml gives the right answer
    run flow "$work/fed.xml"
    ok "$1" same
}
sed 's/$/\r/' "$plant" >"$work/fed.xml"
feed "line ends CR LF"
{
    printf '\357\273\277'
    cat "$plant"
} >"$work/fed.xml"
feed "a byte order mark"
{
    printf '\357\273\277'
    sed 's/$/\r/' "$plant"
} >"$work/fed.xml"
feed "both"
tr '\n' '\r' <"$plant" | sed 's/-->/--> /' >"$work/fed.xml"
run flow "$work/fed.xml"
ok "line ends CR alone: read or refused, never wrong" test "$code" -eq 0 -o "$code" -eq 2
printf '%s' "$(cat "$plant")" >"$work/fed.xml"
feed "no line end at the end"
for encoding in UTF-16LE UTF-16BE; do
    mark='\377\376'
    [ $encoding = UTF-16LE ] || mark='\376\377'
    {
        # shellcheck disable=SC2059
        printf "$mark"
        sed '1s/UTF-8/UTF-16/' "$plant" | iconv -f UTF-8 -t $encoding
    } >"$work/fed.xml"
    feed "$encoding with its mark"
done
sed '1s/UTF-8/ISO-8859-1/; s/Alder Lane/Erlengrün/' "$plant" | iconv -f UTF-8 -t ISO-8859-1 >"$work/fed.xml"
run flow "$work/fed.xml" --format json
ok "Latin-1 that says so" says out "Erlengrün"
sed 's/Alder Lane/Erlengrün/' "$plant" | iconv -f UTF-8 -t ISO-8859-1 >"$work/fed.xml"
fails 2 "Latin-1 that says it is UTF-8" flow "$work/fed.xml"
sed '1s/UTF-8/UTF-32/' "$plant" | iconv -f UTF-8 -t UTF-32 >"$work/fed.xml"
fails 2 "UTF-32" flow "$work/fed.xml"
sed '1s/UTF-8/SHIFT_JIS/' "$plant" >"$work/fed.xml"
fails 2 "an encoding that is not read" flow "$work/fed.xml"

fails 2 "a folder" flow "$root/networks"
fails 2 "a file that is not there" flow "$work/nothing.xml"
fails 2 "nothing" flow /dev/null
fails 2 "an empty name" flow ""
fails 2 "a name that is too long" flow "$(printf '%05000d' 0)"
"$program" flow - <&- >"$work/out" 2>"$work/err"
code=$?
ok "standard input that is closed" test "$code" -eq 2 -a -s "$work/err" -a ! -s "$work/out"
cp "$plant" "$work/locked.xml"
chmod 000 "$work/locked.xml"
if [ ! -r "$work/locked.xml" ]; then
    fails 2 "a file that may not be read" flow "$work/locked.xml"
fi
head -c 4096 /dev/zero >"$work/fed.xml"
fails 2 "zero bytes" flow "$work/fed.xml"
head -c 20000 "$program" >"$work/fed.xml"
fails 2 "a program" flow "$work/fed.xml"
for share in 10 50 90 99; do
    head -c $(($(stat -c %s "$plant") * share / 100)) "$plant" >"$work/fed.xml"
    fails 2 "the first $share % of a plant" flow "$work/fed.xml"
done

# 200 MB: refused at once, and without reading all of it.
cp "$plant" "$work/fed.xml"
truncate -s 200M "$work/fed.xml"
begin=$(date +%s%N)
fails 2 "200 MB of file" flow "$work/fed.xml"
ok "which says the limit" says err limit
head -c 200000000 /dev/zero | "$program" flow - >"$work/out" 2>"$work/err"
code=${PIPESTATUS[1]}
ok "200 MB of pipe" test "$code" -eq 2 -a -s "$work/err" -a ! -s "$work/out"
{
    head -n 1 "$plant"
    yes '<!-- a plant file of 200 MB, well-formed as far as it goes, with nothing in it but comments -->' | head -c 200000000
} | "$program" check - >"$work/out" 2>"$work/err"
code=${PIPESTATUS[1]}
ok "200 MB of comments" test "$code" -eq 2 -a -s "$work/err" -a ! -s "$work/out"
took=$((($(date +%s%N) - begin) / 1000000))
ok "all within 10 s: $took ms" test $took -lt 10000

# glibc's newlocale never frees its copy of LOCPATH, which a leak checker sees.
case ${BUILD:-build} in *san*) export ASAN_OPTIONS=${ASAN_OPTIONS:+$ASAN_OPTIONS:}detect_leaks=0 ;; esac
# A decimal comma: the locale is made where localedef can, so that setlocale would really find it.
if mkdir "$work/locales" && localedef -i de_DE -f UTF-8 "$work/locales/de_DE.UTF-8" 2>"$work/err" &&
    [ "$(LOCPATH=$work/locales LC_ALL=de_DE.UTF-8 locale decimal_point)" = , ]; then
    for format in text json csv markdown; do
        run flow "$plant" --format $format
        cp "$work/out" "$work/point"
        LOCPATH=$work/locales LC_ALL=de_DE.UTF-8 LANG=de_DE.UTF-8 "$program" flow "$plant" --format $format >"$work/out" 2>"$work/err"
        ok "a decimal comma in the locale changes nothing in $format" cmp -s "$work/point" "$work/out"
    done
    for verb in "check $plant" "heat $plant" "heat $plant --format json" "heat $plant --format csv" "why $plant --no-remedies" \
        "size $plant --vary holes" "carry $plant --more 0 --no-others" "report $plant --no-run --date 2031-03-14" \
        "check $plant --save $work/copy.xml"; do
        # shellcheck disable=SC2086
        run $verb
        cp "$work/out" "$work/point"
        # shellcheck disable=SC2086
        LOCPATH=$work/locales LC_ALL=de_DE.UTF-8 LANG=de_DE.UTF-8 "$program" $verb >"$work/out" 2>"$work/err"
        ok "nor in '$verb'" cmp -s "$work/point" "$work/out"
    done
    LOCPATH=$work/locales LC_ALL=de_DE.UTF-8 "$program" flow "$plant" --set boiler.output=12.0kW >"$work/out" 2>"$work/err"
    code=$?
    ok "nor does it change how --set is read" same
fi
finish
