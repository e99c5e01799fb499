/* SPDX-License-Identifier: MIT */
#include "num/quantile.h"

#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <stdlib.h>

typedef struct {
    double value, weight;
} weighted;

static int by_value(const void *a, const void *b)
{
    const double x = ((const weighted *)a)->value, y = ((const weighted *)b)->value;
    return (x > y) - (x < y);
}

static double between(double low, double high, double share)
{
    if (low == high || share <= 0)
        return low;
    return isinf(low) || isinf(high) ? (share < 1 && isinf(low) ? low : high) : low + share * (high - low);
}

double num_quantile(const double *values, const double *weights, size_t n, double share, double *scratch)
{
    weighted *sorted = (weighted *)(void *)scratch;
    double total = 0, below = 0;
    for (size_t i = 0; i < n; i++) {
        sorted[i] = (weighted){values[i], weights ? weights[i] : 1};
        total += sorted[i].weight;
    }
    if (!(total > 0))
        return NAN;
    qsort(sorted, n, sizeof *sorted, by_value);
    double last = sorted[0].value, last_at = 0;
    for (size_t i = 0; i < n; i++) {
        const double at = (below + 0.5 * sorted[i].weight) / total;
        if (at >= share && sorted[i].weight > 0)
            return i == 0 ? sorted[0].value : between(last, sorted[i].value, (share - last_at) / (at - last_at));
        below += sorted[i].weight;
        if (sorted[i].weight > 0) {
            last = sorted[i].value;
            last_at = at;
        }
    }
    return last;
}

double num_quantile_error(const double *values, size_t n, size_t sets, double share, double *scratch)
{
    enum { SETS_MOST = 64 };
    double found[SETS_MOST];
    if (sets < 2 || sets > SETS_MOST)
        return NAN;
    for (size_t r = 0; r < sets; r++) {
        found[r] = num_quantile(values + r * (n / sets), NULL, n / sets, share, scratch);
        if (!isfinite(found[r]))
            return NAN;
    }
    return gsl_stats_sd(found, 1, sets) / sqrt((double)sets);
}

double num_effective_size(const double *weights, size_t n)
{
    double sum = 0, squares = 0;
    for (size_t i = 0; i < n; i++) {
        sum += weights[i];
        squares += weights[i] * weights[i];
    }
    return squares > 0 ? sum * sum / squares : 0;
}
