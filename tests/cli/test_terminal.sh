#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Progress on a terminal only, and Ctrl-C.
. "$(dirname "$0")/lib.sh"
plant=$root/networks/four-bins.xml
terminal=$root/tests/cli/terminal.py

run flow "$plant"
cp "$work/out" "$work/answer"
ok "no progress where stderr is a file" test ! -s "$work/err"
python3 "$terminal" "$work/out" "$work/err" -- "$program" flow "$plant"
code=$?
ok "on a terminal the answer is the same" cmp -s "$work/answer" "$work/out"
ok "and progress is shown" says err "%"
ok "and cleared at the end" test "$(tail -c 4 "$work/err" | od -An -tx1 | tr -d ' \n')" = 0d1b5b4b

# An answer longer than the window goes through the pager, whole and from its top; a shorter one does not.
window() { # ROWS COMMAND...
    python3 - "$@" >"$work/out" <<'WINDOW'
import fcntl, os, pty, struct, subprocess, sys, termios
main, side = pty.openpty()
fcntl.ioctl(side, termios.TIOCSWINSZ, struct.pack("HHHH", int(sys.argv[1]), 80, 0, 0))
process = subprocess.Popen(sys.argv[2:], stdin=subprocess.DEVNULL, stdout=side, stderr=subprocess.DEVNULL)
os.close(side)
try:
    while seen := os.read(main, 4096):
        sys.stdout.write(seen.decode().replace("\r\n", "\n"))
except OSError:
    pass
sys.exit(process.wait())
WINDOW
    code=$?
}
PAGER="sed s/^/paged:/" window 24 "$program" flow "$plant"
ok "a long answer is paged" test "$code" -eq 0 -a "$(grep -c '^paged:' "$work/out")" -eq "$(wc -l <"$work/answer")"
ok "whole, and from its top" cmp -s <(sed 's/^paged://' "$work/out") "$work/answer"
PAGER="sed s/^/paged:/" window 24 "$program" flow "$plant" --brief
ok "a short one is not" test "$code" -eq 0 -a "$(grep -c '^paged:' "$work/out")" -eq 0 -a "$(wc -l <"$work/out")" -le 20
PAGER="" window 24 "$program" flow "$plant"
ok "an empty PAGER pages nothing" cmp -s "$work/out" "$work/answer"
PAGER="no-such-pager-here" window 24 "$program" flow "$plant"
ok "a pager that is not there loses nothing" grep -q "^Vessels" "$work/out"
PAGER="head -1" window 24 "$program" flow "$plant"
ok "a pager that is left early is no failure" test "$code" -eq 0 -a "$(wc -l <"$work/out")" -eq 1

# A row of many vessels, long enough in the works to be interrupted.
{
    echo '<network xmlns="urn:farvessel:network:1"><site altitude="0 m"/>'
    echo '<boiler id="b" at="t0" output="300 kW" relief="0.5 bar"/>'
    echo '<kind id="k" volume="1 m3"><coil bore="25 mm" length="2 m" holes="20" drill="3 mm"/>'
    echo '<load a="1 dm" b="1 dm" c="1 dm" count="100" mass="80 kg"/><vent diameter="40 mm"/></kind>'
    for ((i = 1; i <= 900; i++)); do
        echo "<header id=\"h$i\" from=\"t$((i - 1))\" to=\"t$i\" length=\"1 m\" bore=\"300 mm\"/>"
        echo "<hose id=\"s$i\" from=\"t$i\" to=\"c$i\" length=\"3 m\" bore=\"25 mm\"/><vessel id=\"v$i\" like=\"k\" at=\"c$i\"/>"
    done
    echo '</network>'
} >"$work/row.xml"
echo old >"$work/old.txt"
python3 "$terminal" "$work/out" "$work/err" 0.8 -- \
    "$program" heat "$work/row.xml" -o "$work/old.txt" --save "$work/saved.xml"
code=$?
ok "Ctrl-C ends it as a signal does" test "$code" -eq 130
ok "and says so" says err "stopped; nothing was written"
ok "with nothing on standard output" test ! -s "$work/out"
ok "with the old answer in place" test "$(cat "$work/old.txt")" = old
ok "with nothing saved" test ! -e "$work/saved.xml"
ok "with no scrap left behind" test "$(find "$work" -name '*.XXXXXX' -o -name 'old.txt?*' -o -name 'saved.xml*' | wc -l)" -eq 0
finish
