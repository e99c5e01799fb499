/* SPDX-License-Identifier: MIT */
/* Bands and chances from runs, and how sure those are. */
#include "num/quantile.h"
#include "study/odds/parts.h"

double odds_chance(odds_is *is, const void *of, size_t vessel, const bool *good, size_t runs, double *error)
{
    double yes[FV_ODDS_SETS] = {0}, in[FV_ODDS_SETS] = {0}, all = 0, count = 0, scatter = 0;
    for (size_t i = 0; i < runs; i++) {
        const size_t set = i / (runs / FV_ODDS_SETS);
        if (!good[i])
            continue;
        yes[set] += is(of, i, vessel);
        in[set]++;
    }
    for (size_t s = 0; s < FV_ODDS_SETS; s++) {
        all += yes[s];
        count += in[s];
    }
    for (size_t s = 0; s < FV_ODDS_SETS; s++)
        scatter += in[s] > 0 ? pow(yes[s] / in[s] - all / count, 2) : 0;
    if (error)
        *error = sqrt(scatter / (FV_ODDS_SETS * (FV_ODDS_SETS - 1)));
    return all / count;
}

void odds_band(const double *values, size_t stride, const bool *good, size_t runs, double *work, fv_band *band)
{
    double *kept = work, *scratch = work + runs;
    size_t n = 0;
    for (size_t i = 0; i < runs; i++)
        if (good[i])
            kept[n++] = values[i * stride];
    const size_t sets = n == runs ? FV_ODDS_SETS : 0;
    band->low = num_quantile(kept, NULL, n, 0.1, scratch);
    band->middle = num_quantile(kept, NULL, n, 0.5, scratch);
    band->high = num_quantile(kept, NULL, n, 0.9, scratch);
    band->low_error = num_quantile_error(kept, n, sets, 0.1, scratch);
    band->middle_error = num_quantile_error(kept, n, sets, 0.5, scratch);
    band->high_error = num_quantile_error(kept, n, sets, 0.9, scratch);
}
