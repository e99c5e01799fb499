/* SPDX-License-Identifier: MIT */
/* All the steam on one vessel. A freer vessel draws more steam, so the vent that would do is not that of the present
 * flow: the plant is solved with one after another until the pressure is right. Air that is drawn in meets no such
 * answer: Cd A sqrt(2 rho dp) as it stands. */
#include "farvessel/lid.h"
#include "farvessel/constants.h"
#include "num/root.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { EACH_MOST = 12 };                 /* vessels: of more, only the first of those that are like one kind */
static const double WORTH_SAYING = 1.1;  /* of a limit that is common practice */
static const double VENT_MOST = 1.0;     /* m */
static const double VENT_SETTLED = 5e-4; /* m: nobody drills finer */
static const double VENT_HEIGHT = 1.0;   /* m, of one where there is none */
static const double CD_EDGE = 0.62;      /* a sharp edge */

/* ---- the plant with one vessel open ---- */

static fv_plant *alone(const fv_plant *plant, size_t vessel)
{
    fv_plant *copy = fv_plant_copy(plant);
    for (size_t i = 0; copy && i < copy->vessel_count; i++)
        if (i != vessel)
            copy->vessels[i]->phase = fv_given(FV_PHASE_SHUT);
    return copy;
}

/* Its first vent, and where there is none a new one. NULL: out of memory. */
static fv_opening *vent_of(fv_plant *plant, fv_vessel *vessel)
{
    fv_opening *vent = NULL;
    for (size_t j = 0; j < vessel->opening_count; j++)
        if (vessel->openings[j]->kind == FV_OPENING_VENT && !vent)
            vent = vessel->openings[j];
    if (vent)
        return vent;
    vent = fv_vessel_add_opening(plant, vessel, FV_OPENING_VENT, vessel->part.loc);
    if (vent)
        vent->height = fv_given(VENT_HEIGHT);
    return vent;
}

static void set_width(fv_opening *opening, double diameter)
{
    opening->diameter = fv_given(diameter);
    opening->area = (fv_value){.v = NAN, .origin = FV_UNSET};
}

/* Steam and pressure; false: no solution, or out of memory, said in faults. */
static bool solve(fv_plant *plant, size_t vessel, double *steam, double *pressure, fv_faults *faults)
{
    fv_flow_options options;
    fv_flow_defaults(&options);
    options.turndown = false;
    options.foretell = false;
    options.phase = FV_PHASE_HOLDING;
    if (fv_plant_link(plant, faults) == FV_FAIL)
        return false;
    fv_flow_answer *answer = fv_flow_answer_new(plant, &options, NULL, faults);
    if (!answer)
        return false;
    *steam = answer->state->vessels[vessel].steam;
    *pressure = answer->state->vessels[vessel].chamber_pressure;
    fv_flow_answer_free(answer);
    return true;
}

/* ---- the vent that would do ---- */

typedef struct {
    fv_plant *plant;
    fv_opening *vent;
    size_t vessel;
    fv_faults *faults;
} search;

static double pressure_left(double diameter, void *context)
{
    const search *s = context;
    double steam, pressure;
    set_width(s->vent, diameter);
    return solve(s->plant, s->vessel, &steam, &pressure, s->faults) ? FV_LID_PRESSURE - pressure : (double)NAN;
}

/* NaN: none up to VENT_MOST does. */
static double find_vent(fv_plant *plant, size_t vessel, fv_faults *faults)
{
    fv_vessel *v = plant->vessels[vessel];
    search s = {.plant = plant, .vent = vent_of(plant, v), .vessel = vessel, .faults = faults};
    double root;
    if (!s.vent)
        return NAN;
    const double now =
        v->opening_count > 0 && fv_opening_area(s.vent) > 0 ? sqrt(4 / FV_PI * fv_opening_area(s.vent)) : 1e-3;
    double wide = fmin(2 * now, VENT_MOST);
    while (wide < VENT_MOST && !(pressure_left(wide, &s) >= 0))
        wide = fmin(2 * wide, VENT_MOST);
    if (!(now < wide) || num_root_between(pressure_left, &s, now, wide, VENT_SETTLED, 0, &root) != FV_OK)
        return NAN;
    return root;
}

/* ---- air back in ---- */

/* What its openings let in at FV_LID_VACUUM, m3/s; the head of a water seal comes off. */
static double lets_in(const fv_vessel *v, double rho_air, double rho_water, double vacuum)
{
    double sum = 0;
    for (size_t j = 0; j < v->opening_count; j++) {
        const fv_opening *o = v->openings[j];
        const double drives = vacuum - rho_water * FV_GRAVITY * fv_or(o->seal, 0);
        sum += drives > 0 ? o->cd.v * fv_opening_area(o) * sqrt(2 * drives / rho_air) : 0;
    }
    return sum;
}

typedef struct {
    const fv_vessel *vessel;
    double rho_air, rho_water, wanted;
} inflow;

static double inflow_left(double vacuum, void *context)
{
    const inflow *in = context;
    return lets_in(in->vessel, in->rho_air, in->rho_water, vacuum) - in->wanted;
}

static void work_out_vacuum(const fv_plant *plant, const fv_vessel *v, fv_lid_row *lid)
{
    fv_sat_point site;
    const double p = fv_site_pressure(&plant->site);
    fv_sat_at(fv_sat_line(), p, &site);
    inflow in = {.vessel = v, .rho_air = fv_air_density(p, plant->site.air.v), .rho_water = site.rho_f};
    lid->vanishes = in.wanted = lid->steam / site.rho_g;
    lid->let_in = lets_in(v, in.rho_air, in.rho_water, FV_LID_VACUUM);
    if (num_root_between(inflow_left, &in, 0, p, 1e-3, 0, &lid->vacuum) != FV_OK)
        lid->vacuum = in.wanted > 0 ? INFINITY : 0;
    const double lacks = lid->vanishes - lid->let_in;
    lid->air_too_little = lacks > 0;
    lid->breaker = lacks > 0 ? sqrt(4 / FV_PI * lacks / (CD_EDGE * sqrt(2 * FV_LID_VACUUM / in.rho_air))) : (double)NAN;
}

/* ---- all vessels ---- */

static bool has_a_twin_before(const fv_plant *plant, size_t vessel)
{
    const char *like = plant->vessels[vessel]->part.like;
    for (size_t k = 0; k < vessel && like; k++)
        if (plant->vessels[k]->part.like && strcmp(plant->vessels[k]->part.like, like) == 0)
            return true;
    return false;
}

/* Openings that pass all that the boilers could ever give are wide enough without a look at the lines. */
static bool passes_everything(const fv_plant *plant, const fv_vessel *v)
{
    fv_sat_point site;
    const double p = fv_site_pressure(&plant->site);
    fv_sat_at(fv_sat_line(), p, &site);
    double heat = 0, cd_area = 0, sealed = 0;
    for (size_t i = 0; i < plant->boiler_count; i++)
        heat += plant->boilers[i]->output.v;
    for (size_t j = 0; j < v->opening_count; j++) {
        cd_area += v->openings[j]->cd.v * fv_opening_area(v->openings[j]);
        sealed += fv_or(v->openings[j]->seal, 0);
    }
    const double flux = heat / (site.h_g - site.h_f) / cd_area, pressure = flux * flux / (2 * site.rho_g);
    const double vacuum = pressure * fv_air_density(p, plant->site.air.v) / site.rho_g;
    return sealed == 0 && pressure < FV_LID_PRESSURE && vacuum < FV_LID_VACUUM;
}

static fv_lid_found before_solving(const fv_plant *plant, size_t i)
{
    return fv_word(plant->vessels[i]->phase) == FV_PHASE_SHUT               ? FV_LID_SHUT
           : plant->vessel_count > EACH_MOST && has_a_twin_before(plant, i) ? FV_LID_LIKE
           : passes_everything(plant, plant->vessels[i])                    ? FV_LID_WIDE
                                                                            : FV_LID_NO_BALANCE;
}

static bool work_out(const fv_plant *plant, size_t i, fv_lid_row *lid, fv_faults *own)
{
    *lid = (fv_lid_row){NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, before_solving(plant, i), false, false};
    if (lid->found != FV_LID_NO_BALANCE)
        return true;
    fv_plant *copy = alone(plant, i);
    if (!copy)
        return false;
    if (solve(copy, i, &lid->steam, &lid->pressure, own)) {
        lid->found = FV_LID_SOLVED;
        lid->lifts = lid->pressure / FV_GRAVITY;
        lid->vent_too_small = lid->pressure > WORTH_SAYING * FV_LID_PRESSURE;
        if (lid->pressure > FV_LID_PRESSURE)
            lid->vent = find_vent(copy, i, own);
        work_out_vacuum(plant, plant->vessels[i], lid);
    }
    fv_plant_free(copy);
    return fv_faults_errors(own) == 0 || !fv_faults_blame_system(own);
}

fv_lid_answer *fv_lid_run(const fv_plant *plant, fv_faults *faults)
{
    if (!plant) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_lid_answer *answer = calloc(1, sizeof *answer);
    fv_faults *own = fv_faults_new();
    if (answer)
        *answer = (fv_lid_answer){.plant = plant, .vessels = calloc(plant->vessel_count + 1, sizeof *answer->vessels)};
    bool good = answer && own && answer->vessels;
    for (size_t i = 0; good && i < plant->vessel_count; i++)
        good = work_out(plant, i, &answer->vessels[i], own);
    fv_faults_free(own);
    if (good)
        return answer;
    fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    fv_lid_free(answer);
    return NULL;
}

void fv_lid_free(fv_lid_answer *answer)
{
    if (answer)
        free(answer->vessels);
    free(answer);
}
