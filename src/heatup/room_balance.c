/* SPDX-License-Identifier: MIT */
/* The balances of a chamber over a step, for a given temperature t of its gas:
 *
 *   air      m_a1 - m_a0 = dt (drawn - out y),    m_a1 = (p_site + dp - p_sat(t)) V / (R_air t)
 *   vapour   m_v1 - m_v0 = dt (steam - out (1 - y)) - condensate,    m_v1 = rho_g(t) V
 *   heat     dt steam (h_v - h_f) = load + walls + shell + (vapour out and stored) (h_g - h_f) + air drawn in, warmed
 *            + air stored, warmed
 *
 * While no steam comes, the chamber stays saturated only as long as water clings to load and walls. When that is gone
 * the humidity falls below one: p_sat and rho_g are then that share of saturation, found so that no more evaporates
 * than there is.
 *
 * y is the share of air in the gas by mass. The first gives the pressure dp, the last the gap that must vanish; both
 * rise all the way with their unknown, and their slopes are exact, so that a few steps of Newton's do. */
#include "heatup/room.h"
#include "num/root.h"

#include <math.h>

static const double R_AIR = 287.05287; /* J/kg/K, ISO 2533 */
static const double CP_AIR = 1006.0;   /* J/kg/K, dry air near 50 degC (Incropera & DeWitt, table A.4; from memory) */
static const double PRESSURE_TOLERANCE = 1e-11;    /* Pa */
static const double PRESSURE_MOST = 1e8;           /* Pa */
static const double TEMPERATURE_TOLERANCE = 1e-11; /* K */
static const double CLOSES_ALWAYS = 1e-8;          /* kg/s */
static const double HUMIDITY_TOLERANCE = 1e-11;
static const double HUMIDITY_BESIDE = 1e-5;
static const double COLDEST = 150, HOTTEST = 480; /* K, where a chamber is looked for */

/* A quantity and how it changes with pressure and temperature. */
typedef struct {
    double v, by_p, by_t;
} slopes;

typedef struct {
    const fv_room *room;
    const fv_room_step *step;
    double rho_outside, vapour_before;
    double t, humidity;
    fv_sat_at_t_point sat;         /* of the vapour that is there */
    slopes air, share, out, drawn; /* kg; by mass; kg/s */
    double air_slope;              /* of the air's balance, kg/Pa */
} balance;

/* Gas in the chamber at pressure p, and what its openings pass. */
static void exchange(balance *b, double p)
{
    const fv_room *room = b->room;
    const double storage = room->volume / (R_AIR * b->t), vapour = b->sat.rho_g * room->volume;
    const double vapour_by_t = b->sat.drho_g_dt * room->volume;
    const double air = fmax(0, (b->step->site_pressure + p - b->sat.p) * storage), gas = air + vapour;
    b->air = (slopes){air, storage, -b->sat.dp_dt * storage - air / b->t};
    b->share = (slopes){air / gas, vapour * b->air.by_p / (gas * gas),
                        (vapour * b->air.by_t - air * vapour_by_t) / (gas * gas)};
    const double rho = gas / room->volume;
    const double rho_by_p = storage / room->volume, rho_by_t = (b->air.by_t + vapour_by_t) / room->volume;
    b->out = b->drawn = (slopes){0, 0, 0};
    for (int j = 0; j < room->opening_count; j++) {
        const fv_net_opening *o = &room->openings[j];
        double by_p;
        const double m = fv_opening_flow(o, b->step->site_pressure, b->rho_outside, rho, p, &by_p);
        const double by_rho = (m > 0 ? 0.5 * m / rho : 0) - by_p * FV_GRAVITY * o->height;
        slopes *sum = m > 0 ? &b->out : &b->drawn;
        const double sign = m > 0 ? 1 : -1;
        sum->v += sign * m;
        sum->by_p += sign * (by_p + by_rho * rho_by_p);
        sum->by_t += sign * by_rho * rho_by_t;
    }
}

static double air_gap(double p, double *slope, void *context)
{
    balance *b = context;
    const double dt = b->step->dt;
    exchange(b, p);
    *slope = b->air.by_p + dt * (b->out.by_p * b->share.v + b->out.v * b->share.by_p - b->drawn.by_p);
    b->air_slope = *slope;
    return b->air.v - b->room->air + dt * (b->out.v * b->share.v - b->drawn.v);
}

/* How the pressure follows the temperature where the air balances. */
static double pressure_by_t(const balance *b, double by_p)
{
    const double dt = b->step->dt;
    return -(b->air.by_t + dt * (b->out.by_t * b->share.v + b->out.v * b->share.by_t - b->drawn.by_t)) / by_p;
}

/* Along the line on which air balances. */
static double along(const slopes *s, double p_by_t)
{
    return s->by_t + s->by_p * p_by_t;
}

typedef struct {
    balance b;
    fv_room_trial *trial;
    double gap, slope; /* J, J/K, of the last trial */
    double p_by_t;     /* Pa/K there; 0: no trial yet */
} heat_search;

/* Vapour at t of which there is only a share of what saturation holds. */
static void vapour_at(const fv_sat *sat, double t, double humidity, fv_sat_at_t_point *at)
{
    fv_sat_at_t(sat, t, at);
    at->p *= humidity;
    at->dp_dt *= humidity;
    at->rho_g *= humidity;
    at->drho_g_dt *= humidity;
}

static double heat_gap(double t, double *slope, void *context)
{
    heat_search *search = context;
    balance *b = &search->b;
    const fv_room *room = b->room;
    const fv_room_step *step = b->step;
    fv_room_trial *r = search->trial;
    const double guess = r->pressure + search->p_by_t * (t - r->t), dt = step->dt;
    double p, by_p;
    b->t = t;
    vapour_at(room->sat, t, b->humidity, &b->sat);
    /* never below the vapour's own pressure */
    if (fv_root_rising(air_gap, b, guess, b->sat.p - step->site_pressure, PRESSURE_MOST, PRESSURE_TOLERANCE, &p) !=
        FV_OK)
        return NAN;
    by_p = b->air_slope;
    const double latent = b->sat.h_g - b->sat.h_f, latent_by_t = b->sat.dh_g_dt - b->sat.dh_f_dt;
    const double stored = b->sat.rho_g * room->volume - b->vapour_before, air = b->air.v, drawn = b->drawn.v;
    const double vented = b->out.v * (1 - b->share.v), p_by_t = search->p_by_t = pressure_by_t(b, by_p);
    *r = (fv_room_trial){.t = t,
                         .pressure = p,
                         .air = air,
                         .out = b->out.v,
                         .drawn = drawn,
                         .vented = vented,
                         .heat_load = room->load_a + room->load_b * t,
                         .heat_walls = room->walls_a + room->walls_b * t,
                         .heat_shell = room->shell * (t - room->t_shell),
                         .heat_vented = vented * dt * latent,
                         .heat_air = drawn * dt * CP_AIR * (t - step->t_air),
                         .heat_gas = stored * latent + air * CP_AIR * (t - room->t),
                         .condensate = (step->steam - vented) * dt - stored,
                         .h_f = b->sat.h_f,
                         .humidity = b->humidity,
                         .through = NAN};
    const double vented_by_t = along(&b->out, p_by_t) * (1 - b->share.v) - b->out.v * along(&b->share, p_by_t);
    *slope = room->load_b + room->walls_b + room->shell + dt * (vented_by_t * latent + vented * latent_by_t) +
             dt * CP_AIR * (along(&b->drawn, p_by_t) * (t - step->t_air) + drawn) +
             b->sat.drho_g_dt * room->volume * latent + stored * latent_by_t +
             CP_AIR * (along(&b->air, p_by_t) * (t - room->t) + air) + step->steam * dt * b->sat.dh_f_dt;
    search->slope = *slope;
    search->gap = r->heat_load + r->heat_walls + r->heat_shell + r->heat_vented + r->heat_air + r->heat_gas -
                  step->steam * dt * (step->enthalpy - b->sat.h_f);
    return search->gap;
}

/* In a full chamber with wide openings the last digits of the temperature are felt as a draught. What they leave of the
 * gap is put to the vapour that leaves, mostly a millionth of it, so that the books close. */
static void close_gap(const heat_search *search)
{
    fv_room_trial *r = search->trial;
    const double latent = search->b.sat.h_g - search->b.sat.h_f, dt = search->b.step->dt;
    const double wanted = search->gap / (latent * dt), change = fmin(wanted, r->vented);
    const double digits = 2 * TEMPERATURE_TOLERANCE * search->slope / (latent * dt);
    if (!(fabs(wanted) < fmax(digits, CLOSES_ALWAYS)))
        return;
    r->vented -= change;
    r->heat_vented -= change * latent * dt;
    r->condensate += change * dt;
}

static fv_status solve_at(const fv_room *room, const fv_room_step *step, double humidity, const fv_room_trial *guess,
                          fv_room_trial *found)
{
    fv_sat_at_t_point before;
    vapour_at(room->sat, room->t, room->humidity, &before);
    heat_search search = {.b = {.room = room,
                                .step = step,
                                .humidity = humidity,
                                .rho_outside = fv_air_density(step->site_pressure, step->t_air),
                                .vapour_before = before.rho_g * room->volume},
                          .trial = found};
    const double start = guess->t;
    found->pressure = guess->pressure;
    double t;
    if (fv_root_rising(heat_gap, &search, start, COLDEST, HOTTEST, TEMPERATURE_TOLERANCE, &t) != FV_OK)
        return FV_FAIL;
    close_gap(&search);
    return FV_OK;
}

typedef struct {
    const fv_room *room;
    const fv_room_step *step;
    fv_room_trial *found;
    double before, missing_before, slope; /* of the last trial; NaN: none */
} humidity_search;

/* Water that would be missing, kg: rises with the humidity. The slope is that to a point beside it, then that between
 * the last two. */
static double water_missing(double humidity, double *slope, void *context)
{
    humidity_search *search = context;
    const double beside = humidity > 0.5 ? -HUMIDITY_BESIDE : HUMIDITY_BESIDE;
    if (solve_at(search->room, search->step, humidity, search->found, search->found) != FV_OK)
        return NAN;
    const double missing = -(search->room->film + search->found->condensate);
    if (!isnan(search->before) && humidity != search->before) {
        search->slope = (missing - search->missing_before) / (humidity - search->before);
    } else {
        fv_room_trial other = *search->found;
        if (solve_at(search->room, search->step, humidity + beside, search->found, &other) != FV_OK)
            return NAN;
        search->slope = (search->found->condensate - other.condensate) / beside;
    }
    search->before = humidity;
    search->missing_before = missing;
    *slope = search->slope;
    return missing;
}

fv_status fv_room_solve(const fv_room *room, const fv_room_step *step, const fv_room_trial *guess, fv_room_trial *found)
{
    const bool dry = !(step->steam > 0) && room->film == 0 && room->humidity < 1;
    if (!dry) {
        if (solve_at(room, step, 1, guess, found) != FV_OK)
            return FV_FAIL;
        if (step->steam > 0 || room->film + found->condensate >= 0)
            return FV_OK;
    } else {
        found->t = guess->t;
        found->pressure = guess->pressure;
    }
    humidity_search search = {.room = room, .step = step, .found = found, .before = NAN};
    double humidity;
    return fv_root_rising(water_missing, &search, room->humidity, 0, 1, HUMIDITY_TOLERANCE, &humidity);
}
