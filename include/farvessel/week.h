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

/* Vessels that are alike take turns on places of their own. */
typedef struct {
    size_t places, vessels; /* at least as many vessels as places where they are taken off */
} fv_week_kind;
enum { FV_WEEK_DAYS = 7, FV_WEEK_PLACES_MOST = 8, FV_WEEK_KINDS_MOST = FV_WEEK_PLACES_MOST };

/* Vessels that are on the steam together. */
typedef struct {
    size_t of[FV_WEEK_KINDS_MOST]; /* so many of each kind; where there are no kinds batch[k] is of k */
    size_t steam;                  /* slots from lighting until its last vessel's steam is shut */
    size_t attended;               /* slots from lighting through which somebody has to be there; at least 1 */
    size_t cool;                   /* slots from then until it may be emptied */
    double kg;                     /* treated */
    double fuel;                   /* J */
} fv_week_batch;

/* The week as whole slots, the same length each; the first is Monday's at midnight. */
typedef struct {
    size_t slots_a_day;
    const size_t *people;   /* who is there, by slot of the week */
    size_t places, vessels; /* of all kinds */
    size_t kind_count;      /* 0: all vessels are alike */
    fv_week_kind kinds[FV_WEEK_KINDS_MOST];
    size_t batch_count; /* of kinds: which vessels may go together; batch[1] to batch[batch_count] */
    bool taken_off;     /* a vessel leaves its place hot and cools elsewhere; else it stays until it is emptied */
    fv_week_task task[FV_TASK_KINDS]; /* all but light are for each vessel */
    const fv_week_batch *batch;       /* where there are no kinds by size: batch[1] to batch[places] */
} fv_week_problem;
size_t fv_week_batches(const fv_week_problem *problem);
size_t fv_week_batch_vessels(const fv_week_problem *problem, size_t batch);
/* Vessels are numbered by kind: those of the first come first. */
size_t fv_week_kind_of(const fv_week_problem *problem, size_t vessel);

/* One thing that is done: the task's first slot, counted from the week's first. */
typedef struct {
    size_t slot;
    fv_week_what what;
    size_t vessel; /* which; of light: which batch */
} fv_week_entry;

typedef enum { FV_WEEK_BY_BOILER, FV_WEEK_BY_PLACES, FV_WEEK_BY_VESSELS, FV_WEEK_BY_CREW } fv_week_limit;
const char *fv_week_limit_word(fv_week_limit limit); /* "boiler", "places", "vessels", "crew" */

typedef struct {
    fv_week_entry *entries; /* by slot */
    size_t entry_count;
    /* Vessels of each kind with which the week begins: hung on, on the steam or hot, taken off. */
    size_t hung[FV_WEEK_KINDS_MOST], hot[FV_WEEK_KINDS_MOST], off[FV_WEEK_KINDS_MOST];
    double kg, fuel; /* of one week; J */
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
        cool;     /* now; when it was lit; from then until its last steam is shut; from then until cool */
    size_t batch; /* which */
} fv_week_stand;
/* What is left to do from `at` to the week's end, planned anew. Up to `lit` things went as the plan has them, but for
 * the batch that it lights nearest to then: this one was lit instead. */
fv_status fv_week_search_rest(const fv_week_problem *problem, const fv_week_plan *week, const fv_week_stand *stand,
                              fv_week_plan *rest);
/* Which of the plan's batches, from 0, is lit nearest to that slot. */
size_t fv_week_batch_near(const fv_week_plan *week, size_t slot);

/* ---- the week of a plant ---- */

/* Which vessels are alike, by what decides how long they take and what they treat: kind_of[i], from 0, for each vessel
 * on the header. How many kinds there are; 0: more vessels than FV_WEEK_PLACES_MOST. */
size_t fv_week_kinds(const fv_plant *plant, size_t kind_of[FV_WEEK_PLACES_MOST]);

/* One batch, by the first vessels of each kind, from a cold boiler, by a heat run of its own. */
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
    unsigned on; /* bits of the plant's vessels that are on it; 0: the week is not planned from its midst */
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
    double slot;        /* s; default 15 min */
    size_t threads;     /* 0: as many as there are processors */
    size_t odds;        /* heat runs of each batch, a multiple of FV_WEEK_ODDS_STEP; default 0: each as predicted */
    unsigned long seed; /* of these; default 1 */
    fv_week_now now;    /* default: none */
} fv_week_options;
enum { FV_WEEK_ODDS = 128, FV_WEEK_ODDS_STEP = 32 };
void fv_week_defaults(fv_week_options *options);

/* How one batch scatters. */
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
    fv_week_spread *spread;      /* by batch, from 1 */
    size_t weeks;                /* gone through with drawn batches, by this timetable */
    double holds, error;         /* share of them in which nothing slipped, of a rest from then on; standard error */
    double slips[FV_WEEK_SLIPS]; /* share of them in which this did */
} fv_week_odds;

typedef struct {
    const fv_plant *plant;
    fv_week_options options;
    fv_week_problem problem;
    size_t *people;                      /* the problem's */
    fv_week_batch *batch;                /* the problem's */
    fv_week_run *runs;                   /* the same batches */
    size_t kind_of[FV_WEEK_PLACES_MOST]; /* of each vessel on the header */
    bool chosen; /* not all batches that could be were followed, but those of whole kinds, or of few or nearly all */
    size_t now;  /* the batch on the steam; 0: none */
    fv_week_plan plan;  /* of the week; of its rest where that is asked for */
    double usual;       /* kg that the week's own plan lights in that rest */
    double left_alone;  /* s from Monday's midnight: people go home from the batch on the steam; NaN: they do not */
    double work_hours;  /* of people at the tasks, looks included */
    double there_hours; /* that they are there */
    double gain[FV_WEEK_MORES]; /* kg a week more; NaN: not tried */
    size_t more_kind;           /* of the vessel that brings most */
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
