/* SPDX-License-Identifier: MIT */
/* Viscosity of water and steam, without the critical enhancement.
 *
 * Given: t (K), rho (kg/m3; 0 is the dilute gas). Returned: mu (Pa s); privately also its partial derivatives.
 * Valid: 273.15 to 1173.15 K, densities to 1250 kg/m3 (about the densest liquid of the release's range).
 * FV_DOUBTFUL outside, and near the critical point (645.91 to 650.77 K with 245.8 to 405.3 kg/m3), where the term
 * left out exceeds 2 % (limits from memory).
 * Accuracy: reproduces Table 4 of the release to every printed digit; the release states 1 to 3 % against
 * measurement for liquid and steam at moderate pressure.
 * Source: IAPWS R12-08 (2008), eqs 10 to 12, Tables 1 and 2. */
#include "props/line.h"

#include <math.h>

enum { ROWS = 6, COLUMNS = 7 };

static const double t_star = 647.096, rho_star = 322.0, mu_star = 1e-6;

static const double dilute[] = {1.67752, 2.20462, 0.6366564, -0.241605};

/* Row i: power of 1/T - 1; column j: power of rho - 1. */
static const double dense[ROWS][COLUMNS] = {
    {0.520094, 0.222531, -0.281378, 0.161913, -0.325372e-1, 0, 0},
    {0.850895e-1, 0.999115, -0.906851, 0.257399, 0, 0, 0},
    {-0.108374e1, 0.188797e1, -0.772479, 0, 0, 0, 0},
    {-0.289555, 0.126613e1, -0.489837, 0, 0.698452e-1, 0, -0.435673e-2},
    {0, 0, -0.257040, 0, 0, 0.872102e-2, 0},
    {0, 0.120573, 0, 0, 0, 0, -0.593264e-3},
};

props_viscosity_slopes props_iapws_viscosity_slopes(double t, double rho)
{
    double tr = t / t_star, z = 1 / tr, dr = rho / rho_star;

    double q = ((dilute[3] * z + dilute[2]) * z + dilute[1]) * z + dilute[0];
    double q_z = (3 * dilute[3] * z + 2 * dilute[2]) * z + dilute[1];
    double mu0 = 100 * sqrt(tr) / q;
    double mu0_tr = mu0 * (z / 2 + q_z * z * z / q);

    double x = z - 1, y = dr - 1;
    double s = 0, s_x = 0, s_y = 0;
    for (int i = ROWS - 1; i >= 0; i--) {
        double row = 0, row_y = 0;
        for (int j = COLUMNS - 1; j >= 0; j--) {
            row_y = row_y * y + row;
            row = row * y + dense[i][j];
        }
        s_x = s_x * x + s;
        s = s * x + row;
        s_y = s_y * x + row_y;
    }
    double mu1 = exp(dr * s);
    return (props_viscosity_slopes){
        .mu = mu_star * mu0 * mu1,
        .mu_t = mu_star * mu1 * (mu0_tr - mu0 * dr * s_x * z * z) / t_star,
        .mu_rho = mu_star * mu0 * mu1 * (s + dr * s_y) / rho_star,
    };
}

fv_status fv_iapws_viscosity(double t, double rho, double *mu)
{
    if (!isfinite(t) || !isfinite(rho) || t <= 0 || rho < 0)
        return FV_FAIL;
    double found = props_iapws_viscosity_slopes(t, rho).mu;
    if (!isfinite(found) || found <= 0)
        return FV_FAIL;
    *mu = found;
    if (t < 273.15 || t > 1173.15 || rho > 1250)
        return FV_DOUBTFUL;
    bool near_critical = t > 645.91 && t < 650.77 && rho > 245.8 && rho < 405.3;
    return near_critical ? FV_DOUBTFUL : FV_OK;
}
