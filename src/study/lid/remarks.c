/* SPDX-License-Identifier: MIT */
/* What is wrong with a vessel's openings, as cautions at its line. */
#include "farvessel/lid.h"

#include <math.h>
#include <string.h>

static const double MBAR = 100.0, LITRE = 1e-3, MM = 1e-3;

static bool is_alike(const fv_vessel *a, const fv_vessel *b)
{
    return a->part.like && b->part.like && strcmp(a->part.like, b->part.like) == 0;
}

/* The worst of those that are like it, of equal ones the first. */
static bool is_worst(const fv_lid_answer *answer, size_t i, double (*of)(const fv_lid_row *))
{
    for (size_t k = 0; k < answer->plant->vessel_count; k++) {
        const double other = of(&answer->vessels[k]), own = of(&answer->vessels[i]);
        if (k != i && is_alike(answer->plant->vessels[k], answer->plant->vessels[i]) &&
            (other > own || (other == own && k < i)))
            return false;
    }
    return true;
}

static double pressure_of(const fv_lid_row *lid)
{
    return lid->found == FV_LID_SOLVED ? lid->pressure : 0;
}
static double vacuum_of(const fv_lid_row *lid)
{
    return lid->found == FV_LID_SOLVED ? lid->vacuum : 0;
}

static void say_pressure(const fv_vessel *v, const fv_lid_row *lid, fv_faults *faults)
{
    if (isnan(lid->vent))
        fv_caution(faults, FV_ERR_INPUT, v->part.loc,
                   "vessel '%s': the vent is too small: as the last one open its chamber stands at %.3g mbar, which "
                   "lifts %.3g kg on a lid of 1 m2; no vent alone keeps that to %.0f mbar, so shut the fire "
                   "down before the last but one is shut",
                   v->part.id, lid->pressure / MBAR, lid->lifts, FV_LID_PRESSURE / MBAR);
    else
        fv_caution(faults, FV_ERR_INPUT, v->part.loc,
                   "vessel '%s': the vent is too small: as the last one open its chamber stands at %.3g mbar, which "
                   "lifts %.3g kg on a lid of 1 m2; a vent of %.0f mm keeps that to %.0f mbar",
                   v->part.id, lid->pressure / MBAR, lid->lifts, ceil(lid->vent / MM), FV_LID_PRESSURE / MBAR);
}

static void say_vacuum(const fv_vessel *v, const fv_lid_row *lid, fv_faults *faults)
{
    fv_caution(faults, FV_ERR_INPUT, v->part.loc,
               "vessel '%s': its openings let in too little air: shut while its load still takes all the steam, %.3g "
               "L/s vanish and they let in %.3g L/s at %.0f mbar below the air; a further opening of %.0f mm, or a "
               "vacuum breaker, keeps it from being crushed",
               v->part.id, lid->vanishes / LITRE, lid->let_in / LITRE, FV_LID_VACUUM / MBAR, ceil(lid->breaker / MM));
}

void fv_lid_remarks(const fv_lid_answer *answer, fv_faults *faults)
{
    for (size_t i = 0; answer && i < answer->plant->vessel_count; i++) {
        const fv_lid_row *lid = &answer->vessels[i];
        if (lid->vent_too_small && is_worst(answer, i, pressure_of))
            say_pressure(answer->plant->vessels[i], lid, faults);
        if (lid->air_too_little && is_worst(answer, i, vacuum_of))
            say_vacuum(answer->plant->vessels[i], lid, faults);
    }
}
