/* SPDX-License-Identifier: MIT */
/* Damped Newton on all equations at once, and the ways it is helped when the plain one stalls. */
#include "steady/newton.h"

#include <math.h>
#include <string.h>

enum { ITERATIONS_MOST = 60, HALVINGS_MOST = 12 };
static const double STEP_SETTLED = 1e-9;     /* relative to the flow and pressure scales; Newton then squares it */
static const double CARRY_SETTLED = 1e-11;   /* relative change of what travels with the steam */
static const double RESIDUAL_SETTLED = 1e-9; /* scaled: what the audit must be below */
static const double PRESSURE_SCALE = 100.0;  /* Pa: a typical drop */
static const double DENSITY_SCALE = 0.6;     /* kg/m3 */

void fv_scale_rows(fv_solver *s)
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
        const fv_net_vessel *v = &net->vessels[i];
        const double one = s->steam_scale / (fmax(open, 1) * v->hole_count);
        for (int k = 0; k < v->hole_count; k++)
            s->row_scale[v->flow_unknown + 2 * k + 1] = 1 / (one * one);
        s->row_scale[v->chamber_unknown] = s->chambers[i].kind == FV_CHAMBER_VENTED ? flow : 1 / PRESSURE_SCALE;
        if (s->chambers[i].kind == FV_CHAMBER_SHUT)
            s->row_scale[v->flow_unknown] = flow;
    }
    for (size_t i = 0; i < net->line_count; i++)
        if (s->form[i] == FORM_SHUT)
            s->row_scale[net->lines[i].unknown] = flow;
    for (size_t i = 0; i < net->boiler_group_count; i++)
        s->row_scale[net->boilers[i].unknown] = flow;
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

static bool is_pressure(const fv_network *net, int unknown)
{
    return net->pressure_unknown[unknown];
}

/* Longest part of the step that leaves every pressure above a third of what it is, absolute. */
static double longest_step(const fv_solver *s)
{
    double part = 1;
    for (int i = 0; i < s->net->unknown_count; i++)
        if (is_pressure(s->net, i)) {
            const double room = (s->net->site_pressure + s->x[i]) * (2.0 / 3.0);
            if (-s->dx[i] * part > room)
                part = room / -s->dx[i];
        }
    return part;
}

static double step_size(const fv_solver *s)
{
    double largest = 0;
    for (int i = 0; i < s->net->unknown_count; i++) {
        const double scale = is_pressure(s->net, i) ? fmax(fabs(s->x[i]), 1) : s->steam_scale;
        largest = fmax(largest, fabs(s->dx[i]) / scale);
    }
    return largest;
}

/* One Newton step: FV_FAIL where the Jacobian is singular or no longer finite. */
static fv_status newton_direction(fv_solver *s, fv_newton_log *log)
{
    fv_stamps stamps = {.values = s->values, .capacity = s->net->entry_count};
    fv_assemble(s, s->x, s->residual, &stamps);
    if (fv_sparse_factor(s->sparse, s->values, &log->singular) != FV_OK)
        return FV_FAIL;
    for (int i = 0; i < s->net->unknown_count; i++)
        s->dx[i] = -s->residual[i];
    fv_sparse_solve(s->sparse, s->dx);
    for (int i = 0; i < s->net->unknown_count; i++)
        if (!isfinite(s->dx[i]))
            return FV_FAIL;
    return FV_OK;
}

/* Halves the step until the residual falls; if it never does, takes the best tried. Leaves the residual of the new x.
 */
static double search(fv_solver *s, double before)
{
    const size_t bytes = (size_t)s->net->unknown_count * sizeof(double);
    double part = longest_step(s), best_part = part, best = INFINITY;
    for (int i = 0; i < HALVINGS_MOST; i++, part *= 0.5) {
        for (int k = 0; k < s->net->unknown_count; k++)
            s->trial[k] = s->x[k] + part * s->dx[k];
        fv_assemble(s, s->trial, s->residual, NULL);
        const double now = norm(s, s->residual);
        if (now < best) {
            best = now;
            best_part = part;
        }
        if (now <= (1 - 0.1 * part) * before)
            break;
    }
    for (int k = 0; k < s->net->unknown_count; k++)
        s->trial[k] = s->x[k] + best_part * s->dx[k];
    memcpy(s->x, s->trial, bytes);
    return best_part;
}

fv_status fv_newton(fv_solver *s, fv_newton_log *log)
{
    fv_scale_rows(s);
    double carry = fv_carry(s, s->x);
    for (int i = 0; i < ITERATIONS_MOST; i++) {
        log->iterations++;
        if (newton_direction(s, log) != FV_OK)
            return FV_FAIL;
        const double before = norm(s, s->residual);
        const double size = step_size(s);
        if (size < STEP_SETTLED && carry < CARRY_SETTLED) {
            for (int k = 0; k < s->net->unknown_count; k++)
                s->x[k] += s->dx[k];
            fv_carry(s, s->x);
            fv_assemble(s, s->x, s->residual, NULL);
            log->residual = norm(s, s->residual);
            return log->residual < RESIDUAL_SETTLED * (1 + sqrt((double)s->net->unknown_count)) ? FV_OK : FV_FAIL;
        }
        if (size < STEP_SETTLED || (i > 0 && before < 1e-7 && size < 1e-4)) {
            for (int k = 0; k < s->net->unknown_count; k++)
                s->x[k] += s->dx[k];
        } else {
            search(s, before);
        }
        carry = fv_carry(s, s->x);
    }
    fv_assemble(s, s->x, s->residual, NULL);
    log->residual = norm(s, s->residual);
    return FV_FAIL;
}
