/* SPDX-License-Identifier: MIT */
/* A bed in its vessel: steam that it takes or lets by, heat to the walls beside it, and its top when it cools.
 *
 * The vessel is taken to be upright: its height is its volume over the bed's area. Walls stand in two zones, each with
 * its share of every wall: beside the bed (sides and floor), where the inner face is at the bed's mean temperature, and
 * beside the chamber. Strips of a wall answer alike, so that a zone whose strips stand at several temperatures takes
 * what it would take at their mean.
 *
 * From the top of a wet bed that cools, vapour goes to the chamber (evaporation.c), where it condenses on lid and walls
 * or leaves. */
#include "heatup/chamber.h"
#include "heatup/evaporation.h"

#include <math.h>

static const double BESIDE = 0.5;   /* K: nearer, the slope serves */
static const double STANDS = 600.0; /* s that a front waits for steam that stays away; then the bed cools as a whole */

double heatup_chamber_bed_wants(const heatup_chamber *chamber, double site_pressure)
{
    if (!chamber->bed || heatup_bed_phase_of(chamber->bed) == HEATUP_BED_THROUGH)
        return 0;
    return heatup_bed_to_supply(chamber->bed, fv_sat_t(chamber->sat, site_pressure, NULL));
}

static bool climbs(const heatup_chamber *chamber)
{
    return heatup_bed_phase_of(chamber->bed) == HEATUP_BED_CLIMBING;
}

/* W/m2/K at the top: dry, or with what evaporates there. */
static double top_coefficient(const heatup_chamber *chamber, double site_pressure)
{
    const double h = chamber->vessel->load.cooling_surface.v, t_c = chamber->t;
    const double top = heatup_bed_top(chamber->bed), t = fabs(top - t_c) < BESIDE ? t_c + BESIDE : top;
    return chamber->film > 0 ? h + heatup_evaporation(h, t, t_c, site_pressure) : h;
}

void heatup_bed_meet(heatup_chamber *chamber, const heatup_chamber_step *step, heatup_line skin)
{
    heatup_bed *bed = chamber->bed;
    heatup_line in, out;
    chamber->skin = skin;
    const heatup_bed_step s = {.dt = step->dt,
                               .skin = skin.b / step->dt,
                               .t_skin = skin.b > 0 ? -skin.a / skin.b : 0,
                               .h_top = top_coefficient(chamber, step->site_pressure)};
    heatup_bed_prepare(bed, &s, &in, &out);
    /* steam climbs up a bed that has cooled as a new front; its top then answers nothing beside that */
    const bool front = chamber->steaming && heatup_chamber_bed_wants(chamber, step->site_pressure) > 0;
    chamber->load_a = front ? 0 : in.a;
    chamber->load_b = front ? 0 : in.b;
    if (heatup_bed_follows(bed))
        out = skin;
    else if (heatup_bed_phase_of(bed) != HEATUP_BED_COOLING)
        out = (heatup_line){skin.a + skin.b * heatup_bed_mean(bed), 0};
    chamber->to_skin = out;
    /* steam that passes through the bed pays for the walls beside it; while the front climbs it does so first */
    if (heatup_bed_phase_of(bed) == HEATUP_BED_THROUGH) {
        chamber->walls_a += out.a;
        chamber->walls_b += out.b;
    }
}

void heatup_bed_book_walls(const heatup_chamber *chamber, heatup_chamber_trial *found)
{
    if (heatup_bed_phase_of(chamber->bed) == HEATUP_BED_THROUGH)
        return;
    const double lost = chamber->to_skin.a + chamber->to_skin.b * found->t;
    found->to_skin = lost;
    found->heat_load -= lost;
    found->heat_walls += lost;
}

fv_status heatup_bed_balance(heatup_chamber *chamber, const heatup_chamber_step *step, heatup_chamber_trial *found)
{
    fv_sat_point at;
    fv_sat_at(chamber->sat, step->site_pressure, &at);
    const double each = step->enthalpy - at.h_f, brought = step->steam * step->dt * each;
    const double skin = fmin(chamber->skin.a + chamber->skin.b * heatup_bed_mean(chamber->bed), brought);
    const double supplied = brought - skin, to_supply = heatup_bed_to_supply(chamber->bed, at.t);
    const bool through = supplied >= to_supply;
    const double taken =
        through ? heatup_bed_wants(chamber->bed, at.t) : heatup_bed_accepts(chamber->bed, supplied, at.t);
    heatup_chamber_step above = *step;
    above.steam = fmax(0, (supplied - taken) / (each * step->dt));
    if (heatup_chamber_solve(chamber, &above, found, found) != FV_OK)
        return FV_FAIL;
    const double kept = step->steam - above.steam;
    found->h_f = (kept * at.h_f + above.steam * found->h_f) / step->steam;
    found->heat_load = taken;
    found->heat_walls += skin;
    found->to_skin = skin;
    found->supplied = supplied;
    found->in_bed = kept * step->dt;
    found->condensate += found->in_bed;
    found->through = through ? step->dt * (skin + to_supply) / brought : NAN;
    return FV_OK;
}

void heatup_bed_take_step(heatup_chamber *chamber, const heatup_chamber_step *step, const heatup_chamber_trial *found)
{
    heatup_bed *bed = chamber->bed;
    const bool passes = heatup_bed_phase_of(bed) == HEATUP_BED_THROUGH;
    chamber->t_beside = chamber->t;
    if (chamber->skin.b > 0)
        chamber->t_beside = passes ? (heatup_bed_follows(bed) ? found->t : heatup_bed_mean(bed))
                                   : (found->to_skin - chamber->skin.a) / chamber->skin.b;
    if (step->steam > 0 && !passes)
        heatup_bed_give(bed, found->supplied, fv_sat_t(chamber->sat, step->site_pressure, NULL),
                        chamber->soaks * step->steam * step->dt);
    else if (climbs(chamber))
        heatup_bed_lose(bed, found->to_skin);
    else
        heatup_bed_advance(bed, found->t);
    chamber->without = step->steam > 0 ? 0 : chamber->without + step->dt;
}

bool heatup_bed_is_left(const heatup_chamber *chamber)
{
    return climbs(chamber) && !heatup_bed_thaws(chamber->bed) && heatup_bed_front(chamber->bed) > 0 &&
           chamber->without > STANDS;
}
