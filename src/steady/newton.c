/* SPDX-License-Identifier: MIT */
/* Damped Newton on all equations at once. The step is damped so that the next one, foretold with the same matrix, gets
 * shorter (natural monotonicity: P. Deuflhard, Newton Methods for Nonlinear Problems, Springer 2004, section 3.3; from
 * memory): that test knows neither units nor scales of the equations. */
#include "steady/newton.h"
#include "steady/smooth.h"

#include <math.h>
#include <string.h>

/* wild: takes all of a step that no shortening serves; else gives up. */
typedef struct {
    int iterations;
    double enough,
        hopeless; /* scaled step: at which a guess is good, and which after HOPES steps tells that it never will */
    bool wild;
} manner;
static const manner MANNERS[] = {
    [STEADY_NEWTON_QUICK] = {.iterations = 30, .hopeless = 10, .wild = true},
    [STEADY_NEWTON_PATIENT] = {.iterations = 120, .hopeless = INFINITY, .wild = true},
    [STEADY_NEWTON_ROUGH] = {.iterations = 40, .hopeless = INFINITY, .enough = 1e-4},
    [STEADY_NEWTON_ANY] = {.iterations = 100, .hopeless = INFINITY, .enough = 1e-4, .wild = true},
    [STEADY_NEWTON_FINE] = {.iterations = 40, .hopeless = INFINITY}};
enum { ROUNDS_MOST = 1000, HOPES = 4 };
static const double FOLLOWS_WATER = 0.3; /* scaled step from which the Jacobian knows how water changes */
/* Scaled: the step foretold to come, if it is to this one as this is to the last. */
static const double STEP_SETTLED = 1e-9;
/* Relative change of what travels with the steam: along a tree, and in circles, which take many rounds that change
 * little each. */
static const double CARRY_SETTLED = 1e-11, CIRCLES_SETTLED = 1e-15;
static const double BALANCE_SETTLED = 1e-10; /* of all steam: what a node's balance may leave */
static const double RESIDUAL_SETTLED = 1e-9; /* scaled: what the audit must be below */
static const double PART_LEAST = 0.01;       /* of a step: where not even this serves, all of it is taken */
static const double NEAR = 1e-4;             /* scaled step from which full steps are taken unseen */
/* The same, where steps shorten by themselves to this share of the last; and after which factors are kept while they
 * do, with kept ones to that. */
static const double CLOSE_BY = 0.05, KEEPS = 2e-4, SHORTENS = 0.25, KEPT_SHORTENS = 0.01;
static const double GROWTH_ALLOWED = 5; /* of the foretold step: a kink may lengthen it */
/* What bounds stand wider for each softness: Pa, and shares. */
static const double PRESSURE_WIDER = 20000, SHARE_WIDER = 4;
/* Of what boilers hold: that a fast stream may suck in a narrow bore. */
static const double SUCKS_MOST = 4;
static const double FLOW_GROWTH = 3;        /* that one step may bring a flow to, of itself and of all there is */
static const double PRESSURE_SCALE = 100.0; /* Pa: a typical drop */
static const double DENSITY_SCALE = 0.6;    /* kg/m3 */

void steady_scale_rows(fv_solver *s)
{
    const fv_network *net = s->net;
    const double flow = 1 / s->steam_scale, phi = 1 / (PRESSURE_SCALE * DENSITY_SCALE);
    for (int i = 0; i < net->unknown_count; i++)
        s->row_scale[i] = phi;
    for (int i = 0; i < net->node_count; i++)
        s->row_scale[i] = flow;
    double open = 0;
    for (size_t i = 0; i < net->vessel_count; i++)
        open += s->chambers[i].kind != FV_CHAMBER_SHUT;
    for (size_t i = 0; i < net->vessel_count; i++) {
        const steady_net_vessel *v = &net->vessels[i];
        const double one = s->steam_scale / (fmax(open, 1) * v->hole_count);
        for (int k = 0; k < v->hole_count; k++)
            s->row_scale[v->flow_unknown + 2 * k + 1] = 1 / (one * one);
        s->row_scale[v->chamber_unknown] = 1 / PRESSURE_SCALE;
        s->row_scale[v->head_unknown] = s->chambers[i].kind != FV_CHAMBER_SHUT ? 1 : 1 / PRESSURE_SCALE;
        if (s->chambers[i].kind == FV_CHAMBER_SHUT)
            s->row_scale[v->flow_unknown] = flow;
    }
    for (size_t i = 0; i < net->line_count; i++) {
        if (s->form[i] == FORM_SHUT)
            s->row_scale[net->lines[i].unknown] = flow;
        if (net->lines[i].head_unknown >= 0)
            s->row_scale[net->lines[i].head_unknown] = 1;
    }
    for (size_t i = 0; i < net->boiler_group_count; i++)
        s->row_scale[net->boilers[i].unknown] = flow;
    for (int i = net->gives_first; i < net->unknown_count; i++)
        s->row_scale[i] = 1; /* rows of water are scaled already */
}

static double norm(const fv_solver *s, const double *residual)
{
    double sum = 0;
    for (int i = 0; i < s->net->unknown_count; i++) {
        const double r = residual[i] * s->row_scale[i];
        sum += r * r;
    }
    return sqrt(sum);
}

/* Scale of an unknown at x: its own pressure, not less than a typical drop; all flow there is; a whole share. Water
 * follows from the flows alone and is not counted. */
double steady_scale_of(const fv_solver *s, int unknown, double x)
{
    switch (s->net->measure[unknown]) {
    case STEADY_A_RATIO:
        return INFINITY;
    case STEADY_A_PRESSURE:
        return fabs(x) > PRESSURE_SCALE ? fabs(x) : PRESSURE_SCALE;
    case STEADY_A_FLOW:
        return s->steam_scale;
    default:
        return 1;
    }
}

static double largest(const fv_solver *s, const double *dx)
{
    double most = 0;
    for (int i = 0; i < s->net->unknown_count; i++) {
        const double part = fabs(dx[i]) / steady_scale_of(s, i, s->x[i]);
        most = part > most ? part : most;
    }
    return most;
}

static double length(const fv_solver *s, const double *base, const double *dx)
{
    double sum = 0;
    for (int i = 0; i < s->net->unknown_count; i++) {
        const double part = dx[i] / steady_scale_of(s, i, base[i]);
        sum += part * part;
    }
    return sqrt(sum);
}

/* No pressure of a solution lies beyond what boilers, chambers, water, columns and the speed in a tee can bring about.
 */
static void find_bounds(fv_solver *s)
{
    const fv_network *net = s->net;
    double low = 0, high = 0;
    for (int i = 0; i < net->node_count; i++)
        low = fmin(low, s->dry_pressure[i]);
    for (size_t i = 0; i < net->boiler_group_count; i++)
        high = fmax(high, net->boilers[i].holds);
    for (size_t i = 0; i < net->vessel_count; i++)
        high = fmax(high, s->chambers[i].pressure + 1000 * FV_GRAVITY * s->chambers[i].water);
    const double margin = 1000 + SUCKS_MOST * (high - low) + 12 * net->height_range;
    s->low = fmax(low - margin, -0.9 * net->site_pressure);
    s->high = high + margin;
}

/* Soft limits are overstepped, so bounds stand wider. */
static void step_to(fv_solver *s, const double *base, double part)
{
    const double more = PRESSURE_WIDER * s->softness;
    const double wide = s->softness * (SHARE_WIDER + STEADY_YIELDS * (s->high - s->low + 2 * more) / STEADY_SHARE_SPAN);
    double low[] = {[STEADY_A_PRESSURE] = fmax(s->low - more, -0.9 * s->net->site_pressure),
                    [STEADY_A_SHARE] = -wide,
                    [STEADY_A_RATIO] = -INFINITY};
    double high[] = {[STEADY_A_PRESSURE] = s->high + more, [STEADY_A_SHARE] = 1 + wide, [STEADY_A_RATIO] = INFINITY};
    for (int k = 0; k < s->net->unknown_count; k++) {
        const steady_measure measure = s->net->measure[k];
        if (measure == STEADY_A_FLOW) {
            high[STEADY_A_FLOW] = FLOW_GROWTH * fmax(s->steam_scale, fabs(base[k]));
            low[STEADY_A_FLOW] = -high[STEADY_A_FLOW];
        }
        const double next = base[k] + part * s->dx[k];
        s->x[k] = next < low[measure] ? low[measure] : next > high[measure] ? high[measure] : next;
    }
}

static void assemble(fv_solver *s, bool jacobian)
{
    steady_stamps stamps = {.values = s->values, .capacity = s->net->entry_count};
    steady_assemble(s, s->x, s->residual, jacobian ? &stamps : NULL);
}

/* One Newton step, with the factors of the last one where they are kept: FV_FAIL where the Jacobian is singular or no
 * longer finite. */
static fv_status newton_direction(fv_solver *s, bool keep, steady_newton_log *log)
{
    const int n = s->net->unknown_count;
    if (!s->assembled) {
        steady_carry(s, s->x);
        assemble(s, !keep);
    }
    s->assembled = false;
    if (!keep && num_sparse_factor(s->sparse, s->values, &log->singular) != FV_OK)
        return FV_FAIL;
    for (int i = 0; i < n; i++)
        s->dx[i] = -s->residual[i];
    num_sparse_solve(s->sparse, s->dx);
    for (int i = 0; i < n; i++)
        if (!isfinite(s->dx[i]))
            return FV_FAIL;
    return FV_OK;
}

/* Shortens the step until the foretold next one is no longer than allowed; false: not even the shortest serves, and all
 * of the step is taken. */
static bool search(fv_solver *s)
{
    const int n = s->net->unknown_count;
    memcpy(s->base, s->x, (size_t)n * sizeof(double));
    const double before = length(s, s->base, s->dx);
    for (double part = 1; part >= PART_LEAST;) {
        step_to(s, s->base, part);
        steady_carry(s, s->x);
        assemble(s, true); /* as the next step needs it if this one serves */
        for (int k = 0; k < n; k++)
            s->trial[k] = -s->residual[k];
        num_sparse_solve(s->sparse, s->trial);
        if (length(s, s->base, s->trial) <= (1 - 0.25 * part) * GROWTH_ALLOWED * before) {
            s->assembled = true;
            return true;
        }
        for (int k = 0; k < n; k++)
            s->trial[k] -= (1 - part) * s->dx[k];
        const double bent = 0.5 * before * part * part / length(s, s->base, s->trial);
        part *= fmax(fmin(bent / part, 0.5), 0.1);
    }
    step_to(s, s->base, 1);
    return false;
}

/* Whether all balances close in the flows themselves. */
static fv_status closes(fv_solver *s, steady_newton_log *log)
{
    steady_assemble(s, s->x, s->residual, NULL);
    log->residual = norm(s, s->residual);
    steady_imbalances(s, s->x, s->trial);
    double open = 0;
    for (int i = 0; i < s->net->node_count; i++)
        open = fmax(open, fmax(fabs(s->trial[i]), fabs(s->residual[i] + s->node_pinned[i] * s->x[i])));
    return log->residual < RESIDUAL_SETTLED * (1 + sqrt((double)s->net->unknown_count)) &&
                   open < BALANCE_SETTLED * s->steam_made
               ? FV_OK
               : FV_FAIL;
}

/* What is carried in circles settles in several rounds. */
static fv_status finish(fv_solver *s, steady_newton_log *log)
{
    for (int i = 0; i < ROUNDS_MOST && steady_carry(s, s->x) > (s->circles ? CIRCLES_SETTLED : CARRY_SETTLED); i++)
        ;
    return closes(s, log);
}

/* All of the step, or as much of it as serves. False: none does. */
static bool take_step(fv_solver *s, double size, double last)
{
    if (size >= NEAR && (size >= CLOSE_BY || size >= SHORTENS * last))
        return search(s);
    step_to(s, s->x, 1);
    return true;
}

fv_status steady_newton(fv_solver *s, steady_newton_how how, steady_newton_log *log)
{
    const manner *m = &MANNERS[how];
    double last = 1;
    bool keep = s->warm; /* the factors of the last solve, whose solution this one starts from */
    steady_scale_rows(s);
    find_bounds(s);
    s->follows_water = s->warm;
    s->assembled = false;
    for (int i = 0; i < m->iterations; i++) {
        log->iterations++;
        if (newton_direction(s, keep, log) != FV_OK)
            return FV_FAIL;
        double size = largest(s, s->dx);
        if (i == 0 && keep && size > CLOSE_BY) {
            if (newton_direction(s, false, log) != FV_OK)
                return FV_FAIL;
            size = largest(s, s->dx);
            keep = false;
        }
        s->follows_water = size < FOLLOWS_WATER;
        if (size < m->enough)
            return FV_OK;
        if (i >= HOPES && size > m->hopeless)
            return FV_FAIL;
        if (!take_step(s, size, last) && !m->wild)
            return FV_FAIL;
        if (size * fmin(size / last, 1) < STEP_SETTLED && finish(s, log) == FV_OK)
            return FV_OK;
        keep = size < KEEPS && size < (keep ? KEPT_SHORTENS : SHORTENS) * last;
        last = size;
    }
    /* A pressure that next to nothing depends on may go on trembling. */
    return how == STEADY_NEWTON_PATIENT ? finish(s, log) : FV_FAIL;
}
