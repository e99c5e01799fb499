/* SPDX-License-Identifier: MIT */
/* What can be done about coils, holes, water, openings, walls, loads and the order of the start. */
#include "farvessel/constants.h"
#include "farvessel/lid.h"
#include "study/evaluate.h"
#include "study/ideal.h"
#include "study/remedies.h"

#include <math.h>

enum { STEPS = 2 };
static const double BLANKED = 0.25;                  /* of the holes */
static const double LESS = 0.75;                     /* of the load is left */
static const double HALF_AREA = 0.70710678118654752; /* of a diameter */
static const double SUMP_AWAY = 1e4;                 /* m2: on so wide a floor nothing gathers */
static const double SEAL = 0.05, US_SEAL = 0.0508;   /* m: a bucket or a bend of the hose, common practice */
static const double OUTSIDE_USUAL = 10;             /* W/m2/K: wall to still air, radiation included; common practice */
static const double QUILT_CONDUCTIVITY = 0.045;     /* W/m/K: mineral wool at steam temperature, common practice */
static const double DELAYS[] = {3600, 7200, 14400}; /* s */

static const fv_vessel *target(const study_remedies *r)
{
    return r->plant->vessels[r->target];
}

static bool is_open(const fv_vessel *vessel)
{
    return fv_word(vessel->phase) != FV_PHASE_SHUT;
}

/* Other holes in one coil, each a step up or down; a size that is not to be had leaves the coil as it is. */
static void set_drill(study_remedies *r, const fv_vessel *v, int step, bool own_price)
{
    const fv_coil *coil = &v->coil;
    study_size size;
    for (size_t i = 0; i < coil->hole_count; i++)
        if (study_size_next(r->plant, FV_STOCK_DRILL, coil->hole[i]->drill.v, step, &size) && size.size < coil->bore.v)
            study_remedy_set(r, v->part.id, coil->hole[i]->drill.v, size.size, "drill", "%s.hole%zu", v->part.id,
                             i + 1);
    if (coil->hole_count > 0)
        return;
    if (!study_size_next(r->plant, FV_STOCK_DRILL, coil->drill.v, step, &size) || size.size >= coil->bore.v)
        return;
    study_remedy_set(r, v->part.id, coil->drill.v, size.size, "drill", "%s.coil", v->part.id);
    study_remedy_size(r, &size);
    if (own_price) /* a drill in the stock list without price is at hand */
        study_remedy_cost(r, size.from_stock && isnan(size.price) ? 0 : size.price);
}

static void drill_out(study_remedies *r, int step)
{
    study_remedy_begin(r, FV_REMEDY_DRILL, FV_EFFORT_SMALL);
    set_drill(r, target(r), step, true);
    study_remedy_end(r);
}

/* Smaller holes need a new pipe. */
static void smaller_holes(study_remedies *r, fv_remedy_kind kind, int step)
{
    study_remedy_begin(r, kind, FV_EFFORT_BUY);
    for (size_t i = 0; i < r->plant->vessel_count; i++) {
        const fv_vessel *v = r->plant->vessels[i];
        if (!is_open(v) || (kind == FV_REMEDY_DRILL_OTHERS && !r->faster[i]))
            continue;
        set_drill(r, v, -step, false);
        study_remedy_cost(r, study_size_price(r->plant, FV_STOCK_COIL, v->coil.bore.v) * v->coil.length.v);
    }
    study_remedy_end(r);
}

static void blank_others(study_remedies *r)
{
    study_remedy_begin(r, FV_REMEDY_BLANK_OTHERS, FV_EFFORT_SMALL);
    for (size_t i = 0; i < r->plant->vessel_count; i++) {
        const fv_vessel *v = r->plant->vessels[i];
        const double holes = v->coil.holes.v, left = ceil((1 - BLANKED) * holes);
        if (r->faster[i] && is_open(v) && v->coil.hole_count == 0 && left >= 1 && left < holes)
            study_remedy_set(r, v->part.id, holes, left, "holes", "%s.coil", v->part.id);
    }
    study_remedy_cost(r, NAN);
    study_remedy_end(r);
}

static void wider_coil(study_remedies *r, int step)
{
    const fv_vessel *v = target(r);
    study_size size;
    if (!study_size_next(r->plant, FV_STOCK_COIL, v->coil.bore.v, step, &size))
        return;
    study_remedy_begin(r, FV_REMEDY_COIL_BORE, FV_EFFORT_BUY);
    study_remedy_set(r, v->part.id, v->coil.bore.v, size.size, "bore", "%s.coil", v->part.id);
    study_remedy_size(r, &size);
    study_remedy_cost(r, size.price * v->coil.length.v);
    study_remedy_end(r);
}

/* What a remedy does to one vessel: settings of the one that is being put together. */
typedef void vessel_remedy(study_remedies *r, const fv_vessel *v);

/* For the target; and where others have the same fault, for all that have it. */
static void of_target_and_all(study_remedies *r, fv_remedy_kind kind, fv_effort effort, vessel_remedy *change)
{
    const size_t before = r->count;
    study_remedy_begin(r, kind, effort);
    change(r, target(r));
    study_remedy_end(r);
    if (r->count == before)
        return;
    study_remedy_begin(r, kind, effort);
    for (size_t i = 0; i < r->plant->vessel_count; i++)
        if (is_open(r->plant->vessels[i]))
            change(r, r->plant->vessels[i]);
    if (r->open && r->list[r->count].part_count > 1)
        study_remedy_end(r);
    r->open = false;
}

static void clean_holes(study_remedies *r, const fv_vessel *v)
{
    if (v->coil.clogged.v > 0)
        study_remedy_set(r, v->part.id, v->coil.clogged.v, 0, "clogged", "%s.coil", v->part.id);
}

static void drain_water(study_remedies *r, const fv_vessel *v)
{
    if (v->water.v > 0)
        study_remedy_set(r, v->part.id, v->water.v, 0, "water", "%s", v->part.id);
}

static void drain_floor(study_remedies *r, const fv_vessel *v)
{
    if (fv_is_set(v->sump_area) && v->sump_area.v < SUMP_AWAY)
        study_remedy_set(r, v->part.id, v->sump_area.v, SUMP_AWAY, "sump-area", "%s", v->part.id);
    study_remedy_cost(r, NAN);
}

static void tight_lid(study_remedies *r, const fv_vessel *v)
{
    for (size_t j = 0; j < v->opening_count; j++) {
        const fv_opening *o = v->openings[j];
        const bool by_area = fv_is_set(o->area);
        const double size = by_area ? o->area.v : o->diameter.v;
        if (o->kind == FV_OPENING_GAP && size > 0)
            study_remedy_set(r, v->part.id, size, 0, by_area ? "area" : "diameter", "%s.opening%zu", v->part.id, j + 1);
    }
    study_remedy_cost(r, NAN);
}

/* Steam and air leave by the vent then, water by the drain. */
static bool has_free_vent(const fv_vessel *v)
{
    for (size_t j = 0; j < v->opening_count; j++)
        if (v->openings[j]->kind == FV_OPENING_VENT && !(fv_or(v->openings[j]->seal, 0) > 0))
            return true;
    return false;
}

static void sealed_drains(study_remedies *r)
{
    const double seal = study_is_us(r->plant) ? US_SEAL : SEAL;
    study_remedy_begin(r, FV_REMEDY_SEAL, FV_EFFORT_SMALL);
    for (size_t i = 0; i < r->plant->vessel_count; i++) {
        const fv_vessel *v = r->plant->vessels[i];
        for (size_t j = 0; is_open(v) && has_free_vent(v) && j < v->opening_count; j++) {
            const fv_opening *o = v->openings[j];
            if (o->kind == FV_OPENING_DRAIN && fv_or(o->seal, 0) < seal)
                study_remedy_set(r, v->part.id, fv_or(o->seal, 0), seal, "seal", "%s.opening%zu", v->part.id, j + 1);
        }
    }
    study_remedy_cost(r, NAN);
    study_remedy_end(r);
}

static void smaller_vent(study_remedies *r, const fv_vessel *v)
{
    const int at = fv_plant_vessel_index(r->plant, v->part.id);
    if (r->vent && at >= 0 && !isnan(r->vent[at]))
        return; /* its lid lifts already */
    for (size_t j = 0; j < v->opening_count; j++) {
        const fv_opening *o = v->openings[j];
        if (o->kind != FV_OPENING_VENT)
            continue;
        if (fv_is_set(o->area))
            study_remedy_set(r, v->part.id, o->area.v, 0.5 * o->area.v, "area", "%s.opening%zu", v->part.id, j + 1);
        else
            study_remedy_set(r, v->part.id, o->diameter.v, round(1e3 * HALF_AREA * o->diameter.v) / 1e3, "diameter",
                             "%s.opening%zu", v->part.id, j + 1);
    }
}

const double *study_vents_wanted(const fv_plant *plant, const double *pressures, fv_arena *arena)
{
    double *vents = fv_arena_alloc(arena, plant->vessel_count + 1, sizeof *vents), most = NAN;
    fv_lid_answer *lids = NULL;
    for (size_t i = 0; i < plant->vessel_count && vents; i++) {
        vents[i] = NAN;
        if (!study_lifts_lid(pressures[i], FV_LID_PRESSURE))
            continue;
        if (!lids && !(lids = fv_lid_run(plant, NULL)))
            return NULL;
        vents[i] = 1e-3 * ceil(1e3 * lids->vessels[i].vent);
        most = fmax(most, vents[i]); /* a NaN is passed over */
    }
    for (size_t i = 0; i < plant->vessel_count && lids && vents; i++)
        if (lids->vessels[i].found == FV_LID_LIKE && study_lifts_lid(pressures[i], FV_LID_PRESSURE))
            vents[i] = most;
    fv_lid_free(lids);
    return vents;
}

/* Where a chamber's pressure lifts its lid: the widest that one of them needs. */
static void wider_vents(study_remedies *r)
{
    double most = 0;
    study_remedy_begin(r, FV_REMEDY_WIDER_VENT, FV_EFFORT_SMALL);
    for (size_t i = 0; i < r->plant->vessel_count && r->vent; i++)
        if (study_vent_of(r->plant->vessels[i]))
            most = fmax(most, r->vent[i]); /* a NaN is passed over */
    for (size_t i = 0; i < r->plant->vessel_count && most > 0; i++) {
        const fv_vessel *v = r->plant->vessels[i];
        for (size_t j = 0; j < v->opening_count && !isnan(r->vent[i]); j++) {
            const fv_opening *o = v->openings[j];
            if (o != study_vent_of(v))
                continue;
            if (fv_is_set(o->area))
                study_remedy_set(r, v->part.id, o->area.v, FV_PI / 4 * most * most, "area", "%s.opening%zu", v->part.id,
                                 j + 1);
            else
                study_remedy_set(r, v->part.id, o->diameter.v, most, "diameter", "%s.opening%zu", v->part.id, j + 1);
        }
    }
    study_remedy_cost(r, NAN);
    if (r->open)
        r->list[r->count].to = most;
    study_remedy_end(r);
}

/* A quilt has hardly any mass: it only adds to the resistance outside. */
static void quilt(study_remedies *r, const fv_vessel *v)
{
    study_size size, bigger;
    if (!study_size_next(r->plant, FV_STOCK_LAGGING, 0, 1, &size))
        return;
    if (study_size_next(r->plant, FV_STOCK_LAGGING, 0, 2, &bigger))
        size = bigger;
    const double k = isnan(size.conductivity) ? QUILT_CONDUCTIVITY : size.conductivity;
    for (size_t j = 0; j < v->wall_count; j++) {
        const double now = fv_or(v->walls[j]->outside, OUTSIDE_USUAL);
        const double to = round(1e3 / (1 / now + size.size / k)) / 1e3;
        study_remedy_set(r, v->part.id, 0, to, "outside", "%s.wall%zu", v->part.id, j + 1);
        study_remedy_cost(r, size.price * v->walls[j]->area.v);
    }
    study_remedy_size(r, &size);
    if (r->open)
        r->list[r->count].to = size.size;
}

static void loose_load(study_remedies *r, const fv_vessel *v)
{
    if (fv_word(v->load.packing) != FV_PACKING_LOOSE)
        study_remedy_set(r, v->part.id, v->load.packing.v, FV_PACKING_LOOSE, "packing", "%s.load", v->part.id);
}

static bool is_windy(const fv_plant *plant)
{
    bool windy = plant->site.wind.v > 0;
    for (size_t i = 0; i < plant->site.weather_count; i++)
        windy = windy || plant->site.weather[i]->wind.v > 0;
    return windy;
}

static void shelter(study_remedies *r)
{
    const fv_vessel *v = target(r);
    const bool windy = is_windy(r->plant);
    study_remedy_begin(r, FV_REMEDY_SHELTER, FV_EFFORT_SMALL);
    for (size_t i = 0; i < r->plant->line_count; i++) {
        const fv_line *line = r->plant->lines[i];
        if (study_on_way(r->ways, r->target, i) && (fv_is_set(line->wind) ? line->wind.v > 0 : windy))
            study_remedy_set(r, line->part.id, fv_or(line->wind, r->plant->site.wind.v), 0, "wind", "%s",
                             line->part.id);
    }
    for (size_t j = 0; j < v->wall_count; j++) {
        const fv_wall *wall = v->walls[j];
        if (!fv_is_set(wall->outside) && (fv_is_set(wall->wind) ? wall->wind.v > 0 : windy))
            study_remedy_set(r, v->part.id, fv_or(wall->wind, r->plant->site.wind.v), 0, "wind", "%s.wall%zu",
                             v->part.id, j + 1);
    }
    study_remedy_cost(r, NAN);
    study_remedy_end(r);
}

static void lighter_load(study_remedies *r)
{
    const fv_vessel *v = target(r);
    const fv_load *load = &v->load;
    const char *id = v->part.id;
    study_remedy_begin(r, FV_REMEDY_LESS_LOAD, FV_EFFORT_FREE);
    const bool bed = fv_word(load->form) == FV_FORM_BED;
    if (!bed && fv_is_set(load->count) && load->count.v >= 2) {
        const double left = fmax(1, floor(LESS * load->count.v));
        study_remedy_set(r, id, load->count.v, left, "count", "%s.load", id);
        if (fv_is_set(load->mass))
            study_remedy_set(r, id, load->mass.v, load->mass.v * left / load->count.v, "mass", "%s.load", id);
    } else if (fv_is_set(load->mass)) {
        study_remedy_set(r, id, load->mass.v, LESS * load->mass.v, "mass", "%s.load", id);
        if (bed && fv_is_set(load->depth))
            study_remedy_set(r, id, load->depth.v, LESS * load->depth.v, "depth", "%s.load", id);
    } else if (bed && fv_is_set(load->depth)) {
        study_remedy_set(r, id, load->depth.v, LESS * load->depth.v, "depth", "%s.load", id);
    }
    study_remedy_end(r);
}

/* The others later. Those that wait for an event follow it. */
static void stagger(study_remedies *r, double delay)
{
    study_remedy_begin(r, FV_REMEDY_STAGGER, FV_EFFORT_FREE);
    for (size_t i = 0; i < r->plant->vessel_count; i++) {
        const fv_vessel *v = r->plant->vessels[i];
        if (i != r->target && is_open(v) && !v->start_after)
            study_remedy_set(r, v->part.id, v->start.v, v->start.v + delay, "start", "%s", v->part.id);
    }
    study_remedy_end(r);
}

void study_remedies_of_vessels(study_remedies *r)
{
    of_target_and_all(r, FV_REMEDY_CLEAN, FV_EFFORT_FREE, clean_holes);
    of_target_and_all(r, FV_REMEDY_WATER, FV_EFFORT_FREE, drain_water);
    of_target_and_all(r, FV_REMEDY_SUMP, FV_EFFORT_SMALL, drain_floor);
    for (int step = 1; step <= STEPS; step++) {
        drill_out(r, step);
        smaller_holes(r, FV_REMEDY_DRILL_OTHERS, step);
        smaller_holes(r, FV_REMEDY_DRILL_ALL, step);
        wider_coil(r, step);
    }
    blank_others(r);
    of_target_and_all(r, FV_REMEDY_LID, FV_EFFORT_SMALL, tight_lid);
    sealed_drains(r);
    of_target_and_all(r, FV_REMEDY_VENT, FV_EFFORT_FREE, smaller_vent);
    wider_vents(r);
    of_target_and_all(r, FV_REMEDY_WALLS, FV_EFFORT_BUY, quilt);
    shelter(r);
    of_target_and_all(r, FV_REMEDY_LOOSE, FV_EFFORT_FREE, loose_load);
    lighter_load(r);
    for (size_t i = 0; i < sizeof DELAYS / sizeof *DELAYS; i++)
        stagger(r, DELAYS[i]);
}
