/* SPDX-License-Identifier: MIT */
/* What steam reaches a vessel's coil, by the network as last solved. */
#include "heatup/supply.h"

double heatup_vessel_steam(const heatup_run *run, size_t vessel)
{
    const double steam = run->state.network->vessels[vessel].steam;
    return run->state.vessels[vessel].state == STEAM_OPEN && steam > HEATUP_NO_STEAM ? steam : 0;
}

double heatup_vessel_enthalpy(const heatup_run *run, size_t vessel)
{
    return run->state.network->nodes[run->context.plant->vessels[vessel]->node].enthalpy;
}
