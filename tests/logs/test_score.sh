#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Logs that another model of the physics made, with their truth (README.md here): at half time the middles are off by a
# few minutes, and the bands are neither too narrow nor idle. Eight vessels are too few to hold the coverage to 0.7 to 0.9.
. "$(dirname "$0")/../cli/lib.sh"
python3 "$root/tests/logs/score.py" "$program" half >"$work/out" 2>"$work/err"
code=$?
cat "$work/out"
ok "all are fitted" test "$code" -eq 0
ok "half of the bands at least cover the truth" \
    python3 -c 'import re,sys; sys.exit(0 if float(re.search(r"coverage ([\d.]+)", open(sys.argv[1]).read())[1]) >= 0.5 else 1)' "$work/out"
ok "the mean error is under 5 min" \
    python3 -c 'import re,sys; sys.exit(0 if abs(float(re.search(r"mean error ([-\d.]+)", open(sys.argv[1]).read())[1])) < 5 else 1)' "$work/out"
ok "bands are under 20 min wide, a third of what is known before" \
    python3 -c 'import re,sys; sys.exit(0 if 2 < float(re.search(r"median width ([\d.]+)", open(sys.argv[1]).read())[1]) < 20 else 1)' "$work/out"
finish
