/* SPDX-License-Identifier: MIT */
/* Values that a correlation supplies because nobody said them, as they come out in the plant as it is, so that a factor
 * can be put on them: the holes' coefficients, coefficients outside of lines and walls, conductivities of loads. */
#include "farvessel/constants.h"
#include "heatup/chamber.h"
#include "heatup/load.h"
#include "study/unknowns.h"

#include <math.h>
#include <string.h>

/* Mean over the holes of the first vessel with that coil, or that takes it over. */
static double hole_cd(const fv_plant *plant, const fv_steady_result *state, const fv_part *owner)
{
    for (size_t i = 0; i < plant->vessel_count && state; i++) {
        const fv_vessel *v = plant->vessels[i];
        const fv_vessel_result *r = &state->vessels[i];
        double sum = 0;
        size_t count = 0;
        if (&v->part != owner && !(v->part.like && owner->id && strcmp(v->part.like, owner->id) == 0))
            continue;
        for (size_t k = 0; k < r->hole_count; k++) {
            const double cd = state->holes[r->first_hole + k].cd;
            sum += cd > 0 ? cd : 0;
            count += cd > 0;
        }
        if (count > 0)
            return sum / (double)count;
    }
    return NAN;
}

/* From the line's loss: Q = h pi d l (T surface - T air). */
static double line_outside(const fv_plant *plant, const fv_steady_result *state, const fv_line *line)
{
    if (!state || fv_is_set(line->heat_loss))
        return NAN;
    for (size_t i = 0; i < plant->line_count; i++) {
        const fv_line_result *r = &state->lines[i];
        if (plant->lines[i] != line)
            continue;
        const double outer = line->bore.v + 2 * fv_or(line->wall, 0) + 2 * fv_or(line->lagging, 0);
        const double length = r->wet_length > 0 ? r->wet_length : line->length.v;
        const double h =
            r->heat_loss / (FV_PI * outer * length * (r->surface_temperature - fv_or(line->air, state->t_air)));
        return h > 0.5 && h < 500 ? h : NAN;
    }
    return NAN;
}

/* The first vessel that is this part, or takes after it. NULL: none. */
static const fv_vessel *vessel_of(const fv_plant *plant, const fv_part *owner)
{
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const fv_vessel *v = plant->vessels[i];
        if (&v->part == owner || (v->part.like && owner->id && strcmp(v->part.like, owner->id) == 0))
            return v;
    }
    return NULL;
}

/* Of a wall that has settled with steam inside: h = q / (T surface - T air). */
static double wall_outside(const fv_plant *plant, const fv_wall *wall, const fv_part *owner)
{
    const fv_vessel *vessel = vessel_of(plant, owner);
    fv_heat_layer layers[STEADY_LAYERS_MOST];
    steady_lining linings[STEADY_LAYERS_MOST];
    bool open;
    if (!vessel)
        return NAN;
    const double t_boil = fv_sat_t(fv_sat_line(), fv_site_pressure(&plant->site), NULL);
    const fv_heat_outside outside =
        heatup_chamber_outside(wall, plant->site.air.v, fv_vessel_wind(&plant->site, vessel, plant->site.wind.v),
                               fv_site_pressure(&plant->site));
    const size_t count = steady_wall_layers(wall, layers, linings, &open);
    double q, slope, t_outer;
    if (fv_heat_wall_loss(layers, count, wall->height.v, fv_or(wall->inside, 0), t_boil, &outside, &q, &slope,
                          &t_outer) == FV_FAIL)
        return NAN;
    const double h = q / (t_outer - outside.t_air);
    return h > 0.5 && h < 500 ? h : NAN;
}

static double load_value(const fv_plant *plant, const fv_part *owner, const char *attribute)
{
    const fv_vessel *v = vessel_of(plant, owner);
    heatup_load_spec spec;
    if (v && strcmp(attribute, "start-temperature") == 0)
        return plant->site.air.v;
    if (!v || heatup_load_spec_of(&v->load, "", plant->site.air.v, v->target.v, &spec, NULL) == FV_FAIL ||
        spec.mass <= 0)
        return NAN;
    return spec.bed ? NAN : spec.piece.conductivity;
}

double study_computed_value(const fv_plant *plant, const fv_steady_result *state, const fv_element *element,
                            const void *part, const fv_part *owner, const char *attribute)
{
    if (strcmp(element->name, "coil") == 0 && strcmp(attribute, "cd") == 0)
        return hole_cd(plant, state, owner);
    if (strcmp(element->name, "load") == 0)
        return load_value(plant, owner, attribute);
    if (strcmp(element->name, "wall") == 0)
        return wall_outside(plant, part, owner);
    if (strcmp(attribute, "outside") == 0)
        return line_outside(plant, state, part);
    return NAN;
}
