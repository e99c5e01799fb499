/* SPDX-License-Identifier: MIT */
/* What is worth showing: each dearer choice has to gain over all that is cheaper. */
#include "study/size/parts.h"

#include <math.h>

static const double GAIN = 0.03;  /* of the figure that the goal is about: less is not worth the money */
static const double UNPRICED = 1; /* hours of work that a thing without a price counts: what hands do comes first */

static bool ran(const size_solution *s)
{
    return s->score.outcome && s->score.outcome->ran;
}

static double bill(const size_question *q, const size_solution *s)
{
    const double money = isnan(s->score.effort.money) ? 0 : s->score.effort.money;
    const size_candidate *c = q->pool.list[s->candidate];
    return money + q->objective.wage * (s->score.effort.minutes / 60 + UNPRICED * (double)c->unpriced);
}

static double figure(const size_question *q, const size_solution *s)
{
    const study_outcome *o = s->score.outcome;
    switch (q->answer->options.goal) {
    case FV_SIZE_FOR_SPREAD:
        return o->spread;
    case FV_SIZE_FOR_FUEL:
        return o->fuel;
    default:
        return o->last;
    }
}

/* Nothing that makes anything worse than it is now by a limit, a lid or a late vessel. */
static bool may_be_shown(const size_question *q, const size_solution *s)
{
    const study_outcome *now = q->list[0].score.outcome, *o = s->score.outcome;
    if (!ran(s) || o->cut || s->candidate >= q->pool.count || size_is_out(q->pool.list[s->candidate]))
        return false;
    if (!ran(&q->list[0]))
        return true;
    return o->unsafe <= now->unsafe && o->late <= now->late &&
           o->spread <= fmax(q->answer->options.limits.spread_most, now->spread);
}

/* Fewer late, or the figure clearly better. */
static bool gains_over(const size_question *q, const size_solution *s, const size_solution *best)
{
    if (!ran(best))
        return true;
    const study_outcome *a = s->score.outcome, *b = best->score.outcome;
    if (a->unsafe != b->unsafe || a->late != b->late)
        return a->unsafe < b->unsafe || (a->unsafe == b->unsafe && a->late < b->late);
    const double now = figure(q, best), then = figure(q, s);
    return isfinite(now) ? then < (1 - GAIN) * now : isfinite(then);
}

static void sort(size_question *q)
{
    for (size_t i = 2; i < q->count; i++)
        for (size_t j = i; j > 1; j--) {
            const double a = bill(q, &q->list[j]), b = bill(q, &q->list[j - 1]);
            if (a > b || (a == b && study_compare(&q->objective, &q->list[j].score, &q->list[j - 1].score) >= 0))
                break;
            const size_solution s = q->list[j];
            q->list[j] = q->list[j - 1];
            q->list[j - 1] = s;
        }
}

/* Evenly from the cheapest to the dearest, both among them. */
static void thin(size_question *q, size_t most)
{
    const size_t found = q->count - 1;
    if (found <= most)
        return;
    for (size_t i = 0; i < most; i++)
        q->list[1 + i] = q->list[1 + i * (found - 1) / (most - 1)];
    q->count = 1 + most;
}

void size_front(size_question *q, size_t most)
{
    size_t kept = 1;
    sort(q);
    for (size_t i = 1; i < q->count; i++)
        if (may_be_shown(q, &q->list[i]) && gains_over(q, &q->list[i], &q->list[kept - 1]))
            q->list[kept++] = q->list[i];
    q->count = kept;
    thin(q, most);
}

/* The last of the front gains most; the cheapest is the first that no later one betters in what must be. */
size_t size_front_best(const size_question *q)
{
    size_t best = q->count - 1;
    const study_outcome *last = q->list[best].score.outcome;
    while (q->answer->options.goal == FV_SIZE_FOR_COST && best > 0 && ran(&q->list[best - 1]) &&
           q->list[best - 1].score.outcome->late == last->late &&
           q->list[best - 1].score.outcome->unsafe == last->unsafe)
        best--;
    return best;
}
