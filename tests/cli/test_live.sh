#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# report --live: what it says where its engine is not built, and what stands in the file where it is. Here a stand-in takes
# the engine's place; tests/browser/live.mjs looks at the real one.
. "$(dirname "$0")/lib.sh"
plant=$PWD/networks/far-bench.xml
mkdir -p "$work/bin" "$work/share/farvessel"
cp "$program" "$work/bin/farvessel"
program=$work/bin/farvessel
cd "$work" || exit 1

fails 4 "without its engine it says what to run" report "$plant" --live -o live.html
ok "by name" grep -q 'make web' "$work/err"
ok "and writes nothing" test ! -e live.html
echo 'an engine' >share/farvessel/live.js
run report "$plant" --live --set s1.bore="25 mm" -o live.html
ok "it is found where make install puts it" grep -q 'an engine' live.html
ok "the page may ask nobody" grep -q "default-src 'none'" live.html
sed -n '/id="begins">/,/<\/script>/p' live.html | sed -n 2p | sed 's,</script>.*,,' >begins.json
# The other hoses are like s1, and keep the bore that they had from it.
ok "the plant in it is the file, but for the change" python3 - "$plant" <<'PY'
import json, sys
begins = json.load(open("begins.json", encoding="utf-8"))
plant = open(sys.argv[1], encoding="utf-8", newline="").read()
differ = [(a, b) for a, b in zip(plant.splitlines(), begins["plant"].splitlines()) if a != b]
kept = [b == a.replace("/>", ' bore="19 mm"/>') for a, b in differ[1:] if 'like="s1"' in a]
sys.exit(not (len(kept) == len(differ) - 1 == 5 and all(kept) and 'id="s1"' in differ[0][0] and 'bore="25 mm"' in differ[0][1]))
PY
ok "no script ends early in it" test "$(grep -c '</script>' begins.json)" -eq 0
sed 's/title="[^"]*"/title="a \&lt;\/script> b"/' "$plant" >hostile.xml
run report hostile.xml --live -o hostile.html
ok "whatever the plant says" test "$(grep -o '</script>' hostile.html | wc -l)" -eq 3
for other in "--why" "--format md" "--only drawing" "--do 8h:v1=shut" "--fire 50%"; do
    fails 2 "not together with $other" report "$plant" --live $other
done
finish
