/* SPDX-License-Identifier: MIT */
/* Conduction shortly after the start, where the series would need very many terms.
 *
 * With m = 0 slab, 1 cylinder, 2 sphere, the change phi = 1 - theta times r^(m/2) obeys the plane equation with the
 * film Biot number Bi' = Bi - m/2 (exactly for m = 0 and 2; for m = 1 but for a term w/(4 r^2)). From one surface, at
 * depth d below it, a = d / (2 sqrt(Fo)):
 *
 *     w = Bi/Bi' [ erfc(a) - exp(Bi' d + Bi'^2 Fo) erfc(a + Bi' sqrt(Fo)) ],   Bi infinite: erfc(a)
 *
 * and the opposite surface adds its like (slab) or takes it away (sphere). What goes to and fro once more is below
 * 1e-16 up to Fo = 0.02.
 *
 * Given:    shape, Biot number (> 0, may be infinite), Fourier number, position 0 centre to 1 surface.
 * Returned: 1 - theta there, or its volume mean.
 * Range:    slab and sphere: Fo <= 0.01; cylinder: Fo <= 1e-6 (above it the series is used).
 * Accuracy: slab and sphere 1e-11; cylinder 1e-7 (the term left out is about Fo / 20).
 * Source:   H. S. Carslaw & J. C. Jaeger, Conduction of Heat in Solids, 2nd ed. (1959), sections 2.7, 3.11, 9.4, 13.3.
 */
#include "heat/conduction.h"

#include <math.h>

#define SQRT_PI 1.77245385090551602730

/* exp(x^2) erfc(x), x >= -1 or so. */
static double erfcx(double x)
{
    if (x < 25.0)
        return exp(x * x) * erfc(x);
    double y = 0.5 / (x * x);
    return (1.0 - y * (1.0 - 3.0 * y * (1.0 - 5.0 * y * (1.0 - 7.0 * y)))) / (x * SQRT_PI);
}

/* w at depth d below one surface. */
static double from_surface(double biot, double biot_plane, double root_fo, double d)
{
    double a = d / (2.0 * root_fo), e = erfc(a);
    if (isinf(biot))
        return e;
    double z = biot_plane * root_fo, gauss = exp(-a * a);
    if (fabs(z) > 1e-5)
        return biot / biot_plane * (e - gauss * erfcx(a + z));
    // Repeated integrals of erfc: the two terms above would cancel.
    double i1 = gauss / SQRT_PI - a * e, i2 = 0.25 * ((1.0 + 2.0 * a * a) * e - 2.0 * a * gauss / SQRT_PI);
    return 2.0 * biot * root_fo * (i1 - 2.0 * z * i2);
}

double heat_short_time_limit(fv_shape_1d shape)
{
    return shape == FV_CYLINDER ? 1e-6 : 1e-2;
}

double heat_short_time(fv_shape_1d shape, double biot, double fourier, double position)
{
    double root_fo = sqrt(fourier), r = position;
    if (shape == FV_SLAB)
        return from_surface(biot, biot, root_fo, 1.0 - r) + from_surface(biot, biot, root_fo, 1.0 + r);
    if (shape == FV_CYLINDER) // at less than a tenth of the radius nothing has changed yet, and 1/sqrt(r) would mislead
        return r < 0.1 ? 0.0 : from_surface(biot, biot - 0.5, root_fo, 1.0 - r) / sqrt(r);
    if (r > 1e-6)
        return (from_surface(biot, biot - 1.0, root_fo, 1.0 - r) - from_surface(biot, biot - 1.0, root_fo, 1.0 + r)) /
               r;
    double a = 0.5 / root_fo;
    if (isinf(biot))
        return 2.0 * exp(-a * a) / (SQRT_PI * root_fo);
    return 2.0 * biot * exp(-a * a) * erfcx(a + (biot - 1.0) * root_fo);
}

/* Taken up through unit surface: integral over Fourier of Bi (1 - phi at the surface). */
static double uptake(double biot, double m, double fourier)
{
    double root_fo = sqrt(fourier);
    if (isinf(biot))
        return 2.0 * root_fo / SQRT_PI - 0.5 * m * fourier;
    double plane = biot - 0.5 * m, y = plane * root_fo;
    if (y > 0.5) {
        double ratio = biot / plane;
        return ratio * ratio / plane * (erfcx(y) - 1.0 + 2.0 * y / SQRT_PI) - 0.5 * m * ratio * fourier;
    }
    // sum of (-y)^n / Gamma(n/2 + 5/2)
    double even = 4.0 / (3.0 * SQRT_PI), odd = 0.5, power = 1.0, sum = 0.0;
    for (int n = 0; n < 40; n += 2) {
        sum += power * (even - y * odd);
        power *= y * y;
        even /= 0.5 * n + 2.5;
        odd /= 0.5 * n + 3.0;
    }
    return biot * fourier * (1.0 - biot * root_fo * sum);
}

double heat_short_time_mean(fv_shape_1d shape, double biot, double fourier)
{
    double m = shape == FV_SLAB ? 0.0 : shape == FV_CYLINDER ? 1.0 : 2.0;
    return (m + 1.0) * uptake(biot, m, fourier);
}
