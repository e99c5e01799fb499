# SPDX-License-Identifier: MIT
# On top of the library of tests/cli: the preloaded trouble maker.
. "$(dirname "${BASH_SOURCE[0]}")/../cli/lib.sh"

# Under a sanitizer, which brings its own allocator, and without glibc, nothing can be preloaded: $trouble is empty.
trouble=
case ${BUILD:-build} in
*san*) ;;
*)
    if ${CC:-cc} -O1 -shared -fPIC -o "$work/trouble.so" "$root/tests/robust/trouble.c" -ldl 2>"$work/err"; then
        trouble=$work/trouble.so
    fi
    ;;
esac

# with VARIABLE=VALUE... -- ARGUMENTS...: the program under trouble; its exit code in $code.
with() {
    local settings=()
    while [ "$1" != -- ]; do
        settings+=("$1")
        shift
    done
    shift
    env "${settings[@]}" LD_PRELOAD="$trouble" "$program" "$@" >"$work/out" 2>"$work/err" </dev/null
    code=$?
}
