/* SPDX-License-Identifier: MIT */
/* `like`: a part takes after a kind or after another part of its sort. What it says itself stays; a list (walls,
 * openings, holes, fittings) that it has itself replaces the other's. */
#include "model/link.h"
#include "model/near.h"

#include <string.h>

enum { LONGEST_CHAIN = 32 };

static bool is_vessel(const fv_element *element)
{
    return element == model_element(EL_VESSEL) || element == model_element(EL_KIND);
}

static void *list_at(const void *list, size_t i)
{
    void *part;
    memcpy(&part, (const char *)list + i * sizeof part, sizeof part);
    return part;
}

/* A part of its own for the taker, in which everything counts as taken over. */
static void *take_part(fv_plant *plant, const fv_element *element, const void *theirs)
{
    fv_part *part = fv_arena_alloc(plant->arena, 1, element->size);
    if (!part)
        return NULL;
    memcpy(part, theirs, element->size);
    part->id = part->like = NULL;
    part->texts_from_kind = part->lists_from_kind = 0;
    for (size_t i = 0; i < element->attr_count; i++) {
        const fv_attr *attr = &element->attrs[i];
        if (attr->dim == FV_DIM_TEXT && *fv_attr_text(part, attr))
            part->texts_from_kind |= 1u << i;
        else if (!model_is_text(attr) && fv_attr_value(part, attr)->origin > FV_KIND)
            fv_attr_value(part, attr)->origin = FV_KIND;
    }
    return part;
}

typedef const fv_element *element_of(const void *part);

static const fv_element *element_of_fitting(const void *part)
{
    return model_fitting_element(((const fv_fitting *)part)->kind);
}
static const fv_element *element_of_hole(const void *part)
{
    (void)part;
    return model_element(EL_HOLE);
}
static const fv_element *element_of_wall(const void *part)
{
    (void)part;
    return model_element(EL_WALL);
}
static const fv_element *element_of_layer(const void *part)
{
    (void)part;
    return model_element(EL_LAYER);
}
static const fv_element *element_of_opening(const void *part)
{
    return model_opening_element(((const fv_opening *)part)->kind);
}

typedef struct {
    fv_part *head; /* of the taker, which remembers that the list is not its own */
    unsigned bit;
    element_of *element;
    const void *theirs;
    size_t their_count;
} taking;

/* Gives the list that the taker has from now on; NULL with *count > 0: out of memory. */
static void *take_list(fv_plant *plant, const taking *t, void *mine, size_t *count)
{
    bool own = *count > 0 && !(t->head->lists_from_kind & t->bit);
    if (own || (t->their_count == 0 && *count == 0))
        return mine;
    t->head->lists_from_kind |= t->bit;
    if (*count == t->their_count) {
        for (size_t i = 0; i < *count; i++)
            fv_element_inherit(t->element(list_at(mine, i)), list_at(mine, i), list_at(t->theirs, i));
        return mine;
    }
    void *list = NULL;
    for (size_t i = 0; i < t->their_count; i++) {
        const void *theirs = list_at(t->theirs, i);
        void *part = take_part(plant, t->element(theirs), theirs);
        list = model_room(plant->arena, list, i);
        if (!part || !list) {
            *count = t->their_count;
            return NULL;
        }
        memcpy((char *)list + i * sizeof part, &part, sizeof part);
    }
    *count = t->their_count;
    return list;
}

static bool take_walls(fv_plant *plant, fv_vessel *vessel, const fv_vessel *from)
{
    const taking t = {&vessel->part, MODEL_FIRST_LIST, element_of_wall, from->walls, from->wall_count};
    bool own = vessel->wall_count > 0 && !(vessel->part.lists_from_kind & MODEL_FIRST_LIST);
    vessel->walls = take_list(plant, &t, vessel->walls, &vessel->wall_count);
    if (!vessel->walls && vessel->wall_count)
        return false;
    for (size_t i = 0; !own && i < vessel->wall_count; i++) {
        fv_wall *wall = vessel->walls[i];
        const fv_wall *theirs = from->walls[i];
        if (wall->layers == theirs->layers) { /* copied with the struct just now */
            wall->layers = NULL;
            wall->layer_count = 0;
        }
        const taking l = {&wall->part, MODEL_FIRST_LIST, element_of_layer, theirs->layers, theirs->layer_count};
        wall->layers = take_list(plant, &l, wall->layers, &wall->layer_count);
        if (!wall->layers && wall->layer_count)
            return false;
    }
    return true;
}

static void forget(fv_value *value)
{
    if (value->origin == FV_KIND)
        *value = model_fallback(NAN);
}

/* Holes come as a count or one by one: what the taker has of one sort keeps out the other. */
static bool take_coil(fv_plant *plant, fv_coil *coil, const fv_coil *from)
{
    fv_element_inherit(model_element(EL_COIL), coil, from);
    bool own_list = coil->hole_count > 0 && !(coil->part.lists_from_kind & MODEL_FIRST_LIST);
    if (own_list) {
        forget(&coil->holes);
        forget(&coil->drill);
        forget(&coil->spacing);
        forget(&coil->first);
        return true;
    }
    if (model_is_own(coil->holes)) {
        coil->hole_count = 0;
        return true;
    }
    const taking t = {&coil->part, MODEL_FIRST_LIST, element_of_hole, from->hole, from->hole_count};
    coil->hole = take_list(plant, &t, coil->hole, &coil->hole_count);
    return coil->hole || !coil->hole_count;
}

/* A vessel that says how many pieces it holds does not take over the kind's mass, and the other way round. */
static void take_load(fv_load *load, const fv_load *from)
{
    fv_element_inherit(model_element(EL_LOAD), load, from);
    if (model_is_own(load->count) && !model_is_own(load->mass))
        forget(&load->mass);
    if (model_is_own(load->mass) && !model_is_own(load->count))
        forget(&load->count);
}

static bool take_vessel(fv_plant *plant, fv_vessel *vessel, const fv_vessel *from)
{
    fv_element_inherit(model_element(EL_VESSEL), vessel, from);
    take_load(&vessel->load, &from->load);
    fv_element_inherit(model_element(EL_SHELL), &vessel->shell, &from->shell);
    const taking t = {&vessel->part, MODEL_SECOND_LIST, element_of_opening, from->openings, from->opening_count};
    vessel->openings = take_list(plant, &t, vessel->openings, &vessel->opening_count);
    return (vessel->openings || !vessel->opening_count) && take_coil(plant, &vessel->coil, &from->coil) &&
           take_walls(plant, vessel, from);
}

static bool take_line(fv_plant *plant, fv_line *line, const fv_line *from)
{
    fv_element_inherit(model_line_element(line->kind), line, from);
    const taking t = {&line->part, MODEL_FIRST_LIST, element_of_fitting, from->fittings, from->fitting_count};
    line->fittings = take_list(plant, &t, line->fittings, &line->fitting_count);
    return line->fittings || !line->fitting_count;
}

static bool take(fv_plant *plant, const model_named *taker, const model_named *from)
{
    if (is_vessel(taker->element))
        return take_vessel(plant, (fv_vessel *)taker->part, (const fv_vessel *)from->part);
    if (taker->element == model_element(EL_BOILER)) {
        fv_element_inherit(taker->element, taker->part, from->part);
        return true;
    }
    return take_line(plant, (fv_line *)taker->part, (const fv_line *)from->part);
}

static bool is_alike(const fv_element *a, const fv_element *b)
{
    return a == b || (is_vessel(a) && is_vessel(b));
}

static void say_unknown(const model_link *link, const model_named *taker, const char *who)
{
    model_near near = model_near_start(taker->part->like);
    for (size_t i = 0; i < link->names.count && model_may_hint(link); i++)
        if (is_alike(link->names.list[i].element, taker->element))
            model_near_try(&near, link->names.list[i].id);
    char hint[MODEL_SAY];
    fv_error(link->faults, FV_ERR_INPUT, taker->part->loc, "%s is like '%s', but nothing has that id%s", who,
             taker->part->like, model_near_hint(&near, hint, sizeof hint));
}

/* What the taker is like, or NULL with the reason said. */
static model_named *followed(const model_link *link, const model_named *taker)
{
    char who[MODEL_SAY];
    model_name_of(taker->element, taker->part, who, sizeof who);
    const model_named *from = model_names_find(&link->names, taker->part->like);
    if (!from) {
        say_unknown(link, taker, who);
        return NULL;
    }
    if (!is_alike(from->element, taker->element)) {
        fv_error(link->faults, FV_ERR_INPUT, taker->part->loc, "%s is like '%s', which is a %s; it can only be like %s",
                 who, taker->part->like, from->element->name,
                 is_vessel(taker->element) ? "a kind or a vessel" : "another of its sort");
        return NULL;
    }
    return &link->names.list[from - link->names.list];
}

/* Follows `like` from one part to the end or to what is settled, then takes over from the far end back. */
static bool settle(const model_link *link, model_named *start)
{
    model_named *chain[LONGEST_CHAIN];
    size_t length = 0;
    for (model_named *named = start; named && !named->settled;
         named = named->part->like ? followed(link, named) : NULL) {
        bool met = false;
        for (size_t i = 0; i < length; i++)
            met = met || chain[i] == named;
        if (met || length == LONGEST_CHAIN) {
            char who[MODEL_SAY];
            model_name_of(start->element, start->part, who, sizeof who);
            fv_error(link->faults, FV_ERR_INPUT, start->part->loc,
                     met ? "%s is like '%s', which in turn is like it: a circle"
                         : "%s is like '%s', which is like another, and so on, more than 32 times",
                     who, start->part->like);
            for (size_t i = 0; i < length; i++)
                chain[i]->settled = true;
            return true;
        }
        chain[length++] = named;
    }
    bool good = true;
    for (size_t i = length; i-- > 0 && good;) {
        const char *like = chain[i]->part->like;
        const model_named *from = like ? model_names_find(&link->names, like) : NULL;
        if (from && is_alike(from->element, chain[i]->element))
            good = take(link->plant, chain[i], from);
        chain[i]->settled = true;
    }
    return good;
}

bool model_take_kinds(model_link *link)
{
    bool good = true;
    for (size_t i = 0; i < link->names.count && good; i++)
        if (link->names.list[i].part->like)
            good = settle(link, &link->names.list[i]);
    return good;
}
