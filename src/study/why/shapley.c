/* SPDX-License-Identifier: MIT */
#include "study/why/shapley.h"

static size_t members(size_t set)
{
    size_t count = 0;
    for (; set; set &= set - 1)
        count++;
    return count;
}

void study_shapley(size_t n, const double *worth, double *value)
{
    /* weight of a set of s players: s! (n - s - 1)! / n! = 1 / (n C(n-1, s)) */
    double weight[SHAPLEY_MOST + 1];
    double choose = 1;
    for (size_t s = 0; s < n; s++) {
        weight[s] = 1 / ((double)n * choose);
        choose *= (double)(n - 1 - s) / (double)(s + 1);
    }
    for (size_t i = 0; i < n; i++) {
        const size_t bit = (size_t)1 << i;
        value[i] = 0;
        for (size_t set = 0; set < (size_t)1 << n; set++)
            if (!(set & bit))
                value[i] += weight[members(set)] * (worth[set | bit] - worth[set]);
    }
}
