/* SPDX-License-Identifier: MIT */
#include "study/places.h"
#include "study/question.h"
#include "study/remedies.h"

#include "model/near.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double CAP_WITHIN = 2, CAP_LONGEST = 1.5; /* times the longest time allowed, and taken */
static const double FASTER = 0.95;      /* of the target's time: others that are throttled for its sake */
static const double WORTH = 0.25;       /* of the best gain */
static const double GAIN_LEAST = 300.0; /* s: less is no step worth taking */
static const double WORTH_TIME = 0.02;  /* of the time taken: nor is less than this */
static const double NOTICED = 60.0;     /* s by which the last vessel may come later and still count as no later */

void fv_why_defaults(fv_why_options *options)
{
    *options = (fv_why_options){.cap = NAN, .most = 6, .matters = 0.02, .remedies = true};
}

const char *fv_why_cause_word(fv_why_cause cause)
{
    static const char *const words[] = {"boiler", "header",   "hose", "fittings", "sag",       "water", "holes",
                                        "coil",   "openings", "air",  "walls",    "line_loss", "load",  "nothing"};
    return words[cause];
}

const char *fv_effort_word(fv_effort effort)
{
    static const char *const words[] = {"free", "small", "buy"};
    return words[effort];
}

const char *fv_remedy_word(fv_remedy_kind kind)
{
    static const char *const words[] = {
        "hose_bore", "hose_length", "header_bore", "couplings", "valve_open",   "valves_others", "sag",
        "water",     "sump",        "clean",       "drill",     "drill_others", "drill_all",     "blank_others",
        "coil_bore", "lag_lines",   "shelter",     "lid",       "vent",         "walls",         "fire",
        "control",   "boiler",      "loose",       "less_load", "stagger"};
    return words[kind];
}

const char *fv_place_word(fv_place_kind kind)
{
    static const char *const words[] = {"line", "sag", "joint", "coil", "water", "holes"};
    return words[kind];
}

/* ---- the question ---- */

static void say_unknown(const study_question *q)
{
    const fv_plant *plant = q->answer->plant;
    char hint[2 * MODEL_NEAR_LONGEST];
    fv_text known = {0};
    model_near near = model_near_start(q->answer->options.vessel);
    enum { LISTED = 12 };
    for (size_t i = 0; i < plant->vessel_count; i++) {
        model_near_try(&near, plant->vessels[i]->part.id);
        if (i < LISTED)
            fv_text_add(&known, "%s%s", i ? ", " : "", plant->vessels[i]->part.id);
    }
    fv_error(q->faults, FV_ERR_INPUT, (fv_loc){"--vessel", 0}, "no vessel is called '%.80s'%s The vessels are: %s%s",
             q->answer->options.vessel, near.best ? model_near_hint(&near, hint, sizeof hint) : ".",
             known.text ? known.text : "none", plant->vessel_count > LISTED ? ", ..." : "");
    fv_text_free(&known);
}

/* Whether steam is ever let into it. */
static bool opens(const study_question *q, size_t vessel)
{
    return !isnan(q->answer->now->vessels[vessel].opened);
}

static bool check_question(study_question *q)
{
    fv_why_answer *a = q->answer;
    const fv_why_options *o = &a->options;
    if (o->vessel && fv_plant_vessel_index(a->plant, o->vessel) < 0) {
        say_unknown(q);
        return false;
    }
    if (o->most < 1 || o->most > 10 || !(o->matters >= 0) || o->cap <= 0) {
        fv_error(q->faults, FV_ERR_INPUT, a->plant->loc,
                 "why: most must be 1 to 10, matters no less than 0, and cap above 0");
        return false;
    }
    return true;
}

/* The plant as it is. */
static study_outcome run_now(study_question *q)
{
    fv_why_answer *a = q->answer;
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.stop_at_core = true;
    a->now = fv_heat_run(a->plant, &options, q->progress, q->faults);
    a->runs = 1;
    if (!a->now)
        return STUDY_FAILED;
    if (a->now->stopped)
        return STUDY_STOPPED;
    study_try_read(a->now, &q->now);
    return STUDY_DONE;
}

static bool find_asked(study_question *q)
{
    fv_why_answer *a = q->answer;
    bool any = false;
    for (size_t i = 0; i < a->plant->vessel_count; i++) {
        const char *id = a->plant->vessels[i]->part.id;
        q->asked[i] = opens(q, i) && (!a->options.vessel || strcmp(id, a->options.vessel) == 0);
        any = any || q->asked[i];
    }
    if (any)
        return true;
    if (a->options.vessel)
        fv_error(
            q->faults, FV_ERR_INPUT, a->plant->vessels[fv_plant_vessel_index(a->plant, a->options.vessel)]->part.loc,
            "vessel '%s' gets no steam during the run (shut, waiting for what never happens, or no boiler steams); "
            "ask about one that does, or open it with phase=\"heating\"",
            a->options.vessel);
    else
        fv_error(q->faults, FV_ERR_INPUT, a->plant->loc,
                 "no vessel gets steam during the run (shut, waiting for what never happens, or no boiler steams); "
                 "there is nothing to ask about");
    return false;
}

/* What counts as never, and for how long the plant is followed. */
static void set_cap(study_question *q)
{
    fv_why_answer *a = q->answer;
    double allowed = 0, longest = 0, opened = 0;
    for (size_t i = 0; i < a->plant->vessel_count; i++) {
        if (!opens(q, i))
            continue;
        allowed = fmax(allowed, a->plant->vessels[i]->within.v);
        longest = fmax(longest, q->now.took[i]); /* a NaN is passed over */
        opened = fmax(opened, a->now->vessels[i].opened);
    }
    a->cap = isnan(a->options.cap) ? fmax(CAP_WITHIN * allowed, CAP_LONGEST * longest) : a->options.cap;
    q->until = opened + a->cap;
}

/* The slowest of those asked about, by the clock. */
static void set_target(study_question *q)
{
    fv_why_answer *a = q->answer;
    a->target = -1;
    for (size_t i = 0; i < a->plant->vessel_count; i++) {
        if (!q->asked[i])
            continue;
        const double mine = q->now.core[i], theirs = a->target >= 0 ? q->now.core[a->target] : 0;
        if (a->target < 0 || (!isnan(theirs) && (isnan(mine) || mine > theirs)))
            a->target = (int)i;
    }
}

/* ---- the tries: each cause alone, each last, all, and the remedies ---- */

typedef struct {
    study_try *list;
    size_t count;
} tries;

static bool add_try(study_question *q, tries *t, study_try try)
{
    t->list[t->count] = try;
    return study_try_room(q->answer->arena, q->answer->plant->vessel_count, &t->list[t->count++]);
}

/* The causes that are there at all. */
static bool find_present(study_question *q)
{
    fv_plant *copy = fv_plant_copy(q->answer->plant);
    const study_causes all = study_cause_bit(FV_WHY_CAUSES) - 1;
    fv_faults *faults = fv_faults_new();
    const bool good = copy && faults && study_idealize(&q->basis, all, -1, copy, &q->present, faults) == FV_OK;
    for (size_t i = 0; faults && i < fv_faults_count(faults) && !good; i++)
        if (!fv_faults_at(faults, i)->caution)
            fv_error(q->faults, FV_ERR_NUMERICS, q->answer->plant->loc,
                     "the plant without its causes of slow heating would not be sound: %s",
                     fv_faults_at(faults, i)->text);
    if (!copy || !faults)
        fv_error(q->faults, FV_ERR_SYSTEM, q->answer->plant->loc, "out of memory");
    fv_plant_free(copy);
    fv_faults_free(faults);
    return good;
}

static bool list_tries(study_question *q, const study_remedies *remedies, tries *t)
{
    const study_try plain = {.only = -1, .until = q->until};
    bool good = true;
    t->list = fv_arena_alloc(q->answer->arena, 2 * FV_WHY_CAUSES + 1 + remedies->count, sizeof *t->list);
    if (!t->list)
        return false;
    for (int last = 0; last < 2; last++)
        for (int c = 0; c < FV_WHY_CAUSES; c++) {
            const study_causes bit = study_cause_bit((fv_why_cause)c);
            study_try try = plain;
            try.causes = last ? q->present & ~bit : bit;
            if (q->present & bit)
                good = good && add_try(q, t, try);
        }
    study_try full = plain;
    full.causes = q->present;
    good = good && add_try(q, t, full);
    for (size_t i = 0; i < remedies->count && good; i++) {
        study_try try = plain;
        try.change = &remedies->list[i].change;
        good = add_try(q, t, try);
    }
    return good;
}

static void hand_out(study_question *q, const tries *t, study_remedies *remedies)
{
    size_t k = 0;
    for (int last = 0; last < 2; last++)
        for (int c = 0; c < FV_WHY_CAUSES; c++)
            if (q->present & study_cause_bit((fv_why_cause)c))
                *(last ? &q->last[c] : &q->alone[c]) = t->list[k++];
    q->full = t->list[k++];
    for (size_t i = 0; i < remedies->count; i++, k++) {
        fv_why_remedy *r = &remedies->list[i];
        r->core = t->list[k].failed ? NULL : t->list[k].core;
        r->pressure = t->list[k].pressure;
        r->over_relief = t->list[k].over_relief;
    }
}

/* Where the plant without all causes has no solution, the one without all but the least of them stands for it. */
static bool find_full(study_question *q)
{
    int least = -1;
    double smallest = INFINITY;
    for (int c = 0; c < FV_WHY_CAUSES && q->full.failed; c++) {
        if (!(q->present & study_cause_bit((fv_why_cause)c)) || q->last[c].failed)
            continue;
        double effect = 0;
        for (size_t v = 0; v < q->answer->plant->vessel_count; v++)
            effect = fmax(effect, fabs(study_counted(q, &q->now, v) - study_counted(q, &q->alone[c], v)));
        if (effect < smallest) {
            smallest = effect;
            least = c;
        }
    }
    if (!q->full.failed)
        return true;
    if (least < 0) {
        fv_error(q->faults, FV_ERR_NUMERICS, q->answer->plant->loc,
                 "the delay cannot be shared out; the plant with all causes of slow heating taken away: %s",
                 q->full.reason);
        return false;
    }
    q->full = q->last[least];
    q->present &= ~study_cause_bit((fv_why_cause)least);
    for (int c = 0; c < FV_WHY_CAUSES; c++)
        q->last[c].failed = true; /* they were measured against another plant */
    return true;
}

/* A cause without which the plant has no solution is not looked at. */
static bool settle_failures(study_question *q)
{
    for (int c = 0; c < FV_WHY_CAUSES; c++) {
        if (!(q->present & study_cause_bit((fv_why_cause)c)))
            continue;
        q->answer->runs_failed += q->alone[c].failed + q->last[c].failed;
        if (q->alone[c].failed)
            q->present &= ~study_cause_bit((fv_why_cause)c);
    }
    q->answer->runs_failed += q->full.failed;
    return find_full(q);
}

/* ---- vessels ---- */

static void fill_vessels(study_question *q)
{
    fv_why_answer *a = q->answer;
    a->best = -1;
    for (size_t i = 0; i < a->plant->vessel_count; i++) {
        fv_why_vessel *v = &a->vessels[i];
        *v = (fv_why_vessel){.took = study_counted(q, &q->now, i),
                             .ideal = study_counted(q, &q->full, i),
                             .ample = a->now->vessels[i].core_ample,
                             .arrives = q->now.took[i] < a->cap,
                             .asked = q->asked[i],
                             .first = FV_WHY_NOTHING,
                             .next = FV_WHY_NOTHING,
                             .part_here = -1};
        for (int c = 0; c < FV_WHY_CAUSES; c++) {
            const bool there = q->present & study_cause_bit((fv_why_cause)c);
            v->alone[c] = there ? v->took - study_counted(q, &q->alone[c], i) : (double)NAN;
            v->last[c] = there && !q->last[c].failed ? study_counted(q, &q->last[c], i) - v->ideal : (double)NAN;
        }
        const bool better = a->best < 0 || v->took - v->ideal < a->vessels[a->best].took - a->vessels[a->best].ideal;
        if (v->arrives && better)
            a->best = (int)i;
    }
    if (a->plant->vessel_count < 2)
        a->best = -1;
}

/* ---- remedies ---- */

static double by_clock(const study_question *q, double core)
{
    return core < q->until ? core : q->until; /* until for NaN */
}

/* When the last vessel has its core as things are. */
static double last_of_now(const study_question *q)
{
    double last = 0;
    for (size_t v = 0; v < q->answer->plant->vessel_count; v++)
        if (opens(q, v))
            last = fmax(last, by_clock(q, q->now.core[v]));
    return last;
}

static void weigh(study_question *q, study_remedies *list)
{
    fv_why_answer *a = q->answer;
    const size_t n = a->plant->vessel_count;
    for (size_t i = 0; i < list->count; i++) {
        fv_why_remedy *r = &list->list[i];
        double *gain = r->core ? fv_arena_alloc(a->arena, n + 1, sizeof(double)) : NULL;
        if (!gain) {
            a->remedies_failed++;
            continue;
        }
        r->gain = gain;
        for (size_t v = 0; v < n; v++) {
            if (!opens(q, v))
                continue;
            gain[v] = by_clock(q, q->now.core[v]) - by_clock(q, r->core[v]);
            r->slowest = isnan(r->core[v]) || isnan(r->slowest) ? (double)NAN : fmax(r->slowest, r->core[v]);
        }
        r->worth = a->options.vessel ? gain[a->target] : last_of_now(q) - by_clock(q, r->slowest);
        size_t place = a->remedy_count++;
        for (; place > 0 && a->remedies[place - 1].worth < r->worth; place--)
            a->remedies[place] = a->remedies[place - 1];
        a->remedies[place] = *r;
    }
}

/* True if `r` is the better step of the two: less effort; then, of what is bought, more time for the money; else more
 * time. Taking some of the load out comes last: it is no cure. */
static bool is_better_step(const fv_why_remedy *r, const fv_why_remedy *than)
{
    const bool less_load = r->kind == FV_REMEDY_LESS_LOAD, than_less = than->kind == FV_REMEDY_LESS_LOAD;
    if (less_load != than_less)
        return than_less;
    if (r->effort != than->effort)
        return r->effort < than->effort;
    const bool priced = r->cost > 0, than_priced = than->cost > 0;
    if (r->effort == FV_EFFORT_BUY && priced != than_priced)
        return priced;
    if (r->effort == FV_EFFORT_BUY && priced)
        return r->worth / r->cost > than->worth / than->cost;
    return r->worth > than->worth;
}

static bool is_harmless(const study_question *q, const fv_why_remedy *r)
{
    return !r->over_relief && by_clock(q, r->slowest) <= last_of_now(q) + NOTICED;
}

static void choose_steps(study_question *q)
{
    fv_why_answer *a = q->answer;
    const fv_why_vessel *target = &a->vessels[a->target];
    if (a->remedy_count == 0 || target->first == FV_WHY_NOTHING)
        return;
    double least = fmax(GAIN_LEAST, WORTH_TIME * target->took);
    for (size_t i = 0; i < a->remedy_count; i++) {
        const fv_why_remedy *r = &a->remedies[i];
        if (!is_harmless(q, r) || r->worth < least)
            continue;
        if (a->strongest < 0) {
            a->strongest = (int)i;
            least = fmax(least, WORTH * r->worth);
        }
        if (r->worth >= least && (a->cheapest < 0 || is_better_step(r, &a->remedies[a->cheapest])))
            a->cheapest = (int)i;
    }
}

static bool list_remedies(study_question *q, study_remedies *list)
{
    fv_why_answer *a = q->answer;
    bool *faster = fv_arena_alloc(a->arena, a->plant->vessel_count + 1, sizeof(bool));
    *list = (study_remedies){
        .plant = a->plant, .ways = &q->ways, .target = (size_t)a->target, .faster = faster, .arena = a->arena};
    if (!faster)
        return false;
    const double mine = by_clock(q, q->now.core[a->target]);
    for (size_t i = 0; i < a->plant->vessel_count; i++)
        faster[i] = opens(q, i) && (int)i != a->target && by_clock(q, q->now.core[i]) < FASTER * mine;
    return !a->options.remedies || study_remedies_list(list);
}

/* ---- the answer ---- */

static bool prepare(study_question *q)
{
    fv_why_answer *a = q->answer;
    const size_t n = a->plant->vessel_count;
    double *need = fv_arena_alloc(a->arena, n + 1, sizeof(double));
    q->asked = fv_arena_alloc(a->arena, n + 1, sizeof(bool));
    a->vessels = fv_arena_alloc(a->arena, n + 1, sizeof *a->vessels);
    if (!need || !q->asked || !a->vessels || !study_try_room(a->arena, n, &q->now) ||
        !study_ways_find(a->plant, a->arena, &q->ways)) {
        fv_error(q->faults, FV_ERR_SYSTEM, a->plant->loc, "out of memory");
        return false;
    }
    fv_check_answer *check = fv_check_answer_new(a->plant, q->faults);
    for (size_t i = 0; check && i < n; i++)
        need[i] = check->vessels[i].load / a->plant->vessels[i]->within.v;
    q->basis = (study_basis){.plant = a->plant, .ways = &q->ways, .need = need};
    const bool good = check != NULL;
    fv_check_answer_free(check);
    return good;
}

static bool out_of_memory(const study_question *q)
{
    fv_error(q->faults, FV_ERR_SYSTEM, q->answer->plant->loc, "out of memory");
    return false;
}

static bool know_the_plant(study_question *q)
{
    fv_why_answer *a = q->answer;
    if (!prepare(q) || run_now(q) != STUDY_DONE || !find_asked(q))
        return false;
    double *ample = fv_arena_alloc(a->arena, a->plant->vessel_count + 1, sizeof(double));
    if (!ample)
        return out_of_memory(q);
    for (size_t i = 0; i < a->plant->vessel_count; i++)
        ample[i] = a->now->vessels[i].core_ample;
    q->basis.ample = ample;
    set_cap(q);
    set_target(q);
    return find_present(q);
}

static bool try_all(study_question *q)
{
    fv_why_answer *a = q->answer;
    study_remedies remedies;
    tries t = {0};
    if (!list_remedies(q, &remedies) || !list_tries(q, &remedies, &t))
        return out_of_memory(q);
    const study_plan first = {
        .threads = a->options.threads, .progress = q->progress, .from = 0, .to = 0.5, .what = "trying each change"};
    const study_plan second = {
        .threads = a->options.threads, .progress = q->progress, .from = 0.5, .to = 1, .what = "sharing out the delay"};
    study_outcome outcome = study_tries_run(&q->basis, &first, t.list, t.count);
    a->runs += t.count;
    if (outcome != STUDY_DONE)
        return outcome == STUDY_STOPPED ? false : out_of_memory(q);
    hand_out(q, &t, &remedies);
    if (!settle_failures(q))
        return false;
    fill_vessels(q);
    study_choose_causes(q);
    outcome = study_attribute(q, &second);
    if (outcome == STUDY_FAILED && fv_faults_errors(q->faults) == 0)
        out_of_memory(q);
    if (outcome != STUDY_DONE)
        return false;
    a->remedies = fv_arena_alloc(a->arena, remedies.count + 1, sizeof *a->remedies);
    if (!a->remedies)
        return out_of_memory(q);
    weigh(q, &remedies);
    choose_steps(q);
    return true;
}

static bool answer_question(study_question *q)
{
    fv_why_answer *a = q->answer;
    if (!check_question(q) || !know_the_plant(q) || !try_all(q))
        return false;
    if (!study_name_parts(q))
        return out_of_memory(q);
    if (a->now->at_first_steam &&
        !study_places_find(a->plant, a->now->at_first_steam, q->asked, a->arena, &a->places, &a->place_count))
        return out_of_memory(q);
    return true;
}

fv_why_answer *fv_why_answer_new(const fv_plant *plant, const fv_why_options *options, const fv_progress *progress,
                                 fv_faults *faults)
{
    fv_why_answer *a = calloc(1, sizeof *a);
    fv_arena *arena = fv_arena_new();
    if (!a || !arena) {
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
        free(a);
        fv_arena_free(arena);
        return NULL;
    }
    *a = (fv_why_answer){
        .plant = plant, .options = *options, .arena = arena, .best = -1, .target = -1, .strongest = -1, .cheapest = -1};
    study_question q = {.answer = a, .progress = progress, .faults = faults};
    if (answer_question(&q))
        return a;
    fv_why_answer_free(a);
    return NULL;
}

void fv_why_answer_free(fv_why_answer *answer)
{
    if (!answer)
        return;
    fv_heat_free(answer->now);
    fv_arena_free(answer->arena);
    free(answer);
}
