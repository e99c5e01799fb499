/* SPDX-License-Identifier: MIT */
/* Sobol' indices against functions whose indices are known: Ishigami & Homma (1990) and Sobol' g (Saltelli et al.,
 * Global Sensitivity Analysis, 2008), values from their closed forms. */
#include "checks.h"
#include "num/sample.h"
#include "num/sensitivity.h"

#include <gsl/gsl_math.h>

static double ishigami(const double *u, size_t dim)
{
    (void)dim;
    double x[3];
    for (int i = 0; i < 3; i++)
        x[i] = M_PI * (2 * u[i] - 1);
    return sin(x[0]) + 7 * pow(sin(x[1]), 2) + 0.1 * pow(x[2], 4) * sin(x[0]);
}

static double sobol_g(const double *u, size_t dim)
{
    static const double a[6] = {0, 0.5, 3, 9, 99, 99};
    double product = 1;
    for (size_t i = 0; i < dim; i++)
        product *= (fabs(4 * u[i] - 2) + a[i]) / (1 + a[i]);
    return product;
}

typedef double function(const double *u, size_t dim);

/* One sample in twice as many dimensions is A beside B. */
static void run_exact(function *f, size_t dim, size_t n, double *first, double *total)
{
    double *u = malloc(2 * dim * n * sizeof *u), *y = malloc((2 + dim) * n * sizeof *y), x[8];
    assert_int_equal(num_sample_even(n, 2 * dim, 1, 11, u), FV_OK);
    for (size_t k = 0; k < n; k++) {
        const double *a = u + 2 * dim * k, *b = a + dim;
        y[k] = f(a, dim);
        y[n + k] = f(b, dim);
        for (size_t i = 0; i < dim; i++) {
            memcpy(x, a, dim * sizeof *x);
            x[i] = b[i];
            y[(2 + i) * n + k] = f(x, dim);
        }
    }
    num_sensitivity_exact(y, y + n, y + 2 * n, n, dim, first, total);
    free(u);
    free(y);
}

static void compare(const char *what, const double *expected, const double *got, size_t n, double tolerance)
{
    for (size_t i = 0; i < n; i++) {
        char row[64];
        snprintf(row, sizeof row, "%s %zu", what, i + 1);
        check_off(row, expected[i], got[i], tolerance, "closed form");
    }
}

static const double ishigami_first[3] = {0.3139051911, 0.4424111448, 0};
static const double ishigami_total[3] = {0.5575888552, 0.4424111448, 0.2436836641};
static const double g_first[6] = {.58678119, .26079164, .036673824, .0058678119, 5.8678119e-5, 5.8678119e-5};
static const double g_total[6] = {.69008589, .35617336, .056333542, .0091705766, 9.2008385e-5, 9.2008385e-5};

static void exact(void **state)
{
    (void)state;
    double first[6], total[6];
    run_exact(ishigami, 3, 16384, first, total);
    compare("Ishigami, first", ishigami_first, first, 3, 0.01);
    compare("Ishigami, total", ishigami_total, total, 3, 0.01);
    run_exact(sobol_g, 6, 16384, first, total);
    compare("Sobol' g, first", g_first, first, 6, 0.01);
    compare("Sobol' g, total", g_total, total, 6, 0.01);
}

/* Polynomials of one input at a time and products of straight lines see all of a function's first order, but of what
 * inputs do together only the bilinear part; what they miss is told. */
static void regression(void **state)
{
    (void)state;
    enum { N = 2048 };
    double u[3 * N], y[N], first[3], total[3], explained;
    const num_regression how = {.family = NUM_LEGENDRE, .degree = 10, .pairs_of = 3, .least_gain = 1e-4};
    assert_int_equal(num_sample_even(N, 3, 1, 5, u), FV_OK);
    for (size_t k = 0; k < N; k++)
        y[k] = ishigami(u + 3 * k, 3);
    assert_int_equal(num_sensitivity_regress(&how, u, y, N, 3, first, total, &explained), FV_OK);
    compare("Ishigami by regression, first", ishigami_first, first, 3, 0.02);
    /* x1 and x3 together, 0.2437, are even in x3: no product of straight lines sees them */
    check_off("Ishigami by regression, explained", 1 - 0.2436836641, explained, 0.02, "closed form");
}

/* y = 2 z1 + z2 + z1 z2 + (z3^2 - 1) / 2 of standard normals: variances 4, 1, 1, 1/2 of 6.5. */
static void regression_of_normals(void **state)
{
    (void)state;
    enum { N = 512, D = 12 };
    double *z = malloc(N * D * sizeof *z), y[N], first[D], total[D], explained;
    const num_regression how = {.family = NUM_HERMITE, .degree = 3, .pairs_of = 4, .least_gain = 1e-3};
    assert_int_equal(num_sample_normal(N, D, 1, 5, z), FV_OK);
    for (size_t k = 0; k < N; k++) {
        const double *x = z + D * k;
        y[k] = 2 * x[0] + x[1] + x[0] * x[1] + 0.5 * (x[2] * x[2] - 1);
    }
    assert_int_equal(num_sensitivity_regress(&how, z, y, N, D, first, total, &explained), FV_OK);
    const double alone[3] = {4 / 6.5, 1 / 6.5, 0.5 / 6.5}, all[3] = {5 / 6.5, 2 / 6.5, 0.5 / 6.5};
    compare("polynomial of normals, first", alone, first, 3, 0.03);
    compare("polynomial of normals, total", all, total, 3, 0.03);
    check_off("polynomial of normals, explained", 1, explained, 1e-9, "exactly so");
    for (size_t i = 3; i < D; i++)
        assert_true(total[i] < 1e-9);
    for (size_t k = 0; k < N; k++)
        y[k] = 3;
    assert_int_equal(num_sensitivity_regress(&how, z, y, N, D, first, total, &explained), FV_OK);
    assert_true(first[0] == 0 && explained == 0);
    assert_int_equal(num_sensitivity_regress(&how, z, y, 20, D, first, total, &explained), FV_OK);
    y[0] = 4;
    assert_int_equal(num_sensitivity_regress(&how, z, y, 20, D, first, total, &explained), FV_FAIL);
    free(z);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(exact), cmocka_unit_test(regression),
                                       cmocka_unit_test(regression_of_normals)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
