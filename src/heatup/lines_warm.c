/* SPDX-License-Identifier: MIT */
/* Cold lines. The first steam through a line warms its wall and lagging. That heat is charged to the vessels that the line leads to, in
 * proportion to their steam, and they get none until it is paid. A line is warmed once: what it loses in a pause is not counted. */
#include "heatup/run.h"

#include <math.h>

static const double PI = 3.14159265358979323846;

static double ring(double inner, double thickness)
{
    const double outer = inner + 2 * thickness;
    return 0.25 * PI * (outer * outer - inner * inner);
}

/* J to warm a line from the air to its working state: wall between steam and surface, lagging half way. */
static double line_heat(const fv_run *run, size_t i)
{
    const fv_line *line = run->plant->lines[i];
    const fv_line_result *r = &run->state->lines[i];
    const double rise = run->t_boil - run->plant->site.air.v;
    if (fv_is_set(line->heat_capacity))
        return line->heat_capacity.v * rise;
    const char *name = line->material ? line->material : line->kind == FV_LINE_HOSE ? "epdm" : "steel";
    const fv_material *wall = fv_material_find(name);
    const char *lagging_name = line->lagging_material ? line->lagging_material : "mineral-wool";
    const fv_material *lagging = fv_material_find(lagging_name);
    const bool bare = !(line->lagging.v > 0);
    const double surface = isnan(r->surface_temperature) ? run->t_boil : r->surface_temperature;
    const double wall_rise = bare ? 0.5 * (run->t_boil + surface) - run->plant->site.air.v : rise;
    double heat = wall ? ring(line->bore.v, line->wall.v) * line->length.v * wall->density * wall->specific_heat * wall_rise : 0;
    if (!bare && lagging)
        heat += ring(line->bore.v + 2 * line->wall.v, line->lagging.v) * line->length.v * lagging->density * lagging->specific_heat * 0.5 * rise;
    return fmax(heat, 0);
}

/* The line that brings most steam to a node; -1: none. */
static int main_supply(const fv_run *run, int node)
{
    const fv_network *net = run->net;
    int best = -1;
    double most = 0;
    for (int j = net->touch_start[node]; j < net->touch_start[node + 1]; j++) {
        const int i = net->touch_line[j];
        const fv_line_result *r = &run->state->lines[i];
        const double in = run->plant->lines[i]->node_to == node ? r->flow_to : -r->flow_from;
        if (in > most) {
            most = in;
            best = i;
        }
    }
    return best;
}

typedef void (*visitor)(fv_run *run, size_t vessel, int line, double *sums);

static void along(fv_run *run, size_t vessel, visitor visit, double *sums)
{
    int node = run->plant->vessels[vessel]->node;
    for (size_t steps = 0; steps <= run->plant->line_count; steps++) {
        const int line = main_supply(run, node);
        if (line < 0)
            return;
        if (!run->line_warm[line])
            visit(run, vessel, line, sums);
        const fv_line *l = run->plant->lines[line];
        node = l->node_to == node ? l->node_from : l->node_to;
    }
}

static void add_steam(fv_run *run, size_t vessel, int line, double *sums)
{
    sums[line] += fv_vessel_steam(run, vessel);
}

static void charge(fv_run *run, size_t vessel, int line, double *sums)
{
    if (sums[line] > 0)
        run->vessels[vessel].debt += line_heat(run, (size_t) line) * fv_vessel_steam(run, vessel) / sums[line];
}

void fv_charge_cold_lines(fv_run *run)
{
    double *sums = run->line_sums;
    for (size_t i = 0; i < run->plant->line_count; i++)
        sums[i] = 0;
    for (size_t i = 0; i < run->plant->vessel_count; i++)
        if (fv_vessel_steam(run, i) > 0)
            along(run, i, add_steam, sums);
    for (size_t i = 0; i < run->plant->vessel_count; i++)
        if (fv_vessel_steam(run, i) > 0)
            along(run, i, charge, sums);
    for (size_t i = 0; i < run->plant->line_count; i++)
        if (sums[i] > 0)
            run->line_warm[i] = true;
}

bool fv_warms_lines(const fv_run *run, size_t vessel)
{
    return fv_vessel_steam(run, vessel) > 0 && run->vessels[vessel].step.steam <= 0;
}
