/* SPDX-License-Identifier: MIT */
/* Darcy friction factor over all regimes, and the form of it that stays finite at rest.
 *
 * Purpose   pressure gradient of a line from rest to fully turbulent, C1 in Re, so that Newton's method never meets a
 *           step.
 * Given     Re >= 0, wall roughness over bore e.
 * Returned  f and df/dRe; or f Re^2/2 and its derivative by Re; or the fully rough factor f_T.
 * Regimes   64/Re to Re 2000 (Hagen-Poiseuille, exact); Colebrook-White from 4000; between them (1 - w) 64/Re + w
 *           f_CW(Re), w = t^2 (3 - 2 t), t = (Re - 2000)/2000.
 * Valid     Re to 1e8, e to 0.05; FV_DOUBTFUL beyond, computed all the same. In laminar flow e does not matter, yet a
 *           wall rougher than 0.05 is reported there too, because it will matter as soon as the flow rises. FV_FAIL
 *           for Re < 0, for f at Re = 0 where it is infinite, for e < 0 or e >= 1, or not finite.
 * Accuracy  as Colebrook-White above 4000; in the blend there is no accuracy to state: pipes do either, and hop
 *           between them.
 * Source    the blend is this program's choice; Colebrook-White and Moody's range as in colebrook.c. f_T: Crane
 *           Technical Paper 410, appendix A (printed factors 0.012 to 0.027 for steel pipe), from the fully rough
 *           limit of Colebrook-White; below 1e-6, where Moody's chart ends (from memory), held and FV_DOUBTFUL. */
#include "farvessel/flow.h"
#include "flow/smooth.h"

#include <math.h>

#define RE_LAMINAR 2000.0
#define RE_TURBULENT 4000.0
#define ROUGHEST 0.05
#define SMOOTHEST 1e-6 // the lowest curve of Moody's chart

static bool usable_roughness(double e)
{
    return e >= 0.0 && e < 1.0;
}

/* f Re^2/2 and its slope where Colebrook-White has a part in it (Re > RE_LAMINAR). */
static fv_status rough_re2(double re, double e, double *value, double *slope)
{
    double f, df;
    fv_status status = fv_flow_colebrook(re, e, &f, &df);
    if (status == FV_FAIL)
        return FV_FAIL;
    double turbulent = 0.5 * f * re * re;
    double turbulent_slope = re * (f + 0.5 * df * re);
    double dw;
    double w = smooth_step((re - RE_LAMINAR) / (RE_TURBULENT - RE_LAMINAR), &dw);
    dw /= RE_TURBULENT - RE_LAMINAR;
    *value = (1.0 - w) * 32.0 * re + w * turbulent;
    *slope = (1.0 - w) * 32.0 + w * turbulent_slope + dw * (turbulent - 32.0 * re);
    // below 4000 Colebrook-White calls itself doubtful; here that is the blend at work
    return e > ROUGHEST || re > 1e8 ? FV_DOUBTFUL : FV_OK;
}

fv_status fv_flow_friction_re2(double re, double relative_roughness, double *half_f_re2, double *derivative)
{
    if (!(re >= 0.0) || !isfinite(re) || !usable_roughness(relative_roughness))
        return FV_FAIL;
    if (re > RE_LAMINAR)
        return rough_re2(re, relative_roughness, half_f_re2, derivative);
    *half_f_re2 = 32.0 * re;
    *derivative = 32.0;
    return relative_roughness > ROUGHEST ? FV_DOUBTFUL : FV_OK;
}

fv_status fv_flow_friction(double re, double relative_roughness, double *f, double *df_dre)
{
    if (!(re > 0.0))
        return FV_FAIL;
    if (re >= RE_TURBULENT)
        return fv_flow_colebrook(re, relative_roughness, f, df_dre);
    double value, slope;
    fv_status status = fv_flow_friction_re2(re, relative_roughness, &value, &slope);
    if (status == FV_FAIL)
        return FV_FAIL;
    *f = 2.0 * value / re / re;
    *df_dre = 2.0 * (slope - 2.0 * value / re) / re / re;
    return status;
}

fv_status fv_flow_rough_factor(double relative_roughness, double *f_t)
{
    if (!usable_roughness(relative_roughness))
        return FV_FAIL;
    // a smooth pipe has no fully rough regime, yet its fittings lose something
    double inverse_root = 2.0 * log10(3.7 / fmax(relative_roughness, SMOOTHEST));
    *f_t = 1.0 / (inverse_root * inverse_root);
    return relative_roughness > ROUGHEST || relative_roughness < SMOOTHEST ? FV_DOUBTFUL : FV_OK;
}
