/* SPDX-License-Identifier: MIT */
#include "farvessel/flow.h"
#include "flow/check.h"

static const double roughness[] = {0.0, 1e-6, 1e-4, 0.002, 0.02, 0.05};
#define ROUGHNESS_COUNT (sizeof roughness / sizeof *roughness)

static void colebrook_table(void **state)
{
    (void)state;
    size_t count;
    table_row *rows = table_rows("colebrook.csv", &count);
    assert_int_equal(count, 144);
    double worst = 0.0;
    for (size_t i = 0; i < count; i++) {
        double f, df;
        assert_int_equal(fv_flow_colebrook(rows[i].value[0], rows[i].value[1], &f, &df), FV_OK);
        worst = fmax(worst, fabs(f / rows[i].value[2] - 1.0));
    }
    free(rows);
    check_dev("Colebrook-White, 144 points, largest relative deviation", 0.0, worst, 2e-15,
              "50-digit Newton, reference/flow/make_tables.py");
}

/* The equation itself holds far outside the chart too, and says so. */
static void colebrook_everywhere(void **state)
{
    (void)state;
    for (double re = 1.0; re < 1e12; re *= 1.7) {
        for (double e = 1e-9; e < 1.0; e *= 3.0) {
            double f, df;
            fv_status status = fv_flow_colebrook(re, e, &f, &df);
            bool usual = re >= 4000.0 && re <= 1e8 && e <= 0.05;
            assert_int_equal(status, usual ? FV_OK : FV_DOUBTFUL);
            double x = 1.0 / sqrt(f);
            double residual = x + 2.0 * log10(e / 3.7 + 2.51 * x / re);
            assert_true(fabs(residual) < 4e-15 * (1.0 + x));
            assert_true(df <= 0.0);
        }
    }
}

static void textbook_values(void **state)
{
    (void)state;
    double f, df;
    assert_int_equal(fv_flow_friction(1000.0, 0.01, &f, &df), FV_OK);
    check_dev("laminar f at Re 1000", 0.064, f, 1e-15, "Hagen-Poiseuille");
    fv_flow_friction(2000.0, 0.01, &f, &df);
    check_dev("laminar f at Re 2000", 0.032, f, 1e-15, "Hagen-Poiseuille");
    fv_flow_friction(1e5, 0.01, &f, &df);
    check_dev("f at Re 1e5, e 0.01", 0.0385035435, f, 2e-9, "40-digit Newton");
    double u = 0.2 / (0.25 * 3.14159265358979324 * 0.2 * 0.2);
    fv_flow_friction(u * 0.2 / 1e-5, 0.0013, &f, &df);
    check_dev("oil in 200 mm cast iron, f", 0.0225, f, 0.015, "White, Fluid Mechanics 7th ed. ch. 6, from memory");
    check_dev("oil in 200 mm cast iron, head lost, m", 117.0, f * 500.0 / 0.2 * u * u / (2.0 * 9.81), 0.005,
              "White, from memory");
    fv_flow_friction(270000.0, 0.0008, &f, &df);
    check_dev("water in 6 in asphalted cast iron, f", 0.0200, f, 0.01, "White, chart reading, from memory");
    fv_flow_friction(126400.0, 0.000042, &f, &df);
    check_dev("water in 2 in stainless, f", 0.0174, f, 0.003, "Cengel & Cimbala, Fluid Mechanics, from memory");
}

static void crane_rough_factors(void **state)
{
    (void)state;
    static const struct {
        const char *size;
        double bore, printed, formula;
    } rows[] = {{"1/2 in", 0.622, 0.027, 0.0259},   {"3/4 in", 0.824, 0.025, 0.0240},   {"1 in", 1.049, 0.023, 0.0225},
                {"1-1/4 in", 1.380, 0.022, 0.0210}, {"1-1/2 in", 1.610, 0.021, 0.0202}, {"2 in", 2.067, 0.019, 0.0190},
                {"2-1/2 in", 2.469, 0.018, 0.0182}, {"3 in", 3.068, 0.018, 0.0173},     {"4 in", 4.026, 0.017, 0.0163},
                {"5 in", 5.047, 0.016, 0.0155},     {"6 in", 6.065, 0.015, 0.0149},     {"8 in", 7.981, 0.014, 0.0141},
                {"10 in", 10.020, 0.014, 0.0134},   {"12 in", 11.938, 0.013, 0.0130}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double f;
        char what[64];
        assert_int_equal(fv_flow_rough_factor(0.0018 / rows[i].bore, &f), FV_OK);
        assert_true(fabs(f - rows[i].formula) < 0.6e-4);
        snprintf(what, sizeof what, "f_T, %s steel pipe", rows[i].size);
        check_dev(what, rows[i].printed, f, 0.05, "Crane TP-410 p. A-26, 1980s");
    }
}

/* Central difference of fourth order. */
static double slope_of(fv_status (*curve)(double, double, double *, double *), double re, double e, double h)
{
    double a, b, c, d, unused;
    curve(re - 2.0 * h, e, &a, &unused);
    curve(re - h, e, &b, &unused);
    curve(re + h, e, &c, &unused);
    curve(re + 2.0 * h, e, &d, &unused);
    return (a - 8.0 * b + 8.0 * c - d) / (12.0 * h);
}

static void derivatives(void **state)
{
    (void)state;
    double worst = 0.0;
    int points = 0;
    for (size_t i = 0; i < ROUGHNESS_COUNT; i++) {
        for (double re = 1.0; re < 1e8; re *= 1.037) {
            double f, df, y, dy;
            double h = 3e-4 * re;
            // a difference across a join of regimes sees the jump in curvature, not the slope
            if (fabs(re - 2000.0) < 3.0 * h || fabs(re - 4000.0) < 3.0 * h)
                continue;
            assert_int_equal(fv_flow_friction(re, roughness[i], &f, &df), FV_OK);
            assert_int_equal(fv_flow_friction_re2(re, roughness[i], &y, &dy), FV_OK);
            assert_true(fabs(y / (0.5 * f * re * re) - 1.0) < 1e-14);
            worst = fmax(worst, fabs(slope_of(fv_flow_friction, re, roughness[i], h) - df) * re / f);
            worst = fmax(worst, fabs(slope_of(fv_flow_friction_re2, re, roughness[i], h) / dy - 1.0));
            points++;
        }
    }
    printf("derivatives | friction | %d points | largest deviation from differences %.1e\n", points, worst);
    assert_true(worst < 1e-9);
}

static void smooth_joins(void **state)
{
    (void)state;
    static const double joins[] = {2000.0, 4000.0};
    for (size_t i = 0; i < ROUGHNESS_COUNT; i++) {
        for (int j = 0; j < 2; j++) {
            double low, dlow, high, dhigh;
            fv_flow_friction_re2(joins[j] * (1.0 - 1e-10), roughness[i], &low, &dlow);
            fv_flow_friction_re2(joins[j] * (1.0 + 1e-10), roughness[i], &high, &dhigh);
            assert_true(fabs(high / low - 1.0) < 1e-8);
            assert_true(fabs(dhigh / dlow - 1.0) < 1e-8);
        }
    }
    double y, dy;
    assert_int_equal(fv_flow_friction_re2(0.0, 0.01, &y, &dy), FV_OK);
    assert_true(y == 0.0 && dy == 32.0);
}

static void limits(void **state)
{
    (void)state;
    double f, df;
    assert_int_equal(fv_flow_friction(1e5, 0.06, &f, &df), FV_DOUBTFUL);
    assert_int_equal(fv_flow_friction(100.0, 0.06, &f, &df), FV_DOUBTFUL);
    assert_int_equal(fv_flow_friction(2e8, 0.001, &f, &df), FV_DOUBTFUL);
    assert_int_equal(fv_flow_friction(0.0, 0.001, &f, &df), FV_FAIL);
    assert_int_equal(fv_flow_friction(-1.0, 0.001, &f, &df), FV_FAIL);
    assert_int_equal(fv_flow_friction((double)NAN, 0.001, &f, &df), FV_FAIL);
    assert_int_equal(fv_flow_friction(1e5, -0.001, &f, &df), FV_FAIL);
    assert_int_equal(fv_flow_friction(1e5, (double)NAN, &f, &df), FV_FAIL);
    assert_int_equal(fv_flow_friction_re2(-1.0, 0.001, &f, &df), FV_FAIL);
    assert_int_equal(fv_flow_friction_re2((double)INFINITY, 0.001, &f, &df), FV_FAIL);
    assert_int_equal(fv_flow_colebrook(0.5, 0.001, &f, &df), FV_FAIL);
    double smoothest;
    assert_int_equal(fv_flow_rough_factor(1e-6, &smoothest), FV_OK);
    assert_int_equal(fv_flow_rough_factor(0.0, &f), FV_DOUBTFUL);
    assert_true(f == smoothest && fabs(f - 0.0058) < 5e-5); /* 1/(2 log10 3.7e6)^2 */
    assert_int_equal(fv_flow_rough_factor(-1e-9, &f), FV_FAIL);
    assert_int_equal(fv_flow_rough_factor(1.0, &f), FV_FAIL);
    assert_int_equal(fv_flow_rough_factor(0.1, &f), FV_DOUBTFUL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(colebrook_table), cmocka_unit_test(colebrook_everywhere),
        cmocka_unit_test(textbook_values), cmocka_unit_test(crane_rough_factors),
        cmocka_unit_test(derivatives),     cmocka_unit_test(smooth_joins),
        cmocka_unit_test(limits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
