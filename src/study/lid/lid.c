/* SPDX-License-Identifier: MIT */
/* Pressure under the lid, and the vent that keeps it at a limit, with all the steam sent to one vessel. A lower chamber
 * pressure lets more steam in, so the vent is not sized for the present flow: the plant is solved once more with the
 * chamber at the limit. Air drawn in while the vessel cools does not depend on the plant: Cd A sqrt(2 rho dp). */
#include "farvessel/lid.h"
#include "farvessel/constants.h"
#include "num/root.h"
#include "steady/workspace.h"
#include "steady/equations.h"
#include "steady/need.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { EACH_MOST = 12 };                /* vessels: of more, only the first of those that are like one kind */
static const double WORTH_SAYING = 1.1; /* of a limit that is common practice */
static const double VENT_MOST = 1.0;    /* m */
static const double VENT_HEIGHT = 1.0;  /* m, of one where there is none */
static const double CD_EDGE = 0.62;     /* a sharp edge */

/* ---- the vent that would do ---- */

/* kg/s that an opening passes with the chamber full of steam at FV_LID_PRESSURE, any exchange ended by it. */
static double passes(const steady_workspace *d, const steady_net_opening *opening, double rho)
{
    double slope;
    return steady_opening_flow(opening, d->net->site_pressure,
                               fv_air_density(d->net->site_pressure, d->plant->site.air.v), rho, FV_LID_PRESSURE,
                               &slope);
}

/* Diameter of the first vent, or of a further one, NaN: none up to VENT_MOST. At FV_LID_PRESSURE the steam that comes
 * is that of one solve, and the vent must pass what walls and other openings leave of it. */
static double find_vent(steady_workspace *d, size_t vessel, fv_faults *faults)
{
    const steady_net_vessel *v = &d->net->vessels[vessel];
    const steady_net_opening further = {.cd_area = CD_EDGE, .height = VENT_HEIGHT};
    const steady_net_opening *openings = d->net->openings + v->first_opening, *vent = NULL;
    fv_sat_point at;
    fv_sat_at(d->sat, d->net->site_pressure + FV_LID_PRESSURE, &at);
    d->holds[vessel].vessel = NULL;
    d->chambers[vessel].kind = FV_CHAMBER_COLD;
    d->chambers[vessel].pressure = FV_LID_PRESSURE;
    d->chambers[vessel].density = at.rho_g;
    fv_steady_result *r = steady_workspace_solve(d, 1, faults);
    if (!r)
        return NAN;
    const double h_v = r->nodes[d->net->plant_node[v->node]].enthalpy;
    const double heat = r->vessels[vessel].steam * (h_v - at.h_f) - steady_uptake(d->plant, v->vessel, at.t);
    double left = heat / (at.h_g - at.h_f);
    fv_steady_result_free(r);
    for (int j = 0; j < v->opening_count; j++)
        if (!vent && openings[j].opening->kind == FV_OPENING_VENT && openings[j].cd_area > 0)
            vent = &openings[j];
        else
            left -= passes(d, &openings[j], at.rho_g);
    const double area =
        (vent ? fv_opening_area(vent->opening) : 1) * left / passes(d, vent ? vent : &further, at.rho_g);
    const double diameter = sqrt(4 / FV_PI * area);
    return diameter < VENT_MOST ? diameter : (double)NAN;
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

/* Cd A of its openings, m2, without those behind a water seal. */
static double room_of(const fv_vessel *v)
{
    double sum = 0;
    for (size_t j = 0; j < v->opening_count; j++)
        if (!(fv_or(v->openings[j]->seal, 0) > 0))
            sum += v->openings[j]->cd.v * fv_opening_area(v->openings[j]);
    return sum;
}

/* One of its kind before it lets no more through. */
static bool has_a_twin_before(const fv_plant *plant, size_t vessel)
{
    const char *like = plant->vessels[vessel]->part.like;
    for (size_t k = 0; k < vessel && like; k++)
        if (plant->vessels[k]->part.like && strcmp(plant->vessels[k]->part.like, like) == 0 &&
            fv_word(plant->vessels[k]->phase) != FV_PHASE_SHUT &&
            room_of(plant->vessels[k]) <= room_of(plant->vessels[vessel]))
            return true;
    return false;
}

/* Openings that pass all that the boilers could ever give are wide enough without a look at the lines. */
static bool passes_everything(const fv_plant *plant, const fv_vessel *v)
{
    fv_sat_point site;
    const double p = fv_site_pressure(&plant->site);
    fv_sat_at(fv_sat_line(), p, &site);
    double heat = 0, sealed = 0;
    for (size_t i = 0; i < plant->boiler_count; i++)
        heat += plant->boilers[i]->output.v;
    for (size_t j = 0; j < v->opening_count; j++)
        sealed += fv_or(v->openings[j]->seal, 0);
    const double flux = heat / (site.h_g - site.h_f) / room_of(v), pressure = flux * flux / (2 * site.rho_g);
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

/* False: out of memory. */
static bool work_out(steady_workspace *d, size_t i, fv_lid_row *lid, fv_faults *own)
{
    steady_workspace_only(d, i);
    fv_steady_result *r = steady_workspace_solve(d, 1, own);
    if (r) {
        lid->found = FV_LID_SOLVED;
        lid->steam = r->vessels[i].steam;
        lid->pressure = r->vessels[i].chamber_pressure;
        lid->lifts = lid->pressure / FV_GRAVITY;
        lid->vent_too_small = lid->pressure > WORTH_SAYING * FV_LID_PRESSURE;
        if (lid->pressure > FV_LID_PRESSURE)
            lid->vent = find_vent(d, i, own);
        work_out_vacuum(d->plant, d->plant->vessels[i], lid);
    }
    fv_steady_result_free(r);
    return !d->out_of_memory;
}

/* The one to be worked out whose openings are the smallest; -1: none. */
static int next_of(const fv_plant *plant, const double *room)
{
    int least = -1;
    for (size_t i = 0; i < plant->vessel_count; i++)
        if (!isinf(room[i]) && (least < 0 || room[i] < room[least]))
            least = (int)i;
    return least;
}

/* Those that must be solved, up to EACH_MOST of them, on one network. False: out of memory. */
static bool work_all_out(fv_lid_answer *answer, double *room, fv_faults *own)
{
    const fv_plant *plant = answer->plant;
    steady_workspace d = {0};
    for (size_t i = 0; i < plant->vessel_count; i++) {
        fv_lid_row *lid = &answer->vessels[i];
        *lid = (fv_lid_row){NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, before_solving(plant, i), false, false};
        room[i] = lid->found == FV_LID_NO_BALANCE ? room_of(plant->vessels[i]) : INFINITY;
        lid->found = lid->found == FV_LID_NO_BALANCE ? FV_LID_LIKE : lid->found;
    }
    int i = next_of(plant, room);
    bool good = i < 0 || steady_workspace_open(&d, plant, fv_sat_line(), -1, own);
    const bool open = good && i >= 0;
    good = good || !fv_faults_blame_system(own);
    for (int count = 0; good && i >= 0 && count < EACH_MOST; count++) {
        answer->vessels[i].found = FV_LID_NO_BALANCE;
        good = !open || work_out(&d, (size_t)i, &answer->vessels[i], own);
        room[i] = INFINITY;
        i = next_of(plant, room);
    }
    steady_workspace_close(&d);
    return good;
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
    double *room = calloc(plant->vessel_count + 1, sizeof *room);
    const bool good = answer && own && room && answer->vessels && work_all_out(answer, room, own);
    free(room);
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
