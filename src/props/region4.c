/* SPDX-License-Identifier: MIT */
/* IAPWS-IF97 region 4: the saturation line, in both directions, and its slope.
 *
 * Given: t (K) or p (Pa). Returned: saturation pressure (Pa) or temperature (K); slope dT/dp (K/Pa).
 * Valid: 273.15 to 647.096 K, 611.213 Pa to 22.064 MPa. Outside, as far as the equations have a real root:
 * FV_DOUBTFUL; beyond: FV_FAIL.
 * Accuracy: reproduces Tables 35 and 36 of the release to every printed digit. Both directions solve the same
 * equation, so one undoes the other to rounding.
 * Source: IAPWS R7-97(2012), eqs 29 to 31, Table 34. The slope is the implicit derivative of eq 29. */
#include "props/line.h"

#include <math.h>

static const double n1 = 0.11670521452767e4, n2 = -0.72421316703206e6, n3 = -0.17073846940092e2,
                    n4 = 0.12020824702470e5, n5 = -0.32325550322333e7, n6 = 0.14915108613530e2,
                    n7 = -0.48232657361591e4, n8 = 0.40511340542057e6, n9 = -0.23855557567849, n10 = 0.65017534844798e3;

static const double p_star = 1e6; /* Pa */

double props_line_pressure(double t)
{
    double theta = t + n9 / (t - n10);
    double a = (theta + n1) * theta + n2;
    double b = (n3 * theta + n4) * theta + n5;
    double c = (n6 * theta + n7) * theta + n8;
    double beta = 2 * c / (sqrt(b * b - 4 * a * c) - b);
    return p_star * (beta * beta) * (beta * beta);
}

double props_line_temperature(double p)
{
    double beta = sqrt(sqrt(p / p_star));
    double e = (beta + n3) * beta + n6;
    double f = (n1 * beta + n4) * beta + n7;
    double g = (n2 * beta + n5) * beta + n8;
    double d = 2 * g / (-f - sqrt(f * f - 4 * e * g));
    double sum = n10 + d;
    return (sum - sqrt(sum * sum - 4 * (n9 + n10 * d))) / 2;
}

double props_line_slope(double p, double t)
{
    double beta = sqrt(sqrt(p / p_star));
    double theta = t + n9 / (t - n10);
    double by_beta = 2 * beta * ((theta + n1) * theta + n2) + (n3 * theta + n4) * theta + n5;
    double by_theta = (beta * (2 * theta + n1) + 2 * n3 * theta + n4) * beta + 2 * n6 * theta + n7;
    double dtheta_dt = 1 - n9 / ((t - n10) * (t - n10));
    double dbeta_dp = 1 / (4 * beta * beta * beta * p_star);
    return -by_beta / by_theta * dbeta_dp / dtheta_dt;
}

fv_status fv_if97_saturation_pressure(double t, double *p)
{
    if (!p)
        return FV_FAIL;
    if (!isfinite(t) || t <= 0)
        return FV_FAIL;
    double found = props_line_pressure(t);
    if (!isfinite(found) || found <= 0)
        return FV_FAIL;
    *p = found;
    return t < 273.15 || t > 647.096 ? FV_DOUBTFUL : FV_OK;
}

fv_status fv_if97_saturation_temperature(double p, double *t)
{
    if (!t)
        return FV_FAIL;
    if (!isfinite(p) || p <= 0)
        return FV_FAIL;
    double found = props_line_temperature(p);
    if (!isfinite(found) || found <= 0)
        return FV_FAIL;
    *t = found;
    return p < 611.212677 || p > 22.064e6 ? FV_DOUBTFUL : FV_OK;
}
