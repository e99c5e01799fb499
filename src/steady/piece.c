/* SPDX-License-Identifier: MIT */
/* From what was said of a load to the figures of one body.
 *
 * Packed pieces stand as one body with the stack's sides. Rows are a brick of n1 x n2 x n3 pieces, all six faces in the
 * chamber, that conducts along a side of n pieces of s each
 *
 *     k_i = k/(1 + 2 c R k/(n s)),   c = floor((n - 1)/2),
 *
 * c being the contacts that heat crosses to the middle, R the resistance of one. Against contacts one by one, heat
 * from two sides only, the middle's time is right to 0.3 % for even n, and up to 3 % late for odd n, for R k/s up to
 * 0.12; where all sides heat it, nearer.
 *
 * What is wrapped has in series: outside coefficient, film or wall, and the dry gap under a film (closure of a bag:
 * film 0.05 mm, 0.3 W/m/K, emissivity 0.9; from memory), the gap at the mean of start and target, once.
 *
 * Frozen: specific heat with ice; conductivity k (k_ice/k_water)^x, x the share of the volume that is water: the
 * geometric mean of the parts, with the part that is water replaced by ice (O. Johansen, Thermal Conductivity of Soils
 * (1975); k_ice 2.22, k_water 0.561 W/m/K at 0 degC; from memory). About 25 %.
 */
#include "steady/piece.h"
#include "farvessel/constants.h"
#include "farvessel/heat.h"

#include <math.h>

#define ICE_TO_WATER (2.22 / 0.561)
#define WATER_DENSITY 1000.0

static const double FILM_EMISSIVITY = 0.9;

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
    double thawed = 0.5 * (fmax(t_start, FV_MELTING_POINT) + t_target);
    fv_status status = fv_heat_specific_heat(medium, w, thawed, c_dry, &p->specific_heat);
    p->specific_heat_frozen = p->specific_heat;
    if (t_start < FV_MELTING_POINT)
        status = worse(status, fv_heat_specific_heat(medium, w, 0.5 * (t_start + FV_MELTING_POINT), c_dry,
                                                     &p->specific_heat_frozen));
    if (fv_is_set(load->conductivity))
        p->conductivity = load->conductivity.v;
    else
        status = worse(status, fv_heat_conductivity(medium, w, p->density, thawed, &p->conductivity));
    p->conductivity_frozen = p->conductivity * pow(ICE_TO_WATER, fmin(w * p->density / WATER_DENSITY, 1));
    return status;
}

/* m2 K/W of the film or wall, without a gap. */
static double wall_of(const fv_load *load)
{
    switch (fv_word(load->wrap)) {
    case FV_WRAP_BAG:
        return 0.05e-3 / 0.3;
    case FV_WRAP_POT:
        return 1e-3 / 0.2;
    case FV_WRAP_TRAY:
        return 0.5e-3 / 0.2;
    default:
        return 0;
    }
}

/* m2 K/W of the gap under a film. */
static double gap_of(const fv_load *load, double t)
{
    const double gap = fv_word(load->wrap) == FV_WRAP_BARE ? 0 : fv_or(load->film_gap, 0);
    return gap > 0 ? 1 / fv_heat_film_gap(gap, FILM_EMISSIVITY, t) : 0;
}

static void find_surface(const fv_load *load, double t, steady_piece *p)
{
    const double open = load->takes_condensate.v > 0 ? STEADY_FACE_OPEN : STEADY_FACE;
    const double wrap = wall_of(load) + gap_of(load, t);
    // said beside no wrap, it is the whole of it
    const bool whole = load->cooling_surface.origin > FV_ASSUMED && load->wrap.origin <= FV_ASSUMED &&
                       load->bag.origin <= FV_ASSUMED && load->film_gap.origin <= FV_ASSUMED;
    p->h_condensing = 1 / (1 / fv_or(load->surface, open) + wrap);
    p->h_cooling = 1 / (1 / load->cooling_surface.v + (whole ? 0 : wrap));
}

static void find_rows(const fv_load *load, double t, steady_piece *p)
{
    int n[3];
    if (!fv_load_rows(load, n))
        return;
    const double gap = gap_of(load, t),
                 contact = fv_is_set(load->contact) ? 1 / load->contact.v : 2 * (gap > 0 ? gap : wall_of(load));
    for (int i = 0; i < 3; i++) {
        p->side[i] *= n[i];
        p->along[i] = 1 / (1 + 2 * ((n[i] - 1) / 2) * contact * p->conductivity / p->side[i]);
    }
}

static void find_body(const fv_load *load, double t, steady_piece *p)
{
    const int packing = fv_word(load->packing);
    p->block = fv_word(load->form) == FV_FORM_BLOCK;
    for (int i = 0; i < 3; i++)
        p->along[i] = 1;
    p->side[0] = load->a.v;
    p->side[1] = load->b.v;
    p->side[2] = load->c.v;
    if (packing == FV_PACKING_ROWS)
        find_rows(load, t, p);
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
    const double t = 0.5 * (t_start + t_target);
    *out = (steady_piece){.density = density_of(load, mass), .volume = (double)NAN};
    if (!(out->density > 0))
        return FV_FAIL;
    const fv_status status = find_properties(load, t_start, t_target, out);
    find_surface(load, t, out);
    if (fv_word(load->form) == FV_FORM_BED) {
        out->volume = fv_load_piece_volume(load);
    } else {
        find_body(load, t, out);
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

static double theta_at(const steady_axis *d, int count, const steady_piece *p, double time)
{
    double product = 1;
    for (int i = 0; i < count; i++) {
        const double k = p->conductivity * d[i].along, biot = p->h_condensing * d[i].size / k;
        const double fourier = k / (p->density * p->specific_heat) * time / (d[i].size * d[i].size);
        double theta = (double)NAN;
        if (fv_heat_theta(d[i].shape, biot, fourier, 0, &theta) == FV_FAIL)
            return (double)NAN;
        product *= theta;
    }
    return product;
}

double steady_piece_time(const fv_load *load, const steady_piece *piece, double t_start, double t_steam, double t_to)
{
    enum { HALVINGS = 60 };
    steady_axis d[3];
    const int count = steady_piece_axes(load, piece, d);
    const double wanted = (t_to - t_steam) / (t_start - t_steam);
    if (t_to <= t_start)
        return 0;
    if (!(wanted > 0))
        return INFINITY;
    double low = 0, high = 1;
    while (theta_at(d, count, piece, high) > wanted && high < 1e12)
        high *= 2;
    for (int i = 0; i < HALVINGS; i++) {
        const double middle = 0.5 * (low + high);
        *(theta_at(d, count, piece, middle) > wanted ? &low : &high) = middle;
    }
    return 0.5 * (low + high);
}
