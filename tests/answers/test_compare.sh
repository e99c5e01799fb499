#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The comparison of two builds' answers finds no difference between a program and itself, and finds one that is there:
# another plant, one byte of an answer, a message, an exit code.
. "$(dirname "$0")/../cli/lib.sh"
compare() {
    "$root/tests/answers/compare.sh" -p hand.xml "$@" >"$work/out" 2>"$work/err"
    code=$?
}
# wrapper NAME: a program that answers as ours does, but for what the script on standard input does.
wrapper() {
    { echo '#!/usr/bin/env bash' && echo "program=$program" && cat; } >"$work/$1"
    chmod +x "$work/$1"
}

compare "$program" "$program"
ok "a program answers as itself" test "$code" -eq 0
ok "in all formats" test "$(sed -nE 's/^([0-9]+) answers compared, 0 differ$/\1/p' "$work/out")" -gt 60

mkdir "$work/plants"
"$program" check "$root/networks/hand.xml" --set site.air="16 degC" --save "$work/plants/hand.xml" >/dev/null
compare -v flow "$program" "$program" "$root/networks" "$work/plants"
ok "a changed plant is seen" test "$code" -eq 1
ok "and said" grep -q '^differs: flow --format text --units us hand.xml$' "$work/out"

wrapper one_byte <<'EOS'
case "$*" in
*"--table lines"*) "$program" "$@" | sed '$s/.$/#/' ;;
*) exec "$program" "$@" ;;
esac
EOS
compare -v flow "$program" "$work/one_byte"
ok "one byte of one answer is seen" test "$code" -eq 1
ok "there and nowhere else" test "$(grep -c '^differs: ' "$work/out")" -eq 1 -a \
    "$(grep -c '^differs: flow --format csv --table lines hand.xml$' "$work/out")" -eq 1

wrapper message <<'EOS'
[[ "$*" != *"--units us"* ]] || echo "another message" >&2
exec "$program" "$@"
EOS
compare -v check "$program" "$work/message"
ok "a message is seen" test "$code" -eq 1

wrapper exit_code <<'EOS'
"$program" "$@"
[ "$3" != json ] || exit 3
EOS
compare -v check "$program" "$work/exit_code"
ok "an exit code is seen" test "$code" -eq 1

compare "$program" "$work/no-such-program"
ok "what is no program is a usage error" test "$code" -eq 2 -a -s "$work/err"
compare -v no-such-verb "$program" "$program"
ok "nothing to compare is a usage error" test "$code" -eq 2 -a -s "$work/err"
finish
