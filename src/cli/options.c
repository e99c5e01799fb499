/* SPDX-License-Identifier: MIT */
/* The tables of verbs and options. A new option is one row here and one line in the verb that reads it. */
#include "cli/cli.h"

#define FOR(verb) (1u << (verb))
#define TABLE_VERBS (FOR(VERB_CHECK) | FOR(VERB_FLOW) | FOR(VERB_HEAT))
#define PLANT_VERBS (TABLE_VERBS | FOR(VERB_REPORT))
#define ALL_VERBS (PLANT_VERBS | FOR(VERB_HELP))

const cli_verb cli_verbs[VERB_COUNT] = {
    [VERB_CHECK] = {"check", "PLANT.xml", "Is the plant file sound, and what is assumed?", "farvessel check plant.xml",
                    cli_check},
    [VERB_FLOW] = {"flow", "PLANT.xml", "Which vessel gets how much steam, which starves?",
                   "farvessel flow plant.xml --fire \"50 %\" --set s6.bore=\"25 mm\"", cli_flow},
    [VERB_HEAT] = {"heat", "PLANT.xml", "When is each core done, which vessel is starved, what does it take?",
                   "farvessel heat plant.xml --start 06:00 --set s6.bore=\"25 mm\"", cli_heat},
    [VERB_REPORT] = {"report", "PLANT.xml", "What do I show to others? One page with all of it.",
                     "farvessel report plant.xml -o report.html --start 06:30", cli_report},
    [VERB_HELP] = {"help", "[VERB]", "How is a verb used?", "farvessel help flow", cli_help_verb},
};

static const cli_option options[] = {
    {OPTION_FORMAT, "format", 0, "text|json|csv", FV_REPORT_FORMATS, false, TABLE_VERBS,
     "text for people (the default), json or csv for programs, in SI with the unit in each name"},
    {OPTION_FORMAT, "format", 0, FV_PAGE_FORMATS, FV_PAGE_FORMATS, false, FOR(VERB_REPORT),
     "html, one file that needs nothing else (the default), or md, Markdown for pasting"},
    {OPTION_ONLY, "only", 0, "DRAWING", FV_PAGE_DRAWINGS, false, FOR(VERB_REPORT),
     "one drawing as an SVG file instead of the page: drawing, curves, pressure, holes, demand, heat or turndown"},
    {OPTION_START, "start", 0, "TIME", NULL, false, FOR(VERB_HEAT) | FOR(VERB_REPORT),
     "time of day at which the run starts, such as 06:30 or \"6:30 am\"; by default times count from the start"},
    {OPTION_DATE, "date", 0, "DATE", NULL, false, FOR(VERB_REPORT),
     "date that the page bears, such as 2031-03-14; today by default"},
    {OPTION_NO_RUN, "no-run", 0, NULL, NULL, false, FOR(VERB_REPORT),
     "leave out the run from cold to core and all that needs it; quicker"},
    {OPTION_UNITS, "units", 0, "metric|us", "metric|us", false, PLANT_VERBS, "units of the text; metric by default"},
    {OPTION_TABLE, "table", 0, FV_REPORT_CHECK_TABLES, FV_REPORT_CHECK_TABLES, false, FOR(VERB_CHECK),
     "which table --format csv gives; values by default"},
    {OPTION_TABLE, "table", 0, FV_REPORT_FLOW_TABLES, FV_REPORT_FLOW_TABLES, false, FOR(VERB_FLOW),
     "which table --format csv gives; vessels by default"},
    {OPTION_TABLE, "table", 0, FV_REPORT_HEAT_TABLES, FV_REPORT_HEAT_TABLES, false, FOR(VERB_HEAT),
     "which table --format csv gives; series by default"},
    {OPTION_UNTIL, "until", 0, "TIME", NULL, false, FOR(VERB_HEAT),
     "time after which the run ends at the latest, such as \"48 h\"; 7 days by default"},
    {OPTION_EVERY, "every", 0, "TIME", NULL, false, FOR(VERB_HEAT),
     "time between two samples of curves and series, such as \"1 min\"; 5 min by default"},
    {OPTION_PHASE, "phase", 0, "heating|holding", "heating|holding", false, FOR(VERB_FLOW),
     "take all vessels that are not shut as heating (they take all steam they get) or holding (they take what keeps "
     "them hot); by default as the plant says of each"},
    {OPTION_FIRE, "fire", 0, "SHARE", NULL, false, FOR(VERB_FLOW) | FOR(VERB_HEAT) | FOR(VERB_REPORT),
     "share of each boiler's own fire setting, such as \"50 %\"; full by default"},
    {OPTION_NO_TURNDOWN, "no-turndown", 0, NULL, NULL, false, FOR(VERB_FLOW),
     "leave out what happens when the fire is turned down"},
    {OPTION_LIST, "list", 0, FV_REPORT_LISTS, FV_REPORT_LISTS, false, FOR(VERB_CHECK),
     "list what a plant file can name; needs no plant"},
    {OPTION_SET, "set", 0, "ID.ATTRIBUTE=VALUE", NULL, true, PLANT_VERBS,
     "try another value without touching the file, such as s6.bore=\"25 mm\" or site.altitude=\"900 m\"; may be given "
     "several times"},
    {OPTION_SAVE, "save", 0, "FILE", NULL, false, PLANT_VERBS, "write the plant with the --set changes to FILE"},
    {OPTION_OUTPUT, "output", 'o', "FILE", NULL, false, ALL_VERBS,
     "write the answer to FILE, whole or not at all, instead of standard output"},
    {OPTION_HELP, "help", 'h', NULL, NULL, false, ALL_VERBS, "this help"},
    {OPTION_VERSION, "version", 0, NULL, NULL, false, ALL_VERBS, "the program's version"},
};

const cli_option *cli_options(size_t *count)
{
    *count = sizeof options / sizeof *options;
    return options;
}
