/* SPDX-License-Identifier: MIT */
#include "num/sensitivity.h"

#include <gsl/gsl_statistics_double.h>
#include <math.h>

void num_sensitivity_exact(const double *y_a, const double *y_b, const double *y_ab, size_t n, size_t inputs,
                           double *first, double *total)
{
    /* The middle of all is taken off first: the estimate of `first` is exact about any centre, but scatters less. */
    const double centre = 0.5 * (gsl_stats_mean(y_a, 1, n) + gsl_stats_mean(y_b, 1, n));
    double variance = 0;
    for (size_t k = 0; k < n; k++)
        variance += (pow(y_a[k] - centre, 2) + pow(y_b[k] - centre, 2)) / (double)(2 * n);
    for (size_t i = 0; i < inputs; i++) {
        double alone = 0, all = 0;
        for (size_t k = 0; k < n; k++) {
            const double moved = y_ab[i * n + k] - y_a[k];
            alone += (y_b[k] - centre) * moved / (double)n;
            all += moved * moved / (double)(2 * n);
        }
        first[i] = variance > 0 ? alone / variance : 0;
        total[i] = variance > 0 ? all / variance : 0;
    }
}
