/* SPDX-License-Identifier: MIT */
/* odds from question to answer: quasi-random runs of the plant counted into bands (quantiles, with their standard
 * errors) and chances. Times in s after lighting; what is drawn: farvessel/unknowns.h. */
#include "study/odds/parts.h"
#include "study/answer.h"

#include <stdlib.h>

void fv_odds_defaults(fv_odds_options *options)
{
    if (!options)
        return;
    *options = (fv_odds_options){.runs = 512, .seed = 1, .places = 3};
}

static bool out_of_memory(const odds_question *q)
{
    fv_error(q->faults, FV_ERR_SYSTEM, q->answer->plant->loc, "out of memory");
    return false;
}

bool odds_runs_are_good(size_t runs, const fv_plant *plant, fv_faults *faults)
{
    if (runs >= 64 && runs <= 1u << 20 && runs % FV_ODDS_SETS == 0)
        return true;
    fv_error(faults, FV_ERR_INPUT, plant->loc, "odds: the number of runs must be a multiple of %d, from 64 to %u",
             FV_ODDS_SETS, 1u << 20);
    return false;
}

/* ---- the plant as the file has it ---- */

static bool run_now(odds_question *q)
{
    fv_odds_answer *a = q->answer;
    a->now = odds_run_now(a->plant, 1, q->progress, q->faults);
    if (!a->now || a->now->stopped)
        return false;
    const bool open = odds_until(a->now, &a->last_now, &a->until);
    const double reach = isnan(a->last_now) || a->last_now <= 0 ? a->until : a->last_now;
    for (size_t k = 0; k < ODDS_MOMENTS; k++)
        q->moment[k] = 0.5 * reach * ((double)k + 1) / ODDS_MOMENTS;
    if (!open)
        odds_say_no_steam(a->plant, q->faults);
    return open;
}

static bool make_room(odds_question *q)
{
    fv_odds_answer *a = q->answer;
    const size_t n = a->options.runs, v = q->vessels, d = q->unknowns.count;
    q->z = fv_arena_alloc(a->arena, n * d + 1, sizeof(double));
    q->ran = fv_arena_alloc(a->arena, n, sizeof(bool));
    q->good = fv_arena_alloc(a->arena, n, sizeof(bool));
    q->relief = fv_arena_alloc(a->arena, n, sizeof(bool));
    q->verdict = fv_arena_alloc(a->arena, n * v + 1, 1);
    q->last = fv_arena_alloc(a->arena, n, sizeof(double));
    q->curve = fv_arena_alloc(a->arena, n * v * 2 * ODDS_MOMENTS + 1, sizeof(double));
    a->core = fv_arena_alloc(a->arena, n * v + 1, sizeof(double));
    a->vessels = fv_arena_alloc(a->arena, v + 1, sizeof *a->vessels);
    for (size_t i = 0; i < v && a->vessels; i++)
        if (!(a->vessels[i].share = fv_arena_alloc(a->arena, d + 1, sizeof(double))))
            return false;
    return q->z && q->ran && q->good && q->relief && q->verdict && q->last && q->curve && a->core && a->vessels;
}

/* ---- counting ---- */

static void band_of(const odds_question *q, const double *values, size_t stride, double *work, fv_band *band)
{
    odds_band(values, stride, q->good, q->answer->runs, work, band);
}

static double chance(const odds_question *q, odds_is *is, size_t vessel, double *error)
{
    return odds_chance(is, q, vessel, q->good, q->answer->runs, error);
}

static bool in_time(const void *of, size_t run, size_t vessel)
{
    const odds_question *q = of;
    const unsigned char v = q->verdict[run * q->vessels + vessel];
    return v == FV_FED || v == FV_LAGGING;
}
static bool fed(const void *of, size_t run, size_t vessel)
{
    const odds_question *q = of;
    return q->verdict[run * q->vessels + vessel] == FV_FED;
}
static bool lagging(const void *of, size_t run, size_t vessel)
{
    const odds_question *q = of;
    return q->verdict[run * q->vessels + vessel] == FV_LAGGING;
}
static bool starved(const void *of, size_t run, size_t vessel)
{
    const odds_question *q = of;
    return q->verdict[run * q->vessels + vessel] == FV_STARVED;
}
static bool comes_last(const void *of, size_t run, size_t vessel)
{
    const odds_question *q = of;
    const double *core = q->answer->core + run * q->vessels;
    for (size_t i = 0; i < q->vessels; i++)
        if (q->verdict[run * q->vessels + i] != FV_SHUT_OFF &&
            (core[i] > core[vessel] || (core[i] == core[vessel] && i < vessel)))
            return false;
    return q->verdict[run * q->vessels + vessel] != FV_SHUT_OFF;
}
static bool all_in_time(const void *of, size_t run, size_t vessel)
{
    const odds_question *q = of;
    (void)vessel;
    for (size_t i = 0; i < q->vessels; i++)
        if (starved(q, run, i))
            return false;
    return true;
}
static bool blows(const void *of, size_t run, size_t vessel)
{
    const odds_question *q = of;
    (void)vessel;
    return q->relief[run];
}

static bool count(odds_question *q)
{
    fv_odds_answer *a = q->answer;
    double *work = malloc(3 * a->runs * sizeof *work), *last = malloc(a->runs * sizeof *last);
    if (!work || !last) {
        free(work);
        free(last);
        return out_of_memory(q);
    }
    for (size_t i = 0; i < a->runs; i++) {
        last[i] = q->last[i];
        if (q->good[i] && q->last[i] >= a->until) {
            last[i] = INFINITY;
            a->never++;
        }
    }
    band_of(q, last, 1, work, &a->last);
    for (size_t i = 0; i < q->vessels; i++) {
        fv_odds_vessel *v = &a->vessels[i];
        v->now = a->now->vessels[i].core;
        band_of(q, a->core + i, q->vessels, work, &v->core);
        v->within = chance(q, in_time, i, &v->within_error);
        v->verdict[FV_FED] = chance(q, fed, i, NULL);
        v->verdict[FV_LAGGING] = chance(q, lagging, i, NULL);
        v->verdict[FV_STARVED] = chance(q, starved, i, NULL);
        v->last = chance(q, comes_last, i, NULL);
    }
    a->all_within = chance(q, all_in_time, 0, &a->all_within_error);
    a->over_relief = chance(q, blows, 0, NULL);
    free(work);
    free(last);
    return true;
}

static bool answer_question(odds_question *q)
{
    fv_odds_answer *a = q->answer;
    q->vessels = a->plant->vessel_count;
    if (!odds_runs_are_good(a->options.runs, a->plant, q->faults) || !run_now(q))
        return false;
    if (study_unknowns_find(a->plant, a->now->at_first_steam, a->arena, &q->unknowns) == FV_FAIL)
        return out_of_memory(q);
    a->unknowns = q->unknowns.list;
    a->unknown_count = q->unknowns.count;
    if (q->unknowns.count == 0) {
        fv_error(q->faults, FV_ERR_INPUT, a->plant->loc, "nothing in this plant is uncertain; there are no odds");
        return false;
    }
    if (!make_room(q))
        return out_of_memory(q);
    return odds_run_sample(q) && count(q) && odds_weigh_inputs(q) && odds_place_probes(q);
}

fv_odds_answer *fv_odds_run(const fv_plant *plant, const fv_odds_options *options, const fv_progress *progress,
                            fv_faults *faults)
{
    if (!plant || !options) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_arena *arena;
    fv_odds_answer *a = study_answer_new(sizeof *a, plant->loc, &arena, faults);
    if (!a)
        return NULL;
    *a = (fv_odds_answer){.plant = plant, .options = *options, .arena = arena};
    odds_question q = {.answer = a, .progress = progress, .faults = faults};
    const bool good = answer_question(&q);
    study_caches_free(&q.caches);
    if (good)
        return a;
    fv_odds_free(a);
    return NULL;
}

void fv_odds_free(fv_odds_answer *answer)
{
    if (!answer)
        return;
    fv_heat_free(answer->now);
    fv_arena_free(answer->arena);
}
