/* SPDX-License-Identifier: MIT */
#include "study/assumed/rows.h"

#include "farvessel/constants.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

static const double MORE = 1.2, LESS = 0.8, DEGREES = 5.0;

/* What is decided by whoever runs the plant, or only says what is asked, is no assumption about what stands there. */
static bool is_decision(const fv_attr *attr)
{
    static const char *const names[] = {"fire",
                                        "start",
                                        "phase",
                                        "open",
                                        "count",
                                        "cooling",
                                        "cool",
                                        "rise",
                                        "within",
                                        "hold",
                                        "target",
                                        "feeding",
                                        "z",
                                        "act",
                                        "for",
                                        "clogged",
                                        "medium",
                                        "form",
                                        "holds",
                                        "relief",
                                        "water",
                                        "altitude",
                                        "reference-temperature"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (strcmp(attr->name, names[i]) == 0)
            return true;
    return attr->dim == FV_DIM_TIME || attr->dim == FV_DIM_TEXT || attr->dim == FV_DIM_ID;
}

/* Parts that steam meets. */
static bool is_physical(const fv_element *element)
{
    static const char *const others[] = {"stock", "action", "work", "probe", "gauge", "meter", "weather"};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        if (strcmp(element->name, others[i]) == 0)
            return false;
    return true;
}

static fv_value *value_of(const fv_stop *stop, const fv_attr *attr)
{
    return (fv_value *)(void *)((char *)stop->part + attr->offset);
}

static bool is_guess(fv_value value)
{
    return fv_is_set(value) && value.origin != FV_ASSUMED && value.known == FV_KNOWN_GUESS;
}

static bool is_assumed(fv_value value)
{
    return value.origin == FV_ASSUMED || is_guess(value);
}

static double limit(const fv_attr *attr, double value)
{
    const double most = isnan(attr->most) ? INFINITY : attr->most, least = isnan(attr->least) ? -INFINITY : attr->least;
    return fmin(fmax(value, least), most);
}

/* To three digits: nobody would try more. */
static double rounded(double value)
{
    const double unit = pow(10.0, floor(log10(fabs(value))) - 2.0);
    return unit < 1.0 ? round(value / unit) / round(1.0 / unit) : round(value / unit) * unit;
}

/* The other value of a number; NaN: none. */
static double other_number(const fv_attr *attr, double now)
{
    if (attr->dim == FV_DIM_TEMPERATURE)
        return limit(attr, now + DEGREES);
    if (now == 0.0)
        return isfinite(attr->high) && attr->high > 0.0 ? attr->high : (double)NAN;
    const double more = rounded(MORE * now);
    return limit(attr, more) == more ? more : rounded(fmax(LESS * now, isnan(attr->low) ? 0.0 : attr->low));
}

typedef struct {
    const fv_plant *plant;
    fv_arena *arena;
    fv_assumed_row *rows;
    size_t count, capacity;
    bool failed;
} collection;

static bool is_same(const fv_assumed_row *row, const fv_element *element, const fv_attr *attr, double from, double to,
                    bool guess)
{
    return row->element == element && row->attr == attr && row->from == from && row->to == to && row->guess == guess;
}

static void add(collection *c, const fv_stop *stop, const fv_attr *attr, fv_value value, double to)
{
    const bool guess = is_guess(value);
    for (size_t i = 0; i < c->count; i++)
        if (is_same(&c->rows[i], stop->element, attr, value.v, to, guess)) {
            c->rows[i].parts++;
            return;
        }
    if (c->count == c->capacity) {
        const size_t capacity = c->capacity ? 2 * c->capacity : 32;
        fv_assumed_row *rows = fv_arena_alloc(c->arena, capacity, sizeof *rows);
        c->failed = !rows;
        if (!rows)
            return;
        if (c->count)
            memcpy(rows, c->rows, c->count * sizeof *rows);
        c->rows = rows;
        c->capacity = capacity;
    }
    const char *id = stop->owner && stop->owner->id ? stop->owner->id : stop->part->id;
    c->rows[c->count++] = (fv_assumed_row){.element = stop->element,
                                           .attr = attr,
                                           .from = value.v,
                                           .to = to,
                                           .guess = guess,
                                           .parts = 1,
                                           .part = id ? id : stop->element->name};
}

static void add_words(collection *c, const fv_stop *stop, const fv_attr *attr, fv_value value)
{
    int index = 0;
    for (const char *word = attr->words; word; index++) {
        const bool rows = index == FV_PACKING_ROWS && strcmp(attr->name, "packing") == 0; // of how many, nobody knows
        if ((double)index != value.v && !rows)
            add(c, stop, attr, value, index);
        word = strchr(word, '|');
        word = word ? word + 1 : NULL;
    }
}

/* A bed is heated through its face, whatever wraps other loads; and nobody measures the wind indoors. */
static bool has_effect(const fv_stop *stop, const fv_attr *attr)
{
    if (strcmp(stop->element->name, "load") == 0 && strcmp(attr->name, "wrap") == 0)
        return fv_word(((const fv_load *)(const void *)stop->part)->form) != FV_FORM_BED;
    if (strcmp(stop->element->name, "site") == 0 && strcmp(attr->name, "wind") == 0)
        return fv_word(((const fv_site *)(const void *)stop->part)->stands) != FV_INDOORS;
    return true;
}

static bool gather(void *context, const fv_stop *stop)
{
    collection *c = context;
    if (stop->aside || !is_physical(stop->element))
        return true;
    for (size_t i = 0; i < stop->element->attr_count && !c->failed; i++) {
        const fv_attr *attr = &stop->element->attrs[i];
        if (is_decision(attr) || !is_assumed(*value_of(stop, attr)) || !has_effect(stop, attr))
            continue;
        const fv_value value = *value_of(stop, attr);
        if (attr->dim == FV_DIM_WORD)
            add_words(c, stop, attr, value);
        else if (!isnan(other_number(attr, value.v)))
            add(c, stop, attr, value, other_number(attr, value.v));
    }
    return !c->failed && c->count <= FV_ASSUMED_MOST;
}

bool assumed_collect(const fv_plant *plant, fv_arena *arena, fv_assumed_row **rows, size_t *count)
{
    collection c = {.plant = plant, .arena = arena};
    fv_plant_walk(plant, gather, &c);
    *rows = c.rows;
    *count = c.count;
    return !c.failed;
}

typedef struct {
    const fv_assumed_row *row;
    bool changed;
} changing;

/* All pieces pushed together: a cube, where the file does not say what the stack measures. */
static void stack_up(fv_load *load)
{
    const bool cylinder = fv_word(load->form) == FV_FORM_CYLINDER;
    const double piece = cylinder ? 0.25 * FV_PI * load->diameter.v * load->diameter.v * load->height.v
                                  : load->a.v * load->b.v * load->c.v;
    const double side = cbrt(fv_or(load->count, (double)NAN) * piece);
    if (!(side > 0.0) || fv_is_set(load->stack_a))
        return;
    load->stack_a = load->stack_b = load->stack_c = (fv_value){.v = side, .origin = FV_SETTING};
}

static bool change(void *context, const fv_stop *stop)
{
    changing *c = context;
    if (stop->element != c->row->element)
        return true;
    fv_value *value = value_of(stop, c->row->attr);
    if (is_assumed(*value) && is_guess(*value) == c->row->guess && value->v == c->row->from) {
        *value = (fv_value){.v = c->row->to, .origin = FV_SETTING, .known = value->known};
        c->changed = true;
        if (c->row->attr->offset == offsetof(fv_load, packing) && strcmp(stop->element->name, "load") == 0)
            stack_up((fv_load *)stop->part);
    }
    return true;
}

bool assumed_change(fv_plant *plant, const fv_assumed_row *row)
{
    changing c = {row, false};
    fv_plant_walk(plant, change, &c);
    return c.changed;
}
