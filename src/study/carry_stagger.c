/* SPDX-License-Identifier: MIT */
/* The best stagger: coarse steps over the length of a batch first, then quarters of an hour around the best. */
#include "study/carry_parts.h"

#include <math.h>
#include <stdlib.h>

static const double STEP = 900.0;  /* s */
static const double CLOCK = 300.0; /* s: on the clock people see */
enum { COARSE = 10, FINE = 3, SPLITS_MOST = 3, PATTERNS_MOST = SPLITS_MOST + 1 };

/* The last `late` vessels on the steam, `delay` after the others, or each `delay` after the one before. */
typedef struct {
    size_t late;
    bool one_by_one;
    double delay;
} stagger;

typedef struct {
    const fv_carry_row *row;
    const fv_carry_options *options;
    fv_arena *arena;
    double opened; /* s: the first vessel's, started together */
    stagger *staggers;
    fv_carry_run *runs;
    size_t count;
} trial;

static double on_clock(double time)
{
    return CLOCK * round(time / CLOCK);
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

static fv_status try_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const trial *t = context;
    study_settings settings;
    (void)worker;
    study_settings_open(&settings);
    settings_of(t, &t->staggers[index], &settings);
    const fv_status status =
        settings.failed ? FV_FAIL
                        : carry_batch(t->row->plant, &settings.change, t->options, false, progress, &t->runs[index]);
    study_settings_free(&settings);
    return status;
}

static bool add(trial *t, size_t most, stagger s)
{
    s.delay = fmax(STEP, STEP * round(s.delay / STEP));
    for (size_t i = 0; i < t->count; i++)
        if (t->staggers[i].late == s.late && t->staggers[i].one_by_one == s.one_by_one &&
            t->staggers[i].delay == s.delay)
            return true;
    if (t->count == most || !carry_room(t->arena, t->row->plant, &t->runs[t->count]))
        return t->count == most;
    t->staggers[t->count++] = s;
    return true;
}

static size_t best_of(const trial *t)
{
    size_t best = 0;
    for (size_t i = 1; i < t->count; i++) {
        const fv_carry_run *a = &t->runs[i], *b = &t->runs[best];
        const bool equal = !carry_is_better(a, b) && !carry_is_better(b, a);
        if (carry_is_better(a, b) || (equal && t->staggers[i].delay < t->staggers[best].delay))
            best = i;
    }
    return best;
}

/* How many start later: those that were added, one, or half of all. */
static bool add_coarse(trial *t, size_t most, double span)
{
    const size_t n = t->row->count, added = t->row->added > 0 ? (size_t)t->row->added : 1;
    const size_t splits[SPLITS_MOST] = {added < n ? added : 1, 1, n / 2 > 0 ? n / 2 : 1};
    bool good = true;
    for (size_t i = 0; i < SPLITS_MOST; i++)
        for (int k = 1; k <= COARSE && good; k++)
            good = add(t, most, (stagger){splits[i], false, span * k / COARSE});
    for (int k = 1; k <= COARSE && good && n > 2; k++)
        good = add(t, most, (stagger){n - 1, true, span * k / (double)(COARSE * (n - 1))});
    return good;
}

static bool add_fine(trial *t, size_t most)
{
    const stagger best = t->staggers[best_of(t)];
    bool good = true;
    for (int k = -FINE; k <= FINE && good; k++)
        good =
            best.delay + k * STEP < STEP || add(t, most, (stagger){best.late, best.one_by_one, best.delay + k * STEP});
    return good;
}

static study_outcome try_all(trial *t, size_t from, const study_plan *plan)
{
    trial part = *t;
    part.staggers += from;
    part.runs += from;
    return study_run(plan, t->count - from, try_one, &part);
}

/* Fewer starved, or an end that is earlier by enough to be worth the trouble. */
static bool is_worth_it(const fv_carry_run *staggered, const fv_carry_run *together, double matters)
{
    if (staggered->starved != together->starved || isnan(together->done))
        return carry_is_better(staggered, together);
    return staggered->ran && staggered->done < (1 - matters) * together->done;
}

/* The best found, in full; together where that is hardly worse. */
static fv_status settle(trial *t, fv_carry_row *row)
{
    const size_t best = best_of(t);
    study_settings settings = {.arena = t->arena};
    const stagger s = t->staggers[best];
    if (!is_worth_it(&t->runs[best], &row->together, t->options->matters))
        return FV_OK;
    settings_of(t, &s, &settings);
    row->stagger = settings.change;
    row->late = s.late;
    row->one_by_one = s.one_by_one;
    if (settings.failed || !carry_room(t->arena, row->plant, &row->staggered))
        return FV_FAIL;
    row->delay = s.delay;
    return carry_batch(row->plant, &row->stagger, t->options, true, NULL, &row->staggered);
}

fv_status carry_stagger(fv_carry_row *row, const fv_carry_options *options, fv_arena *arena, const study_plan *plan,
                        bool *stopped)
{
    enum { MOST = PATTERNS_MOST * COARSE + 2 * FINE + 1 };
    trial t = {.row = row, .options = options, .arena = arena, .opened = INFINITY};
    row->staggered = row->together;
    for (size_t i = 0; i < row->plant->vessel_count && row->together.ran; i++)
        if (row->together.opened[i] < t.opened)
            t.opened = row->together.opened[i];
    if (row->count < 2 || !isfinite(t.opened))
        return FV_OK;
    t.staggers = fv_arena_alloc(arena, MOST, sizeof *t.staggers);
    t.runs = fv_arena_alloc(arena, MOST, sizeof *t.runs);
    if (!t.staggers || !t.runs)
        return FV_FAIL;
    double span = row->together.done - t.opened;
    if (isnan(span)) /* one never arrives: as long as all may take */
        span = row->plant->vessels[0]->within.v + row->plant->vessels[0]->hold.v;
    const double middle = plan->from + 0.8 * (plan->to - plan->from);
    study_plan coarse = *plan, fine = *plan;
    coarse.to = fine.from = middle;
    study_outcome outcome = add_coarse(&t, MOST, span) ? try_all(&t, 0, &coarse) : STUDY_FAILED;
    const size_t tried = t.count;
    if (outcome == STUDY_DONE)
        outcome = add_fine(&t, MOST) ? try_all(&t, tried, &fine) : STUDY_FAILED;
    *stopped = outcome == STUDY_STOPPED;
    return outcome == STUDY_DONE ? settle(&t, row) : FV_FAIL;
}
