/* SPDX-License-Identifier: MIT */
#include "study/ideal.h"

#include "farvessel/constants.h"
#include "study/settings.h"

#include <math.h>

static const double AMPLE =
    4; /* times the boiler's output; with much more, vents that are sized for one would hold pressure */
static const double OUTPUT_MOST = 1e6; /* W, the schema's limit */
static const double SMOOTH = 1e-4;     /* Darcy factor: next to nothing, but no line is without any slope */
static const double KV_MOST = 1e6;     /* m3/h, the schema's limit */
static const double AREA_LEAST = 1e-4; /* m2, the schema's limit for walls */
static const double SUMP_MOST = 1e4;   /* m2, the schema's limit: what gathers there has no depth */
static const double GAS_LEAST = 0.1;   /* of a vessel: fuller it cannot be */
static const double WIDE = 20;         /* bore area / hole area: the velocity head is 1/400 of a hole's drop */
static const double DRILL_SHARE = 0.9; /* of bore or spacing: wider holes would meet */
static const double SAME = 1e-9;
/* For the holes that pass the boilers' full steam: rough figures do. */
static const double LATENT = 2.26e6;     /* J/kg */
static const double STEAM_DENSITY = 0.6; /* kg/m3 */
static const double DISCHARGE = 0.62;
static const double HOLE_PART = 0.25; /* of the control pressure */

typedef struct {
    const study_basis *basis;
    fv_plant *plant;
    int only;
    bool changed;
} idealizing;

static void set(idealizing *x, fv_value *value, double si)
{
    if (fv_is_set(*value) && fabs(value->v - si) <= SAME * fabs(si))
        return;
    *value = (fv_value){.v = si, .origin = FV_SETTING, .known = value->known};
    x->changed = true;
}

/* Only where it is larger. */
static void lower(idealizing *x, fv_value *value, double si)
{
    if (fv_is_set(*value) && value->v > si)
        set(x, value, si);
}

static bool is_meant(const idealizing *x, size_t vessel)
{
    return x->only < 0 || (size_t)x->only == vessel;
}

static bool is_meant_line(const idealizing *x, size_t line)
{
    if (x->basis->ways->kind[line] == WAY_NONE)
        return false;
    if (x->only < 0)
        return true;
    return x->basis->ways->kind[line] == WAY_OWN && study_on_way(x->basis->ways, (size_t)x->only, line);
}

/* ---- boilers and lines ---- */

static void ample_boilers(idealizing *x)
{
    for (size_t i = 0; i < x->plant->boiler_count; i++) {
        fv_boiler *b = x->plant->boilers[i];
        /* Said, or they would grow with the output. */
        b->water.origin = b->usable.origin = b->steel.origin = b->loss.origin = FV_SETTING;
        set(x, &b->output, fmin(OUTPUT_MOST, AMPLE * b->output.v));
        set(x, &b->fire, 1);
        set(x, &b->dryness, 1);
        set(x, &b->feeding, FV_FEED_AUTOMATIC);
    }
    for (size_t i = 0; i < x->plant->action_count; i++)
        if (x->plant->actions[i]->boiler && fv_is_set(x->plant->actions[i]->fire))
            set(x, &x->plant->actions[i]->fire, 1);
    for (size_t i = 0; i < x->plant->thermostat_count; i++)
        if (x->plant->thermostats[i]->boiler && fv_is_set(x->plant->thermostats[i]->fire))
            set(x, &x->plant->thermostats[i]->fire, 1);
}

static void smooth_lines(idealizing *x, study_way kind)
{
    for (size_t i = 0; i < x->plant->line_count; i++)
        if (is_meant_line(x, i) && x->basis->ways->kind[i] == kind)
            set(x, &x->plant->lines[i]->friction, SMOOTH);
}

static void open_fittings(idealizing *x)
{
    for (size_t i = 0; i < x->plant->line_count; i++) {
        fv_line *line = x->plant->lines[i];
        if (!is_meant_line(x, i))
            continue;
        lower(x, &line->k, 0);
        for (size_t j = 0; j < line->fitting_count; j++) {
            fv_fitting *f = line->fittings[j];
            if (fv_is_set(f->kv))
                set(x, &f->kv, KV_MOST);
            else
                set(x, &f->k, 0);
            if (f->kind == FV_FITTING_VALVE)
                set(x, &f->open, 1);
        }
    }
    if (x->only >= 0)
        return;
    x->changed = x->changed || x->plant->tee_count > 0;
    x->plant->tee_count = 0;
    if (fv_word(x->plant->site.tees) != FV_TEES_NONE)
        set(x, &x->plant->site.tees, FV_TEES_NONE);
}

static void hang_up(idealizing *x)
{
    for (size_t i = 0; i < x->plant->line_count; i++)
        if (is_meant_line(x, i))
            lower(x, &x->plant->lines[i]->sag, 0);
}

static void lag_lines(idealizing *x)
{
    for (size_t i = 0; i < x->plant->line_count; i++) {
        if (x->only >= 0 && !is_meant_line(x, i))
            continue;
        set(x, &x->plant->lines[i]->heat_loss, 0);
        set(x, &x->plant->lines[i]->heat_capacity, 0);
    }
}

/* ---- coils ---- */

double study_drilled_area(const fv_coil *coil)
{
    double squares = 0;
    for (size_t i = 0; i < coil->hole_count; i++)
        squares += coil->hole[i]->count.v * coil->hole[i]->drill.v * coil->hole[i]->drill.v;
    if (coil->hole_count == 0)
        squares = coil->holes.v * coil->drill.v * coil->drill.v;
    return FV_PI / 4 * squares;
}

static double enough_area(const fv_plant *plant)
{
    double output = 0, pressure = INFINITY;
    for (size_t i = 0; i < plant->boiler_count; i++) {
        output += plant->boilers[i]->output.v;
        pressure = fmin(pressure, plant->boilers[i]->holds.v);
    }
    const double speed = sqrt(2 * HOLE_PART * pressure / STEAM_DENSITY);
    return speed > 0 ? output / LATENT / (DISCHARGE * STEAM_DENSITY * speed) : 0;
}

static double drill_most(const fv_coil *coil)
{
    const double spacing = fv_or(coil->spacing, coil->length.v / coil->holes.v);
    const double narrowest = fmin(coil->bore.v, coil->holes.v > 1 ? spacing : INFINITY);
    return DRILL_SHARE * narrowest;
}

static void scale_holes(idealizing *x, fv_coil *coil, double area)
{
    const double factor = sqrt(area / study_drilled_area(coil));
    if (!(factor > 0) || fabs(factor - 1) <= SAME)
        return;
    for (size_t i = 0; i < coil->hole_count; i++)
        set(x, &coil->hole[i]->drill, fmin(factor * coil->hole[i]->drill.v, DRILL_SHARE * coil->bore.v));
    if (coil->hole_count == 0)
        set(x, &coil->drill, fmin(factor * coil->drill.v, fmax(coil->drill.v, drill_most(coil))));
}

static void share_holes(idealizing *x)
{
    const fv_plant *plant = x->basis->plant;
    double drilled = 0, need = 0;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        drilled += study_drilled_area(&plant->vessels[i]->coil);
        need += x->basis->need[i];
    }
    const double area = fmax(drilled, enough_area(plant));
    for (size_t i = 0; i < plant->vessel_count; i++) {
        if (!is_meant(x, i))
            continue;
        lower(x, &x->plant->vessels[i]->coil.clogged, 0);
        if (need > 0 && x->basis->need[i] > 0)
            scale_holes(x, &x->plant->vessels[i]->coil, area * x->basis->need[i] / need);
    }
}

/* After the holes: the bore follows their area. */
static void widen_coils(idealizing *x)
{
    for (size_t i = 0; i < x->plant->vessel_count; i++) {
        fv_coil *coil = &x->plant->vessels[i]->coil;
        if (!is_meant(x, i))
            continue;
        set(x, &coil->entry, 0);
        const double bore = fmin(1, sqrt(WIDE * study_drilled_area(coil) / (FV_PI / 4)));
        if (bore > coil->bore.v)
            set(x, &coil->bore, bore);
    }
}

/* ---- vessels ---- */

static void drain(idealizing *x)
{
    for (size_t i = 0; i < x->plant->vessel_count; i++) {
        fv_vessel *v = x->plant->vessels[i];
        if (!is_meant(x, i))
            continue;
        lower(x, &v->water, 0);
        if (fv_is_set(v->sump_area))
            set(x, &v->sump_area, SUMP_MOST);
    }
}

fv_opening *study_vent_of(const fv_vessel *vessel)
{
    for (size_t j = 0; j < vessel->opening_count; j++)
        if (vessel->openings[j]->kind == FV_OPENING_VENT)
            return vessel->openings[j];
    return NULL;
}

static void widen_vent(idealizing *x, size_t i)
{
    fv_opening *vent = study_vent_of(x->plant->vessels[i]);
    const double to = x->basis->vent ? x->basis->vent[i] : (double)NAN;
    if (!is_meant(x, i) || !vent || isnan(to))
        return;
    if (fv_is_set(vent->area))
        set(x, &vent->area, FV_PI / 4 * to * to);
    else
        set(x, &vent->diameter, to);
}

/* No draught, no flow both ways through a large one, and no vent that holds a pressure which lifts the lid. */
static void tighten(idealizing *x)
{
    for (size_t i = 0; i < x->plant->vessel_count; i++) {
        const fv_vessel *v = x->plant->vessels[i];
        widen_vent(x, i);
        for (size_t j = 0; j < v->opening_count && is_meant(x, i); j++) {
            fv_opening *o = v->openings[j];
            if (o->kind == FV_OPENING_GAP) {
                lower(x, &o->area, 0);
                lower(x, &o->diameter, 0);
            } else if (o->height.v != 0) {
                set(x, &o->height, 0);
            }
        }
        for (size_t j = 0; j < v->opening_count && is_meant(x, i); j++)
            if (fv_opening_exchanges(v, v->openings[j]))
                set(x, &v->openings[j]->exchange, 0);
    }
}

/* Room that the load takes, m3; NaN where the file leaves it open. */
static double load_volume(const fv_load *load)
{
    const bool bed = fv_word(load->form) == FV_FORM_BED;
    const double sizes = fv_load_piece_volume(load) * (bed ? 1 : load->count.v);
    return isnan(sizes) ? load->mass.v / load->density.v : sizes;
}

static void fill_up(idealizing *x)
{
    for (size_t i = 0; i < x->plant->vessel_count; i++) {
        fv_vessel *v = x->plant->vessels[i];
        if (!is_meant(x, i))
            continue;
        const double load = load_volume(&v->load);
        lower(x, &v->volume, isnan(load) ? GAS_LEAST * v->volume.v : load / (1 - GAS_LEAST));
    }
    study_keep_packing(x->plant);
}

static void lag_walls(idealizing *x)
{
    for (size_t i = 0; i < x->plant->vessel_count; i++) {
        fv_vessel *v = x->plant->vessels[i];
        if (!is_meant(x, i))
            continue;
        for (size_t j = 0; j < v->wall_count; j++)
            lower(x, &v->walls[j]->area, AREA_LEAST);
        lower(x, &v->shell.mass, 0);
    }
}

/* ---- loads ---- */

/* -1, 0, 1: vessel a's load heats through sooner than b's, or equals it and is lighter. */
static int compare_loads(const study_basis *basis, size_t a, size_t b)
{
    const double first = basis->ample[a], second = basis->ample[b];
    if (fabs(first - second) > SAME * first)
        return first < second ? -1 : 1;
    const double mass_a = fv_load_mass(&basis->plant->vessels[a]->load);
    const double mass_b = fv_load_mass(&basis->plant->vessels[b]->load);
    return mass_a < mass_b * (1 - SAME) ? -1 : mass_b < mass_a * (1 - SAME) ? 1 : 0;
}

/* The middle one of all loads, the lower of two; -1: none is known. */
static int usual_load(const study_basis *basis)
{
    const size_t n = basis->plant->vessel_count;
    size_t known = 0;
    for (size_t i = 0; i < n; i++)
        known += basis->ample[i] > 0;
    for (size_t i = 0; i < n; i++) {
        size_t below = 0, equal = 0;
        for (size_t j = 0; j < n && basis->ample[i] > 0; j++) {
            if (!(basis->ample[j] > 0))
                continue;
            const int order = compare_loads(basis, j, i);
            below += order < 0;
            equal += order == 0;
        }
        if (equal > 0 && below <= (known - 1) / 2 && (known - 1) / 2 < below + equal)
            return (int)i;
    }
    return -1;
}

/* Of the same form, no more of it, and there is room for it. */
static bool may_stand_for(const fv_vessel *vessel, const fv_load *theirs)
{
    const fv_load *mine = &vessel->load;
    return mine->form.v == theirs->form.v && fv_load_mass(theirs) <= fv_load_mass(mine) * (1 + SAME) &&
           !(load_volume(theirs) > vessel->volume.v);
}

/* All that the schema says of a load, also that something is left open. */
static void put_in(idealizing *x, fv_vessel *vessel, fv_load *theirs)
{
    const fv_element *element = theirs->part.element;
    for (size_t i = 0; i < element->attr_count; i++) {
        fv_value *mine = fv_attr_value(&vessel->load, &element->attrs[i]);
        const fv_value *other = fv_attr_value(theirs, &element->attrs[i]);
        if (fv_is_set(*other))
            set(x, mine, other->v);
        else
            *mine = *other;
    }
    x->changed = true;
}

static void ease_loads(idealizing *x)
{
    const int usual = usual_load(x->basis);
    for (size_t i = 0; i < x->plant->vessel_count; i++) {
        fv_load *load = &x->plant->vessels[i]->load;
        if (!is_meant(x, i))
            continue;
        if (usual >= 0 && x->basis->ample[i] > 0 && compare_loads(x->basis, (size_t)usual, i) < 0 &&
            may_stand_for(x->plant->vessels[i], &x->basis->plant->vessels[usual]->load))
            put_in(x, x->plant->vessels[i], &x->basis->plant->vessels[usual]->load);
        if (fv_word(load->packing) != FV_PACKING_LOOSE)
            set(x, &load->packing, FV_PACKING_LOOSE);
    }
}

static void take_away(idealizing *x, fv_why_cause cause)
{
    switch (cause) {
    case FV_WHY_BOILER:
        ample_boilers(x);
        break;
    case FV_WHY_HEADER:
        smooth_lines(x, WAY_SHARED);
        break;
    case FV_WHY_HOSE:
        smooth_lines(x, WAY_OWN);
        break;
    case FV_WHY_FITTINGS:
        open_fittings(x);
        break;
    case FV_WHY_SAG:
        hang_up(x);
        break;
    case FV_WHY_WATER:
        drain(x);
        break;
    case FV_WHY_HOLES:
        share_holes(x);
        break;
    case FV_WHY_COIL:
        widen_coils(x);
        break;
    case FV_WHY_OPENINGS:
        tighten(x);
        break;
    case FV_WHY_AIR:
        fill_up(x);
        break;
    case FV_WHY_WALLS:
        lag_walls(x);
        break;
    case FV_WHY_LINE_LOSS:
        lag_lines(x);
        break;
    case FV_WHY_LOAD:
        ease_loads(x);
        break;
    case FV_WHY_CAUSES:
        break;
    }
}

/* All has been taken over by now: from here on no change of one part is to reach those that are like it, and what is
 * left open must not come from a kind again. */
static void stand_alone(fv_plant *plant)
{
    for (size_t i = 0; i < plant->boiler_count; i++)
        plant->boilers[i]->part.like = NULL;
    for (size_t i = 0; i < plant->line_count; i++)
        plant->lines[i]->part.like = NULL;
    for (size_t i = 0; i < plant->vessel_count; i++)
        plant->vessels[i]->part.like = NULL;
}

fv_status study_idealize(const study_basis *basis, study_causes causes, int only, fv_plant *copy, study_causes *changed,
                         fv_faults *faults)
{
    idealizing x = {.basis = basis, .plant = copy, .only = only};
    study_causes found = 0;
    stand_alone(copy);
    /* In this order: air follows the load, the coil's bore its holes. */
    static const fv_why_cause order[] = {FV_WHY_LOAD,     FV_WHY_AIR,   FV_WHY_HOLES,    FV_WHY_COIL, FV_WHY_BOILER,
                                         FV_WHY_HEADER,   FV_WHY_HOSE,  FV_WHY_FITTINGS, FV_WHY_SAG,  FV_WHY_WATER,
                                         FV_WHY_OPENINGS, FV_WHY_WALLS, FV_WHY_LINE_LOSS};
    for (size_t i = 0; i < sizeof order / sizeof *order; i++) {
        if (!(causes & study_cause_bit(order[i])))
            continue;
        x.changed = false;
        take_away(&x, order[i]);
        if (x.changed)
            found |= study_cause_bit(order[i]);
    }
    if (changed)
        *changed = found;
    return fv_plant_link(copy, faults);
}
