/* SPDX-License-Identifier: MIT */
#include "study/unknowns.h"

#include "model/parts.h"
#include "num/distribution.h"
#include "study/settings.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char *fv_spread_shape_word(fv_spread_shape shape)
{
    static const char *const words[] = {"log_normal", "normal", "logit_normal", "even_factor"};
    return words[shape];
}

static num_distribution about(const fv_unknown *u, double centre)
{
    static const num_distribution_kind kinds[] = {NUM_LOG_NORMAL, NUM_NORMAL, NUM_LOGIT_NORMAL, NUM_LOG_RECTANGULAR};
    return (num_distribution){kinds[u->shape], centre, u->spread};
}

double study_unknown_target(const fv_unknown *unknown, size_t target, double z)
{
    const num_distribution d = about(unknown, unknown->targets[target].si);
    return unknown->spread > 0 ? num_distribution_at(&d, z) : d.centre;
}

double fv_unknown_at(const fv_unknown *unknown, double z)
{
    if (!unknown)
        return (double)NAN;
    return study_unknown_target(unknown, 0, z);
}

/* Zero has no spread in shares of itself, nor has a share of none or all. */
static bool can_vary(const fv_unknown *u, double si)
{
    if (u->shape == FV_SPREAD_LOGIT_NORMAL)
        return si > 0 && si < 1;
    return u->shape == FV_SPREAD_NORMAL || si > 0;
}

/* The row that a default is drawn by; NULL: none. */
static const study_unknown_row *row_of_default(const char *element, const char *attribute)
{
    size_t count;
    const study_unknown_row *rows = study_unknown_rows(&count);
    for (size_t i = 0; i < count; i++) {
        const size_t length = strlen(attribute);
        const char *at = strcmp(rows[i].element, element) == 0 && rows[i].assumed ? rows[i].attributes : "";
        for (; *at; at += strcspn(at, " ") + (at[strcspn(at, " ")] == ' '))
            if (strcspn(at, " ") == length && strncmp(at, attribute, length) == 0)
                return &rows[i];
    }
    return NULL;
}

bool fv_unknown_band(const char *element, const char *attribute, double now, double *low, double *high,
                     const char **source)
{
    const double nine_in_ten = 1.6448536; /* standard deviations either way */
    const study_unknown_row *row = element && attribute ? row_of_default(element, attribute) : NULL;
    if (!row || !low || !high || !source)
        return false;
    const fv_unknown u = {.shape = row->shape, .spread = row->unsaid};
    if (!can_vary(&u, now))
        return false;
    const num_distribution d = about(&u, now);
    *low = num_distribution_at(&d, -nine_in_ten);
    *high = num_distribution_at(&d, nine_in_ten);
    *source = row->source;
    return true;
}

/* ---- finding them ---- */

enum { UNKNOWNS_MOST = 400, TARGETS_MOST = 400, PATH = 200 };

typedef struct {
    const fv_plant *plant;
    const fv_steady_result *state;
    fv_arena *arena;
    study_unknowns *out;
    const char **keys; /* by unknown: what joins it */
    size_t wall;       /* number of the wall that the walk is in */
    bool failed;
} finder;

/* A kind that nothing takes after changes nothing. */
static bool is_used(const fv_plant *plant, const fv_part *kind)
{
    for (size_t i = 0; i < plant->vessel_count; i++)
        if (plant->vessels[i]->part.like && strcmp(plant->vessels[i]->part.like, kind->id) == 0)
            return true;
    for (size_t i = 0; i < plant->kind_count; i++)
        if (plant->kinds[i]->part.like && strcmp(plant->kinds[i]->part.like, kind->id) == 0)
            return true;
    return false;
}

static bool is_fitting(const char *element)
{
    return strcmp(element, "barb") == 0 || strcmp(element, "union") == 0;
}

/* `within`: by its owner's name and its place in it, also where it has a name of its own. */
static bool path_of(const finder *f, const fv_stop *stop, bool within, char *path, size_t size)
{
    const char *element = stop->element->name, *id = stop->part->id;
    if (id && (!stop->owner || !within))
        snprintf(path, size, "%s", id);
    else if (strcmp(element, "site") == 0)
        snprintf(path, size, "site");
    else if (!stop->owner || !stop->owner->id)
        return false;
    else if (strcmp(element, "layer") == 0)
        snprintf(path, size, "%s.wall%zu.layer%zu", stop->owner->id, f->wall, stop->number);
    else if (strcmp(element, "wall") == 0)
        snprintf(path, size, "%s.wall%zu", stop->owner->id, stop->number);
    else if (is_fitting(element))
        snprintf(path, size, "%s.fitting%zu", stop->owner->id, stop->number);
    else if (strcmp(element, "vent") == 0 || strcmp(element, "drain") == 0 || strcmp(element, "gap") == 0)
        snprintf(path, size, "%s.opening%zu", stop->owner->id, stop->number);
    else
        snprintf(path, size, "%s.%s", stop->owner->id, element);
    return true;
}

static const char *name_of(finder *f, const study_unknown_row *row, const fv_stop *stop, const char *path)
{
    if (row->scope == UNKNOWN_ALL || strcmp(stop->element->name, "site") == 0)
        return fv_arena_copy(f->arena, row->noun);
    const char *owner = stop->owner && !stop->part->id ? stop->owner->id : NULL;
    if (owner && is_fitting(stop->element->name))
        return fv_arena_printf(f->arena, "%s of the %s in %s", row->noun, stop->element->name, owner);
    return fv_arena_printf(f->arena, "%s of %s", row->noun, owner ? owner : path);
}

static fv_unknown *find_key(const finder *f, const char *key)
{
    for (size_t i = 0; i < f->out->count; i++)
        if (strcmp(f->keys[i], key) == 0)
            return &f->out->list[i];
    return NULL;
}

/* User's own spread, or by how the value is known. */
static void set_spread(fv_unknown *u, const study_unknown_row *row, const fv_value *value)
{
    u->known = (fv_known)value->known;
    u->shape = row->shape;
    u->spread = study_unknown_spread(row, u->known);
    u->source = row->source;
    if (value->spread_as == FV_SPREAD_UNSAID)
        return;
    u->said = true;
    u->source = "as the plant file says";
    u->spread = (double)value->spread;
    if (value->spread_as == FV_SPREAD_FACTOR)
        u->shape = FV_SPREAD_EVEN_FACTOR;
    else if (value->spread_as == FV_SPREAD_RELATIVE)
        u->shape = FV_SPREAD_LOG_NORMAL;
}

static fv_unknown *new_unknown(finder *f, const study_unknown_row *row, const fv_stop *stop, const char *key,
                               const char *path, const fv_attr *attr, const fv_value *value, double centre)
{
    if (f->out->count == UNKNOWNS_MOST)
        return NULL;
    fv_unknown *u = &f->out->list[f->out->count];
    f->keys[f->out->count] = fv_arena_copy(f->arena, key);
    *u = (fv_unknown){.path = fv_arena_copy(f->arena, path),
                      .attribute = attr->name,
                      .name = name_of(f, row, stop, path),
                      .dim = attr->dim,
                      .centre = centre,
                      .of_day = row->of_day,
                      .measurement = row->measurement,
                      .targets = fv_arena_alloc(f->arena, 4, sizeof(fv_setting))};
    set_spread(u, row, value);
    f->failed = f->failed || !f->keys[f->out->count] || !u->path || !u->name || !u->targets;
    f->out->count++;
    return f->failed ? NULL : u;
}

/* Targets grow by doubling. */
static void add_target(finder *f, fv_unknown *u, const char *path, const char *attribute, double si)
{
    const size_t n = u->target_count;
    if (n >= TARGETS_MOST)
        return;
    if (n >= 4 && (n & (n - 1)) == 0) {
        fv_setting *more = fv_arena_alloc(f->arena, 2 * n, sizeof *more);
        if (!more) {
            f->failed = true;
            return;
        }
        memcpy(more, u->targets, n * sizeof *more);
        u->targets = more;
    }
    const char *copy = fv_arena_copy(f->arena, path);
    f->failed = f->failed || !copy;
    u->targets[u->target_count++] = (fv_setting){copy, attribute, si};
}

typedef struct {
    const char *inside; /* of the path, behind the part's name: ".fitting2" */
    bool in_list;
    const fv_attr *attr;
    double si;
} handed_on;

static void add_followers(finder *f, fv_unknown *u, const fv_part *of, const handed_on *what);

/* What one part has from another of the plant has one size, measured or guessed once: both vary together. */
static void follow(finder *f, fv_unknown *u, const fv_part *part, const fv_part *of, const handed_on *what)
{
    char path[2 * PATH];
    const fv_element *element;
    if (!part->like || strcmp(part->like, of->id) != 0 || (what->in_list && !part->lists_from_kind))
        return;
    snprintf(path, sizeof path, "%s%s", part->id, what->inside);
    fv_part *there = fv_plant_find(f->plant, path, &element);
    const fv_attr *attr = there ? fv_attr_find(element, what->attr->name) : NULL;
    const fv_value *value = attr ? fv_attr_value(there, attr) : NULL;
    if (!value || !(value->origin == FV_KIND || (what->in_list && value->origin == FV_ASSUMED)))
        return;
    add_target(f, u, path, what->attr->name, what->si);
    add_followers(f, u, part, what);
}

static void add_followers(finder *f, fv_unknown *u, const fv_part *of, const handed_on *what)
{
    for (size_t i = 0; i < f->plant->boiler_count; i++)
        follow(f, u, &f->plant->boilers[i]->part, of, what);
    for (size_t i = 0; i < f->plant->line_count; i++)
        follow(f, u, &f->plant->lines[i]->part, of, what);
    for (size_t i = 0; i < f->plant->vessel_count; i++)
        follow(f, u, &f->plant->vessels[i]->part, of, what);
}

static void hand_on(finder *f, fv_unknown *u, const fv_stop *stop, const fv_attr *attr, double si)
{
    char path[PATH] = "";
    const fv_part *of = stop->owner ? stop->owner : stop->part;
    if (!of->id || of->element == model_element(EL_KIND) || (stop->owner && !path_of(f, stop, true, path, sizeof path)))
        return;
    const handed_on what = {
        .inside = stop->owner ? path + strlen(of->id) : "", .in_list = stop->number > 0, .attr = attr, .si = si};
    add_followers(f, u, of, &what);
}

/* A front climbs through beds alone. */
static bool is_idle(const fv_stop *stop, const fv_attr *attr)
{
    return strcmp(attr->name, "front-factor") == 0 &&
           fv_word(((const fv_load *)(const void *)stop->part)->form) != FV_FORM_BED;
}

/* What the value is now; NaN: it is not this part's, or not uncertain. */
static double present(const finder *f, const study_unknown_row *row, const fv_stop *stop, const fv_attr *attr,
                      const fv_value *value)
{
    if (is_idle(stop, attr))
        return NAN;
    if (model_is_own(*value) || (row->assumed && value->origin == FV_ASSUMED))
        return value->v;
    if (row->computed && !fv_is_set(*value))
        return study_computed_value(f->plant, f->state, stop->element, stop->part,
                                    stop->owner ? stop->owner : stop->part, attr->name);
    return NAN;
}

static void add_value(finder *f, const study_unknown_row *row, const fv_stop *stop, const char *path,
                      const fv_attr *attr)
{
    char key[2 * PATH];
    const fv_value *value = fv_attr_value(stop->part, attr);
    const double si = present(f, row, stop, attr, value);
    const fv_unknown as = {.shape = row->shape};
    if (isnan(si) || !can_vary(&as, si))
        return;
    if (row->scope == UNKNOWN_ALL)
        snprintf(key, sizeof key, "%s %s", row->element, row->attributes);
    else if (row->scope == UNKNOWN_OWNER)
        snprintf(key, sizeof key, "%s %s %s", stop->owner ? stop->owner->id : path, row->element, row->attributes);
    else
        snprintf(key, sizeof key, "%s %s", path, row->attributes);
    fv_unknown *u = find_key(f, key);
    if (!u)
        u = new_unknown(f, row, stop, key, path, attr, value, si);
    else if (value->spread_as != FV_SPREAD_UNSAID && !u->said)
        set_spread(u, row, value);
    if (u && can_vary(u, si)) {
        add_target(f, u, path, attr->name, si);
        hand_on(f, u, stop, attr, si);
    }
}

/* The kind that it is, or stands in; NULL: none. */
static const fv_part *kind_of(const fv_plant *plant, const fv_stop *stop)
{
    for (size_t i = 0; i < plant->kind_count; i++)
        if (&plant->kinds[i]->part == stop->part || &plant->kinds[i]->part == stop->owner)
            return &plant->kinds[i]->part;
    return NULL;
}

static bool visit(void *context, const fv_stop *stop)
{
    finder *f = context;
    char path[PATH], name[40];
    size_t count;
    const study_unknown_row *rows = study_unknown_rows(&count);
    if (strcmp(stop->element->name, "wall") == 0)
        f->wall = stop->number;
    const fv_part *kind = kind_of(f->plant, stop);
    if (stop->taken || (kind && !is_used(f->plant, kind)) || !path_of(f, stop, false, path, sizeof path))
        return true;
    /* What nobody says of a kind is left to the vessels; a vessel that takes after one leaves it to the kind. */
    for (size_t i = 0; i < count && !f->failed; i++) {
        if (strcmp(rows[i].element, stop->element->name) != 0)
            continue;
        for (const char *at = rows[i].attributes; *at;) {
            const size_t n = strcspn(at, " ");
            snprintf(name, sizeof name, "%.*s", (int)n, at);
            at += n + (at[n] == ' ');
            const fv_attr *attr = fv_attr_find(stop->element, name);
            if (attr)
                add_value(f, &rows[i], stop, path, attr);
        }
    }
    return true;
}

/* A vessel that takes after a kind has defaults and computed values of its own only where the kind has none of it. */
static bool is_of_kind(const fv_plant *plant, const char *path)
{
    for (size_t i = 0; i < plant->vessel_count; i++) {
        const fv_part *part = &plant->vessels[i]->part;
        const size_t n = strlen(part->id);
        if (part->like && strncmp(path, part->id, n) == 0 && path[n] == '.')
            return true;
    }
    return false;
}

static void drop_doubles(finder *f)
{
    size_t kept = 0;
    for (size_t i = 0; i < f->out->count; i++) {
        const fv_unknown *u = &f->out->list[i];
        const fv_element *element;
        fv_part *part = fv_plant_find(f->plant, u->path, &element);
        const fv_attr *attr = part ? fv_attr_find(element, u->attribute) : NULL;
        const bool own = attr && model_is_own(*fv_attr_value(part, attr));
        if (part && (own || !is_of_kind(f->plant, u->path)) && u->target_count > 0 && u->spread > 0)
            f->out->list[kept++] = *u;
    }
    f->out->count = kept;
}

fv_status study_unknowns_find(const fv_plant *plant, const fv_steady_result *state, fv_arena *arena,
                              study_unknowns *out)
{
    *out = (study_unknowns){.list = fv_arena_alloc(arena, UNKNOWNS_MOST, sizeof *out->list)};
    finder f = {.plant = plant,
                .state = state,
                .arena = arena,
                .out = out,
                .keys = fv_arena_alloc(arena, UNKNOWNS_MOST, sizeof *f.keys)};
    if (!out->list || !f.keys)
        return FV_FAIL;
    fv_plant_walk(plant, visit, &f);
    if (!f.failed)
        drop_doubles(&f);
    return f.failed ? FV_FAIL : FV_OK;
}

/* ---- plants with other values ---- */

static fv_status set(fv_plant *plant, const fv_setting *target, double si, fv_faults *faults)
{
    const fv_element *element;
    fv_part *part = fv_plant_find(plant, target->path, &element);
    const fv_attr *attr = part ? fv_attr_find(element, target->attribute) : NULL;
    if (!attr)
        return fv_error(faults, FV_ERR_INPUT, plant->loc, "nothing is called '%s.%s'", target->path, target->attribute);
    fv_value *value = fv_attr_value(part, attr);
    if (!isnan(attr->least))
        si = fmax(si, attr->least);
    if (!isnan(attr->most))
        si = fmin(si, attr->most);
    value->v = si;
    value->origin = FV_SETTING;
    return FV_OK;
}

fv_plant *study_unknowns_plant(const study_unknowns *unknowns, const fv_plant *plant, const double *z,
                               fv_faults *faults)
{
    fv_plant *copy = fv_plant_copy(plant);
    fv_status status = copy ? FV_OK : FV_FAIL;
    if (!copy)
        fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    for (size_t i = 0; i < unknowns->count && status == FV_OK; i++) {
        const fv_unknown *u = &unknowns->list[i];
        for (size_t k = 0; k < u->target_count && status == FV_OK; k++)
            status = set(copy, &u->targets[k], study_unknown_target(u, k, z[i]), faults);
    }
    if (status == FV_OK)
        status = fv_plant_link(copy, faults);
    if (status == FV_OK)
        study_keep_packing(copy);
    if (status == FV_OK)
        return copy;
    fv_plant_free(copy);
    return NULL;
}
