/* SPDX-License-Identifier: MIT */
/* The same draws for several choices. A draw is a point in all unknowns of all choices together, told apart by what
 * they set; each choice takes those that it has. */
#include "farvessel/choices.h"
#include "num/sample.h"
#include "study/odds/parts.h"
#include "study/answer.h"

#include <stdlib.h>
#include <string.h>

typedef struct {
    fv_plant *plant; /* with the change */
    fv_heat_result *now;
    study_unknowns unknowns;
    size_t *column; /* of the draws, by unknown */
    double *core;   /* runs x vessels, s; infinite: never */
    double *last;   /* by run, s; `until` where one never arrives */
    bool *good;     /* by run */
} candidate;

typedef struct {
    fv_choices_answer *answer;
    const fv_choice *choices;
    const fv_progress *progress;
    fv_faults *faults;
    study_caches caches;
    candidate *of;
    size_t count;
    const fv_unknown **all; /* of all choices */
    size_t all_count;
    double until;
    double *z; /* runs x all */
} comparing;

void fv_choices_defaults(fv_choices_options *options)
{
    if (!options)
        return;
    *options = (fv_choices_options){.runs = 128, .seed = 1, .fire = 1};
}

static fv_status out_of_memory(const comparing *c)
{
    return fv_error(c->faults, FV_ERR_SYSTEM, c->choices[0].plant->loc, "out of memory");
}

/* ---- the choices, and what is not known of them ---- */

static size_t column_of(comparing *c, const fv_unknown *u)
{
    for (size_t i = 0; i < c->all_count; i++)
        if (strcmp(c->all[i]->path, u->path) == 0 && strcmp(c->all[i]->attribute, u->attribute) == 0)
            return i;
    c->all[c->all_count] = u;
    return c->all_count++;
}

static bool make_columns(comparing *c, candidate *to)
{
    fv_arena *arena = c->answer->arena;
    const fv_unknown **all = fv_arena_alloc(arena, c->all_count + to->unknowns.count + 1, sizeof(fv_unknown *));
    to->column = fv_arena_alloc(arena, to->unknowns.count + 1, sizeof *to->column);
    if (!all || !to->column)
        return false;
    for (size_t i = 0; i < c->all_count; i++)
        all[i] = c->all[i];
    c->all = all;
    for (size_t i = 0; i < to->unknowns.count; i++)
        to->column[i] = column_of(c, &to->unknowns.list[i]);
    return true;
}

static fv_status prepare(comparing *c, size_t i)
{
    const fv_choice *choice = &c->choices[i];
    candidate *to = &c->of[i];
    fv_arena *arena = c->answer->arena;
    const fv_change none = {0};
    const size_t n = c->answer->options.runs, v = choice->plant->vessel_count;
    double last, until;
    to->plant = fv_change_copy(choice->change ? choice->change : &none, choice->plant, c->faults);
    to->now = to->plant ? odds_run_now(to->plant, c->answer->options.fire, c->progress, c->faults) : NULL;
    if (!to->now || to->now->stopped)
        return FV_FAIL;
    if (!odds_until(to->now, &last, &until)) {
        odds_say_no_steam(choice->plant, c->faults);
        return FV_FAIL;
    }
    c->until = fmax(c->until, until);
    c->answer->rows[i].now = last;
    to->core = fv_arena_alloc(arena, n * v + 1, sizeof *to->core);
    to->last = fv_arena_alloc(arena, n, sizeof *to->last);
    to->good = fv_arena_alloc(arena, n, sizeof *to->good);
    if (study_unknowns_find(to->plant, to->now->at_first_steam, arena, &to->unknowns) == FV_FAIL || !to->core ||
        !to->last || !to->good || !make_columns(c, to))
        return out_of_memory(c);
    return FV_OK;
}

/* ---- runs ---- */

typedef struct {
    const comparing *c;
    candidate *of;
} taking;

static void take(void *context, size_t run, const fv_heat_result *result)
{
    const taking *t = context;
    t->of->good[run] = result != NULL;
    t->of->last[run] = result ? odds_last(result, t->c->until) : NAN;
    for (size_t i = 0; result && i < result->vessel_count; i++)
        t->of->core[run * result->vessel_count + i] =
            isnan(result->vessels[i].core) ? INFINITY : result->vessels[i].core;
}

static study_ending run(comparing *c, size_t i)
{
    const fv_choices_options *o = &c->answer->options;
    candidate *of = &c->of[i];
    const size_t d = of->unknowns.count;
    taking t = {c, of};
    double *z = malloc((o->runs * d + 1) * sizeof *z);
    if (!z) {
        out_of_memory(c);
        return STUDY_FAILED;
    }
    for (size_t r = 0; r < o->runs; r++)
        for (size_t k = 0; k < d; k++)
            z[r * d + k] = c->z[r * c->all_count + of->column[k]];
    study_ensemble e = odds_ensemble(of->plant, &of->unknowns, z, o->runs, c->until);
    e.options.fire = o->fire;
    e.take = take;
    e.context = &t;
    const study_work plan = {.threads = o->threads,
                             .progress = c->progress,
                             .from = 0.02 + 0.98 * (double)i / (double)c->count,
                             .to = 0.02 + 0.98 * (double)(i + 1) / (double)c->count,
                             .what = "each choice with what is not known drawn at random",
                             .caches = &c->caches};
    const study_ending outcome = study_ensemble_run(&e, &plan);
    free(z);
    if (outcome == STUDY_FAILED)
        out_of_memory(c);
    return outcome;
}

/* ---- counting ---- */

typedef struct {
    const candidate *of;
    size_t vessels;
} counting;

static bool in_time(const void *of, size_t run, size_t vessel)
{
    const counting *c = of;
    const fv_vessel_history *h = &c->of->now->vessels[vessel];
    return fv_verdict_of(c->of->core[run * c->vessels + vessel] - h->opened, c->of->plant->vessels[vessel]->within.v) !=
           FV_STARVED;
}

static bool all_in_time(const void *of, size_t run, size_t vessel)
{
    const counting *c = of;
    (void)vessel;
    for (size_t i = 0; i < c->vessels; i++)
        if (!isnan(c->of->now->vessels[i].opened) && !in_time(of, run, i))
            return false;
    return true;
}

static void count_vessels(const comparing *c, size_t i, double *work)
{
    fv_choice_odds *row = &c->answer->rows[i];
    const candidate *of = &c->of[i];
    const size_t runs = c->answer->options.runs;
    const counting counted = {of, of->plant->vessel_count};
    for (size_t v = 0; v < of->plant->vessel_count; v++) {
        if (isnan(of->now->vessels[v].opened))
            continue;
        fv_choice_vessel *to = &row->vessels[row->vessel_count++];
        to->id = c->choices[i].plant->vessels[v]->part.id;
        to->now = of->now->vessels[v].core;
        odds_band(of->core + v, of->plant->vessel_count, of->good, runs, work, &to->core);
        to->within = odds_chance(in_time, &counted, v, of->good, runs, &to->within_error);
    }
    row->all_within = odds_chance(all_in_time, &counted, 0, of->good, runs, &row->all_within_error);
}

/* Band of `a` less `b`, draw by draw; a core that never arrives counts as at the end of the run. */
static void difference(const comparing *c, size_t a, size_t b, double *work, bool *both, fv_band *band)
{
    const size_t runs = c->answer->options.runs;
    double *values = work + 3 * runs;
    for (size_t r = 0; r < runs; r++) {
        both[r] = c->of[a].good[r] && c->of[b].good[r];
        values[r] = c->of[a].last[r] - c->of[b].last[r];
    }
    odds_band(values, 1, both, runs, work, band);
}

static void count_row(const comparing *c, size_t i, double *work, bool *both)
{
    fv_choice_odds *row = &c->answer->rows[i];
    const size_t runs = c->answer->options.runs;
    double *last = work + 3 * runs;
    for (size_t r = 0; r < runs; r++) {
        last[r] = c->of[i].last[r] >= c->until ? INFINITY : c->of[i].last[r];
        row->failed += !c->of[i].good[r];
    }
    odds_band(last, 1, c->of[i].good, runs, work, &row->last);
    count_vessels(c, i, work);
    const size_t base = c->choices[i].base, pick = c->choices[i].pick;
    if (base != i && base < c->answer->count)
        difference(c, base, i, work, both, &row->gain);
    if (pick != i && pick < c->answer->count) {
        difference(c, i, pick, work, both, &row->behind);
        row->tie = row->behind.low <= 0 && row->behind.high >= 0;
    }
}

static fv_status count(const comparing *c)
{
    const size_t runs = c->answer->options.runs;
    double *work = malloc(4 * runs * sizeof *work);
    bool *both = malloc(runs * sizeof *both);
    const bool room = work && both;
    for (size_t i = 0; i < c->answer->count && room; i++)
        count_row(c, i, work, both);
    free(work);
    free(both);
    return room ? FV_OK : out_of_memory(c);
}

/* ---- the answer ---- */

static fv_status make_rows(comparing *c)
{
    fv_choices_answer *a = c->answer;
    a->rows = fv_arena_alloc(a->arena, c->count, sizeof *a->rows);
    c->of = fv_arena_alloc(a->arena, c->count, sizeof *c->of);
    if (!a->rows || !c->of)
        return out_of_memory(c);
    const fv_band none = {NAN, NAN, NAN, NAN, NAN, NAN};
    for (size_t i = 0; i < c->count; i++) {
        a->rows[i] = (fv_choice_odds){.choice = &c->choices[i], .last = none, .gain = none, .behind = none};
        a->rows[i].vessels = fv_arena_alloc(a->arena, c->choices[i].plant->vessel_count + 1, sizeof(fv_choice_vessel));
        if (!a->rows[i].vessels)
            return out_of_memory(c);
    }
    for (size_t i = 0; i < c->count; i++)
        if (prepare(c, i) == FV_FAIL)
            return FV_FAIL;
    a->unknown_count = c->all_count;
    c->z = fv_arena_alloc(a->arena, a->options.runs * c->all_count + 1, sizeof *c->z);
    if (!c->z || num_sample_normal(a->options.runs, c->all_count, FV_ODDS_SETS, a->options.seed, c->z) == FV_FAIL)
        return out_of_memory(c);
    return FV_OK;
}

static fv_status answer_question(comparing *c)
{
    fv_choices_answer *a = c->answer;
    if (!odds_runs_are_good(a->options.runs, c->choices[0].plant, c->faults) || make_rows(c) == FV_FAIL)
        return FV_FAIL;
    study_ending outcome = STUDY_DONE;
    while (a->count < c->count && outcome == STUDY_DONE) {
        outcome = run(c, a->count);
        a->count += outcome == STUDY_DONE;
    }
    a->stopped = outcome == STUDY_STOPPED;
    return outcome == STUDY_FAILED || a->count == 0 ? FV_FAIL : count(c);
}

fv_choices_answer *fv_choices_run(const fv_choice *choices, size_t count, const fv_choices_options *options,
                                  const fv_progress *progress, fv_faults *faults)
{
    if (!choices || !options || count == 0) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_arena *arena;
    fv_choices_answer *a = study_answer_new(sizeof *a, choices[0].plant->loc, &arena, faults);
    if (!a)
        return NULL;
    comparing c = {.answer = a, .choices = choices, .progress = progress, .faults = faults, .count = count};
    *a = (fv_choices_answer){.options = *options, .arena = arena};
    const bool good = answer_question(&c) == FV_OK;
    for (size_t i = 0; i < count && c.of; i++) {
        fv_heat_free(c.of[i].now);
        fv_plant_free(c.of[i].plant);
    }
    study_caches_free(&c.caches);
    if (good)
        return a;
    fv_arena_free(arena);
    return NULL;
}

void fv_choices_free(fv_choices_answer *answer)
{
    if (answer)
        fv_arena_free(answer->arena);
}
