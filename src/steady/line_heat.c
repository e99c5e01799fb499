/* SPDX-License-Identifier: MIT */
/* What the first steam through a line pays. */
#include "steady/line_heat.h"
#include "farvessel/constants.h"

#include <math.h>

static double ring(double inner, double thickness)
{
    const double outer = inner + 2 * thickness;
    return 0.25 * FV_PI * (outer * outer - inner * inner);
}

double steady_line_heat(const fv_plant *plant, size_t i, const fv_line_result *r, double t_boil)
{
    const fv_line *line = plant->lines[i];
    const double air = plant->site.air.v, rise = fmax(0, t_boil - air);
    if (fv_is_set(line->heat_capacity))
        return line->heat_capacity.v * rise;
    const fv_material *wall = fv_line_material(line);
    const fv_material *lagging = fv_material_find(line->lagging_material ? line->lagging_material : "mineral-wool");
    const bool bare = !(line->lagging.v > 0);
    const double surface = r->surface_temperature > air ? r->surface_temperature : t_boil;
    const double wall_rise = bare ? 0.5 * (t_boil + surface) - air : rise, length = line->length.v;
    double heat = 0;
    if (wall)
        heat += ring(line->bore.v, line->wall.v) * length * wall->density * wall->specific_heat * wall_rise;
    if (!bare && lagging)
        heat += ring(line->bore.v + 2 * line->wall.v, line->lagging.v) * length * lagging->density *
                lagging->specific_heat * 0.5 * rise;
    return fmax(heat, 0);
}
