/* SPDX-License-Identifier: MIT */
/* What is either-or in this model, with its corners rounded off. Softness 0 is the thing itself; larger ones have
 * solutions that Newton's method finds from afar and that lead there (smoothing by B. Chen & P. T. Harker 1993 and
 * C. Kanzow 1996; from memory). */
#ifndef STEADY_SOFT_H
#define STEADY_SOFT_H

/* Of the softness: what limits yield beside, in proportion, so that a soft problem has a solution where the real one
 * has one at a corner. */
#define STEADY_YIELDS 0.1
/* Pa above a dry node's pressure that count as much as all of its share; the root does not depend on it. */
#define STEADY_SHARE_SPAN 1000.0

/* z between 0 and 1, and its slope. */
double steady_soft_clamp(double z, double softness, double *slope);

/* The lesser of a and b; slopes by each. Softness in the measure of a and b. */
double steady_soft_least(double a, double b, double softness, double *by_a, double *by_b);

#endif
