#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Holds every #include "..." in src/ and include/ against the table of floors (DEVELOPERS.md): a file may include from
# its own folder and from what its row names. Public headers count as their folder. Also: main stands in cli only (and in
# the programs of generate, which make runs), and no other folder ends the process or reads the environment.
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
    [steady]="base num props flow heat model"
    [heatup]="base num props flow heat model steady"
    [study]="base num model steady heatup"
    [report]="base units model steady heatup study"
    [generate]="base num props"
    [cli]="base units num model plantfile steady heatup study report"
)
# Public headers that are not named after their folder: each question of floor 6 has its own.
declare -A owner=([change]=study [why]=study [size]=study [carry]=study [fit]=study [forecast]=study [log]=study
    [odds]=study [week]=study [cost]=study)
faults=0

fault() {
    echo "$1"
    faults=$((faults + 1))
}

# The folder that an include names: "farvessel/model.h" -> model, "model/near.h" -> model.
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

check_file() { # file, its folder
    local line number name target
    while IFS=: read -r number line; do
        name=$(sed -E 's/^[[:space:]]*#[[:space:]]*include[[:space:]]*"([^"]+)".*/\1/' <<<"$line")
        target=$(folder_of "$name")
        if [ "$target" != "$2" ] && [[ " ${may[$2]} " != *" $target "* ]]; then
            fault "$1:$number: $2 may not include \"$name\"; it may use: ${may[$2]:-nothing else}"
        elif [ "$2" = report ] && [ "$target" != report ] && [[ $name != farvessel/* ]]; then
            fault "$1:$number: report uses the public headers of other floors only"
        fi
    done < <(grep -nE '^[[:space:]]*#[[:space:]]*include[[:space:]]*"' "$1")
}

for path in src/*/; do
    folder=$(basename "$path")
    [ -n "${may[$folder]+known}" ] || fault "src/$folder: no such floor"
done
for file in src/*/*.[ch]; do
    folder=$(basename "$(dirname "$file")")
    [ -n "${may[$folder]+known}" ] && check_file "$file" "$folder"
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
done < <(grep -nE '\b(exit|abort|_exit|getenv|isatty|printf|puts|putchar|perror)[[:space:]]*\(' src/*/*.c |
    grep -vE '^src/(cli|generate)/' | grep -vE '^[^:]*:[0-9]+:[[:space:]]*(/?\*|//)')
while IFS= read -r found; do
    fault "$found: main belongs to src/cli/main.c"
done < <(grep -nE '^int main\(' src/*/*.c | grep -vE '^src/(cli/main|generate/.*)\.c:')

[ "$faults" -eq 0 ] && echo "floors: every include keeps to its floor"
exit $((faults > 0))
