#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# What was not saved when a session ended stands beside the plant, and the next session says so.
. "$(dirname "$0")/../cli/lib.sh"
cp "$root/networks/far-bench.xml" "$work/plant.xml"
cp "$work/plant.xml" "$work/begun.xml"
cd "$work" || exit 1

# session ARGUMENTS...: until it has printed its address, then Ctrl-C; what it says in $work/err.
session() {
    : >out
    set -m
    "$program" try "$@" >out 2>err &
    local child=$! i
    set +m
    for ((i = 0; i < 300; i++)); do
        [ -s out ] && break
        sleep 0.1
    done
    kill -INT "$child"
    wait "$child"
    code=$?
}

session plant.xml
ok "a session without changes leaves nothing" test "$code" -eq 0 -a ! -e plant.xml.unsaved
session plant.xml --set s1.bore="25 mm"
ok "what was not saved is kept" grep -q 'id="s1".*bore="25 mm"' plant.xml.unsaved
ok "and it says where" grep -q 'stands in plant.xml.unsaved' err
ok "the plant is as it was" cmp -s plant.xml begun.xml
session plant.xml
ok "the next session offers it" grep -q 'try plant.xml.unsaved' err
ok "which leaves it" grep -q 'bore="25 mm"' plant.xml.unsaved
session --new other.xml
ok "from nothing, nothing is kept either" test "$code" -eq 0 -a ! -e other.xml.unsaved
fails 2 "a new plant is not begun over another" try plant.xml --new
finish
