/* SPDX-License-Identifier: MIT */
/* What each remedy is worth, and which step to take next. */
#include "study/why/question.h"

#include "study/evaluate.h"
#include "study/objective.h"
#include "study/remedies.h"

#include <math.h>

static const double WORTH = 0.25;       /* of the best gain */
static const double WAGE = 20;          /* money for an hour's work, common practice */
static const double GAIN_LEAST = 300.0; /* s: less is no step worth taking */
static const double WORTH_TIME = 0.02;  /* of the time taken: nor is less than this */
static const double NEARLY = 0.8;       /* of the most gained: as good where nothing brings all in time */
static const double NOTICED = 60.0;     /* s by which the last vessel may come later and still count as no later */

/* When the last vessel has its core as things are. */
static double last_of_now(const study_question *q)
{
    double last = 0;
    for (size_t v = 0; v < q->answer->plant->vessel_count; v++)
        if (study_opens(q, v))
            last = fmax(last, study_by_clock(q, q->now.core[v]));
    return last;
}

static bool is_in_time(const study_question *q, const study_try *outcome)
{
    const fv_plant *plant = q->answer->plant;
    bool all = true;
    for (size_t v = 0; v < plant->vessel_count; v++)
        all = all && (!q->asked[v] || outcome->took[v] <= plant->vessels[v]->within.v); /* a NaN is late */
    return all;
}

static bool lifts_lid(const study_question *q, const study_try *outcome)
{
    bool any = false;
    for (size_t v = 0; v < q->answer->plant->vessel_count; v++)
        any = any || study_lifts_lid(outcome->chamber[v], study_lid_bears(q->now.chamber[v]));
    return any;
}

bool study_weigh_remedies(study_question *q, const fv_why_remedy *list, const study_try *outcomes, size_t count)
{
    fv_why_answer *a = q->answer;
    const size_t n = a->plant->vessel_count;
    a->remedies = fv_arena_alloc(a->arena, count + 1, sizeof *a->remedies);
    for (size_t i = 0; i < count && a->remedies; i++) {
        fv_why_remedy r = list[i];
        if (outcomes[i].failed) {
            a->remedies_failed++;
            continue;
        }
        r.core = outcomes[i].core;
        r.in_time = is_in_time(q, &outcomes[i]);
        r.pressure = outcomes[i].pressure;
        r.over_relief = outcomes[i].over_relief;
        r.lifts_lid = lifts_lid(q, &outcomes[i]);
        r.gain = fv_arena_alloc(a->arena, n + 1, sizeof(double));
        if (!r.gain)
            return false;
        for (size_t v = 0; v < n; v++) {
            if (!study_opens(q, v))
                continue;
            r.gain[v] = study_by_clock(q, q->now.core[v]) - study_by_clock(q, r.core[v]);
            r.slowest = isnan(r.core[v]) || isnan(r.slowest) ? (double)NAN : fmax(r.slowest, r.core[v]);
        }
        r.worth = a->options.vessel ? r.gain[a->target] : last_of_now(q) - study_by_clock(q, r.slowest);
        size_t place = a->remedy_count++;
        for (; place > 0 && a->remedies[place - 1].worth < r.worth; place--)
            a->remedies[place] = a->remedies[place - 1];
        a->remedies[place] = r;
    }
    return a->remedies != NULL;
}

/* Money and work together, in classes: half an hour's work makes no difference. */
static double bill_class(const study_question *q, const fv_why_remedy *r)
{
    const double money = study_remedy_money(r), hours = r->minutes / 60 + study_attended(study_by_clock(q, r->slowest));
    return isnan(money) ? INFINITY : floor((money + WAGE * hours) / (0.5 * WAGE));
}

/* True if `r` is the better step of the two; `most`: what the strongest gains. Taking some of the load out comes last:
 * it is no cure. */
static bool is_better_step(const study_question *q, const fv_why_remedy *r, const fv_why_remedy *than, double most)
{
    const bool less_load = r->kind == FV_REMEDY_LESS_LOAD, than_less = than->kind == FV_REMEDY_LESS_LOAD;
    if (less_load != than_less)
        return than_less;
    if (r->in_time != than->in_time)
        return r->in_time;
    const bool alike = fmin(r->worth, than->worth) >= NEARLY * most;
    if ((r->in_time || alike) && bill_class(q, r) != bill_class(q, than))
        return bill_class(q, r) < bill_class(q, than);
    return r->worth > than->worth;
}

static bool is_harmless(const study_question *q, const fv_why_remedy *r)
{
    return !r->over_relief && !r->lifts_lid && study_by_clock(q, r->slowest) <= last_of_now(q) + NOTICED;
}

void study_choose_steps(study_question *q)
{
    fv_why_answer *a = q->answer;
    const fv_why_vessel *target = &a->vessels[a->target];
    a->in_time = is_in_time(q, &q->now);
    const bool held_up = a->options.most > 0 ? target->first != FV_WHY_NOTHING : !study_is_fast(target);
    if (a->remedy_count == 0 || !held_up)
        return;
    double least = fmax(GAIN_LEAST, WORTH_TIME * target->took);
    for (size_t i = 0; i < a->remedy_count; i++) {
        const fv_why_remedy *r = &a->remedies[i];
        const bool cures = !a->in_time && r->in_time; /* then it need not gain as much as the strongest does */
        if (!is_harmless(q, r) || (r->worth < least && !cures))
            continue;
        if (a->strongest < 0) {
            a->strongest = (int)i;
            least = fmax(least, WORTH * r->worth);
        }
        if ((r->worth >= least || cures) &&
            (a->cheapest < 0 || is_better_step(q, r, &a->remedies[a->cheapest], a->remedies[a->strongest].worth)))
            a->cheapest = (int)i;
    }
}
