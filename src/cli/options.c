/* SPDX-License-Identifier: MIT */
/* The tables of verbs and options. A new option is one row here and one line in the verb that reads it. */
#include "cli/cli.h"

#define FOR(verb) (1u << (verb))
#define STUDY_VERBS (FOR(VERB_WHY) | FOR(VERB_SIZE) | FOR(VERB_CARRY) | FOR(VERB_PLAN))
#define TABLE_VERBS (FOR(VERB_CHECK) | FOR(VERB_FLOW) | FOR(VERB_HEAT) | STUDY_VERBS)
#define PLANT_VERBS (TABLE_VERBS | FOR(VERB_REPORT))
#define ALL_VERBS (PLANT_VERBS | FOR(VERB_SWEEP) | FOR(VERB_HELP))

const cli_verb cli_verbs[VERB_COUNT] = {
    [VERB_CHECK] = {"check", "PLANT.xml", "Is the plant file sound, and what is assumed?", "farvessel check plant.xml"},
    [VERB_FLOW] = {"flow", "PLANT.xml", "Which vessel gets how much steam, which starves?",
                   "farvessel flow plant.xml --fire \"50 %\" --set s6.bore=\"25 mm\""},
    [VERB_HEAT] = {"heat", "PLANT.xml", "When is each core done, which vessel is starved, what does it take?",
                   "farvessel heat plant.xml --start 06:00 --set s6.bore=\"25 mm\""},
    [VERB_WHY] = {"why", "PLANT.xml", "Why does a vessel heat slowly, and what would help?",
                  "farvessel why plant.xml --vessel bin4"},
    [VERB_SIZE] = {"size", "PLANT.xml", "Which holes, which hose, which header of those in stock?",
                   "farvessel size plant.xml --vary drill,hose --for spread"},
    [VERB_CARRY] = {"carry", "PLANT.xml", "How many vessels does the boiler carry, and how should they start?",
                    "farvessel carry plant.xml --like bin1 --at t4"},
    [VERB_PLAN] = {"plan", "PLANT.xml", "All done by noon: what do I do, and when do I light?",
                   "farvessel plan plant.xml --by 12:00"},
    [VERB_SWEEP] = {"sweep", "PLANT.xml", "What comes of a thousand what-ifs? One CSV row for each.",
                    "farvessel sweep plant.xml --vary \"s1.bore = 19 mm, 25 mm\" -o sweep.csv"},
    [VERB_REPORT] = {"report", "PLANT.xml", "What do I show to others? One page with all of it.",
                     "farvessel report plant.xml -o report.html --start 06:30"},
    [VERB_HELP] = {"help", "[VERB]", "How is a verb used?", "farvessel help flow"},
};

static const cli_option options[] = {
    {OPTION_FORMAT, "format", 0, "text|json|csv", FV_REPORT_FORMATS, false, TABLE_VERBS,
     "text for people (the default), json or csv for programs, in SI with the unit in each name"},
    {OPTION_FORMAT, "format", 0, FV_PAGE_FORMATS, FV_PAGE_FORMATS, false, FOR(VERB_REPORT),
     "html, one file that needs nothing else (the default), or md, Markdown for pasting"},
    {OPTION_ONLY, "only", 0, "DRAWING", FV_PAGE_DRAWINGS, false, FOR(VERB_REPORT),
     "one drawing as an SVG file instead of the page: " FV_PAGE_DRAWINGS},
    {OPTION_BY, "by", 0, "TIME", NULL, false, FOR(VERB_PLAN),
     "time of day by which the last hold shall have ended, such as 12:00; the plan says when to light for it"},
    {OPTION_START, "start", 0, "TIME", NULL, false, FOR(VERB_PLAN),
     "time of day at which the fire is lit, such as 06:30; with --by no plan may take longer than from one to the "
     "other"},
    {OPTION_FOR, "for", 0, "GOAL", FV_PLAN_GOAL_WORDS, false, FOR(VERB_PLAN),
     "of the plans that bring all in time: cheapest in money and work (the default), earliest, even, least fuel, or "
     "most "
     "output a day"},
    {OPTION_NO_BUY, "no-buy", 0, NULL, NULL, false, FOR(VERB_PLAN),
     "only what hands can do with valves, washers and starts; quicker"},
    {OPTION_WAGE, "wage", 0, "PRICE", NULL, false, FOR(VERB_PLAN),
     "what an hour of your work counts, in the stock's currency; 20 by default"},
    {OPTION_PLANS, "plans", 0, "COUNT", NULL, false, FOR(VERB_PLAN),
     "about so many plans of hands are looked at; 360 by default"},
    {OPTION_TABLE, "table", 0, FV_REPORT_PLAN_TABLES, FV_REPORT_PLAN_TABLES, false, FOR(VERB_PLAN),
     "which table --format csv gives; plans by default"},
    {OPTION_START, "start", 0, "TIME", NULL, false, FOR(VERB_HEAT) | FOR(VERB_REPORT),
     "time of day at which the run starts, such as 06:30 or \"6:30 am\"; by default times count from the start"},
    {OPTION_DATE, "date", 0, "DATE", NULL, false, FOR(VERB_REPORT),
     "date that the page bears, such as 2031-03-14; today by default"},
    {OPTION_NO_RUN, "no-run", 0, NULL, NULL, false, FOR(VERB_REPORT),
     "leave out the run from cold to core and all that needs it; quicker"},
    {OPTION_WHY, "why", 0, NULL, NULL, false, FOR(VERB_REPORT),
     "also say why and what would help, as `farvessel why` finds it; takes many runs"},
    {OPTION_UNITS, "units", 0, "metric|us", "metric|us", false, PLANT_VERBS, "units of the text; metric by default"},
    {OPTION_BRIEF, "brief", 0, NULL, NULL, false, TABLE_VERBS,
     "no more than the answer and its table, 20 lines at most"},
    {OPTION_CAUTIONS, "cautions", 0, NULL, NULL, false, TABLE_VERBS & ~FOR(VERB_CHECK),
     "all words of the cautions; by default a line for each"},
    {OPTION_SERIES, "series", 0, NULL, NULL, false, FOR(VERB_HEAT),
     "JSON with all samples of curves; by default without, and CSV has them in the table series"},
    {OPTION_TABLE, "table", 0, FV_REPORT_CHECK_TABLES, FV_REPORT_CHECK_TABLES, false, FOR(VERB_CHECK),
     "which table --format csv gives; values by default"},
    {OPTION_TABLE, "table", 0, FV_REPORT_FLOW_TABLES, FV_REPORT_FLOW_TABLES, false, FOR(VERB_FLOW),
     "which table --format csv gives; vessels by default"},
    {OPTION_TABLE, "table", 0, FV_REPORT_HEAT_TABLES, FV_REPORT_HEAT_TABLES, false, FOR(VERB_HEAT),
     "which table --format csv gives; series by default"},
    {OPTION_TABLE, "table", 0, FV_REPORT_WHY_TABLES, FV_REPORT_WHY_TABLES, false, FOR(VERB_WHY),
     "which table --format csv gives; vessels by default"},
    {OPTION_VESSEL, "vessel", 0, "ID", NULL, false, FOR(VERB_WHY),
     "the vessel that the question is about; all by default"},
    {OPTION_NO_REMEDIES, "no-remedies", 0, NULL, NULL, false, FOR(VERB_WHY), "leave out what would help; quicker"},
    {OPTION_TABLE, "table", 0, FV_REPORT_SIZE_TABLES, FV_REPORT_SIZE_TABLES, false, FOR(VERB_SIZE),
     "which table --format csv gives; choices by default"},
    {OPTION_TABLE, "table", 0, FV_REPORT_CARRY_TABLES, FV_REPORT_CARRY_TABLES, false, FOR(VERB_CARRY),
     "which table --format csv gives; counts by default"},
    {OPTION_VARY, "vary", 0, "PARTS", NULL, false, FOR(VERB_SIZE),
     "what to choose, such as drill,hose: drill, holes (their number), spacing, coil, hose, header; by default drill, "
     "hose and header as far as <stock> lists them"},
    {OPTION_VARY, "vary", 0, "ID.ATTRIBUTE=VALUES", NULL, true, FOR(VERB_SWEEP),
     "an attribute and its values, such as \"s1.bore = 19 mm, 25 mm\" or \"bin.coil.drill = 2 mm .. 4 mm in 5\"; given "
     "several times, all combinations are tried"},
    {OPTION_ASK, "ask", 0, FV_SWEEP_ASK_WORDS, FV_SWEEP_ASK_WORDS, false, FOR(VERB_SWEEP),
     "what is answered: heat, the run until the last hold is done (the default), or flow, one moment"},
    {OPTION_RANDOM, "random", 0, "COUNT", NULL, false, FOR(VERB_SWEEP),
     "instead of all combinations so many that are spread evenly at random (Sobol' points, randomly shifted)"},
    {OPTION_SEED, "seed", 0, "NUMBER", NULL, false, FOR(VERB_SWEEP),
     "of --random; 1 by default: the same rows each time"},
    {OPTION_PART, "part", 0, "K/N", NULL, false, FOR(VERB_SWEEP),
     "the K-th of N shares of the rows; only the first has the heading, so that all put together are the whole"},
    {OPTION_RESUME, "resume", 0, NULL, NULL, false, FOR(VERB_SWEEP),
     "go on where a sweep into the same -o FILE was stopped: its rows so far stand in FILE.part"},
    {OPTION_EACH, "each", 0, NULL, NULL, false, FOR(VERB_SIZE),
     "size every vessel, hose and header section for itself, to balance them; by default all alike"},
    {OPTION_FOR, "for", 0, "GOAL", FV_SIZE_GOAL_WORDS, false, FOR(VERB_SIZE),
     "what is best: time (the earliest last core, the default), spread (the most even split), cost or fuel"},
    {OPTION_SPREAD, "spread", 0, "TIMES", NULL, false, FOR(VERB_SIZE),
     "limit: the slowest vessel takes at most so many times as long as the fastest; 1.5 by default"},
    {OPTION_EVENNESS, "evenness", 0, "SHARE", NULL, false, FOR(VERB_SIZE),
     "limit: along each coil the weakest hole passes at least this share of the strongest; 0.8 by default"},
    {OPTION_HOLE_AREA, "hole-area", 0, "SHARE", NULL, false, FOR(VERB_SIZE),
     "limit: hole area / bore area of each coil; by default 0.5 or 2, by the published rule that applies"},
    {OPTION_VELOCITY, "velocity", 0, "SPEED", NULL, false, FOR(VERB_SIZE),
     "limit: steam in lines, such as \"40 m/s\"; 60 m/s by default"},
    {OPTION_LIKE, "like", 0, "ID", NULL, false, FOR(VERB_CARRY),
     "vessel or kind that further vessels are like; the last vessel by default"},
    {OPTION_AT, "at", 0, "JOINT", NULL, false, FOR(VERB_CARRY),
     "joint where the hoses of further vessels begin; by default the pattern of the last header section and hose goes "
     "on"},
    {OPTION_MORE, "more", 0, "COUNT", NULL, false, FOR(VERB_CARRY), "up to so many vessels more; 3 by default"},
    {OPTION_FEWER, "fewer", 0, "COUNT", NULL, false, FOR(VERB_CARRY),
     "up to so many of the last vessels shut off; 1 by default"},
    {OPTION_TURNAROUND, "turnaround", 0, "TIME", NULL, false, FOR(VERB_CARRY) | FOR(VERB_PLAN),
     "from the end of the last hold to the next fire; \"2 h\" by default"},
    {OPTION_NO_OTHERS, "no-others", 0, NULL, NULL, false, FOR(VERB_CARRY),
     "leave out what could be bought instead; quicker"},
    {OPTION_THREADS, "threads", 0, "COUNT", NULL, false, STUDY_VERBS | FOR(VERB_SWEEP),
     "runs side by side; by default as many as there are processors; the answer is the same"},
    {OPTION_UNTIL, "until", 0, "TIME", NULL, false, FOR(VERB_HEAT),
     "time after which the run ends at the latest, such as \"48 h\"; 7 days by default"},
    {OPTION_EVERY, "every", 0, "TIME", NULL, false, FOR(VERB_HEAT),
     "time between two samples of curves and series, such as \"1 min\"; 5 min by default"},
    {OPTION_PHASE, "phase", 0, "heating|holding", "heating|holding", false, FOR(VERB_FLOW),
     "take all vessels that are not shut as heating (they take all steam they get) or holding (they take what keeps "
     "them hot); by default as the plant says of each"},
    {OPTION_FIRE, "fire", 0, "SHARE", NULL, false, FOR(VERB_FLOW) | FOR(VERB_HEAT) | FOR(VERB_REPORT) | FOR(VERB_SWEEP),
     "share of each boiler's own fire setting, such as \"50 %\"; full by default"},
    {OPTION_NO_TURNDOWN, "no-turndown", 0, NULL, NULL, false, FOR(VERB_FLOW),
     "leave out what happens when the fire is turned down"},
    {OPTION_LIST, "list", 0, FV_REPORT_LISTS, FV_REPORT_LISTS, false, FOR(VERB_CHECK),
     "list what a plant file can name; needs no plant"},
    {OPTION_SET, "set", 0, "ID.ATTRIBUTE=VALUE", NULL, true, PLANT_VERBS | FOR(VERB_SWEEP),
     "try another value without touching the file, such as s6.bore=\"25 mm\" or site.altitude=\"900 m\"; may be given "
     "several times"},
    {OPTION_DO, "do", 0, "WHEN: WHAT HOW", NULL, true, PLANT_VERBS & ~FOR(VERB_FLOW),
     "do something in the course of the run, such as \"bin1 core: v1 25 %\", \"bin1 core + 15 min: bin2 open\" or \"2 "
     "h: "
     "boiler 50 %\"; may be given several times"},
    {OPTION_SAVE, "save", 0, "FILE", NULL, false, PLANT_VERBS,
     "write the plant with the --set and --do changes to FILE; why saves it with the next step, size with the sizes "
     "chosen, "
     "carry with the vessels asked about and their stagger, plan with all that it says"},
    {OPTION_OUTPUT, "output", 'o', "FILE", NULL, false, FOR(VERB_SWEEP),
     "write the rows to FILE; until all are there they stand in FILE.part; by default they go to standard output"},
    {OPTION_OUTPUT, "output", 'o', "FILE", NULL, false, PLANT_VERBS | FOR(VERB_HELP),
     "write the answer to FILE, whole or not at all, instead of standard output, which \"-\" names, too"},
    {OPTION_HELP, "help", 'h', NULL, NULL, false, ALL_VERBS, "this help"},
    {OPTION_VERSION, "version", 0, NULL, NULL, false, ALL_VERBS, "the program's version"},
};

const cli_option *cli_options(size_t *count)
{
    *count = sizeof options / sizeof *options;
    return options;
}
