/* SPDX-License-Identifier: MIT */
/* `like`: a part takes after a kind or after another part of its sort. What it says itself stays; a list (walls,
 * openings, holes, fittings) that it has itself replaces the other's.
 *
 * A kind stands for all that are like it, so a changed kind is followed whenever the plant is linked again. Another
 * part of the plant is a pattern for the file alone: who turns its valve turns no other, so what it says is taken over
 * once.
 */
#include "model/contains.h"
#include "model/link.h"
#include "model/near.h"

#include <string.h>

enum { LONGEST_CHAIN = 32 };

static bool is_vessel(const fv_element *element)
{
    return element == model_element(EL_VESSEL) || element == model_element(EL_KIND);
}

/* A part of its own for the taker, in which everything counts as taken over; its lists are still empty. */
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
    for (const model_slot *s = model_slot_next(element, NULL); s; s = model_slot_next(element, s)) {
        memset((char *)part + s->at, 0, sizeof(void *));
        memset((char *)part + s->count, 0, sizeof(size_t));
    }
    return part;
}

static bool take(fv_plant *plant, fv_part *part, const fv_part *from, bool own_too);

/* The owner's list becomes one of its own parts, all taken over. False: out of memory. */
static bool take_list(fv_plant *plant, const model_slot *slot, fv_part *owner, const fv_part *from, bool own_too)
{
    size_t mine = model_slot_count(slot, owner), theirs = model_slot_count(slot, from);
    bool own = mine > 0 && !(owner->lists_from_kind & slot->bit);
    if (own || (theirs == 0 && mine == 0))
        return true;
    owner->lists_from_kind |= slot->bit;
    bool good = true;
    if (mine != theirs) {
        void *list = NULL;
        for (size_t i = 0; i < theirs && good; i++) {
            const fv_part *other = model_slot_part(slot, from, i);
            fv_part *part = take_part(plant, other->element, other);
            list = model_room(plant->arena, list, i);
            good = part && list;
            if (good)
                memcpy((char *)list + i * sizeof part, &part, sizeof part);
        }
        memcpy((char *)owner + slot->at, &list, sizeof list);
        memcpy((char *)owner + slot->count, &theirs, sizeof theirs);
    }
    for (size_t i = 0; i < theirs && good; i++)
        good = take(plant, model_slot_part(slot, owner, i), model_slot_part(slot, from, i), own_too);
    return good;
}

static void forget(fv_value *value)
{
    if (value->origin == FV_KIND)
        *value = model_fallback(NAN);
}

/* Holes come as a count or one by one: what the taker has of one sort keeps out the other. True: keep the list. */
static bool sort_holes(fv_coil *coil)
{
    bool own_list = coil->hole_count > 0 && !(coil->part.lists_from_kind & MODEL_FIRST_LIST);
    if (own_list) {
        forget(&coil->holes);
        forget(&coil->drill);
        forget(&coil->spacing);
        forget(&coil->first);
    } else if (model_is_own(coil->holes)) {
        coil->hole_count = 0;
        return true;
    }
    return own_list;
}

/* A vessel that says how many pieces it holds does not take over the kind's mass, and the other way round. */
static void sort_load(fv_load *load)
{
    if (model_is_own(load->count) && !model_is_own(load->mass))
        forget(&load->mass);
    if (model_is_own(load->mass) && !model_is_own(load->count))
        forget(&load->count);
}

/* Values, what is always inside and lists. False: out of memory. */
static bool take(fv_plant *plant, fv_part *part, const fv_part *from, bool own_too)
{
    const fv_element *element = part->element;
    model_inherit(element, part, from, own_too);
    if (element == model_element(EL_LOAD))
        sort_load((fv_load *)part);
    bool keeps_list = element == model_element(EL_COIL) && sort_holes((fv_coil *)part);
    bool good = true;
    for (const model_slot *s = model_slot_next(element, NULL); s && good; s = model_slot_next(element, s))
        if (s->count == MODEL_ONCE)
            good = take(plant, model_slot_part(s, part, 0), model_slot_part(s, from, 0), own_too);
        else if (!keeps_list)
            good = take_list(plant, s, part, from, own_too);
    return good;
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

/* How many parts are inside, and so how many a taker gets at most. */
static size_t parts_in(const fv_part *part)
{
    size_t parts = 0;
    for (const model_slot *s = model_slot_next(part->element, NULL); s; s = model_slot_next(part->element, s)) {
        const size_t count = s->count == MODEL_ONCE ? 1 : model_slot_count(s, part);
        parts += s->count == MODEL_ONCE ? 0 : count;
        for (size_t i = 0; i < count; i++)
            parts += parts_in(model_slot_part(s, part, i));
    }
    return parts;
}

/* A few lines of a file could ask for more parts than any memory holds. */
static bool may_take(model_link *link, const model_named *taker, const model_named *from)
{
    char who[MODEL_SAY];
    const size_t most = link->plant->taken_most;
    link->taken += parts_in(from->part);
    if (!most || link->taken <= most)
        return true;
    fv_error(link->faults, FV_ERR_INPUT, taker->part->loc,
             "%s: more than %zu parts are brought in by like=\"...\"; no plant may hold so many",
             model_name_of(taker->element, taker->part, who, sizeof who), most);
    link->too_many = true;
    return false;
}

/* Follows `like` from one part to the end or to what is settled, then takes over from the far end back. */
static bool settle(model_link *link, model_named *start)
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
    for (size_t i = length; i-- > 0 && good && !link->too_many;) {
        const char *like = chain[i]->part->like;
        const model_named *from = like ? model_names_find(&link->names, like) : NULL;
        if (from && is_alike(from->element, chain[i]->element) && may_take(link, chain[i], from)) {
            fv_part *part = chain[i]->part;
            good = take(link->plant, part, from->part, !part->settled);
            part->settled = from->element != model_element(EL_KIND);
        }
        chain[i]->settled = true;
    }
    return good;
}

bool model_take_kinds(model_link *link)
{
    bool good = true;
    for (size_t i = 0; i < link->names.count && good && !link->too_many; i++)
        if (link->names.list[i].part->like)
            good = settle(link, &link->names.list[i]);
    return good;
}
