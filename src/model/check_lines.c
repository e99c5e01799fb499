/* SPDX-License-Identifier: MIT */
/* Plain sense of site, stock, boilers, lines and what sits in them. */
#include "farvessel/constants.h"
#include "model/check.h"
#include "model/near.h"

#define BOILING 373.15 /* K: no line of steam is colder by more than a site's altitude makes it */
/* Water / output, m3/W: coiled boilers hold little, tanks over a fire much; common practice, no source. */
#define WATER_LEAST 0.1e-6
#define WATER_MOST 40e-6
#define COLEBROOK_ROUGHEST 0.05

static void say_unknown_material(const model_link *link, fv_loc loc, const char *who, const char *name)
{
    char hint[MODEL_SAY];
    size_t count;
    const fv_material *all = fv_materials(&count);
    model_near near = model_near_start(name);
    for (size_t i = 0; i < count; i++)
        model_near_try(&near, all[i].name);
    const char *meant = model_near_hint(&near, hint, sizeof hint);
    fv_error(link->faults, FV_ERR_INPUT, loc, "%s: no material is called '%s'%s", who, name,
             *meant ? meant : "; farvessel check --list materials names those there are");
}

const fv_material *model_material(const model_link *link, fv_loc loc, const char *who, const char *name, bool strict)
{
    const fv_material *material = name ? fv_material_find(name) : NULL;
    if (name && !material)
        say_unknown_material(link, loc, who, name);
    if (!material || !(material->most < BOILING))
        return material;
    if (strict)
        fv_error(link->faults, FV_ERR_INPUT, loc,
                 "%s: %s is rated to %.0f degC only; steam needs a material that stands "
                 "100 degC and more",
                 who, name, material->most - FV_CELSIUS);
    else
        fv_caution(link->faults, FV_ERR_INPUT, loc, "%s: %s softens at about %.0f degC, below steam temperature", who,
                   name, material->most - FV_CELSIUS);
    return material;
}

static void check_site(const model_link *link)
{
    const fv_site *site = &link->plant->site;
    for (size_t i = 1; i < site->weather_count; i++) {
        const fv_weather *row = site->weather[i];
        char now[MODEL_SAY], before[MODEL_SAY];
        if (row->at.v <= site->weather[i - 1]->at.v)
            fv_error(link->faults, FV_ERR_INPUT, row->part.loc,
                     "weather: at is %s, but the row before it is at %s; rows must go forward in time",
                     model_quantity(FV_DIM_TIME, row->at.v, now, sizeof now),
                     model_quantity(FV_DIM_TIME, site->weather[i - 1]->at.v, before, sizeof before));
    }
}

static void check_boiler(const model_link *link, const fv_boiler *b)
{
    char who[MODEL_SAY], x[MODEL_SAY], y[MODEL_SAY];
    model_name_of(model_element(EL_BOILER), b, who, sizeof who);
    if (!fv_is_set(b->relief))
        fv_caution(link->faults, FV_ERR_INPUT, b->part.loc,
                   "%s: no relief pressure is said; every boiler needs a relief valve, usual are 0.5 bar and 15 psi",
                   who);
    else if (b->relief.v < b->holds.v)
        fv_error(link->faults, FV_ERR_INPUT, b->part.loc,
                 "%s: relief is %s, below the %s that the boiler holds; it would blow all the time: set holds lower",
                 who, model_quantity(FV_DIM_GAUGE_PRESSURE, b->relief.v, x, sizeof x),
                 model_quantity(FV_DIM_GAUGE_PRESSURE, b->holds.v, y, sizeof y));
    if (b->usable.v > b->water.v)
        fv_error(link->faults, FV_ERR_INPUT, b->part.loc, "%s: usable is %s, more than the %s of water in it", who,
                 model_quantity(FV_DIM_VOLUME, b->usable.v, x, sizeof x),
                 model_quantity(FV_DIM_VOLUME, b->water.v, y, sizeof y));
    const double per_watt = b->water.v / b->output.v;
    if (model_is_own(b->water) && (per_watt < WATER_LEAST || per_watt > WATER_MOST))
        fv_caution(link->faults, FV_ERR_INPUT, b->part.loc,
                   "%s: water is %s, %.3g L for each kW of output; usual are 0.5 to 10: check the unit, or the output",
                   who, model_quantity(FV_DIM_VOLUME, b->water.v, x, sizeof x), 1e6 * per_watt);
    if (b->loss.v > 0.0 && b->loss.v >= b->output.v)
        fv_error(link->faults, FV_ERR_INPUT, b->part.loc,
                 "%s: loss is %s of an output of %s; nothing is left for steam", who,
                 model_quantity(FV_DIM_POWER, b->loss.v, x, sizeof x),
                 model_quantity(FV_DIM_POWER, b->output.v, y, sizeof y));
}

static void say_unknown_fitting(const model_link *link, const fv_fitting *f, const char *who, bool valve)
{
    char hint[MODEL_SAY];
    size_t count;
    const fv_fitting_entry *all = fv_fittings(&count);
    model_near near = model_near_start(f->type);
    for (size_t i = 0; i < count; i++)
        if (all[i].valve == valve)
            model_near_try(&near, all[i].name);
    fv_error(link->faults, FV_ERR_INPUT, f->part.loc, "%s: no %s is called '%s'%s", who, valve ? "valve" : "fitting",
             f->type, model_near_hint(&near, hint, sizeof hint));
}

static void check_fitting_type(const model_link *link, const fv_fitting *f, const char *who)
{
    bool valve = f->kind == FV_FITTING_VALVE;
    if (!f->type || (!valve && f->kind != FV_FITTING_TYPE))
        return;
    const fv_fitting_entry *entry = fv_fitting_find(f->type);
    if (!entry)
        say_unknown_fitting(link, f, who, valve);
    else if (valve && !entry->valve)
        fv_error(link->faults, FV_ERR_INPUT, f->part.loc, "%s: '%s' is no valve; write <fitting type=\"%s\"/>", who,
                 f->type, f->type);
    else if (!valve && entry->valve)
        fv_error(link->faults, FV_ERR_INPUT, f->part.loc, "%s: '%s' is a valve; write <valve type=\"%s\"/>", who,
                 f->type, f->type);
}

/* A slip of the pen in a file; but whoever tries a narrower hose would change its barbs with it. */
static void say_too_wide(const model_link *link, const char *who, const fv_fitting *f, const fv_line *line)
{
    char x[MODEL_SAY], y[MODEL_SAY];
    bool tried = line->bore.origin == FV_SETTING;
    (tried ? fv_caution : fv_error)(link->faults, FV_ERR_INPUT, f->part.loc,
                                    "%s: bore is %s, wider than the line's %s; measure the narrowest inside diameter",
                                    who, model_quantity(FV_DIM_LENGTH, f->bore.v, x, sizeof x),
                                    model_quantity(FV_DIM_LENGTH, line->bore.v, y, sizeof y));
}

static bool is_too_wide(const fv_fitting *f, const fv_line *line)
{
    return (f->kind == FV_FITTING_BARB || f->kind == FV_FITTING_UNION) && f->bore.v > line->bore.v;
}

static void name_fitting(const fv_line *line, size_t i, char who[MODEL_SAY])
{
    model_name(&(fv_stop){.element = model_fitting_element(line->fittings[i]->kind),
                          .part = &line->fittings[i]->part,
                          .owner = &line->part,
                          .number = i + 1},
               who, MODEL_SAY);
}

/* What a line takes over was checked where it stands; but not against a bore that only this line has. */
static void check_taken_over(const model_link *link, const fv_line *line, size_t i)
{
    char who[MODEL_SAY], x[MODEL_SAY], y[MODEL_SAY];
    const fv_fitting *f = line->fittings[i];
    const bool own_bore = line->bore.origin == FV_GIVEN || line->bore.origin == FV_SETTING;
    if (!own_bore || !is_too_wide(f, line))
        return;
    name_fitting(line, i, who);
    (line->bore.origin == FV_SETTING ? fv_caution : fv_error)(
        link->faults, FV_ERR_INPUT, line->part.loc,
        "%s: taken over from '%s', its bore is %s, wider than this line's %s; give the line fittings of its own", who,
        line->part.like, model_quantity(FV_DIM_LENGTH, f->bore.v, x, sizeof x),
        model_quantity(FV_DIM_LENGTH, line->bore.v, y, sizeof y));
}

static void check_fitting(const model_link *link, const fv_line *line, size_t i)
{
    const fv_fitting *f = line->fittings[i];
    char who[MODEL_SAY];
    name_fitting(line, i, who);
    check_fitting_type(link, f, who);
    if (is_too_wide(f, line))
        say_too_wide(link, who, f, line);
    if (f->kind == FV_FITTING_VALVE && fv_is_set(f->kv) && fv_is_set(f->k))
        fv_error(link->faults, FV_ERR_INPUT, f->part.loc, "%s: both kv and k are given; keep one of them", who);
}

/* Rougher than 5 % of the bore the friction formula was not made for; rougher than the bore is no pipe. */
static void check_roughness(const model_link *link, const fv_line *line, const char *who)
{
    char x[MODEL_SAY], y[MODEL_SAY];
    double narrowest = line->bore.v;
    for (size_t i = 0; i < line->fitting_count; i++)
        if (fv_is_set(line->fittings[i]->bore))
            narrowest = fmin(narrowest, line->fittings[i]->bore.v);
    if (line->roughness.v >= narrowest)
        fv_error(link->faults, FV_ERR_INPUT, line->part.loc,
                 "%s: roughness is %s, as much as its narrowest bore of %s; it is the height of the bumps on the wall",
                 who, model_quantity(FV_DIM_LENGTH, line->roughness.v, x, sizeof x),
                 model_quantity(FV_DIM_LENGTH, narrowest, y, sizeof y));
    else if (!fv_is_set(line->friction) && line->roughness.v > COLEBROOK_ROUGHEST * line->bore.v)
        fv_caution(link->faults, FV_ERR_INPUT, line->part.loc,
                   "%s: roughness is %s, over 5 %% of the bore of %s: outside the range of the friction formula", who,
                   model_quantity(FV_DIM_LENGTH, line->roughness.v, x, sizeof x),
                   model_quantity(FV_DIM_LENGTH, line->bore.v, y, sizeof y));
}

static void check_line(const model_link *link, const fv_line *line)
{
    char who[MODEL_SAY], x[MODEL_SAY], y[MODEL_SAY];
    model_name_of(model_line_element(line->kind), line, who, sizeof who);
    if (line->node_from >= 0 && line->node_from == line->node_to)
        fv_error(link->faults, FV_ERR_INPUT, line->part.loc, "%s: goes from '%s' to '%s'; its ends must be two joints",
                 who, line->from, line->to);
    if (line->material && !(line->part.like && !model_says(model_line_element(line->kind), line)))
        model_material(link, line->part.loc, who, line->material, true);
    if (line->lagging_material)
        model_material(link, line->part.loc, who, line->lagging_material, false);
    if (line->rise.v != 0.0 && fabs(line->rise.v) > line->length.v)
        fv_error(link->faults, FV_ERR_INPUT, line->part.loc, "%s: rise is %s, but the length is only %s", who,
                 model_quantity(FV_DIM_LENGTH, line->rise.v, x, sizeof x),
                 model_quantity(FV_DIM_LENGTH, line->length.v, y, sizeof y));
    if (line->sag.v > 0.0 && line->sag.v > line->length.v / 2)
        fv_error(link->faults, FV_ERR_INPUT, line->part.loc,
                 "%s: sag is %s, more than half the length of %s: no belly hangs deeper", who,
                 model_quantity(FV_DIM_LENGTH, line->sag.v, x, sizeof x),
                 model_quantity(FV_DIM_LENGTH, line->length.v, y, sizeof y));
    if (line->washer.v >= line->bore.v)
        fv_error(link->faults, FV_ERR_INPUT, line->part.loc, "%s: its washer has a hole of %s, but the bore is only %s",
                 who, model_quantity(FV_DIM_LENGTH, line->washer.v, x, sizeof x),
                 model_quantity(FV_DIM_LENGTH, line->bore.v, y, sizeof y));
    check_roughness(link, line, who);
    for (size_t i = 0; i < line->fitting_count; i++)
        (line->part.lists_from_kind & MODEL_FIRST_LIST ? check_taken_over : check_fitting)(link, line, i);
}

bool model_check_lines(model_link *link)
{
    const fv_plant *plant = link->plant;
    check_site(link);
    for (size_t i = 0; i < plant->stock_count; i++)
        if (plant->stock[i]->material)
            model_material(link, plant->stock[i]->part.loc, "stock", plant->stock[i]->material, false);
    for (size_t i = 0; i < plant->boiler_count; i++)
        check_boiler(link, plant->boilers[i]);
    for (size_t i = 0; i < plant->line_count && !model_is_enough(link); i++)
        check_line(link, plant->lines[i]);
    return true;
}
