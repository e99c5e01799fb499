#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# No text that somebody types commands a terminal, reorders a line or forges one.
. "$(dirname "$0")/../cli/lib.sh"
mkdir "$work/files"
python3 "$root/tests/hostile/screens.py" "$program" "$root" "$work/files" >"$work/out" 2>"$work/err"
code=$?
cat "$work/out"
ok "what is typed is shown safely" test "$code" -eq 0

# A command line that an answer suggests works as it stands, whatever the file is called.
mkdir "$work/names"
cd "$work/names" || exit 1
farvessel() { "$program" "$@"; }
for name in "a plant.xml" "it's \$HOME; \"x\".xml" "-o.xml" "two  blanks and a name that nearly fills a line of a terminal.xml"; do
    cp -- "$root/networks/four-bins.xml" "$name"
    run flow -- "$name"
    command=$(tr '\n' '~' <"$work/out" | sed 's/~ */ /g' | sed -n 's/.*`\(farvessel check [^`]*\)`.*/\1/p')
    eval "$command" >"$work/again" 2>"$work/err"
    ok "check as flow suggests it: $command" test $? -eq 0 -a -s "$work/again"
    run size --vary drill --no-hands -- "$name"
    command=$(sed -n '/^  farvessel heat /,/[^\\]$/p' "$work/out")
    eval "$command" >"$work/again" 2>"$work/err"
    ok "heat as size suggests it: $command" test $? -eq 0 -a -s "$work/again"
done
finish
