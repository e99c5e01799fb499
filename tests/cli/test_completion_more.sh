#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Completion for zsh and fish, from the same tables as for bash: read by the shells themselves where they are installed.
. "$(dirname "$0")/lib.sh"
"$program" help completion-zsh >"$work/_farvessel"
"$program" help completion-fish >"$work/farvessel.fish"
for verb in $("$program" help | sed -n '/^Verbs/,/^$/s/^  \([a-z]*\) .*/\1/p'); do
    options=$("$program" help "$verb" | grep -oE -- '^  (-[a-z], )?--[a-z-]+' | grep -oE -- '--[a-z-]+' | sort -u)
    line=$(grep -E "^    $verb\) options=" "$work/_farvessel")
    wrong=
    for option in $options; do
        [[ " $line " == *" $option "* ]] || wrong="$wrong zsh:$option"
        grep -qE "^complete -c farvessel -n '__fish_seen_subcommand_from $verb' -l ${option#--}( |$)" "$work/farvessel.fish" ||
            wrong="$wrong fish:$option"
    done
    ok "all options of $verb:$wrong" test -z "$wrong"
done
if command -v zsh >/dev/null; then
    ok "zsh can read it" zsh -n "$work/_farvessel"
    # What is added at a place: words typed so far, then what compadd is given.
    zsh -f -c 'compadd() { shift; print -l -- "$@"; }; _files() { print files; }
        words=(farvessel flow --format ""); CURRENT=4; source "$0"' "$work/_farvessel" >"$work/out" 2>"$work/err"
    ok "zsh knows the formats of flow" test "$(tr '\n' ' ' <"$work/out")" = "text json csv "
fi
if command -v fish >/dev/null; then
    ok "fish can read it" fish -n "$work/farvessel.fish"
    HOME=$work fish -c "source $work/farvessel.fish; complete -C 'farvessel flow --format '" >"$work/out" 2>"$work/err"
    ok "fish knows the formats of flow" test "$(grep -cE '^(text|json|csv)' "$work/out")" -eq 3
fi
finish
