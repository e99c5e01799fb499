/* SPDX-License-Identifier: MIT */
/* The best stagger of each number of vessels: the least there is and coarse steps over the length of a batch, followed
 * roughly; the best of them in full; then quarters of an hour around the best of these.
 *
 * What cannot be better than the best so far is not followed: since a core takes at least as long as with ample steam,
 * a late start alone can make the end too late; and a batch is followed only for as long as it can still be better.
 * The stages of the search and what is left out are the same for any number of threads. */
#include "study/carry/parts.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

static const double STEP = 900.0;  /* s */
static const double CLOCK = 300.0; /* s: on the clock people see */
static const double ROUGH = 0.4;   /* fineness at which the coarse steps are followed */
static const double SLACK =
    1.01; /* by which an end that was followed roughly may be too late, or too early: up to 0.15 % seen */
static const double LEAST = 0.95; /* of the time with ample steam: what a core takes at least */
enum { COARSE = 10, FIRST = 4, FINE = 3, AGAIN = 3, SPLITS_MOST = 3, PATTERNS_MOST = SPLITS_MOST + 1 };
enum { STEPS = COARSE + 3 }; /* COARSE of them and the least; the best in full; fine ones */
enum { MOST = PATTERNS_MOST * (COARSE + 1) + AGAIN + 2 * FINE + 1 };

/* The last `late` vessels on the steam, `delay` after the others, or each `delay` after the one before. */
typedef struct {
    size_t late;
    bool one_by_one;
    double delay;
} stagger;

/* One row's search. */
typedef struct {
    fv_carry_row *row;
    fv_arena *arena;
    double opened, span; /* s: the first vessel's opening, started together; the length of that batch */
    double matters;
    size_t unavoidable; /* starved even with ample steam */
    stagger staggers[MOST];
    fv_carry_batch runs[MOST];
    bool rough[MOST];
    size_t count, done; /* staggers; those that have been followed */
} trial;

struct carry_search {
    fv_carry_answer *answer;
    trial *trials; /* by row */
    study_kits *kits;
};

static double on_clock(double time)
{
    return CLOCK * round(time / CLOCK);
}

/* The last start of a stagger. */
static double last_start(const trial *t, const stagger *s)
{
    return on_clock(t->opened + (s->one_by_one ? s->delay * (double)s->late : s->delay));
}

/* Starts of the vessels that wait. */
static void settings_of(const trial *t, const stagger *s, study_settings *settings)
{
    const fv_plant *plant = t->row->plant;
    size_t waits = 0;
    const size_t first = t->row->count - s->late;
    for (size_t i = 0, rank = 0; i < plant->vessel_count; i++) {
        if (fv_word(plant->vessels[i]->phase) == FV_PHASE_SHUT)
            continue;
        if (rank++ < first)
            continue;
        waits++;
        const double delay = s->one_by_one ? s->delay * (double)waits : s->delay;
        study_setting_add(settings, plant->vessels[i]->part.id, "start", on_clock(t->opened + delay));
    }
}

/* ---- what can still be better ---- */

/* s: the end that a batch must beat to be the answer, of those that starve no more than must be; INFINITY: none such
 * is known yet, and fewer starved would do, whenever it ends. */
static double end_to_beat(const trial *t, bool rough)
{
    const fv_carry_batch *together = &t->row->together;
    double end = INFINITY;
    if (together->starved == t->unavoidable && !isnan(together->done))
        end = (1 - t->matters) * together->done;
    for (size_t i = 0; i < t->done; i++)
        if (t->runs[i].ran && t->runs[i].starved == t->unavoidable && !isnan(t->runs[i].done))
            end = fmin(end, t->runs[i].done * (t->rough[i] ? SLACK : 1));
    return end * (rough ? SLACK : 1);
}

/* Whether its last vessel could reach the end of its hold before that. */
static bool can_be_better(const trial *t, const stagger *s, bool rough)
{
    const fv_plant *plant = t->row->plant;
    const double end = end_to_beat(t, rough);
    size_t i = plant->vessel_count;
    while (i > 0 && fv_word(plant->vessels[i - 1]->phase) == FV_PHASE_SHUT)
        i--;
    const double ample = i > 0 ? t->row->together.ample[i - 1] : NAN;
    return isinf(end) || isnan(ample) || last_start(t, s) + LEAST * ample + plant->vessels[i - 1]->hold.v < end;
}

/* s: how long a batch must be followed to know whether it is better. A hold that has not ended by then ends too late.
 */
static double long_enough(const trial *t, const stagger *s, bool rough)
{
    const double end = end_to_beat(t, rough);
    return isinf(end) ? NAN : fmax(end, last_start(t, s)) + CLOCK;
}

/* ---- following them ---- */

static fv_status try_one(const carry_search *all, const study_task *task)
{
    trial *t = &all->trials[task->chain];
    const size_t which = t->done + task->index;
    const stagger *s = &t->staggers[which];
    const bool rough = t->rough[which];
    const carry_how how = {.follow = CARRY_TO_HOLD,
                           .fineness = rough ? ROUGH : 1,
                           .until = long_enough(t, s, rough),
                           .kit = study_kit(all->kits, task->worker)};
    study_settings settings;
    study_settings_open(&settings);
    settings_of(t, s, &settings);
    const fv_status status = settings.failed ? FV_FAIL
                                             : carry_batch(t->row->plant, &settings.change, &all->answer->options, &how,
                                                           task->progress, &t->runs[which]);
    study_settings_free(&settings);
    return status;
}

/* Adds a stagger to be followed, unless it has been, or cannot be better. */
static bool add(trial *t, stagger s, bool rough)
{
    s.delay = fmax(STEP, STEP * round(s.delay / STEP));
    for (size_t i = 0; i < t->count; i++)
        if (t->staggers[i].late == s.late && t->staggers[i].one_by_one == s.one_by_one &&
            t->staggers[i].delay == s.delay && t->rough[i] == rough)
            return true;
    if (t->count == MOST || !can_be_better(t, &s, rough))
        return true;
    if (!carry_room(t->arena, t->row->plant, &t->runs[t->count]))
        return false;
    t->rough[t->count] = rough;
    t->staggers[t->count++] = s;
    return true;
}

/* The fewest that starve with so many starting later, of all that were followed; late 0: with any. */
static size_t fewest(const trial *t, size_t late, bool one_by_one)
{
    size_t least = SIZE_MAX;
    for (size_t i = 0; i < t->done; i++) {
        const bool counts = late == 0 || (t->staggers[i].late == late && t->staggers[i].one_by_one == one_by_one);
        if (counts && t->runs[i].ran && t->runs[i].starved < least)
            least = t->runs[i].starved;
    }
    return least;
}

/* How many start later: those that were added, one, or half of all; or all one by one. `k` of COARSE steps; 0: the
 * least. What starves more than others do after steps all along the batch is given up. */
static bool add_coarse(trial *t, int k, bool all)
{
    const size_t n = t->row->count, added = t->row->added > 0 ? (size_t)t->row->added : 1;
    const double delay = t->span * k / COARSE;
    const stagger patterns[PATTERNS_MOST] = {{added < n ? added : 1, false, delay},
                                             {1, false, delay},
                                             {n / 2 > 0 ? n / 2 : 1, false, delay},
                                             {n - 1, true, delay / (double)(n - 1)}};
    const size_t count = n > 2 ? PATTERNS_MOST : SPLITS_MOST;
    bool good = true;
    for (size_t i = 0; i < count && good; i++) {
        const stagger *s = &patterns[i];
        if (all || fewest(t, s->late, s->one_by_one) <= fewest(t, 0, false))
            good = add(t, *s, true);
    }
    return good;
}

/* The best of those followed roughly, or in full; not one that is in `skip`. -1: none. */
static int best_of(const trial *t, bool rough, const bool *skip)
{
    int best = -1;
    for (size_t i = 0; i < t->done; i++) {
        if (t->rough[i] != rough || !t->runs[i].ran || (skip && skip[i]))
            continue;
        const fv_carry_batch *a = &t->runs[i], *b = best < 0 ? NULL : &t->runs[best];
        const bool equal = b && !carry_is_better(a, b) && !carry_is_better(b, a);
        if (!b || carry_is_better(a, b) || (equal && t->staggers[i].delay < t->staggers[best].delay))
            best = (int)i;
    }
    return best;
}

/* Whether a rough run promises more than all together do. */
static bool promises(const trial *t, const fv_carry_batch *run)
{
    const fv_carry_batch *together = &t->row->together;
    if (run->starved != together->starved || isnan(together->done))
        return carry_is_better(run, together);
    return run->done < SLACK * (1 - t->matters) * together->done;
}

static bool add_again(trial *t)
{
    bool skip[MOST] = {false}, good = true;
    for (int k = 0; k < AGAIN && good; k++) {
        const int best = best_of(t, true, skip);
        if (best < 0 || !promises(t, &t->runs[best]))
            break;
        skip[best] = true;
        good = add(t, t->staggers[best], false);
    }
    return good;
}

static bool add_fine(trial *t)
{
    const int found = best_of(t, false, NULL);
    if (found < 0)
        return true;
    const stagger best = t->staggers[found];
    bool good = true;
    for (int k = -FINE; k <= FINE && good; k++)
        good =
            best.delay + k * STEP < STEP || add(t, (stagger){best.late, best.one_by_one, best.delay + k * STEP}, false);
    return good;
}

/* The coarse ones from the middle outwards, so that one that starves nobody is soon known, FIRST of them all along;
 * then those in full, then the fine ones. */
static bool add_step(trial *t, int step)
{
    static const int order[COARSE + 1] = {5, 3, 7, 2, 4, 1, 6, 8, 9, 10, 0};
    if (step <= COARSE)
        return add_coarse(t, order[step], step < FIRST);
    return step == COARSE + 1 ? add_again(t) : add_fine(t);
}

/* ---- the answer ---- */

/* Fewer starved, or an end that is earlier by enough to be worth the trouble. */
static bool is_worth_it(const trial *t, const fv_carry_batch *run)
{
    const fv_carry_batch *together = &t->row->together;
    if (run->starved != together->starved || isnan(together->done))
        return carry_is_better(run, together);
    return run->done < (1 - t->matters) * together->done;
}

/* The best found; none where together is hardly worse. */
static fv_status choose(trial *t, size_t *jobs)
{
    fv_carry_row *row = t->row;
    const int best = best_of(t, false, NULL);
    if (best < 0 || !is_worth_it(t, &t->runs[best]))
        return FV_OK;
    study_settings settings = {.arena = t->arena};
    const stagger s = t->staggers[best];
    settings_of(t, &s, &settings);
    row->stagger = settings.change;
    row->late = s.late;
    row->one_by_one = s.one_by_one;
    row->delay = s.delay;
    *jobs = 1;
    return settings.failed || !carry_room(t->arena, row->plant, &row->staggered) ? FV_FAIL : FV_OK;
}

static fv_status follow_chosen(const carry_search *all, const study_task *task)
{
    fv_carry_row *row = all->trials[task->chain].row;
    const carry_how how = {
        .follow = CARRY_TO_END, .fineness = 1, .until = NAN, .kit = study_kit(all->kits, task->worker)};
    return carry_batch(row->plant, &row->stagger, &all->answer->options, &how, task->progress, &row->staggered);
}

static void open_trial(trial *t, fv_carry_row *row, const fv_carry_options *options, fv_arena *arena)
{
    const fv_plant *plant = row->plant;
    *t = (trial){.row = row, .arena = arena, .opened = INFINITY, .matters = options->matters};
    row->staggered = row->together;
    for (size_t i = 0; i < plant->vessel_count && row->together.ran; i++) {
        if (row->together.opened[i] < t->opened)
            t->opened = row->together.opened[i];
        if (fv_word(plant->vessels[i]->phase) != FV_PHASE_SHUT)
            t->unavoidable += !(LEAST * row->together.ample[i] <= plant->vessels[i]->within.v);
    }
    t->span = row->together.done - t->opened;
    if (isnan(t->span)) /* one never arrives: as long as all may take */
        t->span = plant->vessels[0]->within.v + plant->vessels[0]->hold.v;
}

carry_search *carry_search_new(fv_carry_answer *answer, study_kits *kits)
{
    carry_search *all = fv_arena_alloc(answer->arena, 1, sizeof *all);
    if (!all)
        return NULL;
    *all = (carry_search){.answer = answer,
                          .trials = fv_arena_alloc(answer->arena, answer->row_count, sizeof *all->trials),
                          .kits = kits};
    return all->trials ? all : NULL;
}

fv_status carry_stagger_prepare(carry_search *search, size_t row, size_t stage, size_t *jobs)
{
    const fv_carry_answer *answer = search->answer;
    trial *t = &search->trials[row];
    if (stage == 0)
        open_trial(t, &answer->rows[row], &answer->options, answer->arena);
    if (!isfinite(t->opened) || t->row->count < 2)
        return FV_OK;
    t->done = t->count;
    if (stage == STEPS)
        return choose(t, jobs);
    const bool good = add_step(t, (int)stage);
    *jobs = t->count - t->done;
    return good ? FV_OK : FV_FAIL;
}

fv_status carry_stagger_job(carry_search *search, const study_task *task)
{
    return task->stage == STEPS ? follow_chosen(search, task) : try_one(search, task);
}
