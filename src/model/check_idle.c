/* SPDX-License-Identifier: MIT */
/* What was said in the file and has no effect where it stands: beside another attribute that fixes the same, without
 * the one that it belongs to, or of another form. Whoever wrote it believes that it counts. */
#include "model/link.h"

#include <stdio.h>
#include <string.h>

typedef struct {
    model_place first, last;
    const char *idle, *other;
    bool without; /* idle where `other` is not said; else where it is */
    const char *why;
} idle_rule;

#define LINES EL_HEADER, EL_HOSE
#define ONLY(place) place, place

static const idle_rule rules[] = {
    {ONLY(EL_ACTION), "delay", "after", true,
     "it counts from an event, so it needs after; with at, add it to the time"},
    {ONLY(EL_THERMOSTAT), "fire", "boiler", true, "no boiler is named"},
    {ONLY(EL_THERMOSTAT), "else-fire", "boiler", true, "no boiler is named"},
    {ONLY(EL_THERMOSTAT), "open", "valve", true, "no valve is named"},
    {ONLY(EL_THERMOSTAT), "else-open", "valve", true, "no valve is named"},
    {ONLY(EL_SITE), "altitude", "pressure", false, "the pressure is given as it is"},
    {ONLY(EL_LOAD), "contact", "of", true, "nothing stands in rows; give packing=\"rows\" and of"},
    {LINES, "outside", "heat-loss", false, "the heat loss is given as it is"},
    {LINES, "emissivity", "heat-loss", false, "the heat loss is given as it is"},
    {LINES, "wall-conductivity", "heat-loss", false, "the heat loss is given as it is"},
    {LINES, "lagging-conductivity", "heat-loss", false, "the heat loss is given as it is"},
    {LINES, "air", "heat-loss", false, "the heat loss is given as it is"},
    {LINES, "wind", "heat-loss", false, "the heat loss is given as it is"},
    {LINES, "emissivity", "outside", false, "the outside coefficient is given, radiation included"},
    {LINES, "wind", "outside", false, "the outside coefficient is given as it is"},
    {LINES, "roughness", "friction", false, "the friction factor is given as it is"},
    {LINES, "lagging-material", "lagging", true, "the line is bare; give the thickness, such as lagging=\"25 mm\""},
    {LINES, "lagging-conductivity", "lagging", true, "the line is bare; give the thickness, such as lagging=\"25 mm\""},
    {ONLY(EL_VALVE), "bore", "k", true, "it is the bore that k refers to"},
    {ONLY(EL_COIL), "roughness", "friction", false, "the friction factor is given as it is"},
    {ONLY(EL_WALL), "emissivity", "outside", false, "the outside coefficient is given, radiation included"},
    {ONLY(EL_WALL), "wind", "outside", false, "the outside coefficient is given as it is"},
    {ONLY(EL_WALL), "height", "outside", false, "the outside coefficient is given as it is"},
};

/* Stands in the file; what studies and --set put on top may well outdo it. */
static bool is_given(const fv_stop *stop, const fv_attr *attr)
{
    if (!model_is_text(attr))
        return fv_attr_value(stop->part, attr)->origin == FV_GIVEN;
    return *fv_attr_text(stop->part, attr) && !(stop->part->texts_from_kind >> (attr - stop->element->attrs) & 1u);
}

/* Said at all, here or by what it is like. */
static bool is_said(const fv_stop *stop, const fv_attr *attr)
{
    return model_is_text(attr) ? *fv_attr_text(stop->part, attr) != NULL
                               : fv_attr_value(stop->part, attr)->origin > FV_ASSUMED;
}

static void say(const model_link *link, const fv_stop *stop, const char *idle, const char *why)
{
    char who[MODEL_SAY];
    fv_error(link->faults, FV_ERR_INPUT, stop->part->loc, "%s: %s has no effect here: %s",
             model_name(stop, who, sizeof who), idle, why);
}

static bool is_of(const idle_rule *rule, const fv_element *element)
{
    return element >= model_element(rule->first) && element <= model_element(rule->last);
}

static void check_rule(const model_link *link, const fv_stop *stop, const idle_rule *rule)
{
    const fv_attr *idle = fv_attr_find(stop->element, rule->idle), *other = fv_attr_find(stop->element, rule->other);
    if (!idle || !other || !is_given(stop, idle))
        return;
    if (rule->without ? !is_said(stop, other) : is_given(stop, other))
        say(link, stop, rule->idle, rule->why);
}

bool model_is_outdone(const fv_element *element, const void *part, const fv_attr *attr)
{
    for (size_t i = 0; i < sizeof rules / sizeof *rules; i++) {
        const idle_rule *r = &rules[i];
        if (!is_of(r, element) || r->without || strcmp(r->idle, attr->name) != 0)
            continue;
        const fv_attr *other = fv_attr_find(element, r->other);
        if (other && model_is_own(*(const fv_value *)(const void *)((const char *)part + other->offset)))
            return true;
    }
    return false;
}

/* Sizes that a load's form has no use for. */
static void check_form(const model_link *link, const fv_stop *stop)
{
    static const char *const sizes[] = {"a", "b", "c", "diameter", "height", "depth", "area"};
    static const char *const uses[] = {" a b c ", " a b c area ", " diameter height ", " diameter ", " depth area "};
    const fv_load *load = (const fv_load *)stop->part;
    const int form = fv_word(load->form);
    if (form < 0 || stop->taken)
        return;
    char word[16], wanted[16], why[MODEL_SAY];
    const fv_attr *forms = fv_attr_find(stop->element, "form");
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        snprintf(wanted, sizeof wanted, " %s ", sizes[i]);
        const bool used = strstr(uses[form], wanted) && !(form == FV_FORM_SLAB && i < 2 && fv_is_set(load->area));
        if (used || !is_given(stop, fv_attr_find(stop->element, sizes[i])))
            continue;
        snprintf(why, sizeof why, "a %s is described by%s%s", fv_word_at(forms->words, form, word, sizeof word),
                 uses[form], form == FV_FORM_SLAB ? "(area or a and b)" : "alone");
        say(link, stop, sizes[i], why);
    }
}

/* What belongs to bags and to rows. */
static void check_wrap(const model_link *link, const fv_stop *stop)
{
    const fv_load *load = (const fv_load *)stop->part;
    if (stop->taken)
        return;
    if (load->film_gap.origin == FV_GIVEN && fv_word(load->wrap) != FV_WRAP_BAG)
        say(link, stop, "film-gap", "only a bag lies loosely on what is in it; give wrap=\"bag\"");
    if (load->bag.origin == FV_GIVEN && fv_word(load->wrap) != FV_WRAP_BAG)
        say(link, stop, "bag", "it is the film of a bag; give wrap=\"bag\"");
    if (load->of && fv_word(load->packing) != FV_PACKING_ROWS && is_given(stop, fv_attr_find(stop->element, "of")))
        say(link, stop, "of", "it counts pieces in rows; give packing=\"rows\"");
}

/* Water in a wall that vapour does not get into. */
static void check_wet(const model_link *link, const fv_stop *stop)
{
    static const char *const of_water[] = {"wet-conductivity", "pores", "soaked"};
    for (size_t i = 0; i < sizeof of_water / sizeof *of_water; i++)
        if (!stop->taken && !fv_is_set(((const fv_wall_layer *)stop->part)->vapour_resistance) &&
            is_given(stop, fv_attr_find(stop->element, of_water[i])))
            say(link, stop, of_water[i], "no layer of its wall says vapour-resistance, so it stays dry");
}

/* What is told of both ways through an opening that passes gas one way. */
static void check_one_way(const model_link *link, const fv_stop *stop)
{
    static const char *const both_ways[] = {"faces", "thickness", "exchange"};
    const fv_vessel *vessel = (const fv_vessel *)(const void *)stop->owner;
    if (stop->taken || fv_opening_exchanges(vessel, (const fv_opening *)(const void *)stop->part))
        return;
    for (size_t i = 0; i < sizeof both_ways / sizeof *both_ways; i++)
        if (is_given(stop, fv_attr_find(stop->element, both_ways[i])))
            say(link, stop, both_ways[i],
                "gas passes it one way at a time, as all openings that are not over 100 mm and alone at their height");
}

static bool check_part(void *context, const fv_stop *stop)
{
    const model_link *link = context;
    for (size_t i = 0; i < sizeof rules / sizeof *rules && !stop->taken; i++)
        if (is_of(&rules[i], stop->element))
            check_rule(link, stop, &rules[i]);
    if (stop->element == model_element(EL_LOAD))
        check_form(link, stop);
    if (stop->element == model_element(EL_LOAD))
        check_wrap(link, stop);
    if (stop->element == model_element(EL_LAYER))
        check_wet(link, stop);
    if (stop->element >= model_opening_element(FV_OPENING_VENT) &&
        stop->element <= model_opening_element(FV_OPENING_GAP))
        check_one_way(link, stop);
    return !model_is_enough(link);
}

bool model_check_idle(model_link *link)
{
    fv_plant_walk(link->plant, check_part, link);
    return true;
}
