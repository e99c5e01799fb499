/* SPDX-License-Identifier: MIT */
/* Transient conduction in a slab, cylinder or sphere, from a uniform start into surroundings of constant temperature.
 *
 * Given:    shape; Biot number h L/k, > 0, may be infinite; Fourier number alpha t / L^2 >= 0; position 0 centre to
 *           1 surface; L half thickness or radius.
 * Returned: theta = (T - T_inf)/(T_i - T_inf) there, or its volume mean. Bodies of two or three dimensions are products
 *           of these (A. B. Newman 1936), formed by the caller.
 * How:      the series of eigen.c until a term is 1e-18 of the first; below a small Fourier number the forms of
 *           short_time.c. The cylinder needs up to 2000 terms just above Fo = 1e-6, the others at most 20.
 * Range:    all. Negative Fourier number, position outside 0..1, Bi <= 0, not a number: FV_FAIL.
 * Accuracy: 1e-11 of 1 (cylinder below Fo = 1e-6: 1e-7), and for large Fourier numbers 1e-12 of theta itself.
 * Source:   H. S. Carslaw & J. C. Jaeger, Conduction of Heat in Solids, 2nd ed. (1959), sections 3.11, 7.7 and 9.4.
 */
#include "heat/conduction.h"
#include "num/bessel.h"

#include <math.h>

double heat_shape_function(fv_shape_1d shape, double y)
{
    if (shape == FV_SLAB)
        return cos(y);
    if (shape == FV_CYLINDER)
        return num_bessel_j0(y);
    return y == 0 ? 1.0 : sin(y) / y;
}

/* Eigenvalues found so far, with their coefficients; those beyond are found anew each time. */
enum { KEPT = 48 };
typedef struct {
    fv_shape_1d shape;
    double biot;
    int count;
    double zeta[KEPT], centre[KEPT], mean[KEPT];
} spectrum;

static void eigen(spectrum *s, int n, double *zeta, double *centre, double *mean)
{
    if (n >= KEPT) {
        fv_heat_eigen(s->shape, s->biot, n, zeta, centre, mean);
        return;
    }
    for (; s->count <= n; s->count++)
        fv_heat_eigen(s->shape, s->biot, s->count, &s->zeta[s->count], &s->centre[s->count], &s->mean[s->count]);
    *zeta = s->zeta[n];
    *centre = s->centre[n];
    *mean = s->mean[n];
}

/* position < 0: the volume mean. */
static double series(spectrum *s, double fourier, double position)
{
    const fv_shape_1d shape = s->shape;
    double sum = 0, first = 0;
    for (int n = 0;; n++) {
        double z, c, c_mean;
        eigen(s, n, &z, &c, &c_mean);
        if (n == 0)
            first = z;
        else if ((z - first) * (z + first) * fourier > 41.5)
            return sum;
        double decay = exp(-z * z * fourier);
        sum += decay * (position < 0 ? c_mean : c * heat_shape_function(shape, z * position));
    }
}

static bool sane(double biot, double fourier)
{
    return biot > 0 && fourier >= 0;
}

static double theta_at(spectrum *s, double fourier, double position)
{
    if (isinf(s->biot) && position == 1)
        return 0;
    if (fourier == 0)
        return 1;
    if (fourier <= heat_short_time_limit(s->shape))
        return 1.0 - heat_short_time(s->shape, s->biot, fourier, position);
    return series(s, fourier, position);
}

static double theta_mean_at(spectrum *s, double fourier)
{
    if (fourier == 0)
        return 1;
    if (fourier <= heat_short_time_limit(s->shape))
        return 1.0 - heat_short_time_mean(s->shape, s->biot, fourier);
    return series(s, fourier, -1.0);
}

fv_status fv_heat_theta(fv_shape_1d shape, double biot, double fourier, double position, double *theta)
{
    if (!theta || !sane(biot, fourier) || !(position >= 0 && position <= 1))
        return FV_FAIL;
    spectrum s = {.shape = shape, .biot = biot};
    *theta = theta_at(&s, fourier, position);
    return FV_OK;
}

fv_status fv_heat_theta_mean(fv_shape_1d shape, double biot, double fourier, double *theta)
{
    if (!theta || !sane(biot, fourier))
        return FV_FAIL;
    spectrum s = {.shape = shape, .biot = biot};
    *theta = theta_mean_at(&s, fourier);
    return FV_OK;
}

fv_status fv_heat_theta_all(fv_shape_1d shape, double biot, const double *fourier, size_t count, double *centre,
                            double *mean)
{
    spectrum s = {.shape = shape, .biot = biot};
    if (!fourier || !centre || !mean)
        return FV_FAIL;
    for (size_t k = 0; k < count; k++) {
        if (!sane(biot, fourier[k]))
            return FV_FAIL;
        centre[k] = theta_at(&s, fourier[k], 0);
        mean[k] = theta_mean_at(&s, fourier[k]);
    }
    return FV_OK;
}
