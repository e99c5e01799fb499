/* SPDX-License-Identifier: MIT */
/* Damped Newton on all equations at once: J dx = -F, x <- x + part dx. The step is damped until the simplified Newton
 * correction, from the same factors, gets shorter (natural monotonicity test: P. Deuflhard, Newton Methods for
 * Nonlinear Problems, Springer 2004, section 3.3; from memory), which is invariant under scaling of the equations. */
#include "steady/newton.h"
#include "steady/smooth.h"

#include <math.h>
#include <string.h>

typedef struct {
    int iterations;
    double accept_below; /* scaled step at which a guess is good enough */
    double abort_above;  /* scaled step that after ABORT_AFTER steps ends the attempt */
    bool take_full_step; /* where no damping serves; else the attempt ends */
} damping_policy;
static const damping_policy POLICIES[] = {
    [STEADY_NEWTON_QUICK] = {.iterations = 30, .abort_above = 10, .take_full_step = true},
    [STEADY_NEWTON_PATIENT] = {.iterations = 120, .abort_above = INFINITY, .take_full_step = true},
    [STEADY_NEWTON_ROUGH] = {.iterations = 40, .abort_above = INFINITY, .accept_below = 1e-4},
    [STEADY_NEWTON_ANY] = {.iterations = 100, .abort_above = INFINITY, .accept_below = 1e-4, .take_full_step = true},
    [STEADY_NEWTON_FINE] = {.iterations = 40, .abort_above = INFINITY}};
enum { ROUNDS_MOST = 1000, ABORT_AFTER = 4 };
static const double WATER_IN_JACOBIAN = 0.3; /* scaled step from which the Jacobian knows how water changes */
/* Scaled: the step to come, estimated to be to this one as this is to the last. */
static const double STEP_SETTLED = 1e-9;
/* Relative change of what is convected: along a tree, and in circulation, which takes many rounds that change little
 * each. */
static const double CARRY_SETTLED = 1e-11, CIRCLES_SETTLED = 1e-15;
static const double BALANCE_SETTLED = 1e-10; /* of all steam: what a node's balance may leave */
static const double RESIDUAL_SETTLED = 1e-9; /* scaled: what the audit must be below */
static const double PART_LEAST = 0.01;       /* of a step: least damping factor */
static const double NEAR = 1e-4;             /* scaled step from which steps are no longer damped */
/* The same, where steps shorten by themselves to this share of the last; and after which factors are kept while they
 * do, with kept ones to that. */
static const double CLOSE_BY = 0.05, KEEPS = 2e-4, SHORTENS = 0.25, KEPT_SHORTENS = 0.01;
static const double GROWTH_ALLOWED = 5; /* of the simplified correction: a kink may lengthen it */
/* What bounds stand wider for each smoothing: Pa, and shares. */
static const double PRESSURE_WIDER = 20000, SHARE_WIDER = 4;
/* Of what boilers hold: suction that a fast stream may cause in a narrow bore. */
static const double SUCKS_MOST = 4;
/* Of its scale: a closed end that next to nothing moves in may ask for any pressure, and would upset all that is near
 * it already. */
static const double LEAP_MOST = 3;
static const double FLOW_GROWTH = 3;        /* that one step may bring a flow to, of itself and of all there is */
static const double PRESSURE_SCALE = 100.0; /* Pa: a typical drop */
static const double DENSITY_SCALE = 0.6;    /* kg/m3 */

void steady_scale_rows(fv_solver *s)
{
    const fv_network *net = s->net;
    const double flow = 1 / s->given.steam_scale, phi = 1 / (PRESSURE_SCALE * DENSITY_SCALE);
    for (int i = 0; i < net->unknown_count; i++)
        s->work.row_scale[i] = phi;
    for (int i = 0; i < net->node_count; i++)
        s->work.row_scale[i] = flow;
    double open = 0;
    for (size_t i = 0; i < net->vessel_count; i++)
        open += s->given.chambers[i].kind != FV_CHAMBER_SHUT;
    for (size_t i = 0; i < net->vessel_count; i++) {
        const steady_net_vessel *v = &net->vessels[i];
        const double one = s->given.steam_scale / (fmax(open, 1) * v->hole_count);
        for (int k = 0; k < v->hole_count; k++)
            s->work.row_scale[v->flow_unknown + 2 * k + 1] = 1 / (one * one);
        s->work.row_scale[v->chamber_unknown] = 1 / PRESSURE_SCALE;
        s->work.row_scale[v->head_unknown] = s->given.chambers[i].kind != FV_CHAMBER_SHUT ? 1 : 1 / PRESSURE_SCALE;
        if (s->given.chambers[i].kind == FV_CHAMBER_SHUT)
            s->work.row_scale[v->flow_unknown] = flow;
    }
    for (size_t i = 0; i < net->line_count; i++) {
        if (s->layout.form[i] == FORM_SHUT)
            s->work.row_scale[net->lines[i].unknown] = flow;
        if (net->lines[i].head_unknown >= 0)
            s->work.row_scale[net->lines[i].head_unknown] = 1;
    }
    for (size_t i = 0; i < net->boiler_group_count; i++)
        s->work.row_scale[net->boilers[i].unknown] = flow;
    for (int i = net->share_first; i < net->unknown_count; i++)
        s->work.row_scale[i] = 1; /* rows of water are scaled already */
}

static double norm(const fv_solver *s, const double *residual)
{
    double sum = 0;
    for (int i = 0; i < s->net->unknown_count; i++) {
        const double r = residual[i] * s->work.row_scale[i];
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
        return s->given.steam_scale;
    default:
        return 1;
    }
}

static double largest(const fv_solver *s, const double *dx)
{
    double most = 0;
    for (int i = 0; i < s->net->unknown_count; i++) {
        const double part = fabs(dx[i]) / steady_scale_of(s, i, s->state.x[i]);
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
        low = fmin(low, s->layout.dry_pressure[i]);
    for (size_t i = 0; i < net->boiler_group_count; i++)
        high = fmax(high, net->boilers[i].holds);
    for (size_t i = 0; i < net->vessel_count; i++)
        high = fmax(high, s->given.chambers[i].pressure + 1000 * FV_GRAVITY * s->given.chambers[i].water);
    const double margin = 1000 + SUCKS_MOST * (high - low) + 12 * net->height_range;
    s->layout.low = fmax(low - margin, -0.9 * net->site_pressure);
    s->layout.high = high + margin;
}

/* Smoothed limits are overstepped, so bounds stand wider. */
static void step_to(fv_solver *s, const double *base, double part)
{
    const double more = PRESSURE_WIDER * s->state.smoothing;
    const double wide =
        s->state.smoothing *
        (SHARE_WIDER + STEADY_RELAXATION * (s->layout.high - s->layout.low + 2 * more) / STEADY_SHARE_SPAN);
    double low[] = {[STEADY_A_PRESSURE] = fmax(s->layout.low - more, -0.9 * s->net->site_pressure),
                    [STEADY_A_SHARE] = -wide,
                    [STEADY_A_RATIO] = -INFINITY};
    double high[] = {
        [STEADY_A_PRESSURE] = s->layout.high + more, [STEADY_A_SHARE] = 1 + wide, [STEADY_A_RATIO] = INFINITY};
    for (int k = 0; k < s->net->unknown_count; k++) {
        const steady_measure measure = s->net->measure[k];
        if (measure == STEADY_A_FLOW) {
            high[STEADY_A_FLOW] = FLOW_GROWTH * fmax(s->given.steam_scale, fabs(base[k]));
            low[STEADY_A_FLOW] = -high[STEADY_A_FLOW];
        }
        double step = part * s->work.dx[k];
        if (measure == STEADY_A_PRESSURE && s->state.smoothing <= 0) {
            const double leap = LEAP_MOST * steady_scale_of(s, k, base[k]);
            step = fmin(fmax(step, -leap), leap);
        }
        const double next = base[k] + step;
        s->state.x[k] = next < low[measure] ? low[measure] : next > high[measure] ? high[measure] : next;
    }
}

static void assemble(fv_solver *s, bool jacobian)
{
    steady_stamps stamps = {.values = s->work.values, .capacity = s->net->entry_count};
    steady_assemble(s, s->state.x, s->work.residual, jacobian ? &stamps : NULL);
}

/* One Newton step, with the factors of the last one where they are kept: FV_FAIL where the Jacobian is singular or no
 * longer finite. */
static fv_status newton_direction(fv_solver *s, bool keep, steady_newton_log *log)
{
    const int n = s->net->unknown_count;
    if (!s->work.assembled) {
        steady_convect(s, s->state.x);
        assemble(s, !keep);
    }
    s->work.assembled = false;
    if (!keep && num_sparse_factor(s->work.sparse, s->work.values, &log->singular) != FV_OK)
        return FV_FAIL;
    for (int i = 0; i < n; i++)
        s->work.dx[i] = -s->work.residual[i];
    num_sparse_solve(s->work.sparse, s->work.dx);
    for (int i = 0; i < n; i++)
        if (!isfinite(s->work.dx[i]))
            return FV_FAIL;
    return FV_OK;
}

/* Damps the step until the simplified correction is no longer than allowed; false: not even the least factor serves,
 * and the full step is taken. */
static bool damp(fv_solver *s)
{
    const int n = s->net->unknown_count;
    memcpy(s->work.base, s->state.x, (size_t)n * sizeof(double));
    const double before = length(s, s->work.base, s->work.dx);
    for (double part = 1; part >= PART_LEAST;) {
        step_to(s, s->work.base, part);
        steady_convect(s, s->state.x);
        assemble(s, true); /* as the next step needs it if this one serves */
        for (int k = 0; k < n; k++)
            s->work.trial[k] = -s->work.residual[k];
        num_sparse_solve(s->work.sparse, s->work.trial);
        if (length(s, s->work.base, s->work.trial) <= (1 - 0.25 * part) * GROWTH_ALLOWED * before) {
            s->work.assembled = true;
            return true;
        }
        for (int k = 0; k < n; k++)
            s->work.trial[k] -= (1 - part) * s->work.dx[k];
        const double bent = 0.5 * before * part * part / length(s, s->work.base, s->work.trial);
        part *= fmax(fmin(bent / part, 0.5), 0.1);
    }
    step_to(s, s->work.base, 1);
    return false;
}

/* Whether all balances close in the flows themselves. */
static fv_status balances_close(fv_solver *s, steady_newton_log *log)
{
    assemble(s, true); /* the next solve begins here, and may want the slopes */
    log->residual = norm(s, s->work.residual);
    steady_imbalances(s, s->state.x, s->work.trial);
    double open = 0;
    for (int i = 0; i < s->net->node_count; i++)
        open = fmax(open,
                    fmax(fabs(s->work.trial[i]), fabs(s->work.residual[i] + s->layout.node_pinned[i] * s->state.x[i])));
    return log->residual < RESIDUAL_SETTLED * (1 + sqrt((double)s->net->unknown_count)) &&
                   open < BALANCE_SETTLED * s->state.steam_made
               ? FV_OK
               : FV_FAIL;
}

/* What is carried in circles settles in several rounds. */
static fv_status finish(fv_solver *s, steady_newton_log *log)
{
    for (int i = 0;
         i < ROUNDS_MOST && steady_convect(s, s->state.x) > (s->state.circles ? CIRCLES_SETTLED : CARRY_SETTLED); i++)
        ;
    return balances_close(s, log);
}

/* All of the step, or as much of it as serves. False: none does. */
static bool take_step(fv_solver *s, double size, double last)
{
    if (size >= NEAR && (size >= CLOSE_BY || size >= SHORTENS * last))
        return damp(s);
    step_to(s, s->state.x, 1);
    return true;
}

fv_status steady_newton(fv_solver *s, steady_newton_policy policy, steady_newton_log *log)
{
    const damping_policy *m = &POLICIES[policy];
    double last = 1;
    bool keep = s->state.warm; /* the factors of the last solve, whose solution this one starts from */
    steady_scale_rows(s);
    find_bounds(s);
    s->work.water_in_jacobian = s->state.warm;
    s->work.assembled = false;
    for (int i = 0; i < m->iterations && log->iterations < s->given.steps_most; i++) {
        log->iterations++;
        if (newton_direction(s, keep, log) != FV_OK)
            return FV_FAIL;
        double size = largest(s, s->work.dx);
        if (i == 0 && keep && size > CLOSE_BY) {
            if (newton_direction(s, false, log) != FV_OK)
                return FV_FAIL;
            size = largest(s, s->work.dx);
            keep = false;
        }
        s->work.water_in_jacobian = size < WATER_IN_JACOBIAN;
        if (size < m->accept_below)
            return FV_OK;
        if (i >= ABORT_AFTER && size > m->abort_above)
            return FV_FAIL;
        if (!take_step(s, size, last) && !m->take_full_step)
            return FV_FAIL;
        if (size * fmin(size / last, 1) < STEP_SETTLED && finish(s, log) == FV_OK)
            return FV_OK;
        keep = size < KEEPS && size < (keep ? KEPT_SHORTENS : SHORTENS) * last;
        last = size;
    }
    /* A pressure that next to nothing depends on may not settle to the last digit. */
    return policy == STEADY_NEWTON_PATIENT ? finish(s, log) : FV_FAIL;
}
