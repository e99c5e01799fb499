/* SPDX-License-Identifier: MIT */
/* The saturated line as fitted against IF97 and the transport releases themselves. */
#include "bench.h"

#include <gsl/gsl_integration.h>
#include <math.h>
#include <stdio.h>

enum { POINTS = 1024 };
static const double LEAST = 0.3e5, MOST = 16e5;

typedef struct {
    const fv_sat *sat;
    double p[POINTS], t[POINTS];
    int at;
    double sum; /* so that nothing is optimised away */
    gsl_integration_glfixed_table *gauss;
} steam;

static int next(steam *s)
{
    return s->at = (s->at + 1) % POINTS;
}

static void fast_all(void *context)
{
    steam *s = context;
    fv_sat_point point;
    fv_sat_at(s->sat, s->p[next(s)], &point);
    s->sum += point.h_g;
}
static void fast_rho(void *context)
{
    steam *s = context;
    s->sum += fv_sat_rho_g(s->sat, s->p[next(s)], NULL);
}
static void fast_t(void *context)
{
    steam *s = context;
    s->sum += fv_sat_t(s->sat, s->p[next(s)], NULL);
}
static void fast_phi(void *context)
{
    steam *s = context;
    s->sum += fv_sat_phi_step(s->sat, s->p[next(s)], -1000);
}
static void fast_at_t(void *context)
{
    steam *s = context;
    fv_sat_at_t_point point;
    fv_sat_at_t(s->sat, s->t[next(s)], &point);
    s->sum += point.h_g;
}

static void direct(double p, fv_sat_point *out)
{
    fv_if97_state g, f;
    fv_if97_saturation_temperature(p, &out->t);
    fv_if97_region2(p, out->t, &g);
    fv_if97_region1(p, out->t, &f);
    out->rho_g = 1 / g.v;
    out->rho_f = 1 / f.v;
    out->h_g = g.h;
    out->h_f = f.h;
    fv_iapws_viscosity(out->t, out->rho_g, &out->mu_g);
    fv_iapws_viscosity(out->t, out->rho_f, &out->mu_f);
}
static void direct_all(void *context)
{
    steam *s = context;
    fv_sat_point point;
    direct(s->p[next(s)], &point);
    s->sum += point.h_g;
}
static double rho_at(double p, void *unused)
{
    (void)unused;
    double t;
    fv_if97_state g;
    fv_if97_saturation_temperature(p, &t);
    fv_if97_region2(p, t, &g);
    return 1 / g.v;
}
static void direct_rho(void *context)
{
    steam *s = context;
    s->sum += rho_at(s->p[next(s)], NULL);
}
static void direct_t(void *context)
{
    steam *s = context;
    double t;
    fv_if97_saturation_temperature(s->p[next(s)], &t);
    s->sum += t;
}
static double phi_direct(const steam *s, double p, double dp)
{
    const gsl_function rho = {rho_at, NULL};
    return gsl_integration_glfixed(&rho, p, p + dp, s->gauss);
}
static void direct_phi(void *context)
{
    steam *s = context;
    s->sum += phi_direct(s, s->p[next(s)], -1000);
}
static void direct_at_t(void *context)
{
    steam *s = context;
    double p;
    fv_if97_state g, f;
    const double t = s->t[next(s)];
    fv_if97_saturation_pressure(t, &p);
    fv_if97_region2(p, t, &g);
    fv_if97_region1(p, t, &f);
    s->sum += g.h + f.h;
}

static double worse(double worst, double got, double right)
{
    return fmax(worst, fabs(got / right - 1));
}

/* Largest relative errors of: all at p, rho, t, phi, all at t. */
static void errors(const steam *s, double error[5])
{
    enum { FINE = 20000 };
    for (int i = 0; i < 5; i++)
        error[i] = 0;
    for (int i = 0; i <= FINE; i++) {
        const double p = LEAST * pow(MOST / LEAST, (double)i / FINE), t_least = 342.2, t_most = 474;
        fv_sat_point got, right;
        fv_sat_at(s->sat, p, &got);
        direct(p, &right);
        const double pairs[][2] = {{got.t, right.t},      {got.rho_g, right.rho_g}, {got.rho_f, right.rho_f},
                                   {got.h_g, right.h_g},  {got.h_f, right.h_f},     {got.mu_g, right.mu_g},
                                   {got.mu_f, right.mu_f}};
        for (size_t k = 0; k < sizeof pairs / sizeof *pairs; k++)
            error[0] = worse(error[0], pairs[k][0], pairs[k][1]);
        error[1] = worse(error[1], fv_sat_rho_g(s->sat, p, NULL), right.rho_g);
        error[2] = worse(error[2], fv_sat_t(s->sat, p, NULL), right.t);
        if (i % 10 == 0)
            error[3] = worse(error[3], fv_sat_phi_step(s->sat, p, -1000), phi_direct(s, p, -1000));
        const double t = t_least + (t_most - t_least) * i / FINE;
        fv_sat_at_t_point at_t;
        double p_t;
        fv_if97_state g, f;
        fv_if97_saturation_pressure(t, &p_t);
        fv_if97_region2(p_t, t, &g);
        fv_if97_region1(p_t, t, &f);
        fv_sat_at_t(s->sat, t, &at_t);
        error[4] = worse(worse(worse(worse(error[4], at_t.p, p_t), at_t.rho_g, 1 / g.v), at_t.h_g, g.h), at_t.h_f, f.h);
    }
}

void bench_steam(void)
{
    static const struct {
        const char *name;
        void (*fast)(void *), (*direct)(void *);
    } rows[] = {{"all of the line at p (`fv_sat_at`)", fast_all, direct_all},
                {"vapour density (`fv_sat_rho_g`)", fast_rho, direct_rho},
                {"boiling point (`fv_sat_t`)", fast_t, direct_t},
                {"potential over 10 mbar (`fv_sat_phi_step`)", fast_phi, direct_phi},
                {"all of the line at T (`fv_sat_at_t`)", fast_at_t, direct_at_t}};
    steam s = {.sat = fv_sat_line(), .gauss = gsl_integration_glfixed_table_alloc(8)};
    double error[5];
    if (!s.gauss)
        return;
    for (int i = 0; i < POINTS; i++) { /* in an order that no branch predictor learns */
        s.p[i] = LEAST + (MOST - LEAST) * fmod(0.6180339887498949 * (i + 1), 1);
        s.t[i] = 343 + 130 * fmod(0.6180339887498949 * (i + 1), 1);
    }
    errors(&s, error);
    printf("## Steam\n\nOver 0.3 to 16 bar, against IAPWS-IF97 and R12-08 evaluated directly (the potential: 8-point "
           "Gauss).\n\n| function | fast, ns | direct, ns | ratio | largest relative error |\n|---|---|---|---|---|\n");
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const double fast = bench_time(rows[i].fast, &s), slow = bench_time(rows[i].direct, &s);
        printf("| %s | %.1f | %.0f | %.0f | %.1e |\n", rows[i].name, fast * 1e9, slow * 1e9, slow / fast, error[i]);
    }
    printf("\n");
    if (isnan(s.sum))
        printf("not a number\n");
    gsl_integration_glfixed_table_free(s.gauss);
}
