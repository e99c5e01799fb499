/* SPDX-License-Identifier: MIT */
/* Completion for zsh and fish, made from the tables of verbs and options. */
#include "cli/cli.h"

#include <string.h>

static void add_words(const char *words, fv_text *out)
{
    for (; *words; words++)
        fv_text_add(out, "%c", *words == '|' ? ' ' : *words);
}

static bool takes_file(const cli_option *option)
{
    return option->argument && (strcmp(option->argument, "FILE") == 0 || strstr(option->argument, ".csv"));
}

static bool belongs(const cli_option *option, size_t verb)
{
    return option->verbs >> verb & 1u;
}

static void add_topics(fv_text *out)
{
    for (size_t i = 0; i < VERB_COUNT; i++)
        fv_text_add(out, "%s%s", i ? " " : "", cli_verbs[i].name);
    for (const cli_topic *topic = cli_topics; topic->name; topic++)
        fv_text_add(out, " %s", topic->name);
}

/* ---- zsh ---- */

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

void cli_completion_zsh(fv_text *out)
{
    size_t count;
    const cli_option *options = cli_options(&count);
    fv_text_add(out, "#compdef farvessel\n"
                     "# Completion of farvessel for zsh, made by `farvessel help completion-zsh`.\n"
                     "_farvessel() {\n"
                     "    local -a options\n"
                     "    if (( CURRENT == 2 )); then\n        compadd --");
    for (size_t i = 0; i < VERB_COUNT; i++)
        fv_text_add(out, " %s", cli_verbs[i].name);
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
    add_topics(out);
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

void cli_completion_fish(fv_text *out)
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
    add_topics(out);
    fv_text_add(out, "'\n");
}
