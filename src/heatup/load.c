/* SPDX-License-Identifier: MIT */
/* A load as the user described it, resolved to numbers.
 *
 * Packed pieces stand as one body: it has the stack's sides, and there are as many stacks as make up the mass. Loose
 * ones are bodies of their own.
 *
 * Frozen: specific heat with ice; conductivity k (k_ice/k_water)^x, x the share of the volume that is water: the
 * geometric mean of the parts, with the part that is water replaced by ice (O. Johansen, Thermal Conductivity of Soils
 * (1975); k_ice 2.22, k_water 0.561 W/m/K at 0 degC; from memory). About 25 %.
 */
#include "heatup/load.h"
#include "farvessel/constants.h"
#include "farvessel/heat.h"

#include <math.h>

#define ICE_TO_WATER (2.22 / 0.561)
#define WATER_DENSITY 1000.0

typedef struct {
    double density, specific_heat, specific_heat_frozen, conductivity, conductivity_frozen;
} properties;

static fv_status worse(fv_status one, fv_status other)
{
    if (one == FV_FAIL || other == FV_FAIL)
        return FV_FAIL;
    return one == FV_OK ? other : one;
}

static fv_status find_properties(const fv_load *load, double density, double t_start, double t_target, properties *p)
{
    fv_medium medium = (fv_medium)fv_word(load->medium);
    double w = load->moisture.v, c_dry = fv_or(load->specific_heat, 0);
    double thawed = 0.5 * (fmax(t_start, FV_MELTING_POINT) + t_target);
    fv_status status = fv_heat_specific_heat(medium, w, thawed, c_dry, &p->specific_heat);
    p->density = density;
    p->specific_heat_frozen = p->specific_heat;
    if (t_start < FV_MELTING_POINT)
        status = worse(status, fv_heat_specific_heat(medium, w, 0.5 * (t_start + FV_MELTING_POINT), c_dry,
                                                     &p->specific_heat_frozen));
    if (fv_is_set(load->conductivity))
        p->conductivity = load->conductivity.v;
    else
        status = worse(status, fv_heat_conductivity(medium, w, density, thawed, &p->conductivity));
    p->conductivity_frozen = p->conductivity * pow(ICE_TO_WATER, fmin(w * density / WATER_DENSITY, 1));
    return status;
}

static void describe_piece(const fv_load *load, const properties *p, double t_start, heatup_body_spec *piece)
{
    bool open = load->takes_condensate.v > 0;
    *piece = (heatup_body_spec){
        .conductivity = p->conductivity,
        .density = p->density,
        .specific_heat = p->specific_heat,
        .h_condensing = fv_or(load->surface, open ? HEATUP_SURFACE_OPEN : HEATUP_SURFACE_BAGGED),
        .h_cooling = load->cooling_surface.v,
        .t_start = t_start,
        .moisture = load->moisture.v,
        .conductivity_frozen = p->conductivity_frozen,
        .specific_heat_frozen = p->specific_heat_frozen,
    };
    switch ((fv_form)fv_word(load->form)) {
    case FV_FORM_SLAB:
        piece->shape = HEATUP_BODY_SLAB;
        piece->c = load->c.v;
        piece->area = fv_load_piece_volume(load) / load->c.v;
        break;
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
        piece->shape = HEATUP_BODY_BLOCK;
        piece->a = load->a.v;
        piece->b = load->b.v;
        piece->c = load->c.v;
        break;
    }
    if (fv_word(load->packing) == FV_PACKING_PACKED) {
        piece->shape = HEATUP_BODY_BLOCK;
        piece->a = load->stack_a.v;
        piece->b = load->stack_b.v;
        piece->c = load->stack_c.v;
    }
}

static void describe_bed(const fv_load *load, const properties *p, double mass, double t_start, heatup_bed_spec *bed)
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

/* Of what is there, so that pieces x volume x density is the mass; NaN: sizes are missing. */
static double density_of(const fv_load *load, double mass)
{
    bool bed = fv_word(load->form) == FV_FORM_BED;
    if (fv_is_set(load->mass) && (bed || fv_is_set(load->count)))
        return mass / (fv_load_piece_volume(load) * (bed ? 1 : load->count.v));
    return fv_or(load->density, fv_heat_typical_density((fv_medium)fv_word(load->medium), load->moisture.v, bed));
}

static double volume_of(const fv_load *load)
{
    if (fv_word(load->form) != FV_FORM_BED && fv_word(load->packing) == FV_PACKING_PACKED)
        return load->stack_a.v * load->stack_b.v * load->stack_c.v;
    return fv_load_piece_volume(load);
}

fv_status heatup_load_spec_of(const fv_load *load, const char *who, double t_air, double t_target,
                              heatup_load_spec *out, fv_faults *faults)
{
    *out = (heatup_load_spec){.mass = fv_load_mass(load)};
    if (!(out->mass > 0))
        return FV_OK;
    double density = density_of(load, out->mass), volume = volume_of(load);
    double t_start = fv_or(load->start_temperature, t_air);
    if (!(volume > 0) || !(density > 0)) {
        fv_error(faults, FV_ERR_INPUT, load->part.loc, "%s: the sizes of its load are not complete", who);
        return FV_FAIL;
    }
    properties p;
    fv_status status = find_properties(load, density, t_start, t_target, &p);
    if (status == FV_FAIL) {
        fv_error(faults, FV_ERR_INPUT, load->part.loc,
                 "%s: no specific heat or conductivity for its load at moisture %.3g and density %.4g kg/m3", who,
                 load->moisture.v, density);
        return FV_FAIL;
    }
    if (status == FV_DOUBTFUL)
        fv_caution(faults, FV_ERR_INPUT, load->part.loc,
                   "%s: moisture %.3g, density %.4g kg/m3 or temperature of its load lies outside the range of the "
                   "correlations for specific heat and conductivity",
                   who, load->moisture.v, density);
    out->takes_condensate = load->takes_condensate.v;
    out->bed = fv_word(load->form) == FV_FORM_BED;
    out->pieces = out->bed ? 1 : out->mass / (density * volume);
    out->solid = out->mass / density;
    if (out->bed)
        out->solid *= 1 - fv_heat_pore_share((fv_medium)fv_word(load->medium), load->moisture.v, density);
    if (out->bed)
        describe_bed(load, &p, out->mass, t_start, &out->loose);
    else
        describe_piece(load, &p, t_start, &out->piece);
    return status;
}
