/* SPDX-License-Identifier: MIT */
/* Smoothed complementarity. A condition such as 0 <= m perpendicular to p <= p_max is written as z = middle of 0, z and
 * 1 (a projection), whose kinks are smoothed with a parameter e: sqrt(z^2 + e^2) for |z|. e = 0 is exact; with larger e
 * Newton's method converges from afar, and its solutions lead to the exact one as e falls (B. Chen & P. T. Harker, SIAM
 * J. Optim. 3 (1993) 857; C. Kanzow, SIAM J. Matrix Anal. Appl. 17 (1996) 851; from memory). */
#ifndef STEADY_SMOOTH_H
#define STEADY_SMOOTH_H

/* Times the smoothing: limits are relaxed in proportion, so that a smoothed problem has a solution where the exact one
 * has one at a kink. */
#define STEADY_RELAXATION 0.1
/* Pa above a dry node's pressure that count as much as all of its share; the root does not depend on it. */
#define STEADY_SHARE_SPAN 1000.0

/* z between 0 and 1, and its slope. */
double steady_smooth_clamp(double z, double smoothing, double *slope);

/* The lesser of a and b; slopes by each. Smoothing in the measure of a and b. */
double steady_smooth_least(double a, double b, double smoothing, double *by_a, double *by_b);

#endif
