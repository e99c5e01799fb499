/* SPDX-License-Identifier: MIT */
/* Completion for bash, zsh and fish, made from the tables of verbs and options. */
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

/* What help tells: verbs and topics. */
static void add_topics(const cli_topic *topics, fv_text *out)
{
    add_verbs(out);
    for (; topics->name; topics++)
        fv_text_add(out, " %s", topics->name);
}

static bool belongs(const cli_option *option, size_t verb)
{
    return option->verbs >> verb & 1u;
}

/* ---- bash ---- */

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
        if (belongs(&options[i], verb)) {
            fv_text_add(out, "%s--%s", first ? "" : " ", options[i].name);
            first = false;
        }
    fv_text_add(out, "\" ;;\n");
}

void cli_completion(const cli_topic *topics, fv_text *out)
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
            if (options[i].argument && belongs(&options[i], verb))
                add_argument(verb, &options[i], out);
    fv_text_add(out, "    esac\n    case $verb in\n");
    for (size_t verb = 0; verb < VERB_COUNT; verb++)
        add_verb(verb, out);
    fv_text_add(out, "    *) return ;;\n    esac\n    case $verb:$word in\n"
                     "    *:-*) COMPREPLY=($(compgen -W \"$options\" -- \"$word\")) ;;\n"
                     "    help:*) COMPREPLY=($(compgen -W \"");
    add_topics(topics, out);
    fv_text_add(out, "\" -- \"$word\")) ;;\n"
                     "    *)\n"
                     "        compopt -o filenames 2>/dev/null\n"
                     "        mapfile -t COMPREPLY < <(compgen -f -X '!*.xml' -- \"$word\"; compgen -d -- \"$word\")\n"
                     "        ;;\n"
                     "    esac\n"
                     "}\n"
                     "complete -F _farvessel farvessel\n");
}

/* ---- zsh ---- */

static bool takes_file(const cli_option *option)
{
    return option->argument && (strcmp(option->argument, "FILE") == 0 || strstr(option->argument, ".csv"));
}

static void zsh_verb(size_t verb, fv_text *out)
{
    size_t count;
    const cli_option *options = cli_options(&count);
    for (size_t i = 0; i < count; i++) {
        if (!belongs(&options[i], verb) || !options[i].argument)
            continue;
        fv_text_add(out, "    %s:--%s", cli_verbs[verb].name, options[i].name);
        if (options[i].letter)
            fv_text_add(out, "|%s:-%c", cli_verbs[verb].name, options[i].letter);
        fv_text_add(out, ") ");
        if (options[i].words) {
            fv_text_add(out, "compadd -- ");
            add_words(options[i].words, out);
            fv_text_add(out, "; ");
        } else if (takes_file(&options[i])) {
            fv_text_add(out, "_files; ");
        }
        fv_text_add(out, "return ;;\n");
    }
}

void cli_completion_zsh(const cli_topic *topics, fv_text *out)
{
    size_t count;
    const cli_option *options = cli_options(&count);
    fv_text_add(out, "#compdef farvessel\n"
                     "# Completion of farvessel for zsh, made by `farvessel help completion-zsh`.\n"
                     "_farvessel() {\n"
                     "    local -a options\n"
                     "    if (( CURRENT == 2 )); then\n        compadd -- ");
    add_verbs(out);
    fv_text_add(out, "\n        return\n    fi\n    case $words[2]:$words[CURRENT-1] in\n");
    for (size_t verb = 0; verb < VERB_COUNT; verb++)
        zsh_verb(verb, out);
    fv_text_add(out, "    esac\n    case $words[2] in\n");
    for (size_t verb = 0; verb < VERB_COUNT; verb++) {
        fv_text_add(out, "    %s) options=(", cli_verbs[verb].name);
        for (size_t i = 0; i < count; i++)
            if (belongs(&options[i], verb))
                fv_text_add(out, " --%s", options[i].name);
        fv_text_add(out, " ) ;;\n");
    }
    fv_text_add(out, "    esac\n"
                     "    if [[ $words[CURRENT] == -* ]]; then\n        compadd -- $options\n"
                     "    elif [[ $words[2] == help ]]; then\n        compadd -- ");
    add_topics(topics, out);
    fv_text_add(out, "\n    else\n        _files\n    fi\n}\n_farvessel \"$@\"\n");
}

/* ---- fish ---- */

/* In single quotes. */
static void add_quoted(const char *text, fv_text *out)
{
    fv_text_add(out, "'");
    for (; *text; text++)
        fv_text_add(out, "%s%c", *text == '\'' || *text == '\\' ? "\\" : "", *text);
    fv_text_add(out, "'");
}

void cli_completion_fish(const cli_topic *topics, fv_text *out)
{
    size_t count;
    const cli_option *options = cli_options(&count);
    fv_text_add(out, "# Completion of farvessel for fish, made by `farvessel help completion-fish`.\n");
    for (size_t verb = 0; verb < VERB_COUNT; verb++) {
        fv_text_add(out, "complete -c farvessel -n __fish_use_subcommand -f -a %s -d ", cli_verbs[verb].name);
        add_quoted(cli_verbs[verb].question, out);
        fv_text_add(out, "\n");
        for (size_t i = 0; i < count; i++) {
            if (!belongs(&options[i], verb))
                continue;
            fv_text_add(out, "complete -c farvessel -n '__fish_seen_subcommand_from %s' -l %s", cli_verbs[verb].name,
                        options[i].name);
            if (options[i].letter)
                fv_text_add(out, " -s %c", options[i].letter);
            if (options[i].words) {
                fv_text_add(out, " -x -a '");
                add_words(options[i].words, out);
                fv_text_add(out, "'");
            } else if (options[i].argument) {
                fv_text_add(out, takes_file(&options[i]) ? " -r" : " -x");
            }
            fv_text_add(out, " -d ");
            add_quoted(options[i].doc, out);
            fv_text_add(out, "\n");
        }
    }
    fv_text_add(out, "complete -c farvessel -n '__fish_seen_subcommand_from help' -f -a '");
    add_topics(topics, out);
    fv_text_add(out, "'\n");
}
