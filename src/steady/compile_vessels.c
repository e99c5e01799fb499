/* SPDX-License-Identifier: MIT */
/* Coils, their holes and the openings of chambers. */
#include "farvessel/constants.h"
#include "farvessel/flow.h"
#include "steady/compile.h"

#include <math.h>

/* A round opening of the same area. */
static double both_ways(const fv_vessel *vessel, const fv_opening *o, double area)
{
    double per_root = 0;
    const double diameter = sqrt(4 / FV_PI * area);
    if (!(fv_or(o->exchange, 0) > 0) || !fv_opening_exchanges(vessel, o))
        return 0;
    if (fv_word(o->faces) == FV_FACES_SIDEWAYS)
        fv_flow_exchange_upright(area, diameter, &per_root);
    else
        fv_flow_exchange_level(diameter, o->thickness.v, &per_root);
    return per_root;
}

static void compile_openings(const fv_network *net, const fv_vessel *vessel, steady_net_opening *openings)
{
    fv_sat_point site;
    fv_sat_at(net->sat, net->site_pressure, &site);
    for (size_t j = 0; j < vessel->opening_count; j++) {
        const fv_opening *o = vessel->openings[j];
        const double area = fv_opening_area(o);
        openings[j] = (steady_net_opening){.opening = o,
                                           .cd_area = o->cd.v * area,
                                           .height = o->height.v,
                                           .purge = fv_or(o->purge, 1),
                                           .ends = fmax(1, fv_or(o->exchange, 0)),
                                           .exchange = both_ways(vessel, o, area),
                                           .seal = site.rho_f * FV_GRAVITY * fv_or(o->seal, 0)};
    }
}

size_t steady_coil_hole_count(const fv_coil *coil)
{
    return coil->hole_count > 0 ? coil->hole_count : (size_t)coil->holes.v;
}

static double hole_position(const fv_coil *coil, size_t k)
{
    if (coil->hole_count > 0)
        return coil->hole[k]->at.v;
    const double spacing = fv_or(coil->spacing, coil->length.v / coil->holes.v);
    return fv_or(coil->first, 0.5 * spacing) + (double)k * spacing;
}

/* Flow c of so many holes, kg/s: creeping flow through a hole in a thin plate, Q = r^3 dp/(3 mu) (R. A. Sampson,
 * Phil. Trans. R. Soc. A 182 (1891) 449; from memory), is as much as m = (Cd A)^2 2 rho dp/c. */
static double creep_flow_of(double cd, double viscosity, double diameter, double count)
{
    return 6 * FV_PI * FV_PI * cd * cd * viscosity * 0.5 * diameter * count;
}

static void compile_holes(const fv_coil *coil, double viscosity, steady_net_hole *holes, double *lengths)
{
    const size_t n = steady_coil_hole_count(coil);
    const double open = 1 - fv_or(coil->clogged, 0);
    double reached = 0;
    for (size_t k = 0; k < n; k++) {
        const bool listed = coil->hole_count > 0;
        const double diameter = listed ? fv_or(coil->hole[k]->drill, coil->drill.v) : coil->drill.v;
        const double count = listed ? fv_or(coil->hole[k]->count, 1) : 1;
        holes[k] = (steady_net_hole){.area = steady_circle(diameter) * count * open,
                                     .diameter = diameter,
                                     .position = hole_position(coil, k),
                                     .cd = coil->cd.v,
                                     .fixed = fv_is_set(coil->cd)};
        if (!holes[k].fixed)
            holes[k].doubtful = fv_flow_hole_cd_still(coil->wall.v / diameter, &holes[k].cd) != FV_OK;
        holes[k].creep_flow = creep_flow_of(holes[k].cd, viscosity, diameter, count * open);
        lengths[k] = holes[k].position - reached;
        reached = holes[k].position;
    }
    if (fv_word(coil->shape) == FV_COIL_RING)
        lengths[n] = coil->length.v - reached;
}

/* Into a coil, in heads of its own bore: a flush contraction, and by Bernoulli the head that narrowing turns into
 * speed, which the holes' regain gives back. A node with a boiler is at rest; else its widest line feeds the coil. A
 * wider coil: 0.5, the flush entry (Crane TP-410). */
static double entry_loss(const fv_network *net, int node, double area, bool ring)
{
    double widest = 0;
    for (int j = net->touch_start[node]; j < net->touch_start[node + 1]; j++)
        widest = fmax(widest, net->lines[net->touch_line[j]].duct.area);
    for (size_t i = 0; i < net->plant->boiler_count; i++)
        if (net->plant->boilers[i]->node == node)
            widest = INFINITY;
    const double ratio = area / widest;
    double flush;
    if (ring)
        return 2;
    return ratio <= 1 && fv_flow_contraction(ratio, &flush) == FV_OK ? flush + 1 - ratio * ratio : 0.5;
}

void steady_compile_vessel(fv_network *net, int index, int first_hole, int first_opening)
{
    const fv_vessel *vessel = net->plant->vessels[index];
    const fv_coil *coil = &vessel->coil;
    const bool ring = fv_word(coil->shape) == FV_COIL_RING;
    steady_net_vessel *v = &net->vessels[index];
    *v = (steady_net_vessel){.vessel = vessel,
                             .node = vessel->node,
                             .first_hole = first_hole,
                             .hole_count = (int)steady_coil_hole_count(coil),
                             .first_opening = first_opening,
                             .opening_count = (int)vessel->opening_count,
                             .bore_area = steady_circle(coil->bore.v),
                             .bore = coil->bore.v,
                             .relative_roughness = coil->roughness.v / coil->bore.v,
                             .friction = coil->friction.v,
                             .entry =
                                 fv_or(coil->entry, entry_loss(net, vessel->node, steady_circle(coil->bore.v), ring)),
                             .regain = coil->regain.v};
    v->segment_count = v->hole_count + (ring ? 1 : 0);
    double slope;
    compile_holes(coil, fv_sat_mu_g(net->sat, net->site_pressure, &slope), net->holes + first_hole,
                  net->segment_length + first_hole + index);
    compile_openings(net, vessel, net->openings + first_opening);
}
