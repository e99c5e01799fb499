/* SPDX-License-Identifier: MIT */
/* The lethality integral, F = integral of 10^((T - Tref)/z) dt (Bigelow 1921, Ball 1923; from memory), against the
 * trapezoid rule over the core temperatures that the run gives. */
#include "heatup/run_plants.h"

static double by_trapezoids(const fv_heat_result *r, double reference, double z)
{
    double sum = 0, before = 0;
    for (size_t i = 0; i < r->series.count; i++) {
        const double rate = pow(10, (r->series.core[i] - reference) / z);
        sum += i > 0 ? 0.5 * (before + rate) * (r->series.time[i] - r->series.time[i - 1]) : 0;
        before = rate;
    }
    return sum;
}

static void the_integral_by_trapezoids(void **state)
{
    (void)state;
    static const double rows[][2] = {/* degC, K */ {80, 10}, {95, 6}, {60, 25}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        bench b;
        open_bench(&b, 12e3);
        ideal(add_line(&b, FV_LINE_HOSE, "hose", "b0", "c", 3, 0.025));
        fv_vessel *v = add_vessel(&b, "bin", "c");
        v->reference_temperature = fv_given(rows[i][0] + KELVIN);
        v->z = fv_given(rows[i][1]);
        b.options.every = 20;
        go(&b);
        char what[96];
        snprintf(what, sizeof what, "lethality at %g degC, z %g K, s", rows[i][0], rows[i][1]);
        check_dev(what, by_trapezoids(b.result, rows[i][0] + KELVIN, rows[i][1]), b.result->vessels[0].lethality, 2e-3,
                  "trapezoids over 20 s; Bigelow, from memory");
        close_bench(&b);
    }
}

/* Ten kelvin more of reference, at z = 10 K, are a tenth: the definition. */
static void one_z_is_a_factor_of_ten(void **state)
{
    (void)state;
    double f[2];
    for (int i = 0; i < 2; i++) {
        bench b;
        open_bench(&b, 12e3);
        ideal(add_line(&b, FV_LINE_HOSE, "hose", "b0", "c", 3, 0.025));
        fv_vessel *v = add_vessel(&b, "bin", "c");
        v->reference_temperature = fv_given(80 + 10 * i + KELVIN);
        v->z = fv_given(10);
        go(&b);
        f[i] = b.result->vessels[0].lethality;
        close_bench(&b);
    }
    check_dev("10 K above, z 10 K", 10, f[0] / f[1], 1e-12, "definition of z");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_integral_by_trapezoids),
                                       cmocka_unit_test(one_z_is_a_factor_of_ten)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
