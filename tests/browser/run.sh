#!/bin/sh
# SPDX-License-Identifier: MIT
# Makes a page of every bundled plant, and of one with sixty vessels, and looks at them in a browser. Packages come from
# npm by the versions in package-lock.json, into the build folder; nothing of them is shipped.
set -eu
build=${BUILD:-build}
here=$(dirname "$0")
program=$build/farvessel
work=$build/browser
pages=$work/pages
mkdir -p "$work"
rm -rf "$pages"
mkdir "$pages"
cp "$here/package.json" "$here/package-lock.json" "$here"/*.mjs "$work/"
(cd "$work" && npm ci --no-audit --no-fund --ignore-scripts >npm.log 2>&1) || { cat "$work/npm.log"; exit 1; }

python3 "$here/sixty.py" >"$work/sixty.xml"
python3 "$here/names.py" >"$work/names.xml"
for plant in networks/*.xml "$work/sixty.xml" "$work/names.xml"; do
    name=$(basename "$plant" .xml)
    [ "$name" != network ] || continue
    "$program" report "$plant" -o "$pages/$name.html" --start 06:30 --date 2031-03-14 2>"$work/said.txt" ||
        { cat "$work/said.txt"; echo "FAIL no page for $plant"; exit 1; }
done
"$program" report networks/far-bench.xml -o "$pages/far-bench-us.html" --units us --start "6:30 am" --date 2031-03-14
"$program" report networks/far-bench.xml -o "$pages/far-bench-moment.html" --no-run --date 2031-03-14
"$program" report networks/hand.xml -o "$pages/hand-why.html" --why --date 2031-03-14
"$program" report networks/week-line.xml -o "$pages/week-line-week.html" --week --why --date 2031-03-14
"$program" report networks/four-bins.xml -o "$pages/four-bins-plan.html" --plan --start 06:30 --date 2031-03-14
for name in far-bench ring mixed; do
    "$program" report networks/$name.xml -o "$pages/$name-sheet.html" --sheet --start 06:30 --date 2031-03-14
done
# With units of the trade its drawing has two parts.
"$program" report networks/far-bench.xml -o "$pages/far-bench-us-sheet.html" --sheet --units us --start "6:30 am" --date 2031-03-14
# Twenty plants with loops; of these the drawing is what matters.
for seed in 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20; do
    python3 "$here/looped.py" $seed >"$work/loops.xml"
    "$program" report "$work/loops.xml" --no-run --only drawing -o "$pages/loops-$seed.svg"
done
for only in drawing timeline remedy needs curves pressure holes vessels coils drops demand boilers heat turndown; do
    "$program" report networks/far-bench.xml --only $only -o "$pages/far-bench-$only.svg"
done
mkdir -p "$work/try"
failed=0
"$program" report networks/week-line.xml --only week -o "$pages/week-line-week.svg"
# The program's own PDF: paper by the units, the answer on its first page; and a word where there is no browser.
pdf() { # NAME PAPER PAGES OPTION...
    name=$1 paper=$2 most=$3
    shift 3
    rm -f "$work/$name.pdf"
    "$program" report networks/hand.xml --format pdf -o "$work/$name.pdf" "$@" &&
        pdfinfo "$work/$name.pdf" | grep -q "^Page size: .*($paper)" &&
        [ "$(pdfinfo "$work/$name.pdf" | sed -n 's/^Pages: *//p')" -le "$most" ] &&
        pdftotext -l 1 "$work/$name.pdf" - | tr '\n' ' ' | grep -q "Both vessels are done after" && return
    echo "FAIL pdf $name"
    failed=1
}
pdf metric A4 12
pdf us letter 12 --units us
pdf hung A4 1 --sheet
code=0
FARVESSEL_BROWSER=/nowhere/browser "$program" report networks/hand.xml --format pdf -o "$work/none.pdf" 2>"$work/said.txt" || code=$?
[ "$code" -eq 4 ] && [ ! -e "$work/none.pdf" ] && grep -q "install the package chromium" "$work/said.txt" ||
    { echo "FAIL pdf without a browser"; failed=1; }
node "$work/check.mjs" "$pages" || failed=1
node "$work/try.mjs" "$program" networks/far-bench.xml "$work/try" || failed=1
if [ -f "$build/web/live.js" ]; then
    node "$work/live.mjs" "$program" networks/far-bench.xml "$work/try" || failed=1
else
    echo "the live page is not looked at: it is built by make web"
fi
exit $failed
