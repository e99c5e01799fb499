/* SPDX-License-Identifier: MIT */
/* --vary part.attribute = several values */
#include "plantfile/setting.h"

#include "farvessel/plantfile.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#define HOW "write its values as 19 mm, 25 mm or as 2 mm .. 4 mm in 5"

static bool add(reading *r, fv_values *values, double si)
{
    void *list = values->values;
    if (!fv_grow(&list, &values->capacity, values->count + 1, sizeof(double))) {
        plantfile_reading_no_memory(r);
        return false;
    }
    values->values = list;
    values->values[values->count++] = si;
    return true;
}

/* One value, as --set reads it. */
static bool read_one(reading *r, const plantfile_setting *s, const char *text, size_t length, double *si)
{
    char *one = strndup(text, length);
    if (!one) {
        plantfile_reading_no_memory(r);
        return false;
    }
    size_t said = r->said;
    const fv_value *value = plantfile_set_attribute(r, s->path, s->attribute, one);
    free(one);
    if (!value && r->said == said)
        plantfile_reading_say(r, 0, "%s.%s is a text; only values can be varied", fv_shorten(s->path, 80).text,
                              fv_shorten(s->attribute, 40).text);
    if (value)
        *si = value->v;
    return value != NULL;
}

static bool read_list(reading *r, const plantfile_setting *s, fv_values *values)
{
    for (const char *at = s->text;; at++) {
        size_t length = strcspn(at, ",");
        double si;
        if (!read_one(r, s, at, length, &si) || !add(r, values, si))
            return false;
        at += length;
        if (!*at)
            return true;
    }
}

/* How many, where `text` ends in "in 5"; its length without that. 0: it does not say; -1: said, but senseless. "in"
 * alone is a unit. */
static long count_of(const char *text, size_t *length)
{
    size_t n = strlen(text);
    while (n > 0 && isspace((unsigned char)text[n - 1]))
        n--;
    *length = n;
    size_t digits = n;
    while (digits > 0 && isdigit((unsigned char)text[digits - 1]))
        digits--;
    size_t word = digits;
    while (word > 0 && text[word - 1] == ' ')
        word--;
    if (digits == n || word == digits || word < 3 || strncmp(text + word - 2, "in", 2) != 0 || text[word - 3] != ' ')
        return 0;
    *length = word - 3;
    long count = strtol(text + digits, NULL, 10);
    return count >= 2 && count <= FV_VALUES_MOST ? count : -1;
}

static bool read_range(reading *r, const plantfile_setting *s, const char *dots, fv_values *values)
{
    double first, last;
    size_t length;
    long count = count_of(dots + 2, &length);
    values->range = true;
    values->open = count == 0;
    if (count < 0) {
        plantfile_reading_say(r, 0, "%s.%s: a range falls into 2 to %d values", fv_shorten(s->path, 80).text,
                              fv_shorten(s->attribute, 40).text, FV_VALUES_MOST);
        return false;
    }
    if (!read_one(r, s, s->text, (size_t)(dots - s->text), &first) || !read_one(r, s, dots + 2, length, &last))
        return false;
    count = count ? count : 2;
    for (long i = 0; i < count; i++) {
        double t = (double)i / (double)(count - 1);
        if (!add(r, values, i == count - 1 ? last : first + (last - first) * t))
            return false;
    }
    return true;
}

static bool is_blank(const char *text)
{
    return text[strspn(text, " \t")] == '\0';
}

static bool read_values(reading *r, const char *text, fv_values *values)
{
    plantfile_setting s;
    if (!plantfile_split_setting(r, text, &s))
        return false;
    const char *dots = strstr(s.text, "..");
    values->path = strdup(s.path);
    values->attribute = strdup(s.attribute);
    bool good = values->path && values->attribute;
    if (!good)
        plantfile_reading_no_memory(r);
    if (good && is_blank(s.text)) {
        plantfile_reading_say(r, 0, "%s.%s: no value; " HOW, fv_shorten(s.path, 80).text,
                              fv_shorten(s.attribute, 40).text);
        good = false;
    }
    good = good && (dots ? read_range(r, &s, dots, values) : read_list(r, &s, values));
    free(s.path);
    return good;
}

fv_status fv_plantfile_values(const fv_plant *plant, const char *text, fv_values *values, fv_faults *faults)
{
    if (!plant || !text || !values)
        return fv_error_null(faults, __func__);
    *values = (fv_values){0};
    fv_units *units = fv_units_new(faults);
    fv_plant *copy = fv_plant_copy(plant);
    reading r = {.plant = copy, .units = units, .faults = faults, .file = "--vary", .most = 1};
    if (units && !copy)
        plantfile_reading_no_memory(&r);
    bool good = units && copy && read_values(&r, text, values);
    fv_plant_free(copy);
    fv_units_free(units);
    return good ? FV_OK : FV_FAIL;
}

void fv_values_free(fv_values *values)
{
    if (!values)
        return;
    free(values->path);
    free(values->attribute);
    free(values->values);
    *values = (fv_values){0};
}
