/* SPDX-License-Identifier: MIT */
#ifndef STUDY_SHAPLEY_H
#define STUDY_SHAPLEY_H

#include <stddef.h>

enum { SHAPLEY_MOST = 16 };

/* The Shapley value of each of n players, n <= SHAPLEY_MOST: what it adds to the worth of those before it, averaged
 * over all orders. `worth` has 2^n values; bit i of the index: player i is in. They add up to worth of all less worth
 * of none.
 *
 *   phi_i = sum over S without i of |S|! (n - |S| - 1)! / n! (worth(S and i) - worth(S))      (Shapley 1953, eq. 13) */
void study_shapley(size_t n, const double *worth, double *value);

#endif
