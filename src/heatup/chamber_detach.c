/* SPDX-License-Identifier: MIT */
/* A vessel off the line. An open coil lets air in and out through its holes and its bore in series, at the coil's
 * level, once the pressure lifts the water that stands over them:
 *
 *     1/(Cd A)^2 = 1/(sum of the holes' Cd a)^2 + 1/(0.62 A_bore)^2
 *
 * and a cracked lid is an opening at its height, Cd 0.62 (a sharp edge; common practice); with its lid off the load
 * cools in the open (chamber_open_air.c). Capped and closed, nothing but air and wind around it changes. */
#include "farvessel/constants.h"
#include "heatup/chamber.h"

#include <math.h>

static const double WATER_DENSITY = 960.0; /* kg/m3 near boiling */
static const double CD_EDGE = 0.62;
static const double CD_HOLE = 0.62; /* where the coil's own is left to the correlation: holes at rest */

static double coil_opening(const fv_coil *coil)
{
    double holes = 0;
    for (size_t i = 0; i < coil->hole_count; i++)
        holes += fv_or(coil->hole[i]->count, 1) * coil->hole[i]->drill.v * coil->hole[i]->drill.v;
    if (coil->hole_count == 0)
        holes = coil->holes.v * coil->drill.v * coil->drill.v;
    const double through = fv_or(coil->cd, CD_HOLE) * FV_PI / 4 * holes;
    const double bore = CD_EDGE * FV_PI / 4 * coil->bore.v * coil->bore.v;
    return through > 0 ? 1 / sqrt(1 / (through * through) + 1 / (bore * bore)) : 0;
}

static void add(heatup_chamber *chamber, double cd_area, double height)
{
    chamber->apart[chamber->opening_count] = (steady_net_opening){.cd_area = cd_area, .height = height, .purge = 1};
    chamber->opening_count++;
}

void heatup_chamber_cover_coil(heatup_chamber *chamber)
{
    if (chamber->coil_end)
        chamber->coil_end->seal = WATER_DENSITY * FV_GRAVITY * chamber->depth;
}

void heatup_chamber_detach(heatup_chamber *chamber)
{
    const fv_vessel *v = chamber->vessel;
    for (int j = 0; j < chamber->opening_count; j++)
        chamber->apart[j] = chamber->openings[j];
    chamber->openings = chamber->apart;
    if (fv_word(v->coil_end) == FV_COIL_OPEN) {
        add(chamber, coil_opening(&v->coil), 0);
        chamber->coil_end = &chamber->apart[chamber->opening_count - 1];
        heatup_chamber_cover_coil(chamber);
    }
    if (fv_word(v->lid) == FV_LID_CRACKED)
        add(chamber, CD_EDGE * v->lid_gap.v, v->lid_height.v);
    chamber->prepared = NAN;
}
