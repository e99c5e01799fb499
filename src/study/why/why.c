/* SPDX-License-Identifier: MIT */
/* why from question to answer: the delay shared out by Shapley values (shapley.h), and what each remedy gains, s. What
 * taking a cause away means: farvessel/why.h. */
#include "study/ensemble.h"
#include "study/evaluate.h"
#include "study/why/places.h"
#include "study/why/question.h"
#include "study/advise.h"
#include "study/outcome.h"
#include "study/remedies.h"
#include "study/slips.h"

#include "model/near.h"
#include "study/answer.h"

#include <math.h>
#include <string.h>

static const double CAP_WITHIN = 2, CAP_LONGEST = 1.5; /* times the longest time allowed, and taken */
static const double CAP_AMPLE = 3; /* times what a load that never arrives would take with ample steam */
static const double FASTER = 0.95; /* of the target's time: others that are throttled for its sake */

void fv_why_defaults(fv_why_options *options)
{
    if (!options)
        return;
    *options = (fv_why_options){.cap = NAN, .most = 5, .matters = 0.02, .remedies = true};
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
    static const char *const words[] = {"hose_bore",     "hose_length",  "header_bore", "couplings",    "valve_open",
                                        "valves_others", "sag",          "water",       "sump",         "clean",
                                        "drill",         "drill_others", "drill_all",   "blank_others", "coil_bore",
                                        "lag_lines",     "shelter",      "lid",         "seal",         "vent",
                                        "wider_vent",    "walls",        "fire",        "control",      "boiler",
                                        "feed",          "loose",        "less_load",   "stagger",      "hands"};
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
    fv_error(q->faults, FV_ERR_INPUT, (fv_loc){"--vessel", 0}, "no vessel is called '%s'%s The vessels are: %s%s",
             fv_shorten(q->answer->options.vessel, 80).text,
             near.best ? model_near_hint(&near, hint, sizeof hint) : ".", known.text ? known.text : "none",
             plant->vessel_count > LISTED ? ", ..." : "");
    fv_text_free(&known);
}

static bool check_question(study_question *q)
{
    fv_why_answer *a = q->answer;
    const fv_why_options *o = &a->options;
    if (o->vessel && fv_plant_vessel_index(a->plant, o->vessel) < 0) {
        say_unknown(q);
        return false;
    }
    if (o->most > 10 || !(o->matters >= 0) || o->cap <= 0) {
        fv_error(q->faults, FV_ERR_INPUT, a->plant->loc,
                 "why: most must be 0 to 10, matters no less than 0, and cap above 0");
        return false;
    }
    return true;
}

/* The plant as it is. */
static study_ending run_now(study_question *q)
{
    fv_why_answer *a = q->answer;
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.stop_at_core = true;
    options.cache = study_cache(&q->caches, 0);
    a->now = fv_heat_run(a->plant, &options, q->progress, q->faults);
    a->runs = 1;
    if (!a->now)
        return STUDY_FAILED;
    if (a->now->stopped)
        return STUDY_STOPPED;
    study_try_read(a->now, &q->now);
    return STUDY_DONE;
}

/* The same to the end of the holds, as far as there is a solution. */
static bool run_whole(study_question *q)
{
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.cache = study_cache(&q->caches, 0);
    options.stop_at_hold = true;
    fv_faults *faults = fv_faults_new();
    q->whole = faults ? study_run_somehow(q->answer->plant, &options, NULL, faults) : NULL;
    const bool memory = !q->whole && fv_faults_blame_system(faults);
    fv_faults_free(faults);
    return !memory;
}

/* Pa by vessel, at most: the last one open gets all of the steam, which may be after the last core. NULL: out of
 * memory.
 */
static double *highest_pressures(const study_question *q)
{
    const fv_why_answer *a = q->answer;
    double *most = fv_arena_alloc(a->arena, a->plant->vessel_count + 1, sizeof *most);
    for (size_t i = 0; most && i < a->plant->vessel_count; i++)
        most[i] = fmax(a->now->vessels[i].pressure_most, q->whole ? q->whole->vessels[i].pressure_most : 0);
    return most;
}

static bool find_asked(study_question *q)
{
    fv_why_answer *a = q->answer;
    bool any = false;
    for (size_t i = 0; i < a->plant->vessel_count; i++) {
        const char *id = a->plant->vessels[i]->part.id;
        q->asked[i] = study_opens(q, i) && (!a->options.vessel || strcmp(id, a->options.vessel) == 0);
        any = any || q->asked[i];
    }
    if (any)
        return true;
    if (a->options.vessel)
        fv_error(q->faults, FV_ERR_INPUT,
                 a->plant->vessels[fv_plant_vessel_index(a->plant, a->options.vessel)]->part.loc,
                 "vessel '%s' gets no steam during the run (shut, waiting for an event that never occurs, or no boiler "
                 "steams); "
                 "ask about one that does, or open it with phase=\"heating\"",
                 a->options.vessel);
    else
        fv_error(
            q->faults, FV_ERR_INPUT, a->plant->loc,
            "no vessel gets steam during the run (shut, waiting for an event that never occurs, or no boiler steams); "
            "there is nothing to ask about");
    return false;
}

/* What counts as never, and for how long the plant is followed. */
static void set_cap(study_question *q)
{
    fv_why_answer *a = q->answer;
    double allowed = 0, longest = 0, opened = 0, never = 0;
    for (size_t i = 0; i < a->plant->vessel_count; i++) {
        if (!study_opens(q, i))
            continue;
        allowed = fmax(allowed, a->plant->vessels[i]->within.v);
        longest = fmax(longest, q->now.took[i]); /* a NaN is passed over */
        if (isnan(a->now->vessels[i].core))
            never = fmax(never, study_conduction(a->now, i));
        opened = fmax(opened, a->now->vessels[i].opened);
    }
    const double cap = fmax(fmax(CAP_WITHIN * allowed, CAP_LONGEST * longest), CAP_AMPLE * never);
    a->cap = isnan(a->options.cap) ? cap : a->options.cap;
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

/* Whether steam in plenty would have every core in time: where it would not, no hand does. */
static bool hands_can_do(const study_question *q)
{
    const fv_plant *plant = q->answer->plant;
    bool all = true;
    for (size_t v = 0; v < plant->vessel_count; v++)
        all = all && !(q->basis.ample[v] > plant->vessels[v]->within.v); /* NaN: never opened */
    return all;
}

/* What hands can do together, found by a short search: enough to weigh it against the rest, plan looks further. Valves
 * first, for they ask nobody to come back; starts as well where these leave somebody late. */
static study_ending try_hands(const study_question *q, study_adviser *adviser, study_advice *advice)
{
    static const size_t plans[] = {36, 72};
    study_ending ending = STUDY_DONE;
    for (int starts = 0; starts < 2 && ending == STUDY_DONE; starts++) {
        const study_advice_options options = {.objective = {.goal = FV_PLAN_EARLIEST, .wage = 20, .span = INFINITY},
                                              .valves = true,
                                              .starts = starts,
                                              .most = plans[starts]};
        const study_advice before = *advice;
        ending = study_advise(adviser, &options, advice->point, advice->point != NULL, advice);
        if (starts && (ending == STUDY_STOPPED || advice->stopped)) { /* half a search: valves alone are whole */
            *advice = before;
            advice->stopped = true;
            ending = STUDY_DONE;
        }
        if (advice->stopped || !advice->score.outcome || advice->score.outcome->late == 0 || !hands_can_do(q))
            break;
    }
    return ending;
}

static bool add_hands(study_question *q, study_remedies *list)
{
    fv_why_answer *a = q->answer;
    const study_work work = {
        .threads = a->options.threads, .progress = q->progress, .what = "trying what hands can do"};
    study_adviser adviser;
    study_advice advice = {0};
    study_settings settings = {.arena = a->arena};
    if (!study_adviser_open(&adviser, a->plant, &work))
        return false;
    const study_ending ending = try_hands(q, &adviser, &advice);
    if (ending == STUDY_DONE)
        study_advice_settings(&adviser, &advice, &settings);
    a->runs += study_evaluator_runs(adviser.evaluator);
    bool washers = false;
    for (size_t i = 0; i < settings.change.count; i++)
        washers = washers || strcmp(settings.change.settings[i].attribute, "washer") == 0;
    study_remedy_begin(list, FV_REMEDY_HANDS, washers ? FV_EFFORT_SMALL : FV_EFFORT_FREE);
    study_remedy_take(list, &settings.change, advice.score.effort.minutes);
    study_remedy_end(list);
    study_adviser_close(&adviser);
    q->stopped = ending == STUDY_STOPPED || advice.stopped;
    return ending != STUDY_FAILED && !settings.failed && !list->failed;
}

static bool list_remedies(study_question *q, study_remedies *list)
{
    fv_why_answer *a = q->answer;
    bool *faster = fv_arena_alloc(a->arena, a->plant->vessel_count + 1, sizeof(bool));
    *list = (study_remedies){.plant = a->plant,
                             .ways = &q->ways,
                             .target = (size_t)a->target,
                             .faster = faster,
                             .vent = q->basis.vent,
                             .arena = a->arena};
    if (!faster)
        return false;
    const double mine = study_by_clock(q, q->now.core[a->target]);
    for (size_t i = 0; i < a->plant->vessel_count; i++)
        faster[i] = study_opens(q, i) && (int)i != a->target && study_by_clock(q, q->now.core[i]) < FASTER * mine;
    return !a->options.remedies || (study_remedies_list(list) && add_hands(q, list));
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
    if (!ample || !run_whole(q) || !(a->pressures = highest_pressures(q)) ||
        !(q->basis.vent = study_vents_wanted(a->plant, a->pressures, a->arena)))
        return out_of_memory(q);
    for (size_t i = 0; i < a->plant->vessel_count; i++)
        ample[i] = study_conduction(a->now, i);
    q->basis.ample = ample;
    set_cap(q);
    set_target(q);
    return study_find_present(q);
}

/* The changes that are tried beside the causes. */
static const fv_change **changes_of(study_question *q, const study_remedies *remedies)
{
    const fv_change **changes = fv_arena_alloc(q->answer->arena, remedies->count + 1, sizeof *changes);
    for (size_t i = 0; i < remedies->count && changes; i++)
        changes[i] = &remedies->list[i].change;
    return changes;
}

/* An end that is no fault of the plant: stopped, or out of memory. */
static bool went_on(study_question *q, study_ending outcome)
{
    if (outcome == STUDY_FAILED && fv_faults_errors(q->faults) == 0)
        out_of_memory(q);
    return outcome == STUDY_DONE;
}

/* Stopped: the remedies that were tried still rank. */
static void forget_causes(study_question *q)
{
    q->answer->stopped = true;
    q->answer->options.most = 0;
    q->answer->kept_count = 0;
    study_fill_vessels(q);
}

/* Stopped while remedies were tried: the last of the list is what hands do. False: there is none yet. */
static bool keep_hands(study_question *q, study_remedies *remedies)
{
    if (remedies->count == 0 || remedies->list[remedies->count - 1].kind != FV_REMEDY_HANDS)
        return false;
    remedies->list[0] = remedies->list[remedies->count - 1];
    remedies->count = 1;
    q->answer->stopped = true;
    q->answer->options.most = 0;
    return true;
}

static bool try_all(study_question *q)
{
    fv_why_answer *a = q->answer;
    study_work first = {.threads = a->options.threads, .progress = q->progress, .to = 0.6, .caches = &q->caches},
               second = first;
    first.what = "trying each change";
    second.what = "sharing out the delay";
    second.from = first.to;
    second.to = 1;
    study_remedies remedies;
    if (!list_remedies(q, &remedies))
        return out_of_memory(q);
    const fv_change **changes = changes_of(q, &remedies);
    study_try *outcomes = fv_arena_alloc(a->arena, remedies.count + 1, sizeof *outcomes);
    if (!changes || !outcomes)
        return out_of_memory(q);
    study_ending ending = q->stopped ? STUDY_STOPPED : study_screen(q, &first, changes, remedies.count, outcomes);
    if (ending == STUDY_STOPPED && !keep_hands(q, &remedies))
        return false;
    if (ending == STUDY_STOPPED) { /* what hands were found to do, and nothing else */
        first.progress = NULL;
        changes[0] = &remedies.list[0].change;
        ending = study_screen(q, &first, changes, 1, outcomes);
    }
    if (!went_on(q, ending))
        return false;
    study_fill_vessels(q);
    if (!a->stopped) {
        study_choose_causes(q);
        ending = study_attribute(q, &second);
    }
    if (ending == STUDY_STOPPED)
        forget_causes(q);
    if (ending == STUDY_FAILED)
        return went_on(q, ending);
    if (!study_weigh_remedies(q, remedies.list, outcomes, remedies.count))
        return out_of_memory(q);
    study_choose_steps(q);
    return true;
}

/* Of the next step, where hands may miss anything of it. */
static bool find_slip(study_question *q)
{
    fv_why_answer *a = q->answer;
    const study_work work = {
        .threads = a->options.threads, .progress = q->progress, .from = 1, .to = 1, .what = "trying slips"};
    if (a->cheapest < 0 || a->stopped)
        return true;
    const fv_change *change = &a->remedies[a->cheapest].change;
    study_slips slips;
    if (!study_slips_list(change, a->arena, &slips))
        return out_of_memory(q);
    study_evaluator *e = slips.count > 0 ? study_evaluator_new(a->plant, &work) : NULL;
    if (!e)
        return slips.count == 0 || out_of_memory(q);
    const study_ask ask = {.change = change, .follow = true, .fineness = 1, .until = INFINITY};
    const study_outcome *planned;
    study_ending ending = study_evaluate(e, &ask, 1, &planned);
    if (ending == STUDY_DONE && planned->ran)
        ending = study_slips_worst(e, a->plant, change, planned, a->arena, &a->slip);
    a->runs += study_evaluator_runs(e);
    study_evaluator_free(e);
    return ending == STUDY_STOPPED || went_on(q, ending);
}

/* All cores in time are not yet all holds kept. */
static void find_unheld(study_question *q)
{
    fv_why_answer *a = q->answer;
    for (size_t i = 0; q->whole && a->in_time && !a->stopped && i < a->plant->vessel_count; i++)
        if (q->asked[i] && !isnan(q->whole->vessels[i].hold_broken))
            a->unheld = (int)i;
}

static bool answer_question(study_question *q)
{
    fv_why_answer *a = q->answer;
    if (!check_question(q) || !know_the_plant(q) || !try_all(q) || !find_slip(q))
        return false;
    find_unheld(q);
    if (!study_name_parts(q))
        return out_of_memory(q);
    if (a->now->at_first_steam &&
        !study_places_find(a->plant, a->now->at_first_steam, q->asked, a->arena, &a->places, &a->place_count))
        return out_of_memory(q);
    return true;
}

fv_why_answer *fv_why_run(const fv_plant *plant, const fv_why_options *options, const fv_progress *progress,
                          fv_faults *faults)
{
    if (!plant || !options) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_arena *arena;
    fv_why_answer *a = study_answer_new(sizeof *a, plant->loc, &arena, faults);
    if (!a)
        return NULL;
    *a = (fv_why_answer){.plant = plant,
                         .options = *options,
                         .arena = arena,
                         .best = -1,
                         .target = -1,
                         .unheld = -1,
                         .strongest = -1,
                         .cheapest = -1,
                         .slip = {.last = -1}};
    study_question q = {.answer = a, .progress = progress, .faults = faults};
    const bool good = answer_question(&q);
    fv_heat_free(q.whole);
    study_caches_free(&q.caches);
    if (good)
        return a;
    fv_why_free(a);
    return NULL;
}

void fv_why_free(fv_why_answer *answer)
{
    if (!answer)
        return;
    fv_heat_free(answer->now);
    fv_arena_free(answer->arena);
}
