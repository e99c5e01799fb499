/* SPDX-License-Identifier: MIT */
/* A vessel over a step: what its pieces answer, the balance with a melting load, water. */
#include "heatup/chamber.h"
#include "farvessel/constants.h"

#include <math.h>

enum { THAW_ROUNDS = 12 };
static const double WATER_DENSITY = 960.0; /* kg/m3 near boiling */
static const double CONVERGED = 1e-4;      /* K between two iterates: the error left is second order */
static const double GUESS_MOST = 2;        /* K from where the chamber is */
static const double GROWS_MOST = 1.5;      /* from step to step */
static const double STRETCH_MOST = 2;
static const double FREEZES = 274.15; /* K of a chamber: below it water in pieces may */

static fv_status ask_load(heatup_chamber *chamber, double dt, double guess)
{
    if (chamber->bed)
        return FV_OK; /* with its walls (chamber_bed.c) */
    chamber->load_a = chamber->load_b = 0;
    if (!chamber->body)
        return FV_OK;
    const fv_status status =
        heatup_body_probe_held(chamber->body, dt, guess, chamber->steaming, &chamber->load_a, &chamber->load_b);
    chamber->load_a *= chamber->pieces;
    chamber->load_b *= chamber->pieces;
    return status;
}

/* What a chamber's rise costs: load and walls, by all that they took for their rise so far, or by what they answer to
 * the coming step; beside the gas. One that cools follows its load. */
static double share_held(const heatup_chamber *chamber)
{
    const double rise = fabs(chamber->t - chamber->t_start), answers = chamber->load_b + chamber->walls_b;
    const double took = rise > 0 ? fmax(answers, fabs(chamber->gave) / rise) : answers;
    return !(took > 0) ? 0 : chamber->steaming ? took / (took + fmax(0, chamber->gas_by_t)) : 1;
}

static double within(double ratio, double most)
{
    return fmax(1 / most, fmin(most, ratio));
}

/* The gas is followed from the moment that it was found for to the one that it will be found for. What then goes out,
 * or comes in, stands for the whole step, whose middle is later where load and walls hold the temperature: at a rate as
 * much higher as it grew of late. */
static double stretch(const heatup_chamber *chamber, double dt, double rate, double rate_before)
{
    if (!chamber->steaming || !(chamber->dt > 0))
        return 1;
    const double followed = chamber->behind + dt - heatup_chamber_behind(chamber, dt);
    double grew = 1;
    if (rate > 0 && rate_before > 0)
        grew = pow(rate / rate_before, dt / (chamber->dt + chamber->dt_before));
    const double grows = 1 + chamber->held * (within(grew, GROWS_MOST) - 1);
    return within(followed / (dt * grows), STRETCH_MOST);
}

/* Where the chamber sets its own temperature, the mean over a step is that of its ends, or nearer the second if most of
 * its gas goes meanwhile. Where load and walls do, they hold it at the mean, and gas is at the mean too. */
static void weigh(heatup_chamber *chamber, double dt)
{
    chamber->held = share_held(chamber);
    chamber->late = fmax(0.5 * (1 + chamber->held), heatup_chamber_late(chamber->rate * dt));
    chamber->stretch = stretch(chamber, dt, chamber->rate, chamber->rate_before);
    chamber->stretch_in = stretch(chamber, dt, chamber->draws, chamber->drew_before);
}

fv_status heatup_chamber_prepare(heatup_chamber *chamber, const heatup_chamber_step *step)
{
    const bool steaming = step->steam > 0;
    if (chamber->prepared == step->dt && chamber->steaming == steaming)
        return FV_OK;
    chamber->prepared = NAN;
    chamber->steaming = steaming;
    if (!chamber->in_open && heatup_walls_prepare(chamber, step) == FV_FAIL)
        return FV_FAIL;
    const double goes_on = fmax(-GUESS_MOST, fmin(GUESS_MOST, chamber->trend * step->dt));
    if (ask_load(chamber, step->dt, chamber->t + goes_on) == FV_FAIL)
        return FV_FAIL;
    weigh(chamber, step->dt);
    chamber->prepared = step->dt;
    return FV_OK;
}

fv_status heatup_chamber_balance(heatup_chamber *chamber, const heatup_chamber_step *step, heatup_chamber_trial *found)
{
    if (chamber->in_open) {
        heatup_chamber_in_open(chamber, step, found);
        return FV_OK;
    }
    const double wants = step->steam > 0 ? heatup_chamber_bed_wants(chamber, step->site_pressure) : 0;
    if (wants > 0)
        return heatup_bed_balance(chamber, step, found);
    if (heatup_chamber_solve(chamber, step, found, found) != FV_OK)
        return FV_FAIL;
    if (chamber->bed) {
        heatup_bed_book_walls(chamber, found);
        return FV_OK;
    }
    /* What melts does not answer in a straight line: ask again about the temperature found. */
    const bool linear = !chamber->body || (heatup_body_is_linear(chamber->body) && found->t > FREEZES);
    for (int i = 0; i < THAW_ROUNDS && !linear; i++) {
        const double before = found->t;
        if (ask_load(chamber, step->dt, before) == FV_FAIL ||
            heatup_chamber_solve(chamber, step, found, found) != FV_OK)
            return FV_FAIL;
        if (fabs(found->t - before) < CONVERGED)
            break;
    }
    return FV_OK;
}

/* Of what condenses a film clings; it evaporates first when the steam is off. What condensed in a bed is at hand once
 * its front is through, or the bed cools as a whole. */
static void wet_surfaces(heatup_chamber *chamber, double clings, double in_bed)
{
    chamber->film = fmax(0, fmin(chamber->film_most, chamber->film + clings));
    chamber->in_bed += in_bed;
    if (chamber->bed && heatup_bed_phase_of(chamber->bed) != HEATUP_BED_CLIMBING) {
        chamber->film += chamber->in_bed;
        chamber->in_bed = 0;
    }
}

void heatup_chamber_shut(heatup_chamber *chamber)
{
    if (chamber->bed)
        heatup_bed_begin_cooling(chamber->bed);
    wet_surfaces(chamber, 0, 0);
    chamber->prepared = NAN;
}

/* Condensate gathers on the sump's floor; the lowest opening lets it out by its own head, solved with the depth at the
 * end of the step. */
static void fill_sump(heatup_chamber *chamber, const heatup_chamber_step *step, double condensate)
{
    const fv_vessel *v = chamber->vessel;
    if (!fv_is_set(v->sump_area))
        return;
    const double area = v->sump_area.v, came = condensate * (1 - chamber->soaks) + step->water * step->dt;
    double lip = INFINITY, drain = 0;
    for (int j = 0; j < chamber->opening_count; j++)
        lip = fmin(lip, fmax(0, chamber->openings[j].height));
    for (int j = 0; j < chamber->opening_count; j++)
        if (chamber->openings[j].height <= lip)
            drain += chamber->openings[j].cd_area;
    /* up to the lowest opening water stands; with e above it: area e + dt drain sqrt(2 g e) = what is there and what
     * came less what stands, a quadratic in sqrt(e) */
    const double volume = fmax(0, (chamber->sump + came) / WATER_DENSITY), over = fmax(0, volume - area * lip),
                 pull = step->dt * drain * sqrt(2 * FV_GRAVITY);
    const double root = (-pull + sqrt(pull * pull + 4 * area * over)) / (2 * area);
    const double depth = over > 0 ? lip + root * root : volume / area;
    chamber->sump = depth * area * WATER_DENSITY;
    chamber->depth = fv_or(v->water, 0) + depth;
}

fv_status heatup_chamber_advance(heatup_chamber *chamber, const heatup_chamber_step *step,
                                 const heatup_chamber_trial *found)
{
    fv_status status = FV_OK;
    if (chamber->bed) {
        heatup_bed_take_step(chamber, step, found);
        if (heatup_bed_is_left(chamber))
            heatup_chamber_shut(chamber);
    } else if (chamber->body) {
        status = heatup_body_advance(chamber->body, step->dt, found->t, found->t, chamber->steaming);
        if (status != FV_FAIL && heatup_body_settle(chamber->body) == FV_FAIL)
            status = FV_FAIL;
    }
    const double in_walls = heatup_chamber_of_walls(chamber, heatup_wall_heat_water);
    if (!chamber->in_open && heatup_walls_advance(chamber, step, found) == FV_FAIL)
        status = FV_FAIL;
    const double on_surfaces =
        found->condensate - (heatup_chamber_of_walls(chamber, heatup_wall_heat_water) - in_walls);
    wet_surfaces(chamber, on_surfaces - found->in_bed, found->in_bed);
    fill_sump(chamber, step, fmax(0, on_surfaces));
    heatup_chamber_cover_coil(chamber);
    chamber->humidity = found->humidity;
    chamber->trend = (found->t - chamber->t) / step->dt;
    chamber->gave += chamber->load_a + chamber->walls_a + (chamber->load_b + chamber->walls_b) * found->t;
    chamber->gas_by_t = found->gas_by_t;
    chamber->behind = heatup_chamber_behind(chamber, step->dt);
    chamber->dt_before = chamber->dt;
    chamber->rate_before = chamber->rate;
    chamber->dt = step->dt;
    chamber->rate = found->swept / step->dt;
    chamber->drew_before = chamber->draws;
    chamber->draws = found->drawn;
    chamber->t = found->t;
    chamber->t_end = chamber->t_shell = found->t_end;
    chamber->pressure = found->pressure;
    chamber->air = found->air;
    chamber->prepared = NAN;
    return status;
}

double heatup_chamber_core(const heatup_chamber *chamber)
{
    return chamber->body ? heatup_body_core(chamber->body) : chamber->bed ? heatup_bed_core(chamber->bed) : chamber->t;
}

double heatup_chamber_hottest(const heatup_chamber *chamber)
{
    if (chamber->bed)
        return heatup_bed_hottest(chamber->bed);
    return chamber->body ? fmax(heatup_body_core(chamber->body), heatup_body_mean(chamber->body)) : chamber->t;
}

double heatup_chamber_mean(const heatup_chamber *chamber)
{
    return chamber->body ? heatup_body_mean(chamber->body) : chamber->bed ? heatup_bed_mean(chamber->bed) : chamber->t;
}

double heatup_chamber_depth(const heatup_chamber *chamber, double depth)
{
    return chamber->body ? heatup_body_at(chamber->body, depth) : (double)NAN;
}

double heatup_chamber_surface(const heatup_chamber *chamber)
{
    return chamber->body  ? heatup_body_surface_mean(chamber->body)
           : chamber->bed ? heatup_bed_top(chamber->bed)
                          : chamber->t;
}

double heatup_chamber_core_slope(const heatup_chamber *chamber, double t)
{
    return chamber->body ? heatup_body_core_slope(chamber->body, t, chamber->steaming) : NAN;
}

double heatup_chamber_core_after(const heatup_chamber *chamber, double part, double t)
{
    return chamber->body ? heatup_body_core_after(chamber->body, part, t, 0, chamber->steaming) : NAN;
}

double heatup_chamber_air_share(const heatup_chamber *chamber, double t, double pressure, double site_pressure)
{
    fv_sat_at_t_point at;
    fv_sat_at_t(chamber->sat, t, &at);
    return fmax(0, 1 - chamber->humidity * at.p / (site_pressure + pressure));
}

double heatup_chamber_boiling(const heatup_chamber *chamber, double site_pressure)
{
    return fv_sat_t(chamber->sat, site_pressure + chamber->pressure, NULL);
}
