/* SPDX-License-Identifier: MIT */
/* The way of roots: from a root of an easy problem along the curve of the roots of ever less easy ones, round its folds
 * too, where the easiness must rise again for a while (pseudo-arclength continuation: H. B. Keller, in Applications of
 * Bifurcation Theory, Academic Press 1977; from memory). Slow and sure: for the few plants that Newton's method cannot
 * get into its grip otherwise. What travels with the steam is brought up to date on the way and has no slope here. */
#include "steady/newton.h"

#include <math.h>
#include <string.h>

enum { ITERATIONS_MOST = 6000, CORRECTIONS = 12 };
static const double SOFTNESS_STEP = 1e-4, RECOVERY_STEP = 1e-4; /* for the slope by the parameter */
/* Lengths in the measure of the unknowns' scales and of the parameter: of the first, the longest and the shortest step
 * along the curve; and what a correction may be of the step and of the last correction, and anyway: coils at rest
 * tremble. */
static const double FIRST = 0.5, LONGEST = 3, SHORTEST = 1e-7, OF_STEP = 3, OF_LAST = 0.7, TREMBLES = 1e-3;
/* The next step by the corrections that this one took, very many of which tell of a hole at rest and not of the step;
 * and after none served. */
static const double BY_CORRECTIONS[CORRECTIONS] = {2, 2, 2, 1.3, 0.7, 0.7, 0.7, 1, 1, 1, 1, 1}, SHORTER = 0.4;
/* A curve that comes back here has no root of the thing itself on it. */
static const double SOFTER_THAN_FIRST = 2, RECOVERS_LEAST = -0.5;

typedef struct {
    fv_solver *s;
    steady_newton_log *log;
    steady_parameter parameter;
    double end, tolerance;
    double here; /* the parameter at s->base, a root; s->kept is the tangent there, with by_parameter along it */
    double by_parameter;
    bool begun;
} path;

static double value_of(const path *p)
{
    return p->parameter == STEADY_SOFTNESS ? log(p->s->softness) : p->s->recovers;
}

static void set(path *p, double value)
{
    if (p->parameter == STEADY_SOFTNESS)
        p->s->softness = exp(value);
    else
        p->s->recovers = value;
}

/* Of two steps from x, in the measure of scales. */
static double product(const path *p, const double *x, const double *a, const double *b)
{
    double sum = 0;
    for (int i = 0; i < p->s->net->unknown_count; i++) {
        const double scale = steady_scale_of(p->s, i, x[i]);
        sum += a[i] / scale * (b[i] / scale);
    }
    return sum;
}

/* At s->x: s->dx, Newton's step to the root at this parameter, and s->turn, how that root moves with the parameter. */
static fv_status find_directions(path *p)
{
    fv_solver *s = p->s;
    const int n = s->net->unknown_count;
    steady_stamps stamps = {.values = s->values, .capacity = s->net->entry_count};
    p->log->iterations++;
    steady_carry(s, s->x);
    steady_assemble(s, s->x, s->residual, &stamps);
    if (num_sparse_factor(s->sparse, s->values, &p->log->singular) != FV_OK)
        return FV_FAIL;
    const double value = value_of(p), more = p->parameter == STEADY_SOFTNESS ? SOFTNESS_STEP : RECOVERY_STEP;
    set(p, value + more);
    steady_assemble(s, s->x, s->turn, NULL);
    set(p, value - more);
    steady_assemble(s, s->x, s->trial, NULL);
    set(p, value);
    for (int i = 0; i < n; i++) {
        s->dx[i] = -s->residual[i];
        s->turn[i] = -(s->turn[i] - s->trial[i]) / (2 * more);
    }
    num_sparse_solve(s->sparse, s->dx);
    num_sparse_solve(s->sparse, s->turn);
    return FV_OK;
}

/* Towards the end at first, and then on without turning back. */
static fv_status find_tangent(path *p)
{
    fv_solver *s = p->s;
    const int n = s->net->unknown_count;
    memcpy(s->x, s->base, (size_t)n * sizeof(double));
    set(p, p->here);
    if (find_directions(p) != FV_OK)
        return FV_FAIL;
    const double onward = p->begun ? product(p, s->x, s->turn, s->kept) + p->by_parameter : p->end - p->here;
    const double length = copysign(sqrt(product(p, s->x, s->turn, s->turn) + 1), onward);
    p->by_parameter = 1 / length;
    for (int i = 0; i < n; i++)
        s->kept[i] = s->turn[i] / length;
    p->begun = true;
    return isfinite(length) ? FV_OK : FV_FAIL;
}

/* From s->x onto the curve, across the tangent, or where `lands` at this very parameter. Returns how many corrections
 * that took; -1: they do not settle. */
static int correct(path *p, double step, bool lands)
{
    fv_solver *s = p->s;
    const int n = s->net->unknown_count;
    double last = INFINITY;
    for (int k = 0; k < CORRECTIONS; k++) {
        if (find_directions(p) != FV_OK)
            return -1;
        const double along = product(p, s->base, s->kept, s->dx);
        const double turns = product(p, s->base, s->kept, s->turn) + p->by_parameter;
        const double change = lands ? 0 : -along / turns;
        for (int i = 0; i < n; i++)
            s->dx[i] += change * s->turn[i];
        const double size = sqrt(product(p, s->base, s->dx, s->dx) + change * change);
        if (!(size <= fmax(OF_LAST * last, TREMBLES) && size <= OF_STEP * step + TREMBLES))
            return -1;
        for (int i = 0; i < n; i++)
            s->x[i] += s->dx[i];
        set(p, value_of(p) + change);
        if (size < p->tolerance)
            return k;
        last = size;
    }
    return -1;
}

/* One step along the tangent, not beyond the end: true where it serves. */
static bool advance(path *p, double *step)
{
    fv_solver *s = p->s;
    const int n = s->net->unknown_count;
    const double left = (p->end - p->here) / p->by_parameter;
    const bool lands = left > 0 && left <= *step;
    const double part = lands ? left : *step;
    for (int i = 0; i < n; i++)
        s->x[i] = s->base[i] + part * s->kept[i];
    set(p, lands ? p->end : p->here + part * p->by_parameter);
    const int corrections = correct(p, part, lands);
    const bool beyond = (p->end - p->here) * (p->end - value_of(p)) < 0;
    if (corrections < 0 || (beyond && !lands)) {
        *step = SHORTER * part;
        return false;
    }
    p->here = lands ? p->end : value_of(p);
    memcpy(s->base, s->x, (size_t)n * sizeof(double));
    *step = fmin(*step * BY_CORRECTIONS[corrections], LONGEST);
    return true;
}

fv_status steady_follow(fv_solver *s, steady_parameter parameter, double end, double tolerance,
                        steady_newton_log *newton)
{
    path p = {.s = s,
              .log = newton,
              .parameter = parameter,
              .end = parameter == STEADY_SOFTNESS ? log(end) : end,
              .tolerance = tolerance};
    const double softest = SOFTER_THAN_FIRST * fmax(s->softness, 1);
    const int most = newton->iterations + ITERATIONS_MOST;
    double step = FIRST;
    p.here = value_of(&p);
    steady_scale_rows(s);
    s->follows_water = true;
    memcpy(s->base, s->x, (size_t)s->net->unknown_count * sizeof(double));
    while (p.here != p.end && newton->iterations < most && find_tangent(&p) == FV_OK) {
        while (!advance(&p, &step) && step > SHORTEST)
            ;
        if (step <= SHORTEST || s->softness > softest || s->recovers < RECOVERS_LEAST)
            break;
    }
    memcpy(s->x, s->base, (size_t)s->net->unknown_count * sizeof(double));
    set(&p, p.here);
    return p.here == p.end ? FV_OK : FV_FAIL;
}
