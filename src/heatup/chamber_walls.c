/* SPDX-License-Identifier: MIT */
/* The walls of a vessel over a step. Beside a bed each wall has a zone of its own (chamber_bed.c). */
#include "heatup/chamber.h"

static fv_status ask_zone(const heatup_chamber *chamber, heatup_wall_heat *const *walls, double share,
                          const heatup_chamber_step *step, double t, heatup_line *sum)
{
    *sum = (heatup_line){0, 0};
    for (size_t i = 0; i < chamber->wall_count; i++) {
        const fv_heat_outside outside =
            heatup_chamber_outside(chamber->vessel->walls[i], step->t_air, step->wind, step->site_pressure);
        double a, b;
        if (heatup_wall_heat_set_outside(walls[i], &outside) == FV_FAIL)
            return FV_FAIL;
        heatup_wall_heat_let_vapour(walls[i], t, chamber->humidity);
        if (heatup_wall_heat_probe_held(walls[i], step->dt, &a, &b) == FV_FAIL)
            return FV_FAIL;
        sum->a += share * a;
        sum->b += share * b;
    }
    return FV_OK;
}

fv_status heatup_walls_prepare(heatup_chamber *chamber, const heatup_chamber_step *step)
{
    heatup_line zone, skin = {0, 0};
    if (ask_zone(chamber, chamber->walls, 1 - chamber->beside, step, chamber->t, &zone) == FV_FAIL)
        return FV_FAIL;
    chamber->walls_a = zone.a;
    chamber->walls_b = zone.b;
    if (!chamber->bed)
        return FV_OK;
    if (ask_zone(chamber, chamber->bed_walls, chamber->beside, step, heatup_bed_mean(chamber->bed), &skin) == FV_FAIL)
        return FV_FAIL;
    heatup_bed_meet(chamber, step, skin);
    return FV_OK;
}

fv_status heatup_walls_advance(heatup_chamber *chamber, const heatup_chamber_step *step,
                               const heatup_chamber_trial *found)
{
    fv_status status = FV_OK;
    for (size_t i = 0; i < chamber->wall_count; i++) {
        if (heatup_wall_heat_advance(chamber->walls[i], step->dt, found->t, found->t) == FV_FAIL)
            status = FV_FAIL;
        if (chamber->bed &&
            heatup_wall_heat_advance(chamber->bed_walls[i], step->dt, chamber->t_beside, chamber->t_beside) == FV_FAIL)
            status = FV_FAIL;
    }
    return status;
}

double heatup_chamber_of_walls(const heatup_chamber *chamber, double (*what)(const heatup_wall_heat *wall))
{
    double sum = 0;
    for (size_t i = 0; i < chamber->wall_count; i++) {
        sum += (1 - chamber->beside) * what(chamber->walls[i]);
        if (chamber->bed)
            sum += chamber->beside * what(chamber->bed_walls[i]);
    }
    return sum;
}
