/* SPDX-License-Identifier: MIT */
/* From what was said of a load to the figures of one body.
 *
 * Packed pieces stand as one body with the stack's sides.
 *
 * Frozen: specific heat with ice; conductivity k (k_ice/k_water)^x, x the share of the volume that is water: the
 * geometric mean of the parts, with the part that is water replaced by ice (O. Johansen, Thermal Conductivity of Soils
 * (1975); k_ice 2.22, k_water 0.561 W/m/K at 0 degC; from memory). About 25 %.
 */
#include "steady/piece.h"
#include "farvessel/heat.h"

#include <math.h>

#define ICE_POINT 273.15
#define ICE_TO_WATER (2.22 / 0.561)
#define WATER_DENSITY 1000.0

static fv_status worse(fv_status one, fv_status other)
{
    if (one == FV_FAIL || other == FV_FAIL)
        return FV_FAIL;
    return one == FV_OK ? other : one;
}

static fv_status find_properties(const fv_load *load, double t_start, double t_target, steady_piece *p)
{
    fv_medium medium = (fv_medium)fv_word(load->medium);
    double w = load->moisture.v, c_dry = fv_or(load->specific_heat, 0);
    double thawed = 0.5 * (fmax(t_start, ICE_POINT) + t_target);
    fv_status status = fv_heat_specific_heat(medium, w, thawed, c_dry, &p->specific_heat);
    p->specific_heat_frozen = p->specific_heat;
    if (t_start < ICE_POINT)
        status = worse(status,
                       fv_heat_specific_heat(medium, w, 0.5 * (t_start + ICE_POINT), c_dry, &p->specific_heat_frozen));
    if (fv_is_set(load->conductivity))
        p->conductivity = load->conductivity.v;
    else
        status = worse(status, fv_heat_conductivity(medium, w, p->density, thawed, &p->conductivity));
    p->conductivity_frozen = p->conductivity * pow(ICE_TO_WATER, fmin(w * p->density / WATER_DENSITY, 1));
    return status;
}

static void find_surface(const fv_load *load, steady_piece *p)
{
    const double open = load->takes_condensate.v > 0 ? STEADY_FACE_OPEN : STEADY_FACE;
    p->h_condensing = fv_or(load->surface, open);
    p->h_cooling = load->cooling_surface.v;
}

static void find_body(const fv_load *load, steady_piece *p)
{
    const int packing = fv_word(load->packing);
    p->block = fv_word(load->form) == FV_FORM_BLOCK;
    for (int i = 0; i < 3; i++)
        p->along[i] = 1;
    p->side[0] = load->a.v;
    p->side[1] = load->b.v;
    p->side[2] = load->c.v;
    if (packing != FV_PACKING_PACKED)
        return;
    p->block = true;
    p->side[0] = load->stack_a.v;
    p->side[1] = load->stack_b.v;
    p->side[2] = load->stack_c.v;
}

/* Of what is there, so that pieces x volume x density is the mass; NaN: sizes are missing. */
static double density_of(const fv_load *load, double mass)
{
    bool bed = fv_word(load->form) == FV_FORM_BED;
    if (fv_is_set(load->mass) && (bed || fv_is_set(load->count)))
        return mass / (fv_load_piece_volume(load) * (bed ? 1 : load->count.v));
    return fv_or(load->density, fv_heat_typical_density((fv_medium)fv_word(load->medium), load->moisture.v, bed));
}

fv_status steady_piece_of(const fv_load *load, double mass, double t_start, double t_target, steady_piece *out)
{
    *out = (steady_piece){.density = density_of(load, mass), .volume = (double)NAN};
    if (!(out->density > 0))
        return FV_FAIL;
    const fv_status status = find_properties(load, t_start, t_target, out);
    find_surface(load, out);
    if (fv_word(load->form) == FV_FORM_BED) {
        out->volume = fv_load_piece_volume(load);
    } else {
        find_body(load, out);
        out->volume = out->block ? out->side[0] * out->side[1] * out->side[2] : fv_load_piece_volume(load);
    }
    return out->volume > 0 ? status : FV_FAIL;
}

int steady_piece_axes(const fv_load *load, const steady_piece *p, steady_axis d[3])
{
    for (int i = 0; i < 3 && p->block; i++)
        d[i] = (steady_axis){FV_SLAB, p->side[i] / 2, p->along[i]};
    if (p->block)
        return 3;
    switch ((fv_form)fv_word(load->form)) {
    case FV_FORM_CYLINDER:
        d[0] = (steady_axis){FV_CYLINDER, load->diameter.v / 2, 1};
        d[1] = (steady_axis){FV_SLAB, load->height.v / 2, 1};
        return 2;
    case FV_FORM_SPHERE:
        d[0] = (steady_axis){FV_SPHERE, load->diameter.v / 2, 1};
        return 1;
    default:
        d[0] = (steady_axis){FV_SLAB, load->c.v / 2, 1};
        return 1;
    }
}
