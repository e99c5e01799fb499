/* SPDX-License-Identifier: MIT */
#include "num/sample.h"
#include "num/distribution.h"
#include "num/quiet.h"

#include <gsl/gsl_qrng.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdlib.h>

enum { BLOCK_MOST = 40 }; /* dimensions of GSL's Sobol' sequence */

static gsl_rng *new_generator(unsigned long seed)
{
    num_quiet();
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    if (rng)
        gsl_rng_set(rng, seed);
    return rng;
}

/* One set of points in `width` dimensions from `first` on. order: where each point goes. */
static fv_status fill_block(size_t count, size_t dim, size_t first, size_t width, const size_t *order, gsl_rng *rng,
                            double *u)
{
    double shift[BLOCK_MOST], point[BLOCK_MOST];
    gsl_qrng *sobol = gsl_qrng_alloc(gsl_qrng_sobol, (unsigned)width);
    if (!sobol)
        return FV_FAIL;
    for (size_t j = 0; j < width; j++)
        shift[j] = gsl_rng_uniform_pos(rng);
    for (size_t i = 0; i < count; i++) {
        gsl_qrng_get(sobol, point);
        for (size_t j = 0; j < width; j++) {
            const double moved = point[j] + shift[j];
            u[order[i] * dim + first + j] = moved - floor(moved);
        }
    }
    gsl_qrng_free(sobol);
    return FV_OK;
}

static fv_status fill_set(size_t count, size_t dim, gsl_rng *rng, size_t *order, double *u)
{
    for (size_t i = 0; i < count; i++)
        order[i] = i;
    for (size_t first = 0; first < dim; first += BLOCK_MOST) {
        const size_t width = dim - first < BLOCK_MOST ? dim - first : BLOCK_MOST;
        if (first > 0)
            gsl_ran_shuffle(rng, order, count, sizeof *order);
        if (fill_block(count, dim, first, width, order, rng, u) == FV_FAIL)
            return FV_FAIL;
    }
    return FV_OK;
}

fv_status num_sample_even(size_t count, size_t dim, size_t replicates, unsigned long seed, double *u)
{
    const size_t each = count / replicates;
    gsl_rng *rng = new_generator(seed);
    size_t *order = calloc(each + 1, sizeof *order);
    fv_status status = rng && order ? FV_OK : FV_FAIL;
    for (size_t r = 0; r < replicates && status == FV_OK; r++)
        status = fill_set(each, dim, rng, order, u + r * each * dim);
    free(order);
    gsl_rng_free(rng);
    return status;
}

fv_status num_sample_normal(size_t count, size_t dim, size_t replicates, unsigned long seed, double *z)
{
    const double least = 1e-12; /* a shifted point may fall on 0 */
    if (num_sample_even(count, dim, replicates, seed, z) == FV_FAIL)
        return FV_FAIL;
    for (size_t i = 0; i < count * dim; i++)
        z[i] = num_normal_quantile(fmax(least, fmin(1 - least, z[i])));
    return FV_OK;
}

fv_status num_sample_independent(size_t count, unsigned long seed, double *z)
{
    gsl_rng *rng = new_generator(seed);
    for (size_t i = 0; i < count && rng; i++)
        z[i] = gsl_ran_gaussian_ziggurat(rng, 1);
    const bool good = rng != NULL;
    gsl_rng_free(rng);
    return good ? FV_OK : FV_FAIL;
}
