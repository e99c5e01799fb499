/* SPDX-License-Identifier: MIT */
/* Pseudo-arclength continuation (H. B. Keller, in Applications of Bifurcation Theory, Academic Press 1977; from
 * memory): from a root of an easy problem F(x, a) = 0 along the curve of its roots to the parameter a that is wanted,
 * round folds where a turns back. a is the logarithm of the smoothing, or the share of velocity heads recovered. Slow,
 * and for the few plants that damped Newton does not solve. What is convected is brought up to date on the way; its
 * slope is left out. */
#include "steady/newton.h"

#include <math.h>
#include <string.h>

enum { ITERATIONS_MOST = 6000, CORRECTIONS = 12 };
static const double SMOOTHING_STEP = 1e-4, RECOVERY_STEP = 1e-4; /* for the slope by the parameter */
/* Lengths in the measure of the unknowns' scales and of the parameter: of the first, the longest and the shortest step
 * along the curve; and what a correction may be of the step and of the last correction, and anyway: coils at rest
 * do not settle to the last digit. */
static const double FIRST = 0.5, LONGEST = 3, SHORTEST = 1e-7, OF_STEP = 3, OF_LAST = 0.7, NOISE = 1e-3;
/* The next step by the corrections that this one took, very many of which tell of a hole at rest and not of the step;
 * and after none served. */
static const double BY_CORRECTIONS[CORRECTIONS] = {2, 2, 2, 1.3, 0.7, 0.7, 0.7, 1, 1, 1, 1, 1}, SHORTER = 0.4;
/* A curve that comes back here has no root of the thing itself on it. */
static const double SMOOTHING_OVER_FIRST = 2, RECOVERY_LEAST = -0.5;

typedef struct {
    fv_solver *s;
    steady_newton_log *log;
    steady_parameter parameter;
    double end, tolerance;
    double
        here; /* the parameter at s->work.base, a root; s->work.kept is the tangent there, with by_parameter along it */
    double by_parameter;
    bool begun;
} curve;

static double value_of(const curve *c)
{
    return c->parameter == STEADY_SMOOTHING ? log(c->s->state.smoothing) : c->s->state.recovery;
}

static void set(curve *c, double value)
{
    if (c->parameter == STEADY_SMOOTHING)
        c->s->state.smoothing = exp(value);
    else
        c->s->state.recovery = value;
}

/* Of two steps from x, in the measure of scales. */
static double product(const curve *c, const double *x, const double *a, const double *b)
{
    double sum = 0;
    for (int i = 0; i < c->s->net->unknown_count; i++) {
        const double scale = steady_scale_of(c->s, i, x[i]);
        sum += a[i] / scale * (b[i] / scale);
    }
    return sum;
}

/* At s->state.x: s->work.dx, Newton's step to the root at this parameter, and s->work.root_slope, how that root moves
 * with the parameter. */
static fv_status find_directions(curve *c)
{
    fv_solver *s = c->s;
    const int n = s->net->unknown_count;
    steady_stamps stamps = {.values = s->work.values, .capacity = s->net->entry_count};
    c->log->iterations++;
    steady_convect(s, s->state.x);
    steady_assemble(s, s->state.x, s->work.residual, &stamps);
    if (num_sparse_factor(s->work.sparse, s->work.values, &c->log->singular) != FV_OK)
        return FV_FAIL;
    const double value = value_of(c), more = c->parameter == STEADY_SMOOTHING ? SMOOTHING_STEP : RECOVERY_STEP;
    set(c, value + more);
    steady_assemble(s, s->state.x, s->work.root_slope, NULL);
    set(c, value - more);
    steady_assemble(s, s->state.x, s->work.trial, NULL);
    set(c, value);
    for (int i = 0; i < n; i++) {
        s->work.dx[i] = -s->work.residual[i];
        s->work.root_slope[i] = -(s->work.root_slope[i] - s->work.trial[i]) / (2 * more);
    }
    num_sparse_solve(s->work.sparse, s->work.dx);
    num_sparse_solve(s->work.sparse, s->work.root_slope);
    return FV_OK;
}

/* Towards the end at first, and then on without turning back. */
static fv_status find_tangent(curve *c)
{
    fv_solver *s = c->s;
    const int n = s->net->unknown_count;
    memcpy(s->state.x, s->work.base, (size_t)n * sizeof(double));
    set(c, c->here);
    if (find_directions(c) != FV_OK)
        return FV_FAIL;
    const double onward =
        c->begun ? product(c, s->state.x, s->work.root_slope, s->work.kept) + c->by_parameter : c->end - c->here;
    const double length = copysign(sqrt(product(c, s->state.x, s->work.root_slope, s->work.root_slope) + 1), onward);
    c->by_parameter = 1 / length;
    for (int i = 0; i < n; i++)
        s->work.kept[i] = s->work.root_slope[i] / length;
    c->begun = true;
    return isfinite(length) ? FV_OK : FV_FAIL;
}

/* From s->state.x onto the curve, across the tangent, or where `lands` at this very parameter. Returns how many
 * corrections that took; -1: they do not settle. */
static int correct(curve *c, double step, bool lands)
{
    fv_solver *s = c->s;
    const int n = s->net->unknown_count;
    double last = INFINITY;
    for (int k = 0; k < CORRECTIONS; k++) {
        if (find_directions(c) != FV_OK)
            return -1;
        const double along = product(c, s->work.base, s->work.kept, s->work.dx);
        const double turns = product(c, s->work.base, s->work.kept, s->work.root_slope) + c->by_parameter;
        const double change = lands ? 0 : -along / turns;
        for (int i = 0; i < n; i++)
            s->work.dx[i] += change * s->work.root_slope[i];
        const double size = sqrt(product(c, s->work.base, s->work.dx, s->work.dx) + change * change);
        if (!(size <= fmax(OF_LAST * last, NOISE) && size <= OF_STEP * step + NOISE))
            return -1;
        for (int i = 0; i < n; i++)
            s->state.x[i] += s->work.dx[i];
        set(c, value_of(c) + change);
        if (size < c->tolerance)
            return k;
        last = size;
    }
    return -1;
}

/* One step along the tangent, not beyond the end: true where it serves. */
static bool advance(curve *c, double *step)
{
    fv_solver *s = c->s;
    const int n = s->net->unknown_count;
    const double left = (c->end - c->here) / c->by_parameter;
    const bool lands = left > 0 && left <= *step;
    const double part = lands ? left : *step;
    for (int i = 0; i < n; i++)
        s->state.x[i] = s->work.base[i] + part * s->work.kept[i];
    set(c, lands ? c->end : c->here + part * c->by_parameter);
    const int corrections = correct(c, part, lands);
    const bool beyond = (c->end - c->here) * (c->end - value_of(c)) < 0;
    if (corrections < 0 || (beyond && !lands)) {
        *step = SHORTER * part;
        return false;
    }
    c->here = lands ? c->end : value_of(c);
    memcpy(s->work.base, s->state.x, (size_t)n * sizeof(double));
    *step = fmin(*step * BY_CORRECTIONS[corrections], LONGEST);
    return true;
}

fv_status steady_continue(fv_solver *s, steady_parameter parameter, double end, double tolerance,
                          steady_newton_log *newton)
{
    curve c = {.s = s,
               .log = newton,
               .parameter = parameter,
               .end = parameter == STEADY_SMOOTHING ? log(end) : end,
               .tolerance = tolerance};
    const double most_smoothing = SMOOTHING_OVER_FIRST * fmax(s->state.smoothing, 1);
    const int first = newton->iterations;
    double step = FIRST;
    c.here = value_of(&c);
    steady_scale_rows(s);
    s->work.water_in_jacobian = true;
    memcpy(s->work.base, s->state.x, (size_t)s->net->unknown_count * sizeof(double));
    while (c.here != c.end && newton->iterations - first < ITERATIONS_MOST && !steady_gives_up(s, newton) &&
           find_tangent(&c) == FV_OK) {
        while (!advance(&c, &step) && step > SHORTEST)
            ;
        if (step <= SHORTEST || s->state.smoothing > most_smoothing || s->state.recovery < RECOVERY_LEAST)
            break;
    }
    memcpy(s->state.x, s->work.base, (size_t)s->net->unknown_count * sizeof(double));
    set(&c, c.here);
    return c.here == c.end ? FV_OK : FV_FAIL;
}
