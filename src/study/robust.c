/* SPDX-License-Identifier: MIT */
#include "study/robust.h"

#include "study/batch.h"

#include <math.h>
#include <string.h>

static const double LATER = 1.03; /* times the last core */
static const double MINUTE = 60;  /* s */
enum {
    ROUNDS = 6,
    NEAR_MOST = 160,
    WIDER_MOST = 3,
    SLIPPED = 4,
    TIGHTENED = 2 /* points of a round whose slips are all followed */
};

/* A point near the plan, followed roughly. */
typedef struct {
    int *point;
    const study_outcome *outcome;
    study_slips slips;
    const study_outcome **slipped;
    size_t harmed;   /* slips that do harm */
    double lateness; /* s, of these */
    size_t worst;
} near_point;

typedef struct {
    study_adviser *adviser;
    const study_objective *objective;
    const study_advice *plan;
    double fineness; /* of slips: rough at first, and in full where that was too rough */
    fv_arena *arena;
    near_point *list;
    size_t count;
} robust_search;

static size_t knobs(const robust_search *f)
{
    return f->adviser->handling.count;
}

static bool is_valve(const study_knob *knob)
{
    return knob->kind == STUDY_KNOB_OPEN || knob->kind == STUDY_KNOB_AT_FULL || knob->kind == STUDY_KNOB_AT_CORE;
}

static bool add_near(robust_search *f, const int *point)
{
    for (size_t i = 0; i < f->count; i++)
        if (memcmp(f->list[i].point, point, knobs(f) * sizeof *point) == 0)
            return true;
    if (f->count == NEAR_MOST)
        return true;
    near_point *p = &f->list[f->count++];
    *p = (near_point){.point = fv_arena_alloc(f->arena, knobs(f) + 1, sizeof *point)};
    if (p->point)
        memcpy(p->point, point, knobs(f) * sizeof *point);
    return p->point != NULL;
}

/* Valves that the plan turns `wider` places wider, all of a kind or one of them: the one of `vessel`. */
static bool add_wider(robust_search *f, const int *from, int wider, int vessel, study_knob_kind kind)
{
    const study_handling *h = &f->adviser->handling;
    int *point = fv_arena_alloc(f->arena, knobs(f) + 1, sizeof *point);
    if (!point)
        return false;
    memcpy(point, from, knobs(f) * sizeof *point);
    for (size_t i = 0; i < knobs(f); i++) {
        const bool one = vessel < 0 || h->knobs[i].vessel == (size_t)vessel;
        if (one && h->knobs[i].kind == kind && study_handling_turns(h, from, i))
            point[i] = point[i] > wider ? point[i] - wider : 1;
    }
    return add_near(f, point);
}

/* From `from`, where that slip does most harm. */
static bool add_round(robust_search *f, const int *from, int hit)
{
    const study_handling *h = &f->adviser->handling;
    int *point = fv_arena_alloc(f->arena, knobs(f) + 1, sizeof *point);
    bool good = point != NULL;
    f->count = 0;
    for (study_knob_kind kind = STUDY_KNOB_OPEN; kind <= STUDY_KNOB_AT_CORE && good; kind++)
        for (int wider = 1; wider <= WIDER_MOST && good; wider++)
            good = add_wider(f, from, wider, -1, kind) && (hit < 0 || add_wider(f, from, wider, hit, kind));
    for (size_t i = 0; i < knobs(f) && good; i++)
        for (int step = -1; step <= 1 && good; step += 2) {
            const int to = from[i] + step;
            if (!is_valve(&h->knobs[i]) || !study_handling_turns(h, from, i) || to < 1 || to >= h->knobs[i].places)
                continue;
            memcpy(point, from, knobs(f) * sizeof *point);
            point[i] = to;
            good = add_near(f, point);
        }
    return good;
}

/* As safe, with as many in time, at most 3 % later, and within the span where the plan is. */
static bool stays_near(const robust_search *f, const study_outcome *o)
{
    const study_outcome *planned = f->plan->score.outcome;
    const double span = f->objective->span;
    return o->ran && o->unsafe <= planned->unsafe && o->lifted <= planned->lifted && o->late <= planned->late &&
           o->last <= LATER * planned->last && (!(planned->done <= span) || o->expected <= span);
}

/* Followed, with what is out of the question taken out of the list, the earliest first. */
static study_ending follow_round(robust_search *f)
{
    study_batch batch;
    bool good = study_batch_open(&batch, f->count);
    for (size_t i = 0; i < batch.count; i++) {
        const study_advice near = {.given = f->plan->given, .point = f->list[i].point};
        study_advice_settings(f->adviser, &near, &batch.settings[i]);
    }
    const study_ending ending =
        good ? study_batch_evaluate(f->adviser->evaluator, &batch, false, STUDY_ROUGH) : STUDY_FAILED;
    size_t kept = 0;
    for (size_t i = 0; i < batch.count && ending == STUDY_DONE; i++) {
        const study_outcome *o = batch.outcomes[i];
        near_point p = f->list[i];
        p.outcome = o;
        if (!stays_near(f, o))
            continue;
        size_t at = kept++;
        for (; at > 0 && o->last < f->list[at - 1].outcome->last; at--)
            f->list[at] = f->list[at - 1];
        f->list[at] = p;
    }
    f->count = ending == STUDY_DONE ? kept : 0;
    study_batch_close(&batch);
    return ending;
}

/* Its slips; with `only` one alone, as that one is in this plan. */
static study_ending slip(robust_search *f, near_point *p, const fv_slip *only)
{
    study_settings settings = {.arena = f->arena};
    const study_advice near = {.given = f->plan->given, .point = p->point};
    study_slips slips;
    study_advice_settings(f->adviser, &near, &settings);
    if (settings.failed || !study_slips_list(&settings.change, f->arena, &slips))
        return STUDY_FAILED;
    for (size_t i = 0; i < slips.count && only; i++) {
        const fv_slip *s = &slips.list[i];
        if (s->kind != only->kind || strcmp(s->part ? s->part : "", only->part ? only->part : "") != 0 ||
            strcmp(s->after ? s->after : "", only->after ? only->after : "") != 0)
            continue;
        slips.list[0] = slips.list[i];
        slips.changes[0] = slips.changes[i];
        slips.count = 1;
    }
    p->slips = slips;
    p->slipped = fv_arena_alloc(f->arena, slips.count + 1, sizeof(study_outcome *));
    const study_ending ending =
        p->slipped ? study_slips_evaluate(f->adviser->evaluator, &slips, f->fineness, p->slipped) : STUDY_FAILED;
    p->harmed = p->worst = 0;
    p->lateness = 0;
    for (size_t i = 0; i < slips.count && ending == STUDY_DONE; i++) {
        const bool harm = study_slip_harm(f->adviser->plant, p->slipped[i], p->outcome) > 0;
        p->harmed += harm || !p->slipped[i]->ran; /* what could not be followed is not borne */
        p->lateness += harm ? p->slipped[i]->lateness : 0;
        if (study_slip_is_worse(f->adviser->plant, p->slipped[i], p->slipped[p->worst], p->outcome))
            p->worst = i;
    }
    return ending;
}

static bool is_more_robust(const near_point *a, const near_point *b)
{
    return a->harmed != b->harmed ? a->harmed < b->harmed : a->lateness < b->lateness;
}

/* The first of the round, by their last cores, whose slips all do no harm, else the one where they do least; only what
 * is earlier than `before` where that bears all already. */
static study_ending choose(robust_search *f, near_point *now, bool *better)
{
    const fv_slip worst = now->slips.list[now->worst];
    study_ending ending = STUDY_DONE;
    size_t slipped = 0;
    *better = false;
    near_point best = *now;
    for (size_t i = 0; i < f->count && slipped < SLIPPED && ending == STUDY_DONE && best.harmed > 0; i++) {
        near_point *p = &f->list[i];
        ending = slip(f, p, &worst);
        const study_outcome *against = now->slipped[now->worst];
        if (ending == STUDY_DONE && p->harmed > 0 && !(against->ran && p->lateness < against->lateness))
            continue;
        if (ending == STUDY_DONE)
            ending = slip(f, p, NULL);
        slipped++;
        if (ending == STUDY_DONE && is_more_robust(p, &best)) {
            best = *p;
            *better = true;
        }
    }
    *now = best;
    return ending;
}

static int hit_by(const robust_search *f, const near_point *p)
{
    const study_outcome *o = p->slipped[p->worst];
    for (size_t i = 0; i < f->adviser->plant->vessel_count && o->ran; i++)
        if (o->verdicts[i] == FV_STARVED && p->outcome->verdicts[i] != FV_STARVED)
            return (int)i;
    return -1;
}

/* Earlier by single places, as long as it stays robust. */
static study_ending tighten(robust_search *f, near_point *robust)
{
    study_ending ending = STUDY_DONE;
    for (bool better = true; better && ending == STUDY_DONE;) {
        better = false;
        if (!add_round(f, robust->point, -1))
            return STUDY_FAILED;
        ending = follow_round(f);
        for (size_t i = 0; i < f->count && i < TIGHTENED && ending == STUDY_DONE && !better; i++) {
            if (!(f->list[i].outcome->last <
                  robust->outcome->last - MINUTE)) /* nor where neither ever has its last core */
                break;
            ending = slip(f, &f->list[i], NULL);
            better = ending == STUDY_DONE && f->list[i].harmed == 0;
            if (better)
                *robust = f->list[i];
        }
    }
    return ending;
}

/* In full: rough runs may have missed something. */
static study_ending take(robust_search *f, const near_point *robust, study_advice *advice, bool *found)
{
    study_batch batch;
    fv_slip worst = {0};
    const study_advice near = {.given = advice->given, .point = robust->point};
    bool good = study_batch_open(&batch, 1);
    if (good)
        study_advice_settings(f->adviser, &near, &batch.settings[0]);
    study_ending ending = good ? study_batch_evaluate(f->adviser->evaluator, &batch, true, 1) : STUDY_FAILED;
    const study_outcome *o = ending == STUDY_DONE ? batch.outcomes[0] : NULL;
    if (o && stays_near(f, o) && study_holds_unbroken(o)) {
        ending =
            study_slips_worst(f->adviser->evaluator, f->adviser->plant, &batch.settings[0].change, o, f->arena, &worst);
        const bool known = worst.kind != FV_SLIP_NONE || worst.valves + worst.others == 0;
        *found = ending == STUDY_DONE && known && worst.late == 0 && !worst.lifts;
    }
    if (*found) {
        memmove(advice->point, robust->point, knobs(f) * sizeof *advice->point);
        advice->score.outcome = o;
    }
    study_batch_close(&batch);
    return ending;
}

static study_ending search(robust_search *f, study_advice *advice, bool *found)
{
    near_point now = {.point = advice->point, .outcome = advice->score.outcome};
    study_ending ending = slip(f, &now, NULL);
    bool better = true;
    for (size_t round = 0; round < ROUNDS && better && now.harmed > 0 && ending == STUDY_DONE; round++) {
        ending = add_round(f, now.point, hit_by(f, &now)) ? follow_round(f) : STUDY_FAILED;
        if (ending == STUDY_DONE)
            ending = choose(f, &now, &better);
    }
    if (ending == STUDY_DONE && now.harmed == 0 && now.point != advice->point)
        ending = tighten(f, &now);
    return ending == STUDY_DONE && now.harmed == 0 ? take(f, &now, advice, found) : ending;
}

study_ending study_make_robust(study_adviser *adviser, const study_objective *objective, study_advice *advice,
                               bool *found)
{
    static const double fineness[] = {STUDY_ROUGH, 1};
    robust_search f = {.adviser = adviser, .objective = objective, .plan = advice, .arena = fv_arena_new()};
    f.list = f.arena ? fv_arena_alloc(f.arena, NEAR_MOST + 1, sizeof *f.list) : NULL;
    study_ending ending = f.list ? STUDY_DONE : STUDY_FAILED;
    *found = false;
    for (size_t i = 0; i < 2 && ending == STUDY_DONE && !*found; i++) {
        f.fineness = fineness[i];
        ending = search(&f, advice, found);
    }
    fv_arena_free(f.arena);
    return ending;
}
