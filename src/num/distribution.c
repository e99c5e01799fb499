/* SPDX-License-Identifier: MIT */
#include "num/distribution.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

double num_normal_share(double z)
{
    return gsl_cdf_ugaussian_P(z);
}

double num_normal_quantile(double share)
{
    return gsl_cdf_ugaussian_Pinv(share);
}

static double logit(double share)
{
    return log(share / (1 - share));
}

/* A rectangular variable between -1 and 1; from the nearer tail, so that neither end is rounded to. */
static double even(double z)
{
    return z < 0 ? 2 * gsl_cdf_ugaussian_P(z) - 1 : 1 - 2 * gsl_cdf_ugaussian_Q(z);
}

double num_distribution_at(const num_distribution *d, double z)
{
    switch (d->kind) {
    case NUM_LOG_NORMAL:
        return d->centre * pow(1 + d->spread, z);
    case NUM_LOGIT_NORMAL:
        return 1 / (1 + exp(-logit(d->centre) - z * d->spread / (d->centre * (1 - d->centre))));
    case NUM_RECTANGULAR:
        return d->centre + d->spread * even(z);
    case NUM_LOG_RECTANGULAR:
        return d->centre * pow(d->spread, even(z));
    default:
        return d->centre + d->spread * z;
    }
}
