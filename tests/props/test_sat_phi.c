/* SPDX-License-Identifier: MIT */
/* The pressure integral of the vapour density: exact, precise for tiny steps, the same in both directions. */
#include "farvessel/props.h"
#include "props_check.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

static int setup(void **state)
{
    *state = (void *)fv_sat_line();
    return 0;
}

/* Numbers evenly spread over 0 to 1, the same on every machine. */
static double spread(uint64_t *seed)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return (double)(*seed >> 11) * 0x1p-53;
}

static void tiny_steps(void **state)
{
    double worst = 0;
    uint64_t seed = 1;
    for (int k = 0; k < 20000; k++) {
        double p = 1e4 * pow(160, spread(&seed));
        double dp = 1e-9 * pow(1e6, spread(&seed)) * (k % 2 ? 1 : -1);
        double slope, rho = fv_sat_rho_g(*state, p, &slope);
        worst = fmax(worst, relative(fv_sat_phi_step(*state, p, dp), dp * (rho + slope * dp / 2)));
    }
    printf("check | phi_step for steps of 1e-9 to 1e-3 Pa | largest dev %.1e, allowed 2e-15 | rho_g dp\n", worst);
    assert_true(worst <= 2e-15);

    /* Across a knot, the step begun a few units in the last place before it. */
    worst = 0;
    for (int octave = 13; octave <= 20; octave++)
        for (int k = 0; k < 15; k++) {
            double knot = ldexp(1 + k / 16.0, octave), p = knot;
            for (int n = 0; n < 1 + k % 4; n++)
                p = nextafter(p, 0);
            double slope, rho = fv_sat_rho_g(*state, knot, &slope);
            for (double dp = 1e-9; dp < 1e-6; dp *= 3) {
                double before = p - knot; // and as much beyond for the way back
                worst = fmax(worst, relative(fv_sat_phi_step(*state, p, dp), dp * (rho + slope * (before + dp / 2))));
                worst = fmax(worst, relative(fv_sat_phi_step(*state, knot - before, -dp),
                                             -dp * (rho + slope * (-before - dp / 2))));
            }
        }
    printf("check | phi_step for tiny steps across knots | largest dev %.1e, allowed 2e-15 | rho_g dp\n", worst);
    assert_true(worst <= 2e-15);
}

static void antisymmetric(void **state)
{
    double worst = 0, worst_far = 0;
    uint64_t seed = 2;
    for (int k = 0; k < 200000; k++) {
        double p = 5e3 * pow(400, spread(&seed));
        double dp = 1e-9 * pow(1e15, spread(&seed)) * (k % 2 ? 1 : -1);
        double there = fv_sat_phi_step(*state, p, dp), back = fv_sat_phi_step(*state, p + dp, -dp);
        double dev = fabs(there + back) / fabs(there);
        if (p + dp > 4864 && p + dp < 2.03e6)
            worst = fmax(worst, dev);
        else
            worst_far = fmax(worst_far, dev);
    }
    printf("check | phi_step forward and back | largest dev %.1e inside the table, %.1e beyond, allowed 2e-15 | "
           "identity\n",
           worst, worst_far);
    assert_true(worst <= 2e-15);
    assert_true(worst_far <= 1e-13); // the tail's logarithm of a far end, itself rounded at 1e6 Pa
}

/* Three-point Gauss quadrature of fv_sat_rho_g, exact for degree 5, cell by cell. */
static double quadrature(const fv_sat *sat, double from, double to)
{
    const double x = 0.77459666924148337704;
    double sum = 0;
    for (double a = from; a < to;) {
        double octave = exp2(floor(log2(a))), w = octave / 16;
        double edge = octave + w * (floor((a - octave) / w) + 1);
        double b = fmin(edge, to), m = (a + b) / 2, h = (b - a) / 2;
        sum += h / 9 *
               (5 * fv_sat_rho_g(sat, m - h * x, NULL) + 8 * fv_sat_rho_g(sat, m, NULL) +
                5 * fv_sat_rho_g(sat, m + h * x, NULL));
        a = b;
    }
    return sum;
}

static void exact_integral(void **state)
{
    double worst = 0;
    uint64_t seed = 3;
    for (int k = 0; k < 3000; k++) {
        double p = 5e3 * pow(400, spread(&seed)), q = 5e3 * pow(400, spread(&seed));
        double low = fmin(p, q), high = fmax(p, q);
        if (high - low < 1)
            continue;
        double reference = quadrature(*state, low, high);
        worst = fmax(worst, relative(fv_sat_phi_step(*state, low, high - low), reference));
        worst = fmax(worst, relative(-fv_sat_phi_step(*state, high, low - high), reference));
    }
    printf("check | phi_step for steps up to 20 bar | largest dev %.1e, allowed 1e-13 | Gauss quadrature of rho_g\n",
           worst);
    assert_true(worst <= 1e-13); // rounding of the quadrature's sum and of high - low
}

/* Trapezium sums through the tangents and the tail, and the sum of parts against the whole. */
static void beyond_the_table(void **state)
{
    static const double edges[] = {-1e6, -1e4, 0, 2000, 2300, 2600, 4000, 6000, 1e5, 2e6, 3e6, 1e7};
    const size_t parts = sizeof edges / sizeof edges[0] - 1;
    double sum = 0, worst = 0;
    for (size_t k = 0; k < parts; k++) {
        const int n = 20000;
        double h = (edges[k + 1] - edges[k]) / n, trapezium = 0;
        for (int i = 0; i < n; i++)
            trapezium +=
                h / 2 *
                (fv_sat_rho_g(*state, edges[k] + i * h, NULL) + fv_sat_rho_g(*state, edges[k] + (i + 1) * h, NULL));
        double step = fv_sat_phi_step(*state, edges[k], edges[k + 1] - edges[k]);
        assert_true(step > 0);
        worst = fmax(worst, relative(step, trapezium));
        sum += step;
    }
    double whole = fv_sat_phi_step(*state, edges[0], edges[parts] - edges[0]);
    printf("check | phi_step beyond the table | largest dev %.1e, allowed 1e-5 | trapezium sums; parts against whole "
           "%.1e\n",
           worst, relative(sum, whole));
    assert_true(worst < 1e-5);
    assert_true(relative(sum, whole) < 1e-14);
    assert_true(isnan(fv_sat_phi_step(*state, NAN, 1)));
    assert_true(fv_sat_phi_step(*state, 1e5, 0) == 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tiny_steps),
        cmocka_unit_test(antisymmetric),
        cmocka_unit_test(exact_integral),
        cmocka_unit_test(beyond_the_table),
    };
    return cmocka_run_group_tests_name("pressure integral", tests, setup, NULL);
}
