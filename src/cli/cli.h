/* SPDX-License-Identifier: MIT */
/* Floor 11: the command line. One table of verbs and one of options drive parser and help. */
#ifndef CLI_CLI_H
#define CLI_CLI_H

#include "farvessel/base.h"
#include "farvessel/datafile.h"
#include "farvessel/desk.h"
#include "farvessel/fit.h"
#include "farvessel/lid.h"
#include "farvessel/model.h"
#include "farvessel/report.h"

#include "cli/sheet.h"

#include <stdio.h>
#include <time.h>

/* What the shell gets. */
typedef enum {
    CLI_GOOD = 0,
    CLI_INPUT = 2,    /* bad plant file or bad usage; nothing was written */
    CLI_UNSOLVED = 3, /* the physics allows no solution, or none was found */
    CLI_SYSTEM = 4    /* no memory, a file that cannot be read or written */
} cli_exit;

#define CLI_EXIT_CODES                                                                                                 \
    "0 good; 2 bad input or usage; 3 no solution; 4 system (memory, files). On any but 0 nothing is written to "       \
    "standard output or to a file."
enum { CLI_PAGE_SIZE = 96 };

typedef enum {
    VERB_NEW,
    VERB_TRY,
    VERB_CHECK,
    VERB_FLOW,
    VERB_HEAT,
    VERB_WHY,
    VERB_SIZE,
    VERB_CARRY,
    VERB_PLAN,
    VERB_WEEK,
    VERB_COST,
    VERB_SWEEP,
    VERB_ODDS,
    VERB_LOG,
    VERB_FIT,
    VERB_FORECAST,
    VERB_REPORT,
    VERB_HELP,
    VERB_COUNT
} cli_verb_id;

typedef enum {
    OPTION_FORMAT,
    OPTION_UNITS,
    OPTION_TABLE,
    OPTION_BRIEF,
    OPTION_CAUTIONS,
    OPTION_SERIES,
    OPTION_NO_RANKING,
    OPTION_OUTPUT,
    OPTION_SET,
    OPTION_DO,
    OPTION_SAVE,
    OPTION_FIRE,
    OPTION_PHASE,
    OPTION_NO_TURNDOWN,
    OPTION_LIST,
    OPTION_WATCH,
    OPTION_ONLY,
    OPTION_START,
    OPTION_BY,
    OPTION_NO_BUY,
    OPTION_WAGE,
    OPTION_PLANS,
    OPTION_UNTIL,
    OPTION_EVERY,
    OPTION_DATE,
    OPTION_NO_RUN,
    OPTION_WHY,
    OPTION_PLAN,
    OPTION_WEEK,
    OPTION_SHEET,
    OPTION_LIVE,
    OPTION_NEW,
    OPTION_VARY,
    OPTION_EACH,
    OPTION_FOR,
    OPTION_SPREAD,
    OPTION_EVENNESS,
    OPTION_HOLE_AREA,
    OPTION_BOILER_SHARE,
    OPTION_VELOCITY,
    OPTION_AGAINST_CONDENSATE,
    OPTION_COIL_VELOCITY,
    OPTION_LID_PRESSURE,
    OPTION_NO_HANDS,
    OPTION_LIKE,
    OPTION_AT,
    OPTION_MORE,
    OPTION_FEWER,
    OPTION_TURNAROUND,
    OPTION_NO_OTHERS,
    OPTION_THREADS,
    OPTION_VESSEL,
    OPTION_ASK,
    OPTION_RANDOM,
    OPTION_SEED,
    OPTION_PART,
    OPTION_RESUME,
    OPTION_GRID,
    OPTION_BOILER,
    OPTION_HEADER,
    OPTION_VESSELS,
    OPTION_HOSE,
    OPTION_COIL,
    OPTION_LOAD,
    OPTION_WALLS,
    OPTION_TITLE,
    OPTION_PORT,
    OPTION_OPEN,
    OPTION_DEFAULTS,
    OPTION_SPEND,
    OPTION_BATCHES,
    OPTION_YEARS,
    OPTION_MONDAY,
    OPTION_NO_REMEDIES,
    OPTION_RUNS,
    OPTION_ODDS,
    OPTION_PLANT,
    OPTION_LOG,
    OPTION_LIT,
    OPTION_NOW,
    OPTION_DID,
    OPTION_THEN,
    OPTION_FOLLOW,
    OPTION_DATES,
    OPTION_UNIT,
    OPTION_CLOCK,
    OPTION_TIMES,
    OPTION_INTERVAL,
    OPTION_TARGET,
    OPTION_HOLD,
    OPTION_REFERENCE,
    OPTION_Z,
    OPTION_EXACT,
    OPTION_HELP,
    OPTION_VERSION,
    OPTION_COUNT
} cli_option_id;

typedef struct {
    cli_option_id id;
    const char *name;     /* without the dashes */
    char letter;          /* short form, or 0 */
    const char *argument; /* what follows it, as help shows it; NULL: nothing */
    const char *words;    /* the words allowed, "a|b|c", or NULL */
    bool repeats;
    unsigned verbs; /* bit for each cli_verb_id it belongs to */
    const char *doc;
} cli_option;

typedef struct cli_request cli_request;
typedef struct {
    const char *name;
    const char *operand;  /* "PLANT.xml" or what else it takes; "" */
    const char *question; /* that it answers, one line */
    const char *example;
} cli_verb;

/* helper.c: a child that becomes another program once it is sent something. child 0: there is none. */
enum { CLI_NO_SUCH_PROGRAM = 127 }; /* its exit code, as of a shell */
typedef struct {
    pid_t child;
    int in;
} cli_helper;
void cli_helper_start(cli_helper *helper, void (*become)(void));
/* All that it gets, after which its input ends. False: there is none. */
bool cli_helper_send(const cli_helper *helper, const char *bytes, size_t length);

struct cli_request {
    const cli_verb *verb;
    const char *operand;
    const char *value[OPTION_COUNT]; /* NULL: not given; "" for options without argument */
    const char **settings;           /* of --set, in order */
    size_t setting_count, setting_capacity;
    const char **varied; /* of sweep's --vary, in order */
    size_t varied_count, varied_capacity;
    const char **actions; /* of --do, in order */
    size_t action_count, action_capacity;
    const char **did, **then; /* of --did and --then, in order */
    size_t did_count, did_capacity, then_count, then_capacity;
    cli_helper helper; /* the pager, or the browser of --format pdf */
};

extern const cli_verb cli_verbs[VERB_COUNT];
const cli_option *cli_options(size_t *count);

const cli_verb *cli_find_verb(const char *name);           /* NULL: there is none */
cli_exit cli_unknown_verb(const char *word, bool of_help); /* says so; of_help: after `farvessel help` */

/* Reads the arguments. CLI_INPUT: usage is wrong and has been said on stderr. Free the request in any case. */
cli_exit cli_parse(int argc, char **argv, cli_request *request);
void cli_request_free(cli_request *request);
/* In which units a plant is answered for: --units, else what it says of itself. `plant` NULL: nothing. */
fv_unit_system cli_units(const cli_request *request, const fv_plant *plant);
/* --format, --units and --table of the request. */
fv_report_options cli_report_options(const cli_request *request);

/* Help for one verb, or for all where verb is NULL; `topics` says what else there is. */
void cli_help(const cli_verb *verb, void (*topics)(const cli_sheet *sheet), const cli_sheet *sheet);
/* What else `farvessel help` tells, as a text or by a function; a row without a name ends it. */
typedef struct {
    const char *name, *page; /* "farvessel-" goes before the page */
    int section;             /* of the manual; 0: no page */
    const char *doc;
    void (*write)(const cli_sheet *sheet);
    const char *text;
} cli_topic;
extern const cli_topic cli_topics[];
/* Completion for bash, zsh and fish, of the verbs and of these topics of help. */
void cli_completion(const cli_topic *topics, fv_text *out);
void cli_completion_zsh(const cli_topic *topics, fv_text *out);
void cli_completion_fish(const cli_topic *topics, fv_text *out);
void cli_topic_write(const cli_topic *topic, const cli_sheet *sheet);
void cli_topics_say(const cli_sheet *sheet); /* what each tells */

/* One line on stderr: "farvessel: ...". Returns CLI_INPUT. */
cli_exit cli_usage(const char *fmt, ...) FV_PRINTF(1, 2);
/* The same for a system that failed us. */
cli_exit cli_failed(const char *fmt, ...) FV_PRINTF(1, 2);
cli_exit cli_no_memory(void); /* says so */
/* Says all faults on stderr; the exit code that the worst asks for, CLI_GOOD where there is no error. */
cli_exit cli_say_faults(const fv_faults *faults);

/* The plant with the --set changes, linked and checked, and the SHA-256 of the very bytes that were read. NULL: said in
 * faults. */
enum { CLI_DIGEST_SIZE = 65 };
fv_plant *cli_load(const cli_request *request, char digest[CLI_DIGEST_SIZE], fv_faults *faults);

/* ---- values of options; left alone where they are not given. CLI_INPUT: said on stderr. ---- */

cli_exit cli_read_fire(const cli_request *request, double *fire);
/* --start as s after midnight, and whether it was said with am or pm; --by likewise. */
cli_exit cli_read_start(const cli_request *request, double *clock, bool *twelve_hours);
/* --at of a week, s from Monday's midnight; clock: its part that is the time of day. */
cli_exit cli_read_day_time(const cli_request *request, double *seconds, const char **clock);
cli_exit cli_read_by(const cli_request *request, double *clock, bool *twelve_hours);
cli_exit cli_read_positive(const cli_request *request, cli_option_id option, fv_dim dim, double *value);
cli_exit cli_read_count(const cli_request *request, cli_option_id option, size_t most, size_t *count);
/* What is said beside a logger's file: --dates, --unit, --clock, --times, --interval. */
cli_exit cli_read_datafile(const cli_request *request, fv_datafile_options *options);
/* What fit and forecast take beside a plant. */
cli_exit cli_read_fit(const cli_request *request, fv_fit_options *options, fv_datafile_options *file);
/* SHA-256 of a file. False: said in faults. */
bool cli_digest(const char *path, char digest[CLI_DIGEST_SIZE], fv_faults *faults);
/* A whole number; *value is left alone where the option is not given. */
cli_exit cli_read_whole(const cli_request *request, cli_option_id option, double least, double most, double *value);
/* --threads, --seed, and --runs of odds, a multiple of FV_ODDS_SETS: left alone where they are not given. */
cli_exit cli_read_threads(const cli_request *request, size_t *threads);
cli_exit cli_read_seed(const cli_request *request, unsigned long *seed);
cli_exit cli_read_runs(const cli_request *request, size_t *runs);

/* Files that -o and --save name; NULL: none, the answer goes to standard output. CLI_INPUT, said: what is read would be
 * overwritten, or one by the other. */
typedef struct {
    const char *output, *save;
} cli_target;
cli_exit cli_targets(const cli_request *request, cli_target *target);
/* Where standard output is a terminal the helper is made a pager; it is used, and true, where the terminal is shorter
 * than the answer. */
void cli_page_prepare(cli_helper *helper);
bool cli_page(const cli_helper *helper, const fv_text *answer);
/* From here on the process reaches no network and starts no program, and writes files only in the folders of those
 * named and in a folder (each may be NULL). Says nothing where the kernel has no such fences. */
void cli_fence(const char *const *targets, size_t count, const char *folder);
/* The answer, and again each time the file of that path was saved, until Ctrl-C or until nobody reads it. */
typedef cli_exit (*cli_again)(const cli_request *request, const void *question);
bool cli_repeats(const cli_request *request); /* answers follow one another */
cli_exit cli_watch(const cli_request *request, const char *path, cli_again answer, const void *question);
/* All of the answer into an open file; a reader that closes early is no failure. */
cli_exit cli_send(int fd, const fv_text *answer);
/* The answer, whole, to -o or to standard output, and the plant that --save asks for: both or neither. */
cli_exit cli_deliver(const cli_request *request, const fv_plant *plant, fv_text *answer);

/* Between begin and end: progress where stderr is a terminal. */
typedef struct {
    fv_progress progress;
    bool shown;
    struct timespec began;
} cli_work;
void cli_work_begin(cli_work *work);
void cli_work_end(const cli_work *work);
/* The same progress, which Ctrl-C stops: what has been found until then is an answer. From here on
 * signals wait, until cli_signals_end. */
fv_progress cli_stoppable(const fv_progress *shown);
/* On Ctrl-C a word that nothing was written, before it ends the process; plainly end it; wait while files are
 * written. */
void cli_signals_say(void);
void cli_signals_keep(void);     /* the same word of a sweep, whose rows so far stay */
void cli_signals_end_well(void); /* nothing is said, and the code is 0 */
void cli_signals_plain(void);
void cli_signals_hold(void);
void cli_signals_release(void);
bool cli_signals_came(void);         /* while they wait */
void cli_signals_end(bool answered); /* releases them; those that an answer has served are forgotten */

/* ---- verbs on a plant ---- */

typedef struct {
    const cli_request *request;
    const fv_plant *plant;
    const fv_logfile *log; /* of a verb that reads --log beside the plant */
    char digest[CLI_DIGEST_SIZE];
    const fv_progress *progress;
    fv_faults *faults;
    fv_report_options report;
    fv_text text;            /* the answer */
    fv_plant *saved;         /* what --save writes; NULL: the plant itself */
    fv_choices_options odds; /* what --odds asks, where it is given: */
    fv_choice_list choices;  /* choices that a verb lists, */
    fv_lid_answer *lids;     /* of cli_lids */
    fv_choices_answer *sure; /* and how sure it is of them */
} cli_job;
/* Fills in the text, and what is saved where the verb changes the plant. False: the faults say why. */
typedef bool (*cli_answer)(cli_job *job, void *question);
cli_exit cli_run(const cli_request *request, cli_answer answer, void *question);
/* The same of a verb that takes --odds: it lists choices into the job and compares them. */
cli_exit cli_run_sure(const cli_request *request, cli_answer answer, void *question);
/* The same of a verb that reads --log beside the plant, `file` being what is said of it. */
cli_exit cli_run_log(const cli_request *request, const fv_datafile_options *file, cli_answer answer, void *question);
/* What openings must pass at the worst, among the remarks and for the report. False: out of memory, said. */
bool cli_lids(cli_job *job);
bool cli_lid_remarks(cli_job *job);     /* the same among the remarks alone */
bool cli_saves(const cli_job *job);     /* --save is given */
bool cli_asks_odds(const cli_job *job); /* --odds is given */
/* --odds of the request, --runs and --seed beside it, into the job. */
cli_exit cli_read_odds(const cli_request *request, fv_choices_options *options);
/* Compares the job's choices, and puts what comes of it into the report. `listed` is false where there was no memory
 * for the list. False: said in the job's faults. */
bool cli_compare(cli_job *job, bool listed);
/* Which assumptions matter most, for the report; *found is NULL where the answer does not show them, or that is not
 * known. False: out of memory, said in the job's faults. */
bool cli_assumed(const cli_job *job, fv_assumed_answer **found);

/* ---- live.c ---- */

/* The desk of a plant file with the --set changes on it. NULL: said in `faults`. */
fv_desk *cli_desk(const cli_request *request, const char *bytes, size_t length, const fv_desk_options *options,
                  fv_faults *faults);
/* `report --live`. */
cli_exit cli_live(const cli_request *request, const fv_page_options *page);

/* The HTML page becomes a PDF. False: faults say why, and `page` is of no use. */
void cli_pdf_prepare(cli_helper *helper);
bool cli_make_pdf(const cli_helper *browser, fv_text *page, fv_faults *faults);
const char *cli_pdf_folder(void); /* in which it is made */
bool cli_is_pdf(const fv_text *answer);

cli_exit cli_new(const cli_request *request);
cli_exit cli_try(const cli_request *request);
cli_exit cli_check(const cli_request *request);
cli_exit cli_flow(const cli_request *request);
cli_exit cli_heat(const cli_request *request);
cli_exit cli_why(const cli_request *request);
cli_exit cli_size(const cli_request *request);
cli_exit cli_carry(const cli_request *request);
cli_exit cli_plan(const cli_request *request);
cli_exit cli_cost(const cli_request *request);
cli_exit cli_week(const cli_request *request);
cli_exit cli_sweep(const cli_request *request);
cli_exit cli_odds(const cli_request *request);
cli_exit cli_log(const cli_request *request);
cli_exit cli_fit(const cli_request *request);
cli_exit cli_forecast(const cli_request *request);
cli_exit cli_report(const cli_request *request);
cli_exit cli_help_verb(const cli_request *request);
cli_exit cli_version(const cli_request *request);

/* ---- payoffs.c ---- */
typedef struct {
    fv_plant *plant; /* with the remedy */
    fv_cost_answer *answer;
} cli_payoff;
typedef struct {
    fv_cost_answer *cost; /* of a batch; NULL: the plant has no prices */
    cli_payoff *list;     /* by remedy of the why study */
    const fv_cost_answer **answers;
    size_t count;
} cli_payoffs;
/* `why` and `week` may be NULL. False: said in the job's faults, or out of memory. Free it in any case. */
bool cli_payoffs_find(const cli_job *job, const fv_why_answer *why, const fv_week_answer *week, cli_payoffs *payoffs);
void cli_payoffs_free(cli_payoffs *payoffs);

#endif
