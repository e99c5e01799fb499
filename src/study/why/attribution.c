/* SPDX-License-Identifier: MIT */
/* The delay of each vessel shared out among the causes, and ranked. */
#include "study/why/question.h"
#include "study/why/shapley.h"

#include <math.h>

enum { MOST = 10 };                              /* causes shared out: 1024 runs */
static const double HERE = 0.7, ELSEWHERE = 0.3; /* of what the cause costs */
static const double LEAST = 120.0;               /* s: less is no cause */
static const double FAST = 0.1;                  /* of the time taken: a smaller delay is none */
static const double ITS_OWN = 2;  /* times the best-fed vessel's delay: more than half of it is the vessel's own */
static const double ALIKE = 0.25; /* of the ideal time: loads that may be measured against each other */
static const double BOILER_WEIGHT = 0.8; /* a bigger boiler makes up for nearly any other cause: that one goes first */
static const double WEIGHT = 0.05;       /* of the delay: a smaller share is not counted */

double study_counted(const study_question *q, const study_try *try, size_t vessel)
{
    const double took = try->took[vessel];
    return took < q->answer->cap ? took : q->answer->cap; /* cap for NaN */
}

/* ---- which causes ---- */

/* What a cause changes where it matters most, as a part of that vessel's delay; 0 where that is too little. */
static double effect(const study_question *q, int cause, bool last)
{
    const study_try *with = last ? &q->last[cause] : &q->alone[cause], *without = last ? &q->full : &q->now;
    double most = 0;
    if (with->failed)
        return 0;
    for (size_t v = 0; v < q->answer->plant->vessel_count; v++) {
        const double delay = study_counted(q, &q->now, v) - study_counted(q, &q->full, v);
        const double change = fabs(study_counted(q, with, v) - study_counted(q, without, v));
        if (q->asked[v] && change >= fmax(LEAST, q->answer->options.matters * delay))
            most = fmax(most, change / fmax(delay, LEAST));
    }
    return most;
}

bool study_matters(const study_question *q, int cause)
{
    return effect(q, cause, false) > 0;
}

void study_choose_causes(study_question *q)
{
    fv_why_answer *a = q->answer;
    double effects[FV_WHY_CAUSES] = {0};
    bool kept[FV_WHY_CAUSES] = {false};
    for (int c = 0; c < FV_WHY_CAUSES; c++)
        if (q->present & study_cause_bit((fv_why_cause)c))
            effects[c] = fmax(effect(q, c, false), effect(q, c, true));
    for (size_t n = 0; n < a->options.most && n < MOST; n++) {
        int best = -1;
        for (int c = 0; c < FV_WHY_CAUSES; c++)
            if (!kept[c] && effects[c] > 0 && (best < 0 || effects[c] > effects[best]))
                best = c;
        if (best < 0)
            break;
        kept[best] = true;
    }
    for (int c = 0; c < FV_WHY_CAUSES; c++)
        if (kept[c])
            a->kept[a->kept_count++] = (fv_why_cause)c;
}

/* ---- all subsets ---- */

static study_causes causes_of(const fv_why_answer *a, size_t set)
{
    study_causes causes = 0;
    for (size_t i = 0; i < a->kept_count; i++)
        if (set >> i & 1)
            causes |= study_cause_bit(a->kept[i]);
    return causes;
}

/* Runs that the tries before have not made already: subsets of two and more. */
static bool is_known(const study_question *q, size_t set, const study_try **known)
{
    const fv_why_answer *a = q->answer;
    *known = NULL;
    if (set == 0)
        *known = &q->now;
    else if ((set & (set - 1)) == 0)
        for (size_t i = 0; i < a->kept_count; i++)
            if (set >> i & 1)
                *known = &q->alone[a->kept[i]];
    return *known != NULL;
}

/* tries[set] for all sets, in `arena`. */
static study_ending run_subsets(study_question *q, const study_work *plan, study_try **by_set)
{
    fv_why_answer *a = q->answer;
    const size_t sets = (size_t)1 << a->kept_count;
    study_try *all = fv_arena_alloc(a->arena, sets, sizeof *all);
    study_try *open = fv_arena_alloc(a->arena, sets, sizeof *open);
    size_t count = 0;
    if (!all || !open)
        return STUDY_FAILED;
    for (size_t set = 0; set < sets; set++) {
        const study_try *known;
        if (is_known(q, set, &known)) {
            all[set] = *known;
            continue;
        }
        open[count] = (study_try){.causes = causes_of(a, set), .only = -1, .until = q->until};
        if (!study_try_room(a->arena, a->plant->vessel_count, &open[count++]))
            return STUDY_FAILED;
    }
    const study_ending outcome = study_tries_run(&q->basis, plan, open, count);
    a->runs += count;
    count = 0;
    for (size_t set = 0; set < sets; set++) {
        const study_try *known;
        if (!is_known(q, set, &known))
            all[set] = open[count++];
    }
    *by_set = all;
    return outcome;
}

/* ---- what a vessel's shares mean ---- */

static void rank(fv_why_vessel *v, const double *weight, const fv_why_answer *a)
{
    for (size_t i = 0; i < a->kept_count; i++) {
        size_t place = i;
        for (; place > 0 && weight[v->order[place - 1]] < weight[a->kept[i]]; place--)
            v->order[place] = v->order[place - 1];
        v->order[place] = a->kept[i];
    }
    double sum = 0;
    for (size_t i = 0; i < a->kept_count; i++)
        sum += fmax(0, weight[v->order[i]]);
    v->count = 0;
    while (v->count < a->kept_count && weight[v->order[v->count]] > fmax(LEAST, WEIGHT * sum))
        v->count++;
}

/* With the first cause gone: what gains most then. */
static fv_why_cause next_after(const study_question *q, const study_try *by_set, size_t vessel, fv_why_cause first)
{
    const fv_why_answer *a = q->answer;
    size_t base = 0;
    for (size_t i = 0; i < a->kept_count; i++)
        if (a->kept[i] == first)
            base = (size_t)1 << i;
    const double took = study_counted(q, &by_set[base], vessel);
    double most = fmax(LEAST, WEIGHT * took);
    fv_why_cause next = FV_WHY_NOTHING;
    for (size_t i = 0; i < a->kept_count; i++) {
        const double gain = took - study_counted(q, &by_set[base | (size_t)1 << i], vessel);
        if (a->kept[i] != first && gain > most) {
            most = gain;
            next = a->kept[i];
        }
    }
    return next;
}

static double delay(const fv_why_vessel *v)
{
    return v->took - v->ideal;
}

bool study_is_fast(const fv_why_vessel *v)
{
    return v->arrives && delay(v) <= FAST * v->took;
}

static void judge(study_question *q, const study_try *by_set, size_t vessel)
{
    const fv_why_answer *a = q->answer;
    fv_why_vessel *v = &a->vessels[vessel];
    const fv_why_vessel *best = a->best >= 0 && (size_t)a->best != vessel ? &a->vessels[a->best] : NULL;
    double weight[FV_WHY_CAUSES];
    const bool alike = best && fabs(v->ideal - best->ideal) <= ALIKE * best->ideal;
    v->against_best = alike && delay(v) > ITS_OWN * fmax(0, delay(best)) + LEAST;
    for (int c = 0; c < FV_WHY_CAUSES; c++)
        weight[c] = v->share[c] - (v->against_best ? best->share[c] : 0);
    weight[FV_WHY_BOILER] *= v->against_best ? 0 : BOILER_WEIGHT;
    rank(v, weight, a);
    const bool any = a->kept_count > 0 && weight[v->order[0]] > 0;
    v->first = study_is_fast(v) || !any ? FV_WHY_NOTHING : v->order[0];
    v->next = v->first == FV_WHY_NOTHING ? FV_WHY_NOTHING : next_after(q, by_set, vessel, v->first);
}

/* Shares for every vessel, asked about or not: the best-fed one serves as a measure. */
static void share_out(study_question *q, const study_try *by_set)
{
    const fv_why_answer *a = q->answer;
    double worth[1 << MOST], value[MOST];
    const size_t sets = (size_t)1 << a->kept_count;
    for (size_t i = 0; i < a->plant->vessel_count; i++) {
        fv_why_vessel *v = &a->vessels[i];
        for (size_t set = 0; set < sets; set++)
            worth[set] = -study_counted(q, &by_set[set], i);
        study_shapley(a->kept_count, worth, value);
        for (size_t k = 0; k < a->kept_count; k++) {
            v->share[a->kept[k]] = value[k];
            v->last[a->kept[k]] = worth[sets - 1] - worth[(sets - 1) & ~((size_t)1 << k)];
        }
        v->small = -worth[sets - 1] - v->ideal;
    }
}

/* ---- here or elsewhere ---- */

/* Boilers, header and lines that lose heat are nobody's own. */
static bool has_place(fv_why_cause cause)
{
    return cause != FV_WHY_BOILER && cause != FV_WHY_HEADER && cause != FV_WHY_LINE_LOSS && cause != FV_WHY_NOTHING;
}

/* The first cause taken away only at the vessel itself: does that do it? */
static study_ending find_where(study_question *q, const study_work *plan)
{
    fv_why_answer *a = q->answer;
    const size_t n = a->plant->vessel_count;
    study_try *tries = fv_arena_alloc(a->arena, n + 1, sizeof *tries);
    size_t count = 0;
    if (!tries)
        return STUDY_FAILED;
    for (size_t i = 0; i < n; i++) {
        a->vessels[i].part_here = -1;
        if (!q->asked[i] || !has_place(a->vessels[i].first))
            continue;
        tries[count] = (study_try){.causes = study_cause_bit(a->vessels[i].first), .only = (int)i, .until = q->until};
        if (!study_try_room(a->arena, n, &tries[count++]))
            return STUDY_FAILED;
    }
    const study_ending outcome = study_tries_run(&q->basis, plan, tries, count);
    a->runs += count;
    for (size_t k = 0; k < count && outcome == STUDY_DONE; k++) {
        const size_t i = (size_t)tries[k].only;
        const double everywhere = a->vessels[i].alone[a->vessels[i].first];
        const double here = study_counted(q, &q->now, i) - study_counted(q, &tries[k], i);
        if (!tries[k].failed && everywhere > LEAST)
            a->vessels[i].part_here = here >= HERE * everywhere ? 1 : here <= ELSEWHERE * everywhere ? 0 : -1;
    }
    return outcome;
}

/* ---- what was not found ---- */

static size_t failures_without(const study_try *by_set, size_t sets, size_t bit)
{
    size_t count = 0;
    for (size_t set = 0; set < sets; set++)
        count += by_set[set].failed && !(set & bit);
    return count;
}

/* Takes the cause with this bit out of the game: the sets without it stay, in their order. */
static void leave_out(study_question *q, study_try *by_set, size_t index)
{
    fv_why_answer *a = q->answer;
    const size_t bit = (size_t)1 << index, sets = (size_t)1 << a->kept_count;
    size_t left = 0;
    for (size_t set = 0; set < sets; set++)
        if (!(set & bit))
            by_set[left++] = by_set[set];
    for (size_t i = index + 1; i < a->kept_count; i++)
        a->kept[i - 1] = a->kept[i];
    a->kept_count--;
}

/* Causes are left out, those first without which most of what failed is gone, until every set has a solution. */
static void leave_failures_out(study_question *q, study_try *by_set)
{
    fv_why_answer *a = q->answer;
    size_t sets = (size_t)1 << a->kept_count;
    size_t failed = failures_without(by_set, sets, 0);
    a->runs_failed += failed;
    while (failed > 0 && a->kept_count > 0) {
        size_t best = 0, fewest = sets;
        for (size_t i = 0; i < a->kept_count; i++) {
            const size_t left = failures_without(by_set, sets, (size_t)1 << i);
            if (left < fewest) {
                fewest = left;
                best = i;
            }
        }
        leave_out(q, by_set, best);
        sets /= 2;
        failed = failures_without(by_set, sets, 0);
    }
}

study_ending study_attribute(study_question *q, const study_work *plan)
{
    fv_why_answer *a = q->answer;
    const double middle = plan->from + 0.9 * (plan->to - plan->from);
    study_work subsets = *plan, where = *plan;
    study_try *by_set;
    subsets.to = where.from = middle;
    const study_ending outcome = run_subsets(q, &subsets, &by_set);
    if (outcome != STUDY_DONE)
        return outcome;
    leave_failures_out(q, by_set);
    share_out(q, by_set);
    for (size_t i = 0; i < a->plant->vessel_count; i++)
        if (q->asked[i])
            judge(q, by_set, i);
    return find_where(q, &where);
}
