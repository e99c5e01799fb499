/* SPDX-License-Identifier: MIT */
/* A run against the same vessel written down a second time, as differential equations, and given to GSL's integrator:
 * slabs and a wall in finite volumes, shell, air and vapour, a drain and a vent. Nothing is shared but the properties
 * of steam. */
#include "heatup/run_plants.h"

#include "farvessel/props.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

enum { CELLS = 30, WALL = 12, STATES = CELLS + WALL + 2, T_CHAMBER = CELLS + WALL, AIR = CELLS + WALL + 1 };
static const double R_AIR = 287.05287, CP_AIR = 1006, GRAVITY = 9.80665;

/* Figures of the vessel, in plain numbers. */
typedef struct {
    const fv_sat *sat;
    double p_site, t_air;
    double steam, h_v;              /* kg/s, J/kg */
    double half, area, k, rho_c, h; /* load: half thickness, both faces of all slabs; W/m/K, J/m3/K, W/m2/K */
    double wall, wall_area, wall_k, wall_rho_c, outside;
    double shell, volume;                /* J/K, m3 */
    double drain, vent, vent_height, cd; /* m2, m */
} vessel_figures;

/* Out of an opening, kg/s; negative: air in. Rounded off at 1e-4 Pa. Incompressible: dp/p is 1e-4 here. */
static double through(const vessel_figures *f, double area, double height, double rho, double p)
{
    const double rho_air = f->p_site / (R_AIR * f->t_air), dp = p + (rho_air - rho) * GRAVITY * height;
    const double root = dp / sqrt(sqrt(dp * dp + 1e-8));
    return f->cd * area * sqrt(2 * (dp > 0 ? rho : rho_air)) * root;
}

static double load_rates(const vessel_figures *f, const double *t, double t_chamber, double *rate)
{
    const double cell = f->half / CELLS, inner = f->k / cell, face = 1 / (1 / f->h + cell / (2 * f->k));
    double into = face * (t_chamber - t[0]);
    const double taken = into;
    for (int i = 0; i < CELLS; i++) {
        const double on = i + 1 < CELLS ? inner * (t[i] - t[i + 1]) : 0;
        rate[i] = (into - on) / (f->rho_c * cell);
        into = on;
    }
    return taken * f->area;
}

static double wall_rates(const vessel_figures *f, const double *t, double t_chamber, double *rate)
{
    const double cell = f->wall / WALL, inner = f->wall_k / cell;
    double into = 2 * inner * (t_chamber - t[0]);
    const double taken = into;
    for (int i = 0; i < WALL; i++) {
        const double on =
            i + 1 < WALL ? inner * (t[i] - t[i + 1]) : (t[i] - f->t_air) / (cell / (2 * f->wall_k) + 1 / f->outside);
        rate[i] = (into - on) / (f->wall_rho_c * cell);
        into = on;
    }
    return taken * f->wall_area;
}

static int rates(double time, const double y[], double dydt[], void *params)
{
    (void)time;
    const vessel_figures *f = params;
    const double t = y[T_CHAMBER], air = y[AIR];
    fv_sat_at_t_point at;
    fv_sat_at_t(f->sat, t, &at);
    const double vapour = at.rho_g * f->volume, rho = (air + vapour) / f->volume, latent = at.h_g - at.h_f;
    const double p = at.p + air * R_AIR * t / f->volume - f->p_site;
    const double flows[2] = {through(f, f->drain, 0, rho, p), through(f, f->vent, f->vent_height, rho, p)};
    double out = 0, in = 0;
    for (int j = 0; j < 2; j++) {
        out += fmax(flows[j], 0);
        in += fmax(-flows[j], 0);
    }
    const double share = air / (air + vapour);
    const double takes = load_rates(f, y, t, dydt) + wall_rates(f, y + CELLS, t, dydt + CELLS);
    const double rest =
        f->steam * (f->h_v - at.h_f) - takes - out * (1 - share) * latent - in * CP_AIR * (t - f->t_air);
    dydt[T_CHAMBER] = rest / (f->shell + at.drho_g_dt * f->volume * latent + air * CP_AIR);
    dydt[AIR] = in - out * share;
    return GSL_SUCCESS;
}

/* Differences; the system is stiff and GSL's implicit methods want them. */
static int jacobian(double time, const double y[], double *dfdy, double dfdt[], void *params)
{
    double at[STATES], up[STATES], down[STATES], dydt[STATES];
    memcpy(at, y, sizeof at);
    rates(time, y, dydt, params);
    for (int j = 0; j < STATES; j++) {
        const double by = j == AIR ? 1e-9 : 1e-5;
        at[j] = y[j] + by;
        rates(time, at, up, params);
        at[j] = y[j] - by;
        rates(time, at, down, params);
        at[j] = y[j];
        for (int i = 0; i < STATES; i++)
            dfdy[i * STATES + j] = (up[i] - down[i]) / (2 * by);
        dfdt[j] = 0;
    }
    return GSL_SUCCESS;
}

/* s from steam on. */
typedef struct {
    double core, full; /* NaN: not before the core is there */
} arrivals;

/* K by which the chamber is above full. */
static double above_full(const vessel_figures *f, const double *y)
{
    fv_sat_at_t_point at;
    fv_sat_at_t(f->sat, y[T_CHAMBER], &at);
    const double p = at.p + y[AIR] * R_AIR * y[T_CHAMBER] / f->volume;
    return y[T_CHAMBER] - fv_sat_t(f->sat, p, NULL) + FV_FULL_WITHIN;
}

/* Until the innermost cell is at the target. */
static arrivals integrate(vessel_figures *f, double t_start, double target)
{
    gsl_odeiv2_system system = {rates, jacobian, STATES, f};
    gsl_odeiv2_driver *driver = gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_msbdf, 1e-3, 1e-8, 1e-8);
    assert_non_null(driver);
    double y[STATES], time = 0, core = t_start, before = t_start;
    arrivals at = {NAN, NAN};
    fv_sat_at_t_point cold;
    fv_sat_at_t(f->sat, f->t_air, &cold);
    for (int i = 0; i < STATES; i++)
        y[i] = i < CELLS ? t_start : f->t_air;
    y[AIR] = (f->p_site - cold.p) * f->volume / (R_AIR * f->t_air);
    const double every = 20;
    double above = above_full(f, y);
    while (core < target && time < 2e5) {
        before = core;
        assert_int_equal(gsl_odeiv2_driver_apply(driver, &time, time + every, y), GSL_SUCCESS);
        /* even in the middle: from two cells to the plane of symmetry */
        core = y[CELLS - 1] + (y[CELLS - 1] - y[CELLS - 2]) / 8;
        const double now = above_full(f, y);
        if (above < 0 && now >= 0)
            at.full = time - every * now / (now - above);
        above = now;
    }
    gsl_odeiv2_driver_free(driver);
    at.core = time - every * (core - target) / (core - before);
    return at;
}

static fv_vessel *slab_vessel(bench *b, double output, const vessel_figures *f)
{
    open_bench(b, output);
    b->plant->site.air = fv_given(f->t_air);
    ideal(add_line(b, FV_LINE_HOSE, "hose", "b0", "c", 2, 0.032));
    fv_vessel *v = add_vessel(b, "bin", "c");
    const double c = 2 * f->half, mass = 0.5 * f->area * c * 900;
    v->load.form = fv_given(FV_FORM_SLAB);
    v->load.a = v->load.b = fv_given(0.5);
    v->load.c = fv_given(c);
    v->load.count = fv_given(mass / 900 / (0.25 * c));
    v->load.mass = fv_given(mass);
    v->load.moisture = fv_given(0);
    v->load.specific_heat = fv_given(f->rho_c / 900);
    v->load.conductivity = fv_given(f->k);
    v->load.surface = fv_given(f->h);
    v->volume = fv_given(f->volume + mass / 900);
    v->shell.mass = fv_given(f->shell / 480);
    v->openings[0]->diameter = fv_given(sqrt(f->drain * 4 / PI));
    add_opening(b, v, FV_OPENING_VENT, sqrt(f->vent * 4 / PI), f->vent_height);
    add_wall(b, v, f->wall_area, f->wall, f->wall_k, 500, f->wall_rho_c / 500, f->outside);
    return v;
}

static void integrator_agrees(void **state)
{
    (void)state;
    const fv_sat *sat = fv_sat_line();
    const double outputs[] = {1500, 4000, 12000};
    const char *source = "GSL msbdf, 30 + 12 finite volumes, air, vapour, shell";
    for (int i = 0; i < 3; i++) {
        vessel_figures f = {.sat = sat,
                            .p_site = 101418,
                            .t_air = 10 + KELVIN,
                            .half = 0.05,
                            .area = 2 * 12 * 0.25,
                            .k = 0.45,
                            .rho_c = 900 * 3200,
                            .h = 150,
                            .wall = 0.03,
                            .wall_area = 3,
                            .wall_k = 0.12,
                            .wall_rho_c = 500 * 1600,
                            .outside = 9,
                            .shell = 15 * 480,
                            .volume = 0.6,
                            .drain = 5e-4,
                            .vent = 2e-4,
                            .vent_height = 0.8,
                            .cd = 0.62};
        bench b;
        fv_vessel *v = slab_vessel(&b, outputs[i], &f);
        v->target = fv_given(85 + KELVIN);
        go(&b);
        const fv_steady_result *first = b.result->at_first_steam;
        fv_sat_at_t_point feed;
        fv_sat_at_t(sat, b.boiler->feed.v, &feed);
        f.h_v = first->boilers[0].enthalpy;
        f.steam = outputs[i] / (f.h_v - feed.h_f);
        check_dev("steam of the first moment, kg/s", f.steam, first->boilers[0].steam, 1e-9, "output / (h_v - h_feed)");
        const arrivals exact = integrate(&f, f.t_air, 85 + KELVIN);
        char what[80];
        snprintf(what, sizeof what, "%.0f W: s from steam on to 85 degC in the core", outputs[i]);
        check_dev(what, exact.core, took(b.result, 0) * 3600, 1e-3, source);
        const fv_vessel_history *h = &b.result->vessels[0];
        assert_true(isnan(exact.full) == !(h->full < h->core));
        snprintf(what, sizeof what, "%.0f W: s from steam on to full of steam", outputs[i]);
        if (!isnan(exact.full))
            check_dev(what, exact.full, h->full - h->steam_on, 5e-3, source);
        close_bench(&b);
    }
}

int main(void)
{
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {cmocka_unit_test(integrator_agrees)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
