#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Completion for bash: made from the program's tables, installed, and what it offers.
. "$(dirname "$0")/lib.sh"
cd "$root" || exit 1

run help completion
ok "help completion answers" test "$code" -eq 0 -a -s "$work/out"
ok "bash reads it" bash -n "$work/out"
# shellcheck disable=SC1091
. "$work/out"

# offers WORD...: what the last of the words of a command line completes to, in one line.
offers() {
    COMP_WORDS=(farvessel "$@") COMP_CWORD=$# COMPREPLY=()
    _farvessel
    printf '%s\n' "${COMPREPLY[@]}" | sort | paste -sd ' ' >"$work/offered"
}
is() { [ "$(cat "$work/offered")" = "$1" ]; }

offers ""
ok "all verbs" is "carry check cost fit flow forecast heat help log new odds plan report size sweep try week why"
offers c
ok "verbs by their beginning" is "carry check cost"
offers help com
ok "help completes, too" is "completion completion-fish completion-zsh"
offers flow --f
ok "options of the verb" is "--fire --format"
offers flow networks/hand.xml --format ""
ok "words of an option" is "csv json text"
offers report networks/hand.xml --format ""
ok "they are the verb's own" is "html md pdf"
offers flow networks/hand.xml --format = j
ok "behind an equals sign" is "json"
offers flow networks/h
ok "plant files" is "networks/hand.xml"
offers flow networks/hand.xml --fire ""
ok "nothing where only the user knows" is ""
offers flow networks/hand.xml -o Makef
ok "any file for the answer" is "Makefile"
offers check --list m
ok "lists" is "materials media"
offers nonsense ""
ok "nothing for a verb that is none" is ""
# Every option that help names is offered.
for verb in new check flow heat why size carry plan week cost sweep report; do
    offers "$verb" --
    run help "$verb"
    ok "$verb: all its options" is "$(sed -nE 's/^  (-., )?(--[a-z-]+).*/\2/p' "$work/out" | sort | paste -sd ' ')"
done

program_dir=$(dirname "$program")
MAKEFLAGS='' make -s BUILD="$program_dir" CC="${CC:-gcc}" SAN="${SAN:-}" -o "$program" -o "$program_dir/libfarvessel.a" \
    DESTDIR="$work/root" PREFIX=/usr install >"$work/out" 2>"$work/err"
ok "make install puts it where bash looks" test -s "$work/root/usr/share/bash-completion/completions/farvessel"
MAKEFLAGS='' make -s BUILD="$program_dir" DESTDIR="$work/root" PREFIX=/usr uninstall >"$work/out" 2>"$work/err"
ok "make uninstall takes it away" test ! -e "$work/root/usr/share/bash-completion/completions/farvessel"
finish
