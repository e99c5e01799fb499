/* SPDX-License-Identifier: MIT */
/* Eigenvalues and coefficients of one-dimensional conduction with a film at the surface.
 *
 *     slab:      z tan z = Bi                 theta = sum C cos(z x) exp(-z^2 Fo)
 *     cylinder:  z J1(z) / J0(z) = Bi         theta = sum C J0(z r) exp(-z^2 Fo)
 *     sphere:    1 - z cot z = Bi             theta = sum C sin(z r)/(z r) exp(-z^2 Fo)
 *
 * Given:    shape; Biot number h L/k (L half thickness or radius), > 0, may be infinite; n from 0.
 * Returned: z, C for the centre, C for the volume mean.
 * How:      each root lies alone between a root for Bi = 0 and one for Bi = infinity; a Newton step that leaves that
 *           bracket, which shrinks as it goes, is replaced by halving. The functions are written without a pole.
 * Range:    any Bi > 0. Bi <= 0, not a number, n < 0: FV_FAIL.
 * Accuracy: 1e-15 of z and about 1e-14 of C, also for Bi of 1e-12 (series where terms would cancel).
 * Source:   H. S. Carslaw & J. C. Jaeger, Conduction of Heat in Solids, 2nd ed. (1959), sections 3.11, 7.7 and 9.4.
 */
#include "farvessel/constants.h"
#include "farvessel/heat.h"
#include "num/bessel.h"

#include <math.h>

/* y - sin y and sin y - y cos y, both about y^3 where y is small: their series there. */
static double y_minus_sine(double y)
{
    if (fabs(y) > 1.0)
        return y - sin(y);
    double term = y * y * y / 6.0, sum = term;
    for (int k = 4; fabs(term) > 1e-17 * fabs(sum); k += 2) {
        term *= -y * y / (k * (k + 1));
        sum += term;
    }
    return sum;
}

static double sine_minus_y_cosine(double y)
{
    if (fabs(y) > 1.0)
        return sin(y) - y * cos(y);
    double power = y * y * y / 6.0, sum = 2.0 * power;
    for (int k = 2; k < 12; k++) {
        power *= -y * y / (2 * k * (2 * k + 1));
        sum += 2.0 * k * power;
    }
    return sum;
}

/* The characteristic function, pole-free, and its slope. */
static double characteristic(fv_shape_1d shape, double biot, double z, double *slope)
{
    if (shape == FV_CYLINDER) {
        double j0 = num_bessel_j0(z), j1 = num_bessel_j1(z);
        *slope = z * j0 + biot * j1;
        return z * j1 - biot * j0;
    }
    double s = sin(z), c = cos(z);
    if (shape == FV_SLAB) {
        *slope = s * (1.0 + biot) + z * c;
        return z * s - biot * c;
    }
    *slope = z * s - biot * c;
    return sine_minus_y_cosine(z) - biot * s;
}

static void bracket(fv_shape_1d shape, int n, double *low, double *high)
{
    if (shape == FV_CYLINDER) {
        *low = n > 0 ? num_bessel_j1_zero((unsigned)n) : 0.0;
        *high = num_bessel_j0_zero((unsigned)n + 1);
    } else {
        *low = n * FV_PI;
        *high = shape == FV_SLAB ? (n + 0.5) * FV_PI : (n + 1.0) * FV_PI;
    }
}

static double root(fv_shape_1d shape, double biot, int n)
{
    double low, high;
    bracket(shape, n, &low, &high);
    if (isinf(biot))
        return high;
    double sign = n % 2 ? -1.0 : 1.0; // sign * characteristic rises from low to high
    double dimensions = shape == FV_SLAB ? 1.0 : shape == FV_CYLINDER ? 2.0 : 3.0;
    double z =
        n == 0 ? high / sqrt(1.0 + high * high / (dimensions * biot)) : low + (high - low) * biot / (biot + high);
    for (int i = 0; i < 200; i++) {
        double slope, f = characteristic(shape, biot, z, &slope);
        if (f == 0)
            break;
        if (sign * f < 0)
            low = z;
        else
            high = z;
        double next = z - f / slope;
        if (!(next > low && next < high))
            next = 0.5 * (low + high);
        double step = fabs(next - z);
        z = next;
        if (step <= 1e-15 * z)
            break;
    }
    return z;
}

fv_status fv_heat_eigen(fv_shape_1d shape, double biot, int n, double *zeta, double *c_centre, double *c_mean)
{
    if (!zeta || !c_centre || !c_mean)
        return FV_FAIL;
    if (!(biot > 0) || n < 0)
        return FV_FAIL;
    double z = root(shape, biot, n);
    *zeta = z;
    if (shape == FV_SLAB) {
        *c_centre = 4.0 * sin(z) / (2.0 * z + sin(2.0 * z));
        *c_mean = *c_centre * sin(z) / z;
    } else if (shape == FV_CYLINDER) {
        double j0 = num_bessel_j0(z), j1 = num_bessel_j1(z);
        *c_centre = 2.0 / z * j1 / (j0 * j0 + j1 * j1);
        *c_mean = *c_centre * 2.0 * j1 / z;
    } else {
        double s = sine_minus_y_cosine(z);
        *c_centre = 4.0 * s / y_minus_sine(2.0 * z);
        *c_mean = *c_centre * 3.0 * s / (z * z * z);
    }
    return FV_OK;
}
