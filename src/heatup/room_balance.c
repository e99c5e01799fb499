/* SPDX-License-Identifier: MIT */
/* The balances of a chamber over a step, for a given temperature t of its gas:
 *
 *   air      m_a1 - m_a0 = dt (drawn - out y_a),    m_a1 = (p_site + dp - p_sat(t)) V / (R_air t)
 *   vapour   m_v1 - m_v0 = dt (steam - out y_v) - condensate,    m_v1 = rho_g(t) V
 *   heat     dt steam (h_v - h_f) = load + walls + shell + (vapour out and stored) (h_g - h_f) + air drawn in, warmed + air stored, warmed
 *
 * The first gives the pressure dp, the last the gap that must vanish; both rise all the way with their unknown. */
#include "heatup/room.h"
#include "num/root.h"

#include <math.h>

static const double R_AIR = 287.05287; /* J/kg/K, ISO 2533 */
static const double CP_AIR = 1006.0;   /* J/kg/K, dry air near 50 degC (Incropera & DeWitt, table A.4; from memory) */
static const double PRESSURE_TOLERANCE = 1e-7;   /* Pa */
static const double TEMPERATURE_TOLERANCE = 1e-11; /* K */

typedef struct {
    const fv_room *room;
    const fv_room_step *step;
    fv_sat_at_t_point sat;
    double vapour_before;
    fv_room_trial *trial;
} balance;

/* Air balance at chamber pressure p, its openings' flows left in the trial. */
static double air_gap(double p, double *slope, void *context)
{
    balance *b = context;
    const fv_room *room = b->room;
    const fv_room_step *step = b->step;
    const double storage = room->volume / (R_AIR * b->trial->t);
    const double air = fmax(0, (step->site_pressure + p - b->sat.p) * storage), vapour = b->sat.rho_g * room->volume;
    const double share = air / (air + vapour), rho = (air + vapour) / room->volume;
    const double rho_outside = fv_air_density(step->site_pressure, step->t_air);
    double out = 0, drawn = 0, by_p = 0;
    for (int j = 0; j < room->opening_count; j++) {
        double own;
        const double m = fv_opening_flow(&room->openings[j], step->site_pressure, rho_outside, rho, p, &own);
        if (m > 0) {
            out += m;
            by_p += own * share;
        } else {
            drawn -= m;
            by_p += own;
        }
    }
    const double share_by_p = storage * vapour / ((air + vapour) * (air + vapour));
    *slope = storage + step->dt * (by_p + out * share_by_p);
    b->trial->air = air;
    b->trial->pressure = p;
    b->trial->out = out;
    b->trial->drawn = drawn;
    b->trial->vented = out * (1 - share);
    return air - room->air + step->dt * (out * share - drawn);
}

/* Pressure at which air balances; never below the vapour's own. */
static fv_status find_pressure(balance *b)
{
    const double least = b->sat.p - b->step->site_pressure;
    double slope, high = fmax(least, b->room->pressure) + 1, reach = 1;
    while (air_gap(high, &slope, b) < 0) {
        reach *= 4;
        high = fmax(least, b->room->pressure) + reach;
        if (reach > 1e8)
            return FV_FAIL;
    }
    double p;
    if (fv_root_between(air_gap, b, least, high, b->room->pressure, PRESSURE_TOLERANCE, &p) != FV_OK)
        return FV_FAIL;
    air_gap(p, &slope, b);
    return FV_OK;
}

static double heat_gap(double t, double *slope, void *context)
{
    balance *b = context;
    const fv_room *room = b->room;
    const fv_room_step *step = b->step;
    fv_room_trial *r = b->trial;
    *r = (fv_room_trial){.t = t};
    *slope = 0;
    fv_sat_at_t(room->sat, t, &b->sat);
    if (find_pressure(b) != FV_OK)
        return NAN;
    const double latent = b->sat.h_g - b->sat.h_f;
    const double stored = b->sat.rho_g * room->volume - b->vapour_before;
    r->heat_load = room->load_a + room->load_b * t;
    r->heat_walls = room->walls_a + room->walls_b * t;
    r->heat_shell = room->shell * (t - room->t);
    r->heat_vented = r->vented * step->dt * latent;
    r->heat_air = r->drawn * step->dt * CP_AIR * (t - step->t_air);
    r->heat_gas = stored * latent + r->air * CP_AIR * (t - room->t);
    r->h_f = b->sat.h_f;
    r->condensate = (step->steam - r->vented) * step->dt - stored;
    r->gap = r->heat_load + r->heat_walls + r->heat_shell + r->heat_vented + r->heat_air + r->heat_gas -
             step->steam * step->dt * (step->enthalpy - b->sat.h_f);
    return r->gap;
}

fv_status fv_room_solve(const fv_room *room, const fv_room_step *step, fv_room_trial *found)
{
    fv_sat_at_t_point before;
    fv_sat_at_t(room->sat, room->t, &before);
    balance b = {.room = room, .step = step, .vapour_before = before.rho_g * room->volume, .trial = found};
    const double boiling = fv_sat_t(room->sat, step->site_pressure + fmax(room->pressure, 0), NULL);
    double low = fmin(fmin(room->t, step->t_air), boiling) - 5, high = fmax(room->t, boiling) + 1, slope;
    for (int i = 0; i < 60 && heat_gap(low, &slope, &b) > 0; i++)
        low -= 10 * (1 + i);
    for (int i = 0; i < 60 && heat_gap(high, &slope, &b) < 0; i++)
        high += 2 * (1 + i);
    double t;
    if (fv_root_between(heat_gap, &b, low, high, room->t, TEMPERATURE_TOLERANCE, &t) != FV_OK)
        return FV_FAIL;
    heat_gap(t, &slope, &b);
    return FV_OK;
}
