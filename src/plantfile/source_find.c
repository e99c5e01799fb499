/* SPDX-License-Identifier: MIT */
/* A path to the tag that it names, by the rules of fv_plant_find, but in the text: what a part has from its kind does
 * not stand in it. */
#include "plantfile/source.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

static bool is_word(const char *text, size_t length, const char *word)
{
    return strlen(word) == length && memcmp(text, word, length) == 0;
}

size_t plantfile_source_id(const source_map *map, const char *id, size_t length)
{
    for (size_t i = 1; i < map->node_count; i++) {
        const source_attr *attr = plantfile_source_attr(map, i, "id");
        if (!attr || !map->nodes[i].element)
            continue;
        source_span v = attr->value;
        while (v.from < v.to && isspace((unsigned char)map->text[v.from]))
            v.from++;
        while (v.to > v.from && isspace((unsigned char)map->text[v.to - 1]))
            v.to--;
        if (v.to - v.from == length && memcmp(map->text + v.from, id, length) == 0)
            return i;
    }
    return SOURCE_NONE;
}

/* "wall2": the second of those that are called so in that place; without a number the first. */
static size_t child_in(const source_map *map, size_t owner, const model_slot *slot, const char *step, size_t length)
{
    size_t name = length;
    while (name > 0 && isdigit((unsigned char)step[name - 1]))
        name--;
    size_t number = name == length ? 1 : (size_t)strtoul(step + name, NULL, 10);
    for (size_t i = owner + 1; i < map->node_count && map->nodes[i].from < map->nodes[owner].to; i++) {
        const fv_element *e = map->nodes[i].element;
        if (map->nodes[i].parent != owner || !e || e < model_element(slot->first) || e > model_element(slot->last))
            continue;
        const bool counts = (slot->any && is_word(step, name, slot->any)) || is_word(step, name, e->name);
        if (counts && number > 0 && --number == 0)
            return i;
    }
    return SOURCE_NONE;
}

/* Where a step leads from a node: its own child, or one of what can be there only once ("bin1.hole2"). */
static size_t child_of(const source_map *map, size_t owner, const char *step, size_t length)
{
    const fv_element *element = map->nodes[owner].element;
    for (const model_slot *s = model_slot_next(element, NULL); s; s = model_slot_next(element, s)) {
        size_t found = child_in(map, owner, s, step, length);
        if (found == SOURCE_NONE && s->count == MODEL_ONCE) {
            const char *tag = model_tag(model_element(s->first));
            const size_t inner = child_in(map, owner, s, tag, strlen(tag));
            found = inner == SOURCE_NONE ? inner : child_of(map, inner, step, length);
        }
        if (found != SOURCE_NONE)
            return found;
    }
    return SOURCE_NONE;
}

static size_t find(const source_map *map, const char *path, size_t path_length, size_t *owner, const char **step,
                   size_t *length)
{
    const size_t whole = plantfile_source_id(map, path, path_length);
    *owner = SOURCE_NONE;
    if (whole != SOURCE_NONE)
        return whole;
    size_t dot = path_length;
    while (dot > 0 && path[dot - 1] != '.')
        dot--;
    size_t inside = 0;
    if (dot < 2 && !is_word(path, path_length, "site"))
        return SOURCE_NONE;
    if (dot >= 2)
        inside = find(map, path, dot - 1, owner, step, length);
    else
        dot = 0;
    if (inside == SOURCE_NONE)
        return SOURCE_NONE;
    *step = path + dot;
    *length = path_length - dot;
    *owner = inside;
    return child_of(map, inside, *step, *length);
}

size_t plantfile_source_find(const source_map *map, const char *path, size_t *owner, const char **step, size_t *length)
{
    return find(map, path, strlen(path), owner, step, length);
}
