/* SPDX-License-Identifier: MIT */
/* Phi(p + dp) - Phi(p): the integral of the table's vapour density over pressure.
 *
 * Given: p and dp (Pa), of either sign and any size. Returned: kg/m3 Pa.
 * Exact for the very function that fv_sat_rho_g returns, tangents and tail included.
 * Precision: dp is never rebuilt from two pressures. Within a cell the integral is dp times a mean that is even in
 * dp about the middle of the step, so steps of 1e-9 Pa keep full relative precision and the two directions agree to
 * rounding. A step over several cells adds the two partial cells and whole cells between. */
#include "props/sat.h"

#include <math.h>

static int piece_of(const fv_sat *sat, double p)
{
    double unused;
    uint32_t cell = props_sat_cell(p, &unused);
    if (cell < PROPS_SAT_P_CELLS)
        return PROPS_SAT_FIRST + (int)cell;
    if (p < sat->p_tail)
        return PROPS_SAT_TAIL;
    return p < PROPS_SAT_P_LOW ? PROPS_SAT_BELOW : PROPS_SAT_ABOVE;
}

static double lower_edge(const fv_sat *sat, int piece)
{
    if (piece == PROPS_SAT_BELOW)
        return sat->p_tail;
    uint64_t bits = (uint64_t)(piece - PROPS_SAT_FIRST + PROPS_SAT_P_FIRST) << PROPS_SAT_P_SHIFT;
    double edge;
    memcpy(&edge, &bits, sizeof edge);
    return edge;
}

static double linear(const props_sat_end *end, double distance, double dp)
{
    return dp * (end->value + end->slope * (distance + dp / 2));
}

/* Of the hyperbola -value/(4 y), y = slope distance / value. */
static double tail(const props_sat_end *end, double distance, double dp)
{
    return -end->value * end->value / (4 * end->slope) * log1p(dp / distance);
}

/* Over (m - e, m + e), e = dp/2: the odd derivatives cancel. */
static double polynomial(const props_sat_poly *poly, double start, double dp)
{
    const double *c = poly->c;
    double e = dp / 2, m = start + e, m2 = m * m, e2 = e * e;
    double value = (c[0] + c[1] * m) + m2 * ((c[2] + c[3] * m) + m2 * (c[4] + c[5] * m));
    double second = (c[2] + 3 * c[3] * m) + m2 * (6 * c[4] + 10 * c[5] * m);
    double fourth = c[4] + 5 * c[5] * m;
    return dp * (value + e2 * (second / 3 + e2 / 5 * fourth));
}

/* Phi(p + dp) - Phi(p) where both ends lie in the same piece, or on its edges. */
static double within(const fv_sat *sat, int piece, double p, double dp)
{
    switch (piece) {
    case PROPS_SAT_TAIL:
        return tail(&sat->p_low[PROPS_SAT_RHO_G], p - PROPS_SAT_P_LOW, dp);
    case PROPS_SAT_BELOW:
        return linear(&sat->p_low[PROPS_SAT_RHO_G], p - PROPS_SAT_P_LOW, dp);
    case PROPS_SAT_ABOVE:
        return linear(&sat->p_high[PROPS_SAT_RHO_G], p - PROPS_SAT_P_HIGH, dp);
    default:
        return polynomial(&sat->by_p[piece - PROPS_SAT_FIRST][PROPS_SAT_RHO_G], p - lower_edge(sat, piece), dp);
    }
}

void props_sat_build_phi(fv_sat *sat)
{
    const props_sat_end *low = &sat->p_low[PROPS_SAT_RHO_G];
    sat->p_tail = PROPS_SAT_P_LOW - 0.5 * low->value / low->slope;
    sat->phi[PROPS_SAT_BELOW] = 0;
    for (int k = PROPS_SAT_BELOW; k < PROPS_SAT_ABOVE; k++) {
        double edge = lower_edge(sat, k);
        sat->phi[k + 1] = sat->phi[k] + within(sat, k, edge, lower_edge(sat, k + 1) - edge);
    }
}

double fv_sat_phi_step(const fv_sat *sat, double p, double dp)
{
    if (!sat)
        return (double)NAN;
    double d, unused;
    uint32_t cell = props_sat_cell(p, &d);
    if (cell < PROPS_SAT_P_CELLS && cell == props_sat_cell(p + dp, &unused))
        return polynomial(&sat->by_p[cell][PROPS_SAT_RHO_G], d, dp); // nearly always

    int from = piece_of(sat, p), to = piece_of(sat, p + dp);
    if (from == to)
        return within(sat, from, p, dp);
    /* Up: leave the first piece by its upper edge and enter the last by its lower; down: the other way round. */
    int leave = from < to ? from + 1 : from, enter = from < to ? to : to + 1;
    double leave_edge = lower_edge(sat, leave), enter_edge = lower_edge(sat, enter);
    double first = leave_edge - p;
    double last = dp - (enter_edge - p);
    return within(sat, from, p, first) + (sat->phi[enter] - sat->phi[leave]) + within(sat, to, enter_edge, last);
}
