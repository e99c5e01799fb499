/* SPDX-License-Identifier: MIT */
/* Eigenvalues against a closed form: the matrix with 2 on its diagonal and -1 beside it has 2 - 2 cos(k pi/(n + 1)),
 * G. D. Smith, Numerical Solution of Partial Differential Equations (1985), 3; from memory. */
#include "checks.h"

#include "num/symmetric.h"

#include <math.h>
#include <stdlib.h>

static int ascending(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void of_a_chain(void **state)
{
    enum { N = 12 };
    double matrix[N * N] = {0}, kept[N * N], values[N], vectors[N * N];
    num_symmetric *room = num_symmetric_new(N);
    (void)state;
    assert_non_null(room);
    for (int i = 0; i < N; i++) {
        matrix[i * N + i] = 2;
        if (i > 0)
            matrix[i * N + i - 1] = -1;
    }
    for (int i = 0; i < N * N; i++)
        kept[i] = matrix[i];
    num_symmetric_eigen(room, matrix, values, vectors);
    for (int i = 0; i < N; i++)
        for (int j = 0; j <= i; j++) {
            double sum = 0, unit = 0;
            for (int m = 0; m < N; m++) {
                sum += vectors[i * N + m] * values[m] * vectors[j * N + m];
                unit += vectors[m * N + i] * vectors[m * N + j];
            }
            assert_true(fabs(sum - kept[i * N + j]) < 1e-13);
            assert_true(fabs(unit - (i == j)) < 1e-13);
        }
    qsort(values, N, sizeof *values, ascending);
    for (int k = 1; k <= N; k++)
        assert_true(fabs(values[k - 1] - (2 - 2 * cos(k * acos(-1.0) / (N + 1)))) < 1e-13);
    num_symmetric_free(room);
    num_symmetric_free(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(of_a_chain)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
