/* SPDX-License-Identifier: MIT */
/* Quantiles of samples, plain and weighted, and how sure they are. */
#ifndef NUM_QUANTILE_H
#define NUM_QUANTILE_H

#include "farvessel/base.h"

/* Quantile of n values, each with its weight (NULL: all equal), linear between the middles of the steps of the
 * empirical distribution (Hyndman & Fan, Am. Stat. 50 (1996) 361, type 5). Values may be infinite ("never"): a quantile
 * that falls beside one is infinite. scratch: 2 n doubles. NaN: no weight at all. */
double num_quantile(const double *values, const double *weights, size_t n, double share, double *scratch);

/* Standard error of the quantile from equal sets of a randomised sample: the sets' scatter / sqrt(sets); NaN where a
 * set's quantile is not finite or there are fewer than 2 sets. scratch: 2 n doubles. */
double num_quantile_error(const double *values, size_t n, size_t sets, double share, double *scratch);

/* Kish's effective size of a weighted sample, (sum w)^2 / sum w^2. */
double num_effective_size(const double *weights, size_t n);

#endif
