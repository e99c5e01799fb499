/* SPDX-License-Identifier: MIT */
/* Discharge coefficient of a drilled hole in the wall of a pipe along which fluid flows.
 *
 * Purpose   how much of the ideal flow a hole passes; the split between vessels moves 1 to 20 % when Cd is 10 % off,
 *           so a user who has a measured value should give it.
 * Given     t = wall thickness / hole diameter; c = velocity head in the pipe before the hole / total head across the
 *           hole.
 * Returned  Cd = C_still(t) F(c), and dCd/dc.
 *           In two steps, too: C_still, which depends on geometry alone and asks for exponentials, once a hole; then
 *           Cd and dCd/dc at each crossflow.
 * C_still   0.63 at t = 0, the thin plate. To t = 2 it rises with the shape g(t) = (1 + 1.3 exp(-1.606 t^2)) (0.435 +
 *           0.021 t) of McGreehan & Schotsch, C = 0.63 + 0.18 (g(0) - g(t))/(g(0) - g(2)), scaled here to end on
 *           Lichtarowicz's 0.81; the jet lies on the wall again from about t = 0.6 to 1, where it is steepest. From 2
 *           to 10 it is 0.827 - 0.0085 t (Lichtarowicz et al.).
 * F(c)      1 - (0.58/0.63) c: for a thin wall Cd is then 0.63 - 0.58 c (Koh & Brooks). The same factor is taken for
 *           a thick wall, for want of a measurement: a bell-mouthed port falls less, as (1 - c)^(3/8). From 0.9 to
 *           1.1 the line bends into a floor of 0.05/0.63, C1, so that Cd stays positive.
 * Valid     t to 10, c to 0.6 (the latter common practice, no source); hole smaller than 1/10 of the pipe, sharp edge
 *           upstream, Reynolds number of the hole above 2e4 for C_still from 2 on. Beyond: t counts as 10, c as
 *           described, FV_DOUBTFUL. FV_FAIL for t or c below 0 or not a number.
 * Accuracy  C_still 2 to 4 %, the crossflow line perhaps 10 % (common practice, no source). A gas near choking passes
 *           more, to 0.84 through a thin plate (Perry, Trans. ASME 71 (1949) 757): not counted here.
 * Source    R. C. Y. Koh & N. H. Brooks, Annu. Rev. Fluid Mech. 7 (1975) 187, as eq. 15.51 of a hydraulics textbook;
 *           A. Lichtarowicz, R. K. Duggins & E. Markland, J. Mech. Eng. Sci. 7 (1965) 210; W. F. McGreehan & M. J.
 *           Schotsch, J. Turbomachinery 110 (1988) 213; the last two from memory. */
#include "farvessel/flow.h"

#include <math.h>

#define THIN 0.63
#define CROSS (0.58 / 0.63)
#define BEND_FROM 0.9
#define BEND_WIDTH 0.2

static double thickness_shape(double t)
{
    return (1.0 + 1.3 * exp(-1.606 * t * t)) * (0.435 + 0.021 * t);
}

static double still_cd(double t)
{
    if (t >= 2.0)
        return 0.827 - 0.0085 * fmin(t, 10.0);
    double thin = thickness_shape(0.0);
    double rise = (thin - thickness_shape(t)) / (thin - thickness_shape(2.0));
    return THIN + (0.81 - THIN) * rise;
}

static double crossflow_factor(double c, double *slope)
{
    if (c <= BEND_FROM) { // nearly always
        *slope = -CROSS;
        return 1.0 - CROSS * c;
    }
    // a parabola from the line's slope to slope 0; its end lies where the line would be at c = 1
    double bend = fmin(c - BEND_FROM, BEND_WIDTH);
    *slope = -CROSS * (1.0 - bend / BEND_WIDTH);
    double along = BEND_FROM + bend - 0.5 * bend * bend / BEND_WIDTH;
    return 1.0 - CROSS * along;
}

fv_status fv_flow_hole_cd_still(double thickness_ratio, double *cd)
{
    if (!cd)
        return FV_FAIL;
    if (!(thickness_ratio >= 0.0))
        return FV_FAIL;
    *cd = still_cd(thickness_ratio);
    return thickness_ratio > 10.0 ? FV_DOUBTFUL : FV_OK;
}

fv_status fv_flow_hole_cd_crossed(double still, double crossflow, double *cd, double *dcd_dcrossflow)
{
    if (!cd || !dcd_dcrossflow)
        return FV_FAIL;
    if (!(still > 0.0) || !(crossflow >= 0.0))
        return FV_FAIL;
    double slope;
    *cd = still * crossflow_factor(crossflow, &slope);
    *dcd_dcrossflow = still * slope;
    return crossflow > 0.6 ? FV_DOUBTFUL : FV_OK;
}

fv_status fv_flow_hole_cd(double thickness_ratio, double crossflow, double *cd, double *dcd_dcrossflow)
{
    if (!cd || !dcd_dcrossflow)
        return FV_FAIL;
    double still;
    const fv_status wall = fv_flow_hole_cd_still(thickness_ratio, &still);
    const fv_status cross = wall == FV_FAIL ? FV_FAIL : fv_flow_hole_cd_crossed(still, crossflow, cd, dcd_dcrossflow);
    return cross == FV_OK ? wall : cross;
}
