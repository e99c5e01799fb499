/* SPDX-License-Identifier: MIT */
/* Help, made from the tables of verbs and options. */
#include "cli/cli.h"
#include "print/screen.h"

enum { LEAD_SIZE = 64 };

static void option_help(const cli_option *option, fv_text *out)
{
    fv_text_add(out, "  ");
    if (option->letter)
        fv_text_add(out, "-%c, ", option->letter);
    fv_text_add(out, "--%s%s%s\n", option->name, option->argument ? " " : "", option->argument ? option->argument : "");
    print_paragraph(out, "      ", option->doc);
}

static void verb_help(const cli_verb *verb, fv_text *out)
{
    size_t count;
    const cli_option *options = cli_options(&count);
    fv_text_add(out, "farvessel %s %s\n", verb->name, verb->operand);
    print_paragraph(out, "", verb->question);
    fv_text_add(out, "\nExample\n  %s\n\nOptions\n", verb->example);
    for (size_t i = 0; i < count; i++)
        if (options[i].verbs >> (verb - cli_verbs) & 1u)
            option_help(&options[i], out);
}

void cli_help(const cli_verb *verb, fv_text *out)
{
    if (verb) {
        verb_help(verb, out);
        return;
    }
    print_paragraph(out, "",
                    "farvessel says where the steam of a low-pressure treatment line goes: which vessel is "
                    "fed, which starves, and why.");
    fv_text_add(out, "\nVerbs\n");
    for (size_t i = 0; i < VERB_COUNT; i++) {
        char lead[LEAD_SIZE];
        snprintf(lead, sizeof lead, "  %-6s %-10s ", cli_verbs[i].name, cli_verbs[i].operand);
        print_paragraph(out, lead, cli_verbs[i].question);
    }
    fv_text_add(out, "\n`farvessel help VERB` tells the options of a verb.\n");
    for (const cli_topic *topic = cli_topics; topic->name; topic++)
        print_sayf(out, "", "`farvessel help %s` %s.", topic->name, topic->doc);
    fv_text_add(out, "\n");
    print_paragraph(out, "",
                    "Exit codes: 0 good; 2 bad input or usage; 3 no solution; 4 system (memory, files). On any but 0 "
                    "nothing is written to standard output or to a file.");
}
