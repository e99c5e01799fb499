/* SPDX-License-Identifier: MIT */
/* The pieces of the search for sizes: what can be chosen, what a choice costs, how it is judged, how the search goes.
 */
#ifndef STUDY_SIZE_PARTS_H
#define STUDY_SIZE_PARTS_H

#include "farvessel/size.h"
#include "study/parallel.h"
#include "study/settings.h"

/* ---- size_space.c: what can be chosen ---- */

/* Bit by fv_size_part: what both the plant has and the stock list (or the ladder of usual numbers) offers. */
unsigned size_possible(const fv_plant *plant);
/* What options->vary asks for, or the usual where it asks for nothing; 0: nothing can be varied, said in faults. */
unsigned size_wanted(const fv_plant *plant, const fv_size_options *options, fv_faults *faults);
/* Lists the dimensions in the answer's arena. */
fv_status size_space(fv_size_answer *answer, fv_faults *faults);
/* The settings of a choice. `settings->failed`: out of memory, or it cannot be expressed. */
void size_settings(const fv_size_answer *answer, const size_t *choice, study_settings *settings);
/* The value that a dimension has in a choice: NaN, as it is. */
static inline double size_value(const fv_size_answer *answer, size_t dimension, const size_t *choice)
{
    return answer->dimensions[dimension].values[choice[dimension]];
}
/* What a dimension's parts have in common in this plant; NaN where they differ. */
double size_common(const fv_plant *plant, const fv_size_dimension *dimension);
/* Does this dimension vary the coil of vessel i, or line i? */
bool size_concerns(const fv_plant *plant, const fv_size_dimension *dimension, size_t i);
static inline bool size_is_of_lines(fv_size_part part)
{
    return part == FV_SIZE_HOSE || part == FV_SIZE_HEADER;
}

/* ---- size_cost.c ---- */

/* What has to be bought: new hoses and headers by the metre; a new coil where its bore changes or holes would have to
 * close; a drill bit for each size that no coil has now. *unpriced: how many of these have no price. NaN: none has. */
double size_cost(const fv_plant *plant, const fv_plant *changed, size_t *unpriced);
/* Whether the stock list has a price for anything that these parts would need. */
bool size_has_prices(const fv_plant *plant, unsigned vary);

/* ---- size_judge.c: one choice at one moment ---- */

/* What holds for all choices: what the vessels must take up, and the pressures that their vents have now. */
typedef struct {
    const fv_plant *plant;
    const fv_size_limits *limits;
    fv_vessel_need *needs; /* by vessel */
    double vent_now;       /* Pa */
} size_basis;

typedef enum {
    SIZE_NEW,
    SIZE_UNFIT,    /* holes that do not fit, and the like */
    SIZE_UNSOLVED, /* no solution was found */
    SIZE_JUDGED
} size_state;

typedef struct {
    size_t *choice;
    size_state state;
    double slow, sum; /* s: predicted from the shares of steam: slowest vessel, all vessels together; INFINITY */
    double ratio;     /* predicted slowest / fastest */
    double late;      /* predicted time / allowed time, where it is largest */
    double excess;    /* sum of what breaks the limits of one moment */
    double cost;
    size_t unpriced;
    fv_size_check checks[FV_LIMITS];
    bool followed; /* `run` holds */
    fv_size_figures run;
} size_candidate;

/* At one moment, all vessels heating. FV_FAIL: out of memory only. `areas`: by vessel, or NULL. */
fv_status size_judge(const size_basis *basis, const fv_change *change, size_candidate *candidate, fv_size_area *areas);
/* Pressure in the worst vessel when all steam is sent to it, Pa; NaN: no solution. FV_FAIL: out of memory only. */
fv_status size_vent_pressure(const fv_plant *plant, double *most, int *vessel);
void size_check_vent(const size_basis *basis, double pressure, int vessel, fv_size_check *check);

/* ---- size_follow.c: one choice in time ---- */

typedef enum { SIZE_AS_DESIGNED, SIZE_CLOGGED, SIZE_HALF_FIRE } size_manner;
/* FV_FAIL: out of memory or stopped. A plant that cannot be followed gives figures->ran = false. */
fv_status size_follow(const fv_plant *plant, const fv_change *change, size_manner manner, bool to_the_end,
                      fv_heat_kit *kit, const fv_progress *progress, fv_size_figures *figures);
void size_figures_read(const fv_heat_result *result, fv_size_figures *figures);
/* Fills the checks that need a run: fed and spread. */
void size_check_run(const fv_size_limits *limits, const fv_size_figures *figures, fv_size_check *checks);
bool size_keeps(const fv_size_check *checks);
double size_excess(const fv_size_check *checks);

/* ---- size_pool.c: all candidates met so far ---- */

typedef struct {
    const fv_size_answer *answer; /* dimensions and options */
    size_basis basis;
    fv_arena *arena;
    size_candidate **list;
    size_t count, capacity;
    size_t *table, table_size; /* open addressing: index + 1 */
    size_t judged, followed;   /* so far */
    bool to_the_end;           /* runs go on to the end of the hold, for their fuel */
    study_kits kits;
    const fv_progress *progress;
    double from, to; /* share of the user's progress that the search takes, moved on as it goes */
    bool stopped, failed;
} size_pool;

bool size_pool_open(size_pool *pool, const fv_size_answer *answer, fv_faults *faults);
void size_pool_close(size_pool *pool);
/* The candidate of a choice, added where it is new; SIZE_MAX: out of memory. */
size_t size_pool_find(size_pool *pool, const size_t *choice);
/* Judges, or follows, those of `which` that have not been. False: stopped or failed. */
bool size_pool_judge(size_pool *pool, const size_t *which, size_t count);
bool size_pool_follow(size_pool *pool, const size_t *which, size_t count);

/* ---- size_search.c ---- */

/* -1, 0, 1: which is better for the goal, by prediction, and by the run. Never 0 for different choices. */
int size_compare_judged(const size_candidate *a, const size_candidate *b, fv_size_goal goal, size_t dimensions);
int size_compare_followed(const size_candidate *a, const size_candidate *b, fv_size_goal goal, size_t dimensions);
/* Goes through the choices; afterwards the pool holds what was tried. Index 0 is the plant as it is. */
bool size_search(size_pool *pool, fv_size_answer *answer);

/* ---- size_rows.c ---- */

/* Chooses the rows of the answer from the pool and works them out in full. */
fv_status size_make_rows(size_pool *pool, fv_size_answer *answer, fv_faults *faults);

#endif
