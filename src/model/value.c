/* SPDX-License-Identifier: MIT */
/* Reading and writing attributes of any part through the schema: places, words, defaults, inheritance. */
#include "model/contains.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

fv_value *fv_attr_value(void *part, const fv_attr *attr)
{
    if (!part || !attr)
        return NULL;
    return (fv_value *)(void *)((char *)part + attr->offset);
}

const char **fv_attr_text(void *part, const fv_attr *attr)
{
    if (!part || !attr)
        return NULL;
    return (const char **)(void *)((char *)part + attr->offset);
}

static size_t word_length(const char *words)
{
    return strcspn(words, "|");
}

int fv_word_find(const char *words, const char *word)
{
    if (!words || !word)
        return -1;
    size_t wanted = strlen(word);
    for (int i = 0;; i++) {
        size_t length = word_length(words);
        if (length == wanted && memcmp(words, word, length) == 0)
            return i;
        if (words[length] == '\0')
            return -1;
        words += length + 1;
    }
}

const char *fv_word_at(const char *words, int index, char *buffer, size_t size)
{
    if (!words)
        return NULL;
    for (int i = 0; i < index; i++) {
        size_t length = word_length(words);
        if (words[length] == '\0')
            return snprintf(buffer, size, "?") < 0 ? "" : buffer;
        words += length + 1;
    }
    snprintf(buffer, size, "%.*s", (int)word_length(words), words);
    return buffer;
}

fv_value model_fallback(double si)
{
    fv_value value = {.v = si, .origin = FV_ASSUMED, .known = FV_KNOWN_UNSAID};
    if (isnan(si))
        value.origin = FV_UNSET;
    return value;
}

void fv_element_defaults(const fv_element *element, void *part)
{
    if (!part)
        return;
    for (size_t i = 0; i < element->attr_count; i++) {
        const fv_attr *attr = &element->attrs[i];
        if (model_is_text(attr))
            *fv_attr_text(part, attr) = NULL;
        else
            *fv_attr_value(part, attr) = model_fallback(attr->fallback);
    }
}

/* Names (FV_DIM_ID) are never taken over: an id is a part's own, `like` has been followed by now, and where a part sits
 * is what tells it from the one it is like. */
void model_inherit(const fv_element *element, void *part, const void *from, bool own_too)
{
    if (!part || !from)
        return;
    fv_part *head = part;
    const unsigned own_texts = ~((const fv_part *)from)->texts_from_kind;
    for (size_t i = 0; i < element->attr_count; i++) {
        const fv_attr *attr = &element->attrs[i];
        /* The kind's own table may lack or reorder rows; both share one struct, so the offset is what counts. */
        const char *source = (const char *)from + attr->offset;
        if (!model_is_text(attr)) {
            fv_value *value = fv_attr_value(part, attr);
            const fv_value *theirs = (const fv_value *)(const void *)source;
            if (!model_is_own(*value) && theirs->origin >= FV_KIND && (own_too || theirs->origin == FV_KIND))
                *value = (fv_value){.v = theirs->v,
                                    .origin = FV_KIND,
                                    .known = theirs->known,
                                    .spread_as = theirs->spread_as,
                                    .spread = theirs->spread};
        } else if (attr->dim == FV_DIM_TEXT && (own_too || !(own_texts >> i & 1u))) {
            const char **text = fv_attr_text(part, attr);
            const char *theirs = *(const char *const *)(const void *)source;
            if ((!*text || (head->texts_from_kind >> i & 1u)) && theirs) {
                *text = theirs;
                head->texts_from_kind |= 1u << i;
            }
        }
    }
}

void fv_element_inherit(const fv_element *element, void *part, const void *from)
{
    model_inherit(element, part, from, true);
}

bool model_says(const fv_element *element, const void *part)
{
    const unsigned taken_over = model_has_head(element) ? ((const fv_part *)part)->texts_from_kind : 0;
    for (size_t i = 0; i < element->attr_count; i++) {
        const fv_attr *attr = &element->attrs[i];
        const char *place = (const char *)part + attr->offset;
        if (model_is_text(attr)) {
            if (*(const char *const *)(const void *)place && !(taken_over >> i & 1u))
                return true;
        } else if (model_is_own(*(const fv_value *)(const void *)place)) {
            return true;
        }
    }
    return false;
}
