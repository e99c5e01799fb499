/* SPDX-License-Identifier: MIT */
/* Specific heat of the dry matter of each medium.
 *
 *     wood          103.1 + 3.867 T                      Wood Handbook (2010) eq 4-16, T in K
 *     straw, peat   5.340 T - 299                        C. Dupont et al., Fuel 115 (2014) 644-651: mean of 21
 * biomasses grain         sum of share times component         Y. Choi & M. R. Okos (1986), components of foods soil
 * 870                                  G. S. Campbell & J. M. Norman, Environmental Biophysics (1998)
 *
 * Given:    medium; T, K.   Returned: J/kg/K.
 * Range:    240 to 420 K (Dupont measured 313 to 353 K); outside: FV_DOUBTFUL. Not a medium, not positive: FV_FAIL.
 * Accuracy: 5 %; peat, to which the mean of the biomasses is applied, and potting mixes 10 %, since they differ in ash:
 *           the more mineral, the nearer to soil. For organic soil matter 1920 J/kg/K is often quoted (D. A. de Vries
 *           1963); that is a third above the biomasses. Of wet sawdust's heat the dry part has a sixth.
 * Source:   as above; the handbook's form was confirmed, all others from memory. Shares of the grain's dry matter:
 *           starch and fibre 0.83, protein 0.13, fat 0.02, ash 0.02 (common practice for wheat and rye, no source).
 */
#include "farvessel/constants.h"
#include "heat/media.h"

#include <math.h>

static double grain(double t)
{
    double c = t - FV_MELTING_POINT, c2 = c * c;
    double carbohydrate = 1548.8 + 1.9625 * c - 5.9399e-3 * c2;
    double protein = 2008.2 + 1.2089 * c - 1.3129e-3 * c2;
    double fat = 1984.2 + 1.4733 * c - 4.8008e-3 * c2;
    double ash = 1092.6 + 1.8896 * c - 3.6817e-3 * c2;
    return 0.83 * carbohydrate + 0.13 * protein + 0.02 * fat + 0.02 * ash;
}

fv_status fv_heat_dry_specific_heat(fv_medium medium, double t, double *c)
{
    if (!c)
        return FV_FAIL;
    if (!(t > 0) || !isfinite(t))
        return FV_FAIL;
    switch (medium) {
    case FV_MEDIUM_WOOD:
        *c = 103.1 + 3.867 * t;
        break;
    case FV_MEDIUM_STRAW:
    case FV_MEDIUM_PEAT:
        *c = 5.340 * t - 299.0;
        break;
    case FV_MEDIUM_GRAIN:
        *c = grain(t);
        break;
    case FV_MEDIUM_SOIL:
        *c = 870.0;
        break;
    default:
        return FV_FAIL;
    }
    return t >= 240.0 && t <= 420.0 ? FV_OK : FV_DOUBTFUL;
}
