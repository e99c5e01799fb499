/* SPDX-License-Identifier: MIT */
/* Completion for bash, made from the tables of verbs and options. */
#include "cli/cli.h"

#include <string.h>

/* "a|b|c" as "a b c". */
static void add_words(const char *words, fv_text *out)
{
    for (; *words; words++)
        fv_text_add(out, "%c", *words == '|' ? ' ' : *words);
}

static void add_verbs(fv_text *out)
{
    for (size_t i = 0; i < VERB_COUNT; i++)
        fv_text_add(out, "%s%s", i ? " " : "", cli_verbs[i].name);
}

/* What may follow an option: its words, a file, or what only the user knows. */
static void add_argument(size_t verb, const cli_option *option, fv_text *out)
{
    fv_text_add(out, "    %s:--%s", cli_verbs[verb].name, option->name);
    if (option->letter)
        fv_text_add(out, " | %s:-%c", cli_verbs[verb].name, option->letter);
    fv_text_add(out, ")\n        ");
    if (option->words) {
        fv_text_add(out, "COMPREPLY=($(compgen -W \"");
        add_words(option->words, out);
        fv_text_add(out, "\" -- \"$word\"))\n        ");
    } else if (strcmp(option->argument, "FILE") == 0) {
        fv_text_add(out, "compopt -o filenames 2>/dev/null\n        mapfile -t COMPREPLY < <(compgen -f -- \"$word\")"
                         "\n        ");
    }
    fv_text_add(out, "return\n        ;;\n");
}

static void add_verb(size_t verb, fv_text *out)
{
    size_t count;
    bool first = true;
    const cli_option *options = cli_options(&count);
    fv_text_add(out, "    %s) options=\"", cli_verbs[verb].name);
    for (size_t i = 0; i < count; i++)
        if (options[i].verbs >> verb & 1u) {
            fv_text_add(out, "%s--%s", first ? "" : " ", options[i].name);
            first = false;
        }
    fv_text_add(out, "\" ;;\n");
}

void cli_completion(fv_text *out)
{
    size_t count;
    const cli_option *options = cli_options(&count);
    fv_text_add(out,
                "# Completion of farvessel for bash, made by `farvessel help completion`.\n"
                "_farvessel() {\n"
                "    local verb=${COMP_WORDS[1]} word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}"
                " options=\"\"\n"
                "    COMPREPLY=()\n"
                "    if [ \"$COMP_CWORD\" -eq 1 ]; then\n        COMPREPLY=($(compgen -W \"");
    add_verbs(out);
    fv_text_add(out, "\" -- \"$word\"))\n        return\n    fi\n"
                     "    # --format=json is three words to bash\n"
                     "    [ \"$word\" != = ] || word=\"\"\n"
                     "    [ \"$before\" != = ] || before=${COMP_WORDS[COMP_CWORD - 2]}\n"
                     "    case $verb:$before in\n");
    for (size_t verb = 0; verb < VERB_COUNT; verb++)
        for (size_t i = 0; i < count; i++)
            if (options[i].argument && options[i].verbs >> verb & 1u)
                add_argument(verb, &options[i], out);
    fv_text_add(out, "    esac\n    case $verb in\n");
    for (size_t verb = 0; verb < VERB_COUNT; verb++)
        add_verb(verb, out);
    fv_text_add(out, "    *) return ;;\n    esac\n    case $verb:$word in\n"
                     "    *:-*) COMPREPLY=($(compgen -W \"$options\" -- \"$word\")) ;;\n"
                     "    help:*) COMPREPLY=($(compgen -W \"");
    add_verbs(out);
    for (const cli_topic *topic = cli_topics; topic->name; topic++)
        fv_text_add(out, " %s", topic->name);
    fv_text_add(out, "\" -- \"$word\")) ;;\n"
                     "    *)\n"
                     "        compopt -o filenames 2>/dev/null\n"
                     "        mapfile -t COMPREPLY < <(compgen -f -X '!*.xml' -- \"$word\"; compgen -d -- \"$word\")\n"
                     "        ;;\n"
                     "    esac\n"
                     "}\n"
                     "complete -F _farvessel farvessel\n");
}
