/* SPDX-License-Identifier: MIT */
/* Two levels: what belongs to the plant (a coefficient, a bore) is drawn once for several days, what belongs to the day
 * (air, load) for each of them. So a week of one plant has batches that differ from day to day about times that are the
 * plant's own, and the chance that it holds is not that of independent batches. */
#include "study/week/scatter.h"

#include "num/distribution.h"
#include "num/quantile.h"
#include "num/sample.h"
#include "study/ensemble.h"
#include "study/week/batches.h"

#include <math.h>
#include <stdlib.h>

enum { DAYS = 4, WEEKS = 1024 };
/* Steps twice as long as usual: far below what is not known. */
static const double COARSE = 0.5;
static const double SHARES[] = {0.1, 0.5, 0.9};

typedef struct {
    week_times *times; /* of this batch */
    const fv_work *work;
} taker;

static void take(void *context, size_t run, const fv_heat_result *result)
{
    const taker *t = context;
    week_times *to = &t->times[run];
    double core = 0, cool = 0;
    *to = (week_times){INFINITY, INFINITY, INFINITY};
    if (!result)
        return;
    for (size_t i = 0; i < result->plant->vessel_count; i++) {
        const fv_vessel_history *h = &result->vessels[i];
        if (h->verdict == FV_SHUT_OFF)
            continue;
        if (isnan(h->hold))
            return;
        core = fmax(core, h->core);
        const double empty = week_free_at(result->plant->vessels[i], h);
        cool = fmax(cool, isnan(empty) ? INFINITY : empty);
    }
    const fv_week_run as_run = {.last_core = core, .steam_end = result->steam_end};
    *to = (week_times){result->steam_end, week_attended(t->work, &as_run), cool - result->steam_end};
}

static bool draw_normals(const fv_week_answer *a, const study_unknowns *unknowns, size_t plants, double *z)
{
    const size_t n = unknowns->count, runs = plants * DAYS;
    double *plant = malloc((plants * n + 1) * sizeof *plant);
    const bool good = plant && num_sample_normal(plants, n, 1, a->options.seed, plant) == FV_OK &&
                      num_sample_normal(runs, n, 1, a->options.seed + 1, z) == FV_OK;
    for (size_t r = 0; good && r < runs; r++)
        for (size_t j = 0; j < n; j++)
            if (!unknowns->list[j].of_day)
                z[r * n + j] = plant[r / DAYS * n + j];
    free(plant);
    return good;
}

static bool find_unknowns(const fv_week_answer *a, study_unknowns *unknowns, const fv_progress *progress,
                          fv_faults *faults)
{
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.stop_at_core = true;
    fv_heat_result *now = study_run_somehow(a->plant, &options, progress, faults);
    const bool good =
        now && !now->stopped && study_unknowns_find(a->plant, now->at_first_steam, a->arena, unknowns) == FV_OK;
    fv_heat_free(now);
    return good;
}

static void sum_up(const week_sample *sample, size_t size, double *work, fv_week_spread *spread)
{
    const size_t n = sample->plants * sample->days;
    const week_times *times = sample->times + (size - 1) * n;
    double ends = 0;
    for (size_t i = 0; i < n; i++) {
        work[i] = times[i].steam;
        ends += isfinite(times[i].steam + times[i].cool);
    }
    for (size_t k = 0; k < 3; k++)
        spread->steam[k] = num_quantile(work, NULL, n, SHARES[k], work + n);
    for (size_t i = 0; i < n; i++)
        work[i] = times[i].cool;
    for (size_t k = 0; k < 3; k++)
        spread->cool[k] = num_quantile(work, NULL, n, SHARES[k], work + n);
    spread->ends = ends / (double)n;
}

/* One batch, drawn. */
static study_ending run_batch(const fv_week_answer *a, size_t batch, const study_unknowns *unknowns, const double *z,
                              const study_work *work, const week_sample *sample, fv_faults *faults)
{
    const size_t runs = sample->plants * sample->days;
    taker t = {.times = sample->times + (batch - 1) * runs, .work = &a->plant->work};
    fv_plant *plant = week_batch_plant(a, a->plant, batch, faults);
    study_ensemble e = {.plant = plant, .unknowns = unknowns, .z = z, .count = runs, .take = take, .context = &t};
    fv_heat_defaults(&e.options);
    e.options.fineness = COARSE;
    e.options.every = 0;
    const study_ending outcome = plant ? study_ensemble_run(&e, work) : STUDY_FAILED;
    fv_plant_free(plant);
    return outcome;
}

study_ending week_sample_draw(fv_week_answer *a, const study_work *work, week_sample *sample, fv_faults *faults)
{
    const size_t runs = a->options.odds, sizes = fv_week_batches(&a->problem);
    study_unknowns unknowns = {0};
    *sample = (week_sample){.plants = runs / DAYS, .days = DAYS, .sizes = sizes};
    if (!find_unknowns(a, &unknowns, work->progress, faults))
        return fv_faults_errors(faults) > 0 ? STUDY_FAILED : STUDY_STOPPED;
    sample->times = fv_arena_alloc(a->arena, runs * sizes, sizeof *sample->times);
    a->odds.spread = fv_arena_alloc(a->arena, sizes + 1, sizeof *a->odds.spread);
    double *z = malloc((runs * unknowns.count + 1) * sizeof *z), *scratch = malloc(3 * runs * sizeof *scratch);
    study_ending outcome =
        sample->times && a->odds.spread && z && scratch && draw_normals(a, &unknowns, sample->plants, z) ? STUDY_DONE
                                                                                                         : STUDY_FAILED;
    study_work part = *work;
    for (size_t k = 1; k <= sizes && outcome == STUDY_DONE; k++) {
        part.from = work->from + (work->to - work->from) * (double)(k - 1) / (double)sizes;
        part.to = work->from + (work->to - work->from) * (double)k / (double)sizes;
        outcome = run_batch(a, k, &unknowns, z, &part, sample, faults);
        if (outcome == STUDY_DONE)
            sum_up(sample, k, scratch, &a->odds.spread[k]);
    }
    free(z);
    free(scratch);
    a->odds.runs = outcome == STUDY_DONE ? runs : 0;
    return outcome;
}

/* ---- weeks ---- */

static size_t batches_of(const fv_week_plan *plan, unsigned char *sizes)
{
    size_t count = 0;
    for (size_t i = 0; i < plan->entry_count; i++)
        if (plan->entries[i].what == FV_TASK_LIGHT)
            sizes[count++] = (unsigned char)plan->entries[i].vessel;
    return count;
}

/* One of n that are equally likely. */
static size_t pick(double normal, size_t n)
{
    return (size_t)fmin(floor(num_normal_share(normal) * (double)n), (double)n - 1);
}

static week_times batch_of(const week_sample *sample, size_t size, size_t plant, double day)
{
    return sample->times[((size - 1u) * sample->plants + plant) * sample->days + pick(day, sample->days)];
}

/* The batch on the steam ends as the log predicts, and cools as one like it. normals: 2. */
static unsigned set_on_steam(const fv_week_answer *a, const week_sample *sample, size_t plant, const double *normals,
                             week_replay *replay)
{
    const fv_week_now *now = &a->options.now;
    week_times batch = batch_of(sample, a->now, plant, normals[0]);
    batch.steam = now->ends[pick(normals[1], now->end_count)];
    const double share = week_attended_share(&a->plant->work, &a->runs[a->now]);
    batch.attended = share > 0 ? batch.steam * share : 0; /* its end may never come */
    const unsigned slips = week_replay_on_steam(replay, a->now, now->at - now->burning, now->at, &batch);
    return isnan(a->left_alone) ? slips : 0; /* else somebody is told to stay */
}

/* The weeks of one plant, one after another; the first one, with nothing on the steam before, does not count. Of the
 * rest of a week each begins anew. days: `stride` a week. False: out of memory. */
static bool go_through(fv_week_answer *a, const week_sample *sample, size_t plant, const unsigned char *sizes,
                       size_t batches, const double *days, size_t stride, week_times *times, double *held)
{
    const week_timetable timetable = {&a->problem, &a->plan, a->options.slot};
    const size_t weeks = (WEEKS + sample->plants - 1) / sample->plants;
    const bool rest = a->now > 0;
    week_replay *replay = week_replay_new(&timetable);
    for (size_t w = 0; w <= weeks && replay; w++, days += stride) {
        unsigned slips = rest ? set_on_steam(a, sample, plant, days + batches, replay) : 0;
        for (size_t b = 0; b < batches; b++)
            times[b] = batch_of(sample, sizes[b], plant, days[b]);
        slips |= week_replay_next(replay, times);
        if (rest) {
            week_replay_free(replay);
            replay = week_replay_new(&timetable);
        }
        if (w == 0)
            continue;
        a->odds.weeks++;
        *held += slips == 0;
        for (unsigned k = 0; k < FV_WEEK_SLIPS; k++)
            a->odds.slips[k] += slips >> k & 1u;
    }
    *held /= (double)weeks;
    week_replay_free(replay);
    return replay != NULL;
}

/* Mean over plants, and its standard error from their scatter. */
static void average(fv_week_odds *odds, const double *held, size_t plants)
{
    double scatter = 0;
    for (size_t p = 0; p < plants; p++)
        odds->holds += held[p] / (double)plants;
    for (size_t p = 0; p < plants; p++)
        scatter += pow(held[p] - odds->holds, 2);
    odds->error = sqrt(scatter / (double)(plants * (plants - 1)));
    for (size_t k = 0; k < FV_WEEK_SLIPS; k++)
        odds->slips[k] /= (double)odds->weeks;
}

fv_status week_sample_replay(fv_week_answer *a, const week_sample *sample)
{
    enum { ON_STEAM = 2 }; /* normals that its batch takes */
    const size_t entries = a->plan.entry_count + 1 + ON_STEAM;
    const size_t weeks = (WEEKS + sample->plants - 1) / sample->plants + 1;
    unsigned char *sizes = malloc(entries);
    double *days = malloc(weeks * entries * sizeof *days), *held = calloc(sample->plants, sizeof *held);
    week_times *times = malloc(entries * sizeof *times);
    bool good = sizes && days && held && times;
    const size_t batches = good ? batches_of(&a->plan, sizes) : 0;
    const bool rest = a->now > 0 && a->plan.entry_count > 0; /* else nothing is left that could slip */
    const size_t stride = batches + (rest ? ON_STEAM : 0);
    for (size_t p = 0; p < sample->plants && good && stride > 0; p++)
        good = num_sample_independent(weeks * stride, a->options.seed + 2 + p, days) == FV_OK &&
               go_through(a, sample, p, sizes, batches, days, stride, times, &held[p]);
    if (good && stride > 0)
        average(&a->odds, held, sample->plants);
    free(sizes);
    free(days);
    free(held);
    free(times);
    return good ? FV_OK : FV_FAIL;
}

double week_margin_steam(const fv_week_answer *a, size_t size)
{
    return a->odds.runs > 0 && a->runs[size].works ? a->odds.spread[size].steam[2] / a->runs[size].steam_end : 1;
}

double week_margin_cool(const fv_week_answer *a, size_t size)
{
    const double cool = a->runs[size].cool - a->runs[size].steam_end;
    return a->odds.runs > 0 && a->runs[size].works && cool > 0 ? a->odds.spread[size].cool[2] / cool : 1;
}
