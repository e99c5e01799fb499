#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Holds every #include "..." in src/ and include/ against the table of floors (DEVELOPERS.md): a file may include from
# its own folder and from what its row names. A folder inside a floor (src/study/size) may use what its floor may, the
# floor's own files and itself, never its neighbours; the floor's own files know nothing of the folders inside, but for
# the one that is named like the floor (src/report/report.c), which is the way in. Public headers count as their folder.
# Also: main stands in cli only (and in the programs of generate, which make runs), and no other folder ends the process
# or reads the environment.
set -u
cd "$(dirname "$0")/../.." || exit 1

declare -A may=(
    [base]=""
    [units]="base"
    [num]="base"
    [props]="base num"
    [flow]="base num"
    [heat]="base num"
    [model]="base units"
    [plantfile]="base units model"
    [datafile]="base units"
    [steady]="base num props flow heat model"
    [heatup]="base num props flow heat model steady"
    [study]="base num props flow model steady heatup datafile"
    [print]="base units model datafile steady heatup study"
    [report]="base units model datafile steady heatup study print"
    [page]="base units model datafile steady heatup study print report"
    [desk]="base units model plantfile steady heatup study print report page"
    [serve]="base units model plantfile steady heatup study print report desk"
    [web]="base units desk"
    [generate]="base num props"
    [package]=""
    [cli]="base units num model plantfile datafile steady heatup study print report page desk serve"
)
# Public headers that are not named after their folder.
declare -A owner=([calendar]=datafile [constants]=base [unknowns]=study [change]=study [why]=study [size]=study [carry]=study [assumed]=study [lid]=study [overheat]=study [plan]=study [fit]=study [forecast]=study
    [log]=study [odds]=study [choices]=study [week]=study [cost]=study [sweep]=study)
# Floors that see of lower ones the public headers only; of each other, all.
declare -A public_only=([print]="" [report]="print" [page]="print report")
faults=0

fault() {
    echo "$1"
    faults=$((faults + 1))
}

# The folder that an include names: "farvessel/model.h" -> model, "study/size/parts.h" -> study/size.
folder_of() {
    local header
    case $1 in
    farvessel/*)
        header=$(basename "$1" .h)
        echo "${owner[$header]:-$header}"
        ;;
    */*) dirname "$1" ;;
    *) echo "?" ;;
    esac
}

# True where a file of folder $1, called $3, may include from folder $2.
allowed() {
    local floor=${1%%/*} target=${2%%/*}
    [ "$1" = "$2" ] && return 0
    if [ "$floor" = "$target" ]; then
        # From inside to the floor's own files; from the file named like the floor to all inside.
        [ "$2" = "$floor" ] || [ "$3" = "$floor" ]
        return
    fi
    [[ " ${may[$floor]} " == *" $target "* ]]
}

check_file() { # file, its folder
    local line number name target floor=${2%%/*}
    while IFS=: read -r number line; do
        name=$(sed -E 's/^[[:space:]]*#[[:space:]]*include[[:space:]]*"([^"]+)".*/\1/' <<<"$line")
        target=$(folder_of "$name")
        if ! allowed "$2" "$target" "$(basename "$1" .c)"; then
            fault "$1:$number: $2 may not include \"$name\"; it may use: ${may[$floor]:-nothing else}"
        elif [ -n "${public_only[$floor]+set}" ] && [[ $name != farvessel/* ]] && [ "${target%%/*}" != "$floor" ] &&
            [[ " ${public_only[$floor]} " != *" ${target%%/*} "* ]]; then
            fault "$1:$number: $floor uses the public headers of other floors only"
        fi
    done < <(grep -nE '^[[:space:]]*#[[:space:]]*include[[:space:]]*"' "$1")
}

for path in src/*/; do
    folder=$(basename "$path")
    [ -n "${may[$folder]+known}" ] || fault "src/$folder: no such floor"
done
for file in src/*/*.[ch] src/*/*/*.[ch]; do
    folder=$(dirname "${file#src/}")
    [ -n "${may[${folder%%/*}]+known}" ] && check_file "$file" "$folder"
done
for file in include/farvessel/*.h; do
    folder=$(folder_of "farvessel/$(basename "$file")")
    if [ "$folder" != farvessel ] && [ -z "${may[$folder]+known}" ]; then
        fault "$file: belongs to no folder"
    elif [ "$folder" != farvessel ]; then
        check_file "$file" "$folder"
    fi
done

# Parts of report and cli that would compute, print or end where they must not.
while IFS= read -r found; do
    fault "$found: only src/cli may do that"
done < <(grep -nE '\b(exit|abort|_exit|getenv|isatty|printf|puts|putchar|perror)[[:space:]]*\(' src/*/*.c src/*/*/*.c |
    grep -vE '^src/(cli|generate)/' | grep -vE '^[^:]*:[0-9]+:[[:space:]]*(/?\*|//)')
while IFS= read -r found; do
    fault "$found: main belongs to src/cli/main.c"
done < <(grep -nE '^int main\(' src/*/*.c src/*/*/*.c | grep -vE '^src/(cli/main|generate/.*)\.c:')

[ "$faults" -eq 0 ] && echo "floors: every include keeps to its floor"
exit $((faults > 0))
