/* SPDX-License-Identifier: MIT */
/* Quasi-random samples of independent standard normals. */
#ifndef NUM_SAMPLE_H
#define NUM_SAMPLE_H

#include "farvessel/base.h"

/* Fills z (count x dim, row by row) with `replicates` sets of count / replicates points each, one after another; count
 * is a multiple of replicates. Each set is a Sobol' sequence with a random shift of its own modulo 1 (Cranley &
 * Patterson, SIAM J. Numer. Anal. 13 (1976) 904), so that its means are unbiased, and the scatter among the sets tells
 * the sampling error. GSL has 40 dimensions; further ones come from sequences shifted anew and run through in a random
 * order (Owen, Latin supercube sampling, ACM Trans. Model. Comput. Simul. 8 (1998) 71). The same seed gives the same
 * sample. FV_FAIL: out of memory. */
fv_status num_sample_normal(size_t count, size_t dim, size_t replicates, unsigned long seed, double *z);

/* The same evenly in the unit cube. */
fv_status num_sample_even(size_t count, size_t dim, size_t replicates, unsigned long seed, double *u);

/* Independent pseudo-random standard normals. */
fv_status num_sample_independent(size_t count, unsigned long seed, double *z);

#endif
