/* SPDX-License-Identifier: MIT */
/* Help, and the manual pages of the verbs, made from the tables of verbs and options. */
#include "cli/cli.h"
#include "print/screen.h"

enum { LEAD_SIZE = 64, TERM_SIZE = CLI_PAGE_SIZE };

static void option_help(const cli_option *option, const cli_sheet *s)
{
    char term[TERM_SIZE], letter[8] = "";
    if (option->letter)
        snprintf(letter, sizeof letter, "-%c, ", option->letter);
    snprintf(term, sizeof term, "%s--%s%s%s", letter, option->name, option->argument ? " " : "",
             option->argument ? option->argument : "");
    cli_sheet_item(s, term, option->doc);
}

static void verb_help(const cli_verb *verb, const cli_sheet *s)
{
    size_t count;
    char page[TERM_SIZE], synopsis[TERM_SIZE];
    const cli_option *options = cli_options(&count);
    snprintf(page, sizeof page, "farvessel-%s", verb->name);
    snprintf(synopsis, sizeof synopsis, "farvessel %s %s%s", verb->name, verb->operand, s->man ? " [OPTION...]" : "");
    cli_sheet_begin(s, page, 1, synopsis, verb->question);
    cli_sheet_section(s, "Example");
    cli_sheet_example(s, verb->example);
    cli_sheet_section(s, "Options");
    for (size_t i = 0; i < count; i++)
        if (options[i].verbs >> (verb - cli_verbs) & 1u)
            option_help(&options[i], s);
    if (!s->man)
        return;
    cli_sheet_section(s, "Exit status");
    cli_sheet_say(s, CLI_EXIT_CODES);
    cli_sheet_section(s, "See also");
    cli_sheet_say(s, "`farvessel`(1), `farvessel-plant`(5)");
}

void cli_help(const cli_verb *verb, void (*topics)(const cli_sheet *sheet), const cli_sheet *s)
{
    if (verb) {
        verb_help(verb, s);
        return;
    }
    if (s->man)
        cli_sheet_begin(s, "farvessel", 1, "farvessel VERB [FILE] [OPTION...]",
                        "where the steam of a low-pressure treatment line goes");
    if (s->man)
        cli_sheet_section(s, "Description");
    cli_sheet_say(s, "farvessel says where the steam of a low-pressure treatment line goes: which vessel is fed, which "
                     "starves, and why.");
    cli_sheet_section(s, "Verbs");
    for (size_t i = 0; i < VERB_COUNT; i++) {
        char lead[LEAD_SIZE];
        if (s->man)
            snprintf(lead, sizeof lead, "%s %s", cli_verbs[i].name, cli_verbs[i].operand);
        else
            snprintf(lead, sizeof lead, "  %-6s %-10s ", cli_verbs[i].name, cli_verbs[i].operand);
        if (s->man)
            cli_sheet_item(s, lead, cli_verbs[i].question);
        else
            print_paragraph(s->out, lead, cli_verbs[i].question);
    }
    if (s->man)
        cli_sheet_section(s, "More help");
    else
        fv_text_add(s->out, "\n");
    cli_sheet_say(s, "`farvessel help VERB` tells the options of a verb.");
    topics(s);
    if (s->man)
        cli_sheet_section(s, "Exit status");
    else
        fv_text_add(s->out, "\n");
    cli_sheet_say(s, s->man ? CLI_EXIT_CODES : "Exit codes: " CLI_EXIT_CODES);
}
