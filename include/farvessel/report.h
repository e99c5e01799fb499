/* SPDX-License-Identifier: MIT */
/* Floor 7: answers to text, JSON and CSV. Nothing is computed here: what is printed stands in the answer, and a number
 * of the text has the same name as in the JSON. Every function only appends to `out`; when memory runs out,
 * `out->failed` is true, FV_FAIL comes back and nothing of `out` should be used. */
#ifndef FARVESSEL_REPORT_H
#define FARVESSEL_REPORT_H

#include "farvessel/assumed.h"
#include "farvessel/base.h"
#include "farvessel/fit.h"
#include "farvessel/forecast.h"
#include "farvessel/carry.h"
#include "farvessel/choices.h"
#include "farvessel/cost.h"
#include "farvessel/heatup.h"
#include "farvessel/log.h"
#include "farvessel/model.h"
#include "farvessel/plan.h"
#include "farvessel/odds.h"
#include "farvessel/overheat.h"
#include "farvessel/print.h"
#include "farvessel/size.h"
#include "farvessel/steady.h"
#include "farvessel/sweep.h"
#include "farvessel/units.h"
#include "farvessel/week.h"
#include "farvessel/why.h"

FV_C_BEGIN

/* Tables that CSV can give. */
#define FV_REPORT_CHECK_TABLES "values|vessels|joints|matters|lids"
#define FV_REPORT_FLOW_TABLES "vessels|lines|boilers|joints|holes|turndown|plant|lids"
#define FV_REPORT_HEAT_TABLES                                                                                          \
    "series|vessels|happenings|split|boilers|lines|firing|plant|thermostats|lids|odds|odds_vessels"
#define FV_REPORT_WHY_TABLES "vessels|shares|pressure|remedies|effects|lids|odds|odds_vessels"
#define FV_REPORT_SIZE_TABLES "choices|sizes|limits|coils|settings|odds|odds_vessels"
#define FV_REPORT_LOG_TABLES "probes|rules|readings"
#define FV_REPORT_FIT_TABLES "vessels|unknowns|probes|instruments|residuals"
#define FV_REPORT_FORECAST_TABLES "vessels"
#define FV_REPORT_ODDS_TABLES "vessels|inputs|places|runs"
#define FV_REPORT_CARRY_TABLES "counts|vessels|holding|ways|odds|odds_vessels"
#define FV_REPORT_PLAN_TABLES "plans|steps|vessels|odds|odds_vessels"

/* `remarks` are the cautions that reader and solver left (may be NULL); errors in it are not repeated. */
fv_status fv_report_check(const fv_check_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                          fv_text *out);
fv_status fv_report_flow(const fv_flow_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out);
fv_status fv_report_heat(const fv_heat_result *result, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out);
fv_status fv_report_why(const fv_why_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                        fv_text *out);
fv_status fv_report_size(const fv_size_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out);
/* options->clock: of the lighting. */
fv_status fv_report_plan(const fv_plan_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out);
fv_status fv_report_carry(const fv_carry_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                          fv_text *out);

/* What answers are to be compared with once what is not known is drawn at random (choices.h): the plant as it is, what
 * was picked, and what comes next, with names. Names are of the list, all else of the answer, which must outlive it. */
typedef struct {
    fv_choice *list;
    size_t count;
    fv_arena *arena;
} fv_choice_list;
/* False: out of memory; nothing is then to be freed. */
bool fv_report_heat_choices(const fv_plant *plant, fv_choice_list *out);
bool fv_report_why_choices(const fv_why_answer *answer, fv_unit_system units, fv_choice_list *out);
bool fv_report_plan_choices(const fv_plan_answer *answer, const fv_report_options *options, fv_choice_list *out);
bool fv_report_size_choices(const fv_size_answer *answer, fv_unit_system units, fv_choice_list *out);
bool fv_report_carry_choices(const fv_carry_answer *answer, fv_choice_list *out);
void fv_choice_list_free(fv_choice_list *list);

#define FV_REPORT_COST_TABLES "items|batches"
fv_status fv_report_cost(const fv_cost_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out);
#define FV_REPORT_WEEK_TABLES "timetable|batches|gains|bounds|spread"
fv_status fv_report_week(const fv_week_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out);
/* The timetable as iCalendar; `monday`: the first week's, "2031-03-17". FV_FAIL: no such Monday, or `out->failed`. */
fv_status fv_report_week_calendar(const fv_week_answer *answer, const char *monday, const fv_report_options *options,
                                  fv_text *out);
fv_status fv_report_odds(const fv_odds_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                         fv_text *out);

fv_status fv_report_log(const fv_log_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                        fv_text *out);

fv_status fv_report_fit(const fv_fit_answer *answer, const fv_faults *remarks, const fv_report_options *options,
                        fv_text *out);
fv_status fv_report_forecast(const fv_forecast_answer *answer, const fv_faults *remarks,
                             const fv_report_options *options, fv_text *out);

/* A sweep as CSV: its heading, and one row after another. */
void fv_report_sweep_heading(const fv_plant *plant, const fv_sweep_axis *axes, size_t axis_count, fv_sweep_ask ask,
                             fv_text *out);
void fv_report_sweep_row(const fv_plant *plant, const fv_sweep_axis *axes, size_t axis_count, fv_sweep_ask ask,
                         const fv_sweep_row *row, fv_text *out);

/* ---- one page for all: HTML that needs nothing else, single drawings as SVG, Markdown for pasting ---- */
typedef enum { FV_PAGE_HTML, FV_PAGE_MARKDOWN } fv_page_format;
#define FV_PAGE_FORMATS "html|md"
#define FV_PAGE_DRAWINGS                                                                                               \
    "drawing|timeline|needs|pressure|holes|vessels|coils|drops|curves|demand|boilers|turndown|heat|remedy|week"
enum { FV_PAGE_WHOLE = -1 };
/* What a drawing shows: the plant at one moment, the run in time, what there is of both, the run
 * and what a why study or a plan proposes, or the week. */
typedef enum { FV_PAGE_OF_MOMENT, FV_PAGE_OF_RUN, FV_PAGE_OF_EITHER, FV_PAGE_OF_REMEDY, FV_PAGE_OF_WEEK } fv_page_time;
fv_page_time fv_page_shows(int only);

/* One change that would help, in words and numbers that a study found. Texts that are not known are NULL. */
typedef struct {
    const char *what;        /* "hose s4: 25 mm bore instead of 19 mm" */
    const char *effect;      /* "bin4: core after 8 h 10 min instead of 14 h 10 min" */
    const char *cost;        /* "3 m of hose, 57 EUR" */
    const char *settings;    /* "--set s4.bore=\"25 mm\"", which tries it */
    const fv_change *change; /* the same */
} fv_page_remedy;

/* ---- a page that is written in ---- */

/* One value that can be written over. Those of one part follow each other. */
typedef struct {
    const char *part, *attribute; /* as for --set: "s1.valve1", "open" */
    const char *group;            /* "hose s1", "valve 1 of s1" */
    const char *typed;            /* as it stands in the plant file; "" where it does not */
    const char *counts;           /* what counts where nothing stands there, and why; NULL */
    const char *words;            /* "with|back", one of which it is; NULL: typed freely */
    const char *doc;
    bool changed; /* in this session */
    bool by_hand; /* turned by hand: a valve, a fire */
} fv_page_field;

typedef struct {
    const char *what;    /* "hose s1: bore 25 mm, in the file 19 mm" */
    const char *setting; /* `--set "s1.bore=25 mm"`; NULL: no option says it */
    const char *alone;   /* "last core 12 min earlier": what it does without the others; NULL: not worked out */
} fv_page_change;

/* Adds what `now` does otherwise than `was`, of plants whose vessels have the same names: "last core 1 h 12 min
 * earlier, costs bench1 12 min; fuel 2 % less". False: out of memory. */
bool fv_page_difference(const fv_heat_result *was, const fv_heat_result *now, fv_text *out);

/* One question on the way to a first plant. Texts that are not there are NULL. */
typedef struct {
    const char *name, *question, *parts, *example, *typed, *wrong;
} fv_page_question;

/* What was asked of the plant in a session, and what can be done about it. */
typedef struct {
    const char *what, *sentence;     /* "why", and its answer */
    const fv_page_remedy *proposals; /* those with settings can be tried */
    size_t proposal_count;
    bool stale; /* the plant was changed since */
} fv_page_asked;

/* A form that reads as a sentence and was refused: its command, and what was typed, by name; all NULL: none was. */
enum { FV_SENTENCE_TYPED = 5 };
typedef struct {
    const char *command;
    const char *names[FV_SENTENCE_TYPED], *typed[FV_SENTENCE_TYPED];
} fv_page_sentence;

/* The session that a page belongs to. */
typedef struct {
    const fv_page_field *fields;
    size_t field_count;
    const fv_page_change *changes;
    size_t change_count;
    bool can_undo, can_redo, unsaved;
    const char *file; /* that Save writes */
    unsigned long version;
    const fv_heat_result *before;     /* of the file as it was found */
    const fv_flow_answer *ghost_flow; /* before the last command; NULL: nothing was done yet */
    const fv_heat_result *ghost;
    const char *wrong;                                      /* why the last request was refused; NULL: it was not */
    const char *wrong_part, *wrong_attribute, *wrong_value; /* where, and what was typed; NULL: nowhere */
    const fv_page_asked *asked;                             /* NULL: nothing was */
    fv_page_sentence sentence;                              /* where, in the same way */
    const char *engine; /* the desk as a script of its own, for a page without a server; NULL: there is one */
    const char *begins; /* what that begins from, as JSON */
    const fv_page_question *questions; /* there is no plant yet: a page that asks for one. NULL: there is */
    size_t question_count;
} fv_page_session;

typedef struct {
    const fv_flow_answer *flow;
    const fv_heat_result *heat;        /* NULL: what needs time is left out */
    const fv_why_answer *why;          /* NULL, or it says why and gives the remedies, in place of the rows below */
    bool remedies_only;                /* `why` was asked for what would help alone: its reasons are not told */
    const fv_plan_answer *plan;        /* what to do and when; NULL: not asked */
    const fv_week_answer *week;        /* NULL: not asked */
    const fv_cost_answer *cost;        /* NULL: not asked */
    const fv_cost_answer *const *pays; /* by remedy of `why`: what it saves; entries may be NULL; NULL: not asked */
    const fv_page_remedy *remedies;    /* the best first */
    size_t remedy_count;
    const char *because;            /* why the worst vessel fares as it does, one or two sentences; NULL: not known */
    const fv_choices_answer *odds;  /* how sure the times are; NULL: not asked */
    const fv_fit_answer *fit;       /* a log, and the plant fitted to it; NULL: none */
    const fv_faults *remarks;       /* may be NULL */
    const char *sha256;             /* of the plant file, in hexadecimal digits; NULL: not known */
    const fv_page_session *session; /* the page is one to write in; NULL: it is a report */
} fv_page_content;

typedef struct {
    fv_page_format format;
    int only; /* FV_PAGE_WHOLE, or one drawing as SVG: its number in FV_PAGE_DRAWINGS */
    fv_unit_system units;
    const char *date;  /* "2031-03-14", printed as the date of the report; NULL: none */
    double clock;      /* s after midnight at which the run starts; NaN: times count from the start */
    bool twelve_hours; /* "6:30 am" */
    bool printed;      /* HTML that goes straight to paper: A4, in US units letter */
    bool sheet;        /* HTML for one sheet of A4 or letter paper, to hang at the boiler */
} fv_page_options;
void fv_page_defaults(fv_page_options *options); /* HTML, whole, metric, no date, no clock */

/* Adds the script of a page with a session, which asks for it as "try.js"; forms go to "do" beside it. */
void fv_page_session_script(fv_text *out);
/* FV_FAIL where `out->failed`, or where `only` asks for curves over time without a heat result. */
fv_status fv_report_page(const fv_page_content *content, const fv_page_options *options, fv_text *out);

FV_C_END

#endif
