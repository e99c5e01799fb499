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

/* Money and work together; NaN: a price is not known. */
static double bill_of(const study_question *q, const fv_why_remedy *r)
{
    const double hours = r->minutes / 60 + study_attended(study_by_clock(q, r->slowest));
    return study_remedy_money(r) + WAGE * hours;
}

/* In classes from the least bill on: half an hour's work makes no difference. */
static double bill_class(double bill, double least)
{
    return isnan(bill) ? INFINITY : floor((bill - least) / (0.5 * WAGE));
}

/* What steps are measured by. */
typedef struct {
    double most;  /* s: what the strongest gains */
    double least; /* bill of the cheapest */
} measure;

/* True if `r` is the better step of the two. Taking some of the load out comes last: it is no cure. */
static bool is_better_step(const study_question *q, const fv_why_remedy *r, const fv_why_remedy *than,
                           const measure *by)
{
    const bool less_load = r->kind == FV_REMEDY_LESS_LOAD, than_less = than->kind == FV_REMEDY_LESS_LOAD;
    if (less_load != than_less)
        return than_less;
    if (r->in_time != than->in_time)
        return r->in_time;
    const bool alike = fmin(r->worth, than->worth) >= NEARLY * by->most;
    const double bill = bill_class(bill_of(q, r), by->least), other = bill_class(bill_of(q, than), by->least);
    if ((r->in_time || alike) && bill != other)
        return bill < other;
    return r->worth > than->worth;
}

static bool is_harmless(const study_question *q, const fv_why_remedy *r)
{
    return !r->over_relief && !r->lifts_lid && study_by_clock(q, r->slowest) <= last_of_now(q) + NOTICED;
}

/* Worth the trouble, `most`: what the strongest gains; what cures need not gain as much as that. */
static bool is_step(const study_question *q, const fv_why_remedy *r, double most)
{
    const fv_why_answer *a = q->answer;
    const double least = fmax(fmax(GAIN_LEAST, WORTH_TIME * a->vessels[a->target].took), WORTH * most);
    return is_harmless(q, r) && (r->worth >= least || (!a->in_time && r->in_time));
}

/* The least bill of the steps that bring all in time; where none does, of those that gain nearly the most. */
static double least_bill(const study_question *q, double most)
{
    const fv_why_answer *a = q->answer;
    double least[2] = {INFINITY, INFINITY};
    for (size_t i = 0; i < a->remedy_count; i++) {
        const fv_why_remedy *r = &a->remedies[i];
        const double bill = bill_of(q, r);
        if (r->kind == FV_REMEDY_LESS_LOAD || !is_step(q, r, most))
            continue;
        if (r->in_time)
            least[0] = fmin(least[0], bill); /* a NaN is passed over */
        if (r->worth >= NEARLY * most)
            least[1] = fmin(least[1], bill);
    }
    return isfinite(least[0]) ? least[0] : isfinite(least[1]) ? least[1] : 0;
}

void study_choose_steps(study_question *q)
{
    fv_why_answer *a = q->answer;
    const fv_why_vessel *target = &a->vessels[a->target];
    a->in_time = is_in_time(q, &q->now);
    const bool held_up = a->options.most > 0 ? target->first != FV_WHY_NOTHING : !study_is_fast(target);
    for (size_t i = 0; i < a->remedy_count && held_up && a->strongest < 0; i++) /* the largest worth first */
        a->strongest = is_step(q, &a->remedies[i], 0) ? (int)i : -1;
    if (a->strongest < 0)
        return;
    const double most = a->remedies[a->strongest].worth;
    const measure by = {.most = most, .least = least_bill(q, most)};
    for (size_t i = 0; i < a->remedy_count; i++) {
        const fv_why_remedy *r = &a->remedies[i];
        if (is_step(q, r, most) && (a->cheapest < 0 || is_better_step(q, r, &a->remedies[a->cheapest], &by)))
            a->cheapest = (int)i;
    }
}
