/* SPDX-License-Identifier: MIT */
#include "study/objective.h"

#include <math.h>

static const double DAY = 86400;
static const double MINUTE = 60;      /* s: cores closer together come at the same time */
static const double WORK_CLASS = 0.5; /* hours of work that make no difference between plans */
static const double ATTENDED = 0.1;   /* of the wage: who minds a fire does other work beside it; common practice */
static const double SAME = 1e-6;      /* of a figure */
enum { KEYS = 10 };

double study_bill(const study_objective *objective, const study_effort *effort)
{
    return isnan(effort->money) ? INFINITY : effort->money + objective->wage * effort->minutes / 60;
}

double study_attended(double last)
{
    return ATTENDED * last / 3600;
}

/* Where time counts first, minding the fire is no work. */
static double bill_with_fire(const study_objective *objective, const study_scored *s)
{
    const double last = s->outcome->last; /* a core that never comes says nothing of what is cheaper */
    const double there = objective->goal == FV_PLAN_CHEAPEST && isfinite(last) ? study_attended(last) : 0;
    return study_bill(objective, &s->effort) + objective->wage * there;
}

/* Steps of half an hour's work: less is no reason to wait longer for a core. */
static double bill_class(const study_objective *objective, const study_scored *s)
{
    const double step = fmax(WORK_CLASS * objective->wage, SAME);
    return fmax(0, floor((bill_with_fire(objective, s) - objective->least) / step));
}

void study_count_bill(study_objective *objective, const study_scored *s)
{
    const study_outcome *o = s->outcome;
    if (objective->goal != FV_PLAN_CHEAPEST || !o || !o->ran || o->cut || o->late > 0 || o->unsafe > 0)
        return;
    const double bill = bill_with_fire(objective, s);
    objective->least = objective->least > 0 ? fmin(objective->least, bill) : isfinite(bill) ? bill : 0;
}

double study_mass_per_day(const study_objective *objective, const study_outcome *o)
{
    return isnan(o->done) ? 0 : o->mass / (o->done + objective->turnaround) * DAY;
}

bool study_holds_unbroken(const study_outcome *o)
{
    return !isfinite(o->expected) || o->done <= STUDY_HOLD_BROKEN * o->expected; /* a NaN is broken */
}

static bool breaks_holds(const study_outcome *o)
{
    return o->followed && !study_holds_unbroken(o);
}

bool study_goal_follows(fv_plan_goal goal)
{
    return goal == FV_PLAN_LEAST_FUEL || goal == FV_PLAN_MOST_OUTPUT;
}

static double or_never(double x)
{
    return isnan(x) ? INFINITY : x;
}

/* When the last hold ends, or would if none broke. */
static double ends(const study_outcome *o)
{
    return o->followed && o->late == 0 && !isnan(o->done) ? o->done : o->expected;
}

static bool is_uneven(const study_objective *objective, const study_outcome *o)
{
    return objective->spread_most > 0 && o->spread > objective->spread_most;
}

/* Smaller is better, the first that differs decides. */
static void keys_of(const study_objective *objective, const study_scored *s, double keys[KEYS])
{
    const study_outcome *o = s->outcome;
    const double hands = (double)(s->effort.before + s->effort.during), bill = bill_class(objective, s);
    const double time = objective->by_end ? ends(o) : o->last, last = floor((time + objective->each * hands) / MINUTE);
    const double ties[] = {hands, time + o->sum / DAY};
    const double by_goal[FV_PLAN_GOALS][3] = {
        [FV_PLAN_CHEAPEST] = {bill, last, or_never(o->fuel)},
        [FV_PLAN_EARLIEST] = {last, bill, or_never(o->fuel)},
        [FV_PLAN_MOST_EVEN] = {round(1e3 * o->spread), last, bill},
        [FV_PLAN_LEAST_FUEL] = {round(or_never(o->fuel) / 1e5), last, bill},
        [FV_PLAN_MOST_OUTPUT] = {-round(10 * study_mass_per_day(objective, o)), bill, last}};
    const double over = fmax(0, ends(o) - objective->span);
    const double rest[] = {floor((o->late ? o->lateness : 0) / MINUTE) + floor(fmin(over, DAY) / MINUTE),
                           by_goal[objective->goal][0], by_goal[objective->goal][1], by_goal[objective->goal][2]};
    const size_t broken = s->effort.broken + is_uneven(objective, o) + breaks_holds(o) + o->lifted;
    const double all[KEYS] = {(double)o->unsafe, o->cut,  (double)o->late, (double)broken, rest[0],
                              rest[1],           rest[2], ties[0],         rest[3],        ties[1]};
    for (size_t i = 0; i < KEYS; i++)
        keys[i] = all[i];
}

int study_compare(const study_objective *objective, const study_scored *a, const study_scored *b)
{
    const bool a_ran = a->outcome && a->outcome->ran, b_ran = b->outcome && b->outcome->ran;
    double x[KEYS], y[KEYS];
    if (!a_ran || !b_ran)
        return b_ran - a_ran;
    keys_of(objective, a, x);
    keys_of(objective, b, y);
    for (size_t i = 0; i < KEYS; i++)
        if (fabs(x[i] - y[i]) > SAME * fabs(y[i]) || isinf(x[i]) != isinf(y[i]))
            return x[i] < y[i] ? -1 : 1;
    return 0;
}

/* s that a plan's last core must not pass to be as early as the best, what there is to do counted in. */
static double as_early(const study_objective *objective, const study_scored *best, const study_effort *effort)
{
    const double more = (double)(best->effort.before + best->effort.during) - (double)(effort->before + effort->during);
    const double time = objective->by_end ? ends(best->outcome) - best->outcome->hold_least : best->outcome->last;
    return fmax(MINUTE, time + MINUTE + objective->each * more);
}

/* The same where money and work decide first: a later core costs a part of an hour's wage for each hour. */
static double as_cheap(const study_objective *objective, const study_scored *best, const study_effort *effort)
{
    const double step = fmax(WORK_CLASS * objective->wage, SAME), bill = study_bill(objective, effort),
                 class = objective->least + bill_class(objective, best) * step,
                 a_second = fmax(objective->wage * study_attended(1), 1e-9 * step);
    const double cheaper = (class - bill) / a_second, alike = (class + step - bill) / a_second;
    return isnan(cheaper) ? INFINITY : fmax(0, fmax(cheaper, fmin(alike, as_early(objective, best, effort))));
}

study_limits study_limits_to_win(const study_objective *objective, const study_scored *best, const study_effort *effort)
{
    const study_outcome *o = best->outcome;
    study_limits limits = {.until = INFINITY};
    if (!o || !o->ran || o->unsafe > 0 || o->cut)
        return limits;
    limits.late_ends = o->late + 1;
    /* one that is later may keep the limits */
    if (o->late > 0 || best->effort.broken > 0 || is_uneven(objective, o) || breaks_holds(o) ||
        ends(o) > objective->span || o->lifted > 0)
        return limits;
    if (objective->goal == FV_PLAN_EARLIEST)
        limits.until = as_early(objective, best, effort);
    else if (objective->goal == FV_PLAN_CHEAPEST)
        limits.until = as_cheap(objective, best, effort);
    return limits;
}

study_outcome study_outcome_hopeful(const study_outcome *o, double part)
{
    study_outcome h = *o;
    double *times[] = {&h.last, &h.expected, &h.done, &h.sum, &h.spread};
    for (size_t i = 0; i < sizeof times / sizeof *times; i++)
        *times[i] *= 1 - part;
    const double errs = isfinite(o->last) ? part * o->last : 0;
    if (o->lateness > 0 && o->lateness <= errs)
        h.late = 0;
    h.lateness -= fmin(h.lateness, errs);
    return h;
}
