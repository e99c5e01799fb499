/* SPDX-License-Identifier: MIT */
/* Plain sense of vessels and kinds. What a vessel takes over unchanged is said once, at the kind. */
#include "model/check.h"

#include <stdio.h>

/* Walls have a handful; what follows them has room for so many, each with its cells. */
enum { LAYERS_MOST = 12 };

#define FULL 0.9 /* of the volume: loose pieces fill no more; common practice, no source */

/* What a vessel or its kind lacks: bits of model_named.reported. */
enum { NO_COIL, NO_BORE, NO_LENGTH, NO_HOLES, NO_DRILL, NO_OPENING, NO_ROOM, LOAD_GAPS };

/* The last in the chain of `like`: there a common fault is to be mended. */
static model_named *root_of(const model_link *link, const fv_vessel *vessel)
{
    const fv_part *part = &vessel->part;
    const model_named *named = NULL;
    for (int steps = 0; part->like && steps < 64; steps++) {
        const model_named *next = model_names_find(&link->names, part->like);
        if (!next || (next->element != model_element(EL_KIND) && next->element != model_element(EL_VESSEL)))
            break;
        named = next;
        part = next->part;
    }
    return named ? &link->names.list[named - link->names.list] : NULL;
}

typedef const fv_part *part_in(const fv_vessel *vessel);

static const fv_part *itself(const fv_vessel *vessel)
{
    return &vessel->part;
}
static const fv_part *its_coil(const fv_vessel *vessel)
{
    return &vessel->coil.part;
}
static const fv_part *its_load(const fv_vessel *vessel)
{
    return &vessel->load.part;
}

/* Says that something is missing, at the vessel itself or, once, at the kind that leaves it open. */
static void say_missing(const model_link *link, const fv_vessel *vessel, unsigned bit, part_in *place, const char *what)
{
    char who[MODEL_SAY], taker[MODEL_SAY];
    model_named *root = root_of(link, vessel);
    model_name_of(model_element(EL_VESSEL), vessel, taker, sizeof taker);
    if (!root) {
        fv_error(link->faults, FV_ERR_INPUT, place(vessel)->loc, "%s: %s", taker, what);
    } else if (!(root->reported >> bit & 1u)) {
        root->reported |= 1u << bit;
        model_name_of(root->element, root->part, who, sizeof who);
        fv_error(link->faults, FV_ERR_INPUT, place((const fv_vessel *)root->part)->loc, "%s, which %s is like: %s", who,
                 taker, what);
    }
}

static void check_coil_whole(const model_link *link, const fv_vessel *vessel)
{
    const fv_coil *coil = &vessel->coil;
    if (!fv_is_set(coil->bore) && !fv_is_set(coil->length) && !fv_is_set(coil->holes) && !coil->hole_count) {
        say_missing(link, vessel, NO_COIL, itself,
                    "has no coil; give <coil bore=\"27 mm\" length=\"2 m\" holes=\"30\" drill=\"3 mm\"/>");
        return;
    }
    if (!fv_is_set(coil->bore))
        say_missing(link, vessel, NO_BORE, its_coil, "its coil has no bore; for example bore=\"27 mm\"");
    if (!fv_is_set(coil->length))
        say_missing(link, vessel, NO_LENGTH, its_coil, "its coil has no length; for example length=\"2 m\"");
    if (!coil->hole_count && !fv_is_set(coil->holes))
        say_missing(link, vessel, NO_HOLES, its_coil,
                    "its coil has no holes; give holes=\"30\" drill=\"3 mm\" or <hole> elements");
    else if (!coil->hole_count && !fv_is_set(coil->drill))
        say_missing(link, vessel, NO_DRILL, its_coil, "its coil's holes have no diameter; for example drill=\"3 mm\"");
}

/* A size whose text was refused (NaN, but said) counts as open: what is wrong with it has been said. */
static bool is_open(fv_value size)
{
    return fv_is_set(size) && !(size.v <= 0.0);
}

static bool lets_out(const fv_opening *opening)
{
    return opening->kind != FV_OPENING_GAP && (is_open(opening->area) || is_open(opening->diameter));
}

static void check_openings(const model_link *link, const fv_vessel *vessel)
{
    char who[MODEL_SAY];
    bool open = false;
    for (size_t i = 0; i < vessel->opening_count; i++) {
        const fv_opening *opening = vessel->openings[i];
        bool said = fv_is_set(opening->area) || fv_is_set(opening->diameter);
        open = open || lets_out(opening) || (!said && opening->kind != FV_OPENING_GAP);
        if (vessel->part.lists_from_kind & MODEL_SECOND_LIST)
            continue;
        model_name(&(fv_stop){.element = model_opening_element(opening->kind),
                              .part = &vessel->openings[i]->part,
                              .owner = &vessel->part,
                              .number = i + 1},
                   who, sizeof who);
        if (!said)
            fv_error(link->faults, FV_ERR_INPUT, opening->part.loc,
                     "%s: neither area nor diameter is given; for example diameter=\"25 mm\"", who);
        else if (fv_is_set(opening->area) && fv_is_set(opening->diameter))
            fv_error(link->faults, FV_ERR_INPUT, opening->part.loc, "%s: both area and diameter are given; keep one",
                     who);
    }
    if (!vessel->is_kind && !open)
        say_missing(link, vessel, NO_OPENING, itself,
                    "has no open vent or drain; it would be a pressure vessel, which is refused: give it one, such as "
                    "<drain diameter=\"25 mm\"/>");
}

static void check_layer(const model_link *link, const fv_wall_layer *layer, const char *who)
{
    const fv_material *material = model_material(link, layer->part.loc, who, layer->material, false);
    if (layer->material && !material)
        return;
    if (!fv_is_set(layer->conductivity) || !fv_is_set(layer->density) || !fv_is_set(layer->specific_heat))
        fv_error(link->faults, FV_ERR_INPUT, layer->part.loc,
                 "%s: a layer without material needs conductivity, density and specific-heat; for example "
                 "material=\"plywood\"",
                 who);
}

static void check_walls(const model_link *link, const fv_vessel *vessel)
{
    char who[MODEL_SAY];
    for (size_t i = 0; i < vessel->wall_count && !(vessel->part.lists_from_kind & MODEL_FIRST_LIST); i++) {
        const fv_wall *wall = vessel->walls[i];
        model_name(&(fv_stop){.element = model_element(EL_WALL),
                              .part = &vessel->walls[i]->part,
                              .owner = &vessel->part,
                              .number = i + 1},
                   who, sizeof who);
        if (!wall->layer_count)
            fv_error(link->faults, FV_ERR_INPUT, wall->part.loc,
                     "%s: has no layers; give what it is made of from the inside out, such as <layer "
                     "material=\"plywood\" thickness=\"18 mm\"/>",
                     who);
        if (wall->layer_count > LAYERS_MOST)
            fv_error(link->faults, FV_ERR_INPUT, wall->part.loc, "%s: has %zu layers; at most %d can be followed", who,
                     wall->layer_count, LAYERS_MOST);
        for (size_t j = 0; j < wall->layer_count; j++)
            check_layer(link, wall->layers[j], who);
    }
}

static void check_treatment(const model_link *link, const fv_vessel *vessel, const char *who)
{
    char x[MODEL_SAY], y[MODEL_SAY];
    if (!vessel->is_kind && fv_word(vessel->phase) == FV_PHASE_HOLDING && !fv_is_set(vessel->uptake))
        fv_error(link->faults, FV_ERR_INPUT, vessel->part.loc,
                 "%s: phase is holding, so uptake must say what heat it takes; for example uptake=\"2 kW\"", who);
    bool own = model_is_own(vessel->cool) || model_is_own(vessel->target);
    if (own && vessel->cool.v >= vessel->target.v)
        fv_error(link->faults, FV_ERR_INPUT, vessel->part.loc,
                 "%s: cool is %s, not below the target of %s; cooling ends below the target", who,
                 model_quantity(FV_DIM_TEMPERATURE, vessel->cool.v, x, sizeof x),
                 model_quantity(FV_DIM_TEMPERATURE, vessel->target.v, y, sizeof y));
}

static bool has_own_coil(const fv_coil *coil)
{
    return model_says(model_element(EL_COIL), coil) ||
           (coil->hole_count && !(coil->part.lists_from_kind & MODEL_FIRST_LIST));
}

/* A stack stands in the vessel as a whole; loose pieces leave gaps between them. */
static void check_packing(const model_link *link, const fv_vessel *vessel, const char *who, double takes)
{
    char x[MODEL_SAY], y[MODEL_SAY];
    const fv_load *load = &vessel->load;
    const double stack = load->stack_a.v * load->stack_b.v * load->stack_c.v;
    const bool packed = fv_word(load->packing) == FV_PACKING_PACKED;
    if (packed && stack > vessel->volume.v)
        fv_error(link->faults, FV_ERR_INPUT, load->part.loc, "%s: its stack takes %s, but the volume is %s", who,
                 model_quantity(FV_DIM_VOLUME, stack, x, sizeof x),
                 model_quantity(FV_DIM_VOLUME, vessel->volume.v, y, sizeof y));
    else if (!packed && fv_word(load->form) != FV_FORM_BED && takes > FULL * vessel->volume.v)
        fv_caution(link->faults, FV_ERR_INPUT, load->part.loc,
                   "%s: its load takes %s of %s; so close it hardly leaves gaps that steam could get through to every "
                   "piece: are the sizes right, or is it packed?",
                   who, model_quantity(FV_DIM_VOLUME, takes, x, sizeof x),
                   model_quantity(FV_DIM_VOLUME, vessel->volume.v, y, sizeof y));
}

/* Too big a load is the vessel's own fault if it says anything of load or volume, else that of what it is like. */
static void check_room(const model_link *link, const fv_vessel *vessel)
{
    char what[3 * MODEL_SAY], who[MODEL_SAY], x[MODEL_SAY], y[MODEL_SAY];
    double takes;
    if (vessel->is_kind)
        return;
    const bool own = model_says(model_element(EL_LOAD), &vessel->load) || model_is_own(vessel->volume);
    model_name_of(model_element(EL_VESSEL), vessel, who, sizeof who);
    if (model_load_fits(vessel, &takes)) {
        check_packing(link, vessel, who, takes);
        return;
    }
    snprintf(what, sizeof what, "its load takes %s, but the volume is %s",
             model_quantity(FV_DIM_VOLUME, takes, x, sizeof x),
             model_quantity(FV_DIM_VOLUME, vessel->volume.v, y, sizeof y));
    if (own)
        fv_error(link->faults, FV_ERR_INPUT, vessel->load.part.loc, "%s: %s", who, what);
    else
        say_missing(link, vessel, NO_ROOM, its_load, what);
}

static void check_load(const model_link *link, const fv_vessel *vessel, const char *who)
{
    char inside[2 * MODEL_SAY];
    if (!model_has_load(&vessel->load))
        return;
    for (int gap = 0; gap < MODEL_GAPS && !vessel->is_kind; gap++) {
        const char *what = model_load_gap(&vessel->load, (model_load_gap_kind)gap);
        if (what)
            say_missing(link, vessel, (unsigned)(LOAD_GAPS + gap), its_load, what);
    }
    if (model_says(model_element(EL_LOAD), &vessel->load)) {
        snprintf(inside, sizeof inside, "load of %s", who);
        model_check_load(link, inside, &vessel->load);
    }
    check_room(link, vessel);
}

/* What is laid out in the open must be pieces. */
static void check_unloading(const model_link *link, const fv_vessel *v, const char *who)
{
    const bool shelves = fv_word(v->cooling) == FV_COOL_SHELVES, off = fv_word(v->lid) == FV_LID_OFF;
    if ((shelves || off) && fv_word(v->load.form) == FV_FORM_BED)
        fv_error(link->faults, FV_ERR_INPUT, v->part.loc,
                 "%s: %s is for pieces, and its load is a bed; a bed cools attached or detached, with its lid on or "
                 "cracked",
                 who, shelves ? "cooling=\"shelves\"" : "lid=\"off\"");
    if (shelves || off) {
        if (v->evaporates.origin == FV_GIVEN && fv_word(v->evaporates) > 0 && !v->is_kind &&
            (fv_word(v->load.wrap) != FV_WRAP_BARE || fv_is_set(v->shelf_surface)))
            fv_error(link->faults, FV_ERR_INPUT, v->part.loc, "%s: evaporates has no effect here: %s", who,
                     fv_is_set(v->shelf_surface) ? "shelf-surface is given, whatever it is of"
                                                 : "its load is wrapped; give wrap=\"bare\"");
        return;
    }
    const fv_value *only[] = {&v->shelf_air, &v->shelf_surface, &v->evaporates};
    static const char *const names[] = {"shelf-air", "shelf-surface", "evaporates"};
    for (size_t i = 0; i < sizeof only / sizeof *only; i++)
        if (only[i]->origin == FV_GIVEN && !v->is_kind)
            fv_error(link->faults, FV_ERR_INPUT, v->part.loc,
                     "%s: %s has no effect here: nothing cools in the open; give cooling=\"shelves\"", who, names[i]);
}

static void check_vessel(const model_link *link, fv_vessel *vessel)
{
    char who[MODEL_SAY], inside[2 * MODEL_SAY];
    model_name_of(model_vessel_element(vessel), vessel, who, sizeof who);
    if (!vessel->is_kind)
        check_coil_whole(link, vessel);
    if (has_own_coil(&vessel->coil)) {
        snprintf(inside, sizeof inside, "coil of %s", who);
        model_check_coil(link, inside, &vessel->coil);
    }
    check_load(link, vessel, who);
    check_openings(link, vessel);
    check_walls(link, vessel);
    check_treatment(link, vessel, who);
    check_unloading(link, vessel, who);
}

bool model_check_vessels(model_link *link)
{
    for (size_t i = 0; i < link->plant->kind_count && !model_is_enough(link); i++)
        check_vessel(link, link->plant->kinds[i]);
    for (size_t i = 0; i < link->plant->vessel_count && !model_is_enough(link); i++)
        check_vessel(link, link->plant->vessels[i]);
    return true;
}
