/* SPDX-License-Identifier: MIT */
#include "num/whiten.h"
#include "farvessel/constants.h"

#include <math.h>

double num_whiten_prepare(const num_slow_error *error, const double *time, const double *noise_variance, size_t n,
                          num_whitener *out)
{
    const double stationary = error->slow * error->slow;
    double variance = stationary, sum = 0; /* of the slow error before a reading */
    for (size_t i = 0; i < n; i++) {
        const double fade = i ? exp(-(time[i] - time[i - 1]) / error->time) : 0;
        if (i)
            variance = stationary + fade * fade * (variance - stationary);
        const double f = variance + noise_variance[i];
        out->fade[i] = fade;
        out->gain[i] = variance / f;
        out->scale[i] = 1 / sqrt(f);
        variance *= noise_variance[i] / f;
        sum += log(2 * FV_PI * f);
    }
    return sum;
}

void num_whiten(const num_whitener *w, const double *residual, size_t n, double *white)
{
    double slow = 0;
    for (size_t i = 0; i < n; i++) {
        slow *= w->fade[i];
        const double innovation = residual[i] - slow;
        slow += w->gain[i] * innovation;
        white[i] = innovation * w->scale[i];
    }
}
