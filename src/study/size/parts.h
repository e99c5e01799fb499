/* SPDX-License-Identifier: MIT */
/* The pieces of the search for sizes: what can be chosen, what a choice costs, which limits it keeps, how the search
 * goes, which choices are shown. */
#ifndef STUDY_SIZE_PARTS_H
#define STUDY_SIZE_PARTS_H

#include "farvessel/size.h"
#include "study/advise.h"
#include "study/schedule.h"
#include "study/remedies.h"

/* ---- space.c: what can be chosen ---- */

/* Bit by fv_size_part: what both the plant has and the stock list (or the ladder of usual numbers) offers. */
unsigned size_possible(const fv_plant *plant);
/* What options->vary asks for, or the usual where it asks for nothing; 0: nothing can be varied, said in faults. */
unsigned size_wanted(const fv_plant *plant, const fv_size_options *options, fv_faults *faults);
/* Lists the dimensions in the answer's arena. */
fv_status size_space(fv_size_answer *answer, fv_faults *faults);
/* Adds the answer's works as the last dimension. False: out of memory. */
bool size_add_works(fv_size_answer *answer);
/* How many of them a choice does. */
size_t size_works_of(const fv_size_answer *answer, const int *choice);
/* Whether a size is another than now; small work is none. */
bool size_is_changed(const fv_size_answer *answer, const int *choice);
/* The settings of a choice. `settings->failed`: out of memory, or it cannot be expressed. */
void size_settings(const fv_size_answer *answer, const int *choice, study_settings *settings);
/* What a dimension's parts have in common in this plant; NaN where they differ. */
double size_common(const fv_plant *plant, const fv_size_dimension *dimension);
static inline bool size_is_of_lines(fv_size_part part)
{
    return part == FV_SIZE_HOSE || part == FV_SIZE_HEADER;
}

/* ---- cost.c ---- */

/* What has to be bought: new hoses and headers by the metre; a new coil where its bore changes or holes would have to
 * close; a drill bit for each size that no coil has now. *unpriced: how many of these have no price. NaN: none has. */
double size_cost(const fv_plant *plant, const fv_plant *changed, size_t *unpriced);
/* Whether the stock list has a price for anything that these parts would need. */
bool size_has_prices(const fv_plant *plant, unsigned vary);

/* ---- judge.c: one choice at one moment, all vessels heating, valves as they are ---- */

typedef struct {
    const fv_plant *plant;
    const fv_size_limits *limits;
    const fv_size_check *now; /* of the plant as it is; NULL: it is being judged itself */
} size_basis;

typedef enum {
    SIZE_NEW,
    SIZE_UNFIT,    /* holes that do not fit, and the like */
    SIZE_UNSOLVED, /* no solution was found */
    SIZE_JUDGED
} size_state;

typedef struct {
    const int *choice;        /* by dimension */
    size_t dimensions, index; /* in the pool */
    size_state state;
    double cost;
    size_t unpriced;
    fv_size_check checks[FV_LIMITS];
    size_t broken; /* limits, among them those that the plant breaks as much already */
    bool seen[2];  /* followed in time, with valves and starts as they are, and with the best hands */
} size_candidate;

/* FV_FAIL: out of memory only. `areas`: by vessel, or NULL. */
fv_status size_judge(const size_basis *basis, const fv_change *change, size_candidate *candidate, fv_size_area *areas);
/* Pressure in the worst vessel when all steam is sent to it, Pa; NaN: no solution. FV_FAIL: out of memory only. */
fv_status size_vent_pressure(const fv_plant *plant, double *most, int *vessel);
void size_check_vent(const fv_size_limits *limits, double pressure, int vessel, fv_size_check *check);
/* A limit that is broken counts as kept where the plant breaks it as much already. */
void size_allow(const fv_size_check *now, fv_size_check *check);
bool size_keeps(const fv_size_check *checks);

/* ---- follow.c: one choice in time ---- */

typedef enum { SIZE_AS_DESIGNED, SIZE_CLOGGED, SIZE_HALF_FIRE } size_manner;
/* To the end of the holds. FV_FAIL: out of memory or stopped. A plant that cannot be followed gives figures->ran =
 * false. */
fv_status size_follow(const fv_plant *plant, const fv_change *change, size_manner manner, fv_heat_cache *cache,
                      const fv_progress *progress, fv_size_figures *figures);
/* Fills the checks that need a run: fed and spread. */
void size_check_run(const fv_size_limits *limits, const fv_size_figures *figures, fv_size_check *checks);

/* ---- pool.c: all choices met so far ---- */

typedef struct {
    const fv_size_answer *answer; /* dimensions and options */
    size_basis basis;
    fv_size_check now[FV_LIMITS];
    fv_arena *arena;
    size_candidate **list; /* the first: the plant as it is */
    size_t count, capacity;
    void *by_choice; /* the same, as a tree */
    const study_work *work;
} size_pool;

bool size_pool_open(size_pool *pool, const fv_size_answer *answer, const study_work *work);
void size_pool_close(size_pool *pool);
/* The candidate of a choice, added where it is new; SIZE_MAX: out of memory. */
size_t size_pool_find(size_pool *pool, const int *choice);
/* Judges those of `which` that have not been. */
study_ending size_pool_judge(size_pool *pool, const size_t *which, size_t count);
static inline bool size_is_out(const size_candidate *c)
{
    return c->state != SIZE_JUDGED || !size_keeps(c->checks);
}

/* ---- search.c, works.c ---- */

/* A choice with what hands do. */
typedef struct {
    size_t candidate;
    const int *point; /* by knob of the handling */
    study_scored score;
} size_solution;

typedef struct {
    fv_size_answer *answer;
    size_pool pool;
    study_adviser adviser;
    study_work work;
    study_objective objective;
    const int *none;     /* hands do nothing */
    const int *hands;    /* the best that they do with the plant as it is */
    size_solution *list; /* the first: the plant as it is, at full fineness */
    size_t count, capacity;
} size_question;

/* Finds the small work that gains by itself, and adds it as a dimension. */
study_ending size_find_works(size_question *question);
/* Goes through the choices; the list then holds what may be shown. */
study_ending size_search(size_question *question);
/* Settings and actions of a solution. */
void size_solution_settings(const size_question *question, const size_solution *solution, study_settings *settings);

/* ---- front.c: what is worth showing ---- */

/* Sorts the list after its first by money and work and leaves only what gains over all that is cheaper, `most` at the
 * most. */
void size_front(size_question *question, size_t most);
/* Index of the answer in such a list. */
size_t size_front_best(const size_question *question);

/* ---- rows.c ---- */

/* Works the solutions of the list out in full as rows of the answer. */
study_ending size_make_rows(size_question *question);

#endif
