/* SPDX-License-Identifier: MIT */
/* Isentropic flow of a perfect gas through a hole, as a factor on the incompressible formula.
 *
 * Purpose   m^2 = (Cd A)^2 2 rho_1 dp Y2(x), x = dp/p_1: near x = 0 the square of the flow is a smooth function of
 *           dp, which is what Newton's method wants when a hole's drop goes to zero.
 * Given     x = 1 - p_2/p_1; exponent k (FV_EXPONENT_SATURATED for dry saturated steam).
 * Returned  Y2 = k/((k - 1) x) (r^(2/k) - r^((k+1)/k)), r = 1 - x, and dY2/dx; Y2(0) = 1. Beyond the critical x_c the
 *           hole chokes and Y2 = x_c Y2(x_c)/x: m then depends on p_1 alone. Value and slope join at x_c, since m is
 *           largest there.
 * Valid     0 <= x <= 1, 1 < k <= 5/3. Below 0 the formula goes on smoothly, for an iteration that strays; beyond
 *           -0.05, above 1 and for k > 5/3 FV_DOUBTFUL. FV_FAIL for k <= 1 or x or k not finite.
 * Accuracy  2e-15 relative in Y2, 1e-14 in the slope, at any x, against 50-digit arithmetic. The model for dry
 *           saturated steam, k = 1.135, against isentropic equilibrium expansion by IAPWS-IF97: 0.2 % from 1 to 6
 *           bar.
 * Source    A. J. C. B. de Saint-Venant & P. L. Wantzel (1839), in any gas dynamics text; k = 1.035 + 0.1 quality for
 *           wet steam, G. Zeuner, Technische Thermodynamik (from memory).
 *
 * Series for small |x|: with r^a = sum beta_n(a) x^n, beta_n(a) = beta_(n-1)(a) (n - 1 - a)/n, the divided difference
 * d_n = (beta_n(2/k) - beta_n((k+1)/k)) k/(k-1) obeys d_n = (d_(n-1) (n - 1 - 2/k) + beta_(n-1)((k+1)/k))/n, d_0 = 0,
 * free of cancellation, and Y2 = sum d_n x^(n-1). */
#include "farvessel/flow.h"

#include <math.h>

#define SERIES_TO 0.05
#define TERMS 13 // odd

/* d_1, d_2, ... for an exponent. */
static void coefficients(double k, double d[TERMS])
{
    double a = 2.0 / k;
    double b = (k + 1.0) / k;
    double beta = -b;
    d[0] = 1.0;
    for (int n = 2; n <= TERMS; n++) {
        d[n - 1] = (d[n - 2] * (n - 1 - a) + beta) / n;
        beta *= (n - 1 - b) / n;
    }
}

/* Even and odd powers by themselves, each with its derivative: four short chains rather than a long one. */
static void series(double x, double k, double *y2, double *slope)
{
    // of dry saturated steam, which nearly all holes ask for
    static const double saturated[TERMS] = {1.0000000000000000,    -1.3215859030837004,   0.17142450529475311,
                                            0.061264561999488817,  0.029258721058326967,  0.016438538337899988,
                                            0.010241324915860995,  0.0068542776882701720, 0.0048353884282886655,
                                            0.0035516259821146534, 0.0026933493695344054, 0.0020960977842053980,
                                            0.0016666575817159858};
    double own[TERMS];
    const double *d = saturated;
    if (k != FV_EXPONENT_SATURATED) {
        coefficients(k, own);
        d = own;
    }
    double square = x * x;
    double even = d[TERMS - 1], even_slope = 0.0;
    double odd = d[TERMS - 2], odd_slope = 0.0;
    for (int n = TERMS - 3; n >= 0; n -= 2) {
        even_slope = even_slope * square + even;
        even = even * square + d[n];
        if (n == 0)
            break;
        odd_slope = odd_slope * square + odd;
        odd = odd * square + d[n - 1];
    }
    *y2 = even + x * odd;
    *slope = odd + 2.0 * x * even_slope + 2.0 * square * odd_slope;
}

fv_status fv_flow_expansibility2(double x, double exponent, double *y2, double *dy2_dx, bool *choked)
{
    double k = exponent;
    if (!isfinite(x) || !isfinite(k) || !(k > 1.0))
        return FV_FAIL;
    fv_status status = x < -0.05 || x > 1.0 || k > 5.0 / 3.0 ? FV_DOUBTFUL : FV_OK;
    *choked = false;
    if (fabs(x) <= SERIES_TO) {
        series(x, k, y2, dy2_dx);
        return status;
    }
    // the flow is largest where r^((k-1)/k) = 2/(k + 1)
    double critical = -(k - 1.0) / (k + 1.0);
    double log_r = x < 1.0 ? log1p(-x) : -INFINITY;
    double fall = expm1((k - 1.0) / k * log_r);
    if (fall <= critical) {
        double largest = -k / (k - 1.0) * critical * pow(1.0 + critical, 2.0 / (k - 1.0));
        *choked = true;
        *y2 = largest / x;
        *dy2_dx = -*y2 / x;
        return status;
    }
    double r_2k = exp(2.0 / k * log_r);
    double flow2 = -k / (k - 1.0) * r_2k * fall;
    double flow2_slope = r_2k / (1.0 - x) * (1.0 + (k + 1.0) / (k - 1.0) * fall);
    *y2 = flow2 / x;
    *dy2_dx = (flow2_slope - *y2) / x;
    return status;
}

double fv_flow_critical_ratio(double exponent)
{
    return pow(2.0 / (exponent + 1.0), exponent / (exponent - 1.0));
}
