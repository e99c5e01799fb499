#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Compares the answers of two builds of the program to the byte: every plant, verb, format, table, drawing and list, in
# metric and US units; standard output, messages and exit code. A guard against changes that should change no answer, no
# source of what is right. Says which differ; exit code 1 if any does.
#   compare.sh [-p PLANT.xml]... [-v VERB]... OLD NEW [OLD_PLANTS [NEW_PLANTS]]
# OLD and NEW: programs, or a revision (with its own plants), which is then built in build/before. Plants: folders, this
# tree's networks by default. What is asked is what OLD can answer.
set -u
export LC_ALL=C
root=$(cd "$(dirname "$0")/../.." && pwd)
only_plants=() only_verbs=()
while getopts p:v: option; do
    case $option in
    p) only_plants+=("$OPTARG") ;;
    v) only_verbs+=("$OPTARG") ;;
    *) exit 2 ;;
    esac
done
shift $((OPTIND - 1))
if [ $# -lt 2 ] || [ $# -gt 4 ]; then
    sed -n '3,8s/^# //p' "$0" >&2
    exit 2
fi

# build REVISION: its tree, built, in $tree.
build() {
    local revision
    revision=$(git -C "$root" rev-parse --verify --quiet "$1^{commit}") || return 1
    tree=$root/build/before/$revision
    [ -x "$tree/build/farvessel" ] && return
    mkdir -p "$tree"
    git -C "$root" archive "$revision" | tar -x -C "$tree" &&
        env -u MAKEFLAGS -u BUILD -u SAN make -C "$tree" -j2 all >/dev/null
}

# settle WHICH PROGRAM_OR_REVISION PLANTS: $WHICH_program and $WHICH_plants, absolute.
settle() {
    local file=$2 plants=${3:-$root/networks}
    if [ ! -x "$file" ] || [ -d "$file" ]; then
        build "$2" || {
            echo "$2 is neither a program nor a revision that can be built" >&2
            exit 2
        }
        file=$tree/build/farvessel plants=${3:-$tree/networks}
    fi
    printf -v "$1_program" %s "$(realpath "$file")"
    printf -v "$1_plants" %s "$(realpath "$plants")"
}
settle old "$1" "${3:-}"
settle new "$2" "${4:-}"

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
"$old_program" help completion >"$work/words" || exit 2

# words VERB OPTION: what may follow it.
words() { grep -A1 -E "^    $1:--$2( |\))" "$work/words" | sed -nE 's/.*-W "([^"]*)".*/\1/p'; }
chosen() {
    local it=$1 one
    shift
    [ $# -eq 0 ] && return
    for one in "$@"; do [ "$one" = "$it" ] && return; done
    return 1
}

# All command lines but the plant, a line for each.
questions() {
    local verb format table units drawing ask
    for verb in $("$old_program" help | sed -nE 's/^  ([a-z]+) +PLANT\.xml.*/\1/p'); do
        chosen "$verb" "${only_verbs[@]}" || continue
        ask=$verb
        [ "$verb" != odds ] || ask="odds --runs 64" # as good as a thousand, where only bytes are compared
        for format in $(words "$verb" format); do
            for units in metric us; do
                case $format in
                csv) for table in $(words "$verb" table); do echo "$ask --format csv --table $table"; done ;;
                json) echo "$ask --format json" ;;
                pdf) ;; # bears the time at which it was made
                html | md) echo "$ask --format $format --units $units --date 2031-03-14" ;;
                *) echo "$ask --format $format --units $units" ;;
                esac
            done
        done
        for drawing in $(words "$verb" only); do echo "$ask --only $drawing"; done
    done | awk '!seen[$0]++'
}
lists() {
    local list format
    chosen check "${only_verbs[@]}" || return
    for list in $(words check list); do
        for format in $(words check format); do echo "check --list $list --format $format"; done
    done
}

# ask PROGRAM PLANTS FOLDER: an answer a file, named by its question. Plants are called by their names alone.
ask() {
    local question plant file
    cd "$2" || exit 2
    mkdir -p "$3"
    while read -r question; do
        for plant in "${plants[@]}"; do
            file=$3/${question// /_}_$plant
            # shellcheck disable=SC2086
            "$1" $question "$plant" </dev/null >"$file" 2>"$file.err"
            echo "exit code $?" >>"$file.err"
        done
    done <"$work/questions"
    while read -r question; do
        file=$3/${question// /_}
        # shellcheck disable=SC2086
        "$1" $question </dev/null >"$file" 2>"$file.err"
        echo "exit code $?" >>"$file.err"
    done <"$work/lists"
}

questions >"$work/questions"
lists >"$work/lists"
plants=()
for plant in "$old_plants"/*.xml; do
    chosen "${plant##*/}" "${only_plants[@]}" && plants+=("${plant##*/}")
done
if [ ${#plants[@]} -eq 0 ] || [ ! -s "$work/questions" ]; then
    echo "there is nothing to compare" >&2
    exit 2
fi
ask "$old_program" "$old_plants" "$work/old" &
ask "$new_program" "$new_plants" "$work/new"
wait

answers=0 different=0
for file in "$work/old"/*.err; do
    name=$(basename "$file" .err)
    answers=$((answers + 1))
    cmp -s "$work/old/$name" "$work/new/$name" && cmp -s "$file" "$work/new/$name.err" && continue
    different=$((different + 1))
    echo "differs: ${name//_/ }"
    diff "$work/old/$name" "$work/new/$name" | cut -c 1-200 | sed -n '1,6s/^/    /p'
    diff "$file" "$work/new/$name.err" | cut -c 1-200 | sed -n '1,6s/^/    /p'
done
echo "$answers answers compared, $different differ"
[ "$different" -eq 0 ]
