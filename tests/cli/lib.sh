# SPDX-License-Identifier: MIT
# For the script tests of the command line: a scratch folder, the program, and counting in cmocka's manner.
set -u
export LC_ALL=C
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
program=$root/${BUILD:-build}/farvessel
case ${BUILD:-build} in /*) program=$BUILD/farvessel ;; esac
[ -x "$program" ] || {
    echo "there is no $program"
    exit 1
}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
passed=0 failed=0

# Runs the program; its exit code in $code, its output in $work/out and $work/err.
run() {
    "$program" "$@" >"$work/out" 2>"$work/err" </dev/null
    code=$?
}

# ok WHAT COMMAND...: one test, good if the command succeeds.
ok() {
    local what=$1
    shift
    if "$@"; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "failed: $what"
        echo "  code ${code:-?}; stdout: $(head -c 300 "$work/out"); stderr: $(head -c 300 "$work/err")"
    fi
}

# fails CODE WHAT ARGUMENTS...: the program ends with that code, says why on stderr, and writes nothing to stdout.
fails() {
    local expected=$1 what=$2
    shift 2
    run "$@"
    ok "$what" test "$code" -eq "$expected" -a ! -s "$work/out" -a -s "$work/err"
}

says() { grep -qF -- "$2" "$work/$1"; }

# What a screen and an answer for programs are held to.
validate=$root/tests/cli/validate.py

# No line over 80 characters; counted in a UTF-8 locale where there is one.
narrow() { ! LC_ALL=C.UTF-8 grep -nE '.{81,}' "$1"; }

# Every row of a CSV file has as many cells as its heading, and there is at least one row.
even_csv() {
    python3 - "$1" <<'PY'
import csv, sys
rows = list(csv.reader(open(sys.argv[1], newline="", encoding="utf-8")))
sys.exit(0 if len(rows) > 1 and all(len(row) == len(rows[0]) for row in rows) else 1)
PY
}

# Something out of a JSON answer: json FILE EXPRESSION, d being the answer and v its vessels by name where they have one.
json() {
    python3 - "$1" "$2" <<'PY'
import json, sys
d = json.load(open(sys.argv[1], encoding="utf-8"))
listed = d.get("vessels")
v = {x["vessel"]: x for x in listed if "vessel" in x} if isinstance(listed, list) else {}
print(eval(sys.argv[2]))
PY
}
true_json() { [ "$(json "$1" "$2")" = True ]; }

finish() {
    echo "[  PASSED  ] $passed test(s)."
    [ "$failed" -eq 0 ] || echo "[  FAILED  ] $failed test(s)"
    [ "$failed" -eq 0 ]
}
