/* SPDX-License-Identifier: MIT */
/* Distributions of uncertain quantities, each as a function of one standard normal variable z, so that all unknowns of
 * a problem together are independent standard normals. */
#ifndef NUM_DISTRIBUTION_H
#define NUM_DISTRIBUTION_H

typedef enum {
    NUM_NORMAL,          /* centre + spread z */
    NUM_LOG_NORMAL,      /* centre exp(s z), centre > 0 the median, s = ln(1 + spread) */
    NUM_LOGIT_NORMAL,    /* 0 < centre < 1 the median; spread: standard deviation near it */
    NUM_RECTANGULAR,     /* even between centre - spread and centre + spread */
    NUM_LOG_RECTANGULAR, /* even in the logarithm between centre / spread and centre x spread, spread > 1 */
    NUM_DISTRIBUTIONS
} num_distribution_kind;

typedef struct {
    num_distribution_kind kind;
    double centre, spread;
} num_distribution;

/* The value at z. */
double num_distribution_at(const num_distribution *d, double z);

/* Standard normal: share below z, and the z with that share below it. */
double num_normal_share(double z);
double num_normal_quantile(double share);

#endif
