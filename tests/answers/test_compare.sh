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

mkdir "$work/one" # of one drum, for it is asked everything, twice
cat >"$work/one/hand.xml" <<'XML'
<network xmlns="urn:farvessel:network:1" title="One drum">
  <boiler id="boiler" at="b0" output="5 kW" holds="0.1 bar" relief="0.5 bar" fuel="propane"/>
  <hose id="s1" from="b0" to="c1" length="2 m" bore="19 mm"/>
  <vessel id="d1" at="c1" volume="210 L" target="80 degC" hold="1 h" within="9 h" cool="60 degC">
    <coil bore="27 mm" length="0.9 m" holes="10" drill="3 mm"/>
    <load packing="loose" a="12 cm" b="12 cm" c="30 cm" count="24" mass="70 kg"/>
    <drain diameter="30 mm"/>
    <vent diameter="15 mm" height="0.8 m"/>
  </vessel>
</network>
XML
compare "$program" "$program" "$work/one" "$work/one"
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
