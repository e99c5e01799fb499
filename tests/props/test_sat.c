/* SPDX-License-Identifier: MIT */
/* The fitted saturation line: against the reference table, against direct IF97, smooth at the knots, sane outside. */
#include "farvessel/props.h"
#include "props/sat.h"
#include "props_check.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <cmocka.h>

static const char table_path[] = "reference/props/if97_saturation.csv";

static int setup(void **state)
{
    *state = (void *)fv_sat_line();
    return 0;
}

enum { COLUMNS = 15 };

/* Columns of the table from the fit, the rest straight from the equations. */
static void compute_row(const fv_sat *sat, double p, double *out)
{
    fv_sat_point s;
    fv_if97_state steam;
    double k_g, k_f;
    fv_sat_at(sat, p, &s);
    assert_int_equal(fv_if97_region2(p, s.t, &steam), FV_OK);
    assert_int_equal(fv_iapws_conductivity(s.t, s.rho_g, &k_g), FV_OK);
    assert_int_equal(fv_iapws_conductivity(s.t, s.rho_f, &k_f), FV_OK);
    const double row[COLUMNS] = {
        p / 1e5,      s.t - 273.15, s.rho_g,        s.rho_f,        s.h_f / 1e3, s.h_g / 1e3, (s.h_g - s.h_f) / 1e3,
        s.mu_g * 1e6, s.mu_f * 1e6, steam.cp / 1e3, steam.cv / 1e3, k_g * 1e3,   k_f * 1e3,   steam.w,
        steam.s / 1e3};
    memcpy(out, row, sizeof row);
}

static void reference_table(void **state)
{
    static const char *const names[COLUMNS] = {"p",    "Tsat", "rho_g", "rho_f", "h_f", "h_g", "h_fg", "mu_g",
                                               "mu_f", "cp_g", "cv_g",  "k_g",   "k_f", "w_g", "s_g"};
    FILE *file = fopen(table_path, "r");
    if (!file)
        fail_msg("cannot read %s: does the test run from the project's root?", table_path);
    double worst[COLUMNS] = {0};
    char text[512];
    int rows = 0;
    while (fgets(text, sizeof text, file)) {
        char *at = text, *next;
        double printed[COLUMNS], ours[COLUMNS];
        int count = 0;
        for (; count < COLUMNS; count++, at = *next == ',' ? next + 1 : next) {
            printed[count] = strtod(at, &next);
            if (next == at)
                break;
        }
        if (count < COLUMNS)
            continue; // heading
        rows++;
        compute_row(*state, printed[0] * 1e5, ours);
        for (int k = 1; k < COLUMNS; k++)
            worst[k] = fmax(worst[k], relative(ours[k], printed[k]));
    }
    fclose(file);
    assert_int_equal(rows, 26);
    for (int k = 1; k < COLUMNS; k++) {
        printf(
            "check | saturation table 0.5 to 6 bar, %s | largest dev %.1e, allowed 5e-08 (8 digits) | python3-iapws\n",
            names[k], worst[k]);
        assert_true(worst[k] <= 5.01e-8);
    }
}

enum { BY_P = 7, BY_T = 4 };

static void scan(const fv_sat *sat, double low, double high, double worst[BY_P + BY_T])
{
    const int points = 20011;
    for (int k = 0; k <= points; k++) {
        double p = low * pow(high / low, (double)k / points), t, mu_g, mu_f;
        fv_if97_state g, f;
        fv_sat_point s;
        fv_sat_at_t_point c;
        assert_int_equal(fv_if97_saturation_temperature(p, &t), FV_OK);
        assert_int_equal(fv_if97_region2(p, t, &g), FV_OK);
        assert_int_equal(fv_if97_region1(p, t, &f), FV_OK);
        assert_int_equal(fv_iapws_viscosity(t, 1 / g.v, &mu_g), FV_OK);
        assert_int_equal(fv_iapws_viscosity(t, 1 / f.v, &mu_f), FV_OK);
        fv_sat_at(sat, p, &s);
        fv_sat_at_t(sat, t, &c);
        const double ours[] = {s.t, s.rho_g, s.h_g, s.h_f, s.mu_g, s.rho_f, s.mu_f, c.p, c.rho_g, c.h_g, c.h_f};
        const double exact[] = {t, 1 / g.v, g.h, f.h, mu_g, 1 / f.v, mu_f, p, 1 / g.v, g.h, f.h};
        for (int q = 0; q < BY_P + BY_T; q++)
            if (q < BY_P || t < 480)
                worst[q] = fmax(worst[q], relative(ours[q], exact[q]));
        assert_true(fv_sat_rho_g(sat, p, NULL) == s.rho_g);
        assert_true(fv_sat_t(sat, p, NULL) == s.t);
    }
}

static void fit_error(void **state)
{
    static const char *const names[BY_P + BY_T] = {"t(p)",    "rho_g(p)", "h_g(p)",   "h_f(p)", "mu_g(p)", "rho_f(p)",
                                                   "mu_f(p)", "p(t)",     "rho_g(t)", "h_g(t)", "h_f(t)"};
    double worst[BY_P + BY_T] = {0}, wide[BY_P + BY_T] = {0};
    scan(*state, 0.3e5, 16e5, worst);
    scan(*state, 0.05e5, 20e5, wide);
    for (int q = 0; q < BY_P + BY_T; q++) {
        printf(
            "check | fit of %s | largest dev %.1e from 0.3 to 16 bar, %.1e from 0.05 to 20 bar, allowed 1e-10 | direct "
            "IF97, R12-08\n",
            names[q], worst[q], wide[q]);
        assert_true(worst[q] <= 1e-10);
        assert_true(wide[q] <= 1e-10);
    }
    /* Cold chambers: the temperature side goes down to the triple point, where h_f passes through zero. */
    double low = 0;
    for (double t = 273.16; t < 310; t += 0.0137) {
        double p;
        fv_if97_state g, f;
        fv_sat_at_t_point c;
        assert_int_equal(fv_if97_saturation_pressure(t, &p), FV_OK);
        assert_int_equal(fv_if97_region2(p, t, &g), FV_OK);
        assert_int_equal(fv_if97_region1(p, t, &f), FV_OK);
        fv_sat_at_t(*state, t, &c);
        low = fmax(low, fmax(relative(c.p, p), fmax(relative(c.rho_g, 1 / g.v), relative(c.h_g, g.h))));
        low = fmax(low, fabs(c.h_f - f.h) / 1e5);
    }
    printf("check | fit over t from 273.16 to 310 K | largest dev %.1e, allowed 1e-10 | direct IF97\n", low);
    assert_true(low <= 1e-10);
}

/* All values and derivatives of a point in one row. */
static void flatten(const fv_sat *sat, double p, double *value, double *slope)
{
    fv_sat_point s;
    fv_sat_at(sat, p, &s);
    memcpy(value, (const double[]){s.t, s.rho_g, s.h_g, s.h_f, s.mu_g, s.rho_f, s.mu_f}, 7 * sizeof(double));
    memcpy(slope, (const double[]){s.dt_dp, s.drho_g_dp, s.dh_g_dp, s.dh_f_dp, s.dmu_g_dp}, 5 * sizeof(double));
}

static void flatten_t(const fv_sat *sat, double t, double *value, double *slope)
{
    fv_sat_at_t_point s;
    fv_sat_at_t(sat, t, &s);
    memcpy(value, (const double[]){s.p, s.rho_g, s.h_g, s.h_f}, 4 * sizeof(double));
    memcpy(slope, (const double[]){s.dp_dt, s.drho_g_dt, s.dh_g_dt, s.dh_f_dt}, 4 * sizeof(double));
}

typedef void flattener(const fv_sat *sat, double x, double *value, double *slope);

/* Largest jump of values and slopes between x and the number just below it. */
static void jump(const fv_sat *sat, flattener *flat, double x, int values, int slopes, double *in_value,
                 double *in_slope)
{
    double v0[7], s0[5], v1[7], s1[5];
    flat(sat, nextafter(x, -1), v0, s0);
    flat(sat, x, v1, s1);
    for (int q = 0; q < values; q++)
        *in_value = fmax(*in_value, fabs(v1[q] - v0[q]) / fabs(v1[q]));
    for (int q = 0; q < slopes; q++)
        *in_slope = fmax(*in_slope, fabs(s1[q] - s0[q]) / fabs(s1[q]));
}

static void smooth_at_knots(void **state)
{
    double in_value = 0, in_slope = 0;
    int knots = 0;
    for (int octave = 12; octave <= 20; octave++)
        for (int k = 0; k < 16; k++) { // 4096 Pa to 2 MPa, the table's ends among them
            jump(*state, flatten, ldexp(1 + k / 16.0, octave), 7, 5, &in_value, &in_slope);
            knots++;
        }
    printf("check | C1 at %d knots over p | largest jump %.1e in a value, %.1e in a slope | construction\n", knots,
           in_value, in_slope);
    assert_true(in_value < 1e-14);
    assert_true(in_slope < 1e-11);
    in_value = in_slope = 0;
    for (int k = 1; k <= 104; k++) // at k = 0 h_f is 0 but for the last digits
        jump(*state, flatten_t, 273.15 + 2.0 * k, 4, 4, &in_value, &in_slope);
    printf("check | C1 at 104 knots over t | largest jump %.1e in a value, %.1e in a slope | construction\n", in_value,
           in_slope);
    assert_true(in_value < 1e-13);
    assert_true(in_slope < 1e-11);
}

/* Fourth-order differences of the returned values against the returned slopes, within cells and outside the table. */
static void slopes_are_exact(void **state)
{
    double worst = 0;
    for (double p = -3e5; p < 4e6; p += p < 2e4 ? 173.3 : 0.0123 * p) {
        double h = 1e-3 * fmax(fabs(p), 1e3);
        if (p > 4e3 && p < 2.1e6) { // stay within the cell, where the function is one polynomial
            double octave = exp2(floor(log2(p))), w = octave / 16, in = fmod(p - octave, w) / w;
            if (in < 0.1 || in > 0.9)
                continue;
            h = 0.04 * w;
        } else if (p < 4e3) { // stay clear of where the tangents end
            h = 5;
        }
        double v[4][7], s[5], centre[7], ignored[5];
        flatten(*state, p - 2 * h, v[0], ignored);
        flatten(*state, p - h, v[1], ignored);
        flatten(*state, p + h, v[2], ignored);
        flatten(*state, p + 2 * h, v[3], ignored);
        flatten(*state, p, centre, s);
        for (int q = 0; q < 5; q++) {
            double slope = (8 * (v[2][q] - v[1][q]) - (v[3][q] - v[0][q])) / (12 * h);
            double noise = 4e-15 * fabs(centre[q]) / h; // of the difference itself
            worst = fmax(worst, fmax(fabs(slope - s[q]) - noise, 0) / fabs(s[q]));
        }
    }
    printf("check | slopes against differences of the fit itself | largest dev %.1e, allowed 1e-6 | own derivation\n",
           worst);
    assert_true(worst < 1e-6);
}

static void sane_outside(void **state)
{
    static const double far_p[] = {-1e12, -1e6, -1e5, -1e3, -1, 0, 1, 500, 2500, 4863.9, 2.1e6, 5e6, 1e8, 1e12};
    double last_rho = 0, last_t = 0, last_mu = 0;
    for (size_t k = 0; k < sizeof far_p / sizeof far_p[0]; k++) {
        fv_sat_point s;
        fv_sat_at(*state, far_p[k], &s);
        assert_true(isfinite(s.t) && isfinite(s.h_g) && isfinite(s.h_f));
        assert_true(s.t > last_t && s.rho_g > last_rho && s.mu_g > last_mu); // rising, and above zero
        assert_true(s.dt_dp > 0 && s.drho_g_dp > 0 && s.dmu_g_dp > 0 && isfinite(s.drho_g_dp));
        assert_true(s.rho_f > 0 && s.mu_f > 0 && isfinite(s.rho_f) && isfinite(s.mu_f));
        assert_true(fv_sat_rho_g(*state, far_p[k], NULL) == s.rho_g);
        last_rho = s.rho_g;
        last_t = s.t;
        last_mu = s.mu_g;
    }
    static const double far_t[] = {-1e6, 0, 100, 200, 270, 273.15, 482, 600, 2000, 1e6};
    double last_p = 0;
    for (size_t k = 0; k < sizeof far_t / sizeof far_t[0]; k++) {
        fv_sat_at_t_point s;
        fv_sat_at_t(*state, far_t[k], &s);
        assert_true(isfinite(s.p) && isfinite(s.rho_g) && isfinite(s.h_g) && isfinite(s.h_f));
        assert_true(s.p > last_p && s.rho_g > 0 && s.dp_dt > 0);
        last_p = s.p;
    }
    fv_sat_point nothing;
    fv_sat_at_t_point nothing_t;
    fv_sat_at(*state, NAN, &nothing);
    fv_sat_at_t(*state, NAN, &nothing_t);
    assert_true(isnan(nothing.rho_g) && isnan(nothing.t) && isnan(nothing_t.p));
}

/* The slopes of the tangents meet those of the table, and the vanishing tail those of the tangent. */
static void smooth_at_the_tail(void **state)
{
    double edge_slope, slope, end = fv_sat_rho_g(*state, 4864, &edge_slope);
    double p_tail = 4864 - 0.5 * end / edge_slope;
    double above = fv_sat_rho_g(*state, p_tail + 1e-6, &slope);
    assert_true(relative(slope, edge_slope) < 1e-12);
    double below = fv_sat_rho_g(*state, p_tail - 1e-6, &slope);
    assert_true(relative(slope, edge_slope) < 1e-8);
    assert_true(relative(below, above) < 1e-8);
    assert_true(relative(above, end / 2) < 1e-8);
}

static bool same_ends(const props_sat_end *a, const props_sat_end *b, int count)
{
    bool same = true;
    for (int i = 0; i < count; i++)
        same = same && a[i].value == b[i].value && a[i].slope == b[i].slope && a[i].positive == b[i].positive;
    return same;
}

/* What the library has built in is what the equations give now, to the bit. */
static void built_in(void **state)
{
    const fv_sat *in = *state;
    fv_sat *now = calloc(1, sizeof *now);
    assert_non_null(now);
    props_sat_build(now);
    assert_memory_equal(in->by_p, now->by_p, sizeof now->by_p);
    assert_memory_equal(in->by_t, now->by_t, sizeof now->by_t);
    assert_memory_equal(in->phi, now->phi, sizeof now->phi);
    assert_true(in->p_tail == now->p_tail);
    assert_true(same_ends(in->p_low, now->p_low, PROPS_SAT_BY_P) && same_ends(in->p_high, now->p_high, PROPS_SAT_BY_P));
    assert_true(same_ends(in->t_low, now->t_low, PROPS_SAT_BY_T) && same_ends(in->t_high, now->t_high, PROPS_SAT_BY_T));
    free(now);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reference_table),  cmocka_unit_test(fit_error),    cmocka_unit_test(smooth_at_knots),
        cmocka_unit_test(slopes_are_exact), cmocka_unit_test(sane_outside), cmocka_unit_test(smooth_at_the_tail),
        cmocka_unit_test(built_in),
    };
    return cmocka_run_group_tests_name("saturation line", tests, setup, NULL);
}
