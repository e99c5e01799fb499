/* SPDX-License-Identifier: MIT */
/* Vapour that passes through the layers of a wall and condenses where it is cold enough.
 *
 * Given:    s_d of the layers, the chamber's temperature and humidity, temperatures of the faces between layers.
 * Returned: what heat it brings to each face where it condenses.
 * How:      g = delta (p_chamber - p_sat(T_face)) / (sum of s_d up to there), delta = 2e-10 (T/293 K)^0.81 kg/m/s/Pa at
 *           the mean of both temperatures. It condenses at the face to which most gets: there its pressure, which falls
 *           along a straight line with s_d, meets saturation first. From there at saturation it goes on in the same
 *           way, and what does not go on stays. Heat g h_fg, as a conductance times the fall of temperature from the
 *           chamber, which holds over a step and is positive, so that a wall with it is as stable as one without. The
 *           layer before a face fills with what stays there and conducts better in proportion.
 * Range:    what moves the gas as a whole (Stefan's flow) is left out, so that near boiling, where vapour is nearly
 *           alone, this is a lower bound. What condenses within a layer is put to the face behind it. Nothing dries.
 * Source:   ISO 13788 (the method: Glaser; delta), ISO 10456 (s_d), from memory.
 */
#include "steady/lining.h"

#include <math.h>
#include <string.h>

static const double WATER_DENSITY = 1000.0; /* kg/m3 */

double steady_lining_k(const steady_lining *lining, double water)
{
    const double full = lining->holds > 0 ? fmax(0, fmin(1, water / lining->holds)) : 0;
    return lining->dry_k + full * (lining->wet_k - lining->dry_k);
}

size_t steady_wall_layers(const fv_wall *wall, fv_heat_layer *layers, steady_lining *linings, bool *open)
{
    const size_t count = wall->layer_count < STEADY_LAYERS_MOST ? wall->layer_count : STEADY_LAYERS_MOST;
    *open = false;
    for (size_t i = 0; i < count; i++) {
        const fv_wall_layer *l = wall->layers[i];
        layers[i] = (fv_heat_layer){
            .thickness = l->thickness.v, .k = l->conductivity.v, .rho = l->density.v, .c = l->specific_heat.v};
        if (!fv_is_set(l->vapour_resistance))
            continue;
        *open = true;
        linings[i] = (steady_lining){.s_d = l->vapour_resistance.v,
                                     .dry_k = l->conductivity.v,
                                     .wet_k = l->wet_conductivity.v,
                                     .holds = l->pores.v * l->thickness.v * WATER_DENSITY};
        linings[i].water = l->soaked.v * linings[i].holds;
        layers[i].k = steady_lining_k(&linings[i], linings[i].water);
    }
    return count;
}

double steady_vapour_flux(double s_d, double t_mean, double dp)
{
    return 2e-10 * pow(t_mean / 293, 0.81) * dp / s_d;
}

double steady_vapour_into(const steady_lining *linings, const double *water, const double *t_behind, size_t count,
                          double t, double humidity, double *conductance)
{
    fv_sat_at_t_point from, face, next = {0};
    fv_sat_at_t(fv_sat_line(), t, &from);
    const double latent = from.h_g - from.h_f;
    double p_from = humidity * from.p, t_from = t, arrives = INFINITY;
    memset(conductance, 0, count * sizeof *conductance);
    for (size_t first = 0, at = count; first < count; first = at + 1) {
        const size_t before = at;
        double s_d = 0, most = 0;
        for (size_t i = first; i < count; i++) {
            s_d += linings[i].s_d;
            if (!(t_behind[i] < t_from) || water[i] >= linings[i].holds)
                continue;
            fv_sat_at_t(fv_sat_line(), t_behind[i], &face);
            const double flux = steady_vapour_flux(s_d, 0.5 * (t_from + t_behind[i]), p_from - face.p);
            if (flux > most) {
                at = i;
                next = face;
                most = flux;
            }
        }
        most = fmin(most, arrives);
        if (before < count)
            conductance[before] = (arrives - most) * latent / (t - t_from);
        if (!(most > 0))
            return latent;
        if (at + 1 == count)
            conductance[at] = most * latent / (t - t_behind[at]);
        arrives = most;
        t_from = t_behind[at];
        p_from = next.p;
    }
    return latent;
}
