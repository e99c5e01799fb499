/* SPDX-License-Identifier: MIT */
/* Outcomes are kept by the text of their change, so whatever asks twice is answered once. What was cut short is
 * followed anew where it is asked about for longer. */
#include "study/ensemble.h"
#include "study/outcome.h"

#include <math.h>
#include <search.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    const char *key;
    study_outcome outcome;
    study_ask ask; /* of the job at hand; the change belongs to the caller */
    bool wanted;   /* is a job */
} entry;

struct study_evaluator {
    const fv_plant *plant;
    study_work work;
    study_caches caches;
    fv_arena *arena;
    double *lids; /* by vessel */
    bool lids_known;
    void *kept; /* entries, by key */
    size_t runs, plans;
    entry **jobs; /* of the batch */
};

static int by_key(const void *one, const void *other)
{
    return strcmp(((const entry *)one)->key, ((const entry *)other)->key);
}

study_evaluator *study_evaluator_new(const fv_plant *plant, const study_work *work)
{
    study_evaluator *e = calloc(1, sizeof *e);
    if (!e)
        return NULL;
    *e = (study_evaluator){.plant = plant, .work = *work, .arena = fv_arena_new()};
    e->lids = e->arena ? fv_arena_alloc(e->arena, plant->vessel_count + 1, sizeof *e->lids) : NULL;
    if (e->lids) {
        for (size_t i = 0; i < plant->vessel_count; i++)
            e->lids[i] = INFINITY;
        return e;
    }
    study_evaluator_free(e);
    return NULL;
}

void study_evaluator_free(study_evaluator *e)
{
    if (!e)
        return;
    study_caches_free(&e->caches);
    while (e->kept)
        tdelete(*(entry **)e->kept, &e->kept, by_key);
    fv_arena_free(e->arena);
    free(e);
}

void study_evaluator_progress(study_evaluator *e, double from, double to, const char *what)
{
    e->work.from = from;
    e->work.to = to;
    e->work.what = what;
}

void study_evaluator_close_up(study_evaluator *e)
{
    e->work.progress = NULL;
}

size_t study_evaluator_runs(const study_evaluator *e)
{
    return e->runs;
}

size_t study_evaluator_plans(const study_evaluator *e)
{
    return e->plans;
}

/* ---- what is kept ---- */

/* All that makes a run what it is, but for how long it is followed. NULL: out of memory. */
static const char *key_of(const study_evaluator *e, const study_ask *ask, bool follow)
{
    fv_text key = {0};
    const fv_change nothing = {0}, *c = ask->change ? ask->change : &nothing;
    for (size_t i = 0; i < c->count; i++)
        fv_text_add(&key, "%s.%s=%a;", c->settings[i].path, c->settings[i].attribute, c->settings[i].si);
    for (size_t i = 0; i < c->action_count; i++) {
        const fv_change_action *a = &c->actions[i];
        const char *part = a->valve ? a->valve : a->boiler ? a->boiler : a->vessel;
        fv_text_add(&key, "%s+%a:%s=%a;", a->after ? a->after : "", a->at, part, a->value);
    }
    fv_text_add(&key, "|%a|%d", ask->fineness, follow);
    const char *kept = key.failed ? NULL : fv_arena_copy(e->arena, key.text);
    fv_text_free(&key);
    return kept;
}

/* The entry of what is asked, new where there is none. NULL: out of memory. */
static entry *find(study_evaluator *e, const study_ask *ask)
{
    const entry asked = {.key = key_of(e, ask, ask->follow)};
    entry **kept = asked.key ? tfind(&asked, &e->kept, by_key) : NULL;
    if (kept)
        return *kept;
    const entry other = {.key = asked.key ? key_of(e, ask, !ask->follow) : NULL};
    const bool known = other.key && tfind(&other, &e->kept, by_key);
    entry *new = other.key ? fv_arena_alloc(e->arena, 1, sizeof *new) : NULL;
    if (!new || !study_outcome_room(e->arena, e->plant->vessel_count, &new->outcome))
        return NULL;
    new->key = asked.key;
    new->outcome.until = -INFINITY;
    if (!tsearch(new, &e->kept, by_key))
        return NULL;
    e->plans += !known && (!ask->follow || ask->fineness < 1); /* what ends a search has been looked at before */
    return new;
}

/* ---- one run ---- */

static fv_status run_one(void *context, size_t index, size_t worker, const fv_progress *progress)
{
    const study_evaluator *e = context;
    entry *job = e->jobs[index];
    study_outcome *o = &job->outcome;
    const fv_change nothing = {0};
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = faults ? fv_change_copy(job->ask.change ? job->ask.change : &nothing, e->plant, faults) : NULL;
    o->ran = false;
    o->until = job->ask.until;
    o->late_ends = job->ask.late_ends;
    o->fineness = job->ask.fineness;
    o->followed = job->ask.follow;
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.cache = study_cache((study_caches *)&e->caches, worker);
    options.until = fmin(options.until, job->ask.until);
    options.fineness = job->ask.fineness;
    options.stop_at_core = !job->ask.follow;
    options.stop_at_hold = job->ask.follow;
    options.late_ends = job->ask.late_ends;
    options.all_by_until = job->ask.give_up;
    fv_heat_result *result = plant ? study_run_somehow(plant, &options, progress, faults) : NULL;
    if (result && !result->stopped)
        study_outcome_read(result, e->lids, o);
    else if (result)
        o->until = -INFINITY; /* not known: asked again it is followed anew */
    const bool memory = !result && fv_faults_blame_system(faults);
    fv_heat_free(result);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return memory ? FV_FAIL : FV_OK;
}

static bool is_known(const entry *found, const study_ask *ask)
{
    const study_outcome *o = &found->outcome;
    const bool in_time = o->late_ends == 0 || (ask->late_ends > 0 && o->late_ends >= ask->late_ends);
    const bool any = !(ask->until > 0) && o->until >= 0; /* as far as it was followed */
    return any || (o->until >= ask->until && in_time) || (o->until >= 0 && (!o->ran || !o->cut));
}

static study_ending know_lids(study_evaluator *e)
{
    if (e->lids_known)
        return STUDY_DONE;
    e->lids_known = true;
    const study_ask ask = {.follow = true, .fineness = 1, .until = INFINITY};
    const study_outcome *now;
    const study_ending ending = study_evaluate(e, &ask, 1, &now);
    e->lids_known = ending == STUDY_DONE;
    for (size_t i = 0; i < e->plant->vessel_count && e->lids_known; i++)
        e->lids[i] = study_lid_bears(now->ran ? now->chamber[i] : 0);
    return ending;
}

study_ending study_evaluate(study_evaluator *e, const study_ask *asks, size_t count, const study_outcome **outcomes)
{
    size_t jobs = 0;
    entry **list = calloc(count + 1, sizeof(entry *)), **found = calloc(count + 1, sizeof(entry *));
    bool good = list && found;
    study_ending ending = good ? know_lids(e) : STUDY_FAILED;
    for (size_t i = 0; i < count && good && ending == STUDY_DONE; i++) {
        found[i] = find(e, &asks[i]);
        good = found[i] != NULL;
        if (!good || found[i]->wanted || is_known(found[i], &asks[i]))
            continue;
        found[i]->wanted = true;
        found[i]->ask = asks[i];
        list[jobs++] = found[i];
    }
    if (good && ending == STUDY_DONE) {
        e->jobs = list;
        ending = study_run(&e->work, jobs, run_one, e);
        e->runs += jobs;
    }
    for (size_t i = 0; i < jobs; i++)
        list[i]->wanted = false;
    for (size_t i = 0; i < count && good; i++)
        outcomes[i] = found[i] ? &found[i]->outcome : NULL;
    free(list);
    free(found);
    return good ? ending : STUDY_FAILED;
}
