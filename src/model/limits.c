/* SPDX-License-Identifier: MIT */
/* What the schema's rows refuse: nothing said where something must be, numbers outside the limits. Only what a part
 * says itself is held against the limits; what it takes over was checked where it stands. */
#include "model/link.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LONG_NUMBER = 9 };

/* Computed numbers would show their rounding in full, so what is long is cut to six digits. */
const char *model_quantity(fv_dim dim, double si, char *buffer, size_t size)
{
    snprintf(buffer, size, "%g", si);
    for (int cut = 0; cut < 2; cut++) {
        fv_text text = {0};
        char digits[32];
        snprintf(digits, sizeof digits, "%.6g", si);
        bool written = fv_quantity_write(dim, cut ? strtod(digits, NULL) : si, &text) && !text.failed;
        bool is_short = written && strcspn(text.text, " ") <= LONG_NUMBER;
        if (written)
            snprintf(buffer, size, "%s", text.text);
        fv_text_free(&text);
        if (is_short)
            break;
    }
    return buffer;
}

const char *model_name_of(const fv_element *element, const void *part, char *buffer, size_t size)
{
    return model_name(&(fv_stop){.element = element, .part = (fv_part *)(uintptr_t)part}, buffer, size);
}

/* "at least 1 mm", "at most 1 m", "between 1 mm and 1 m" */
static void range(fv_dim dim, double low, double high, char *buffer, size_t size)
{
    char a[MODEL_SAY], b[MODEL_SAY];
    if (!isnan(low))
        model_quantity(dim, low, a, sizeof a);
    if (!isnan(high))
        model_quantity(dim, high, b, sizeof b);
    if (isnan(low))
        snprintf(buffer, size, "at most %s", b);
    else if (isnan(high))
        snprintf(buffer, size, "at least %s", a);
    else
        snprintf(buffer, size, "between %s and %s", a, b);
}

#define ROUNDING 1e-9 /* a limit in another unit may come out a little differently */

static bool is_outside(double v, double low, double high)
{
    return v < low - ROUNDING * fabs(low) || v > high + ROUNDING * fabs(high); /* false with a NaN limit */
}

static void check_value(const model_link *link, const fv_stop *stop, const fv_attr *attr, const fv_value *value)
{
    char who[MODEL_SAY], found[MODEL_SAY], right[2 * MODEL_SAY + 16];
    fv_loc loc = value->origin == FV_SETTING ? (fv_loc){"--set", 0} : stop->part->loc;
    if (isnan(value->v)) {
        if (value->known != MODEL_REFUSED)
            fv_error(link->faults, FV_ERR_INPUT, loc, "%s: %s is not a number; expected %s, such as %s",
                     model_name(stop, who, sizeof who), attr->name, fv_dim_name(attr->dim), fv_dim_example(attr->dim));
        return;
    }
    if (attr->dim == FV_DIM_WORD)
        return;
    if (is_outside(value->v, attr->least, attr->most)) {
        range(attr->dim, attr->least, attr->most, right, sizeof right);
        fv_error(link->faults, FV_ERR_INPUT, loc, "%s: %s is %s; it must be %s", model_name(stop, who, sizeof who),
                 attr->name, model_quantity(attr->dim, value->v, found, sizeof found), right);
    } else if (is_outside(value->v, attr->low, attr->high)) {
        range(attr->dim, attr->low, attr->high, right, sizeof right);
        fv_caution(link->faults, FV_ERR_INPUT, loc, "%s: %s is %s; usual is %s: check it",
                   model_name(stop, who, sizeof who), attr->name,
                   model_quantity(attr->dim, value->v, found, sizeof found), right);
    }
}

/* Whether what is missing counts here: lists taken over were checked where they stand; coils are checked with their
 * vessel's sense, since a kind may leave open what its vessels say; a shell is there only if something is said of it.
 */
static bool must_be_whole(const fv_stop *stop)
{
    const fv_element *element = stop->element;
    if (stop->taken || element == model_element(EL_COIL))
        return false;
    if (element == model_element(EL_SHELL))
        return model_says(element, stop->part);
    return true;
}

static void check_missing(const model_link *link, const fv_stop *stop, const fv_attr *attr)
{
    char who[MODEL_SAY];
    const char *example = fv_dim_example(attr->dim);
    if (attr->dim == FV_DIM_ID || attr->dim == FV_DIM_TEXT)
        fv_error(link->faults, FV_ERR_INPUT, stop->part->loc, "%s: %s is missing: %s",
                 model_name(stop, who, sizeof who), attr->name, attr->doc);
    else
        fv_error(link->faults, FV_ERR_INPUT, stop->part->loc, "%s: %s is missing (%s); for example %s=\"%s\"",
                 model_name(stop, who, sizeof who), attr->name, attr->doc, attr->name, example);
}

static bool check_part(void *context, const fv_stop *stop)
{
    const model_link *link = context;
    bool whole = must_be_whole(stop);
    for (size_t i = 0; i < stop->element->attr_count && !model_is_enough(link); i++) {
        const fv_attr *attr = &stop->element->attrs[i];
        if (model_is_text(attr)) {
            if (whole && attr->required && !*fv_attr_text(stop->part, attr))
                check_missing(link, stop, attr);
            continue;
        }
        const fv_value *value = fv_attr_value(stop->part, attr);
        if (model_is_own(*value))
            check_value(link, stop, attr, value);
        else if (whole && attr->required && !fv_is_set(*value))
            check_missing(link, stop, attr);
    }
    return true;
}

bool model_check_limits(model_link *link)
{
    return fv_plant_walk(link->plant, check_part, link);
}
