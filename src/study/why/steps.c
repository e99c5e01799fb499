/* SPDX-License-Identifier: MIT */
/* What each remedy is worth, and which step to take next. */
#include "study/why/question.h"

#include <math.h>

static const double WORTH = 0.25;       /* of the best gain */
static const double GAIN_LEAST = 300.0; /* s: less is no step worth taking */
static const double WORTH_TIME = 0.02;  /* of the time taken: nor is less than this */
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
        r.pressure = outcomes[i].pressure;
        r.over_relief = outcomes[i].over_relief;
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

static fv_why_cause cured_by(fv_remedy_kind kind)
{
    static const fv_why_cause causes[FV_REMEDIES] = {[FV_REMEDY_HOSE_BORE] = FV_WHY_HOSE,
                                                     [FV_REMEDY_HOSE_LENGTH] = FV_WHY_HOSE,
                                                     [FV_REMEDY_HEADER_BORE] = FV_WHY_HEADER,
                                                     [FV_REMEDY_COUPLINGS] = FV_WHY_FITTINGS,
                                                     [FV_REMEDY_VALVE_OPEN] = FV_WHY_FITTINGS,
                                                     [FV_REMEDY_VALVES_OTHERS] = FV_WHY_FITTINGS,
                                                     [FV_REMEDY_SAG] = FV_WHY_SAG,
                                                     [FV_REMEDY_WATER] = FV_WHY_WATER,
                                                     [FV_REMEDY_SUMP] = FV_WHY_WATER,
                                                     [FV_REMEDY_CLEAN] = FV_WHY_HOLES,
                                                     [FV_REMEDY_DRILL] = FV_WHY_HOLES,
                                                     [FV_REMEDY_DRILL_OTHERS] = FV_WHY_HOLES,
                                                     [FV_REMEDY_DRILL_ALL] = FV_WHY_HOLES,
                                                     [FV_REMEDY_BLANK_OTHERS] = FV_WHY_HOLES,
                                                     [FV_REMEDY_COIL_BORE] = FV_WHY_COIL,
                                                     [FV_REMEDY_LAG_LINES] = FV_WHY_LINE_LOSS,
                                                     [FV_REMEDY_SHELTER] = FV_WHY_LINE_LOSS,
                                                     [FV_REMEDY_LID] = FV_WHY_OPENINGS,
                                                     [FV_REMEDY_VENT] = FV_WHY_OPENINGS,
                                                     [FV_REMEDY_WALLS] = FV_WHY_WALLS,
                                                     [FV_REMEDY_FIRE] = FV_WHY_BOILER,
                                                     [FV_REMEDY_CONTROL] = FV_WHY_BOILER,
                                                     [FV_REMEDY_BOILER] = FV_WHY_BOILER,
                                                     [FV_REMEDY_LOOSE] = FV_WHY_LOAD,
                                                     [FV_REMEDY_LESS_LOAD] = FV_WHY_LOAD,
                                                     [FV_REMEDY_STAGGER] = FV_WHY_BOILER};
    return causes[kind];
}

/* True if `r` is the better step of the two: less effort; then, of what is bought, more time for the money; of the
 * rest, what cures the first cause; else more time. Taking some of the load out comes last: it is no cure. */
static bool is_better_step(const fv_why_remedy *r, const fv_why_remedy *than, fv_why_cause first)
{
    const bool less_load = r->kind == FV_REMEDY_LESS_LOAD, than_less = than->kind == FV_REMEDY_LESS_LOAD;
    if (less_load != than_less)
        return than_less;
    if (r->effort != than->effort)
        return r->effort < than->effort;
    const bool cures = cured_by(r->kind) == first, than_cures = cured_by(than->kind) == first;
    if (r->effort != FV_EFFORT_BUY)
        return cures != than_cures ? cures : r->worth > than->worth;
    const bool priced = r->cost > 0, than_priced = than->cost > 0;
    if (priced != than_priced)
        return priced;
    return priced ? r->worth / r->cost > than->worth / than->cost : r->worth > than->worth;
}

static bool is_harmless(const study_question *q, const fv_why_remedy *r)
{
    return !r->over_relief && study_by_clock(q, r->slowest) <= last_of_now(q) + NOTICED;
}

void study_choose_steps(study_question *q)
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
        if (r->worth >= least && (a->cheapest < 0 || is_better_step(r, &a->remedies[a->cheapest], target->first)))
            a->cheapest = (int)i;
    }
}
