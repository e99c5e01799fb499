#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# check --watch and forecast --follow: an answer each time the file is saved, also by an editor that puts another file in
# its place; nothing in between; Ctrl-C ends with 0.
. "$(dirname "$0")/lib.sh"
cd "$work" || exit 1
cp "$root/networks/hand.xml" plant.xml
: >out >err

# wait_for FILE COUNT PATTERN: until so many lines match, at most a minute.
wait_for() {
    for ((i = 0; i < 1200; i++)); do
        [ "$(grep -csE -- "$3" "$1")" -ge "${2:-1}" ] 2>/dev/null && return 0
        sleep 0.05
    done
    return 1
}
# begins COMMAND...: in the background, as from a terminal, so that it does not ignore Ctrl-C.
begins() {
    : >out 2>err # at once: what an earlier one said is not taken for what this one says
    python3 -c 'import os, signal, sys; signal.signal(signal.SIGINT, signal.SIG_DFL); os.execv(sys.argv[1], sys.argv[1:])' \
        "$@" >out 2>err </dev/null &
    watcher=$!
}
ends() {
    kill -INT "$watcher"
    wait "$watcher"
    code=$?
}
begins "$program" check plant.xml --brief --no-ranking --watch
ok "the answer at once" wait_for out 1 'reads well'
ok "behind its fence" grep -qE 'NoNewPrivs:.*1' "/proc/$watcher/status"
sed 's/title="[^"]*"/title="Another name"/' "$root/networks/hand.xml" >plant.xml
ok "and again when the file is written" wait_for out 2 'reads well'
cp plant.xml plant.xml~ && mv plant.xml~ plant.xml
ok "and when another is put in its place" wait_for out 3 'reads well'
mv plant.xml aside.xml && sleep 0.3 && cp aside.xml plant.xml
ok "and when it was away for a while" wait_for out 4 'reads well'
echo '<network' >plant.xml
ok "what is wrong is said" wait_for err 1 "plant.xml:"
cp aside.xml plant.xml
ok "and the next answer follows" wait_for out 5 'reads well'
touch beside.xml
sleep 0.5
spent=$(awk '{ print $14 + $15 }' "/proc/$watcher/stat")
sleep 1.2
ok "it waits without work" test $(($(awk '{ print $14 + $15 }' "/proc/$watcher/stat") - spent)) -le 10
ok "another file in the folder is none of its business" test "$(grep -c 'reads well' out)" -eq 5
ok "no clearing of a screen that is none" test "$(tr -dc '\033' <out | wc -c)" -eq 0
ends
ok "Ctrl-C ends it well" test "$code" -eq 0

mkdir far && mv plant.xml far/plant.xml && ln -s far/plant.xml plant.xml
begins "$program" check plant.xml --brief --no-ranking --watch
ok "by a link" wait_for out 1 'reads well'
cp aside.xml far/other.xml && mv far/other.xml far/plant.xml
ok "the file behind it is followed" wait_for out 2 'reads well'
ends
begins "$program" check plant.xml --brief --no-ranking --watch -o answer.txt
wait_for answer.txt 1 'reads well'
rm answer.txt && touch far/plant.xml
ok "with -o the file is written anew" wait_for answer.txt 1 'reads well'
ok "and standard output stays empty" test ! -s out
ends
mkfifo pipe
("$program" check plant.xml --brief --no-ranking --watch >pipe) &
watcher=$!
head -n 1 <pipe >out
wait "$watcher"
code=$?
ok "nobody reads on: it ends well" test "$code" -eq 0
python3 "$root/tests/cli/terminal.py" out err 4 -- "$program" check plant.xml --brief --no-ranking --watch
code=$?
ok "on a terminal it says what it waits for, and Ctrl-C" test "$code" -eq 0 -a "$(grep -c 'Ctrl-C ends' err)" -eq 1

fails 2 "standard input is not watched" check - --watch
fails 2 "a list needs no watch" check --list attributes --watch
run check no-such.xml --watch
ok "a file that is not there is said at once" test "$code" -ne 0 -a -s err

# A logger that goes on to write, in the midst of a line, too.
sed 's|</network>|<probe id="p" vessel="near" at="core" column="near" type="K" class="2"/></network>|' \
    "$root/networks/hand.xml" >probed.xml
# Readings are those of its own run: what is looked at is the waiting.
run heat probed.xml --start 06:00 --every "10 min" --format csv
awk -F, 'NR == 1 { print "time,near (degC)" } $3 == "near" { printf "%s,%.1f\n", $2, $4 - 273.15 }' out >whole.csv
head -n 10 whole.csv >log.csv
begins "$program" forecast probed.xml --log log.csv --lit 06:00 --follow
ok "a forecast" wait_for out 1 '^  vessel'
head -n 12 whole.csv | head -c -4 >log.csv
ok "and another when the logger has written" wait_for out 2 '^  vessel'
ends
ok "Ctrl-C ends that well, too" test "$code" -eq 0
finish
