/* SPDX-License-Identifier: MIT */
/* How uncertain values are, as the user has it: spread="7 %" for all that is given here, "cd:7 % air:1 K" for some,
 * "area:factor 2" for half to double. */
#include "plantfile/attributes.h"

#include "model/schema.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    reading *r;
    const char *who;
    const fv_element *element;
    void *part;
    const tree_node *node;
    const tree_attr *given;
} spreading;

static bool is_given(const tree_node *node, const char *name)
{
    return tree_attr_of(node, name) != NULL;
}

/* Differences: of a temperature in K, of the rest in its own unit. */
static bool read_absolute(const spreading *s, const fv_attr *attr, const char *text, double *si)
{
    const fv_dim dim = attr->dim == FV_DIM_TEMPERATURE ? FV_DIM_TEMPERATURE_DIFFERENCE : attr->dim;
    return fv_quantity_parse(s->r->units, dim, text, si, NULL) == FV_OK && *si >= 0;
}

static bool read_amount(const spreading *s, const fv_attr *attr, const char *text, fv_value *value)
{
    double amount;
    const bool factor = strncmp(text, "factor ", 7) == 0;
    const bool number = fv_quantity_parse(s->r->units, factor ? FV_DIM_NUMBER : FV_DIM_FRACTION,
                                          text + (factor ? 7 : 0), &amount, NULL) == FV_OK;
    if (factor && number && amount > 1 && amount <= 100 && value->v > 0) {
        value->spread_as = FV_SPREAD_FACTOR;
    } else if (!factor && number && amount >= 0 && attr->dim != FV_DIM_TEMPERATURE) {
        value->spread_as = attr->dim == FV_DIM_FRACTION ? FV_SPREAD_ABSOLUTE : FV_SPREAD_RELATIVE;
    } else if (!factor && read_absolute(s, attr, text, &amount)) {
        value->spread_as = FV_SPREAD_ABSOLUTE;
        if (attr->dim != FV_DIM_TEMPERATURE && attr->dim != FV_DIM_FRACTION && value->v != 0) {
            value->spread_as = FV_SPREAD_RELATIVE;
            amount /= fabs(value->v);
        }
    } else {
        return false;
    }
    value->spread = (float)amount;
    return true;
}

static void refuse(const spreading *s, const fv_attr *attr, const char *text)
{
    plantfile_reading_say(s->r, s->given->line, "%s: spread=\"...%s\": %s of %s; write it as %s", s->who,
                          fv_shorten(text, 40).text, "no spread", attr->name,
                          attr->dim == FV_DIM_TEMPERATURE ? "a difference, such as \"1.5 K\""
                                                          : "a share, such as \"7 %\", or \"factor 2\"");
}

static void set_one(const spreading *s, const char *name, const char *text)
{
    const fv_attr *attr = fv_attr_find(s->element, name);
    if (attr && !fv_attr_takes(attr, FV_SAYS_SPREAD)) {
        plantfile_reading_say(s->r, s->given->line, "%s: spread speaks of '%s', which is no quantity", s->who,
                              attr->name);
        return;
    }
    if (!attr || !is_given(s->node, name)) {
        plantfile_not_given(s->r, s->who, s->node, s->element, s->given, name);
        return;
    }
    fv_value *value = fv_attr_value(s->part, attr);
    if (value->known != MODEL_REFUSED && !read_amount(s, attr, text, value))
        refuse(s, attr, text);
}

static void set_all(const spreading *s, const char *text)
{
    bool any = false;
    for (size_t i = 0; i < s->element->attr_count; i++) {
        const fv_attr *attr = &s->element->attrs[i];
        if (!fv_attr_takes(attr, FV_SAYS_SPREAD) || !is_given(s->node, attr->name))
            continue;
        any = true;
        if (fv_attr_value(s->part, attr)->known != MODEL_REFUSED &&
            !read_amount(s, attr, text, fv_attr_value(s->part, attr))) {
            refuse(s, attr, text);
            return;
        }
    }
    if (!any)
        plantfile_reading_say(s->r, s->given->line, "%s: spread=\"%s\", but no quantity is given here", s->who,
                              fv_shorten(text, 40).text);
}

/* The blanks before the next piece, which begins with a name and a colon; the end where there is none. */
static char *next_piece(char *text)
{
    char *colon = strchr(text, ':');
    if (!colon)
        return text + strlen(text);
    while (colon > text && colon[-1] != ' ')
        colon--;
    return colon;
}

static void trim_end(char *text)
{
    size_t n = strlen(text);
    while (n > 0 && text[n - 1] == ' ')
        text[--n] = '\0';
}

void plantfile_spread_read(reading *r, const char *who, const tree_node *node)
{
    const tree_attr *given = tree_attr_of(node, "spread");
    if (!given)
        return;
    const spreading s = {r, who, node->element, node->part, node, given};
    char *copy = malloc(strlen(given->value) + 1);
    if (!copy) {
        plantfile_reading_no_memory(r);
        return;
    }
    strcpy(copy, given->value);
    for (char *c = copy; *c; c++)
        if (strchr("\t\r\n", *c))
            *c = ' ';
    for (char *at = copy + strspn(copy, " "); *at;) {
        char *name = next_piece(at);
        if (name > at) { /* before any name: for all */
            const char kept = *name;
            *name = '\0';
            trim_end(at);
            set_all(&s, at);
            *name = kept;
            at = name;
            continue;
        }
        char *colon = strchr(at, ':'), *amount = colon + 1, *next = next_piece(amount);
        const char kept = *next;
        *colon = *next = '\0';
        trim_end(amount);
        set_one(&s, at, amount + strspn(amount, " "));
        *next = kept;
        at = next;
    }
    free(copy);
}
