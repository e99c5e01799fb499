/* SPDX-License-Identifier: MIT */
/* Whitening of readings whose error is an Ornstein-Uhlenbeck process plus white noise, in O(n).
 *
 * Error at time t: slow(t) + noise; slow has the covariance slow^2 exp(-|dt|/time), the noise the variance of the
 * reading. The Kalman filter of that state gives the innovations v and their variances F; v / sqrt(F) are independent
 * standard normals, and -1/2 sum(v^2/F + ln(2 pi F)) is the likelihood of the dense covariance (Durbin & Koopman, Time
 * Series Analysis by State Space Methods, 2nd ed. 2012, 4.3 and 7.2; Uhlenbeck & Ornstein, Phys. Rev. 36 (1930) 823).
 * The variances do not depend on the readings, so whitening is linear in them. */
#ifndef NUM_WHITEN_H
#define NUM_WHITEN_H

#include <stddef.h>

typedef struct {
    double slow; /* K or whatever the readings are in: standard deviation of the slow error; 0: none */
    double time; /* s, correlation time, > 0 */
} num_slow_error;

/* What whitening n readings at `time` (s, rising) takes: by reading, how much of the slow error is left from the
 * last (fade), the gain, and 1 / sqrt(F). Each has n places. Returns the sum of ln(2 pi F). */
typedef struct {
    double *fade, *gain, *scale;
} num_whitener;
double num_whiten_prepare(const num_slow_error *error, const double *time, const double *noise_variance, size_t n,
                          num_whitener *out);
/* Residuals to whitened ones; may be the same array. */
void num_whiten(const num_whitener *w, const double *residual, size_t n, double *white);

#endif
