/* SPDX-License-Identifier: MIT */
/* What a vessel needs, W: (heat of load, shell and walls from start to target)/(allowed time) + loss of the walls when
 * soaked through; of a bed, the steam that must come until its front is through. Heat balance; properties from the heat
 * floor, walls with a straight fall of temperature in each layer.
 */
#include "steady/need.h"

#include "farvessel/constants.h"
#include "farvessel/heat.h"
#include "steady/lining.h"

#include <math.h>

enum { ROUNDS = 200 };
static const double SETTLED = 1e-9; /* of the loss */

double fv_load_piece_volume(const fv_load *load)
{
    if (!load)
        return (double)NAN;
    const double d = load->diameter.v;
    switch ((fv_form)fv_word(load->form)) {
    case FV_FORM_BLOCK:
        return load->a.v * load->b.v * load->c.v;
    case FV_FORM_SLAB:
        return fv_or(load->area, load->a.v * load->b.v) * load->c.v;
    case FV_FORM_CYLINDER:
        return 0.25 * FV_PI * d * d * load->height.v;
    case FV_FORM_SPHERE:
        return FV_PI / 6 * d * d * d;
    case FV_FORM_BED:
        return load->area.v * load->depth.v;
    }
    return NAN;
}

double fv_load_mass(const fv_load *load)
{
    if (!load)
        return (double)NAN;
    if (fv_is_set(load->mass))
        return load->mass.v;
    const bool bed = fv_word(load->form) == FV_FORM_BED;
    const double density =
        fv_or(load->density, fv_heat_typical_density((fv_medium)fv_word(load->medium), load->moisture.v, bed));
    const double mass = fv_load_piece_volume(load) * density * fv_or(load->count, 1);
    return isnan(mass) ? 0 : mass;
}

/* Heat from t_start to t_end, J/kg: mean specific heat on each side of freezing, and the ice between. */
static fv_status load_heat(const fv_load *load, double t_start, double t_end, double *heat)
{
    const fv_medium medium = (fv_medium)fv_word(load->medium);
    const double c_dry = fv_or(load->specific_heat, 0);
    double c;
    fv_status status = FV_OK;
    *heat = 0;
    if (t_start < FV_MELTING_POINT) {
        status = fv_heat_specific_heat(medium, load->moisture.v, 0.5 * (t_start + FV_MELTING_POINT), c_dry, &c);
        *heat = c * (FV_MELTING_POINT - t_start) + load->moisture.v * FV_LATENT_ICE;
        t_start = FV_MELTING_POINT;
    }
    const fv_status above = fv_heat_specific_heat(medium, load->moisture.v, 0.5 * (t_start + t_end), c_dry, &c);
    *heat += c * (t_end - t_start);
    return status != FV_OK ? status : above;
}

/* A wall whose faces take up heat from the chamber itself, W/m2/K each, as layers and a film that conduct so much
 * better; per: K below the chamber behind each layer, for each W/m2 that leaves outside. */
static void conduct_beside(const fv_heat_layer *layers, const double *to_face, size_t n, double h_inside,
                           fv_heat_layer *with, double *film, double *per)
{
    double below = h_inside > 0 ? 1 / h_inside : 0, flow = 1;
    for (size_t i = 0; i < n; i++) {
        below += layers[i].thickness / layers[i].k;
        below /= 1 + below * to_face[i];
    }
    for (size_t i = n; i-- > 0;) {
        per[i] = below;
        flow -= to_face[i] * below;
        below -= flow * layers[i].thickness / layers[i].k;
        with[i].k = layers[i].k / flow;
    }
    *film = h_inside / flow;
}

/* Steady, through layers that vapour gets into as far as the faces where it condenses. More heat warms a face, and
 * less vapour stays there: where that goes to and fro, less of each correction is taken. `swing`: what a whole one
 * would still change of the vapour's heat, as a share of the loss; where it is not small, no face is found to settle
 * on. */
static fv_status wall_loss(const fv_wall *wall, fv_heat_layer *layers, const steady_lining *linings, size_t n,
                           double t_inside, const fv_heat_outside *outside, double *h_inside, double *q, double *swing)
{
    double slope, t_outer, behind[STEADY_LAYERS_MOST], water[STEADY_LAYERS_MOST];
    double to_face[STEADY_LAYERS_MOST] = {0}, now[STEADY_LAYERS_MOST], per[STEADY_LAYERS_MOST];
    double film = *h_inside, before = NAN, change = 0, weight = 1;
    fv_heat_layer with[STEADY_LAYERS_MOST];
    fv_status status = fv_heat_wall_loss(layers, n, wall->height.v, film, t_inside, outside, q, &slope, &t_outer);
    *swing = 0;
    if (!linings)
        return status;
    for (size_t i = 0; i < n; i++) {
        with[i] = layers[i];
        water[i] = linings[i].water;
    }
    conduct_beside(layers, to_face, n, *h_inside, with, &film, per);
    for (int round = 0; round < ROUNDS && status != FV_FAIL && !(fabs(*q - before) < SETTLED * fabs(*q)); round++) {
        for (size_t i = 0; i < n; i++)
            behind[i] = t_inside - *q * per[i];
        steady_vapour_into(linings, water, behind, n, t_inside, 1, now);
        *swing = 0;
        for (size_t i = 0; i < n; i++) {
            *swing += fabs(now[i] - to_face[i]) * per[i];
            to_face[i] += weight * (now[i] - to_face[i]);
        }
        conduct_beside(layers, to_face, n, *h_inside, with, &film, per);
        before = *q;
        status = fv_heat_wall_loss(with, n, wall->height.v, film, t_inside, outside, q, &slope, &t_outer);
        weight *= (*q - before) * change < 0 ? 0.7 : 1;
        change = *q - before;
    }
    for (size_t i = 0; i < n; i++)
        layers[i].k = with[i].k;
    *h_inside = film;
    return status;
}

/* Walls keep, when steady, a straight fall of temperature in each layer; and lose heat all the time. */
static fv_status wall_heat(const fv_plant *plant, const fv_vessel *vessel, const fv_wall *wall, double t_inside,
                           double t_start, double *stored, double *loss, double *delay, double *swing)
{
    fv_heat_layer layers[STEADY_LAYERS_MOST];
    steady_lining linings[STEADY_LAYERS_MOST];
    bool open;
    const fv_site *site = &plant->site;
    const size_t n = steady_wall_layers(wall, layers, linings, &open);
    const fv_heat_outside outside = {.t_air = fv_or(wall->air, site->air.v),
                                     .p_air = fv_site_pressure(site),
                                     .wind = fv_or(wall->wind, fv_vessel_wind(site, vessel, site->wind.v)),
                                     .emissivity = wall->emissivity.v,
                                     .h_fixed = fv_or(wall->outside, 0)};
    double q, h_inside = fv_or(wall->inside, 0);
    const fv_status status =
        wall_loss(wall, layers, open ? linings : NULL, n, t_inside, &outside, &h_inside, &q, swing);
    double inside = h_inside > 0 ? 1 / h_inside : 0, t = t_inside - q * inside;
    *stored = *delay = 0;
    for (size_t i = 0; i < n; i++) {
        const double next = t - q * layers[i].thickness / layers[i].k;
        *stored += wall->area.v * layers[i].thickness * layers[i].rho * layers[i].c * (0.5 * (t + next) - t_start);
        *delay +=
            layers[i].thickness * layers[i].rho * layers[i].c * (inside + 0.5 * layers[i].thickness / layers[i].k);
        inside += layers[i].thickness / layers[i].k;
        t = next;
    }
    *loss = q * wall->area.v;
    return status;
}

double steady_uptake(const fv_plant *plant, const fv_vessel *vessel, double t)
{
    double sum = 0;
    for (size_t i = 0; i < vessel->wall_count; i++) {
        double stored, loss, delay, swing;
        if (wall_heat(plant, vessel, vessel->walls[i], t, plant->site.air.v, &stored, &loss, &delay, &swing) != FV_FAIL)
            sum += loss;
    }
    return fv_or(vessel->uptake, sum);
}

double steady_wall_swing(const fv_plant *plant, const fv_vessel *vessel, size_t wall, double t)
{
    double stored, loss, delay, swing;
    const fv_status status =
        wall_heat(plant, vessel, vessel->walls[wall], t, plant->site.air.v, &stored, &loss, &delay, &swing);
    return status == FV_FAIL ? 0 : swing;
}

/* J of steam before the front is through a bed: it heats what it has passed to the boiling point, and breaks through
 * early. Cannot fail where its heat to the target was found. */
static double front_heat(const fv_vessel_need *need, const fv_load *load, double t_start, double t_boil)
{
    double per_kg;
    load_heat(load, t_start, fmax(t_boil, t_start), &per_kg);
    return load->front_factor.v * need->load_mass * per_kg;
}

fv_status fv_vessel_need_of(const fv_plant *plant, const fv_vessel *vessel, const fv_sat *sat, fv_vessel_need *need,
                            fv_faults *faults)
{
    if (!plant || !vessel || !sat || !need)
        return fv_error_null(faults, __func__);
    const double t_air = plant->site.air.v, t_start = fv_or(vessel->load.start_temperature, t_air);
    const double t_boil = fv_sat_t(sat, fv_site_pressure(&plant->site), NULL);
    *need = (fv_vessel_need){.load_mass = fv_load_mass(&vessel->load)};
    double per_kg = 0;
    fv_status worst = need->load_mass > 0 ? load_heat(&vessel->load, t_start, vessel->target.v, &per_kg) : FV_OK;
    need->load = need->load_mass * per_kg;
    need->load_specific_heat = per_kg / (vessel->target.v - t_start);
    need->shell = vessel->shell.mass.v * vessel->shell.specific_heat.v * (t_boil - t_air);
    if (isnan(need->shell))
        need->shell = 0;
    for (size_t i = 0; i < vessel->wall_count; i++) {
        double stored, loss, delay, swing;
        const fv_status status =
            wall_heat(plant, vessel, vessel->walls[i], t_boil, t_air, &stored, &loss, &delay, &swing);
        need->walls += stored;
        need->wall_delay += stored * delay;
        need->wall_loss += loss;
        if (status != FV_OK && worst != FV_FAIL)
            worst = status;
    }
    if (need->walls > 0)
        need->wall_delay /= need->walls;
    need->comes = need->load_mass > 0 && fv_word(vessel->load.form) == FV_FORM_BED
                      ? front_heat(need, &vessel->load, t_start, t_boil)
                      : need->load;
    need->need = (need->comes + need->shell + need->walls) / vessel->within.v + need->wall_loss;
    if (worst == FV_FAIL)
        fv_error(faults, FV_ERR_INPUT, vessel->part.loc,
                 "vessel '%s': its heat cannot be worked out from load, walls and shell", vessel->part.id);
    return worst;
}
