/* SPDX-License-Identifier: MIT */
/* From the steam of one moment to the time that each core takes, without following the network.
 *
 * Each vessel gets the steam that it gets now. Its chamber, at one temperature T(t), is warmed by what the steam gives
 * less what load, walls, shell and gas take by then; all but the gas answer T(t) by Duhamel's sum over steps dT:
 *
 *     load    mass x heat per K x sum dT_j (1 - theta_mean(t - t_j))          core: sum dT_j (1 - theta(t - t_j))
 *     walls   stored x sum dT_j (1 - theta_mean) + loss x integral sum dT_j (1 - theta(outer face)), as a slab whose
 *             outer face lets nothing out, of the same first moment: Fo = t / (2 sum C_i R_i), R_i from the inside
 *     gas     steam sweeps it: moles in = n ln((1 - y_0)/(1 - y)), y the share of vapour at T, saturated
 *
 * up to where the chamber stands with this steam at last. A bed takes steam by its front: S = supplied/wanted, through
 * at S = front-factor. A vessel whose hold has ended leaves its steam to those that still heat where steam is scarce.
 * Frozen loads: by their mean heat per K, melting included.
 * Source: Duhamel's theorem, Carslaw & Jaeger, Conduction of Heat in Solids (1959), 1.14; theta: fv_heat_theta. */
#include "steady/predict.h"
#include "farvessel/heat.h"
#include "num/root.h"
#include "steady/need.h"
#include "steady/piece.h"

#include <math.h>
#include <stdlib.h>

enum { DRAUGHTS = 10 };
enum { STEPS_LEAST = 80, STEPS_MOST = 240, PARTS = 40 };
static const double SETTLED = 1e-9;   /* K */
static const double LOOKED = 4.0 / 3; /* of the longest allowed time */
static const double WATER = 4190;     /* J/kg/K: of water near 70 degC (IAPWS-IF97), condensate below boiling */
static const double MOLAR_GAS = 8.314462618, MOLAR_STEAM = 0.01801528; /* J/mol/K, kg/mol (CODATA 2018; IAPWS) */
static const double GONE = 1e-4;                                       /* theta that is none any more */

/* Answers to a step of 1 K, after (k + 1/2) dt. */
typedef struct {
    double *core, *takes;     /* 1; J/K by load and walls: taken by then */
    double *rise;             /* K: steps of the chamber's temperature as followed */
    double draught[DRAUGHTS]; /* W that air drawn in and gas that goes take, evenly from the air's temperature to
                                 boiling */
    double shell, t_start, wanted, mass_heat;
    double gas_room, log_air; /* mol K; ln of the air's share at the start */
    bool bed;
} answer;

typedef struct {
    double t, core, taken; /* K, K, J so far */
    double supplied;       /* J to a bed */
    double arrived;        /* s */
    bool done;
} follow;

struct steady_predictor {
    const fv_plant *plant;
    const fv_sat *sat;
    double site_pressure, t_boil, h_fg, dt;
    int steps;
    answer *vessels;
    follow *ways; /* by vessel, of the forecast under way */
    double *room;
};

static void load_answers(const fv_vessel *v, const fv_vessel_need *need, const steady_predictor *f, answer *a)
{
    steady_piece piece;
    steady_axis axes[3];
    const double heat = need->load_mass * need->load_specific_heat;
    if (a->bed || !(need->load_mass > 0) ||
        steady_piece_of(&v->load, need->load_mass, a->t_start, v->target.v, &piece) == FV_FAIL)
        return;
    const int count = steady_piece_axes(&v->load, &piece, axes);
    for (int k = 0; k < f->steps; k++)
        a->core[k] = a->takes[k] = 1;
    for (int i = 0; i < count; i++) {
        double fourier[STEPS_MOST], core[STEPS_MOST], mean[STEPS_MOST];
        const double conductivity = piece.conductivity * axes[i].along, size = axes[i].size;
        for (int k = 0; k < f->steps; k++)
            fourier[k] = conductivity * (k + 0.5) * f->dt / (piece.density * need->load_specific_heat * size * size);
        if (fv_heat_theta_all(axes[i].shape, piece.h_condensing * size / conductivity, fourier, (size_t)f->steps, core,
                              mean) == FV_FAIL)
            return;
        for (int k = 0; k < f->steps; k++) {
            a->core[k] *= core[k];
            a->takes[k] *= mean[k];
        }
    }
    for (int k = 0; k < f->steps; k++) {
        const bool gone = a->core[k] < GONE;
        a->core[k] = gone ? 1 : 1 - a->core[k];
        a->takes[k] = heat * (gone ? 1 : 1 - a->takes[k]);
    }
}

static void wall_answers(const fv_vessel_need *need, const steady_predictor *f, answer *a)
{
    const double rise = f->t_boil - f->plant->site.air.v, slow = 2 * fmax(need->wall_delay, 1e-3);
    double lost = 0, fourier[STEPS_MOST], outer[STEPS_MOST], mean[STEPS_MOST];
    for (int k = 0; k < f->steps; k++)
        fourier[k] = (k + 0.5) * f->dt / slow;
    if (!(rise > 0) || fv_heat_theta_all(FV_SLAB, INFINITY, fourier, (size_t)f->steps, outer, mean) == FV_FAIL)
        return;
    for (int k = 0; k < f->steps; k++) {
        const bool gone = outer[k] < GONE;
        lost += need->wall_loss * f->dt * (k > 0 ? 1 : 0.5) * (gone ? 1 : 1 - outer[k]);
        a->takes[k] += (need->walls * (gone ? 1 : 1 - mean[k]) + lost) / rise;
    }
}

static void draught_answers(const steady_holding *hold, const steady_predictor *f, answer *a)
{
    const double air = f->plant->site.air.v;
    fv_sat_point site;
    fv_sat_at(f->sat, f->site_pressure, &site);
    for (int n = 0; n < DRAUGHTS; n++) {
        const double t = air + (f->t_boil - 0.1 - air) * (n + 0.5) / (DRAUGHTS - 0.5);
        fv_sat_at_t_point at;
        double steam = 0;
        fv_sat_at_t(f->sat, t, &at);
        if (t > air && steady_hold_need(hold, t, site.h_g, &steam) == FV_OK)
            a->draught[n] = fmax(0, steam * (site.h_g - at.h_f) - steady_uptake(f->plant, hold->vessel, t));
    }
}

static double draught_at(const steady_predictor *f, const answer *a, double t, double *slope)
{
    const double air = f->plant->site.air.v, each = (DRAUGHTS - 0.5) / (f->t_boil - 0.1 - air);
    const double place = (t - air) * each - 0.5;
    *slope = 0;
    if (!(place > 0))
        return place > -0.5 ? a->draught[0] : 0;
    const int n = (int)fmin(place, DRAUGHTS - 2);
    const double more = a->draught[n + 1] - a->draught[n];
    *slope = place < DRAUGHTS - 1 ? each * more : 0;
    return a->draught[n] + (fmin(place, DRAUGHTS - 1) - n) * more;
}

/* Of a chamber at t, saturated, and its slope. */
static double vapour_share(const steady_predictor *f, double t, double *slope)
{
    fv_sat_at_t_point at;
    fv_sat_at_t(f->sat, t, &at);
    const double share = at.p / f->site_pressure, most = 1 - 1e-3;
    *slope = share < most ? at.dp_dt / f->site_pressure : 0;
    return fmin(share, most);
}

static bool make_answers(steady_predictor *f, const fv_vessel_need *needs, const steady_holding *holds)
{
    const size_t n = f->plant->vessel_count, steps = (size_t)f->steps;
    f->vessels = calloc(n + 1, sizeof *f->vessels);
    f->room = calloc(3 * (n + 1) * steps, sizeof *f->room);
    f->ways = calloc(n + 1, sizeof *f->ways);
    if (!f->vessels || !f->room || !f->ways)
        return false;
    for (size_t i = 0; i < n; i++) {
        const fv_vessel *v = f->plant->vessels[i];
        answer *a = &f->vessels[i];
        double *room = f->room + 3 * i * steps, slope;
        *a = (answer){.core = room, .takes = room + steps, .rise = room + 2 * steps};
        a->t_start = fv_or(v->load.start_temperature, f->plant->site.air.v);
        a->gas_room = f->site_pressure * v->volume.v / MOLAR_GAS;
        a->log_air = log(1 - vapour_share(f, a->t_start, &slope));
        a->bed = fv_word(v->load.form) == FV_FORM_BED && needs[i].load_mass > 0;
        a->shell = needs[i].shell / fmax(f->t_boil - f->plant->site.air.v, 1);
        a->mass_heat = needs[i].load_mass * needs[i].load_specific_heat;
        a->wanted = a->mass_heat * (f->t_boil - a->t_start);
        for (int k = 0; k < f->steps; k++)
            a->core[k] = 1;
        load_answers(v, &needs[i], f, a);
        wall_answers(&needs[i], f, a);
        draught_answers(&holds[i], f, a);
    }
    return true;
}

steady_predictor *steady_predictor_new(const fv_plant *plant, const fv_vessel_need *needs, const steady_holding *holds,
                                       const fv_sat *sat)
{
    steady_predictor *f = calloc(1, sizeof *f);
    double least = INFINITY, most = 0;
    if (!f)
        return NULL;
    fv_sat_point site;
    *f = (steady_predictor){.plant = plant, .sat = sat, .site_pressure = fv_site_pressure(&plant->site)};
    fv_sat_at(sat, f->site_pressure, &site);
    f->t_boil = site.t;
    f->h_fg = site.h_g - site.h_f;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        least = fmin(least, plant->vessels[i]->within.v);
        most = fmax(most, plant->vessels[i]->within.v);
    }
    const double wanted = plant->vessel_count > 0 ? LOOKED * most / (least / PARTS) : STEPS_LEAST;
    f->steps = (int)fmin(fmax(wanted, STEPS_LEAST), STEPS_MOST);
    f->dt = LOOKED * most / f->steps;
    if (make_answers(f, needs, holds))
        return f;
    steady_predictor_free(f);
    return NULL;
}

void steady_predictor_free(steady_predictor *f)
{
    if (!f)
        return;
    free(f->vessels);
    free(f->ways);
    free(f->room);
    free(f);
}

/* J that the gas has taken when the chamber is at t: steam that came for the air that went, and what went with it. */
static double gas_heat(const steady_predictor *f, const answer *a, double t, double *slope)
{
    *slope = 0;
    if (t <= a->t_start)
        return 0;
    double rises;
    const double share = vapour_share(f, t, &rises), each = a->gas_room / t * MOLAR_STEAM * f->h_fg;
    const double heat = each * (a->log_air - log(1 - share));
    *slope = each * rises / (1 - share) - heat / t;
    return heat;
}

/* One step of a chamber. */
typedef struct {
    const steady_predictor *f;
    const answer *a;
    double t_last, before, rate; /* K; J, and J/K that all but the gas take */
    double taken, given, water;  /* J; of that, by the steam; J/K of its condensate below boiling */
} step;

/* J that more is taken than comes at t. */
static double excess(double t, double *slope, void *context)
{
    const step *s = context;
    double by_gas, by_draught;
    const double gas = gas_heat(s->f, s->a, t, &by_gas), draught = draught_at(s->f, s->a, t, &by_draught) * s->f->dt;
    *slope = s->rate + by_gas + by_draught * s->f->dt + s->water;
    return s->before + s->rate * (t - s->t_last) + gas - s->taken + draught - s->given - s->water * (s->f->t_boil - t);
}

/* The temperature at which what comes is what is taken. */
static void step_chamber(const steady_predictor *f, size_t i, int k, double steam, const steady_fed *fed, follow *w)
{
    answer *a = &f->vessels[i];
    const double share = fed->steam > 0 ? steam / fed->steam : 0, wet = f->plant->vessels[i]->load.takes_condensate.v;
    step s = {.f = f,
              .a = a,
              .t_last = w->t,
              .before = a->shell * (w->t - a->t_start),
              .rate = a->shell + a->takes[0],
              .taken = w->taken,
              .given = share * fed->heat * f->dt,
              .water = (1 - wet) * steam * WATER * f->dt};
    double core = a->t_start, t = w->t, slope;
    for (int j = 0; j < k; j++) {
        s.before += a->rise[j] * a->takes[k - j];
        core += a->rise[j] * a->core[k - j];
    }
    if (num_root_rising(excess, &s, w->t + (k > 0 ? a->rise[k - 1] : 0), w->t,
                        fmax(w->t, share > 1 ? f->t_boil : fed->t_most), SETTLED, &t) == FV_FAIL)
        t = w->t;
    a->rise[k] = t - w->t;
    w->t = t;
    w->taken = s.before + s.rate * a->rise[k] + gas_heat(f, a, t, &slope);
    core += a->rise[k] * a->core[0];
    const double target = f->plant->vessels[i]->target.v;
    if (isinf(w->arrived) && core >= target)
        w->arrived = f->dt * (k + 1 - (core - target) / fmax(core - w->core, 1e-9));
    w->core = core;
}

static void step_bed(const steady_predictor *f, size_t i, int k, double steam, const steady_fed *fed, follow *w)
{
    const answer *a = &f->vessels[i];
    const double share = fed->steam > 0 ? steam / fed->steam : 0;
    const double comes = share * fed->heat * f->dt, through = f->plant->vessels[i]->load.front_factor.v * a->wanted;
    w->supplied += comes;
    if (isinf(w->arrived) && w->supplied >= through)
        w->arrived = f->dt * (k + 1 - (w->supplied - through) / fmax(comes, 1e-9));
}

/* What each gets of all steam where some have done. */
static double share_of(const steady_predictor *f, const steady_fed *fed, const follow *ways, bool scarce)
{
    double all = 0, left = 0;
    for (size_t i = 0; i < f->plant->vessel_count; i++) {
        all += fed[i].takes ? fed[i].steam : 0;
        left += fed[i].takes && !ways[i].done ? fed[i].steam : 0;
    }
    return scarce && left > 0 ? all / left : 1;
}

bool steady_predict(steady_predictor *f, const steady_fed *fed, double dry_after, bool scarce, double *took)
{
    const size_t n = f->plant->vessel_count;
    follow *ways = f->ways;
    bool any_done = false;
    for (size_t i = 0; i < n; i++)
        ways[i] = (follow){.t = f->vessels[i].t_start, .core = f->vessels[i].t_start, .arrived = INFINITY};
    for (int k = 0; k < f->steps && (k + 0.5) * f->dt < dry_after; k++) {
        const double share = share_of(f, fed, ways, scarce);
        for (size_t i = 0; i < n; i++) {
            if (!fed[i].heats || ways[i].done)
                continue;
            (f->vessels[i].bed ? step_bed : step_chamber)(f, i, k, share * fed[i].steam, &fed[i], &ways[i]);
            ways[i].done = (k + 1) * f->dt >= ways[i].arrived + f->plant->vessels[i]->hold.v;
            any_done = any_done || ways[i].done;
        }
    }
    for (size_t i = 0; i < n; i++)
        took[i] = fed[i].warming + ways[i].arrived;
    return any_done;
}
