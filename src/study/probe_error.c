/* SPDX-License-Identifier: MIT */
/* How wrong a probe may be.
 *
 * Tolerances: IEC 60584-1:2013 type K class 1 1.5 K, 2 2.5 K; type T class 1 0.5 K, 2 1.0 K, over 0 to 125 degC and
 * more (read as makers and JIS C 1602 reproduce them); IEC 60751:2008 AA 0.1 + 0.0017 |t|, A 0.15 + 0.002 |t|, B 0.3 +
 * 0.005 |t|, C 0.6 + 0.01 |t|, t in degC (from memory). They are limits: rectangular, so the standard uncertainty is
 * the tolerance / sqrt(3), and eight in ten are within 0.8 of it. A probe that was checked in free steam that day keeps
 * 0.4 K (common practice, no source), taken as normal. */
#include "farvessel/constants.h"
#include "study/readings.h"

#include <math.h>

static const double CHECKED = 0.4;                     /* K */
static const double EIGHT_IN_TEN = 1.2815515655446004; /* standard normal deviations */
static const double WORKS_AT = FV_CELSIUS + 100;

double study_probe_tolerance(fv_probe_type type, fv_probe_class class, double temperature)
{
    const double t = fabs(temperature - FV_CELSIUS);
    if (type == FV_PROBE_T)
        return class == FV_PROBE_CLASS_1 ? 0.5 : 1.0;
    if (type == FV_PROBE_K)
        return class == FV_PROBE_CLASS_1 ? 1.5 : 2.5;
    switch (class) {
    case FV_PROBE_CLASS_AA:
        return 0.1 + 0.0017 * t;
    case FV_PROBE_CLASS_A:
        return 0.15 + 0.002 * t;
    case FV_PROBE_CLASS_C:
        return 0.6 + 0.01 * t;
    default:
        return 0.3 + 0.005 * t;
    }
}

void study_probe_error(const fv_probe *probe, fv_probe_readings *out)
{
    const fv_probe_type type = probe ? (fv_probe_type)fv_word(probe->type) : FV_PROBE_K;
    const fv_probe_class usual = type == FV_PROBE_PT100 ? FV_PROBE_CLASS_B : FV_PROBE_CLASS_2;
    const fv_probe_class class = probe && fv_is_set(probe->grade) ? (fv_probe_class)fv_word(probe->grade) : usual;
    const double tolerance = study_probe_tolerance(type, class, WORKS_AT);
    out->offset = probe ? fv_or(probe->offset, 0) : 0;
    out->error = tolerance / sqrt(3.0);
    out->reach = 0.8 * tolerance;
    if (probe && (fv_is_set(probe->error) || fv_is_set(probe->offset))) {
        out->error = fv_or(probe->error, CHECKED);
        out->reach = EIGHT_IN_TEN * out->error;
    }
}
