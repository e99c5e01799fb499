/* SPDX-License-Identifier: MIT */
/* The balances of a chamber over a step, for a given temperature t of its gas at the end:
 *
 *   air      m_a1 = m_a0 e^-n + stretch dt drawn (1 - e^-n)/n,    m_a1 = (p_site + dp - p_sat(t)) V / (R_air t)
 *   vapour   m_v1 - m_v0 = dt (steam - vented) - condensate,    m_v1 = rho_g(t) V
 *   heat     dt steam (h_v - h_f) = load + walls + shell + (vapour out and stored) (h_g - h_f) + air drawn in, warmed
 *            + air stored, warmed; enthalpies are means over the step, load and walls answer to the mean temperature
 *
 * The chamber stays saturated only as long as steam or the water that clings to load and walls keeps it so. Where dry
 * air takes up more, the humidity falls below one: p_sat and rho_g are then that share of saturation, found so that no
 * more evaporates than there is. Steam that is superheated by its throttling is quenched by the condensate it meets.
 *
 * N is how many times over the openings let the chamber's volume out in the step, n = stretch N what of it goes while
 * the gas is followed (chamber.c: all, unless load and walls hold the temperature). A well-mixed chamber is rid of its
 * air as e^-n exactly, however the gas grows lighter on the way; and what goes exponentially from x0 to x1 has on its
 * way out the mean x0 + w (x1 - x0), n w = n/(1 - e^-n) - 1: half of each in a short step, x1 in a long one. The
 * vapour, which fills the space that the air leaves, goes with it, so that dt vented = N m_v0 + N w (m_v1 - m_v0).
 *
 * Where an opening lets out more or less air than the mean (ventilation effectiveness), its flow counts for the air
 * e_j = y_j/y times and for the vapour (1 - y_j)/(1 - y) times, y the air's share by mass when the step begins.
 *
 * The first gives the pressure dp, the last the gap that must vanish; both rise all the way with their unknown, and
 * their slopes are exact, so that a few steps of Newton's do. */
#include "heatup/chamber.h"
#include "farvessel/constants.h"
#include "num/root.h"

#include <math.h>

static const double PRESSURE_TOLERANCE = 1e-11;    /* Pa */
static const double PRESSURE_MOST = 1e8;           /* Pa */
static const double TEMPERATURE_TOLERANCE = 1e-11; /* K */
static const double CLOSES_ALWAYS = 1e-8;          /* kg/s */
static const double SHORT = 1e-4;                  /* volumes: below, the exponential's series serves */
static const double HUMIDITY_TOLERANCE = 1e-11;
static const double HUMIDITY_BESIDE = 1e-5;
static const double ROUNDING = 1e-9; /* of the vapour: what digits leave of a chamber that only just stays wet */
static const double COLDEST = 150, HOTTEST = 480; /* K, where a chamber is looked for */

/* A quantity and how it changes with pressure and temperature. */
typedef struct {
    double v, by_p, by_t;
} slopes;

/* What volumes that go out leave, and its slopes. */
typedef struct {
    double old, old_by_n;     /* share still there of what was there */
    double fresh, fresh_by_n; /* of what came in evenly meanwhile */
    double late, late_by_n;   /* volumes x weight of the end in the mean of what goes */
} washout;

/* The gas is followed over `stretch` of the step, in which n = stretch x swept volumes go. What goes has the mean
 * composition of the way; in the share in which load and walls hold the temperature that of its end, the step's middle.
 */
static washout wash(double swept, double stretch, double stretch_in, double held)
{
    const double n = stretch * swept, old = exp(-n), free = 1 - held;
    const bool brief = n < SHORT;
    const double fresh = brief ? 1 - n / 2 + n * n / 6 : -expm1(-n) / n;
    const double fresh_by_n = brief ? n / 3 - 0.5 : (old - fresh) / n;
    const double late = brief ? n / 2 + n * n / 12 : 1 / fresh - 1, late_by_n = -fresh_by_n / (fresh * fresh);
    return (washout){.old = old,
                     .old_by_n = -stretch * old,
                     .fresh = stretch_in * fresh,
                     .fresh_by_n = stretch_in * stretch * fresh_by_n,
                     .late = free * late / stretch + held * swept,
                     .late_by_n = free * late_by_n + held};
}

typedef struct {
    const heatup_chamber *chamber;
    const heatup_chamber_step *step;
    double rho_outside, vapour_before;
    const fv_sat_at_t_point *before; /* the vapour at the start of the step */
    double t, humidity;
    fv_sat_at_t_point sat;           /* of the vapour that is there */
    double share;                    /* of air by mass in the gas when the step begins */
    slopes air, swept, out, drawn;   /* kg; N; kg/s: as far as it takes air along */
    slopes vapour_swept, vapour_out; /* the same, as far as it takes vapour along */
    washout wash;
    double air_slope; /* of the air's balance, kg/Pa */
} balance;

/* How much air, and how much vapour, an opening lets out for each that a mean one would. */
static void weigh_opening(double purge, double share, double *air, double *vapour)
{
    const double there = steady_purged_share(purge, share);
    *air = *vapour = 1;
    if (purge == 1)
        return;
    *air = share > 0 ? there / share : purge;
    *vapour = share < 1 ? (1 - there) / (1 - share) : 1 / purge;
}

static slopes sweep(const balance *b, const slopes *out, double gas, double vapour_by_t)
{
    const double times = b->step->dt / gas, swept = out->v * times;
    return (slopes){swept, times * out->by_p - swept * b->air.by_p / gas,
                    times * out->by_t - swept * (b->air.by_t + vapour_by_t) / gas};
}

static void add_flow(slopes *sum, double weight, double m, double by_p, double by_t)
{
    sum->v += weight * m;
    sum->by_p += weight * by_p;
    sum->by_t += weight * by_t;
}

/* Gas in the chamber at pressure p, and what its openings pass. */
static void exchange(balance *b, double p)
{
    const heatup_chamber *chamber = b->chamber;
    const double storage = chamber->volume / (FV_GAS_CONSTANT_AIR * b->t), vapour = b->sat.rho_g * chamber->volume;
    const double vapour_by_t = b->sat.drho_g_dt * chamber->volume;
    const double air = fmax(0, (b->step->site_pressure + p - b->sat.p) * storage), gas = air + vapour;
    b->air = (slopes){air, storage, -b->sat.dp_dt * storage - air / b->t};
    const double rho = gas / chamber->volume;
    const double rho_by_p = storage / chamber->volume, rho_by_t = (b->air.by_t + vapour_by_t) / chamber->volume;
    b->out = b->vapour_out = b->drawn = (slopes){0, 0, 0};
    for (int j = 0; j < chamber->opening_count; j++) {
        const steady_net_opening *o = &chamber->openings[j];
        double by_p;
        const double m = steady_opening_flow(o, b->step->site_pressure, b->rho_outside, rho, p, &by_p);
        const double by_rho = (m > 0 ? 0.5 * m / rho : 0) - by_p * FV_GRAVITY * o->height;
        const double along_p = by_p + by_rho * rho_by_p, along_t = by_rho * rho_by_t;
        double of_air, of_vapour, by_m;
        weigh_opening(o->purge, b->share, &of_air, &of_vapour);
        if (m <= 0) {
            add_flow(&b->drawn, -1, m, along_p, along_t);
        } else {
            add_flow(&b->out, of_air, m, along_p, along_t);
            add_flow(&b->vapour_out, of_vapour, m, along_p, along_t);
        }
        double by_gas;
        const double both = steady_opening_exchange(o, b->rho_outside, rho, m, &by_m, &by_gas);
        if (!(both > 0))
            continue;
        const double both_by_p = by_m * along_p + by_gas * rho_by_p, both_by_t = by_m * along_t + by_gas * rho_by_t;
        const double gas_by_p = rho * both_by_p + both * rho_by_p, gas_by_t = rho * both_by_t + both * rho_by_t;
        add_flow(&b->out, of_air, rho * both, gas_by_p, gas_by_t);
        add_flow(&b->vapour_out, of_vapour, rho * both, gas_by_p, gas_by_t);
        add_flow(&b->drawn, b->rho_outside, both, both_by_p, both_by_t);
    }
    b->swept = sweep(b, &b->out, gas, vapour_by_t);
    b->vapour_swept = sweep(b, &b->vapour_out, gas, vapour_by_t);
}

double heatup_chamber_late(double n)
{
    return n > 0 ? wash(n, 1, 1, 0).late / n : 0.5;
}

/* How the air's balance changes with the pressure, or with the temperature. */
static double air_gap_by(const balance *b, double air_by, double swept_by, double drawn_by)
{
    const double dt = b->step->dt;
    const washout *w = &b->wash;
    return air_by - (b->chamber->air * w->old_by_n + dt * b->drawn.v * w->fresh_by_n) * swept_by -
           dt * drawn_by * w->fresh;
}

static double air_gap(double p, double *slope, void *context)
{
    balance *b = context;
    exchange(b, p);
    b->wash = wash(b->swept.v, b->chamber->stretch, b->chamber->stretch_in, b->chamber->held);
    *slope = b->air_slope = air_gap_by(b, b->air.by_p, b->swept.by_p, b->drawn.by_p);
    return b->air.v - b->chamber->air * b->wash.old - b->step->dt * b->drawn.v * b->wash.fresh;
}

/* How the pressure follows the temperature where the air balances. */
static double pressure_by_t(const balance *b)
{
    return -air_gap_by(b, b->air.by_t, b->swept.by_t, b->drawn.by_t) / b->air_slope;
}

/* Along the line on which air balances. */
static double along(const slopes *s, double p_by_t)
{
    return s->by_t + s->by_p * p_by_t;
}

typedef struct {
    balance b;
    heatup_chamber_trial *trial;
    double gap, slope, latent; /* J, J/K, J/kg, of the last trial */
    double p_by_t;             /* Pa/K there; 0: no trial yet */
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

/* Means over the step, and how they change with the temperature at its end. */
typedef struct {
    double t, h_f, latent, air;
    double h_f_by_t, latent_by_t, air_by_t;
} means;

static means mean_of(const balance *b, double p_by_t)
{
    const heatup_chamber *chamber = b->chamber;
    const fv_sat_at_t_point *from = b->before, *to = &b->sat;
    const double late = chamber->late, early = 1 - late;
    return (means){.t = early * chamber->t_end + late * b->t,
                   .h_f = early * from->h_f + late * to->h_f,
                   .latent = early * (from->h_g - from->h_f) + late * (to->h_g - to->h_f),
                   .air = early * chamber->air + late * b->air.v,
                   .h_f_by_t = late * to->dh_f_dt,
                   .latent_by_t = late * (to->dh_g_dt - to->dh_f_dt),
                   .air_by_t = late * along(&b->air, p_by_t)};
}

/* Of all that does not feel the mean temperature. */
static double gas_slope(const balance *b, const washout *w, const means *m, double vented, double p_by_t)
{
    const heatup_chamber *chamber = b->chamber;
    const double vapour_by_t = b->sat.drho_g_dt * chamber->volume,
                 stored = b->sat.rho_g * chamber->volume - b->vapour_before;
    const double vented_by_t =
        (b->vapour_before + w->late_by_n * stored) * along(&b->vapour_swept, p_by_t) + w->late * vapour_by_t;
    const double drawn_by_t = along(&b->drawn, p_by_t) * (b->t - b->step->t_air) + b->drawn.v;
    return chamber->shell + (vented_by_t + vapour_by_t) * m->latent + (vented + stored) * m->latent_by_t +
           FV_CP_AIR * (b->step->dt * drawn_by_t + m->air_by_t * (b->t - chamber->t_end) + m->air) +
           b->step->steam * b->step->dt * m->h_f_by_t;
}

/* t is that of the gas at the end of the step; load and walls meet the mean over it. */
static double heat_gap(double t, double *slope, void *context)
{
    heat_search *search = context;
    balance *b = &search->b;
    const heatup_chamber *chamber = b->chamber;
    const heatup_chamber_step *step = b->step;
    heatup_chamber_trial *r = search->trial;
    const double guess = r->pressure + search->p_by_t * (t - r->t_end), brought = step->steam * step->dt;
    double p;
    b->t = t;
    vapour_at(chamber->sat, t, b->humidity, &b->sat);
    /* never below the vapour's own pressure */
    if (num_root_rising(air_gap, b, guess, b->sat.p - step->site_pressure, PRESSURE_MOST, PRESSURE_TOLERANCE, &p) !=
        FV_OK)
        return NAN;
    search->p_by_t = pressure_by_t(b);
    const means m = mean_of(b, search->p_by_t);
    const double vapour = b->sat.rho_g * chamber->volume, stored = vapour - b->vapour_before;
    const double drawn = b->drawn.v * step->dt;
    const washout w = b->vapour_swept.v == b->swept.v
                          ? b->wash
                          : wash(b->vapour_swept.v, chamber->stretch, chamber->stretch_in, chamber->held);
    const double vented = b->vapour_swept.v * b->vapour_before + w.late * stored;
    *r = (heatup_chamber_trial){.t = m.t,
                                .t_end = t,
                                .pressure = p,
                                .air = b->air.v,
                                .vapour = vapour,
                                .drawn = b->drawn.v,
                                .swept = b->swept.v,
                                .vented = vented / step->dt,
                                .heat_load = chamber->load_a + chamber->load_b * m.t,
                                .heat_walls = chamber->walls_a + chamber->walls_b * m.t,
                                .heat_shell = chamber->shell * (t - chamber->t_shell),
                                .heat_vented = vented * m.latent,
                                .heat_air = drawn * FV_CP_AIR * (t - step->t_air),
                                .heat_gas = stored * m.latent + m.air * FV_CP_AIR * (t - chamber->t_end),
                                .condensate = brought - vented - stored,
                                .quench = brought * fmax(0, (step->enthalpy - m.h_f) / m.latent - 1),
                                .h_f = m.h_f,
                                .humidity = b->humidity,
                                .gas_by_t = gas_slope(b, &w, &m, vented, search->p_by_t),
                                .through = NAN};
    *slope = search->slope = r->gas_by_t + chamber->late * (chamber->load_b + chamber->walls_b);
    search->latent = m.latent;
    search->gap = r->heat_load + r->heat_walls + r->heat_shell + r->heat_vented + r->heat_air + r->heat_gas -
                  brought * (step->enthalpy - m.h_f);
    return search->gap;
}

/* In a full chamber with wide openings the last digits of the temperature act as a draught. What they leave of the
 * gap is put to the vapour that leaves, mostly a millionth of it, so that the books close. */
static void close_gap(const heat_search *search)
{
    heatup_chamber_trial *r = search->trial;
    const double latent = search->latent, dt = search->b.step->dt;
    const double wanted = search->gap / (latent * dt), change = fmin(wanted, r->vented);
    const double digits = 2 * TEMPERATURE_TOLERANCE * search->slope / (latent * dt);
    if (!(fabs(wanted) < fmax(digits, CLOSES_ALWAYS)))
        return;
    r->vented -= change;
    r->heat_vented -= change * latent * dt;
    r->condensate += change * dt;
}

static fv_status solve_at(const heatup_chamber *chamber, const heatup_chamber_step *step, double humidity,
                          const heatup_chamber_trial *guess, heatup_chamber_trial *found)
{
    fv_sat_at_t_point before;
    vapour_at(chamber->sat, chamber->t_end, chamber->humidity, &before);
    const double vapour_before = before.rho_g * chamber->volume;
    heat_search search = {.b = {.chamber = chamber,
                                .step = step,
                                .humidity = humidity,
                                .rho_outside = fv_air_density(step->site_pressure, step->t_air),
                                .vapour_before = vapour_before,
                                .share = chamber->air / (chamber->air + vapour_before),
                                .before = &before},
                          .trial = found};
    const double start = found->t_end = guess->t_end;
    found->pressure = guess->pressure;
    double t;
    if (num_root_rising(heat_gap, &search, start, COLDEST, HOTTEST, TEMPERATURE_TOLERANCE, &t) != FV_OK)
        return FV_FAIL;
    close_gap(&search);
    return FV_OK;
}

/* Superheat with no water left to quench it goes out with the steam: as much less vapour is vented, with the same heat.
 */
static void vent_superheat(const heatup_chamber *chamber, const heatup_chamber_step *step, heatup_chamber_trial *found)
{
    const double missing = fmin(-(chamber->film + found->condensate), found->quench);
    if (!(missing > 0))
        return;
    found->vented -= missing / step->dt;
    found->condensate += missing;
}

/* Water that is not there and would have to evaporate, kg. */
static double water_lacking(const heatup_chamber *chamber, const heatup_chamber_trial *found)
{
    return -(chamber->film + found->condensate + found->quench);
}

typedef struct {
    const heatup_chamber *chamber;
    const heatup_chamber_step *step;
    heatup_chamber_trial *found;
    double before, missing_before, slope; /* of the last trial; NaN: none */
} humidity_search;

/* Water that would be missing, kg: rises with the humidity. The slope is that to a point beside it, then that between
 * the last two. */
static double water_missing(double humidity, double *slope, void *context)
{
    humidity_search *search = context;
    const double beside = humidity > 0.5 ? -HUMIDITY_BESIDE : HUMIDITY_BESIDE;
    if (solve_at(search->chamber, search->step, humidity, search->found, search->found) != FV_OK)
        return NAN;
    const double missing = water_lacking(search->chamber, search->found);
    if (!isnan(search->before) && humidity != search->before) {
        search->slope = (missing - search->missing_before) / (humidity - search->before);
    } else {
        heatup_chamber_trial other = *search->found;
        if (solve_at(search->chamber, search->step, humidity + beside, search->found, &other) != FV_OK)
            return NAN;
        search->slope = (water_lacking(search->chamber, &other) - missing) / beside;
    }
    search->before = humidity;
    search->missing_before = missing;
    *slope = search->slope;
    return missing;
}

fv_status heatup_chamber_solve(const heatup_chamber *chamber, const heatup_chamber_step *step,
                               const heatup_chamber_trial *guess, heatup_chamber_trial *found)
{
    const bool dry = chamber->film == 0 && chamber->humidity < 1;
    if (!dry) {
        if (solve_at(chamber, step, 1, guess, found) != FV_OK)
            return FV_FAIL;
        if (!(water_lacking(chamber, found) > ROUNDING * (step->steam * step->dt + found->vapour))) {
            vent_superheat(chamber, step, found);
            return FV_OK;
        }
    } else {
        found->t_end = guess->t_end;
        found->pressure = guess->pressure;
    }
    humidity_search search = {.chamber = chamber, .step = step, .found = found, .before = NAN};
    double humidity;
    if (num_root_rising(water_missing, &search, chamber->humidity, 0, 1, HUMIDITY_TOLERANCE, &humidity) == FV_FAIL)
        return FV_FAIL;
    vent_superheat(chamber, step, found);
    return FV_OK;
}
