/* SPDX-License-Identifier: MIT */
/* What can be treated in a week, and who does what when? Batches of one to all places share one boiler; vessels beyond
 * the places fill and cool while others are on the steam; people fill, hang on, light, look, take off and empty when
 * they are there. The answer is a timetable that repeats every week. */
#ifndef FARVESSEL_WEEK_H
#define FARVESSEL_WEEK_H

#include "farvessel/heatup.h"

FV_C_BEGIN

/* One task: how long for how many people. */
typedef struct {
    size_t slots;  /* 0: none */
    size_t people; /* at once */
} fv_week_task;

typedef enum {
    FV_TASK_FILL,
    FV_TASK_HANG_ON,
    FV_TASK_LIGHT,
    FV_TASK_TAKE_OFF,
    FV_TASK_EMPTY,
    FV_TASK_KINDS
} fv_week_what;
const char *fv_week_word(fv_week_what what); /* "fill", "hang on", "light", "take off", "empty" */

/* A batch of so many vessels. */
typedef struct {
    size_t steam;    /* slots from lighting until its last vessel's steam is shut */
    size_t attended; /* slots from lighting through which somebody has to be there; at least 1 */
    size_t cool;     /* slots from then until it may be emptied */
    double kg;       /* treated */
    double fuel;     /* J */
} fv_week_batch;

enum { FV_WEEK_DAYS = 7, FV_WEEK_PLACES_MOST = 8 };

/* The week as whole slots, the same length each; the first is Monday's at midnight. */
typedef struct {
    size_t slots_a_day;
    const size_t *people;   /* who is there, by slot of the week */
    size_t places, vessels; /* vessels of one kind; at least as many as places where they are taken off */
    bool taken_off;         /* a vessel leaves its place hot and cools elsewhere; else it stays until it is emptied */
    fv_week_task task[FV_TASK_KINDS]; /* all but light are for each vessel */
    const fv_week_batch *batch;       /* by size: batch[1] to batch[places] */
} fv_week_problem;

/* One thing that is done: the task's first slot, counted from the week's first. */
typedef struct {
    size_t slot;
    fv_week_what what;
    size_t vessel; /* which; of light: how many */
} fv_week_entry;

typedef enum { FV_WEEK_BY_BOILER, FV_WEEK_BY_PLACES, FV_WEEK_BY_VESSELS, FV_WEEK_BY_CREW } fv_week_limit;
const char *fv_week_limit_word(fv_week_limit limit); /* "boiler", "places", "vessels", "crew" */

typedef struct {
    fv_week_entry *entries; /* by slot */
    size_t entry_count;
    size_t hung, hot, off; /* vessels with which the week begins: hung on, on the steam or hot, taken off */
    double kg, fuel;       /* of one week; J */
    size_t batches;
    double crew_slots;   /* people x slots of work */
    size_t steam_slots;  /* the boiler burns */
    double bound[4];     /* kg: no timetable treats more, by what limits it (fv_week_limit) */
    fv_week_limit limit; /* the least of these bounds */
    size_t order;        /* in which hands go to tasks, for fv_week_search_rest */
    size_t tried;        /* timetables looked at */
    bool every;          /* all choices of batches for all days were looked at */
} fv_week_plan;

/* FV_FAIL: out of memory. Nothing can be treated: kg is 0. */
fv_status fv_week_search(const fv_week_problem *problem, fv_week_plan *plan);
void fv_week_plan_free(fv_week_plan *plan);

/* Where a week stands: a batch is on the steam. Slots from the week's first; `at` before `lit`: on the Monday after. */
typedef struct {
    size_t at, lit, steam,
        cool;       /* now; when it was lit; from then until its last steam is shut; from then until cool */
    size_t vessels; /* of it; 1 to places */
} fv_week_stand;
/* What is left to do from `at` to the week's end, planned anew. Up to `lit` things went as the plan has them, but for
 * the batch that it lights nearest to then: this one was lit instead. */
fv_status fv_week_search_rest(const fv_week_problem *problem, const fv_week_plan *week, const fv_week_stand *stand,
                              fv_week_plan *rest);
/* Which of the plan's batches, from 0, is lit nearest to that slot. */
size_t fv_week_batch_near(const fv_week_plan *week, size_t slot);

/* ---- the week of a plant ---- */

/* A batch of so many vessels, the first on the header, from a cold boiler, by a heat run of its own. */
typedef struct {
    bool works;                        /* every core in time, every hold kept, and it cools down */
    const char *why;                   /* not, in words; NULL where it works */
    double last_core, steam_end, cool; /* s from lighting: last core there, last steam shut, all cooled */
    double kg, fuel, water;            /* treated; J; kg */
    size_t pieces;
} fv_week_run;

/* The batch that is on the steam, as a log of it tells, s: the time, from Monday's midnight; from lighting until then,
 * until its last steam is shut at 50 and 90 %. */
typedef struct {
    double at, burning, steam[2];
    const double *ends; /* the same times, equally likely; for the odds of the rest, which without them has none */
    size_t end_count;
    size_t vessels; /* 0: the week is not planned from its midst */
} fv_week_now;

/* What one more of something would bring. */
typedef enum {
    FV_WEEK_MORE_VESSELS,
    FV_WEEK_MORE_BOILER,
    FV_WEEK_MORE_CREW,
    FV_WEEK_MORE_PEOPLE,
    FV_WEEK_FASTER_COOLING,
    FV_WEEK_MORES
} fv_week_more;
const char *fv_week_more_word(fv_week_more more); /* for programs: "vessel", "boiler", "hour", "person", "cooling" */

typedef struct {
    double slot;    /* s; default 15 min */
    size_t threads; /* 0: as many as there are processors */
    size_t odds;    /* heat runs of each size of batch, a multiple of FV_WEEK_ODDS_STEP; default 0: each as predicted */
    unsigned long seed; /* of these; default 1 */
    fv_week_now now;    /* default: none */
} fv_week_options;
enum { FV_WEEK_ODDS = 128, FV_WEEK_ODDS_STEP = 32 };
void fv_week_defaults(fv_week_options *options);

/* How the batches of one size scatter. */
typedef struct {
    double steam[3]; /* s from lighting until its last steam is shut, at 10, 50 and 90 %; infinite: so many never end */
    double cool[3];  /* s from then until all are cool */
    double ends;     /* share of the runs in which every hold is kept and everything cools down */
} fv_week_spread;

/* Why a week is not kept. */
typedef enum {
    FV_WEEK_SLIP_LIT,   /* the boiler still burns for the batch before when the next should be lit */
    FV_WEEK_SLIP_HOT,   /* a vessel should be taken off while its steam is still on */
    FV_WEEK_SLIP_WARM,  /* a vessel should be emptied and is not cool */
    FV_WEEK_SLIP_ALONE, /* people go home from a batch that wants somebody there */
    FV_WEEK_SLIPS
} fv_week_slip;
const char *fv_week_slip_word(fv_week_slip slip); /* for programs: "lit", "hot", "warm", "alone" */

/* Each batch takes the time that 90 % of the runs keep. What belongs to the plant is the same in all batches of a
 * week; what belongs to the day (air, load) is drawn anew for each. */
typedef struct {
    size_t runs;                 /* of each size; 0: not asked for */
    fv_week_spread *spread;      /* by size, from 1 */
    size_t weeks;                /* gone through with drawn batches, by this timetable */
    double holds, error;         /* share of them in which nothing slipped, of a rest from then on; standard error */
    double slips[FV_WEEK_SLIPS]; /* share of them in which this did */
} fv_week_odds;

typedef struct {
    const fv_plant *plant;
    fv_week_options options;
    fv_week_problem problem;
    size_t *people;       /* the problem's */
    fv_week_batch *batch; /* the problem's, by size */
    fv_week_run *runs;    /* by size, from 1 */
    fv_week_plan plan;    /* of the week; of its rest where that is asked for */
    double usual;         /* kg that the week's own plan lights in that rest */
    double left_alone;    /* s from Monday's midnight: people go home from the batch on the steam; NaN: they do not */
    double work_hours;    /* of people at the tasks, looks included */
    double there_hours;   /* that they are there */
    double gain[FV_WEEK_MORES]; /* kg a week more; NaN: not tried */
    double boiler_output;       /* W, what was tried instead of all boilers' output */
    fv_week_odds odds;
    fv_arena *arena;
} fv_week_answer;
/* NULL: said in faults. Nobody is ever there, or no batch works: the plan treats nothing, and runs[].why tells. */
fv_week_answer *fv_week_answer_run(const fv_plant *plant, const fv_week_options *options, const fv_progress *progress,
                                   fv_faults *faults);
void fv_week_answer_free(fv_week_answer *answer);

FV_C_END

#endif
