/* SPDX-License-Identifier: MIT */
/* A load as the user described it, resolved to numbers: steady/piece.c, in the words of bodies and beds. */
#include "heatup/load.h"
#include "farvessel/heat.h"
#include "steady/piece.h"

#include <math.h>

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
    if (!(p.volume > 0) || !(density > 0)) {
        fv_error(faults, FV_ERR_INPUT, load->part.loc, "%s: the sizes of its load are not complete", who);
        return FV_FAIL;
    }
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
