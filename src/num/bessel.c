/* SPDX-License-Identifier: MIT */
/* Bessel functions for the conduction series, from GSL.
 *
 * The _e forms are used throughout: they give an error code where the plain ones would call GSL's error handler.
 * GSL calls tiny J1 an underflow; there J1(x) = x/2 to rounding, and no call is made.
 */
#include "num/bessel.h"

#include <gsl/gsl_sf_bessel.h>
#include <math.h>

double num_bessel_j0(double x)
{
    gsl_sf_result r;
    gsl_sf_bessel_J0_e(x, &r);
    return r.val;
}

double num_bessel_j1(double x)
{
    if (fabs(x) < 1e-9)
        return 0.5 * x;
    gsl_sf_result r;
    gsl_sf_bessel_J1_e(x, &r);
    return r.val;
}

double num_bessel_j0_zero(unsigned n)
{
    gsl_sf_result r;
    gsl_sf_bessel_zero_J0_e(n, &r);
    // GSL's asymptotic zeros are good to about 1e-13; one Newton step (J0' = -J1) takes them to rounding.
    return r.val + num_bessel_j0(r.val) / num_bessel_j1(r.val);
}

double num_bessel_j1_zero(unsigned n)
{
    gsl_sf_result r;
    gsl_sf_bessel_zero_J1_e(n, &r);
    // At a zero of J1 its slope is J0.
    return r.val - num_bessel_j1(r.val) / num_bessel_j0(r.val);
}
