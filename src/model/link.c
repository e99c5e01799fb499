/* SPDX-License-Identifier: MIT */
/* fv_plant_link: kinds taken over, names made indices, everything that is wrong said in one go. */
#include "model/link.h"

#include <string.h>

/* duplicates */
static bool check_ids(model_link *link)
{
    char who[MODEL_SAY];
    for (size_t i = 1; i < link->names.count; i++) {
        const model_named *named = &link->names.list[i], *before = named - 1;
        if (strcmp(named->id, before->id) != 0)
            continue;
        fv_error(link->faults, FV_ERR_INPUT, named->part->loc,
                 "%s: the id is taken already, by the %s in line %d; every id may be used once",
                 model_name_of(named->element, named->part, who, sizeof who), before->element->name,
                 before->part->loc.line);
    }
    return true;
}

static void check_anything(const model_link *link)
{
    const fv_plant *plant = link->plant;
    if (!plant->boiler_count)
        fv_error(
            link->faults, FV_ERR_INPUT, plant->loc,
            "there is no boiler; give one, such as <boiler id=\"b1\" at=\"b0\" output=\"24 kW\" relief=\"0.5 bar\"/>");
    if (!plant->vessel_count)
        fv_error(link->faults, FV_ERR_INPUT, plant->loc,
                 "there is no vessel; give one, such as <vessel id=\"bin1\" "
                 "at=\"c1\"> with its coil, load and drain");
}

static bool run_steps(model_link *link)
{
    static bool (*const steps[])(model_link *) = {
        check_ids,          model_take_kinds,  model_make_nodes,    model_derive,        model_check_limits,
        model_check_idle,   model_check_lines, model_check_vessels, model_check_actions, model_check_thermostats,
        model_check_probes, model_check_work,  model_check_graph};
    bool good = model_names_make(link->plant, &link->names);
    if (good)
        check_anything(link);
    for (size_t i = 0; good && i < sizeof steps / sizeof *steps && !model_is_enough(link); i++)
        good = steps[i](link);
    model_names_free(&link->names);
    if (!good)
        fv_error(link->faults, FV_ERR_SYSTEM, link->plant->loc, "out of memory");
    return good && fv_faults_errors(link->faults) == 0;
}

static bool is_among(const fv_faults *faults, const fv_fault *fault, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const fv_fault *f = fv_faults_at(faults, i);
        if (f->line == fault->line && strcmp(f->text, fault->text) == 0)
            return true;
    }
    return false;
}

enum { COMPARED_AT_MOST = 1000 };

/* A caution that an earlier link has given is not repeated. */
static void hand_over(const fv_faults *found, fv_faults *faults)
{
    size_t before = fv_faults_count(faults);
    for (size_t i = 0; i < fv_faults_count(found); i++) {
        const fv_fault *f = fv_faults_at(found, i);
        fv_loc loc = {f->file, f->line};
        if (!f->caution)
            fv_error(faults, f->blame, loc, "%s", f->text);
        else if (before > COMPARED_AT_MOST || !is_among(faults, f, before))
            fv_caution(faults, f->blame, loc, "%s", f->text);
    }
}

fv_status fv_plant_link(fv_plant *plant, fv_faults *faults)
{
    if (!plant)
        return fv_error_null(faults, __func__);
    model_link link = {.plant = plant, .faults = fv_faults_new()};
    if (!link.faults)
        return fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    bool good = run_steps(&link);
    hand_over(link.faults, faults);
    fv_faults_free(link.faults);
    return good ? FV_OK : FV_FAIL;
}

int fv_plant_line_index(const fv_plant *plant, const char *id)
{
    if (!plant || !id)
        return -1;
    for (size_t i = 0; i < plant->line_count; i++)
        if (plant->lines[i]->part.id && strcmp(plant->lines[i]->part.id, id) == 0)
            return (int)i;
    return -1;
}

int fv_plant_vessel_index(const fv_plant *plant, const char *id)
{
    if (!plant || !id)
        return -1;
    for (size_t i = 0; i < plant->vessel_count; i++)
        if (plant->vessels[i]->part.id && strcmp(plant->vessels[i]->part.id, id) == 0)
            return (int)i;
    return -1;
}

int fv_plant_boiler_index(const fv_plant *plant, const char *id)
{
    if (!plant || !id)
        return -1;
    for (size_t i = 0; i < plant->boiler_count; i++)
        if (plant->boilers[i]->part.id && strcmp(plant->boilers[i]->part.id, id) == 0)
            return (int)i;
    return -1;
}
