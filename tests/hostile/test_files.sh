#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Where files come from and go to: answer and saved plant are written both or neither, nothing that is read is
# overwritten, links are followed, permissions kept, and nothing waits for ever.
. "$(dirname "$0")/../cli/lib.sh"
plant=$root/networks/hand.xml
mkdir "$work/there" "$work/plain"
cp "$plant" "$work/plain/plant.xml"
file=$work/there/answer.txt saved=$work/there/saved.xml
names() { (cd "$work/there" && find . -type f -o -type l -o -type p | sort | tr '\n' ' '); }
fresh() { rm -rf "$work/there" && mkdir "$work/there"; }
# A command that ends by itself; one that waits for ever ends with 124.
limited() {
    timeout 5 "$@" >"$work/out" 2>"$work/err" </dev/null
    code=$?
}
run check "$plant" --set far.target=90degC --save "$saved" -o "$file"
ok "answer and plant are both written" test "$code" -eq 0 -a "$(names)" = "./answer.txt ./saved.xml "
cp "$file" "$work/answer"
cp "$saved" "$work/saved"

fresh
run check "$plant" --save "$saved" -o "$work/no-such-folder/answer.txt"
ok "no answer, no plant" test "$code" -eq 4 -a -z "$(names)"
run check "$plant" --save "$work/no-such-folder/saved.xml" -o "$file"
ok "no plant, no answer" test "$code" -eq 4 -a -z "$(names)"
run check "$plant" --save "$work/no-such-folder/saved.xml"
ok "nor on standard output" test "$code" -eq 4 -a ! -s "$work/out"
if [ -w /dev/full ]; then
    "$program" check "$plant" --save "$saved" >/dev/full 2>"$work/err"
    code=$?
    ok "standard output is full: no plant" test "$code" -eq 4 -a -z "$(names)"
    run check "$plant" --save "$saved" -o /dev/full
    ok "a full device: no plant" test "$code" -eq 4 -a -z "$(names)"
fi
"$program" check "$plant" --save "$saved" >&- 2>"$work/err"
code=$?
ok "standard output is closed: no plant" test "$code" -eq 4 -a -z "$(names)"
echo old >"$file"
mkdir "$work/there/folder"
run check "$plant" --save "$work/there/folder" -o "$file"
ok "a folder cannot be replaced: the old answer stays" test "$code" -eq 4 -a "$(cat "$file")" = old

fresh
run check "$plant" --save "$saved" -o "$saved"
ok "answer and plant in one file" test "$code" -eq 2 -a -z "$(names)"
(cd "$work/there" && run check "$plant" --save one.xml -o ./one.xml && exit "$code")
ok "by two names" test $? -eq 2 -a -z "$(names)"
ln -s one.xml "$work/there/link.xml"
run check "$plant" --save "$work/there/one.xml" -o "$work/there/link.xml"
ok "by a link that leads to nothing yet" test "$code" -eq 2 -a ! -e "$work/there/one.xml"
echo old >"$saved"
"$program" check "$plant" --save "$saved" >"$saved" 2>"$work/err"
code=$?
ok "by the shell" test "$code" -eq 2 -a ! -s "$saved"
run check "$plant" --save /dev/null -o /dev/null
ok "a device may take both" test "$code" -eq 0

for option in -o --save; do
    (cd "$work/plain" && "$program" check - $option plant.xml <plant.xml >"$work/out" 2>"$work/err")
    ok "$option over the plant on standard input" test $? -eq 2 -a -s "$work/err"
    (cd "$work/plain" && "$program" check /dev/stdin $option plant.xml <plant.xml >"$work/out" 2>"$work/err")
    ok "$option over it as /dev/stdin" test $? -eq 2
    ln -sf plant.xml "$work/plain/link.xml"
    run check "$work/plain/plant.xml" $option "$work/plain/link.xml"
    ok "$option over it by a link" test "$code" -eq 2
    ok "which is as it was" cmp -s "$plant" "$work/plain/plant.xml"
done

# Links lead to what is written, also to what is not there yet, and stay links.
fresh
mkdir "$work/there/below"
ln -s below/real.txt "$work/there/link.txt"
ln -s link.txt "$work/there/second.txt"
run check "$plant" -o "$work/there/second.txt"
ok "a link to a link to nothing yet" test "$code" -eq 0 -a -L "$work/there/second.txt" -a -L "$work/there/link.txt" -a \
    -f "$work/there/below/real.txt"
echo old >"$work/there/below/real.txt"
chmod 640 "$work/there/below/real.txt"
run check "$plant" -o "$work/there/link.txt"
ok "a link is followed" test "$code" -eq 0 -a -L "$work/there/link.txt" -a -s "$work/there/below/real.txt"
ok "and what is there keeps its permissions" test "$(stat -c %a "$work/there/below/real.txt")" = 640
ok "the answer is in it" test "$(wc -l <"$work/there/below/real.txt")" -gt 5
ok "nothing is left beside" test "$(find "$work/there" -type f | wc -l)" -eq 1
ln -s loop.txt "$work/there/loop.txt"
limited "$program" check "$plant" -o "$work/there/loop.txt"
ok "a link to itself is said" test "$code" -eq 4 -a -s "$work/err"

fresh
echo old >"$file"
chmod 6755 "$file"
run check "$plant" -o "$file"
ok "set-user-id bits are not handed on" test "$code" -eq 0 -a "$(stat -c %a "$file")" = 755
rm "$file"
(umask 027 && "$program" check "$plant" -o "$file")
ok "a new file gets what the umask allows" test "$(stat -c %a "$file")" = 640
long=$work/there/$(printf '%0250d' 0).txt
run check "$plant" -o "$long"
ok "a name as long as names can be" test "$code" -eq 0 -a -s "$long"

# Pipes.
fresh
mkfifo "$work/there/pipe"
limited "$program" check "$work/there/pipe"
ok "a pipe without a writer is refused" test "$code" -eq 2 -a ! -s "$work/out"
ok "as no plain file" says err "it is no plain file"
limited "$program" check "$plant" -o "$work/there/pipe"
ok "a pipe without a reader is refused" test "$code" -eq 4 -a -s "$work/err"
cat "$plant" >"$work/there/pipe" &
sleep 0.1
limited "$program" check "$work/there/pipe"
ok "a pipe with a writer is read" test "$code" -eq 0 -a -s "$work/out"
wait
limited "$program" check <(cat "$plant")
ok "as is what a shell puts in a file's place" test "$code" -eq 0 -a -s "$work/out"
cat "$work/there/pipe" >"$work/read" &
sleep 0.1
limited "$program" check "$plant" -o "$work/there/pipe"
wait
ok "a pipe with a reader is written" test "$code" -eq 0 -a -s "$work/read"
limited "$program" check "$work/there"
ok "a folder is no plant" test "$code" -eq 2 -a -s "$work/err"

# A reader that does not read: Ctrl-C ends it, and the plant is not saved.
{
    env --default-signal=INT "$program" report "$plant" --save "$saved" &
    echo $! >"$work/pid"
    wait $!
    echo $? >"$work/code"
} 2>"$work/err" | {
    for ((i = 0; i < 100; i++)); do
        [ -s "$work/pid" ] && [ -n "$(ls "$work/there"/*.tmp 2>"$work/point")" ] && break
        sleep 0.05
    done
    sleep 0.2
    kill -INT "$(cat "$work/pid")"
    for ((i = 0; i < 100; i++)); do
        [ -s "$work/code" ] && break
        sleep 0.05
    done
}
code=$(cat "$work/code")
ok "Ctrl-C ends it while nobody reads" test "$code" -eq 130
ok "and neither the plant nor a piece of it is there" test "$(names)" = "./pipe "
finish
