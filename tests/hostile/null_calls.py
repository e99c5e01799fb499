# SPDX-License-Identifier: MIT
"""Writes a C program that calls every public function with NULL: for all pointers at once, and for each pointer alone
with what belongs there for the others. Each call is made in a process of its own, which must end by itself."""
import glob
import os
import re
import sys

include = sys.argv[1]
# What belongs there, by type; a type that is not listed gets NULL.
GOOD = {
    "const char *": '"x"', "fv_plant *": "plant()", "fv_faults *": "fv_faults_new()", "fv_text *": "&(fv_text){0}",
    "double *": "&(double){1}", "size_t *": "&(size_t){0}", "fv_units *": "fv_units_new(NULL)", "fv_sat *": "fv_sat_line()",
    "fv_arena *": "fv_arena_new()", "bool *": "&(bool){0}", "int *": "&(int){0}", "char *": "(char[4096]){0}",
    "void **": "&(void *){NULL}", "char **": "&(char *){NULL}", "const fv_element **": "&(const fv_element *){NULL}",
    "const char **": "&(const char *){NULL}", "unsigned *": "&(unsigned){0}", "fv_vessel *": "plant()->vessels[0]",
    "fv_line *": "plant()->lines[0]", "fv_boiler *": "plant()->boilers[0]", "fv_load *": "&plant()->vessels[0]->load",
    "fv_site *": "&plant()->site", "fv_element *": 'fv_element_find("vessel")', "fv_network *": "network()",
    "fv_solver *": "fv_solver_new(network())", "fv_steady_result *": "fv_steady_result_new(network())",
    "fv_check_answer *": "fv_check_answer_new(plant(), NULL)",
    "fv_attr *": 'fv_attr_find(fv_element_find("vessel"), "volume")',
}


def functions():
    for path in sorted(glob.glob(os.path.join(include, "*.h"))):
        text = open(path, encoding="utf-8").read()
        text = re.sub(r"/\*.*?\*/", "", text, flags=re.S)
        text = re.sub(r"\bFV_PRINTF\([^)]*\)", "", text)
        text = re.sub(r"^#.*$", "", text, flags=re.M)
        for _ in range(3):
            text = re.sub(r"\{[^{}]*\}", "{}", text)
        for m in re.finditer(r"(?:^|(?<=[;}]))\s*((?!typedef|static|extern)[\w ]+?[ *]+)(fv_\w+)\(([^;{}]*?)\)\s*;", text):
            yield os.path.basename(path), m.group(2), " ".join(m.group(3).split())


def split(argument):
    """Type and whether it is a pointer, of a parameter with its name."""
    if argument == "...":
        return None, False
    if "[" in argument:
        return "array", True
    if "*" not in argument:
        return re.sub(r"\s*\b\w+$", "", argument) if " " in argument else argument, False
    kind = argument[:argument.rindex("*") + 1]
    return kind, True


def good(kind):
    plain = re.sub(r"^const ", "", kind)
    if kind in GOOD or plain in GOOD:
        return GOOD.get(kind, GOOD.get(plain))
    options = re.match(r"(fv_\w+)_options \*$", plain)
    if options:
        maker = options.group(1) + "_defaults"
        return f"options({maker}, sizeof({options.group(1)}_options))" if maker in names else None
    return None


every = list(functions())
names = {name for _, name, _ in every}
calls = []
for _, name, arguments in every:
    kinds = [split(a.strip()) for a in arguments.split(",")] if arguments not in ("void", "") else []
    kinds = [k for k in kinds if k[0]]
    pointers = [i for i, k in enumerate(kinds) if k[1]]
    if not pointers:
        continue

    def call(nulls):
        given = []
        for i, (kind, pointer) in enumerate(kinds):
            if pointer:
                given.append("NULL" if i in nulls else (good(kind) or "NULL"))
            elif kind.startswith(("fv_visit", "fv_sweep_take", "va_list")):
                return None
            elif kind == "double":
                given.append("1.0")
            elif kind in ("size_t", "int", "bool", "unsigned", "long"):
                given.append("0")
            else:
                given.append(f"({kind}){{0}}")
        return f"{name}({', '.join(given)})"

    texts = [call(set(pointers))] + [call({i}) for i in pointers]
    for text in dict.fromkeys(t for t in texts if t):
        calls.append(text)

print('#include "farvessel/farvessel.h"\n#include <signal.h>\n#include <stdio.h>\n#include <stdlib.h>\n#include <string.h>')
for header in sorted({h for h, _, _ in every} - {"farvessel.h"}):
    print(f'#include "farvessel/{header}"')
print("""#include <sys/wait.h>
#include <unistd.h>
static fv_plant *read_plant;
static fv_plant *plant(void) { return read_plant; }
static fv_network *network(void) { return fv_network_new(read_plant, fv_sat_line(), NULL); }
#define options(maker, size) made((void (*)(void *))maker, size)
static void *made(void (*maker)(void *), size_t size)
{
    void *room = calloc(1, size);
    maker(room);
    return room;
}""")
for i, text in enumerate(calls):
    print(f"static void call_{i}(void) {{ (void){text}; }}" if not text.startswith("void") else "")
print("static const struct { const char *what; void (*call)(void); } calls[] = {")
for i, text in enumerate(calls):
    print('    {"' + text.replace("\\", "\\\\").replace('"', '\\"') + f'", call_{i}}},')
print("""};
int main(int argc, char **argv)
{
    int crashes = 0;
    read_plant = argc > 1 ? fv_plantfile_read(argv[1], NULL, NULL) : NULL;
    if (!read_plant)
        return 2;
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++) {
        int status = 0;
        fflush(stdout);
        pid_t child = fork();
        if (child == 0) {
            alarm(60);
            calls[i].call();
            _exit(0);
        }
        if (child < 0 || waitpid(child, &status, 0) != child)
            return 2;
        if (status != 0) {
            printf("ends with %d: %s\\n", WIFSIGNALED(status) ? 128 + WTERMSIG(status) : WEXITSTATUS(status), calls[i].what);
            crashes++;
        }
    }
    printf("%zu calls, %d crashes\\n", sizeof calls / sizeof *calls, crashes);
    return crashes > 0;
}""")
