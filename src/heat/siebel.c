/* SPDX-License-Identifier: MIT */
/* Specific heat of moist organic matter above freezing, from the moisture alone.
 *
 *     c = 837 + 3349 w   J/kg/K
 *
 * Given:    w, kg water per kg wet.   Returned: c, J/kg/K.
 * Range:    0 <= w <= 1 (outside: FV_FAIL); above 0 degC.
 * Accuracy: 5 to 10 %; low for fibrous matter (the 837 stands for the dry part, where wood has 1300). A check and a
 *           last resort: the media of this folder use their own dry matter.
 * Source:   E. Siebel, Ice and Refrigeration 2 (1892) 256-257, as quoted in food engineering texts; from memory.
 */
#include "farvessel/heat.h"

fv_status fv_heat_siebel(double moisture, double *c)
{
    if (!c)
        return FV_FAIL;
    if (!(moisture >= 0 && moisture <= 1))
        return FV_FAIL;
    *c = 837.0 + 3349.0 * moisture;
    return FV_OK;
}
