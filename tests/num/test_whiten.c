/* SPDX-License-Identifier: MIT */
/* Whitening in O(n) against the dense covariance, and against the published filter of the Nile. */
#include "checks.h"
#include "num/sample.h"
#include "num/whiten.h"

#include <gsl/gsl_linalg.h>
#include <gsl/gsl_math.h>

enum { N = 50 };

/* 50 uneven times; the covariance written out, factored by Cholesky, solved. */
static void dense_covariance(void **state)
{
    (void)state;
    const num_slow_error error = {0.7, 1800};
    double time[N], noise[N], residual[N], white[N], fade[N], gain[N], scale[N], z[2 * N];
    num_whitener w = {fade, gain, scale};
    assert_int_equal(num_sample_independent(2 * N, 9, z), FV_OK);
    for (int i = 0; i < N; i++) {
        time[i] = (i ? time[i - 1] : 0) + 20 + 300 * fabs(z[i]);
        noise[i] = pow(0.1 + 0.02 * (i % 5), 2);
        residual[i] = z[N + i];
    }
    const double logs = num_whiten_prepare(&error, time, noise, N, &w);
    num_whiten(&w, residual, N, white);
    double squares = 0;
    for (int i = 0; i < N; i++)
        squares += white[i] * white[i];

    gsl_matrix *c = gsl_matrix_alloc(N, N);
    gsl_vector_view r = gsl_vector_view_array(residual, N);
    gsl_vector *x = gsl_vector_alloc(N);
    for (size_t i = 0; i < N; i++)
        for (size_t j = 0; j < N; j++)
            gsl_matrix_set(c, i, j, 0.49 * exp(-fabs(time[i] - time[j]) / 1800) + (i == j ? noise[i] : 0));
    gsl_linalg_cholesky_decomp1(c);
    gsl_linalg_cholesky_solve(c, &r.vector, x);
    double dense = 0, determinant = 0;
    for (size_t i = 0; i < N; i++) {
        dense += residual[i] * gsl_vector_get(x, i);
        determinant += log(2 * M_PI) + 2 * log(gsl_matrix_get(c, i, i));
    }
    check_dev("sum of squares, 50 uneven times", dense, squares, 1e-10, "dense covariance, GSL Cholesky");
    check_dev("logarithm of the determinant", determinant, logs, 1e-10, "dense covariance, GSL Cholesky");
    gsl_matrix_free(c);
    gsl_vector_free(x);
}

/* The slow error at each reading given all up to it, from the whitened readings. */
static void slow_errors(const num_whitener *w, const double *residual, int n, double *slow)
{
    double state = 0;
    num_whiten(w, residual, (size_t)n, slow);
    for (int i = 0; i < n; i++)
        slow[i] = state = w->fade[i] * state + w->gain[i] * slow[i] / w->scale[i];
}

/* Without a slow error it is plain scaling; readings far apart forget each other. */
static void limits(void **state)
{
    (void)state;
    double time[3] = {0, 60, 120}, noise[3] = {4, 4, 4}, residual[3] = {2, -4, 6}, white[3], a[3], b[3], c[3];
    num_whitener w = {a, b, c};
    num_whiten_prepare(&(num_slow_error){0, 1800}, time, noise, 3, &w);
    num_whiten(&w, residual, 3, white);
    for (int i = 0; i < 3; i++)
        check_off("white noise alone", residual[i] / 2, white[i], 1e-15, "definition");
    num_whiten_prepare(&(num_slow_error){3, 1e-3}, time, noise, 3, &w);
    num_whiten(&w, residual, 3, white);
    for (int i = 0; i < 3; i++)
        check_off("far apart", residual[i] / sqrt(13), white[i], 1e-15, "definition");
    num_slow_error slow = {3, 1e9};
    double error[3];
    num_whiten_prepare(&slow, time, noise, 3, &w);
    slow_errors(&w, residual, 3, error);
    /* a constant with prior N(0, 9) and three readings of variance 4: mean 9 x 4 / (4 + 27) */
    check_off("slow error that stands", 9 * 4.0 / 31, error[2], 1e-6, "static filter, closed form");
}

/* The Nile's local level is the limit of a very slow process: time tau and variance P0 with 2 P0 / tau = var_eta a
 * year. Its level after 1970 and the prediction likelihood are known. */
static void nile(void **state)
{
    (void)state;
    enum { YEARS = 100 };
    const double years = 1e7, eta = 1469.1, eps = 15099;
    double time[YEARS], y[YEARS], noise[YEARS], fade[YEARS], gain[YEARS], scale[YEARS], level[YEARS], mean[YEARS];
    char line[256];
    int n = 0;
    FILE *file = open_reference("num/kalman_nile.csv");
    while (fgets(line, sizeof line, file)) {
        double year, flow;
        if (sscanf(line, "%lf,%lf,", &year, &flow) == 2) {
            const char *last = strrchr(line, ',');
            for (const char *c = last - 1; *c != ','; c--)
                last = c;
            mean[n] = strtod(last, NULL);
            time[n] = year;
            noise[n] = eps;
            y[n++] = flow - 1120;
        }
    }
    fclose(file);
    assert_int_equal(n, YEARS);
    num_whitener w = {fade, gain, scale};
    num_whiten_prepare(&(num_slow_error){sqrt(eta * years / 2), years}, time, noise, YEARS, &w);
    slow_errors(&w, y, YEARS, level);
    check_dev("Nile, gain in the steady state", 0.267048013, gain[YEARS - 1], 1e-6, "Durbin & Koopman, computed");
    check_dev("Nile, level after 1872", 1140.927840, 1120 + level[1], 1e-5, "Durbin & Koopman, computed");
    check_dev("Nile, level after 1970", 798.370293, 1120 + level[YEARS - 1], 1e-5, "Durbin & Koopman, computed");
    for (int i = 1; i < YEARS; i++)
        assert_true(fabs(1120 + level[i] - mean[i]) < 0.01);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(dense_covariance), cmocka_unit_test(limits),
                                       cmocka_unit_test(nile)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
