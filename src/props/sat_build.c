/* SPDX-License-Identifier: MIT */
/* Building the saturation tables.
 *
 * Each cell carries the polynomial of degree 5 that has the value and the slope of the exact line at both edges and
 * in the middle. Neighbours share the edge's value and slope, so the line is C1; the error is
 * f^(6) w^6 / (720 * 432), below 1e-11 relative with the cells chosen here.
 * This takes some millions of instructions, a third of what a small answer needs: src/generate/sat_table.c writes the
 * outcome down, and the library has it built in. */
#include "props/gibbs.h"
#include "props/line.h"
#include "props/sat.h"

/* One quantity at one point of the line. */
typedef struct {
    double value, slope;
} sample;

/* The saturated state at (p, t) with its total derivatives along the line, over p. */
static void sample_line(double p, double t, sample out[PROPS_SAT_BY_P])
{
    double t_p = props_line_slope(p, t);
    props_gibbs steam = props_gibbs_region2(p, t), water = props_gibbs_region1(p, t);
    props_gibbs_slopes g = props_gibbs_slopes_of(&steam), f = props_gibbs_slopes_of(&water);
    double rho_g = 1 / g.v, rho_g_p = -rho_g * rho_g * (g.v_p + g.v_t * t_p);
    double rho_f = 1 / f.v, rho_f_p = -rho_f * rho_f * (f.v_p + f.v_t * t_p);
    props_viscosity_slopes mg = props_iapws_viscosity_slopes(t, rho_g), mf = props_iapws_viscosity_slopes(t, rho_f);
    out[PROPS_SAT_RHO_G] = (sample){rho_g, rho_g_p};
    out[PROPS_SAT_T] = (sample){t, t_p};
    out[PROPS_SAT_H_G] = (sample){g.h, g.h_p + g.h_t * t_p};
    out[PROPS_SAT_H_F] = (sample){f.h, f.h_p + f.h_t * t_p};
    out[PROPS_SAT_MU_G] = (sample){mg.mu, mg.mu_t * t_p + mg.mu_rho * rho_g_p};
    out[PROPS_SAT_RHO_F] = (sample){rho_f, rho_f_p};
    out[PROPS_SAT_MU_F] = (sample){mf.mu, mf.mu_t * t_p + mf.mu_rho * rho_f_p};
}

static void sample_at_p(double p, sample out[PROPS_SAT_BY_P])
{
    sample_line(p, props_line_temperature(p), out);
}

static void sample_at_t(double t, sample out[PROPS_SAT_BY_T])
{
    double p = props_line_pressure(t);
    sample line[PROPS_SAT_BY_P];
    sample_line(p, t, line);
    double p_t = 1 / line[PROPS_SAT_T].slope;
    out[PROPS_SAT_T_P] = (sample){p, p_t};
    out[PROPS_SAT_T_RHO_G] = (sample){line[PROPS_SAT_RHO_G].value, line[PROPS_SAT_RHO_G].slope * p_t};
    out[PROPS_SAT_T_H_G] = (sample){line[PROPS_SAT_H_G].value, line[PROPS_SAT_H_G].slope * p_t};
    out[PROPS_SAT_T_H_F] = (sample){line[PROPS_SAT_H_F].value, line[PROPS_SAT_H_F].slope * p_t};
}

/* Hermite interpolation with double nodes at 0, 1/2 and 1, then scaled from the unit cell to width w. */
static props_sat_poly fit(sample start, sample middle, sample end, double w)
{
    double d0 = start.slope * w;
    double a = middle.value - start.value - d0 / 2, a1 = middle.slope * w - d0;
    double b = end.value - start.value - d0, b1 = end.slope * w - d0;
    props_sat_poly poly = {{start.value, d0, 16 * a - 8 * a1 + 7 * b - b1, -32 * a + 32 * a1 - 34 * b + 5 * b1,
                            16 * a - 40 * a1 + 52 * b - 8 * b1, 16 * a1 - 24 * b + 4 * b1}};
    double scale = 1;
    for (int k = 0; k < 6; k++) {
        poly.c[k] *= scale;
        scale /= w;
    }
    return poly;
}

/* Enthalpies have an arbitrary zero and may run below it; the others must not. */
static bool stays_positive_by_p(int quantity)
{
    return quantity != PROPS_SAT_H_G && quantity != PROPS_SAT_H_F;
}

static bool stays_positive_by_t(int quantity)
{
    return quantity != PROPS_SAT_T_H_G && quantity != PROPS_SAT_T_H_F;
}

static void build_by_p(fv_sat *sat)
{
    sample start[PROPS_SAT_BY_P], middle[PROPS_SAT_BY_P], end[PROPS_SAT_BY_P];
    double p = PROPS_SAT_P_LOW, octave = 4096;
    sample_at_p(p, end);
    for (int q = 0; q < PROPS_SAT_BY_P; q++)
        sat->p_low[q] = (props_sat_end){end[q].value, end[q].slope, stays_positive_by_p(q)};
    for (int cell = 0; cell < PROPS_SAT_P_CELLS; cell++) {
        double w = octave / 16; // every edge and middle is an exact binary number
        memcpy(start, end, sizeof start);
        sample_at_p(p + w / 2, middle);
        sample_at_p(p + w, end);
        for (int q = 0; q < PROPS_SAT_BY_P; q++)
            sat->by_p[cell][q] = fit(start[q], middle[q], end[q], w);
        p += w;
        if (p >= 2 * octave)
            octave *= 2;
    }
    for (int q = 0; q < PROPS_SAT_BY_P; q++)
        sat->p_high[q] = (props_sat_end){end[q].value, end[q].slope, stays_positive_by_p(q)};
}

static void build_by_t(fv_sat *sat)
{
    sample start[PROPS_SAT_BY_T], middle[PROPS_SAT_BY_T], end[PROPS_SAT_BY_T];
    sample_at_t(PROPS_SAT_T_LOW, end);
    for (int q = 0; q < PROPS_SAT_BY_T; q++)
        sat->t_low[q] = (props_sat_end){end[q].value, end[q].slope, stays_positive_by_t(q)};
    for (int cell = 0; cell < PROPS_SAT_T_CELLS; cell++) {
        double t = PROPS_SAT_T_LOW + PROPS_SAT_T_WIDTH * cell;
        memcpy(start, end, sizeof start);
        sample_at_t(t + PROPS_SAT_T_WIDTH / 2, middle);
        sample_at_t(t + PROPS_SAT_T_WIDTH, end);
        for (int q = 0; q < PROPS_SAT_BY_T; q++)
            sat->by_t[cell][q] = fit(start[q], middle[q], end[q], PROPS_SAT_T_WIDTH);
    }
    for (int q = 0; q < PROPS_SAT_BY_T; q++)
        sat->t_high[q] = (props_sat_end){end[q].value, end[q].slope, stays_positive_by_t(q)};
}

void props_sat_build(fv_sat *sat)
{
    build_by_p(sat);
    build_by_t(sat);
    props_sat_build_phi(sat);
}
