/* SPDX-License-Identifier: MIT */
/* What is shown: the best for the goal, then what nothing beats in money and work and in the last core at once. */
#include "study/outcome.h"
#include "study/plan/parts.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

static const double SOONER = 120;         /* s: a dearer plan must gain at least as much to be shown, and */
static const double SOONER_SHARE = 0.005; /* of the last core as much */
enum { ROWS_MOST = 7 };

/* The vessel whose event an action waits for; of the last core the vessel that has it. */
static size_t vessel_of(const fv_plant *plant, const char *after, const study_outcome *o)
{
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const char *id = plant->vessels[i]->part.id;
        if (strncmp(after, id, strlen(id)) == 0 && after[strlen(id)] == ' ')
            return i;
    }
    return study_last_vessel(o, plant->vessel_count);
}

/* The steps of the fire after all others. */
static bool add_fire(const fv_plant *plant, const study_outcome *o, bool instead, fv_arena *arena, fv_plan_row *row)
{
    const size_t count = row->change.action_count;
    fv_plan_step *steps = fv_arena_alloc(arena, row->step_count + count + 1, sizeof *steps);
    if (!steps)
        return false;
    if (row->step_count > 0)
        memcpy(steps, row->steps, row->step_count * sizeof *steps);
    for (size_t i = 0; i < count && o; i++) {
        const fv_change_action *a = &row->change.actions[i];
        if (!a->boiler)
            continue;
        const size_t vessel = vessel_of(plant, a->after, o);
        steps[row->step_count++] = (fv_plan_step){.action = instead ? FV_PLAN_FIRE_INSTEAD : FV_PLAN_FIRE_AT_CORE,
                                                  .part = a->boiler,
                                                  .vessel = (int)vessel,
                                                  .value = a->value,
                                                  .after = a->after,
                                                  .delay = a->at,
                                                  .time = (o->core ? o->core[vessel] : (double)NAN) + a->at};
    }
    row->steps = steps;
    return true;
}

static bool fill(const plan_question *q, const plan_candidate *c, fv_plan_row *row)
{
    const study_outcome *o = c->score.outcome;
    fv_arena *arena = q->answer->arena;
    study_settings settings = {.arena = arena};
    study_change_add(&settings, &c->given);
    study_handling_settings(&q->adviser.handling, c->point, &settings);
    study_change_add(&settings, &c->fire);
    *row = (fv_plan_row){.change = settings.change,
                         .move_count = c->move_count,
                         .money = c->score.effort.money,
                         .minutes = c->score.effort.minutes,
                         .before = c->score.effort.before,
                         .during = c->score.effort.during,
                         .broken = -1,
                         .last = INFINITY,
                         .done = NAN,
                         .fuel = NAN,
                         .fuel_full = c->fire.action_count > 0 ? c->fuel_full : NAN};
    row->moves = fv_arena_alloc(arena, c->move_count + 1, sizeof *row->moves);
    if (settings.failed || !row->moves ||
        !study_steps_of(&q->adviser.handling, c->point, o, arena, &row->steps, &row->step_count) ||
        !add_fire(q->answer->plant, o, c->leaves, arena, row))
        return false;
    for (size_t i = 0; i < c->move_count; i++)
        row->moves[i] = c->moves[i];
    if (!o || !o->ran)
        return true;
    const size_t n = q->answer->plant->vessel_count;
    double *times = fv_arena_alloc(arena, 3 * n + 1, sizeof *times);
    fv_verdict *verdicts = fv_arena_alloc(arena, n + 1, sizeof *verdicts);
    if (!times || !verdicts)
        return false;
    memcpy(times, o->core, n * sizeof *times);
    memcpy(times + n, o->opened, n * sizeof *times);
    memcpy(times + 2 * n, o->hold, n * sizeof *times);
    memcpy(verdicts, o->verdicts, n * sizeof *verdicts);
    row->ran = true;
    row->late = o->late;
    for (size_t i = 0; i < n; i++) {
        const bool kept = o->hold[i] <= STUDY_HOLD_BROKEN * (o->core[i] + q->answer->plant->vessels[i]->hold.v);
        if (isnan(o->core[i]) || kept)
            continue;
        row->late += o->verdicts[i] != FV_STARVED;
        row->broken = (int)i;
    }
    row->unsafe = o->unsafe;
    row->lifted = o->lifted;
    row->first = o->first;
    row->last = o->last;
    row->done = o->done;
    row->spread = o->spread;
    row->fuel = o->fuel;
    row->water = o->water;
    row->mass = o->mass;
    row->mass_per_day = study_mass_per_day(&q->objective, o);
    row->boiler_pressure = o->boiler_pressure;
    row->chamber_pressure = o->chamber_pressure;
    row->core = times;
    row->opened = times + n;
    row->hold = times + 2 * n;
    row->verdicts = verdicts;
    return true;
}

static bool ran(const plan_candidate *c)
{
    return c->score.outcome && c->score.outcome->ran;
}

/* Whether a is as good in everything and better in something. */
static bool dominates(const plan_question *q, const plan_candidate *a, const plan_candidate *b)
{
    const study_outcome *x = a->score.outcome, *y = b->score.outcome;
    const double bill_a = study_bill(&q->objective, &a->score.effort),
                 bill_b = study_bill(&q->objective, &b->score.effort);
    if (x->unsafe > y->unsafe || x->lifted > y->lifted || x->late > y->late || bill_a > bill_b)
        return false;
    const double slack = fmax(SOONER, SOONER_SHARE * (isfinite(y->last) ? y->last : 0));
    if (x->late < y->late && x->last <= y->last + slack)
        return true;
    return x->last < y->last || (x->last <= y->last + slack && bill_a < bill_b);
}

bool plan_is_beaten(const plan_question *q, size_t i)
{
    for (size_t j = 0; j < q->count; j++)
        if (j != i && ran(&q->list[j]) && dominates(q, &q->list[j], &q->list[i]))
            return true;
    return false;
}

/* In whatever order. */
static bool same_moves(const plan_candidate *a, const plan_candidate *b)
{
    size_t same = 0;
    for (size_t i = 0; i < a->move_count; i++)
        for (size_t j = 0; j < b->move_count; j++)
            same += a->moves[i] == b->moves[j];
    return a->move_count == b->move_count && same == a->move_count;
}

static bool is_shown(const plan_question *q, const size_t *shown, size_t count, size_t i)
{
    for (size_t k = 0; k < count; k++) {
        const plan_candidate *a = &q->list[shown[k]], *b = &q->list[i];
        if (shown[k] == i || (same_moves(a, b) && fabs(a->score.outcome->last - b->score.outcome->last) < SOONER))
            return true;
    }
    return false;
}

/* What leaves everything as it is has a row of its own. */
static bool does_nothing(const plan_candidate *c)
{
    return c->move_count == 0 && c->score.effort.before + c->score.effort.during == 0;
}

void plan_count_bills(plan_question *q)
{
    q->objective.least = 0;
    for (size_t i = 0; i < q->count; i++)
        study_count_bill(&q->objective, &q->list[i].score);
}

size_t plan_best(const plan_question *q)
{
    study_objective objective = q->objective;
    size_t best = 0;
    objective.each = STUDY_EACH;
    for (size_t i = 1; i < q->count; i++)
        if (ran(&q->list[i]) &&
            (!ran(&q->list[best]) || study_compare(&objective, &q->list[i].score, &q->list[best].score) < 0))
            best = i;
    return best;
}

bool plan_rows(plan_question *q, size_t best)
{
    fv_plan_answer *a = q->answer;
    size_t shown[ROWS_MOST], count = 0;
    const study_outcome *answer = q->list[best].score.outcome;
    shown[count++] = best;
    for (; count < ROWS_MOST;) { /* by last core, the cheapest of the front first */
        size_t next = SIZE_MAX;
        for (size_t i = 1; i < q->count; i++) {
            const study_scored *s = &q->list[i].score;
            if (!ran(&q->list[i]) || does_nothing(&q->list[i]) || s->outcome->unsafe > answer->unsafe ||
                s->outcome->lifted > answer->lifted || s->outcome->late > answer->late ||
                is_shown(q, shown, count, i) || plan_is_beaten(q, i))
                continue;
            if (next == SIZE_MAX ||
                study_bill(&q->objective, &s->effort) < study_bill(&q->objective, &q->list[next].score.effort))
                next = i;
        }
        if (next == SIZE_MAX)
            break;
        shown[count++] = next;
    }
    a->rows = fv_arena_alloc(a->arena, count, sizeof *a->rows);
    bool good = a->rows && fill(q, &q->list[0], &a->now);
    for (size_t i = 0; i < count && good; i++)
        good = fill(q, &q->list[shown[i]], &a->rows[a->row_count++]);
    a->gains = best != 0;
    return good;
}
