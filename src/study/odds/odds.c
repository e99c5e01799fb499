/* SPDX-License-Identifier: MIT */
#include "num/quantile.h"
#include "study/odds/parts.h"

#include <stdlib.h>

static const double LATEST_WITHIN = 2, LATEST_NOW = 2; /* times the time allowed, and the time taken now */

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

static bool check_options(const odds_question *q)
{
    const fv_odds_options *o = &q->answer->options;
    if (o->runs >= 64 && o->runs <= 1u << 20 && o->runs % FV_ODDS_SETS == 0)
        return true;
    fv_error(q->faults, FV_ERR_INPUT, q->answer->plant->loc,
             "odds: the number of runs must be a multiple of %d, from 64 to %u", FV_ODDS_SETS, 1u << 20);
    return false;
}

/* ---- the plant as the file has it ---- */

static bool run_now(odds_question *q)
{
    fv_odds_answer *a = q->answer;
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.stop_at_core = true;
    a->now = study_run_somehow(a->plant, &options, q->progress, q->faults);
    if (!a->now || a->now->stopped)
        return false;
    bool open = false;
    double within = 0, last = 0, opened = 0;
    for (size_t i = 0; i < q->vessels; i++) {
        const fv_vessel_history *h = &a->now->vessels[i];
        if (isnan(h->opened))
            continue;
        open = true;
        within = fmax(within, a->plant->vessels[i]->within.v);
        opened = fmax(opened, h->opened);
        last = isnan(h->core) ? NAN : fmax(last, h->core);
    }
    a->last_now = open ? last : NAN;
    a->until = fmax(opened + LATEST_WITHIN * within, isnan(last) ? 0 : LATEST_NOW * last);
    const double reach = isnan(last) || last <= 0 ? a->until : last;
    for (size_t k = 0; k < ODDS_MOMENTS; k++)
        q->moment[k] = 0.5 * reach * ((double)k + 1) / ODDS_MOMENTS;
    if (!open)
        fv_error(q->faults, FV_ERR_INPUT, a->plant->loc,
                 "no vessel gets steam during the run (shut, waiting for what never happens, or no boiler steams)");
    return open;
}

static bool make_room(odds_question *q)
{
    fv_odds_answer *a = q->answer;
    const size_t n = a->options.runs, v = q->vessels, d = q->unknowns.count;
    q->z = fv_arena_alloc(a->arena, n * d + 1, sizeof(double));
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
    return q->z && q->good && q->relief && q->verdict && q->last && q->curve && a->core && a->vessels;
}

/* ---- counting ---- */

/* Values of the good runs, set by set as drawn; whole sets only where none failed. */
static void band_of(const odds_question *q, const double *values, size_t stride, double *work, fv_band *band)
{
    const fv_odds_answer *a = q->answer;
    double *kept = work, *scratch = work + a->runs;
    size_t n = 0;
    for (size_t i = 0; i < a->runs; i++)
        if (q->good[i])
            kept[n++] = values[i * stride];
    const size_t sets = n == a->runs ? FV_ODDS_SETS : 0;
    band->low = num_quantile(kept, NULL, n, 0.1, scratch);
    band->middle = num_quantile(kept, NULL, n, 0.5, scratch);
    band->high = num_quantile(kept, NULL, n, 0.9, scratch);
    band->low_error = num_quantile_error(kept, n, sets, 0.1, scratch);
    band->middle_error = num_quantile_error(kept, n, sets, 0.5, scratch);
    band->high_error = num_quantile_error(kept, n, sets, 0.9, scratch);
}

/* A chance and its standard error from the scatter of the sets. */
static double chance(const odds_question *q, bool (*is)(const odds_question *, size_t run, size_t vessel),
                     size_t vessel, double *error)
{
    const fv_odds_answer *a = q->answer;
    double yes[FV_ODDS_SETS] = {0}, of[FV_ODDS_SETS] = {0}, all = 0, count = 0, scatter = 0;
    for (size_t i = 0; i < a->runs; i++) {
        const size_t set = i / (a->runs / FV_ODDS_SETS);
        if (!q->good[i])
            continue;
        yes[set] += is(q, i, vessel);
        of[set]++;
    }
    for (size_t s = 0; s < FV_ODDS_SETS; s++) {
        all += yes[s];
        count += of[s];
    }
    for (size_t s = 0; s < FV_ODDS_SETS; s++)
        scatter += of[s] > 0 ? pow(yes[s] / of[s] - all / count, 2) : 0;
    if (error)
        *error = sqrt(scatter / (FV_ODDS_SETS * (FV_ODDS_SETS - 1)));
    return all / count;
}

static bool in_time(const odds_question *q, size_t run, size_t vessel)
{
    const unsigned char v = q->verdict[run * q->vessels + vessel];
    return v == FV_FED || v == FV_LAGGING;
}
static bool fed(const odds_question *q, size_t run, size_t vessel)
{
    return q->verdict[run * q->vessels + vessel] == FV_FED;
}
static bool lagging(const odds_question *q, size_t run, size_t vessel)
{
    return q->verdict[run * q->vessels + vessel] == FV_LAGGING;
}
static bool starved(const odds_question *q, size_t run, size_t vessel)
{
    return q->verdict[run * q->vessels + vessel] == FV_STARVED;
}
static bool comes_last(const odds_question *q, size_t run, size_t vessel)
{
    const double *core = q->answer->core + run * q->vessels;
    for (size_t i = 0; i < q->vessels; i++)
        if (q->verdict[run * q->vessels + i] != FV_SHUT_OFF &&
            (core[i] > core[vessel] || (core[i] == core[vessel] && i < vessel)))
            return false;
    return q->verdict[run * q->vessels + vessel] != FV_SHUT_OFF;
}
static bool all_in_time(const odds_question *q, size_t run, size_t vessel)
{
    (void)vessel;
    for (size_t i = 0; i < q->vessels; i++)
        if (starved(q, run, i))
            return false;
    return true;
}
static bool blows(const odds_question *q, size_t run, size_t vessel)
{
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
    if (!check_options(q) || !run_now(q))
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
    fv_odds_answer *a = calloc(1, sizeof *a);
    fv_arena *arena = fv_arena_new();
    if (!a || !arena) {
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
        free(a);
        fv_arena_free(arena);
        return NULL;
    }
    *a = (fv_odds_answer){.plant = plant, .options = *options, .arena = arena};
    odds_question q = {.answer = a, .progress = progress, .faults = faults};
    const bool good = answer_question(&q);
    study_kits_free(&q.kits);
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
    free(answer);
}
