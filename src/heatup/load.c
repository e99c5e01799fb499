/* SPDX-License-Identifier: MIT */
/* A load as the user described it, resolved to numbers: steady/piece.c, in the words of bodies and beds. */
#include "heatup/load.h"
#include "farvessel/heat.h"
#include "heatup/evaporation.h"
#include "steady/piece.h"

#include <math.h>

/* In the open: what a piece sees of its surroundings, and of film and medium (from memory). */
static const double VIEW = 0.5, EMISSIVITY = 0.9;

static void describe_piece(const fv_load *load, const steady_piece *p, double t_start, heatup_body_spec *piece)
{
    *piece = (heatup_body_spec){
        .conductivity = p->conductivity,
        .density = p->density,
        .specific_heat = p->specific_heat,
        .h_condensing = p->h_condensing,
        .h_cooling = p->h_cooling,
        .t_start = t_start,
        .moisture = load->moisture.v,
        .conductivity_frozen = p->conductivity_frozen,
        .specific_heat_frozen = p->specific_heat_frozen,
    };
    if (p->block) {
        piece->shape = HEATUP_BODY_BLOCK;
        piece->a = p->side[0];
        piece->b = p->side[1];
        piece->c = p->side[2];
        for (int i = 0; i < 3; i++)
            piece->along[i] = p->along[i];
        return;
    }
    switch ((fv_form)fv_word(load->form)) {
    case FV_FORM_CYLINDER:
        piece->shape = HEATUP_BODY_CYLINDER;
        piece->diameter = load->diameter.v;
        piece->height = load->height.v;
        break;
    case FV_FORM_SPHERE:
        piece->shape = HEATUP_BODY_SPHERE;
        piece->diameter = load->diameter.v;
        break;
    default:
        piece->shape = HEATUP_BODY_SLAB;
        piece->c = load->c.v;
        piece->area = p->volume / load->c.v;
        break;
    }
}

static void describe_bed(const fv_load *load, const steady_piece *p, double mass, double t_start, heatup_bed_spec *bed)
{
    *bed = (heatup_bed_spec){
        .mass = mass,
        .specific_heat = p->specific_heat,
        .specific_heat_frozen = p->specific_heat_frozen,
        .moisture = load->moisture.v,
        .depth = load->depth.v,
        .area = load->area.v,
        .conductivity = p->conductivity,
        .h_cooling = load->cooling_surface.v,
        .front_factor = load->front_factor.v,
        .t_start = t_start,
    };
}

fv_status heatup_load_spec_of(const fv_load *load, const char *who, double t_air, double t_target,
                              heatup_load_spec *out, fv_faults *faults)
{
    *out = (heatup_load_spec){.mass = fv_load_mass(load)};
    if (!(out->mass > 0))
        return FV_OK;
    double t_start = fv_or(load->start_temperature, t_air);
    steady_piece p;
    fv_status status = steady_piece_of(load, out->mass, t_start, t_target, &p);
    const double density = p.density;
    if (!(p.volume > 0) || !(density > 0))
        return fv_error(faults, FV_ERR_INPUT, load->part.loc, "%s: the sizes of its load are not complete", who);
    if (status == FV_FAIL) {
        return fv_error(faults, FV_ERR_INPUT, load->part.loc,
                        "%s: no specific heat or conductivity for its load at moisture %.3g and density %.4g kg/m3",
                        who, load->moisture.v, density);
    }
    if (status == FV_DOUBTFUL)
        fv_caution(faults, FV_ERR_INPUT, load->part.loc,
                   "%s: moisture %.3g, density %.4g kg/m3 or temperature of its load lies outside the range of the "
                   "correlations for specific heat and conductivity",
                   who, load->moisture.v, density);
    out->takes_condensate = load->takes_condensate.v;
    out->bed = fv_word(load->form) == FV_FORM_BED;
    out->pieces = out->bed ? 1 : out->mass / (density * p.volume);
    out->solid = out->mass / density;
    if (out->bed)
        out->solid *= 1 - fv_heat_pore_share((fv_medium)fv_word(load->medium), load->moisture.v, density);
    if (out->bed)
        describe_bed(load, &p, out->mass, t_start, &out->loose);
    else
        describe_piece(load, &p, t_start, &out->piece);
    return status;
}

/* m: of the faces that stand upright. */
static double height_of(const fv_load *load)
{
    switch ((fv_form)fv_word(load->form)) {
    case FV_FORM_CYLINDER:
        return load->height.v;
    case FV_FORM_SPHERE:
        return load->diameter.v;
    case FV_FORM_SLAB:
        return fv_is_set(load->area) ? sqrt(load->area.v) : load->a.v;
    default:
        return load->c.v;
    }
}

/* Outside of the wrap: a plate's natural convection and radiation to a half of what is around (the rest are other
 * pieces), with the surface a quarter of the way from the air to the target, once: between 1 % early and 3 % late
 * against a coefficient that follows. water: kg that evaporates for each J. */
static double shelf_surface(const fv_vessel *v, double t_air, double site_pressure, double *water)
{
    const double t = t_air + 0.25 * fmax(1, v->target.v - t_air);
    double natural;
    if (fv_heat_natural_vertical(height_of(&v->load), t, t_air, site_pressure, &natural) == FV_FAIL)
        return (double)NAN;
    const bool wet = fv_word(v->evaporates) > 0 && fv_word(v->load.wrap) == FV_WRAP_BARE;
    const double dry = natural + fv_heat_radiation(VIEW * EMISSIVITY, t, t_air),
                 by_water = wet ? heatup_evaporation(natural, t, t_air, site_pressure) : 0;
    fv_sat_at_t_point at;
    fv_sat_at_t(fv_sat_line(), t_air, &at);
    *water = by_water / (dry + by_water) / (at.h_g - at.h_f);
    return dry + by_water;
}

fv_status heatup_load_in_open(const fv_vessel *vessel, double t_air, double site_pressure, double t_site, bool apart,
                              heatup_body_spec *piece, double *water)
{
    fv_load load = vessel->load;
    const double mass = fv_load_mass(&load), t_start = fv_or(load.start_temperature, t_site);
    *water = 0;
    load.cooling_surface =
        fv_is_set(vessel->shelf_surface)
            ? vessel->shelf_surface
            : (fv_value){.v = shelf_surface(vessel, t_air, site_pressure, water), .origin = FV_ASSUMED};
    if (apart)
        load.packing.v = FV_PACKING_LOOSE;
    steady_piece p;
    if (!(load.cooling_surface.v > 0) || steady_piece_of(&load, mass, t_start, vessel->target.v, &p) == FV_FAIL)
        return FV_FAIL;
    describe_piece(&load, &p, t_start, piece);
    piece->h_condensing = piece->h_cooling;
    return FV_OK;
}
