/* SPDX-License-Identifier: MIT */
/* From a plant with its working week to slots, and back to kilograms. Times are rounded up to whole slots, presence
 * down, so that what fits the slots fits the clock. */
#include "study/week/batches.h"
#include "study/week/scatter.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#define DAY 86400.0
#define WEEK (7.0 * DAY)
#define LOOK_EVERY 7200.0 /* s, common practice while a boiler burns */

void fv_week_defaults(fv_week_options *options)
{
    if (!options)
        return;
    *options = (fv_week_options){.slot = 900.0, .seed = 1};
}

const char *fv_week_more_word(fv_week_more more)
{
    static const char *const words[FV_WEEK_MORES] = {"vessel", "boiler", "hour", "person", "cooling"};
    return words[more];
}

static size_t slots_of(const fv_week_options *options, double seconds)
{
    return (size_t)ceil(seconds / options->slot - 1e-9);
}

/* Adds a row of crew; it may reach into the next day, and from Sunday into Monday. */
static void add_crew(const fv_crew *crew, double longer, const fv_week_options *options, size_t *people)
{
    const size_t week = (size_t)(WEEK / options->slot), day = (size_t)(DAY / options->slot);
    const size_t first = slots_of(options, crew->begins), end = (size_t)((crew->ends + longer) / options->slot + 1e-9);
    for (size_t d = 0; d < FV_WEEK_DAYS; d++)
        for (size_t s = first; crew->day_bits >> d & 1u && s < end; s++)
            people[(d * day + s) % week] += (size_t)crew->people.v;
}

static void count_people(const fv_week_answer *a, double longer, size_t *people)
{
    const fv_work *work = &a->plant->work;
    memset(people, 0, FV_WEEK_DAYS * a->problem.slots_a_day * sizeof *people);
    for (size_t i = 0; i < work->crew_count; i++)
        add_crew(work->crews[i], longer, &a->options, people);
}

static const fv_task *task_of(const fv_work *work, fv_task_kind what)
{
    for (size_t i = 0; i < work->task_count; i++)
        if (fv_word(work->tasks[i]->what) == (int)what)
            return work->tasks[i];
    return NULL;
}

/* Those that do not work take no time, by which they are known. */
static void fill_batches(const fv_week_answer *a, const fv_week_run *runs, double faster, fv_week_batch *batch)
{
    const fv_work *work = &a->plant->work;
    for (size_t k = 1; k <= fv_week_batches(&a->problem); k++) {
        const fv_week_run *run = &runs[k];
        const double longer = week_margin_steam(a, k), cool = week_margin_cool(a, k) * faster;
        memmove(batch[k].of, a->batch[k].of, sizeof batch[k].of);
        if (!run->works || !isfinite(longer) || !isfinite(cool))
            continue;
        const size_t attended = slots_of(&a->options, longer * week_attended(work, run));
        batch[k].steam = slots_of(&a->options, run->steam_end * longer);
        batch[k].attended = attended > 0 ? attended : 1;
        batch[k].cool = slots_of(&a->options, (run->cool - run->steam_end) * cool);
        batch[k].kg = run->kg;
        batch[k].fuel = run->fuel;
    }
}

/* Of which kind are those that a row adds? `like` names a vessel on the header, or what vessels take after. */
static size_t kind_of_more(const fv_week_answer *a, const fv_more *more)
{
    for (size_t i = 0; more->part.like && i < a->plant->vessel_count; i++) {
        const fv_part *part = &a->plant->vessels[i]->part;
        if (strcmp(part->id, more->part.like) == 0 || (part->like && strcmp(part->like, more->part.like) == 0))
            return a->kind_of[i];
    }
    return 0;
}

static void set_kinds(fv_week_answer *a)
{
    const fv_work *work = &a->plant->work;
    fv_week_problem *p = &a->problem;
    p->kind_count = fv_week_kinds(a->plant, a->kind_of);
    for (size_t i = 0; i < a->plant->vessel_count; i++) {
        p->kinds[a->kind_of[i]].places++;
        p->kinds[a->kind_of[i]].vessels++;
    }
    for (size_t i = 0; i < work->more_count; i++)
        p->kinds[kind_of_more(a, work->more[i])].vessels += (size_t)work->more[i]->count.v;
    for (size_t k = 0; k < p->kind_count; k++) {
        p->places += p->kinds[k].places;
        p->vessels += p->kinds[k].vessels;
    }
    p->batch_count = week_compose(p, NULL, &a->chosen);
}

static void set_problem(fv_week_answer *a)
{
    const fv_plant *plant = a->plant;
    fv_week_problem *p = &a->problem;
    p->slots_a_day = (size_t)(DAY / a->options.slot);
    set_kinds(a);
    p->taken_off = plant->vessel_count > 0;
    for (size_t i = 0; i < plant->vessel_count; i++) /* one that stays makes all stay: no place is counted on twice */
        p->taken_off = p->taken_off && fv_word(plant->vessels[i]->cooling) != FV_COOL_ATTACHED;
    /* what taking off takes where no task says it: the vessel's changeover, by one pair of hands */
    double changeover = 0;
    for (size_t i = 0; i < plant->vessel_count; i++)
        changeover = fmax(changeover, plant->vessels[i]->changeover.v);
    if (changeover > 0)
        p->task[FV_TASK_TAKE_OFF] = (fv_week_task){slots_of(&a->options, changeover), 1};
    for (size_t k = 0; k < FV_TASK_KINDS; k++) {
        const fv_task *task = task_of(&plant->work, (fv_task_kind)k);
        if (task)
            p->task[k] = (fv_week_task){slots_of(&a->options, task->takes.v), (size_t)task->people.v};
    }
}

/* ---- one more of each ---- */

static double kg_with(const fv_week_problem *problem)
{
    fv_week_plan plan;
    const double kg = fv_week_search(problem, &plan) == FV_OK ? plan.kg : (double)NAN;
    fv_week_plan_free(&plan);
    return kg;
}

static double gain_of(const fv_week_answer *a, const fv_week_problem *changed)
{
    return kg_with(changed) - a->plan.kg;
}

static double gain_of_people(const fv_week_answer *a, double longer, size_t more)
{
    fv_week_problem changed = a->problem;
    const size_t week = FV_WEEK_DAYS * changed.slots_a_day;
    size_t *people = calloc(week, sizeof *people);
    if (!people)
        return NAN;
    count_people(a, longer, people);
    for (size_t s = 0; s < week; s++)
        people[s] += people[s] > 0 ? more : 0;
    changed.people = people;
    const double gain = gain_of(a, &changed);
    free(people);
    return gain;
}

static double gain_of_batches(const fv_week_answer *a, const fv_week_run *runs, double faster)
{
    fv_week_problem changed = a->problem;
    fv_week_batch *batch = calloc(fv_week_batches(&a->problem) + 1, sizeof *batch);
    if (!batch)
        return NAN;
    fill_batches(a, runs, faster, batch);
    changed.batch = batch;
    const double gain = gain_of(a, &changed);
    free(batch);
    return gain;
}

/* All boilers with the next output in stock, or half as much again. */
static fv_plant *with_more_fire(const fv_plant *plant, double *output)
{
    double now = 0.0, next = INFINITY;
    fv_plant *copy = fv_plant_copy(plant);
    for (size_t i = 0; i < plant->boiler_count; i++)
        now += plant->boilers[i]->output.v;
    for (size_t i = 0; i < plant->stock_count; i++)
        if (plant->stock[i]->kind == FV_STOCK_BOILER && plant->stock[i]->output.v > now)
            next = fmin(next, plant->stock[i]->output.v);
    *output = isinf(next) ? 1.5 * now : next;
    for (size_t i = 0; copy && i < copy->boiler_count; i++) {
        fv_value *value = &copy->boilers[i]->output;
        *value = (fv_value){.v = value->v * *output / now, .origin = FV_SETTING};
    }
    if (copy && fv_plant_link(copy, NULL) == FV_OK)
        return copy;
    fv_plant_free(copy);
    return NULL;
}

static void try_more_fire(fv_week_answer *a, const study_work *work)
{
    fv_week_run *runs = calloc(fv_week_batches(&a->problem) + 1, sizeof *runs);
    fv_plant *plant = with_more_fire(a->plant, &a->boiler_output);
    fv_faults *faults = fv_faults_new();
    if (runs && plant && faults && week_run_batches(a, plant, work, runs, faults) == STUDY_DONE)
        a->gain[FV_WEEK_MORE_BOILER] = gain_of_batches(a, runs, 1.0);
    fv_faults_free(faults);
    fv_plant_free(plant);
    free(runs);
}

static void try_more(fv_week_answer *a, const study_work *work)
{
    for (size_t k = 0; k < a->problem.kind_count; k++) {
        fv_week_problem one_more = a->problem;
        one_more.vessels++;
        one_more.kinds[k].vessels++;
        const double gain = gain_of(a, &one_more);
        if (isnan(a->gain[FV_WEEK_MORE_VESSELS]) || gain > a->gain[FV_WEEK_MORE_VESSELS]) {
            a->gain[FV_WEEK_MORE_VESSELS] = gain;
            a->more_kind = k;
        }
    }
    a->gain[FV_WEEK_MORE_CREW] = gain_of_people(a, 3600.0, 0);
    a->gain[FV_WEEK_MORE_PEOPLE] = gain_of_people(a, 0.0, 1);
    a->gain[FV_WEEK_FASTER_COOLING] = gain_of_batches(a, a->runs, 0.5);
    try_more_fire(a, work);
}

/* ---- from its midst ---- */

/* When the last of the people go home before the batch on the steam may be left alone. */
static double alone_from(const fv_week_answer *a, const fv_week_now *now)
{
    const double part = week_attended_share(&a->plant->work, &a->runs[a->now]);
    const size_t week = FV_WEEK_DAYS * a->problem.slots_a_day, first = (size_t)(now->at / a->options.slot);
    const double until = now->at - now->burning + now->steam[1] * part;
    for (size_t s = first; (double)s * a->options.slot < until; s++)
        if (a->people[s % week] == 0)
            return (double)s * a->options.slot;
    return NAN;
}

/* The plan of the week gives way to that of its rest. */
static fv_status plan_rest(fv_week_answer *a)
{
    const fv_week_now *now = &a->options.now;
    const size_t week = FV_WEEK_DAYS * a->problem.slots_a_day;
    const double lit = fmod(now->at - now->burning + WEEK, WEEK);
    const size_t at = slots_of(&a->options, now->at);
    const fv_week_stand stand = {.at = at < week ? at : week - 1,
                                 .lit = (size_t)(lit / a->options.slot),
                                 .steam = slots_of(&a->options, fmod(lit, a->options.slot) + now->steam[1]),
                                 .cool = a->problem.batch[a->now].steam > 0 ? a->problem.batch[a->now].cool
                                                                            : week, /* not in this week */
                                 .batch = a->now};
    fv_week_plan rest;
    const fv_status status = fv_week_search_rest(&a->problem, &a->plan, &stand, &rest);
    if (status == FV_OK) {
        size_t batch = 0;
        const size_t near = fv_week_batch_near(&a->plan, stand.lit);
        const bool next = stand.at < stand.lit; /* that was in the week before */
        for (size_t i = 0; i < a->plan.entry_count; i++) {
            const fv_week_entry *e = &a->plan.entries[i];
            if (e->what == FV_TASK_LIGHT && (batch++ > near || next) && e->slot >= stand.at)
                a->usual += a->problem.batch[e->vessel].kg;
        }
        fv_week_plan_free(&a->plan);
        a->plan = rest;
        a->left_alone = alone_from(a, now);
    }
    return status;
}

/* The batch with as many of each kind; of those that are followed, the one nearest to it. 0: none are on. */
static size_t batch_of_vessels(const fv_week_answer *a, unsigned on)
{
    size_t of[FV_WEEK_KINDS_MOST] = {0}, least = SIZE_MAX, nearest = 0;
    for (size_t i = 0; i < a->plant->vessel_count; i++)
        of[a->kind_of[i]] += on >> i & 1u;
    for (size_t b = 1; on && b <= a->problem.batch_count; b++) {
        size_t apart = 0;
        for (size_t k = 0; k < a->problem.kind_count; k++)
            apart += of[k] > a->batch[b].of[k] ? of[k] - a->batch[b].of[k] : a->batch[b].of[k] - of[k];
        if (apart < least) {
            least = apart;
            nearest = b;
        }
    }
    return nearest;
}

/* ---- the answer ---- */

static double looks_hours(const fv_week_answer *a)
{
    const fv_task *look = task_of(&a->plant->work, FV_WORK_LOOK);
    if (!look)
        return 0.0;
    const double every = fv_or(look->every, LOOK_EVERY), each = look->takes.v * look->people.v / 3600.0;
    const double burning = (double)a->plan.steam_slots * a->options.slot;
    return each * floor(burning / every);
}

static void sum_up(fv_week_answer *a)
{
    const double hour = a->options.slot / 3600.0;
    double there = 0.0;
    const bool rest = a->now > 0;
    for (size_t s = rest ? slots_of(&a->options, a->options.now.at) : 0; s < FV_WEEK_DAYS * a->problem.slots_a_day; s++)
        there += (double)a->people[s];
    a->there_hours = there * hour;
    a->work_hours = a->plan.crew_slots * hour + looks_hours(a);
}

/* False: out of memory. */
static bool list_batches(fv_week_answer *a)
{
    size_t(*of)[FV_WEEK_KINDS_MOST] = calloc(a->problem.batch_count + 1, sizeof *of);
    if (!of)
        return false;
    a->problem.batch = a->batch;
    week_compose(&a->problem, of, &a->chosen);
    for (size_t b = 1; b <= a->problem.batch_count; b++)
        memcpy(a->batch[b].of, of[b], sizeof *of);
    free(of);
    a->now = batch_of_vessels(a, a->options.now.on);
    return true;
}

static fv_week_answer *new_answer(const fv_plant *plant, const fv_week_options *options)
{
    fv_arena *arena = fv_arena_new();
    fv_week_answer *a = arena ? fv_arena_alloc(arena, 1, sizeof *a) : NULL;
    if (!a) {
        fv_arena_free(arena);
        return NULL;
    }
    *a = (fv_week_answer){.plant = plant, .options = *options, .left_alone = NAN, .arena = arena};
    set_problem(a);
    a->people = fv_arena_alloc(arena, FV_WEEK_DAYS * a->problem.slots_a_day, sizeof *a->people);
    a->batch = fv_arena_alloc(arena, a->problem.batch_count + 1, sizeof *a->batch);
    a->runs = fv_arena_alloc(arena, a->problem.batch_count + 1, sizeof *a->runs);
    for (int i = 0; i < FV_WEEK_MORES; i++)
        a->gain[i] = NAN;
    if (a->people && a->batch && a->runs && list_batches(a))
        return a;
    fv_week_answer_free(a);
    return NULL;
}

static bool may_be_asked(const fv_plant *plant, const fv_week_options *options, fv_faults *faults)
{
    if (plant->work.crew_count == 0)
        fv_error(faults, FV_ERR_INPUT, plant->loc,
                 "week: who is there when? Add <work><crew days=\"mon-fri\" from=\"07:00\" to=\"17:00\"/></work>");
    if (plant->vessel_count > FV_WEEK_PLACES_MOST)
        fv_error(faults, FV_ERR_INPUT, plant->loc, "week: %zu vessels on the header; it plans for %d at most",
                 plant->vessel_count, FV_WEEK_PLACES_MOST);
    if (options->odds % FV_WEEK_ODDS_STEP != 0 || options->odds > 4096u)
        fv_error(faults, FV_ERR_INPUT, plant->loc, "week: runs for the odds are a multiple of %d, up to %u",
                 FV_WEEK_ODDS_STEP, 4096u);
    const fv_week_now *now = &options->now;
    if (now->on > 0 && plant->vessel_count <= FV_WEEK_PLACES_MOST &&
        !(now->on >> plant->vessel_count == 0 && now->at >= 0 && now->at < WEEK && now->burning >= 0 &&
          now->burning < WEEK && now->steam[1] < WEEK))
        fv_error(faults, FV_ERR_INPUT, plant->loc,
                 "week: the batch on the steam burns %.0f s since and has bits %#x of %zu vessels; within a week, of "
                 "these, can be",
                 now->burning, now->on, plant->vessel_count);
    return fv_faults_errors(faults) == 0;
}

fv_week_answer *fv_week_answer_run(const fv_plant *plant, const fv_week_options *options, const fv_progress *progress,
                                   fv_faults *faults)
{
    if (!plant || !options) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    study_caches caches = {{NULL}};
    study_work runs = {options->threads, progress, 0.0, options->odds > 0 ? 0.1 : 0.5, "batches", &caches};
    if (!may_be_asked(plant, options, faults))
        return NULL;
    fv_week_answer *a = new_answer(plant, options);
    if (!a) {
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
        return NULL;
    }
    week_sample sample;
    const bool rest = a->now > 0;
    bool good = week_run_batches(a, plant, &runs, a->runs, faults) == STUDY_DONE;
    if (good && options->odds > 0) {
        runs.from = 0.1;
        runs.to = 0.5;
        runs.what = "batches as they might turn out";
        good = week_sample_draw(a, &runs, &sample, faults) == STUDY_DONE;
    }
    if (good) {
        count_people(a, 0.0, a->people);
        fill_batches(a, a->runs, 1.0, a->batch);
        a->problem.people = a->people;
        good = fv_week_search(&a->problem, &a->plan) == FV_OK && (!rest || plan_rest(a) == FV_OK) &&
               (a->odds.runs == 0 || (rest && options->now.end_count == 0) || week_sample_replay(a, &sample) == FV_OK);
    }
    if (good)
        sum_up(a);
    if (good && !rest) {
        runs.from = 0.5;
        runs.to = 1.0;
        runs.what = "one more of each";
        try_more(a, &runs);
    }
    study_caches_free(&caches);
    if (good)
        return a;
    fv_week_answer_free(a);
    return NULL;
}

void fv_week_answer_free(fv_week_answer *answer)
{
    if (!answer)
        return;
    fv_week_plan_free(&answer->plan);
    fv_arena_free(answer->arena);
}
