/* SPDX-License-Identifier: MIT */
/* The plant with more vessels, as a grower would add them, or with fewer. */
#include "study/carry/parts.h"
#include "model/near.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

enum { NAMES_MOST = 1000 };

size_t carry_count(const fv_plant *plant)
{
    size_t count = 0;
    for (size_t i = 0; i < plant->vessel_count; i++)
        count += fv_word(plant->vessels[i]->phase) != FV_PHASE_SHUT;
    return count;
}

static bool is_joint(const fv_plant *plant, const char *name)
{
    for (size_t i = 0; i < plant->node_count; i++)
        if (strcmp(plant->nodes[i], name) == 0)
            return true;
    return false;
}

static const fv_vessel *vessel_called(const fv_plant *plant, const char *id)
{
    for (size_t i = 0; i < plant->vessel_count + plant->kind_count; i++) {
        const fv_vessel *v = i < plant->vessel_count ? plant->vessels[i] : plant->kinds[i - plant->vessel_count];
        if (v->part.id && strcmp(v->part.id, id) == 0)
            return v;
    }
    return NULL;
}

/* The only line that ends at a vessel's joint; NULL: there is none, or more than one. */
static fv_line *own_line(const fv_plant *plant, const fv_vessel *vessel)
{
    fv_line *line = NULL;
    for (size_t i = 0; i < plant->line_count; i++) {
        if (strcmp(plant->lines[i]->from, vessel->at) != 0 && strcmp(plant->lines[i]->to, vessel->at) != 0)
            continue;
        if (line)
            return NULL;
        line = plant->lines[i];
    }
    return line;
}

static const fv_vessel *last_vessel(const fv_plant *plant)
{
    return plant->vessels[plant->vessel_count - 1];
}

/* Whose hose the copies' hoses are like. */
static const fv_vessel *hose_model(const fv_plant *plant, const fv_carry_options *options)
{
    const fv_vessel *like = options->like ? vessel_called(plant, options->like) : NULL;
    return like && !like->is_kind && options->at ? like : last_vessel(plant);
}

static void say_unknown(const fv_plant *plant, bool joint, const char *name, fv_faults *faults)
{
    enum { LISTED = 12 };
    const size_t count = joint ? plant->node_count : plant->kind_count + plant->vessel_count;
    char hint[2 * MODEL_NEAR_LONGEST];
    fv_text names = {0};
    model_near near = model_near_start(name);
    for (size_t i = 0; i < count; i++) {
        const char *there = joint                   ? plant->nodes[i]
                            : i < plant->kind_count ? plant->kinds[i]->part.id
                                                    : plant->vessels[i - plant->kind_count]->part.id;
        model_near_try(&near, there);
        if (i < LISTED)
            fv_text_add(&names, "%s%s", i ? ", " : "", there);
    }
    fv_error(faults, FV_ERR_INPUT, plant->loc, "no %s is called '%s'%s There are: %s%s",
             joint ? "joint" : "vessel or kind that copies could be like", fv_shorten(name, 80).text,
             near.best ? model_near_hint(&near, hint, sizeof hint) : ".", names.failed ? "" : names.text,
             count > LISTED ? ", ..." : "");
    fv_text_free(&names);
}

static const fv_tee *tee_at(const fv_plant *plant, const char *joint)
{
    for (size_t i = 0; i < plant->tee_count; i++)
        if (strcmp(plant->tees[i]->at, joint) == 0)
            return plant->tees[i];
    return NULL;
}

fv_status carry_check(const fv_plant *plant, const fv_carry_options *options, fv_faults *faults)
{
    const size_t errors = fv_faults_errors(faults);
    const fv_loc loc = plant->loc;
    if (options->like && !vessel_called(plant, options->like))
        say_unknown(plant, false, options->like, faults);
    if (options->at && !is_joint(plant, options->at))
        say_unknown(plant, true, options->at, faults);
    else if (options->at && tee_at(plant, options->at))
        fv_error(faults, FV_ERR_INPUT, tee_at(plant, options->at)->part.loc,
                 "a tee joins its three lines at '%s', so no fourth can begin there; name another joint, or none and "
                 "the pattern of the last vessel goes on",
                 options->at);
    if (options->more == 0 && (options->fewer == 0 || carry_count(plant) < 2))
        fv_error(faults, FV_ERR_INPUT, loc, "there is nothing to change: ask for at least one vessel more, or fewer");
    const fv_vessel *model = hose_model(plant, options);
    if (options->more > 0 && !own_line(plant, model))
        fv_error(faults, FV_ERR_INPUT, model->part.loc,
                 "vessel '%s' does not hang on one hose of its own, so there is no pattern to go on with; say which "
                 "vessel the copies are like and the joint where their hoses begin",
                 model->part.id);
    return fv_faults_errors(faults) > errors ? FV_FAIL : FV_OK;
}

/* ---- names ---- */

static bool is_taken(const fv_plant *plant, const char *name)
{
    const fv_element *element;
    if (fv_plant_find(plant, name, &element) || is_joint(plant, name))
        return true;
    for (size_t i = 0; i < plant->line_count; i++) /* joints made since the last link */
        if (strcmp(plant->lines[i]->from, name) == 0 || strcmp(plant->lines[i]->to, name) == 0)
            return true;
    return false;
}

/* "bin5" after "bin4", "bin2" after "bin"; the first that is free. NULL: out of memory. */
static const char *next_name(const fv_plant *plant, const char *name)
{
    size_t length = strlen(name), digits = length;
    while (digits > 0 && length - digits < 6 && isdigit((unsigned char)name[digits - 1]))
        digits--;
    long number = digits < length ? strtol(name + digits, NULL, 10) : 1;
    for (int i = 0; i < NAMES_MOST; i++) {
        const char *next = fv_arena_printf(plant->arena, "%.*s%ld", (int)digits, name, ++number);
        if (!next || !is_taken(plant, next))
            return next;
    }
    return NULL;
}

/* ---- adding ---- */

typedef struct {
    fv_plant *plant;
    const fv_carry_options *options;
    const char *like;       /* id that new vessels are like */
    const fv_vessel *model; /* whose hose is copied */
    const char *tip;        /* joint where the last hose begins */
    const char *header;     /* id of the section that ends there; NULL: the pattern has none */
    const char *section;    /* the latest section */
    const char *branch;     /* the latest hose */
    bool backwards;         /* sections run from their far end */
    const fv_tee *tee;      /* joints have declared tees like this one; NULL: none */
} growth;

static bool touches(const fv_line *line, const char *joint)
{
    return strcmp(line->from, joint) == 0 || strcmp(line->to, joint) == 0;
}

static const char *far_end(const fv_line *line, const char *joint)
{
    return strcmp(line->from, joint) == 0 ? line->to : line->from;
}

static bool has_boiler(const fv_plant *plant, const char *joint)
{
    for (size_t i = 0; i < plant->boiler_count; i++)
        if (strcmp(plant->boilers[i]->at, joint) == 0)
            return true;
    return false;
}

static bool has_drip(const fv_plant *plant, const char *joint)
{
    for (size_t i = 0; i < plant->drip_count; i++)
        if (strcmp(plant->drips[i]->at, joint) == 0)
            return true;
    return false;
}

/* Where the header ends, one section leads there; in the middle, or on a ring, more do. */
static void find_section(growth *g)
{
    const fv_line *found = NULL;
    size_t count = 0, ends = 0;
    for (size_t i = 0; i < g->plant->line_count; i++) {
        const fv_line *line = g->plant->lines[i];
        ends += touches(line, g->tip);
        if (line->kind == FV_LINE_HOSE || !touches(line, g->tip))
            continue;
        found = line;
        count++;
    }
    if (count != 1 || has_boiler(g->plant, g->tip) || tee_at(g->plant, g->tip))
        return;
    g->header = g->section = found->part.id;
    g->backwards = strcmp(found->from, g->tip) == 0;
    const fv_tee *tee = tee_at(g->plant, far_end(found, g->tip));
    /* A tee takes the section that comes, its hose and the next section, and nothing else. */
    if (tee && strcmp(tee->run, found->part.id) == 0 && ends == 2 && !has_drip(g->plant, g->tip))
        g->tee = tee;
}

static fv_line *add_line(growth *g, const fv_line *like, const char *from, const char *to)
{
    const char *id = next_name(g->plant, like->part.id);
    fv_line *line = id && from && to ? fv_plant_add_line(g->plant, like->kind, id, like->part.loc) : NULL;
    if (!line)
        return NULL;
    line->part.like = like->part.id;
    line->from = from;
    line->to = to;
    return line;
}

static const fv_line *line_called(const fv_plant *plant, const char *id)
{
    for (size_t i = 0; i < plant->line_count; i++)
        if (strcmp(plant->lines[i]->part.id, id) == 0)
            return plant->lines[i];
    return NULL;
}

/* The joint where the next hose begins, one section further where the pattern has sections. NULL: out of memory. */
static const char *next_tip(growth *g)
{
    if (!g->header)
        return g->tip;
    const char *tip = next_name(g->plant, g->tip);
    const fv_line *like = line_called(g->plant, g->header);
    fv_line *section = g->backwards ? add_line(g, like, tip, g->tip) : add_line(g, like, g->tip, tip);
    fv_tee *tee = section && g->tee ? fv_plant_add_tee(g->plant, g->tee->part.loc) : NULL;
    if (!section || (g->tee && !tee))
        return NULL;
    if (tee) {
        tee->at = g->tip;
        tee->main = g->section;
        tee->run = section->part.id;
        tee->branch = g->branch;
        tee->angle = g->tee->angle;
    }
    g->section = section->part.id;
    return tip;
}

static bool add_vessel(growth *g, const char **joint)
{
    const fv_line *hose = own_line(g->plant, g->model);
    const char *tip = g->options->at ? g->tip : next_tip(g);
    const char *at = next_name(g->plant, *joint);
    const bool ends_at_vessel = hose && strcmp(hose->to, g->model->at) == 0;
    fv_line *line = hose && at && tip ? add_line(g, hose, ends_at_vessel ? tip : at, ends_at_vessel ? at : tip) : NULL;
    const char *id = line ? next_name(g->plant, g->model->part.id) : NULL;
    fv_vessel *vessel = id ? fv_plant_add_vessel(g->plant, id, false, g->model->part.loc) : NULL;
    if (!vessel)
        return false;
    vessel->part.like = g->like;
    if (fv_word(vessel_called(g->plant, g->like)->phase) == FV_PHASE_SHUT)
        vessel->phase = (fv_value){.v = FV_PHASE_HEATING, .origin = FV_SETTING};
    vessel->at = *joint = at;
    g->tip = tip;
    g->branch = line->part.id;
    return true;
}

static bool add_vessels(fv_plant *plant, const fv_carry_options *options, size_t count)
{
    growth g = {.plant = plant, .options = options};
    g.model = hose_model(plant, options);
    const fv_line *hose = own_line(plant, g.model);
    const char *joint = g.model->at;
    g.tip = options->at ? fv_arena_copy(plant->arena, options->at) : far_end(hose, joint);
    g.branch = hose->part.id;
    g.like = options->like ? fv_arena_copy(plant->arena, options->like) : g.model->part.id;
    if (!options->at)
        find_section(&g);
    bool good = g.tip && g.like;
    for (size_t i = 0; i < count && good; i++)
        good = add_vessel(&g, &joint);
    return good;
}

/* ---- leaving out ---- */

static void shut_vessels(fv_plant *plant, size_t count)
{
    for (size_t i = plant->vessel_count; i-- > 0 && count > 0;) {
        fv_value *phase = &plant->vessels[i]->phase;
        if (fv_word(*phase) == FV_PHASE_SHUT)
            continue;
        *phase = (fv_value){.v = FV_PHASE_SHUT, .origin = FV_SETTING};
        count--;
    }
}

static void forget_starts(fv_plant *plant)
{
    for (size_t i = 0; i < plant->vessel_count; i++) {
        fv_vessel *v = plant->vessels[i];
        v->start_after = NULL;
        if (fv_or(v->start, 0) > 0)
            v->start = (fv_value){.v = 0, .origin = FV_SETTING};
    }
}

fv_status carry_link(fv_plant *plant, fv_faults *faults)
{
    fv_faults *quiet = fv_faults_new();
    const fv_status status = quiet ? fv_plant_link(plant, quiet) : FV_FAIL;
    fv_faults_free(quiet);
    return status == FV_FAIL ? fv_plant_link(plant, faults) : status;
}

fv_plant *carry_grow(const fv_plant *plant, const fv_carry_options *options, int added, fv_faults *faults)
{
    fv_plant *copy = fv_plant_copy(plant);
    bool good = copy != NULL;
    if (good)
        forget_starts(copy);
    if (good && added > 0)
        good = add_vessels(copy, options, (size_t)added);
    if (good && added < 0)
        shut_vessels(copy, (size_t)-added);
    if (!good)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    if (good && carry_link(copy, faults) != FV_FAIL)
        return copy;
    fv_plant_free(copy);
    return NULL;
}
