/* SPDX-License-Identifier: MIT */
/* What the parts of the heat report share: what the fuel comes to, where its heat went, and what each vessel is told.
 */
#include "print/cautions.h"
#include "report/heat/report.h"

#include <math.h>

static report_fuel fuel_of(const fv_boiler *boiler, double heat)
{
    const fv_fuel_entry *entry = fv_fuel_of(boiler);
    double mass = fv_fuel_mass(boiler, heat);
    return (report_fuel){mass, entry ? mass / entry->density : (double)NAN};
}

static void fill_shares(report_heat *heat)
{
    const fv_heat_split *s = &heat->result->split_steaming, *e = &heat->result->split;
    const report_heat_share shares[HEAT_SHARES] = {
        {"load", "into the load", s->load, e->load, 0},
        {"walls", "into and through the walls", s->walls, e->walls, 0},
        {"shell", "into metal shells", s->shell, e->shell, 0},
        {"lines_warmed", "warming cold lines", s->lines_warmed, e->lines_warmed, 0},
        {"line_losses", "lost by headers, pipes and hoses", s->line_losses, e->line_losses, 0},
        {"vented", "steam out of vents, drains and gaps", s->vented, e->vented, 0},
        {"air_warmed", "warming air drawn in", s->air_warmed, e->air_warmed, 0},
        {"gas_stored", "gas in the chambers", s->gas_stored, e->gas_stored, 0},
        {"drained", "warming the water that ran off or was vented", s->drained, e->drained, 0},
        {"boiler_startup", "warming boilers up", s->boiler_startup, e->boiler_startup, 0},
        {"boiler_losses", "lost by boilers", s->boiler_losses, e->boiler_losses, 0},
        {"boiler_stored", "in boilers, as pressure rose", s->boiler_stored, e->boiler_stored, 0},
        {"flue", print_burns_fuel(heat->result->plant) ? "up the flue" : "lost on the way into the water", s->flue,
         e->flue, 0},
    };
    heat->supplied = 0.0;
    for (size_t i = 0; i < HEAT_SHARES; i++)
        heat->supplied += shares[i].heat;
    for (size_t i = 0; i < HEAT_SHARES; i++) {
        heat->shares[i] = shares[i];
        heat->shares[i].share = heat->supplied > 0.0 ? shares[i].heat / heat->supplied : 0.0;
    }
}

bool report_heat_make(const fv_heat_result *result, const fv_report_options *options, report_heat *heat)
{
    *heat = (report_heat){.result = result,
                          .units = options->units,
                          .clock = {options->clock, options->twelve_hours},
                          .with_series = options->series,
                          .assumed = options->assumed,
                          .overheat = options->overheat,
                          .arena = fv_arena_new()};
    if (!heat->arena)
        return false;
    heat->outcomes = fv_arena_alloc(heat->arena, result->vessel_count + 1, sizeof *heat->outcomes);
    heat->why = fv_arena_alloc(heat->arena, result->vessel_count + 1, sizeof *heat->why);
    heat->fuels = fv_arena_alloc(heat->arena, result->boiler_count + 1, sizeof *heat->fuels);
    heat->seen = fv_arena_alloc(heat->arena, result->line_count + 1, sizeof *heat->seen);
    if (!heat->outcomes || !heat->why || !heat->fuels || !heat->seen)
        return false;
    for (size_t i = 0; i < result->boiler_count; i++)
        heat->fuels[i] = fuel_of(result->plant->boilers[i], result->boilers[i].fuel);
    for (size_t i = 0; i < result->vessel_count; i++)
        heat->outcomes[i] = report_heat_outcome(result, i);
    for (size_t i = 0; i < result->vessel_count; i++) {
        heat->why[i] = report_heat_why(heat, i);
        if (!heat->why[i] && heat->outcomes[i] < OUTCOME_FED)
            return false;
    }
    fill_shares(heat);
    return true;
}

void report_heat_free(report_heat *heat)
{
    fv_arena_free(heat->arena);
    heat->arena = NULL;
}
